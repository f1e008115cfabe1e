// SPDX-License-Identifier: MIT
#include "design/contradictions.h"

#include <math.h>
#include <string.h>

#include "design/overlay.h"
#include "design/settle.h"
#include "units/compare.h"
#include "units/exact.h"

struct check {
  struct store *store;
  struct problems *problems;
};

static bool written(const struct check *c, int entity, enum row_id row) {
  return store_at(c->store, entity, row)->condition == CONDITION_GIVEN;
}

// Nobody wrote it; what was written and could not be used has been told already.
static bool unwritten(const struct check *c, int entity, enum row_id row) {
  const struct slot *slot = store_at(c->store, entity, row);
  return slot->condition == CONDITION_UNSET && slot->line == 0;
}

static double value(const struct check *c, int entity, enum row_id row) {
  return store_at(c->store, entity, row)->value;
}

static void tell(const struct check *c, int entity, enum row_id row, const char *said, const char *right) {
  const struct slot *slot = store_at(c->store, entity, row);
  store_complain(c->store, c->problems, entity, row,
                 (struct complaint){.said = said, .read = slot->text, .right = right});
}

// By the band: 24 in of a depth of 2 ft is the whole depth.
static bool under(const struct check *c, int a, enum row_id value_row, int b, enum row_id limit_row) {
  return compare(value(c, a, value_row), value(c, b, limit_row), 0) == STANDS_BELOW;
}

static bool is_tried(const struct check *c, int entity, enum row_id row) {
  const struct overlay *said = store_at(c->store, entity, row)->said;
  return said && !said->unless_written;
}

// The one at fault: what is tried, else what stands further down in the file.
static enum row_id later(const struct check *c, int entity, enum row_id a, enum row_id b) {
  if (is_tried(c, entity, a) != is_tried(c, entity, b)) return is_tried(c, entity, a) ? a : b;
  return store_at(c->store, entity, a)->line > store_at(c->store, entity, b)->line ? a : b;
}

static void rim_over_water(const struct check *c, int basin) {
  if (!written(c, basin, ROW_basin_rim) || !written(c, basin, ROW_basin_water_level)) return;
  if (under(c, basin, ROW_basin_water_level, basin, ROW_basin_rim)) return;
  tell(c, basin, later(c, basin, ROW_basin_rim, ROW_basin_water_level), "leaves the rim at or under the water",
       "a rim over the water level");
}

// Lowest point at which water leaves a basin other than over its rim.
static double lowest_way_out(const struct check *c, int basin) {
  double lowest = INFINITY;
  for (size_t i = 0; i < store_members(c->store, basin, ROW_basin_spills_out); i++) {
    int spill = store_member(c->store, basin, ROW_basin_spills_out, i);
    if (written(c, spill, ROW_spill_crest)) lowest = fmin(lowest, value(c, spill, ROW_spill_crest));
  }
  for (size_t i = 0; i < store_members(c->store, basin, ROW_basin_channels_out); i++) {
    int channel = store_member(c->store, basin, ROW_basin_channels_out, i);
    if (written(c, channel, ROW_channel_start)) lowest = fmin(lowest, value(c, channel, ROW_channel_start));
  }
  return lowest;
}

static void level_known(const struct check *c, int basin) {
  double lowest = lowest_way_out(c, basin);
  if (!written(c, basin, ROW_basin_water_level)) {
    // With another problem at hand the spill that leaves it may be what could not be read.
    if (isinf(lowest) && unwritten(c, basin, ROW_basin_water_level) && c->problems->count == 0) {
      tell(c, basin, ROW_basin_water_level, "is not written, and no spill or channel leaves it to say", "\"-4 in\"");
    }
    return;
  }
  bool drawn = store_members(c->store, basin, ROW_basin_pumps) + store_members(c->store, basin, ROW_basin_intakes) > 0;
  if (isinf(lowest) || drawn) return;
  if (fabs(value(c, basin, ROW_basin_water_level) - lowest) > 0.125 * INCH) {
    tell(c, basin, ROW_basin_water_level, "is not the lowest crest by which water leaves it",
         "leave it out, or mend the crest");
  }
}

static void rim_known(const struct check *c, int basin) {
  if (!unwritten(c, basin, ROW_basin_rim) || store_members(c->store, basin, ROW_basin_rim_profile) > 0) return;
  tell(c, basin, ROW_basin_rim, "is not written, and there is no rim_profile", "\"0 in\"");
}

static void shelves_inside(const struct check *c, int basin) {
  for (size_t i = 0; i < store_members(c->store, basin, ROW_basin_shelves); i++) {
    int shelf = store_member(c->store, basin, ROW_basin_shelves, i);
    if (!written(c, shelf, ROW_shelf_depth) || !written(c, basin, ROW_basin_depth)) continue;
    if (under(c, shelf, ROW_shelf_depth, basin, ROW_basin_depth)) continue;
    tell(c, shelf, ROW_shelf_depth, "is at or below the bottom", "less than the basin's depth");
  }
}

static void shelves_apart(const struct check *c, int basin) {
  for (size_t i = 1; i < store_members(c->store, basin, ROW_basin_shelves); i++) {
    int shelf = store_member(c->store, basin, ROW_basin_shelves, i);
    for (size_t j = 0; j < i; j++) {
      int other = store_member(c->store, basin, ROW_basin_shelves, j);
      if (!written(c, shelf, ROW_shelf_depth) || !written(c, other, ROW_shelf_depth)) continue;
      if (compare(value(c, shelf, ROW_shelf_depth), value(c, other, ROW_shelf_depth), 0) != STANDS_AT) continue;
      tell(c, shelf, ROW_shelf_depth, "is the depth of another shelf", "one shelf of both widths, or another depth");
      break;
    }
  }
}

static void gravel_fits(const struct check *c, int basin) {
  if (!written(c, basin, ROW_basin_gravel_bed) || !written(c, basin, ROW_basin_depth)) return;
  if (under(c, basin, ROW_basin_gravel_bed, basin, ROW_basin_depth)) return;
  tell(c, basin, ROW_basin_gravel_bed, "fills the basin to the top", "less than the basin's depth");
}

static void outline_points(const struct check *c, int basin) {
  if (!written(c, basin, ROW_basin_outline)) return;
  size_t count = store_members(c->store, basin, ROW_basin_outline);
  if (value(c, basin, ROW_basin_outline) == (double)WORD_shape_polygon) {
    if (count < 3) tell(c, basin, ROW_basin_outline, "has fewer than three points", "three points or more");
    return;
  }
  for (size_t i = 0; i < count; i++) {
    int point = store_member(c->store, basin, ROW_basin_outline, i);
    for (int r = ROW_point_x; r <= ROW_point_y; r++) {
      if (written(c, point, (enum row_id)r) && !(value(c, point, (enum row_id)r) > 0)) {
        tell(c, point, (enum row_id)r, "is no width", "more than 0");
      }
    }
  }
}

static void ring_runs(const struct check *c, int basin) {
  for (size_t i = 0; i < store_members(c->store, basin, ROW_basin_ring); i++) {
    int stretch = store_member(c->store, basin, ROW_basin_ring, i);
    if (!written(c, stretch, ROW_ring_stretch_starts) || !written(c, stretch, ROW_ring_stretch_ends)) continue;
    if (under(c, stretch, ROW_ring_stretch_starts, stretch, ROW_ring_stretch_ends)) continue;
    tell(c, stretch, later(c, stretch, ROW_ring_stretch_starts, ROW_ring_stretch_ends), "ends before it starts",
         "an end past the start");
  }
}

static void curve_falls(const struct check *c, int pump) {
  for (size_t i = 1; i < store_members(c->store, pump, ROW_pump_curve); i++) {
    int before = store_member(c->store, pump, ROW_pump_curve, i - 1);
    int point = store_member(c->store, pump, ROW_pump_curve, i);
    if (!under(c, before, ROW_curve_point_flow, point, ROW_curve_point_flow)) {
      tell(c, point, ROW_curve_point_flow, "is not past the flow of the point before", "points in order of flow");
    }
    if (under(c, before, ROW_curve_point_head, point, ROW_curve_point_head)) {
      tell(c, point, ROW_curve_point_head, "is over the head of the point before",
           "a head that falls as the flow grows");
    }
  }
}

static void outlet_said(const struct check *c, int pipe) {
  if (!written(c, pipe, ROW_pipe_to)) return;
  int to = (int)value(c, pipe, ROW_pipe_to);
  if (c->store->entities[to].kind != KIND_basin) return;
  if (unwritten(c, pipe, ROW_pipe_outlet)) {
    tell(c, pipe, ROW_pipe_outlet, "is not written, and the pipe ends in a basin", "\"above water\" or \"drowned\"");
  }
  if (unwritten(c, pipe, ROW_pipe_outlet_at)) {
    tell(c, pipe, ROW_pipe_outlet_at, "is not written, and the pipe ends in a basin",
         "the height of its end, \"46 in\"");
  }
}

static void outlet_over_water(const struct check *c, int pipe) {
  if (!written(c, pipe, ROW_pipe_to) || !written(c, pipe, ROW_pipe_outlet) || !written(c, pipe, ROW_pipe_outlet_at))
    return;
  int to = (int)value(c, pipe, ROW_pipe_to);
  if (c->store->entities[to].kind != KIND_basin) return;
  double level = written(c, to, ROW_basin_water_level) ? value(c, to, ROW_basin_water_level) : lowest_way_out(c, to);
  if (isinf(level) || value(c, pipe, ROW_pipe_outlet) != (double)WORD_outlet_above_water) return;
  if (compare(value(c, pipe, ROW_pipe_outlet_at), level, 0) != STANDS_BELOW) return;
  tell(c, pipe, later(c, pipe, ROW_pipe_outlet, ROW_pipe_outlet_at),
       "is under the water, and the outlet is said to be above it", "\"drowned\", or a higher end");
}

static void fence_is_a_barrier(const struct check *c, int basin) {
  if (!written(c, basin, ROW_basin_reach) || !written(c, basin, ROW_basin_barrier)) return;
  if (value(c, basin, ROW_basin_reach) != (double)WORD_reach_fenced) return;
  if (value(c, basin, ROW_basin_barrier) != (double)WORD_stated_none) return;
  tell(c, basin, later(c, basin, ROW_basin_reach, ROW_basin_barrier), "says fenced, and no barrier",
       "barrier = \"stated\", or who can reach the edge without one");
}

static void foot_in_stone(const struct check *c, int boulder) {
  if (!written(c, boulder, ROW_boulder_embedment) || !written(c, boulder, ROW_boulder_height)) return;
  if (under(c, boulder, ROW_boulder_embedment, boulder, ROW_boulder_height)) return;
  tell(c, boulder, ROW_boulder_embedment, "buries the stone", "less than its height");
}

// The box round an outline, along its axes. False: it is not known in full.
static bool box_of(const struct check *c, int basin, double *across, double *along) {
  double low[2] = {INFINITY, INFINITY}, high[2] = {-INFINITY, -INFINITY};
  static const enum row_id axes[] = {ROW_point_x, ROW_point_y};
  double shape = value(c, basin, ROW_basin_outline);
  size_t count = written(c, basin, ROW_basin_outline) ? store_members(c->store, basin, ROW_basin_outline) : 0;
  for (size_t i = 0; i < count; i++) {
    int point = store_member(c->store, basin, ROW_basin_outline, i);
    for (int a = 0; a < 2; a++) {
      enum row_id axis = shape == (double)WORD_shape_circle ? ROW_point_x : axes[a];
      if (!written(c, point, axis)) return false;
      low[a] = fmin(low[a], shape == (double)WORD_shape_polygon ? value(c, point, axis) : 0);
      high[a] = fmax(high[a], value(c, point, axis));
    }
  }
  *across = high[0] - low[0];
  *along = high[1] - low[1];
  return count > 0;
}

// Its length by its width, as it stands, against the box round the outline.
static void stone_in_basin(const struct check *c, int boulder) {
  double across, along;
  double a = value(c, boulder, ROW_boulder_length), b = value(c, boulder, ROW_boulder_width);
  bool known = written(c, boulder, ROW_boulder_length) && written(c, boulder, ROW_boulder_width);
  if (!known || !written(c, boulder, ROW_boulder_stands_in)) return;
  if (!box_of(c, (int)value(c, boulder, ROW_boulder_stands_in), &across, &along)) return;
  if (compare(a * b, across * along, 0) != STANDS_ABOVE && compare(fmax(a, b), hypot(across, along), 0) != STANDS_ABOVE)
    return;
  tell(c, boulder, ROW_boulder_stands_in, "names a basin that the stone is larger than",
       "a larger basin or a smaller stone");
}

static void channel_fed(const struct check *c, int channel) {
  bool fed = store_members(c->store, channel, ROW_channel_spills_in) +
                 store_members(c->store, channel, ROW_channel_channels_in) >
             0;
  if (!written(c, channel, ROW_channel_from)) {
    if (!fed && unwritten(c, channel, ROW_channel_from) && c->problems->count == 0)
      tell(c, channel, ROW_channel_from, "is not written, and no spill falls into it", "the basin it leaves");
    return;
  }
  int from = (int)value(c, channel, ROW_channel_from);
  if (fed && c->store->entities[from].kind == KIND_basin) {
    tell(c, channel, ROW_channel_from, "is written, and a spill falls into it as well", "one of the two");
  }
}

static void one_ground(const struct check *c, int site) {
  if (!written(c, site, ROW_site_survey) || !written(c, site, ROW_site_ground_slope)) return;
  tell(c, site, later(c, site, ROW_site_survey, ROW_site_ground_slope), "describes the ground a second time",
       "a survey or a slope, one of the two");
}

// `mass_low` of `mass_high`: the same entity's value with the other ending, where that was measured too; or NULL.
static const struct measurement *low_of(const struct store *store, const struct measurement *high) {
  static const char ending[] = "_high", other[] = "_low";
  int entity;
  const struct row *row = catalogue_row(store_row_of_slot(store, high->slot, &entity));
  size_t length = strlen(row->name), stem = length - (sizeof ending - 1);
  if (length < sizeof ending || strcmp(row->name + stem, ending) != 0) return NULL;
  char name[80];
  if (stem + sizeof other > sizeof name) return NULL;
  memcpy(name, row->name, stem);
  memcpy(name + stem, other, sizeof other);
  enum row_id low = catalogue_row_named(row->kind, name, strlen(name));
  return low == ROW_COUNT ? NULL : store_measured(store, store_slot(store, entity, low));
}

static void bounds_in_order(const struct check *c) {
  for (size_t m = 0; m < c->store->measurement_count; m++) {
    const struct measurement *high = &c->store->measurements[m], *low = low_of(c->store, high);
    if (!low || compare(low->value, high->value, 0) != STANDS_ABOVE) continue;
    int entity;
    enum row_id row = store_row_of_slot(c->store, high->slot, &entity);
    store_complain(c->store, c->problems, entity, row,
                   (struct complaint){.line = high->line,
                                      .said = "was measured lower than the lowest value beside it",
                                      .right = "the lowest under `_low` and the highest under `_high`"});
  }
}

void check_contradictions(struct store *store, struct problems *problems) {
  static const struct {
    enum kind kind;
    void (*check)(const struct check *, int entity);
  } checks[] = {
      {KIND_basin, rim_over_water},   {KIND_basin, level_known},      {KIND_basin, rim_known},
      {KIND_basin, shelves_inside},   {KIND_basin, gravel_fits},      {KIND_basin, outline_points},
      {KIND_basin, ring_runs},        {KIND_pump, curve_falls},       {KIND_pipe, outlet_said},
      {KIND_boulder, foot_in_stone},  {KIND_pipe, outlet_over_water}, {KIND_basin, fence_is_a_barrier},
      {KIND_channel, channel_fed},    {KIND_site, one_ground},        {KIND_basin, shelves_apart},
      {KIND_boulder, stone_in_basin},
  };
  struct check check = {store, problems};
  if (!store->example) bounds_in_order(&check);
  for (size_t i = 0; i < sizeof checks / sizeof checks[0]; i++) {
    for (size_t e = 0; e < store_count(store, checks[i].kind); e++) {
      checks[i].check(&check, store_of_kind(store, checks[i].kind, e));
    }
  }
}
