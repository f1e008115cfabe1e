// SPDX-License-Identifier: MIT
// C. Spills and channels: how a basin's water shares out, the head it takes, where it lands.
#include <math.h>

#include "physics/channel.h"
#include "physics/levels.h"
#include "physics/nappe.h"
#include "physics/rim.h"
#include "physics/water.h"
#include "physics/weir.h"
#include "quantities/outline.h"
#include "quantities/read.h"
#include "quantities/ways.h"

#define FOREBAY_ROWS "catalogue/spills.def"

// ---- A basin's ways out ----

static double ways_flow(const struct ways *ways, double level) {
  double flow = 0;
  for (size_t i = 0; i < ways->count; i++) flow += way_flow(&ways->at[i], level, ways->least);
  return flow;
}

static double lowest_crest(const struct ways *ways) {
  double lowest = INFINITY;
  for (size_t i = 0; i < ways->count; i++) lowest = fmin(lowest, ways->at[i].crest);
  return lowest;
}

// The one level at which all ways together pass the flow: doubled until it is bracketed, then bisected to rounding.
static double level_of(const struct ways *ways) {
  double low = lowest_crest(ways), high = low + 0.01;
  if (ways->flow <= 0) return low;
  for (int i = 0; i < 40 && ways_flow(ways, high) < ways->flow; i++) high = low + 2 * (high - low);
  for (int i = 0; i < 200; i++) {
    double middle = low + (high - low) / 2;
    if (middle <= low || middle >= high) break;
    if (ways_flow(ways, middle) < ways->flow) {
      low = middle;
    } else {
      high = middle;
    }
  }
  return high;
}

// What is left of rounding at that level is shared in proportion, so that the flows add up to what comes in.
static void share_out(const struct ways *ways, double level, double *flows, int *entities) {
  double sum = ways_flow(ways, level);
  for (size_t i = 0; i < ways->count; i++) {
    entities[i] = ways->at[i].entity;
    flows[i] = sum > 0 ? way_flow(&ways->at[i], level, ways->least) * (ways->flow / sum) : 0;
  }
}

static const struct basin_overflow *overflow_of_basin(struct evaluation *ev, struct basin_ref basin) {
  struct ways ways = ways_of_basin(ev, basin);
  double still = basin_get_water_level(ev, basin);
  if (ways.count > 0) ways.flow = fmax(0, basin_get_flow_in(ev, basin) - basin_get_flow_drawn(ev, basin));
  if (!evaluation_marked(ev) && ways.count == 0 && basin_count_spills_out(ev, basin) > 0) {
    evaluation_missing(ev, "every lip of it is blocked");
  }
  if (evaluation_marked(ev)) return NULL;
  struct basin_overflow *overflow = arena_alloc(evaluation_arena(ev), sizeof *overflow);
  double *flows = arena_array(evaluation_arena(ev), ways.count + 1, sizeof *flows);
  int *entities = arena_array(evaluation_arena(ev), ways.count + 1, sizeof *entities);
  *overflow = (struct basin_overflow){ways.count, entities, flows, still, still};
  if (ways.count == 0 || ways.flow <= 0) return overflow;
  overflow->level = level_of(&ways);
  share_out(&ways, overflow->level, flows, entities);
  ways.least = true;
  overflow->level_high = level_of(&ways);
  if (ways.count > 1) evaluation_outside(ev);
  return overflow;
}

static double share_of(const struct basin_overflow *overflow, int entity) {
  for (size_t i = 0; overflow && i < overflow->count; i++) {
    if (overflow->ways[i] == entity) return overflow->flows[i];
  }
  return overflow ? 0 : (double)NAN;
}

static double flow_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return share_of(basin_get_overflow(ev, spill_get_from(ev, spill)), spill.at);
}

// ---- On the lip ----

static double share_of_target_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return spill_get_flow(ev, spill) / spill_get_target(ev, spill);
}

static double flow_per_width_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return spill_get_flow(ev, spill) / spill_get_lip_width(ev, spill);
}

static struct band head_over(struct evaluation *ev, struct spill_ref spill) {
  struct weir weir = ways_weir(ev, spill);
  double flow = spill_get_flow(ev, spill);
  if (evaluation_marked(ev)) return band_none();
  if (!(weir.width > 0)) return (struct band){0};  // blocked altogether: nothing runs over it
  struct band head = weir_head(&weir, flow);
  if (head.outside) evaluation_outside(ev);
  return head;
}

static double head_of_spill(struct evaluation *ev, struct spill_ref spill) { return head_over(ev, spill).likely; }
static double head_low_of_spill(struct evaluation *ev, struct spill_ref spill) { return head_over(ev, spill).low; }
static double head_high_of_spill(struct evaluation *ev, struct spill_ref spill) { return head_over(ev, spill).high; }

static double drop_of_spill(struct evaluation *ev, struct spill_ref spill) {
  struct any_ref into = spill_get_into(ev, spill);
  double crest = spill_get_crest(ev, spill);
  double below = kind_of(ev, into) == KIND_channel ? channel_get_start(ev, (struct channel_ref){into.at})
                                                   : basin_get_water_level(ev, (struct basin_ref){into.at});
  if (!evaluation_marked(ev) && crest <= below) {
    evaluation_impossible(ev, spill.at, ROW_spill_crest, "is not over the water that it falls into", "a higher crest");
  }
  return crest - below;
}

// ---- Where it lands ----

static double landing_speed_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return nappe_landing_speed(spill_get_flow_per_width(ev, spill), spill_get_drop(ev, spill));
}

static struct band throw_over(struct evaluation *ev, struct spill_ref spill) {
  enum word edge = spill_get_drip_edge(ev, spill);
  double q = spill_get_flow_per_width(ev, spill), drop = spill_get_drop(ev, spill);
  return evaluation_marked(ev) ? band_none() : nappe_throw(q, drop, edge != WORD_drip_edge_none);
}

static double throw_low_of_spill(struct evaluation *ev, struct spill_ref spill) { return throw_over(ev, spill).low; }
static double throw_high_of_spill(struct evaluation *ev, struct spill_ref spill) { return throw_over(ev, spill).high; }

static double lands_inside_by_of_spill(struct evaluation *ev, struct spill_ref spill) {
  double setback = spill_get_setback(ev, spill);
  if (spill_get_drip_edge(ev, spill) == WORD_drip_edge_none)
    setback = fmax(0, setback);  // it runs back under the stone
  return spill_get_throw_low(ev, spill) - setback;
}

// Which way the water falls across a basin nobody writes down, so the widest circle that goes into the outline counts:
// a notched or three-cornered basin has less room than the box round it.
static double inner_across_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double least = basin_get_least_across(ev, basin);
  bool polygon = basin_get_outline(ev, basin) == WORD_shape_polygon;
  if (evaluation_marked(ev) || !polygon) return least;
  struct polygon_profile *outline = outline_of_basin(ev, basin);
  return evaluation_marked(ev) ? (double)NAN : 2 * polygon_profile_inradius(outline, least / 2 * (1 + 1e-6));
}

static double short_of_far_side_of_spill(struct evaluation *ev, struct spill_ref spill) {
  struct any_ref into = spill_get_into(ev, spill);
  double across = kind_of(ev, into) == KIND_channel ? channel_get_length(ev, (struct channel_ref){into.at})
                                                    : basin_get_inner_across(ev, (struct basin_ref){into.at});
  return across + spill_get_setback(ev, spill) - spill_get_throw_high(ev, spill);
}

static double sheet_asked_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return nappe_sheet_flow(spill_get_drop(ev, spill));
}

static double sheet_share_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return spill_get_flow_per_width(ev, spill) / spill_get_sheet_asked(ev, spill);
}

static double sheet_drop_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return nappe_sheet_length(spill_get_flow_per_width(ev, spill));
}

static double notch_depths_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return spill_get_lip_depth(ev, spill) / spill_get_head_high(ev, spill);
}

static double depth_to_drop_of_spill(struct evaluation *ev, struct spill_ref spill) {
  struct any_ref into = spill_get_into(ev, spill);
  double depth = kind_of(ev, into) == KIND_channel ? channel_get_depth(ev, (struct channel_ref){into.at})
                                                   : basin_get_water_depth(ev, (struct basin_ref){into.at});
  return depth / spill_get_drop(ev, spill);
}

// What is in the air when the flow stops still comes down.
static double in_air_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return spill_get_flow(ev, spill) * nappe_fall_time(spill_get_drop(ev, spill));
}

static double splash_reach_of_spill(struct evaluation *ev, struct spill_ref spill) { return spill_get_drop(ev, spill); }

static double behind_to_spare_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return spill_get_liner_behind(ev, spill) - spill_get_head_high(ev, spill);
}

// ---- A lip out of level ----

#define SHIFTED_AT_MOST 0.30  // excess of flow at the low end beyond which a sheet shows it; common practice

// With the greatest coefficient: the least head, at which a fall of the lip does most.
static struct rim_tilt tilt_of(struct evaluation *ev, struct spill_ref spill, double fall) {
  struct weir weir = ways_weir(ev, spill);
  double flow = spill_get_flow(ev, spill);
  const struct rim_tilt none = {(double)NAN, (double)NAN, (double)NAN, (double)NAN, (double)NAN};
  if (evaluation_marked(ev)) return none;
  if (weir.lip == WEIR_V) return (struct rim_tilt){0};  // all of it runs at the lowest point, level or not
  if (!(flow > 0)) return (struct rim_tilt){.dry_share = 1};
  return rim_tilt(weir.width, fall, weir_coefficient(weir.lip).high, flow);
}

static struct rim_tilt tilt_as_set(struct evaluation *ev, struct spill_ref spill) {
  return tilt_of(ev, spill, spill_get_out_of_level(ev, spill));
}

static double dry_share_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return tilt_as_set(ev, spill).dry_share;
}
static double shifted_share_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return tilt_as_set(ev, spill).shifted;
}
static double local_excess_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return tilt_as_set(ev, spill).local;
}

// At 30 % more at the low end no part is dry yet, so this alone is the allowance.
static double level_allowance_of_spill(struct evaluation *ev, struct spill_ref spill) {
  struct weir weir = ways_weir(ev, spill);
  double flow = spill_get_flow(ev, spill), head = spill_get_head_low(ev, spill);
  if (evaluation_marked(ev) || weir.lip == WEIR_V || !(flow > 0)) return head;
  return fmin(head, rim_fall_for(weir.width, weir_coefficient(weir.lip).high, flow, SHIFTED_AT_MOST));
}

static double settlement_tilt_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return 0.01 * fabs(spill_get_fill_under(ev, spill) - spill_get_fill_other(ev, spill));
}

static double settlement_to_spare_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return spill_get_level_allowance(ev, spill) - spill_get_out_of_level(ev, spill) -
         spill_get_settlement_tilt(ev, spill);
}

// Settlement counts where a depth of fill is written, and asks for the other; where neither is, the rule on fill asks.
static double level_error_of_spill(struct evaluation *ev, struct spill_ref spill) {
  const double errors[] = {project_get_level_error(ev, the_project(ev)), spill_get_out_of_level(ev, spill)};
  bool fill = spill_states_fill_under(ev, spill) || spill_states_fill_other(ev, spill);
  double settlement = fill ? spill_get_settlement_tilt(ev, spill) : 0;
  return evaluation_marked(ev) ? (double)NAN : levels_stacked(errors, 2, settlement);
}

static double levels_left_of_spill(struct evaluation *ev, struct spill_ref spill) {
  return spill_get_level_allowance(ev, spill) - spill_get_level_error(ev, spill);
}

// ---- A blocked lip ----

// Level with one way shut and the rim, as a broad edge all round, open: the lowest coefficients.
static double level_without(struct ways ways, size_t shut, struct way rim) {
  ways.at[shut] = rim;
  ways.least = true;
  return level_of(&ways);
}

static double blocked_level_of_basin(struct evaluation *ev, struct basin_ref basin) {
  struct ways ways = ways_of_basin(ev, basin);
  double perimeter = basin_get_perimeter(ev, basin);
  struct way over = {.entity = -1, .crest = basin_get_rim(ev, basin), .weir = {WEIR_BROAD_STONE, perimeter, 0}};
  ways.flow = fmax(0, basin_get_flow_in(ev, basin) - basin_get_flow_drawn(ev, basin));
  if (ways.count == 0) evaluation_missing(ev, NULL);
  double level = basin_get_water_level(ev, basin);
  for (size_t i = 0; i < ways.count && !evaluation_marked(ev); i++) {
    struct way way = ways.at[i];
    level = fmax(level, level_without(ways, i, over));
    ways.at[i] = way;
  }
  return level;
}

static double blocked_freeboard_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_rim(ev, basin) - basin_get_blocked_level(ev, basin);
}

static double edge_over_blocked_of_liner(struct evaluation *ev, struct liner_ref liner) {
  return liner_get_edge(ev, liner) - basin_get_blocked_level(ev, liner_get_of(ev, liner));
}

// ---- Channels ----

static double flow_of_channel(struct evaluation *ev, struct channel_ref channel) {
  double flow = 0;
  size_t spills = channel_count_spills_in(ev, channel), channels = channel_count_channels_in(ev, channel);
  for (size_t i = 0; i < spills; i++) flow += spill_get_flow(ev, channel_spills_in_at(ev, channel, i));
  for (size_t i = 0; i < channels; i++) flow += channel_get_flow(ev, channel_channels_in_at(ev, channel, i));
  if (spills + channels > 0) return flow;
  struct any_ref from = channel_get_from(ev, channel);
  if (kind_of(ev, from) == KIND_channel) return channel_get_flow(ev, (struct channel_ref){from.at});
  return share_of(basin_get_overflow(ev, (struct basin_ref){from.at}), channel.at);
}

static struct band depth_along(struct evaluation *ev, struct channel_ref channel) {
  struct channel reach = ways_channel(ev, channel);
  double flow = channel_get_flow(ev, channel);
  if (evaluation_marked(ev)) return band_none();
  struct band depth = channel_depth(&reach, flow);
  if (depth.outside) evaluation_outside(ev);
  return depth;
}

static double depth_of_channel(struct evaluation *ev, struct channel_ref channel) {
  return depth_along(ev, channel).likely;
}
static double depth_high_of_channel(struct evaluation *ev, struct channel_ref channel) {
  return depth_along(ev, channel).high;
}

// Its speed turned to height, where the water runs up against a stone or a bend: at the least depth, where it is
// fastest.
static double climb_of_channel(struct evaluation *ev, struct channel_ref channel) {
  double flow = channel_get_flow(ev, channel), width = channel_get_width(ev, channel);
  double depth = depth_along(ev, channel).low;
  if (flow <= 0) return 0;
  double speed = flow / (width * depth);
  return speed * speed / (2 * GRAVITY);
}

static double edge_to_spare_of_channel(struct evaluation *ev, struct channel_ref channel) {
  return channel_get_edge(ev, channel) - channel_get_depth_high(ev, channel) - channel_get_climb(ev, channel);
}

static double edge_depths_of_channel(struct evaluation *ev, struct channel_ref channel) {
  return channel_get_edge(ev, channel) / channel_get_depth_high(ev, channel);
}

static double live_volume_of_channel(struct evaluation *ev, struct channel_ref channel) {
  return channel_get_depth(ev, channel) * channel_get_width(ev, channel) * channel_get_length(ev, channel);
}

static double live_volume_low_of_channel(struct evaluation *ev, struct channel_ref channel) {
  return 0.5 * channel_get_live_volume(ev, channel);
}

static double live_volume_high_of_channel(struct evaluation *ev, struct channel_ref channel) {
  return 1.5 * channel_get_live_volume(ev, channel);
}

#include "quantities/export.h"
