// SPDX-License-Identifier: MIT
// H. Liner.
#include <math.h>

#include "catalogue/trade.h"
#include "physics/handling.h"
#include "physics/liner.h"
#include "physics/water.h"
#include "quantities/read.h"

#define FOREBAY_ROWS "catalogue/liner.def"

static double liner_count_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return (double)basin_count_liners(ev, basin);
}

static double edge_over_water_of_liner(struct evaluation *ev, struct liner_ref liner) {
  return liner_get_edge(ev, liner) - basin_get_highest_water(ev, liner_get_of(ev, liner));
}

// ---- Size and weight ----

// Shelves bend the run and change nothing of its length.
static double run_over(struct evaluation *ev, struct liner_ref liner, double across) {
  struct basin_ref basin = liner_get_of(ev, liner);
  double side = basin_get_side_slope(ev, basin), depth = basin_get_depth(ev, basin) + basin_get_freeboard(ev, basin);
  double over = liner_get_over_edge(ev, liner);
  if (evaluation_marked(ev)) return (double)NAN;
  double run = liner_run(across, depth, side, over);
  if (isnan(run)) {
    evaluation_impossible(ev, basin.at, ROW_basin_side_slope, "lets the sides meet above the bed",
                          "steeper sides or less depth");
  }
  return run;
}

static double length_needed_of_liner(struct evaluation *ev, struct liner_ref liner) {
  return run_over(ev, liner, basin_get_most_across(ev, liner_get_of(ev, liner)));
}

static double width_needed_of_liner(struct evaluation *ev, struct liner_ref liner) {
  return run_over(ev, liner, basin_get_least_across(ev, liner_get_of(ev, liner)));
}

static double length_to_spare_of_liner(struct evaluation *ev, struct liner_ref liner) {
  return fmax(liner_get_length(ev, liner), liner_get_width(ev, liner)) - liner_get_length_needed(ev, liner);
}

static double width_to_spare_of_liner(struct evaluation *ev, struct liner_ref liner) {
  return fmin(liner_get_length(ev, liner), liner_get_width(ev, liner)) - liner_get_width_needed(ev, liner);
}

static double area_of_liner(struct evaluation *ev, struct liner_ref liner) {
  bool written = liner_states_length(ev, liner) && liner_states_width(ev, liner);
  if (written) return liner_get_length(ev, liner) * liner_get_width(ev, liner);
  return liner_get_length_needed(ev, liner) * liner_get_width_needed(ev, liner);
}

static double underlay_area_of_liner(struct evaluation *ev, struct liner_ref liner) {
  enum word underlay = liner_get_underlay(ev, liner);
  double sides = underlay == WORD_underlay_both_sides ? 2 : underlay == WORD_underlay_one_side ? 1 : 0;
  return sides * liner_get_area(ev, liner);
}

static double mass_of_liner(struct evaluation *ev, struct liner_ref liner) {
  return liner_get_area(ev, liner) * liner_get_weight(ev, liner);
}

static double people_of_liner(struct evaluation *ev, struct liner_ref liner) {
  return (double)handling_people_for(liner_get_mass(ev, liner));
}

static double lap_over_water_of_liner(struct evaluation *ev, struct liner_ref liner) {
  return liner_get_lap_top(ev, liner) - basin_get_water_level(ev, liner_get_of(ev, liner));
}

// ---- Ground water under it ----

static double ground_water_over_bed_of_liner(struct evaluation *ev, struct liner_ref liner) {
  double ground_water = site_get_ground_water(ev, the_site(ev));
  return isinf(ground_water) ? 0 : fmax(0, basin_get_ground_depth(ev, liner_get_of(ev, liner)) - ground_water);
}

// Mass over each area of the bed. Gravel counts as the lightest stone; set stones and stones on shelves are left out,
// since they stand on a part of the bed alone.
static double on_the_bed(struct evaluation *ev, struct liner_ref liner) {
  struct basin_ref basin = liner_get_of(ev, liner);
  double solids = basin_get_gravel_bed(ev, basin) * (1 - basin_get_voids(ev, basin));
  return liner_get_weight(ev, liner) + solids * trade_density(WORD_stone_unknown).low;
}

static double water_on_the_bed(struct evaluation *ev, struct liner_ref liner) {
  struct basin_ref basin = liner_get_of(ev, liner);
  double solids = basin_get_gravel_bed(ev, basin) * (1 - basin_get_voids(ev, basin));
  return (basin_get_depth(ev, basin) - solids) * WATER_USUAL_DENSITY;
}

static double factor(struct evaluation *ev, struct liner_ref liner, double structure, double contained) {
  double up = liner_get_ground_water_over_bed(ev, liner) * WATER_USUAL_DENSITY;
  if (evaluation_marked(ev)) return (double)NAN;
  return liner_uplift_factor(&(struct liner_uplift){.structure = structure, .contained = contained, .uplift = up});
}

static double uplift_factor_drained_of_liner(struct evaluation *ev, struct liner_ref liner) {
  return factor(ev, liner, on_the_bed(ev, liner), 0);
}

static double uplift_factor_of_liner(struct evaluation *ev, struct liner_ref liner) {
  return factor(ev, liner, on_the_bed(ev, liner), water_on_the_bed(ev, liner));
}

#include "quantities/export.h"
