// SPDX-License-Identifier: MIT
// L. Crew and order.
#include <math.h>

#include "physics/haul.h"
#include "quantities/read.h"
#include "units/exact.h"

#define FOREBAY_ROWS "catalogue/order.def"

#define DAY 86400.0
#define WORKING_DAY (8 * 3600.0)
#define TON (2000 * POUND)
#define LOOSE_STONE (100 * POUND / (FOOT * FOOT * FOOT))  // clean crushed stone, poured
#define PAVING_STONE (160 * POUND / (FOOT * FOOT * FOOT))
#define POURED_OVER_COMPACTED 1.2

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
SUM_OF_ALL(stone_mass_low, boulder, mass_low)
SUM_OF_ALL(stone_mass, boulder, mass)
SUM_OF_ALL(stone_mass_high, boulder, mass_high)
SUM_OF_ALL(bank_volume, dig, bank_volume)
SUM_OF_ALL(loose_volume, dig, loose_volume)
SUM_OF_ALL(soil_mass, dig, soil_mass)
SUM_OF_ALL(loads, dig, loads)
SUM_OF_ALL(pipe_length, pipe, length)
SUM_OF_ALL(wall_length, wall, length)
SUM_OF_ALL(wall_face_area, wall, face_area)
SUM_OF_ALL(wall_volume, wall, block_volume)
SUM_OF_ALL(coping_pieces, coping, pieces)
SUM_OF_ALL(paving_area, paving, area)
SUM_OF_ALL(paving_mass, paving, stone_mass)
SUM_OF_ALL(plants, planting, plants)
SUM_OF_ALL(planting_soil, planting, soil_volume)
SUM_OF_ALL(liner_area, liner, area)
SUM_OF_ALL(underlay_area, liner, underlay_area)
#undef SUM_OF_ALL

#define COUNT_OF_ALL(result, kind)                                                       \
  static double result##_of_project(struct evaluation *ev, struct project_ref project) { \
    (void)project;                                                                       \
    return (double)store_count(evaluation_design(ev), KIND_##kind);                      \
  }
COUNT_OF_ALL(stones, boulder)
COUNT_OF_ALL(circuits, circuit)
#undef COUNT_OF_ALL

// ---- Gravel ----

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

static double gravel_mass_of_project(struct evaluation *ev, struct project_ref project) {
  return project_get_gravel_volume(ev, project) * LOOSE_STONE;
}

static double gravel_bags_of_project(struct evaluation *ev, struct project_ref project) {
  const struct haul_vessel bag = {HAUL_BULK_BAG, HAUL_BULK_BAG_LIMIT};
  return haul_pieces(&bag, project_get_gravel_volume(ev, project), LOOSE_STONE);
}

static double gravel_buckets_of_project(struct evaluation *ev, struct project_ref project) {
  return haul_pieces_of(project_get_gravel_volume(ev, project), HAUL_BUCKET);
}

// ---- Soil ----

static double compacted_volume_of_project(struct evaluation *ev, struct project_ref project) {
  return project_get_bank_volume(ev, project) * (1 - site_get_shrink(ev, the_site(ev)));
}

// ---- Liner, wire ----

static double wire_length_of_project(struct evaluation *ev, struct project_ref project) {
  const struct store *design = evaluation_design(ev);
  double length = 0;
  (void)project;
  for (size_t i = 0; i < store_count(design, KIND_circuit); i++) {
    length += circuit_get_run(ev, (struct circuit_ref){store_of_kind(design, KIND_circuit, i)});
  }
  for (size_t i = 0; i < store_count(design, KIND_light); i++) {
    length += light_get_run(ev, (struct light_ref){store_of_kind(design, KIND_light, i)});
  }
  return length;
}

// ---- Walls, caps, paving ----

static double face_area_of_wall(struct evaluation *ev, struct wall_ref wall) {
  return wall_get_length(ev, wall) * wall_get_footing_to_top(ev, wall);
}

static double block_volume_of_wall(struct evaluation *ev, struct wall_ref wall) {
  return wall_get_length(ev, wall) * wall_get_footing_to_top(ev, wall) * wall_get_thickness(ev, wall);
}

// The pad spreads its own depth beyond the wall, front and back.
static double base_volume_of_wall(struct evaluation *ev, struct wall_ref wall) {
  double pad = wall_get_base_pad(ev, wall);
  return wall_get_length(ev, wall) * (wall_get_thickness(ev, wall) + 2 * pad) * pad;
}

static double stone_mass_of_paving(struct evaluation *ev, struct paving_ref paving) {
  return paving_get_area(ev, paving) * paving_get_thickness(ev, paving) * PAVING_STONE;
}

static double run_of_coping(struct evaluation *ev, struct coping_ref coping) {
  struct any_ref on = coping_get_on(ev, coping);
  if (kind_of(ev, on) == KIND_wall) return wall_get_length(ev, (struct wall_ref){on.at});
  return basin_get_perimeter(ev, (struct basin_ref){on.at});
}

static double pieces_of_coping(struct evaluation *ev, struct coping_ref coping) {
  return haul_pieces_of(coping_get_run(ev, coping), coping_get_length(ev, coping));
}

static double base_volume_of_project(struct evaluation *ev, struct project_ref project) {
  const struct store *design = evaluation_design(ev);
  double volume = 0;
  (void)project;
  for (size_t i = 0; i < store_count(design, KIND_wall); i++) {
    volume += wall_get_base_volume(ev, (struct wall_ref){store_of_kind(design, KIND_wall, i)});
  }
  for (size_t i = 0; i < store_count(design, KIND_paving); i++) {
    struct paving_ref paving = {store_of_kind(design, KIND_paving, i)};
    volume += paving_get_area(ev, paving) * paving_get_base(ev, paving);
  }
  return volume;
}

static double base_loose_of_project(struct evaluation *ev, struct project_ref project) {
  return project_get_base_volume(ev, project) * POURED_OVER_COMPACTED;
}

static double base_mass_of_project(struct evaluation *ev, struct project_ref project) {
  return project_get_base_loose(ev, project) * LOOSE_STONE;
}

// ---- Days ----

static double haul_days_of_project(struct evaluation *ev, struct project_ref project) {
  return project_get_loads(ev, project) * site_get_haul_cycle(ev, the_site(ev)) / WORKING_DAY * DAY;
}

static double haul_days_over_of_project(struct evaluation *ev, struct project_ref project) {
  return project_get_haul_days(ev, project) - project_get_dig_days(ev, project) * DAY;
}

static struct crew_ref the_crew(struct evaluation *ev) {
  return (struct crew_ref){store_of_kind(evaluation_design(ev), KIND_crew, 0)};
}

// Where there is nothing to do no rate is asked for.
#define DAYS(result, work, rate)                                                         \
  static double result##_of_project(struct evaluation *ev, struct project_ref project) { \
    double amount = project_get_##work(ev, project);                                     \
    if (!evaluation_marked(ev) && amount <= 0) return 0;                                 \
    return haul_days(amount, crew_get_##rate(ev, the_crew(ev)), 1) * DAY;                \
  }
DAYS(stone_days, stones, stones_per_day)
DAYS(soil_days, bank_volume, soil_per_day)
DAYS(wall_days, wall_length, wall_per_day)
DAYS(paving_days, paving_area, paving_per_day)
#undef DAYS

static double work_days_of_project(struct evaluation *ev, struct project_ref project) {
  return project_get_stone_days(ev, project) + project_get_soil_days(ev, project) + project_get_wall_days(ev, project) +
         project_get_paving_days(ev, project);
}

static double work_days_over_of_project(struct evaluation *ev, struct project_ref project) {
  return project_get_work_days(ev, project) - crew_get_days(ev, the_crew(ev)) * DAY;
}

// ---- Price ----

static struct prices_ref the_prices(struct evaluation *ev) {
  return (struct prices_ref){store_of_kind(evaluation_design(ev), KIND_prices, 0)};
}

// What is not ordered has no price to ask for.
#define PRICE(result, amount, unit, each)                                                \
  static double result##_of_project(struct evaluation *ev, struct project_ref project) { \
    double ordered = project_get_##amount(ev, project) / (unit);                         \
    if (!evaluation_marked(ev) && ordered <= 0) return 0;                                \
    return ordered * prices_get_##each(ev, the_prices(ev));                              \
  }
PRICE(stone_price, stone_mass, TON, stone)
PRICE(gravel_price, gravel_mass, TON, gravel)
PRICE(haul_price, loads, 1, haul)
PRICE(liner_price, liner_area, FOOT *FOOT, liner)
PRICE(underlay_price, underlay_area, FOOT *FOOT, underlay)
PRICE(wall_price, wall_face_area, FOOT *FOOT, wall)
PRICE(coping_price, coping_pieces, 1, coping)
PRICE(paving_price, paving_area, FOOT *FOOT, paving)
PRICE(base_price, base_mass, TON, base)
PRICE(plants_price, plants, 1, plant)
PRICE(crew_price, work_days, DAY, crew_day)
#undef PRICE

// ---- Hand-over ----

// With nothing wrong only the sun and wind take water; a leak that the test found and the owner lives with comes on
// top.
static double normal_loss_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double leak = basin_states_leak(ev, basin) ? basin_get_leak(ev, basin) : 0;
  return site_get_pan_evaporation(ev, the_site(ev)) + leak;
}

#include "quantities/export.h"
