// SPDX-License-Identifier: MIT
// What to answer first, the same given of several entities taken together.
#include <stdlib.h>
#include <string.h>

#include "review/arrange.h"

struct sorting {
  const struct review *review;
  struct asked *list;
  int **slots;      // of each in the list
  size_t *rooms;    // for them
  size_t *of_slot;  // 1 + its place in the list; 0: nobody waits for it
  size_t count;
};

static bool same_words(const char *a, const char *b) { return a == b || (a && b && strcmp(a, b) == 0); }

static enum row_id row_of(const struct review *review, int slot) {
  int entity;
  return store_row_of_slot(review->design, slot, &entity);
}

// Rows of different kinds are alike where they read alike: the flow that is wanted of a lip or of a jet.
static bool is_alike(const struct review *review, int one, int other) {
  const struct row *a = catalogue_row(row_of(review, one)), *b = catalogue_row(row_of(review, other));
  bool same_row = a == b || (a->sort == b->sort && a->words == b->words && same_words(a->name, b->name) &&
                             same_words(a->says, b->says));
  return same_row &&
         same_words(evaluation_because(review->evaluation, one), evaluation_because(review->evaluation, other));
}

static void take(struct sorting *sorting, int slot) {
  size_t place = 0;
  while (place < sorting->count && !is_alike(sorting->review, sorting->slots[place][0], slot)) place++;
  sorting->count += place == sorting->count;
  struct asked *asked = &sorting->list[place];
  int **slots = &sorting->slots[place];
  *slots = arena_grow(sorting->review->arena, *slots, asked->slot_count, &sorting->rooms[place], sizeof(int));
  (*slots)[asked->slot_count++] = slot;
  asked->slots = *slots;
  sorting->of_slot[slot] = place + 1;
}

// An answer waits once for all that is asked together: `last` keeps which outcome was counted last.
static void count_waiting(struct sorting *sorting, size_t *last) {
  for (size_t i = 0; i < sorting->review->outcome_count; i++) {
    const struct outcome *outcome = &sorting->review->outcomes[i];
    bool waits = outcome->sort == OUTCOME_UNANSWERED && outcome->counting == COUNTS;
    for (size_t r = 0; waits && r < outcome->root_count; r++) {
      size_t place = sorting->of_slot[outcome->roots[r]] - 1;
      if (last[place] == i + 1) continue;
      last[place] = i + 1;
      sorting->list[place].waiting++;
      sorting->list[place].held += outcome->counts_as_held;
    }
  }
}

static int most_asked_first(const void *a, const void *b) {
  const struct asked *one = a, *other = b;
  if (one->held != other->held) return one->held > other->held ? -1 : 1;
  if (one->waiting != other->waiting) return one->waiting > other->waiting ? -1 : 1;
  return one->slots[0] < other->slots[0] ? -1 : one->slots[0] > other->slots[0];
}

const struct asked *review_asked(const struct review *review, size_t *count) {
  size_t awaited;
  const struct awaited *each = review_awaited(review, &awaited);
  struct sorting sorting = {.review = review,
                            .list = arena_array(review->arena, awaited, sizeof(struct asked)),
                            .slots = arena_array(review->arena, awaited, sizeof(int *)),
                            .rooms = arena_array(review->arena, awaited, sizeof(size_t)),
                            .of_slot = arena_array(review->arena, review->design->slot_count, sizeof(size_t))};
  for (size_t i = 0; i < awaited; i++) take(&sorting, each[i].slot);
  count_waiting(&sorting, arena_array(review->arena, awaited, sizeof(size_t)));
  *count = sorting.count;
  if (*count) qsort(sorting.list, *count, sizeof *sorting.list, most_asked_first);
  return sorting.list;
}
