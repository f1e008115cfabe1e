// SPDX-License-Identifier: MIT
#include "report/compare.h"

#include <stdlib.h>
#include <string.h>

#include "report/compare_inside.h"
#include "report/tried.h"
#include "review/arrange.h"

enum { WIDTH = 80, COLUMN_OF_FILE = 3 };

// --- lines of values

bool compare_differ(const char *const *values, size_t count) {
  for (size_t i = 1; i < count; i++) {
    if (!values[0] != !values[i] || (values[0] && strcmp(values[0], values[i]) != 0)) return true;
  }
  return false;
}

void compare_row(struct comparing *c, const char *label, const char *const *values) {
  struct text words = text_in(c->arena), line = text_in(c->arena);
  for (size_t i = 0; i < c->count; i++) text_printf(&words, "%s%s", i ? " | " : "", values[i] ? values[i] : "-");
  size_t length = text_columns(label, strlen(label)) + COMPARE_STEP;
  if (length + 2 > COMPARE_VALUES) {
    page_wrap(&c->page, COMPARE_STEP, COMPARE_STEP, label);
    page_wrap(&c->page, COMPARE_VALUES, 0, text_end(&words));
    return;
  }
  text_printf(&line, "%s ", label);
  text_add_many(&line, '.', COMPARE_VALUES - length - 2);
  text_add_char(&line, ' ');
  page_labelled(&c->page, COMPARE_STEP, COMPARE_VALUES - COMPARE_STEP, PAINT_PLAIN, text_end(&line), text_end(&words));
}

// --- what is like what, by kind and name

struct known {
  const char *name;
  size_t subject;
};

static int by_name(const void *a, const void *b) {
  return strcmp(((const struct known *)a)->name, ((const struct known *)b)->name);
}

static struct subject *subject_named(struct comparing *c, const struct known *known, size_t count, const char *name) {
  const struct known *found = bsearch(&(struct known){name, 0}, known, count, sizeof *known, by_name);
  return found ? &c->subjects[found->subject] : NULL;
}

static struct subject *add_subject(struct comparing *c, const char *name, enum kind kind) {
  c->subjects = arena_grow(c->arena, c->subjects, c->subject_count, &c->subject_room, sizeof *c->subjects);
  struct subject *subject = &c->subjects[c->subject_count++];
  *subject = (struct subject){.name = name, .kind = kind};
  for (size_t i = 0; i < COMPARE_MOST; i++) subject->of[i] = -1;
  return subject;
}

static const struct known *known_so_far(struct comparing *c) {
  struct known *known = arena_array(c->arena, c->subject_count + 1, sizeof *known);
  for (size_t i = 0; i < c->subject_count; i++) known[i] = (struct known){c->subjects[i].name, i};
  qsort(known, c->subject_count, sizeof *known, by_name);
  return known;
}

static void gather_side(struct comparing *c, size_t side) {
  const struct store *design = c->sides[side].design;
  const struct known *known = known_so_far(c);
  size_t count = c->subject_count;
  for (size_t e = 0; e < design->entity_count; e++) {
    const struct entity *it = &design->entities[e];
    if (it->owner >= 0) continue;
    struct text name = text_in(c->arena);
    store_describe_entity(&name, design, (int)e);
    struct subject *subject = subject_named(c, known, count, text_end(&name));
    if (!subject) subject = add_subject(c, text_end(&name), it->kind);
    subject->of[side] = (int)e;
    subject->written = subject->written || it->at.line > 0;
  }
}

// --- the head and the verdicts

static void write_head(struct comparing *c) {
  page_labelled(&c->page, 0, 0, PAINT_BOLD, "COMPARED", "");
  for (size_t i = 0; i < c->count; i++) {
    const struct side *side = &c->sides[i];
    char label[] = {compare_letter(i), ' ', ' ', '\0'};
    struct text words = text_in(c->arena);
    text_printf(&words, "%s (%s)", side->file, side->digest);
    page_labelled(&c->page, 0, COLUMN_OF_FILE, PAINT_BOLD, label, text_end(&words));
    for (size_t k = 0; k < side->design->overlaid_count; k++) {
      if (!tried_is(side->design, k)) continue;
      struct text tried = text_in(c->arena);
      tried_words(&tried, &side->wording, k);
      page_labelled(&c->page, COLUMN_OF_FILE, 7, PAINT_BOLD, "TRIED: ", text_end(&tried));
    }
  }
}

static void write_verdict(struct comparing *c, size_t i) {
  static const char *const words[] = {
      [VERDICT_HELD] = "DO NOT DIG YET",
      [VERDICT_NO_RULES] = "NOTHING WAS CHECKED",
      [VERDICT_INCOMPLETE] = "THE REVIEW IS INCOMPLETE",
      [VERDICT_NOTHING_HELD] = "NOTHING HELD by the rules in force",
  };
  const struct review *review = c->sides[i].review;
  struct review_counts counts = review_count(review);
  char label[] = {compare_letter(i), ' ', ' ', '\0'};
  struct text line = text_in(c->arena);
  text_printf(&line, "%s: %zu hold", words[review_verdict(review)], counts.severities[SEVERITY_HOLD]);
  if (counts.unanswered_held) text_printf(&line, " (%zu not answered)", counts.unanswered_held);
  text_printf(&line, ", %zu revise, %zu advise; ", counts.severities[SEVERITY_REVISE],
              counts.severities[SEVERITY_ADVISE]);
  text_printf(&line, "%zu unanswered in all, %zu clear", counts.sorts[OUTCOME_UNANSWERED], counts.sorts[OUTCOME_CLEAR]);
  if (counts.sorts[OUTCOME_BROKEN] + counts.broken_rules > 0)
    text_printf(&line, ", %zu broken", counts.sorts[OUTCOME_BROKEN] + counts.broken_rules);
  page_labelled(&c->page, COMPARE_STEP, COLUMN_OF_FILE, PAINT_BOLD, label, text_end(&line));
}

static void write_verdicts(struct comparing *c) {
  page_heading(&c->page, "VERDICTS");
  for (size_t i = 0; i < c->count; i++) write_verdict(c, i);
}

void compare_text(struct text *text, const struct compare_side *sides, size_t count, enum unit_system units) {
  struct comparing c = {.page = page_in(text->arena, WIDTH), .arena = text->arena, .count = count};
  struct problems *found = arena_alloc(text->arena, sizeof *found);
  *found = problems_in(text->arena);
  for (size_t i = 0; i < count; i++) {
    const struct store *design = sides[i].review->design;
    c.sides[i] = (struct side){
        sides[i].review, design, sides[i].file, sides[i].digest, {evaluation_in(text->arena, design, found), units}};
  }
  for (size_t i = 0; i < count; i++) gather_side(&c, i);
  write_head(&c);
  write_verdicts(&c);
  compare_givens(&c);
  compare_findings(&c);
  compare_quantities(&c);
  compare_takeoff(&c);
  page_blank(&c.page);
  page_wrap(
      &c.page, 0, 0,
      "Only what differs is shown. None of this is a permit to dig: forebay review says why each finding is made, "
      "and what to be careful of.");
  page_finish(&c.page, false, text);
}
