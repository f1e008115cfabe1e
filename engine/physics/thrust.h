// SPDX-License-Identifier: MIT
// Push of ground and water against an upright face, per metre of its length. m, kg/m3, Pa, rad, N/m, N m/m.
// Statics of a triangle and of what stands on it; the coefficient is Rankine's (soil.h) or Coulomb's. Ground in water
// pushes with its weight in water, and the water pushes besides: drained ground that is wet after all pushes about
// three times as hard. Bad input: NaN.
#ifndef FOREBAY_PHYSICS_THRUST_H
#define FOREBAY_PHYSICS_THRUST_H

struct thrust {
  double force;
  double moment;  // of the force about the foot of the face
};

struct thrust_ground {
  double coefficient;
  double height;       // of the ground over the foot; 0: none, and the rest is not read
  double density;      // above the water
  double density_wet;  // of what is in water, less the water's; not read where there is none
  double water;        // depth of water in the ground over the foot
  double surcharge;    // on top of it
};

struct thrust thrust_of_ground(const struct thrust_ground *ground);  // without the water itself
struct thrust thrust_of_water(double depth);

// Coulomb's active coefficient for the force square to the face turned down by the friction of wall on ground. `lean`:
// of the face from upright, its top toward the ground is negative; `backfill`: its slope. Too steep to stand: NaN.
double thrust_coulomb_coefficient(double phi, double wall_friction, double lean, double backfill);

double thrust_arm(const struct thrust *thrust);  // height of the force over the foot; no force: 0

#endif
