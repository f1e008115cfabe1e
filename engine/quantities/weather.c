// SPDX-License-Identifier: MIT
// D. What if: a storm, a stuck fill, losses by the day, ice, levels that are not what the drawing says.
#include <math.h>

#include "physics/levels.h"
#include "physics/losses.h"
#include "physics/overflow.h"
#include "quantities/read.h"

#define FOREBAY_ROWS "catalogue/weather.def"

#define DAY 86400.0
#define HALF_OPEN 0.5        // leaves and a grate take the other half of an overflow; common practice
#define USUAL_LEAK 0.003175  // m in a day (1/8 in): the most that a leak test passes
#define ICE_GROWTH 0.09      // of the water's volume

// ---- A storm ----

// A storm that nobody stated is missing, not none.
static struct storm_ref the_storm(struct evaluation *ev) {
  struct site_ref site = the_site(ev);
  evaluation_number(ev, site.at, ROW_site_storm);
  return site_count_storm(ev, site) > 0 ? site_storm_at(ev, site, 0) : (struct storm_ref){-1};
}

static double storm_flow_of_basin(struct evaluation *ev, struct basin_ref basin) {
  struct storm_ref storm = the_storm(ev);
  return storm_get_depth(ev, storm) / storm_get_lasts(ev, storm) * basin_get_rain_area(ev, basin);
}

static struct overflow overflow_pipe(struct evaluation *ev, struct basin_ref basin) {
  return (struct overflow){basin_get_overflow_bore(ev, basin), HALF_OPEN};
}

static double overflow_flow_of_basin(struct evaluation *ev, struct basin_ref basin) {
  struct overflow pipe = overflow_pipe(ev, basin);
  double head = basin_get_rim(ev, basin) - basin_get_overflow_at(ev, basin);
  return evaluation_marked(ev) ? (double)NAN : overflow_flow(&pipe, head);
}

struct rising {
  const struct basin_geometry *geometry;
  struct overflow pipe;
  bool piped;
  double pipe_at;
  double volume, level;  // over still water; and where that stands
};

// Forward in time, at once where nothing leaves; the overflow is taken at the level before each step, which is the
// lower one while it rises.
static void rise_for(struct rising *rising, double flow, double time) {
  double out = rising->piped ? overflow_flow(&rising->pipe, rising->level - rising->pipe_at) : 0;
  rising->volume += (flow - out) * time;
  rising->level = cuts_rise_to(&rising->geometry->cuts, rising->geometry->water_level, fmax(0, rising->volume));
}

static double storm_level_of_basin(struct evaluation *ev, struct basin_ref basin) {
  enum { STEPS = 400 };
  struct rising rising = {.geometry = basin_get_geometry(ev, basin), .volume = basin_get_water_in_flight(ev, basin)};
  double flow = basin_get_storm_flow(ev, basin), lasts = storm_get_lasts(ev, the_storm(ev));
  rising.piped = basin_states_overflow_bore(ev, basin);
  if (rising.piped) rising.pipe = overflow_pipe(ev, basin);
  if (rising.piped) rising.pipe_at = basin_get_overflow_at(ev, basin);
  if (evaluation_marked(ev)) return (double)NAN;
  rise_for(&rising, 0, 0);
  double highest = rising.level;
  int steps = rising.piped ? STEPS : 1;
  for (int i = 0; i < steps; i++) {
    rise_for(&rising, flow, lasts / steps);
    highest = fmax(highest, rising.level);
  }
  return highest;
}

static double storm_freeboard_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_rim(ev, basin) - basin_get_storm_level(ev, basin);
}

// ---- A stuck fill ----

static double fill_level_of_basin(struct evaluation *ev, struct basin_ref basin) {
  struct overflow pipe = overflow_pipe(ev, basin);
  double flow = basin_get_fill_flow(ev, basin), at = basin_get_overflow_at(ev, basin);
  return evaluation_marked(ev) ? (double)NAN : at + overflow_head(&pipe, flow);
}

static double fill_freeboard_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_rim(ev, basin) - basin_get_fill_level(ev, basin);
}

// ---- Losses by the day ----

// The pan's own figure, and all that is wet: a shallow feature warms as a pan does.
static double evaporation_loss_of_basin(struct evaluation *ev, struct basin_ref basin) {
  struct site_ref site = the_site(ev);
  double wet = basin_get_rain_area(ev, basin) - site_get_runoff_area(ev, site);
  return site_get_pan_evaporation(ev, site) * wet;
}

static double splash_loss_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return losses_splash(basin_get_net_volume(ev, basin), LOSSES_SPLASH_MOST);
}

static double leak_loss_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double leak = basin_states_leak(ev, basin) ? basin_get_leak(ev, basin) : USUAL_LEAK / DAY;
  return leak * basin_get_water_area(ev, basin);
}

static double loss_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_evaporation_loss(ev, basin) + basin_get_splash_loss(ev, basin) + basin_get_leak_loss(ev, basin);
}

static double level_loss_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_loss(ev, basin) / basin_get_water_area(ev, basin);
}

static double makeup_to_spare_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_fill_flow(ev, basin) - basin_get_loss(ev, basin);
}

static double time_without_fill_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_usable_volume(ev, basin) / basin_get_loss(ev, basin);
}

// ---- Ice ----

// Where the basin drains to. Over the water it would drain nothing.
static double drain_height(struct evaluation *ev, struct basin_ref basin, const struct basin_geometry *geometry) {
  double drain = basin_get_drain_at(ev, basin);
  if (!evaluation_marked(ev) && drain > geometry->water_level) {
    evaluation_impossible(ev, basin.at, ROW_basin_drain_at, "is over the still water",
                          "a height under the water level");
  }
  return drain;
}

static double trapped_volume_of_basin(struct evaluation *ev, struct basin_ref basin) {
  const struct basin_geometry *geometry = basin_get_geometry(ev, basin);
  double drain = drain_height(ev, basin, geometry);
  return evaluation_marked(ev) ? (double)NAN : cuts_volume(&geometry->cuts, drain, geometry->bed);
}

static double trapped_depth_of_basin(struct evaluation *ev, struct basin_ref basin) {
  const struct basin_geometry *geometry = basin_get_geometry(ev, basin);
  double drain = drain_height(ev, basin, geometry);
  return evaluation_marked(ev) ? (double)NAN : fmax(0, drain - geometry->bed);
}

static double ice_growth_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return ICE_GROWTH * basin_get_trapped_volume(ev, basin);
}

// ---- Levels that are not what the drawing says ----

static double level_error_of_project(struct evaluation *ev, struct project_ref project) {
  const struct store *design = evaluation_design(ev);
  size_t count = store_count(design, KIND_benchmark);
  double *errors = arena_array(evaluation_arena(ev), count + 1, sizeof *errors);
  errors[0] = project_get_closing_error(ev, project);
  for (size_t i = 0; i < count; i++) {
    errors[i + 1] = benchmark_get_error(ev, (struct benchmark_ref){store_of_kind(design, KIND_benchmark, i)});
  }
  return evaluation_marked(ev) ? (double)NAN : levels_stacked(errors, count + 1, 0);
}

static double levels_left_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_freeboard_left(ev, basin) - project_get_level_error(ev, the_project(ev));
}

// ---- Beside falling water ----

static double landing_to_spare_of_intake(struct evaluation *ev, struct intake_ref intake) {
  return intake_get_from_landing(ev, intake) - intake_get_clear_of_landing(ev, intake);
}

#include "quantities/export.h"
