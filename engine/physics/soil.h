// SPDX-License-Identifier: MIT
// Ground: slopes, active pressure, swell, haulage. Angles rad, volumes m3, densities kg/m3, pressures Pa.
// Slopes are OSHA 29 CFR 1926 Subpart P, App. B, Table B-1 (second hand), for excavations under 20 ft; a competent
// person judges the ground on site, local rules may ask more, and nothing here says that a cut is safe. Pressures:
// Rankine, smooth upright wall, drained, water not included. Bad input: NaN.
#ifndef FOREBAY_PHYSICS_SOIL_H
#define FOREBAY_PHYSICS_SOIL_H

enum soil_type { SOIL_STABLE_ROCK, SOIL_TYPE_A, SOIL_TYPE_B, SOIL_TYPE_C, SOIL_TYPES };

double soil_steepest_slope(enum soil_type type);  // run per rise: 0, 0.75, 1, 1.5
double soil_steepest_slope_short_term(
    enum soil_type type);  // type A 0.5 (at most 24 h open and 12 ft deep); else as above

double soil_active_coefficient(double friction_angle);                             // (1 - sin)/(1 + sin)
double soil_active_coefficient_sloping(double friction_angle, double backfill);    // backfill rises at this angle
double soil_thrust(double coefficient, double density, double height);             // N per m of wall, at height/3
double soil_surcharge_thrust(double coefficient, double pressure, double height);  // N per m of wall, at height/2

double soil_swell(double bank_density, double loose_density);  // bank/loose - 1
double soil_loose_volume(double bank_volume, double swell);
double soil_bank_volume(double loose_volume, double swell);

// Full loads, the worse of volume and weight; a limit that is NaN or INFINITY does not count; both so: NaN. A load that
// is full to a billionth more than whole is whole.
double soil_truck_loads(double loose_volume, double mass, double truck_volume, double truck_mass);

#endif
