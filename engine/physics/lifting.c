// SPDX-License-Identifier: MIT
#include "physics/lifting.h"

#include <math.h>

#include "physics/water.h"

#define PI 3.14159265358979323846
#define DEGREES_PER_RADIAN 57.29577951308232
#define CHOKER_TO_VERTICAL 0.8
#define ROUNDING 1e-9  // an angle at its limit belongs to the row that begins there

// From this angle of the choke on; above 120 degrees the whole choker rating.
static const struct { double from, share; } CHOKES[] = {{90, 0.87}, {60, 0.74}, {30, 0.62}, {0, 0.49}};

unsigned lifting_legs_carrying(unsigned legs, bool rigid) {
  const unsigned most = rigid ? 2 : 3;
  return legs < most ? legs : most;
}

double lifting_leg_load(double mass, unsigned legs, double angle_from_level, bool rigid) {
  if (!(mass >= 0) || legs == 0) return (double)NAN;
  if (!(angle_from_level > 0 && angle_from_level <= PI / 2 * (1 + ROUNDING))) return (double)NAN;
  return mass / (lifting_legs_carrying(legs, rigid) * sin(angle_from_level));
}

double lifting_choke_share(double choke_angle) {
  const double degrees = choke_angle * DEGREES_PER_RADIAN;
  if (!(degrees >= 0 && degrees <= 180 * (1 + ROUNDING))) return (double)NAN;
  if (degrees > 120 * (1 + ROUNDING)) return 1;
  size_t i = 0;
  while (degrees < CHOKES[i].from * (1 - ROUNDING)) i++;
  return CHOKES[i].share;
}

double lifting_hitch_factor(enum lifting_hitch hitch, double angle) {
  if (hitch == LIFTING_VERTICAL) return 1;
  if (hitch == LIFTING_CHOKER) return CHOKER_TO_VERTICAL * lifting_choke_share(angle);
  if (hitch != LIFTING_BASKET || !(angle > 0 && angle <= PI / 2 * (1 + ROUNDING))) return (double)NAN;
  return 2 * sin(angle);
}

static bool is_chart(const struct lifting_row *chart, size_t count) {
  for (size_t i = 0; i < count; i++) {
    if (!(chart[i].reach > 0) || !(chart[i].rated >= 0)) return false;
    if (i > 0 && !(chart[i].reach > chart[i - 1].reach)) return false;
  }
  return count > 0;
}

// Place of the first row that reaches so far; `count` when the reach is beyond the chart on either side.
static size_t row_reaching(const struct lifting_row *chart, size_t count, double reach) {
  if (!is_chart(chart, count) || !(reach >= chart[0].reach)) return count;
  size_t i = 0;
  while (i < count && chart[i].reach < reach) i++;
  return i;
}

double lifting_rated_next_row(const struct lifting_row *chart, size_t count, double reach) {
  const size_t i = row_reaching(chart, count, reach);
  return i < count ? chart[i].rated : (double)NAN;
}

double lifting_rated(const struct lifting_row *chart, size_t count, double reach) {
  const size_t i = row_reaching(chart, count, reach);
  if (i == count) return (double)NAN;
  if (i == 0) return chart[0].rated;
  const struct lifting_row near = chart[i - 1], far = chart[i];
  const double share = (1 / near.reach - 1 / reach) / (1 / near.reach - 1 / far.reach);
  return near.rated + share * (far.rated - near.rated);
}

double lifting_left(double rated, double deductions) {
  return rated >= 0 && deductions >= 0 ? fmax(0, rated - deductions) : (double)NAN;
}

double lifting_rated_capacity(double tipping, double hydraulic) {
  return tipping >= 0 && hydraulic >= 0 ? fmin(0.75 * tipping, 0.87 * hydraulic) : (double)NAN;
}

double lifting_track_pressure(double mass, double track_length, double track_width) {
  if (!(mass >= 0) || !(track_length > 0) || !(track_width > 0)) return (double)NAN;
  return mass * GRAVITY / (2 * track_length * track_width);
}
