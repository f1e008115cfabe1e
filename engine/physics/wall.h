// SPDX-License-Identifier: MIT
// A wall held by its own weight, per metre of it: upright at the rear, where the ground is; the front may slope back.
// m, kg/m3, N/m, Pa, rad. Statics. Base and front are level ground at the foot; what ground in front could hold is not
// counted. Above a few feet, or with anything standing behind it, a wall is a licensed engineer's matter: these figures
// show where a design fails, they do not approve one. Factors asked by codes: IRC R404.4, IBC 1807.2.3. Bad input: NaN.
#ifndef FOREBAY_PHYSICS_WALL_H
#define FOREBAY_PHYSICS_WALL_H

#include "physics/footing.h"
#include "physics/thrust.h"

struct wall {
  double height;     // from the foot
  double top, base;  // thickness
  double density;
  double friction;  // of the base; a liner under it or between courses is a plane to slide on
  double uplift;    // share of the water pressure behind that gets under the base, falling to 0 at the front
};

struct wall_ground {
  struct thrust_ground ground;  // dry: water 0
  double inclination;           // of the thrust below level; 0 leaves its help out
};

struct wall_standing {
  double weight, thrust;  // weight of the wall; level force behind it
  double holding, tipping;
  double overturning, sliding;
  struct footing_pressure pressure;  // front: the toe
};

struct wall_standing wall_standing(const struct wall *wall, const struct wall_ground *behind);

// Least depth of the foot below the ground in front: 6 in or a share of the height (NCMA SRW Manual 3rd ed., AASHTO
// C11.10.2.2; from memory). A basin's edge in front counts as 2:1.
enum wall_toe { WALL_TOE_LEVEL, WALL_TOE_3_TO_1, WALL_TOE_2_TO_1, WALL_TOES };
double wall_least_embedment(double height, enum wall_toe toe);

#endif
