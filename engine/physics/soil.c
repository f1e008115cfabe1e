// SPDX-License-Identifier: MIT
#include "physics/soil.h"

#include <math.h>
#include <stdbool.h>

#include "physics/water.h"

#define HALF_PI 1.57079632679489661923

// Run per rise: OSHA 29 CFR 1926 Subpart P, App. B, Table B-1 and its note on short-term type A.
static const struct {
  double usual, short_term;
} STEEPEST[SOIL_TYPES] = {
    [SOIL_STABLE_ROCK] = {0, 0}, [SOIL_TYPE_A] = {0.75, 0.5}, [SOIL_TYPE_B] = {1, 1}, [SOIL_TYPE_C] = {1.5, 1.5}};

static bool is_type(enum soil_type type) { return (unsigned)type < SOIL_TYPES; }

static double amount(double value) { return value >= 0 ? value : (double)NAN; }

double soil_steepest_slope(enum soil_type type) { return is_type(type) ? STEEPEST[type].usual : (double)NAN; }

double soil_steepest_slope_short_term(enum soil_type type) {
  return is_type(type) ? STEEPEST[type].short_term : (double)NAN;
}

double soil_active_coefficient(double friction_angle) {
  if (!(friction_angle >= 0 && friction_angle < HALF_PI)) return (double)NAN;
  return (1 - sin(friction_angle)) / (1 + sin(friction_angle));
}

// Rankine for ground that rises behind the wall (Terzaghi & Peck; NAVFAC DM 7.02 ch. 3). Steeper than the friction
// angle it would not stand: NaN.
double soil_active_coefficient_sloping(double friction_angle, double backfill) {
  if (!(friction_angle >= 0 && friction_angle < HALF_PI && backfill >= 0 && backfill <= friction_angle)) {
    return (double)NAN;
  }
  const double level = cos(backfill), strength = cos(friction_angle);
  const double root = sqrt(fmax(0, level * level - strength * strength));
  return level * (level - root) / (level + root);
}

double soil_thrust(double coefficient, double density, double height) {
  return 0.5 * amount(coefficient) * amount(density) * GRAVITY * amount(height) * height;
}

double soil_surcharge_thrust(double coefficient, double pressure, double height) {
  return amount(coefficient) * amount(pressure) * amount(height);
}

double soil_swell(double bank_density, double loose_density) {
  return bank_density > 0 && loose_density > 0 ? bank_density / loose_density - 1 : (double)NAN;
}

double soil_loose_volume(double bank_volume, double swell) { return amount(bank_volume) * (1 + amount(swell)); }

double soil_bank_volume(double loose_volume, double swell) { return amount(loose_volume) / (1 + amount(swell)); }

// Whole loads for an amount; a limit that is not known asks none.
static double loads_for(double total, double each) {
  if (isnan(each) || isinf(each)) return 0;
  if (!(each > 0)) return (double)NAN;
  return ceil(amount(total) / each * (1 - 1e-9));
}

double soil_truck_loads(double loose_volume, double mass, double truck_volume, double truck_mass) {
  if (!isfinite(truck_volume) && !isfinite(truck_mass)) return (double)NAN;
  const double by_volume = loads_for(loose_volume, truck_volume), by_mass = loads_for(mass, truck_mass);
  if (isnan(by_volume) || isnan(by_mass)) return (double)NAN;
  return fmax(by_volume, by_mass);
}
