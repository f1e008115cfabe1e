// SPDX-License-Identifier: MIT
#include "design/store.h"

#include <math.h>
#include <string.h>

// Positions of rows among the slots of their kind, in the order of the rows.
static void number_rows(struct store *store) {
  for (int r = 0; r < ROW_COUNT; r++) {
    enum kind kind = catalogue_row((enum row_id)r)->kind;
    store->row_at[r] = store->kind_slots[kind]++;
  }
  unsigned short first = 0;
  for (int k = 0; k < KIND_COUNT; k++) {
    store->kind_rows[k] = first;
    first = (unsigned short)(first + store->kind_slots[k]);
  }
  for (int r = 0; r < ROW_COUNT; r++) {
    enum kind kind = catalogue_row((enum row_id)r)->kind;
    store->row_list[store->kind_rows[kind] + store->row_at[r]] = (unsigned short)r;
  }
}

struct store *store_in(struct arena *arena, const char *file) {
  struct store *store = arena_alloc(arena, sizeof *store);
  store->arena = arena;
  store->file = arena_words(arena, file);
  number_rows(store);
  return store;
}

static int add_slots(struct store *store, enum kind kind) {
  int first = (int)store->slot_count;
  for (int i = 0; i < store->kind_slots[kind]; i++) {
    store->slots = arena_grow(store->arena, store->slots, store->slot_count, &store->slot_room, sizeof *store->slots);
    store->slots[store->slot_count++] = (struct slot){.value = NAN, .tolerance = NAN, .first = -1};
  }
  return first;
}

static int add_entity(struct store *store, struct entity entity) {
  entity.first_slot = add_slots(store, entity.kind);
  store->entities =
      arena_grow(store->arena, store->entities, store->entity_count, &store->entity_room, sizeof *store->entities);
  store->entities[store->entity_count] = entity;
  return (int)store->entity_count++;
}

int store_add(struct store *store, enum kind kind, const char *name, int line) {
  return add_entity(store, (struct entity){.kind = kind,
                                           .name = name ? arena_words(store->arena, name) : NULL,
                                           .at = {store->file, line},
                                           .owner = -1,
                                           .list = ROW_COUNT});
}

int store_add_part(struct store *store, int owner, enum row_id list, int line) {
  const struct entity *last = &store->entities[store->entity_count - 1];
  int index = last->owner == owner && last->list == list ? last->index + 1 : 1;
  int part = add_entity(
      store,
      (struct entity){
          .kind = catalogue_row(list)->part, .at = {store->file, line}, .owner = owner, .list = list, .index = index});
  struct slot *slot = store_at(store, owner, list);
  if (index == 1) {
    slot->first = part;
    if (slot->line == 0) slot->line = line;
    if (catalogue_row(list)->sort != SORT_SHAPE) slot->condition = CONDITION_GIVEN;
  }
  if (catalogue_row(list)->sort != SORT_SHAPE) slot->value = index;
  return part;
}

int store_slot(const struct store *store, int entity, enum row_id row) {
  return store->entities[entity].first_slot + store->row_at[row];
}

struct slot *store_at(const struct store *store, int entity, enum row_id row) {
  return &store->slots[store_slot(store, entity, row)];
}

static int entity_of_slot(const struct store *store, int slot) {
  size_t low = 0, high = store->entity_count;
  while (high - low > 1) {
    size_t middle = low + (high - low) / 2;
    if (store->entities[middle].first_slot <= slot) {
      low = middle;
    } else {
      high = middle;
    }
  }
  return (int)low;
}

enum row_id store_row_of_slot(const struct store *store, int slot, int *entity) {
  *entity = entity_of_slot(store, slot);
  const struct entity *owner = &store->entities[*entity];
  return (enum row_id)store->row_list[store->kind_rows[owner->kind] + slot - owner->first_slot];
}

int store_named(const struct store *store, const char *name, size_t length) {
  for (size_t e = 0; e < store->entity_count; e++) {
    const char *known = store->entities[e].name;
    if (known && strlen(known) == length && memcmp(known, name, length) == 0) return (int)e;
  }
  return -1;
}

size_t store_count(const struct store *store, enum kind kind) {
  return (size_t)(store->kind_first[kind + 1] - store->kind_first[kind]);
}

int store_of_kind(const struct store *store, enum kind kind, size_t index) {
  return store->by_kind[store->kind_first[kind] + (int)index];
}

// Parts follow one another; members of back references stand in store->back.
size_t store_members(const struct store *store, int entity, enum row_id list) {
  const struct slot *slot = store_at(store, entity, list);
  if (slot->first < 0) return 0;
  if (catalogue_row(list)->sort == SORT_BACK) return (size_t)slot->value;
  size_t count = 0;
  for (size_t e = (size_t)slot->first; e < store->entity_count; e++, count++) {
    const struct entity *part = &store->entities[e];
    if (part->owner != entity || part->list != list) break;
  }
  return count;
}

int store_member(const struct store *store, int entity, enum row_id list, size_t index) {
  const struct slot *slot = store_at(store, entity, list);
  if (catalogue_row(list)->sort == SORT_BACK) return store->back[slot->first + (int)index];
  return slot->first + (int)index;
}

const struct measurement *store_measured(const struct store *store, int slot) {
  for (size_t m = 0; m < store->measurement_count; m++) {
    if (store->measurements[m].slot == slot) return &store->measurements[m];
  }
  return NULL;
}

void store_describe_entity(struct text *text, const struct store *store, int entity) {
  const struct entity *it = &store->entities[entity];
  if (it->owner >= 0) {
    store_describe(text, store, it->owner, it->list);
    text_printf(text, "[%d]", it->index);
    return;
  }
  text_add(text, catalogue_kind(it->kind)->name);
  if (it->name) text_printf(text, " \"%s\"", it->name);
}

void store_describe(struct text *text, const struct store *store, int entity, enum row_id row) {
  store_describe_entity(text, store, entity);
  text_printf(text, ".%s", catalogue_row(row)->name);
}
