// SPDX-License-Identifier: MIT
// Fresh water at one atmosphere, and gravity. Temperatures are kelvin, results SI.
// Outside 273.15 K to 373.15 K (or for NaN) the functions give NaN: it is ice or steam.
// Sources: standard gravity, 3rd CGPM 1901 (exact). Density: Kell, J. Chem. Eng. Data 20 (1975) 97. Viscosity: IAPWS
// SR6-08 (2011), liquid at 0.1 MPa. Surface tension at 20 C: IAPWS R1-76(2014). Coefficients from memory; the
// values are tested against the iapws library.
#ifndef FOREBAY_PHYSICS_WATER_H
#define FOREBAY_PHYSICS_WATER_H

#include "units/exact.h"  // GRAVITY

#define WATER_USUAL_TEMPERATURE 288.15  // K (15 C), when nobody states one
#define WATER_USUAL_DENSITY 1000.0      // kg/m3, for loads, ballast and buoyancy
#define WATER_SURFACE_TENSION 0.0728    // N/m at 20 C

double water_density(double temperature);              // kg/m3
double water_dynamic_viscosity(double temperature);    // Pa s
double water_kinematic_viscosity(double temperature);  // m2/s

#endif
