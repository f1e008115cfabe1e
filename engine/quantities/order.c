// SPDX-License-Identifier: MIT
// L. Crew and order.
#include <math.h>

#include "quantities/read.h"

#define FOREBAY_ROWS "catalogue/order.def"

#define POUND 0.45359237

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
