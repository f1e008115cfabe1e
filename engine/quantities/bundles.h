// SPDX-License-Identifier: MIT
// Values that are kept whole in one slot; many quantities read them. Immutable once returned; they live in the
// evaluation's arena.
#ifndef FOREBAY_QUANTITIES_BUNDLES_H
#define FOREBAY_QUANTITIES_BUNDLES_H

#include <stddef.h>

#include "physics/cuts.h"
#include "physics/wall.h"

struct basin_geometry {
  double rim_area, perimeter, least_across, most_across;  // at the rim
  double rim, water_level, bed;                           // heights
  double shelf_area;
  struct cuts cuts;  // from the rim to the bed
};

// A pit, or nothing of the sort: bottom to ground.
struct dig_pit {
  double top_area, bottom_area, bottom_width;
  struct cuts cuts;
};

// A pump against its one path.
struct pump_run {
  double flow, head;           // m3/s, m
  double static_head, losses;  // m
};

// All lips and channels of a basin at one level.
struct basin_overflow {
  size_t count;
  const int *ways;      // entities: spills, then channels, in the order of the design
  const double *flows;  // m3/s, likely
  double level, level_high;  // running level with likely and with the lowest coefficients
};

#endif
