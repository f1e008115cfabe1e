// SPDX-License-Identifier: MIT
#include "physics/overflow.h"

#include <math.h>

#include "physics/water.h"
#include "units/exact.h"

#define PI 3.14159265358979323846
#define RIM_COEFFICIENT 3.33  // ft^0.5/s
#define ORIFICE_COEFFICIENT 0.60

static bool is_overflow(const struct overflow *o) { return o->bore > 0 && o->open > 0 && o->open <= 1; }

// Flow at a head of 1 m: over the rim it grows with h^1.5, through the bore with h^0.5.
static double rim_factor(const struct overflow *o) { return RIM_COEFFICIENT * sqrt(FOOT) * PI * o->bore * o->open; }

static double bore_factor(const struct overflow *o) {
  return ORIFICE_COEFFICIENT * PI / 4 * o->bore * o->bore * o->open * sqrt(2 * GRAVITY);
}

double overflow_flow(const struct overflow *overflow, double head) {
  if (!is_overflow(overflow) || isnan(head)) return (double)NAN;
  if (head <= 0) return 0;
  return fmin(rim_factor(overflow) * head * sqrt(head), bore_factor(overflow) * sqrt(head));
}

double overflow_head(const struct overflow *overflow, double flow) {
  if (!is_overflow(overflow) || !(flow >= 0)) return (double)NAN;
  const double rim = cbrt(flow / rim_factor(overflow)), bore = flow / bore_factor(overflow);
  return fmax(rim * rim, bore * bore);
}

bool overflow_is_drowned(const struct overflow *overflow, double head) {
  return is_overflow(overflow) && head * rim_factor(overflow) > bore_factor(overflow);
}
