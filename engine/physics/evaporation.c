// SPDX-License-Identifier: MIT
#include "physics/evaporation.h"

#include <math.h>
#include <stdbool.h>

#include "physics/water.h"
#include "units/exact.h"

#define DAY 86400.0
#define MMHG 133.322387415                      // Pa
#define INHG (25.4 * MMHG)                      // Pa
#define BTU_PER_POUND 2326.0                    // J/kg, international table
#define US_RATE (POUND / (3600 * FOOT * FOOT))  // kg/(m2 s) in 1 lb/(h ft2)
#define FREEZING 273.15

static bool is_above_freezing(double temperature) { return temperature >= FREEZING && temperature <= FREEZING + 60; }

double evaporation_vapour_pressure(double temperature) {
  if (!(temperature >= FREEZING - 60 && temperature <= FREEZING + 60)) return (double)NAN;
  const double t = temperature - FREEZING;
  return 4.584 * MMHG * exp(17.27 * t / (237.3 + t));
}

double evaporation_latent_heat(double temperature) {
  return is_above_freezing(temperature) ? 2.501e6 - 2361 * (temperature - FREEZING) : (double)NAN;
}

double evaporation_wind_at(double speed, double height, double wanted) {
  if (!(speed >= 0) || !(height > 0) || !(wanted > 0)) return (double)NAN;
  return speed * pow(wanted / height, 1. / 7);
}

static double deficit(double at_water, double in_air) {
  return at_water >= 0 && in_air >= 0 ? fmax(0, at_water - in_air) : (double)NAN;
}

double evaporation_meyer(double coefficient, double at_water, double in_air, double wind_at_9_m) {
  if (!(coefficient > 0) || !(wind_at_9_m >= 0)) return (double)NAN;
  const double kilometres_an_hour = wind_at_9_m * 3.6;
  return coefficient * deficit(at_water, in_air) / MMHG * (1 + kilometres_an_hour / 16) * 1e-3 / DAY;
}

double evaporation_ashrae(double at_water, double in_air, double latent_heat, double wind) {
  if (!(latent_heat > 0) || !(wind >= 0)) return (double)NAN;
  const double feet_a_minute = wind / FOOT * 60;
  return (95 + 0.425 * feet_a_minute) * deficit(at_water, in_air) / INHG / (latent_heat / BTU_PER_POUND) * US_RATE;
}

double evaporation_depth(double mass_rate) { return mass_rate >= 0 ? mass_rate / WATER_USUAL_DENSITY : (double)NAN; }
