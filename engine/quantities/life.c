// SPDX-License-Identifier: MIT
// K. Life in the water.
#include <math.h>

#include "physics/aquatic.h"
#include "quantities/read.h"
#include "units/exact.h"

#define FOREBAY_ROWS "catalogue/life.def"

#define DAY 86400.0

// ---- Plants ----

static double planted_area_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double sum = 0;
  for (size_t i = 0; i < basin_count_plantings(ev, basin); i++) {
    sum += planting_get_area(ev, basin_plantings_at(ev, basin, i));
  }
  return sum;
}

static double planted_share_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_planted_area(ev, basin) / basin_get_water_area(ev, basin);
}

static double soil_volume_of_planting(struct evaluation *ev, struct planting_ref planting) {
  return planting_get_area(ev, planting) * planting_get_soil_depth(ev, planting);
}

// ---- Fish ----

static double length_of(struct evaluation *ev, struct fish_ref fish) {
  return fish_get_count(ev, fish) * fish_get_length(ev, fish);
}

static double fish_length_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double sum = 0;
  for (size_t i = 0; i < basin_count_fish(ev, basin); i++) sum += length_of(ev, basin_fish_at(ev, basin, i));
  return sum;
}

// m3 of water for each metre of grown fish: 5 gal an inch for small fish; koi are deep-bodied and ask far more, here
// 500 gal for one of 20 in. Common practice, no source.
static double water_for(enum word sort) { return (sort == WORD_fish_sort_koi ? 25 : 5) * GALLON / INCH; }

static double fish_water_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double sum = 0;
  for (size_t i = 0; i < basin_count_fish(ev, basin); i++) {
    struct fish_ref fish = basin_fish_at(ev, basin, i);
    sum += length_of(ev, fish) * water_for(fish_get_sort(ev, fish));
  }
  return sum;
}

static double fish_load_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_fish_water(ev, basin) / basin_get_net_volume(ev, basin);
}

// ---- Filters ----

enum { FARTHEST = 16 };  // joints in a row; pipes may close a ring

static size_t filters_along(struct evaluation *ev, struct pipe_ref pipe, int joints) {
  size_t count = pipe_states_filter(ev, pipe) ? 1 : 0;
  if (count) pipe_get_filter(ev, pipe);
  struct any_ref to = pipe_get_to(ev, pipe);
  if (joints == 0 || kind_of(ev, to) != KIND_junction) return count;
  struct junction_ref joint = {to.at};
  for (size_t i = 0; i < junction_count_pipes_out(ev, joint); i++) {
    count += filters_along(ev, junction_pipes_out_at(ev, joint, i), joints - 1);
  }
  return count;
}

static size_t filters_behind(struct evaluation *ev, struct pump_ref pump) {
  size_t count = 0;
  for (size_t i = 0; i < pump_count_pipes_out(ev, pump); i++) {
    count += filters_along(ev, pump_pipes_out_at(ev, pump, i), FARTHEST);
  }
  return count;
}

static double filters_of_basin(struct evaluation *ev, struct basin_ref basin) {
  size_t count = 0;
  for (size_t i = 0; i < basin_count_pumps(ev, basin); i++) count += filters_behind(ev, basin_pumps_at(ev, basin, i));
  for (size_t i = 0; i < basin_count_intakes(ev, basin); i++) {
    struct intake_ref intake = basin_intakes_at(ev, basin, i);
    for (size_t k = 0; k < intake_count_pumps(ev, intake); k++) {
      count += filters_behind(ev, intake_pumps_at(ev, intake, k));
    }
  }
  return (double)count;
}

// ---- Warmth, frost ----

static double oxygen_warm_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double pressure = aquatic_pressure(site_get_altitude(ev, the_site(ev)));
  double held = aquatic_oxygen_saturation(basin_get_warmest(ev, basin), pressure);
  if (!evaluation_marked(ev) && !isfinite(held)) {
    evaluation_impossible(ev, basin.at, ROW_basin_warmest, "is no water that anything lives in", "32 to 104 degF");
  }
  return held * basin_get_oxygen_share(ev, basin);
}

static double depth_under_ice_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double ice = site_get_ice(ev, the_site(ev));
  return basin_get_water_depth(ev, basin) - (isinf(ice) ? 0 : ice);
}

// ---- The first filling ----

static double chlorine_mass_of_basin(struct evaluation *ev, struct basin_ref basin) {
  enum word carries = basin_get_disinfectant(ev, basin);
  if (evaluation_marked(ev) || carries == WORD_disinfectant_none) return 0;
  return aquatic_chlorine(basin_get_net_volume(ev, basin), basin_get_disinfectant_level(ev, basin));
}

static double thiosulfate_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return aquatic_neutraliser_dose(AQUATIC_THIOSULFATE, basin_get_chlorine_mass(ev, basin));
}

// ---- Leaves ----

// The most litter of a year, 0.23 lb/ft2 dry. Three fifths of it come down within a month, and what lies wet in a
// basket is as loose as 6 lb of dry leaf in a cubic foot: common practice, no source. What the wind brings from around
// is left out.
static double leaves_per_day_of_intake(struct evaluation *ev, struct intake_ref intake) {
  struct basin_ref basin = intake_get_basin(ev, intake);
  double litter = 0.23 * POUND / (FOOT * FOOT), share_a_day = 0.6 / 30, looseness = 6 * POUND / (FOOT * FOOT * FOOT);
  double volume = basin_get_water_area(ev, basin) * litter * share_a_day / looseness;
  return volume / (double)basin_count_intakes(ev, basin);
}

static double leaf_days_of_intake(struct evaluation *ev, struct intake_ref intake) {
  return intake_get_basket(ev, intake) / intake_get_leaves_per_day(ev, intake) * DAY;
}

#include "quantities/export.h"
