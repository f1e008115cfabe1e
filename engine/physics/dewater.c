// SPDX-License-Identifier: MIT
#include "physics/dewater.h"

#include <math.h>
#include <stdbool.h>

#define PI 3.14159265358979323846
#define SICHARDT 3000.0  // s^0.5 m^-0.5

static bool is_pit(const struct dewater_pit *p) {
  return p->area > 0 && p->permeability > 0 && p->thickness > 0 && p->lowering >= 0 && p->lowering <= p->thickness;
}

double dewater_radius(double area) { return area >= 0 ? sqrt(area / PI) : (double)NAN; }

double dewater_reach(const struct dewater_pit *pit) {
  if (!is_pit(pit)) return (double)NAN;
  return dewater_radius(pit->area) + SICHARDT * pit->lowering * sqrt(pit->permeability);
}

double dewater_side_inflow(const struct dewater_pit *pit) {
  if (!is_pit(pit)) return (double)NAN;
  if (pit->lowering <= 0) return 0;
  const double bearing = isinf(pit->thickness) ? pit->lowering : pit->thickness, left = bearing - pit->lowering;
  const double squares = bearing * bearing - left * left;
  return PI * pit->permeability * squares / log(dewater_reach(pit) / dewater_radius(pit->area));
}

double dewater_bottom_inflow(const struct dewater_pit *pit) {
  if (!is_pit(pit)) return (double)NAN;
  if (isfinite(pit->thickness)) return 0;
  return 4 * pit->permeability * dewater_radius(pit->area) * pit->lowering;
}

double dewater_inflow(const struct dewater_pit *pit) { return dewater_side_inflow(pit) + dewater_bottom_inflow(pit); }
