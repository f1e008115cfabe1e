// SPDX-License-Identifier: MIT
// Water that a still surface gives to the air, as a depth per time (m/s). Pa, K, m/s, J/kg. All laws are for still
// water: falls and jets throw and blow away more, and that is a line of its own (losses.h). Never below 0: dew is not
// counted. Sources: Dalton type, Meyer (hydrology texts; seen): E [mm/d] = K (ew - ea)(1 + u/16), mmHg, u in km/h 9 m
// up. ASHRAE/Carrier form (ASHRAE Trans. 104(1A), 1998; abstract seen): W = (95 + 0.425 v)(pw - pa)/Y in lb/(h ft2), v
// in ft/min, p in inHg, Y in Btu/lb. Class A pan: lakes give 0.7 of it over a year (seen). Bad input: NaN.
#ifndef FOREBAY_PHYSICS_EVAPORATION_H
#define FOREBAY_PHYSICS_EVAPORATION_H

#define EVAPORATION_MEYER_SMALL 0.50  // K of small, shallow water
#define EVAPORATION_MEYER_LARGE 0.36  // K of large, deep water
#define EVAPORATION_PAN_TO_LAKE 0.70
#define EVAPORATION_UNDISTURBED 0.74  // measured share of the ASHRAE form over a calm surface

double evaporation_vapour_pressure(double temperature);  // of saturated air: 4.584 mmHg exp(17.27 t/(237.3 + t))
double evaporation_latent_heat(double temperature);      // 2.501 MJ/kg - 2,361 J/(kg K) t
double evaporation_wind_at(double speed, double height, double wanted);  // one-seventh power law

double evaporation_meyer(double coefficient, double at_water, double in_air, double wind_at_9_m);
double evaporation_ashrae(double at_water, double in_air, double latent_heat, double wind);  // kg/(m2 s)
double evaporation_depth(double mass_rate);                                                  // m/s of usual water

#endif
