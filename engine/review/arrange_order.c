// SPDX-License-Identifier: MIT
// What the design itself brings into a report: defaults in use, the order list, cautions.
#include <stdlib.h>

#include "base/arena.h"
#include "review/arrange.h"

// --- the order list

static bool has_any(const struct store *design, uint64_t kinds) {
  for (size_t i = 0; i < design->entity_count; i++) {
    if (kinds_hold(kinds, design->entities[i].kind)) return true;
  }
  return false;
}

static const struct {
  const char *what;
  enum row_id row;
  uint64_t brought_by;  // kinds without which there is nothing to order
} orders[] = {
    {"gravel to order", ROW_project_gravel_volume, KIND_BIT(boulder) | KIND_BIT(basin)},
    {"weight of that gravel", ROW_project_gravel_mass, KIND_BIT(boulder) | KIND_BIT(basin)},
    {"all stones together, at most", ROW_project_stone_mass_high, KIND_BIT(boulder)},
    {"soil in the ground", ROW_project_bank_volume, KIND_BIT(dig)},
    {"soil to haul, loose", ROW_project_loose_volume, KIND_BIT(dig)},
    {"truckloads of soil", ROW_project_loads, KIND_BIT(dig)},
    {"working days of one truck", ROW_project_haul_days, KIND_BIT(dig)},
};
enum { ORDERS = sizeof orders / sizeof *orders };

// Works the value out, so that its reads are kept; finds what stands in its way.
static struct takeoff_row order(const struct review *review, const char *what, int entity, enum row_id row) {
  struct takeoff_row made = {.what = what, .entity = entity, .row = row};
  if (evaluation_condition(review->evaluation, entity, row) != CONDITION_MISSING) return made;
  int slot = store_slot(review->design, entity, row);
  int *roots = NULL;
  made.root_count = evaluation_roots(review->evaluation, &slot, 1, &roots);
  made.roots = roots;
  return made;
}

const struct takeoff_row *review_takeoff(const struct review *review, size_t *count) {
  struct takeoff_row *list = arena_array(review->arena, ORDERS, sizeof *list);
  *count = 0;
  if (store_count(review->design, KIND_project) == 0) return list;
  int project = store_of_kind(review->design, KIND_project, 0);
  for (size_t i = 0; i < ORDERS; i++) {
    if (!has_any(review->design, orders[i].brought_by)) continue;
    list[(*count)++] = order(review, orders[i].what, project, orders[i].row);
  }
  return list;
}

// --- defaults

static void mark_all(bool *marked, const int *slots, size_t count) {
  for (size_t i = 0; i < count; i++) marked[slots[i]] = true;
}

// Marks every slot that a rule, a quantity or the order list read.
static bool *slots_read(const struct review *review) {
  size_t slots = review->design->slot_count, ordered;
  review_takeoff(review, &ordered);
  bool *marked = arena_array(review->arena, slots, sizeof *marked);
  for (size_t i = 0; i < review->outcome_count; i++) {
    mark_all(marked, review->outcomes[i].reads, review->outcomes[i].read_count);
  }
  for (size_t slot = 0; slot < slots; slot++) {
    const int *reads = NULL;
    size_t count = evaluation_reads(review->evaluation, (int)slot, &reads);
    mark_all(marked, reads, count);
  }
  return marked;
}

struct default_key {
  int slot;
  enum row_id row;
};

static int by_row(const void *a, const void *b) {
  const struct default_key *one = a, *other = b;
  if (one->row != other->row) return one->row < other->row ? -1 : 1;
  return one->slot < other->slot ? -1 : one->slot > other->slot;
}

const int *review_defaults(const struct review *review, size_t *count) {
  const struct store *design = review->design;
  const bool *marked = slots_read(review);
  struct default_key *keys = arena_array(review->arena, design->slot_count, sizeof *keys);
  *count = 0;
  for (size_t slot = 0; slot < design->slot_count; slot++) {
    if (!marked[slot] || design->slots[slot].condition != CONDITION_DEFAULT) continue;
    int entity;
    keys[(*count)++] = (struct default_key){(int)slot, store_row_of_slot(design, (int)slot, &entity)};
  }
  if (*count) qsort(keys, *count, sizeof *keys, by_row);
  int *list = arena_array(review->arena, *count, sizeof *list);
  for (size_t i = 0; i < *count; i++) list[i] = keys[i].slot;
  return list;
}

// --- cautions

static const struct {
  uint64_t brought_by;
  const char *words;
} cautions[] = {
    {KIND_BIT(basin),
     "Drowning: a child can drown in a few inches of water, and quickly. Fences, covers, watching and the way out "
     "follow "
     "the local code, also while the work is open."},
    {KIND_BIT(pump) | KIND_BIT(circuit) | KIND_BIT(jet),
     "Electricity near water kills. Circuits, ground-fault protection and bonding are the work of a licensed "
     "electrician "
     "under the code in force; nobody is in the water while the power is on for work."},
    {KIND_BIT(intake) | KIND_BIT(pump),
     "Suction can hold hair, a hand or a body under water. Covers and flow limits follow their listing and the local "
     "code."},
    {KIND_BIT(dig) | KIND_BIT(basin),
     "Excavation: have lines located before any digging. Sides can fall without warning; a competent person examines "
     "the "
     "pit before each shift and after rain, and decides on slope and shoring."},
    {KIND_BIT(boulder) | KIND_BIT(machine) | KIND_BIT(coping),
     "Lifting: weights here are estimates. The machine's own chart, the rigging's tags and its operator decide; nobody "
     "stands under or beside a hanging stone."},
    {KIND_BIT(boulder) | KIND_BIT(wall) | KIND_BIT(coping),
     "Falling stone: a stone or cap can tip until all that holds it is in place. Keep people out of where it would "
     "fall."},
    {KIND_BIT(wall),
     "Structures: walls, slopes and anything near a building may need a licensed engineer and a permit. Ask before "
     "building."},
    {KIND_BIT(boulder) | KIND_BIT(wall) | KIND_BIT(coping),
     "Dust: cutting and splitting stone sets free silica, which ruins lungs. Cut wet or with extraction, and wear what "
     "the safety rules in force ask."},
};
enum { CAUTIONS = sizeof cautions / sizeof *cautions };

const char *const *review_cautions(const struct review *review, size_t *count) {
  const char **list = arena_array(review->arena, CAUTIONS, sizeof *list);
  *count = 0;
  for (size_t i = 0; i < CAUTIONS; i++) {
    if (has_any(review->design, cautions[i].brought_by)) list[(*count)++] = cautions[i].words;
  }
  return list;
}
