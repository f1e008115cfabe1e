// SPDX-License-Identifier: MIT
#include "physics/nappe.h"

#include "physics/water.h"

#define BRINK_SHARE 0.715   // depth on the edge over critical depth, Rouse 1936
#define BREAKUP_LENGTH 6.0  // Horeni 1956: L = 6 q^0.32, m and m2/s
#define BREAKUP_POWER 0.32

// 0 for nothing or less; NaN stays NaN, which fmax would swallow
static double not_negative(double value) { return value < 0 ? 0 : value; }

double nappe_critical_depth(double q) {
  const double flow = not_negative(q);
  return cbrt(flow * flow / GRAVITY);
}

double nappe_brink_depth(double q) { return BRINK_SHARE * nappe_critical_depth(q); }

double nappe_brink_speed(double q) {
  if (q <= 0) return 0;
  return q / nappe_brink_depth(q);
}

double nappe_fall_time(double drop) { return sqrt(2 * not_negative(drop) / GRAVITY); }

double nappe_reach(double speed, double drop) { return not_negative(speed) * nappe_fall_time(drop); }

double nappe_landing_speed(double q, double drop) {
  if (q <= 0) return 0;
  const double energy_head = 1.5 * nappe_critical_depth(q) + not_negative(drop);
  return sqrt(2 * GRAVITY * energy_head);
}

struct band nappe_throw(double q, double drop, bool clean_edge) {
  if (isnan(q) || isnan(drop)) return band_none();
  const double far = nappe_reach(nappe_brink_speed(q), drop);
  if (!clean_edge) return (struct band){.low = 0, .likely = 0, .high = far};
  return (struct band){.low = BRINK_SHARE * far, .likely = (1 + BRINK_SHARE) / 2 * far, .high = far};
}

double nappe_sheet_length(double q) { return BREAKUP_LENGTH * pow(not_negative(q), BREAKUP_POWER); }

double nappe_sheet_flow(double drop) { return pow(not_negative(drop) / BREAKUP_LENGTH, 1 / BREAKUP_POWER); }

double nappe_weber(double q) {
  return WATER_USUAL_DENSITY * not_negative(q) * nappe_brink_speed(q) / (2 * WATER_SURFACE_TENSION);
}
