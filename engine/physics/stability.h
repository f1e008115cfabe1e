// SPDX-License-Identifier: MIT
// One block held by its own weight: will it tip over its front edge or slide forward? "Front" is the open side, where
// people and water are; gravel and ground stand behind. Statics of a rigid block, whole block, not per metre. m, kg, N,
// Pa, rad. Heights are over the seat. Which loads act in which build state: common practice, no source. The factors
// tell of the loads given and no others; they do not say that anybody is safe beside the stone. Bad input: NaN.
#ifndef FOREBAY_PHYSICS_STABILITY_H
#define FOREBAY_PHYSICS_STABILITY_H

#include "physics/footing.h"

#define STABILITY_PUSH 889.644323052104        // N, 200 lbf at the top, any direction (handrail load, from memory)
#define STABILITY_PERSON 1334.466484578156     // N, 300 lbf
#define STABILITY_MACHINE 11970.0647450839594  // Pa, 250 psf: a machine beside (common practice, no source)

enum stability_state {
  STABILITY_ON_THE_HOOK,
  STABILITY_SET,
  STABILITY_BACKFILLING,
  STABILITY_BACKFILLED,
  STABILITY_WATER_UP,
  STABILITY_DRAINED,
  STABILITY_STATES
};

struct stability_block {
  double mass, volume;
  double length;                    // along the front
  double seat;                      // front to rear edge of what it stands on
  double height;                    // of its top
  double offset;                    // of the centre of mass toward the front from the middle of the seat
  double centre_height;             // of the centre of mass; matters only with a lean
  double lean;                      // forward from upright
  double seat_slope;                // of the seat, falling forward
  double friction;                  // coefficient on what it stands on
  double embedment;                 // depth of ground in front of its foot
  double passive;                   // weight density x coefficient of that ground, N/m3; 0 leaves it out (the rule)
  const struct footing_soil *soil;  // NULL: a rigid seat, the block turns about its edge
};

struct stability_loads {
  double gravel_height, gravel_density, gravel_density_wet, gravel_phi;
  double machine;                    // pressure on the gravel
  double push;                       // level, at the top
  double person, person_beyond;      // weight, and how far before the front edge of the seat it stands
  double water_front, water_behind;  // depth over the seat
  double uplift;                     // share of the difference of the two waters that gets under the seat
};

struct stability {
  double overturning, sliding;  // holding over driving; INFINITY without a load, 0 when it goes by itself
  double vertical;              // N on the seat, people included
  double thrust;                // N that drive it forward
  double holding, tipping;      // N m about the pivot
  double pivot;                 // m that it turns inside the front edge of the seat
  struct footing_pressure pressure;
};

struct stability stability_of(const struct stability_block *block, const struct stability_loads *loads);

// Those of the loads that act in a state. A stone on the hook stands on nothing: stability_in_state gives NaN there.
struct stability_loads stability_loads_in(enum stability_state state, const struct stability_loads *all);
struct stability stability_in_state(enum stability_state state, const struct stability_block *block,
                                    const struct stability_loads *all);

#endif
