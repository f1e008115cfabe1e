// SPDX-License-Identifier: MIT
// G. Earthwork; H. liner; I. coping; L. the order.
#include <math.h>

#include "catalogue/trade.h"
#include "physics/coping.h"
#include "physics/soil.h"
#include "physics/water.h"
#include "quantities/outline.h"
#include "quantities/read.h"

#define FOREBAY_ROWS "catalogue/earthwork.def"

#define POUND 0.45359237

// ---- The pit ----

static struct basin_ref dug_for_basin(struct evaluation *ev, struct dig_ref dig) {
  struct any_ref of = dig_get_of(ev, dig);
  return (struct basin_ref){kind_of(ev, of) == KIND_basin ? of.at : -1};
}

static double lowest_of(struct evaluation *ev, struct dig_ref dig, double ground) {
  struct any_ref of = dig_get_of(ev, dig);
  if (kind_of(ev, of) == KIND_wall) {
    struct wall_ref wall = {of.at};
    return ground - wall_get_embedment(ev, wall) - wall_get_base_pad(ev, wall);
  }
  struct basin_ref basin = {of.at};
  return basin_get_water_level(ev, basin) - basin_get_depth(ev, basin) - dig_get_below(ev, dig);
}

// A wall's base pad is the room under it; a basin's is `below`.
static double depth_of_dig(struct evaluation *ev, struct dig_ref dig) {
  double ground = site_get_ground(ev, the_site(ev));
  double depth = ground - lowest_of(ev, dig, ground);
  if (!evaluation_marked(ev) && depth <= 0) {
    evaluation_impossible(ev, dig.at, ROW_dig_of, "stands above the ground: there is nothing to dig", "a basin or wall that reaches into the ground");
  }
  return depth;
}

static struct polygon_profile *outline_of(struct evaluation *ev, struct dig_ref dig) {
  struct any_ref of = dig_get_of(ev, dig);
  if (kind_of(ev, of) == KIND_wall) return outline_of_wall(ev, (struct wall_ref){of.at});
  return outline_of_basin(ev, dug_for_basin(ev, dig));
}

static double outset_area(struct evaluation *ev, struct polygon_profile *outline, double outset) {
  return outline_area(ev, outline, -outset);
}

// The sides are planes, so one cut with its middle is exact as long as no corner closes on the way up, which outsets of
// an outline do not do.
static const struct dig_pit *pit_of_dig(struct evaluation *ev, struct dig_ref dig) {
  double depth = dig_get_depth(ev, dig), beyond = dig_get_beyond(ev, dig), slope = dig_get_slope(ev, dig);
  struct polygon_profile *outline = outline_of(ev, dig);
  struct polygon_extents extents;
  if (evaluation_marked(ev) || !outline || !polygon_extents(polygon_profile_outline(outline), &extents, NULL)) return NULL;
  struct cut *cut = arena_alloc(evaluation_arena(ev), sizeof *cut);
  *cut = (struct cut){depth, 0, outset_area(ev, outline, beyond + slope * depth),
                      outset_area(ev, outline, beyond + slope * depth / 2), outset_area(ev, outline, beyond)};
  struct dig_pit *pit = arena_alloc(evaluation_arena(ev), sizeof *pit);
  *pit = (struct dig_pit){cut->area_top, cut->area_bottom, extents.width + 2 * beyond, {cut, 1}};
  return pit;
}

#define OF_PIT(name, expression)                                         \
  static double name##_of_dig(struct evaluation *ev, struct dig_ref dig) { \
    const struct dig_pit *pit = dig_get_pit(ev, dig);                    \
    return pit ? (expression) : (double)NAN;                             \
  }
OF_PIT(bottom_width, pit->bottom_width)
OF_PIT(top_area, pit->top_area)
OF_PIT(bank_volume, cuts_volume(&pit->cuts, pit->cuts.layers[0].top, pit->cuts.layers[0].bottom))
#undef OF_PIT

// ---- Hauling ----

static enum word soil_of(struct evaluation *ev) { return site_get_soil(ev, the_site(ev)); }

static double loose_volume_of_dig(struct evaluation *ev, struct dig_ref dig) {
  return soil_loose_volume(dig_get_bank_volume(ev, dig), site_get_swell(ev, the_site(ev)));
}

static double soil_mass_of_dig(struct evaluation *ev, struct dig_ref dig) {
  enum word soil = soil_of(ev);
  double volume = dig_get_bank_volume(ev, dig);
  return evaluation_marked(ev) ? (double)NAN : volume * trade_soil_density(soil);
}

static double loads_by_volume_of_dig(struct evaluation *ev, struct dig_ref dig) {
  return dig_get_loose_volume(ev, dig) / site_get_truck_volume(ev, the_site(ev));
}

static double loads_by_mass_of_dig(struct evaluation *ev, struct dig_ref dig) {
  return dig_get_soil_mass(ev, dig) / site_get_truck_limit(ev, the_site(ev));
}

static double loads_of_dig(struct evaluation *ev, struct dig_ref dig) {
  double loads = fmax(dig_get_loads_by_volume(ev, dig), dig_get_loads_by_mass(ev, dig));
  return ceil(loads - 1e-9 * loads);
}

static double slope_to_spare_of_dig(struct evaluation *ev, struct dig_ref dig) {
  enum word soil = soil_of(ev);
  double slope = dig_get_slope(ev, dig);
  return evaluation_marked(ev) ? (double)NAN : slope - trade_soil_slope(soil);
}

static double test_hole_past_of_dig(struct evaluation *ev, struct dig_ref dig) {
  return site_get_test_hole(ev, the_site(ev)) - dig_get_depth(ev, dig);
}

// ---- Liner and coping ----

static double edge_over_water_of_liner(struct evaluation *ev, struct liner_ref liner) {
  return liner_get_edge(ev, liner) - basin_get_highest_water(ev, liner_get_of(ev, liner));
}

static struct trade_range cap_density(struct evaluation *ev, struct coping_ref coping) {
  enum word stone = coping_get_stone(ev, coping);
  return evaluation_marked(ev) ? (struct trade_range){0, 0, 0} : trade_density(stone);
}

static double cap_volume(struct evaluation *ev, struct coping_ref coping) {
  return coping_get_length(ev, coping) * coping_get_depth(ev, coping) * coping_get_thickness(ev, coping);
}

static double mass_low_of_coping(struct evaluation *ev, struct coping_ref coping) {
  return cap_volume(ev, coping) * cap_density(ev, coping).low;
}

static double mass_high_of_coping(struct evaluation *ev, struct coping_ref coping) {
  return cap_volume(ev, coping) * cap_density(ev, coping).high;
}

// 300 lb at the very edge, on one piece, held by the stone's own weight alone.
static double tip_factor_of_coping(struct evaluation *ev, struct coping_ref coping) {
  struct coping cap = {.length = coping_get_length(ev, coping),
                       .depth = coping_get_depth(ev, coping),
                       .thickness = coping_get_thickness(ev, coping),
                       .overhang = coping_get_overhang(ev, coping)};
  double mass = coping_get_mass_low(ev, coping);
  if (evaluation_marked(ev)) return (double)NAN;
  cap.density = mass / (cap.length * cap.depth * cap.thickness);
  return coping_tipping_factor(&cap, 300 * POUND * GRAVITY);
}

// ---- The order ----

#define SUM_OF_ALL(result, kind, value)                                                  \
  static double result##_of_project(struct evaluation *ev, struct project_ref project) { \
    double sum = 0;                                                                      \
    (void)project;                                                                       \
    for (size_t i = 0; i < store_count(evaluation_design(ev), KIND_##kind); i++) {       \
      struct kind##_ref it = {store_of_kind(evaluation_design(ev), KIND_##kind, i)};     \
      sum += kind##_get_##value(ev, it);                                                 \
    }                                                                                    \
    return sum;                                                                          \
  }
SUM_OF_ALL(stone_mass_high, boulder, mass_high)
SUM_OF_ALL(bank_volume, dig, bank_volume)
SUM_OF_ALL(loose_volume, dig, loose_volume)
SUM_OF_ALL(loads, dig, loads)
#undef SUM_OF_ALL

static double gravel_in(struct evaluation *ev, struct basin_ref basin) {
  double top = basin_get_gravel_bed(ev, basin), volume = 0;
  for (size_t i = 0; i < basin_count_ring(ev, basin); i++) {
    struct ring_stretch_ref it = basin_ring_at(ev, basin, i);
    volume += ring_stretch_get_width(ev, it) * ring_stretch_get_depth(ev, it) *
              (ring_stretch_get_ends(ev, it) - ring_stretch_get_starts(ev, it));
  }
  if (top <= 0) return volume;
  const struct basin_geometry *geometry = basin_get_geometry(ev, basin);
  if (evaluation_marked(ev)) return (double)NAN;
  return volume + cuts_volume(&geometry->cuts, geometry->bed + top, geometry->bed);
}

static double gravel_volume_of_project(struct evaluation *ev, struct project_ref project) {
  const struct store *design = evaluation_design(ev);
  double volume = 0;
  (void)project;
  for (size_t i = 0; i < store_count(design, KIND_boulder); i++) {
    volume += boulder_get_gravel_volume(ev, (struct boulder_ref){store_of_kind(design, KIND_boulder, i)});
  }
  for (size_t i = 0; i < store_count(design, KIND_basin); i++) {
    volume += gravel_in(ev, (struct basin_ref){store_of_kind(design, KIND_basin, i)});
  }
  return volume;
}

// Clean crushed stone, about 100 lb/ft3 loose.
static double gravel_mass_of_project(struct evaluation *ev, struct project_ref project) {
  double pounds_per_cubic_foot = POUND / (0.3048 * 0.3048 * 0.3048);
  return project_get_gravel_volume(ev, project) * 100 * pounds_per_cubic_foot;
}

static double haul_days_of_project(struct evaluation *ev, struct project_ref project) {
  return project_get_loads(ev, project) * site_get_haul_cycle(ev, the_site(ev)) / (8 * 3600);
}

static double haul_days_over_of_project(struct evaluation *ev, struct project_ref project) {
  return project_get_haul_days(ev, project) - project_get_dig_days(ev, project);
}

#include "quantities/export.h"
