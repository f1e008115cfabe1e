// SPDX-License-Identifier: MIT
// Who is to blame for what is missing.
#include "quantities/evaluate_inside.h"

struct blame {
  struct evaluation *ev;
  unsigned long search;
  int *roots;
  size_t count, room;
};

// A list with nothing in it lacks nothing.
static bool lacking(const struct result *result) {
  const struct row *row = catalogue_row((enum row_id)result->row);
  bool unset = result->condition == CONDITION_UNSET && (!row_is_list(row) || row->sort == SORT_SHAPE);
  return result->progress == DONE && (unset || result->condition == CONDITION_MISSING);
}

static bool is_bundle(const struct result *result) {
  return catalogue_row((enum row_id)result->row)->sort == SORT_BUNDLE;
}

// Where it was merely asked whether something is stated, the answer was no, and the value was had another way.
static bool was_read(const struct result *result, size_t read) {
  return !result->merely_asked || !result->merely_asked[read];
}

// A value is to blame itself when it says so, or when nothing that it read is lacking. Nobody can measure a bundle:
// one that cannot be worked out leaves the blame, and its reason, with the value that reads it.
static bool to_blame(const struct blame *blame, int slot) {
  struct result *result = &blame->ev->results[slot];
  if (result->because) return true;
  bool blameless = false;
  if (blame->ev->in_trial) trial_keep(blame->ev, slot);
  for (size_t i = 0; i < result->read_count; i++) {
    const struct result *read = &blame->ev->results[result->reads[i]];
    if (!lacking(read) || !was_read(result, i)) continue;
    if (read->because && is_bundle(read)) result->because = read->because;
    blameless = true;
  }
  return result->because || !blameless;
}

static void blame_slot(struct blame *blame, int slot) {
  struct result *result = &blame->ev->results[slot];
  if (result->blamed == blame->search || !lacking(result)) return;
  result->blamed = blame->search;
  if (!to_blame(blame, slot)) {
    for (size_t i = 0; i < result->read_count; i++) {
      if (was_read(result, i)) blame_slot(blame, result->reads[i]);
    }
    return;
  }
  blame->roots = arena_grow(blame->ev->arena, blame->roots, blame->count, &blame->room, sizeof(int));
  blame->roots[blame->count++] = slot;
}

size_t evaluation_roots(struct evaluation *ev, const int *reads, size_t count, int **roots) {
  struct blame blame = {.ev = ev, .search = ++ev->stamps};
  for (size_t i = 0; i < count; i++) blame_slot(&blame, reads[i]);
  *roots = blame.roots;
  return blame.count;
}
