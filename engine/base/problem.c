// SPDX-License-Identifier: MIT
#include "base/problem.h"

#include <stdbool.h>
#include <stdint.h>
#include <string.h>

enum { LONGEST_QUOTE = 80 };

struct problems problems_in(struct arena *arena) {
  return (struct problems){.arena = arena};
}

static const char *keep(struct arena *arena, const char *words) { return words ? arena_words(arena, words) : NULL; }

void problem_add(struct problems *problems, struct problem problem) {
  struct arena *arena = problems->arena;
  struct problem kept = {
      .at = {.file = keep(arena, problem.at.file), .line = problem.at.line},
      .where = keep(arena, problem.where),
      .said = keep(arena, problem.said),
      .read = keep(arena, problem.read),
      .right = keep(arena, problem.right),
      .cause = keep(arena, problem.cause),
  };
  problems->list = arena_grow(arena, problems->list, problems->count, &problems->room, sizeof *problems->list);
  problems->list[problems->count++] = kept;
}

static bool same_file(const struct problem *a, const struct problem *b) {
  if (!a->at.file || !b->at.file) return a->at.file == b->at.file;
  return strcmp(a->at.file, b->at.file) == 0;
}

// Puts list[taken] behind the last of the first `taken` that it must follow; those are grouped by file already.
static size_t place_for(const struct problem *list, size_t taken, const struct problem *one) {
  size_t place = taken;
  for (size_t i = 0; i < taken; i++) {
    if (!same_file(&list[i], one)) continue;
    if (list[i].at.line > one->at.line) return i;
    place = i + 1;
  }
  return place;
}

void problems_sort(struct problems *problems) {
  for (size_t taken = 1; taken < problems->count; taken++) {
    struct problem one = problems->list[taken];
    size_t place = place_for(problems->list, taken, &one);
    memmove(&problems->list[place + 1], &problems->list[place], (taken - place) * sizeof one);
    problems->list[place] = one;
  }
}

// Control characters would break the line, or drive a terminal.
static void write_visible(struct text *text, const char *words, size_t most) {
  size_t length = strlen(words), cut = text_cut(words, length, most);
  for (size_t i = 0; i < cut;) {
    size_t control = text_control(words + i, cut - i);
    bool blank = words[i] == '\n' || words[i] == '\t';
    text_add_char(text, !control ? words[i] : blank ? ' ' : '?');
    i += control ? control : 1;
  }
  if (cut < length) text_add(text, "...");
}

static void write_place(struct text *text, const struct place *at) {
  if (!at->file) return;
  write_visible(text, at->file, SIZE_MAX);
  if (at->line > 0) text_printf(text, ":%d", at->line);
  text_add(text, ": ");
}

void problem_write(struct text *text, const struct problem *problem) {
  write_place(text, &problem->at);
  if (problem->where) {
    write_visible(text, problem->where, SIZE_MAX);
    text_add(text, ": ");
  }
  write_visible(text, problem->said ? problem->said : "something is wrong", SIZE_MAX);
  if (problem->read) {
    text_add(text, "; read \"");
    write_visible(text, problem->read, LONGEST_QUOTE);
    text_add(text, "\"");
  }
  if (problem->right) {
    text_add(text, "; write ");
    write_visible(text, problem->right, SIZE_MAX);
  }
  if (problem->cause) {
    text_add(text, "\n    ");
    write_visible(text, problem->cause, SIZE_MAX);
  }
}

void problems_write(struct text *text, const struct problems *problems, size_t most) {
  size_t shown = problems->count < most ? problems->count : most;
  for (size_t i = 0; i < shown; i++) {
    problem_write(text, &problems->list[i]);
    text_add_char(text, '\n');
  }
  if (shown < problems->count) text_printf(text, "and %zu more\n", problems->count - shown);
}
