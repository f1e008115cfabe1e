// SPDX-License-Identifier: MIT
#include "physics/liner.h"

#include <math.h>

#include "physics/water.h"

static double amount(double value) { return value >= 0 ? value : (double)NAN; }

double liner_along(const struct liner_point *section, size_t count, double overlap) {
  if (count < 2) return (double)NAN;
  double length = 2 * amount(overlap);
  for (size_t i = 1; i < count; i++) {
    length += hypot(section[i].along - section[i - 1].along, section[i].level - section[i - 1].level);
  }
  return length;
}

// Each side takes depth x sqrt(1 + side^2) where the plan shows depth x side. Sides that meet before the depth: NaN.
double liner_run(double top, double depth, double side, double overlap) {
  const double run = amount(side) * amount(depth);
  return amount(top - 2 * run) + 2 * hypot(run, depth) + 2 * amount(overlap);
}

double liner_rule_of_thumb(double top, double depth, double overlap) {
  return amount(top) + 2 * amount(depth) + 2 * amount(overlap);
}

double liner_pieces(double width, double roll, double lap) {
  if (!(width > 0) || !(lap >= 0) || !(roll > lap)) return (double)NAN;
  return width <= roll ? 1 : ceil((width - lap) / (roll - lap) * (1 - 1e-9));
}

double liner_mass(double length, double width, double mass_per_area) {
  return amount(length) * amount(width) * amount(mass_per_area);
}

double liner_uplift_factor(const struct liner_uplift *u) {
  const double down = amount(u->structure) + amount(u->contained) + amount(u->surcharge);
  const double up = amount(u->uplift) - amount(u->above);
  if (isnan(down) || isnan(up)) return (double)NAN;
  return up > 0 ? down / up : (double)INFINITY;
}

double liner_ballast_depth(double ground_water, double factor, double ballast_density) {
  if (!(ballast_density > 0)) return (double)NAN;
  return amount(ground_water) * amount(factor) * WATER_USUAL_DENSITY / ballast_density;
}
