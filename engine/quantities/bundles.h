// SPDX-License-Identifier: MIT
// Values that are kept whole in one slot; many quantities read them. Immutable once returned; they live in the
// evaluation's arena.
#ifndef FOREBAY_QUANTITIES_BUNDLES_H
#define FOREBAY_QUANTITIES_BUNDLES_H

#include <stdbool.h>
#include <stddef.h>

#include "physics/cuts.h"
#include "physics/network.h"
#include "physics/polygon_surface.h"
#include "physics/wall.h"

// The ground before the dig: level, one plane, or plane triangles between surveyed points.
struct ground_shape {
  bool plane;                          // else `surface`
  double at_origin, along_x, along_y;  // of a plane: height = at_origin + along_x x + along_y y; both 0: level
  const struct polygon_surface *surface;
  const struct polygon_surface_point *points;  // that were surveyed, or NULL
  size_t count;
};

struct basin_geometry {
  double rim_area, perimeter, least_across, most_across;  // at the rim
  double rim, water_level, bed;                           // heights
  double shelf_area;
  struct cuts cuts;  // from the rim to the bed
};

// A pit from its bottom to the ground.
struct dig_pit {
  double top_area, volume;
};

// All water that pipes, joints and pumps join, solved at once. By entity where it says so: NETWORK_AWAY for what is not
// in it. Flows and heads are copies and stay; the solver is for what-ifs, which leave its base as it was.
struct water_running {
  struct network network;
  struct network_solver *solver;
  // By entity: pump, pipe, jet, spill or channel; pipe; pipe; pump, junction, jet or bowl whose level the flow decides.
  size_t *link_of, *valve_of, *filter_of, *node_of;
  double *lift;                // by entity: pump's water to its highest outlet
  double *flows, *heads;       // by link; by node
  enum network_state *states;  // by link
};

// The same water with one thing changed: flows by link of the running network.
struct water_fault {
  const double *flows;
};

// Head that all the rest of its circulation asks of a pump, at flows in equal steps from none to its greatest.
#define SYSTEM_CURVE_POINTS 11
struct system_curve {
  double flows[SYSTEM_CURVE_POINTS], heads[SYSTEM_CURVE_POINTS];
};

// Openings that give every target at once, by pipe (entity); NaN: no valve of its own to set.
struct water_balance {
  const double *k, *head_to_spare;
};

// All lips and channels of a basin at one level.
struct basin_overflow {
  size_t count;
  const int *ways;           // entities: spills, then channels, in the order of the design
  const double *flows;       // m3/s, likely
  double level, level_high;  // running level with likely and with the lowest coefficients
};

// A stone's factors against tipping and sliding: set, backfilling, backfilled, water up, drained.
#define STONE_STATES 5
struct stone_states {
  double tips[STONE_STATES], slides[STONE_STATES];
};

#endif
