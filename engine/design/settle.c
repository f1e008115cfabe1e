// SPDX-License-Identifier: MIT
// From values one by one to a design that holds together: defaults, what must be there, references, what refers to
// what.
#include "design/settle.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "design/contradictions.h"
#include "units/read.h"

void store_refer(struct store *store, int entity, enum row_id row, int target) {
  struct slot *slot = store_at(store, entity, row);
  slot->value = target;
  slot->text = NULL;
  slot->condition = CONDITION_GIVEN;
}

static void complain(struct store *store, struct problems *problems, int entity, enum row_id row, const char *said,
                     const char *read, const char *right) {
  store_complain(store, problems, entity, row, (struct complaint){.said = said, .read = read, .right = right});
}

// ---- Singles and names ----

static void add_absent_singles(struct store *store) {
  for (int k = 0; k < KIND_COUNT; k++) {
    if (!catalogue_kind((enum kind)k)->single) continue;
    bool there = false;
    for (size_t e = 0; e < store->entity_count; e++) there = there || store->entities[e].kind == (enum kind)k;
    if (!there) store_add(store, (enum kind)k, NULL, 0);
  }
}

static void check_doubled(struct store *store, struct problems *problems) {
  int single[KIND_COUNT] = {0};
  for (size_t e = 0; e < store->entity_count; e++) {
    const struct entity *entity = &store->entities[e];
    struct text said = text_in(problems->arena);
    if (entity->name) {
      int first = store_named(store, entity->name, strlen(entity->name));
      if (first == (int)e) continue;
      text_printf(&said, "is a name used already, at line %d", store->entities[first].at.line);
      complain(store, problems, (int)e, ROW_COUNT, text_end(&said), entity->name, "a name of its own");
    } else if (catalogue_kind(entity->kind)->single && single[entity->kind]++ > 0) {
      text_printf(&said, "stands twice; a design has one %s", catalogue_kind(entity->kind)->name);
      complain(store, problems, (int)e, ROW_COUNT, text_end(&said), NULL, "one of them");
    }
  }
}

// ---- Defaults and what must be there ----

static void take_standard(struct store *store, struct slot *slot, const struct row *row) {
  slot->text = row->standard;
  slot->condition = CONDITION_DEFAULT;
  if (row->sort == SORT_CHOICE) {
    slot->value = (double)catalogue_word_named(row->words, row->standard, strlen(row->standard));
    return;
  }
  struct reading reading;
  struct text wrong = text_in(store->arena), right = text_in(store->arena);
  if (unit_read(row->standard, strlen(row->standard), row->dimension, &reading, &wrong, &right)) {
    slot->value = reading.value;
  }
}

// A circle has one width: its point's y is not asked.
static bool asked_of(const struct store *store, int entity, enum row_id id) {
  if (id != ROW_point_y) return true;
  const struct entity *point = &store->entities[entity];
  return store_at(store, point->owner, point->list)->value != (double)WORD_shape_circle;
}

static void check_row(struct store *store, struct problems *problems, int entity, enum row_id id, bool strict) {
  const struct row *row = catalogue_row(id);
  struct slot *slot = store_at(store, entity, id);
  if (slot->condition == CONDITION_UNSET && row->standard) take_standard(store, slot, row);
  if (!strict) return;
  struct text said = text_in(problems->arena);
  if (slot->condition == CONDITION_UNSET) {
    if (row->required && slot->line == 0 && asked_of(store, entity, id)) {
      text_printf(&said, "is not written; %s is needed", row->says);
      const char *example = row_is_number(row)         ? dimension_row(row->dimension)->example
                            : row->sort == SORT_CHOICE ? store_word_choices(problems->arena, row->words)
                                                       : NULL;
      complain(store, problems, entity, id, text_end(&said), NULL, example);
    }
    return;
  }
  if (row->sort != SORT_PARTS && row->sort != SORT_REFERENCES && row->sort != SORT_SHAPE) return;
  int count = (int)store_members(store, entity, id);
  if (row->few > 0 && count < row->few) {
    text_printf(&said, "has %d, at least %d are needed", count, row->few);
    complain(store, problems, entity, id, text_end(&said), NULL, NULL);
  }
  if (row->many > 0 && count > row->many) {
    text_printf(&said, "has %d, at most %d can be used", count, row->many);
    complain(store, problems, entity, id, text_end(&said), NULL, NULL);
  }
}

static void check_rows(struct store *store, struct problems *problems, bool strict) {
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (!row_is_given(row)) continue;
    for (size_t e = 0; e < store->entity_count; e++) {
      if (store->entities[e].kind == row->kind) check_row(store, problems, (int)e, (enum row_id)r, strict);
    }
  }
}

// ---- References ----

static const char *target_kinds(struct arena *arena, uint64_t targets) {
  struct text kinds = text_in(arena);
  store_write_targets(&kinds, targets);
  return text_end(&kinds);
}

// A member of a list may refer to what its list allows.
static uint64_t targets_of(const struct store *store, int entity, const struct row *row) {
  return row->kind == KIND_link ? catalogue_row(store->entities[entity].list)->targets : row->targets;
}

static void resolve(struct store *store, struct problems *problems, int entity, enum row_id id) {
  struct slot *slot = store_at(store, entity, id);
  if (slot->condition != CONDITION_GIVEN || !slot->text) return;
  uint64_t targets = targets_of(store, entity, catalogue_row(id));
  int target = store_named(store, slot->text, strlen(slot->text));
  struct text said = text_in(problems->arena), right = text_in(problems->arena);
  if (target < 0) {
    const char *near = store_nearest_entity(store, slot->text, targets);
    if (near) text_printf(&right, "\"%s\"", near);
    complain(store, problems, entity, id, "refers to nothing in this design", slot->text,
             near ? text_end(&right) : target_kinds(problems->arena, targets));
    slot->condition = CONDITION_UNSET;
  } else if (!kinds_hold(targets, store->entities[target].kind)) {
    text_printf(&said, "refers to a %s", catalogue_kind(store->entities[target].kind)->name);
    complain(store, problems, entity, id, text_end(&said), slot->text, target_kinds(problems->arena, targets));
    slot->condition = CONDITION_UNSET;
  } else {
    slot->value = target;
  }
}

static void resolve_all(struct store *store, struct problems *problems) {
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->sort != SORT_REFERENCE) continue;
    for (size_t e = 0; e < store->entity_count; e++) {
      if (store->entities[e].kind == row->kind) resolve(store, problems, (int)e, (enum row_id)r);
    }
  }
}

// ---- What refers to what ----

static void order_by_kind(struct store *store) {
  store->by_kind = arena_array(store->arena, store->entity_count + 1, sizeof *store->by_kind);
  int next = 0;
  for (int k = 0; k < KIND_COUNT; k++) {
    store->kind_first[k] = next;
    for (size_t e = 0; e < store->entity_count; e++) {
      if (store->entities[e].kind == (enum kind)k) store->by_kind[next++] = (int)e;
    }
  }
  store->kind_first[KIND_COUNT] = next;
}

static void add_back(struct store *store, int from) {
  store->back = arena_grow(store->arena, store->back, store->back_count, &store->back_room, sizeof *store->back);
  store->back[store->back_count++] = from;
}

static void gather_back(struct store *store, enum row_id id, int entity) {
  const struct row *row = catalogue_row(id);
  struct slot *slot = store_at(store, entity, id);
  slot->first = (int)store->back_count;
  slot->condition = CONDITION_GIVEN;
  for (size_t i = 0; i < store_count(store, row->part); i++) {
    int from = store_of_kind(store, row->part, i);
    const struct slot *reference = store_at(store, from, row->via);
    if (reference->condition == CONDITION_GIVEN && reference->value == entity) add_back(store, from);
  }
  slot->value = (double)((int)store->back_count - slot->first);
}

static void gather_all_back(struct store *store) {
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->sort != SORT_BACK) continue;
    for (size_t i = 0; i < store_count(store, row->kind); i++) {
      gather_back(store, (enum row_id)r, store_of_kind(store, row->kind, i));
    }
  }
}

// ---- Circles of place ----

struct place_walk {
  struct store *store;
  struct problems *problems;
  unsigned char *seen;  // 1: on the way, 2: done
  int *way;
  size_t depth;
};

static void tell_circle(struct place_walk *walk, int entity, enum row_id id, int back_to) {
  struct text said = text_in(walk->problems->arena);
  text_add(&said, "stands in a circle: ");
  size_t first = 0;
  while (walk->way[first] != back_to) first++;
  for (size_t i = first; i < walk->depth; i++) {
    store_describe_entity(&said, walk->store, walk->way[i]);
    text_add(&said, ", then ");
  }
  store_describe_entity(&said, walk->store, back_to);
  text_add(&said, " again");
  complain(walk->store, walk->problems, entity, id, text_end(&said), store_at(walk->store, entity, id)->text,
           "a place that does not lead back here");
}

static void walk_places(struct place_walk *walk, int entity);

static void follow_place(struct place_walk *walk, int holder, int entity, enum row_id id) {
  const struct slot *slot = store_at(walk->store, holder, id);
  if (slot->condition != CONDITION_GIVEN) return;
  int target = (int)slot->value;
  if (walk->seen[target] == 1) tell_circle(walk, entity, id, target);
  if (walk->seen[target] == 0) walk_places(walk, target);
}

static void walk_places(struct place_walk *walk, int entity) {
  walk->seen[entity] = 1;
  walk->way[walk->depth++] = entity;
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->kind != walk->store->entities[entity].kind || !row->place) continue;
    if (row->sort == SORT_REFERENCE) follow_place(walk, entity, entity, (enum row_id)r);
  }
  walk->depth--;
  walk->seen[entity] = 2;
}

static void check_circles(struct store *store, struct problems *problems) {
  struct place_walk walk = {store, problems, arena_alloc(store->arena, store->entity_count + 1),
                            arena_array(store->arena, store->entity_count + 1, sizeof(int)), 0};
  for (size_t e = 0; e < store->entity_count; e++) {
    if (walk.seen[e] == 0) walk_places(&walk, (int)e);
  }
}

// ---- All of it ----

static bool settle_as(struct store *store, struct problems *problems, bool strict) {
  size_t before = problems->count;
  if (strict) check_doubled(store, problems);
  add_absent_singles(store);
  check_rows(store, problems, strict);
  resolve_all(store, problems);
  order_by_kind(store);
  gather_all_back(store);
  check_circles(store, problems);
  if (strict) check_contradictions(store, problems);
  return problems->count == before;
}

bool store_settle(struct store *store, struct problems *problems) { return settle_as(store, problems, true); }
bool store_settle_example(struct store *store, struct problems *problems) {
  store->example = true;
  return settle_as(store, problems, false);
}
