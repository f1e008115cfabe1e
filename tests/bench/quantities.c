// SPDX-License-Identifier: MIT
// All quantities of a design once, for counting their instructions; and the share of them that a change of one lip's
// width would ask anew, by the reads that were kept. quantities DESIGN
#include <stdio.h>

#include "design/read.h"
#include "quantities/evaluate.h"
#include "quantities/functions.h"

static bool reaches(struct evaluation *ev, int slot, int given, signed char *known) {
  const int *reads;
  if (slot == given) return true;
  if (known[slot]) return known[slot] > 0;
  known[slot] = -1;
  size_t count = evaluation_reads(ev, slot, &reads);
  for (size_t i = 0; i < count && known[slot] < 0; i++) {
    if (reaches(ev, reads[i], given, known)) known[slot] = 1;
  }
  return known[slot] > 0;
}

static bool is_worked(const struct store *store, int slot, int *entity, enum row_id *row) {
  *row = store_row_of_slot(store, slot, entity);
  return row_function(*row) != NULL;
}

__attribute__((noinline)) static size_t work_out(struct evaluation *ev, const struct store *store) {
  size_t count = 0;
  for (size_t i = 0; i < store->slot_count; i++) {
    int entity;
    enum row_id row;
    if (!is_worked(store, (int)i, &entity, &row)) continue;
    evaluation_condition(ev, entity, row);
    count++;
  }
  return count;
}

static void report(struct arena *arena, struct evaluation *ev, const struct store *store, size_t all) {
  printf("%zu quantities worked out\n", all);
  if (store_count(store, KIND_spill) == 0) return;
  int lip = store_of_kind(store, KIND_spill, 0), given = store_slot(store, lip, ROW_spill_lip_width);
  signed char *known = arena_array(arena, store->slot_count, sizeof *known);
  size_t again = 0;
  for (size_t i = 0; i < store->slot_count; i++) {
    int entity;
    enum row_id row;
    if (is_worked(store, (int)i, &entity, &row)) again += reaches(ev, (int)i, given, known);
  }
  printf("a change of one lip width asks %zu of them anew: %zu %%\n", again, (100 * again + all / 2) / all);
}

int main(int argc, char **argv) {
  struct arena *arena = arena_new();
  if (!arena || argc != 2) return 2;
  struct problems problems = problems_in(arena);
  struct file_bytes file;
  struct store *store = file_read(&problems, argv[1], 1 << 20, &file) ? design_read(arena, &file, &problems) : NULL;
  if (!store) return 2;
  struct evaluation *ev = evaluation_in(arena, store, &problems);
  report(arena, ev, store, work_out(ev, store));
  arena_free(arena);
  return 0;
}
