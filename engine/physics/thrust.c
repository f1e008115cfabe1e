// SPDX-License-Identifier: MIT
#include "physics/thrust.h"

#include <math.h>
#include <stdbool.h>

#include "physics/water.h"

#define HALF_PI 1.57079632679489661923

static const struct thrust NOTHING = {0, 0}, NO_NUMBER = {(double)NAN, (double)NAN};

// A layer whose pressure grows evenly from `above` at its top by `growth` a metre.
static struct thrust layer(double above, double growth, double height, double foot) {
  const double even = above * height, rising = growth * height * height / 2;
  return (struct thrust){.force = even + rising, .moment = even * (foot + height / 2) + rising * (foot + height / 3)};
}

static bool is_ground(const struct thrust_ground *g, double water) {
  return g->coefficient >= 0 && g->density > 0 && g->surcharge >= 0 && (water <= 0 || g->density_wet >= 0);
}

struct thrust thrust_of_ground(const struct thrust_ground *ground) {
  if (ground->height <= 0) return NOTHING;
  if (!(ground->height > 0) || !(ground->water >= 0)) return NO_NUMBER;
  const double water = fmin(ground->water, ground->height), dry = ground->height - water;
  if (!is_ground(ground, water)) return NO_NUMBER;
  const double k = ground->coefficient, on_top = k * ground->surcharge, per_depth = k * ground->density * GRAVITY;
  const struct thrust above = layer(on_top, per_depth, dry, water);
  if (water <= 0) return above;
  const struct thrust below = layer(on_top + per_depth * dry, k * ground->density_wet * GRAVITY, water, 0);
  return (struct thrust){above.force + below.force, above.moment + below.moment};
}

struct thrust thrust_of_water(double depth) {
  return depth >= 0 ? layer(0, WATER_USUAL_DENSITY * GRAVITY, depth, 0) : NO_NUMBER;
}

double thrust_coulomb_coefficient(double phi, double wall_friction, double lean, double backfill) {
  const bool is_ground_friction = phi > 0 && phi < HALF_PI && wall_friction >= 0 && wall_friction <= phi;
  if (!is_ground_friction || !(fabs(lean) < HALF_PI / 2) || !(backfill <= phi)) return (double)NAN;
  const double cl = cos(lean), pressed = cos(wall_friction + lean), faced = cos(phi - lean);
  const double wedge = sin(phi + wall_friction) * sin(phi - backfill) / (pressed * cos(lean - backfill));
  const double root = 1 + sqrt(fmax(0, wedge));
  return faced * faced / (cl * cl * pressed * root * root);
}

double thrust_arm(const struct thrust *thrust) { return thrust->force > 0 ? thrust->moment / thrust->force : 0; }
