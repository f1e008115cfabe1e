// SPDX-License-Identifier: MIT
// Fixes by their numbers, written into the design's file.
#include <string.h>

#include "mend/mend_inside.h"

struct applying {
  struct arena *arena;
  const struct review *review;
  const struct mends *mends;
  struct problems *problems;
  struct changes changes;
  bool wrong;
};

static void refuse(struct applying *a, const char *said, const char *right) {
  problem_add(a->problems, (struct problem){.said = said, .right = right});
  a->wrong = true;
}

static bool can_be_written(enum mend_standing standing) {
  return standing == MEND_PROVEN || standing == MEND_RAISES || standing == MEND_CHOICE;
}

static bool is_there(const struct applying *a, size_t number) {
  return number >= 1 && number <= a->mends->count && can_be_written(a->mends->list[number - 1].best.standing);
}

// Numbers that could be asked for: "1, 5, 8 to 17".
static const char *choices(struct applying *a) {
  struct text text = text_in(a->arena);
  for (size_t n = 1; n <= a->mends->count; n++) {
    size_t last = n;
    if (!is_there(a, n)) continue;
    while (is_there(a, last + 1)) last++;
    text_printf(&text, "%s%zu", text.length ? ", " : "", n);
    if (last > n) text_printf(&text, last > n + 1 ? " to %zu" : ", %zu", last);
    n = last;
  }
  return text.length ? text_end(&text) : NULL;
}

static bool is_same_change(const struct mend_change *a, const struct mend_change *b) {
  return strcmp(a->text, b->text) == 0;
}

static const struct mend_change *change_of(const struct changes *changes, const struct mend_change *like) {
  for (size_t i = 0; i < changes->count; i++) {
    if (changes->list[i].entity == like->entity && changes->list[i].row == like->row) return &changes->list[i];
  }
  return NULL;
}

static void add(struct applying *a, const char *what, const struct mend *mend) {
  for (size_t i = 0; i < mend->count; i++) {
    const struct mend_change *other = change_of(&a->changes, &mend->changes[i]);
    if (!other || is_same_change(other, &mend->changes[i])) continue;
    struct text where = text_in(a->arena);
    store_describe(&where, a->review->design, other->entity, other->row);
    refuse(a,
           text_phrase(a->arena, "%s changes %s to %s, and another one asked for changes it to %s", what,
                       text_end(&where), mend->changes[i].text, other->text),
           "one of the two, then a review, then the next; or --apply joint");
    return;
  }
  a->changes = changes_joined(a->arena, a->changes, (struct changes){mend->changes, mend->count});
}

static void add_number(struct applying *a, size_t number) {
  if (number < 1 || number > a->mends->count) {
    refuse(a,
           a->mends->count
               ? text_phrase(a->arena, "there is no finding %zu: they go from 1 to %zu", number, a->mends->count)
               : text_phrase(a->arena, "there is no finding %zu: there is none at all", number),
           choices(a));
    return;
  }
  const struct mend *best = &a->mends->list[number - 1].best;
  const char *what = text_phrase(a->arena, "fix %zu", number);
  if (can_be_written(best->standing)) {
    add(a, what, best);
  } else if (a->mends->list[number - 1].finding->sort != OUTCOME_FLAGGED) {
    refuse(a, text_phrase(a->arena, "finding %zu waits for an answer; no change of the design gives it", number),
           choices(a));
  } else {
    refuse(a,
           text_phrase(a->arena, "%s cannot be written: %s%s%s", what, mend_standing_words(best->standing),
                       best->why ? "; " : "", best->why ? best->why : ""),
           choices(a));
  }
}

static void add_joint(struct applying *a) {
  const struct mend *joint = &a->mends->joint.mend;
  if (joint->count && can_be_written(joint->standing)) {
    add(a, "the joint set", joint);
  } else {
    refuse(a, joint->count ? "the joint set cannot be written as it stands" : "no set of changes was found",
           choices(a));
  }
}

bool mend_apply(struct arena *arena, const struct mend_order *order, struct file_bytes *made,
                struct problems *problems) {
  struct applying a = {.arena = arena, .review = order->review, .mends = order->mends, .problems = problems};
  if (order->joint) add_joint(&a);
  for (size_t i = 0; i < order->count; i++) add_number(&a, order->numbers[i]);
  return !a.wrong && mend_write(arena, order->review->design, order->source, a.changes, made, problems);
}
