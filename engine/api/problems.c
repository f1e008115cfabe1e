// SPDX-License-Identifier: MIT
#include "api/handles.h"

static void make(struct arena *arena, void *with) {
  fb_problems **made = with;
  *made = arena_alloc(arena, sizeof **made);
  (*made)->arena = arena;
}

fb_problems *fb_problems_new(void) {
  fb_problems *made = NULL;
  return arena_filled(NULL, make, &made, NULL) ? made : NULL;
}

void fb_problems_free(fb_problems *problems) {
  if (problems) arena_free(problems->arena);
}

size_t fb_problems_count(const fb_problems *problems) { return problems->count; }

const struct fb_problem *fb_problems_at(const fb_problems *problems, size_t index) {
  return index < problems->count ? &problems->list[index] : NULL;
}

bool fb_problems_out_of_memory(const fb_problems *problems) { return problems->out_of_memory; }

void problems_note_no_memory(fb_problems *to) {
  if (to) to->out_of_memory = true;
}

static const char *keep(struct arena *arena, const char *words) { return words ? arena_words(arena, words) : NULL; }

struct handing {
  fb_problems *to;
  const struct problems *found;
};

static void hand_over(void *with) {
  const struct handing *handing = with;
  fb_problems *to = handing->to;
  for (size_t i = 0; i < handing->found->count; i++) {
    const struct problem *problem = &handing->found->list[i];
    struct fb_problem kept = {
        .file = keep(to->arena, problem->at.file),
        .line = problem->at.line,
        .where = keep(to->arena, problem->where),
        .said = keep(to->arena, problem->said),
        .read = keep(to->arena, problem->read),
        .right = keep(to->arena, problem->right),
        .cause = keep(to->arena, problem->cause),
    };
    to->list = arena_grow(to->arena, to->list, to->count, &to->room, sizeof *to->list);
    to->list[to->count++] = kept;
  }
}

void problems_hand_over(fb_problems *to, const struct problems *found) {
  if (!to) return;
  struct handing handing = {to, found};
  if (!arena_try(to->arena, hand_over, &handing)) to->out_of_memory = true;
}
