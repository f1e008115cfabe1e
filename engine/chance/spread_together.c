// SPDX-License-Identifier: MIT
// Values that were got in one go are off together: an outline, a pump's curve, the readings of one measurement.
#include <math.h>
#include <string.h>

#include "chance/spread_inside.h"

static bool is_given(const struct store *store, int entity, enum row_id row) {
  const struct slot *slot = store_at(store, entity, row);
  return slot->condition == CONDITION_GIVEN && isfinite(slot->value);
}

static double value_of(const struct store *store, int entity, enum row_id row) {
  return store_at(store, entity, row)->value;
}

// ---- outlines ----

// Twice the area, the length round, and the middle of a polygon (the shoelace formula).
struct polygon {
  double twice_area, round, x, y;
};

static struct polygon polygon_of(const struct store *store, int basin) {
  struct polygon p = {0};
  size_t count = store_members(store, basin, ROW_basin_outline);
  for (size_t i = 0; i < count; i++) {
    int one = store_member(store, basin, ROW_basin_outline, i);
    int next = store_member(store, basin, ROW_basin_outline, (i + 1) % count);
    double x = value_of(store, one, ROW_point_x), y = value_of(store, one, ROW_point_y);
    double x2 = value_of(store, next, ROW_point_x), y2 = value_of(store, next, ROW_point_y);
    double cross = x * y2 - x2 * y;
    p.twice_area += cross;
    p.round += hypot(x2 - x, y2 - y);
    p.x += (x + x2) * cross;
    p.y += (y + y2) * cross;
  }
  p.x /= 3 * p.twice_area;
  p.y /= 3 * p.twice_area;
  return p;
}

struct outline {
  struct spreading *s;
  struct spread_value *value;
  double half;
  bool is_polygon;
  struct polygon polygon;
};

// The mean distance of the middle from the edges is twice the area over the length round: growing by half over that,
// the edges move by half on the average. Of other shapes the widths are written, which both edges change.
static double by_how_much(const struct outline *o, enum row_id axis, double at) {
  if (!o->is_polygon) return 2 * o->half;
  double middle = axis == ROW_point_x ? o->polygon.x : o->polygon.y;
  return (at - middle) * o->half * o->polygon.round / fabs(o->polygon.twice_area);
}

static void add_point(const struct outline *o, int point, enum row_id axis) {
  const struct store *store = o->s->spread->store;
  if (!is_given(store, point, axis) || !isnan(store_at(store, point, axis)->tolerance)) return;
  double at = value_of(store, point, axis), by = by_how_much(o, axis, at);
  if (!o->is_polygon) by = fmin(by, 0.1 * at);
  spread_add_slot(o->s, o->value,
                  (struct spread_slot){.slot = store_slot(store, point, axis), .nominal = at, .by = by});
}

void spread_outline(struct spreading *s, int basin) {
  const struct store *store = s->spread->store;
  struct half half = spread_half(s, WAY_TAPE, DIM_LENGTH);
  struct outline o = {.s = s, .half = half.value};
  if (store_at(store, basin, ROW_basin_outline)->condition != CONDITION_GIVEN) return;
  o.is_polygon = value_of(store, basin, ROW_basin_outline) == (double)WORD_shape_polygon;
  if (o.is_polygon) o.polygon = polygon_of(store, basin);
  if (o.is_polygon && !(isfinite(o.polygon.x) && isfinite(o.polygon.y))) return;
  o.value = spread_add(
      s, (struct spread_value){.entity = basin, .row = ROW_basin_outline, .way = WAY_TAPE, .half = half.value});
  for (size_t i = 0; i < store_members(store, basin, ROW_basin_outline); i++) {
    int point = store_member(store, basin, ROW_basin_outline, i);
    add_point(&o, point, ROW_point_x);
    add_point(&o, point, ROW_point_y);
  }
}

// ---- curves ----

// The whole curve stands higher or lower by one share.
void spread_curve(struct spreading *s, int pump) {
  const struct store *store = s->spread->store;
  struct half half = spread_half(s, WAY_CURVE, DIM_RATIO);
  struct spread_value *value =
      spread_add(s, (struct spread_value){
                        .entity = pump, .row = ROW_pump_curve, .way = WAY_CURVE, .half = half.value, .is_share = true});
  for (size_t i = 0; i < store_members(store, pump, ROW_pump_curve); i++) {
    int point = store_member(store, pump, ROW_pump_curve, i);
    const struct slot *head = store_at(store, point, ROW_curve_point_head);
    if (!is_given(store, point, ROW_curve_point_head) || !isnan(head->tolerance)) continue;
    spread_add_slot(s, value,
                    (struct spread_slot){.slot = store_slot(store, point, ROW_curve_point_head),
                                         .nominal = head->value,
                                         .by = head->value * half.value});
  }
}

// ---- levels ----

double spread_lowest_lip(const struct store *store, int basin) {
  static const struct {
    enum row_id list, height;
  } ways_out[] = {{ROW_basin_spills_out, ROW_spill_crest}, {ROW_basin_channels_out, ROW_channel_start}};
  double lowest = INFINITY;
  for (size_t w = 0; w < 2; w++) {
    for (size_t i = 0; i < store_members(store, basin, ways_out[w].list); i++) {
      int out = store_member(store, basin, ways_out[w].list, i);
      if (is_given(store, out, ways_out[w].height)) lowest = fmin(lowest, value_of(store, out, ways_out[w].height));
    }
  }
  return lowest;
}

void spread_level(struct spreading *s, int basin) {
  struct spread *spread = s->spread;
  if (!is_given(spread->store, basin, ROW_basin_water_level)) return;
  if (!spread_follows_lip(spread, basin, ROW_basin_water_level)) return;
  double level = value_of(spread->store, basin, ROW_basin_water_level);
  spread->levels =
      arena_grow(s->arena, spread->levels, spread->level_count, &spread->level_room, sizeof *spread->levels);
  spread->levels[spread->level_count++] =
      (struct spread_level){.slot = store_slot(spread->store, basin, ROW_basin_water_level),
                            .basin = basin,
                            .over_lip = level - spread_lowest_lip(spread->store, basin)};
}

// ---- measured values ----

static bool same_taking(const struct store *store, const struct measurement *one, const struct measurement *other) {
  int a, b;
  store_row_of_slot(store, one->slot, &a);
  store_row_of_slot(store, other->slot, &b);
  bool with = one->how && other->how ? strcmp(one->how, other->how) == 0 : one->how == other->how;
  return a == b && with && isnan(one->tolerance) && isnan(other->tolerance);
}

static double off_by(const struct measurement *m, struct half half) {
  if (!isnan(m->tolerance)) return m->tolerance;
  return half.is_share ? half.value * fabs(m->value) : half.value;
}

// All that one weighing or one bucket says of a thing, from the first of its readings.
static void take_measured(struct spreading *s, size_t first) {
  const struct store *store = s->spread->store;
  const struct measurement *m = &store->measurements[first];
  struct spread_value made = {.way = taking_with(m->how), .stated = !isnan(m->tolerance)};
  made.row = store_row_of_slot(store, m->slot, &made.entity);
  struct half half = spread_half(s, made.way, catalogue_row(made.row)->dimension);
  made.is_share = half.is_share && !made.stated;
  made.half = made.stated ? m->tolerance : half.value;
  struct spread_value *value = spread_add(s, made);
  for (size_t i = first; i < store->measurement_count; i++) {
    const struct measurement *other = &store->measurements[i];
    if (i != first && !same_taking(store, m, other)) continue;
    double by = off_by(other, half);
    if (!isfinite(other->value) || !(by > 0)) continue;
    spread_add_slot(s, value,
                    (struct spread_slot){.slot = other->slot, .nominal = other->value, .by = by, .measured = true});
  }
}

static bool taken_before(const struct store *store, size_t m) {
  for (size_t i = 0; i < m; i++) {
    if (same_taking(store, &store->measurements[i], &store->measurements[m])) return true;
  }
  return false;
}

void spread_measured(struct spreading *s) {
  const struct store *store = s->spread->store;
  for (size_t m = 0; m < store->measurement_count; m++) {
    if (!taken_before(store, m)) take_measured(s, m);
  }
}
