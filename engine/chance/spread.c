// SPDX-License-Identifier: MIT
#include "chance/spread.h"

#include <math.h>
#include <string.h>

#include "chance/spread_inside.h"
#include "units/read.h"

// ---- how wide ----

static double read_text(struct arena *arena, const char *text, enum dimension dimension) {
  struct reading reading;
  struct text wrong = text_in(arena), right = text_in(arena);
  return unit_read(text, strlen(text), dimension, &reading, &wrong, &right) ? reading.value : NAN;
}

static struct half usual(struct spreading *s, enum way way) {
  const char *text = taking_way(way)->half;
  bool share = strchr(text, '%') != NULL;
  return (struct half){read_text(s->arena, text, share ? DIM_RATIO : DIM_LENGTH), share};
}

static bool is_length(enum dimension dimension) { return dimension == DIM_LENGTH || dimension == DIM_ELEVATION; }

// A share of a height means nothing, and a length none beside what is no length: there the usual figure stays.
static bool fits(struct half half, enum dimension dimension) {
  return half.is_share ? dimension != DIM_ELEVATION : is_length(dimension);
}

struct half spread_half(struct spreading *s, enum way way, enum dimension dimension) {
  struct half half = usual(s, way);
  const struct stock_tolerance *own = s->stock ? stock_tolerance(s->stock, taking_way(way)->name) : NULL;
  if (own && fits((struct half){own->value, own->is_share}, dimension)) half = (struct half){own->value, own->is_share};
  if (!fits(half, dimension)) half = usual(s, is_length(dimension) ? WAY_TAPE : WAY_EYE);
  return half;
}

// Short pieces are read finer than long ones: no length that can not be less than nothing is taken to be off by more
// than a tenth. Common practice, no source.
static const double FINEST_SHARE = 0.1;

static double width_of(struct half half, const struct row *row, double value) {
  if (half.is_share) return half.value * fabs(value);
  bool signed_ = row->dimension == DIM_ELEVATION || (!row->least && !row->above);
  return signed_ ? half.value : fmin(half.value, FINEST_SHARE * fabs(value));
}

// ---- adding ----

struct spread_value *spread_add(struct spreading *s, struct spread_value value) {
  struct spread *spread = s->spread;
  struct text name = text_in(s->arena);
  store_describe(&name, spread->store, value.entity, value.row);
  value.name = text_end(&name);
  value.first = spread->slot_count;
  spread->values = arena_grow(s->arena, spread->values, spread->count, &spread->room, sizeof *spread->values);
  spread->values[spread->count] = value;
  return &spread->values[spread->count++];
}

// Bounds of the row; one that is not itself allowed is kept off by a thousandth of the way.
static void bound(struct spreading *s, const struct row *row, struct spread_slot *slot) {
  enum dimension dimension = row->dimension == DIM_ELEVATION ? DIM_LENGTH : row->dimension;
  slot->whole = row->whole;
  slot->least = -INFINITY;
  slot->most = INFINITY;
  if (row->least) slot->least = read_text(s->arena, row->least, dimension);
  if (row->most) slot->most = read_text(s->arena, row->most, dimension);
  if (!row->above) return;
  double above = read_text(s->arena, row->above, dimension);
  slot->least = above + (slot->nominal - above) / 1000;
}

void spread_add_slot(struct spreading *s, struct spread_value *value, struct spread_slot slot) {
  struct spread *spread = s->spread;
  int entity;
  bound(s, catalogue_row(store_row_of_slot(spread->store, slot.slot, &entity)), &slot);
  spread->slots = arena_grow(s->arena, spread->slots, spread->slot_count, &spread->slot_room, sizeof *spread->slots);
  spread->slots[spread->slot_count++] = slot;
  value->count++;
}

// ---- single givens ----

static void vary(struct spreading *s, int entity, enum row_id id, enum way way, struct half half, bool stated) {
  const struct row *row = catalogue_row(id);
  int slot = store_slot(s->spread->store, entity, id);
  double nominal = s->spread->store->slots[slot].value;
  double by = stated ? half.value : width_of(half, row, nominal);
  if (!isfinite(nominal) || !(by > 0)) return;
  struct spread_value value = {.entity = entity, .row = id, .way = way, .stated = stated, .is_share = half.is_share};
  value.half = half.is_share ? half.value : by;
  spread_add_slot(s, spread_add(s, value), (struct spread_slot){.slot = slot, .nominal = nominal, .by = by});
}

// An outline's points and a curve's move together, but for those that state a tolerance of their own.
static bool moves_with_others(enum row_id row) {
  return row == ROW_point_x || row == ROW_point_y || row == ROW_curve_point_head || row == ROW_curve_point_flow;
}

bool spread_follows_lip(const struct spread *spread, int entity, enum row_id row) {
  const struct store *store = spread->store;
  if (row != ROW_basin_water_level) return false;
  if (store_members(store, entity, ROW_basin_pumps) + store_members(store, entity, ROW_basin_intakes) > 0) return false;
  return isfinite(spread_lowest_lip(store, entity));
}

static void vary_given(struct spreading *s, int entity, enum row_id id) {
  const struct store *store = s->spread->store;
  const struct row *row = catalogue_row(id);
  const struct slot *slot = store_at(store, entity, id);
  if (row->sort != SORT_NUMBER || slot->condition != CONDITION_GIVEN) return;
  if (store_measured(store, store_slot(store, entity, id)) || spread_follows_lip(s->spread, entity, id)) return;
  if (!isnan(slot->tolerance)) {
    vary(s, entity, id, WAY_NONE, (struct half){slot->tolerance, false}, true);
  } else if (!moves_with_others(id) && !row->whole) {
    enum way way = taking_of(id);
    if (way != WAY_NONE) vary(s, entity, id, way, spread_half(s, way, row->dimension), false);
  }
}

static void vary_entity(struct spreading *s, int entity) {
  const struct store *store = s->spread->store;
  enum kind kind = store->entities[entity].kind;
  for (size_t r = 0; r < store->kind_slots[kind]; r++)
    vary_given(s, entity, (enum row_id)store->row_list[store->kind_rows[kind] + r]);
  if (kind == KIND_basin) spread_outline(s, entity);
  if (kind == KIND_basin) spread_level(s, entity);
  if (kind == KIND_pump) spread_curve(s, entity);
}

struct spread *spread_of(struct arena *arena, const struct store *store, const struct stock *stock) {
  struct spread *spread = arena_alloc(arena, sizeof *spread);
  struct spreading s = {.arena = arena, .spread = spread, .stock = stock};
  *spread = (struct spread){.store = store};
  for (size_t e = 0; e < store->entity_count; e++) vary_entity(&s, (int)e);
  spread_measured(&s);
  spread->drawn = arena_alloc(arena, sizeof *spread->drawn);
  *spread->drawn = *store;
  spread->drawn->slots = arena_array(arena, store->slot_count + 1, sizeof *spread->drawn->slots);
  memcpy(spread->drawn->slots, store->slots, store->slot_count * sizeof *store->slots);
  size_t most = spread->slot_count + spread->level_count + 1;
  spread->changes = arena_array(arena, most, sizeof *spread->changes);
  spread->readings = arena_array(arena, most, sizeof *spread->readings);
  return spread;
}

// ---- drawing ----

static void put(struct spread *spread, const struct spread_slot *slot, double u) {
  double value = fmin(fmax(slot->nominal + slot->by * u, slot->least), slot->most);
  struct trial_change change = {slot->slot, slot->whole ? round(value) : value};
  if (slot->measured) {
    spread->readings[spread->reading_count++] = change;
    return;
  }
  spread->changes[spread->change_count++] = change;
  spread->drawn->slots[slot->slot].value = change.value;
}

void spread_draw(struct spread *spread, const double *u) {
  spread->change_count = spread->reading_count = 0;
  for (size_t v = 0; v < spread->count; v++) {
    const struct spread_value *value = &spread->values[v];
    for (size_t i = 0; i < value->count; i++) put(spread, &spread->slots[value->first + i], u[v]);
  }
  for (size_t i = 0; i < spread->level_count; i++) {
    const struct spread_level *level = &spread->levels[i];
    double value = spread_lowest_lip(spread->drawn, level->basin) + level->over_lip;
    spread->changes[spread->change_count++] = (struct trial_change){level->slot, value};
    spread->drawn->slots[level->slot].value = value;
  }
}
