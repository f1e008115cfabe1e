// SPDX-License-Identifier: MIT
// Units of the tables, from exact definitions written out here: the engine's own factors are what is being tested.
// Included once, by reference_test.c.
#ifndef FOREBAY_REFERENCE_UNIT_H
#define FOREBAY_REFERENCE_UNIT_H

#include <math.h>
#include <string.h>

#define IN 0.0254
#define FT 0.3048
#define GAL (231 * IN * IN * IN)
#define LB 0.45359237
#define LBF (LB * 9.80665)
#define DEG (3.14159265358979323846 / 180)

static const struct unit {
  const char *name;
  double factor, offset;
} UNITS[] = {{"m", 1, 0},
             {"mm", 1e-3, 0},
             {"in", IN, 0},
             {"ft", FT, 0},
             {"m2", 1, 0},
             {"ft2", FT *FT, 0},
             {"m3", 1, 0},
             {"ft3", FT *FT *FT, 0},
             {"yd3", 27 * FT *FT *FT, 0},
             {"gal", GAL, 0},
             {"m3/s", 1, 0},
             {"L/s", 1e-3, 0},
             {"L/min", 1e-3 / 60, 0},
             {"cfs", FT *FT *FT, 0},
             {"gpm", GAL / 60, 0},
             {"gal/h", GAL / 3600, 0},
             {"m2/s", 1, 0},
             {"ft2/s", FT *FT, 0},
             {"gpm/ft", GAL / 60 / FT, 0},
             {"cfs/ft", FT *FT, 0},
             {"gal/h/in", GAL / 3600 / IN, 0},
             {"m/s", 1, 0},
             {"ft/s", FT, 0},
             {"s", 1, 0},
             {"C", 1, 273.15},
             {"F", 1.0 / 1.8, 459.67 / 1.8},
             {"Pa", 1, 0},
             {"kPa", 1e3, 0},
             {"psi", LBF / (IN * IN), 0},
             {"psf", LBF / (FT * FT), 0},
             {"Pas", 1, 0},
             {"mPas", 1e-3, 0},
             {"kg", 1, 0},
             {"lb", LB, 0},
             {"ton", 2000 * LB, 0},
             {"kg/m3", 1, 0},
             {"pcf", LB / (FT * FT * FT), 0},
             {"lb/yd3", LB / (27 * FT * FT * FT), 0},
             {"N", 1, 0},
             {"lbf", LBF, 0},
             {"kN/m", 1e3, 0},
             {"lbf/ft", LBF / FT, 0},
             {"kN/m3", 1e3 / 9.80665, 0},  // a unit weight, as the density that has it
             {"W", 1, 0},
             {"hp", 550 * LBF *FT, 0},
             {"deg", DEG, 0},
             {"%", 0.01, 0},
             {"ft/(gal/min)", FT / (GAL / 60), 0},
             {"acre", 43560 * FT *FT, 0},
             {"mi2", 5280 * 5280 * FT *FT, 0},
             {"min", 60, 0},
             {"h", 3600, 0},
             {"day", 86400, 0},
             {"in/h", IN / 3600, 0},
             {"mm/h", 1e-3 / 3600, 0},
             {"in/day", IN / 86400, 0},
             {"mm/day", 1e-3 / 86400, 0},
             {"km/h", 1 / 3.6, 0},
             {"mi/h", 5280 * FT / 3600, 0},
             {"ft/min", FT / 60, 0},
             {"mmHg", 101325.0 / 760, 0},
             {"inHg", 25.4 * 101325 / 760, 0},
             {"Btu/lb", 2326, 0},  // international table
             {"lb/h/ft2", LB / 3600 / (FT * FT), 0},
             {"lb/ft2", LB / (FT * FT), 0},
             {"lbf.ft", LBF *FT, 0},
             {"lbf.ft/ft", LBF, 0},
             {"psf/ft", LBF / (FT * FT) / FT, 0},
             {"t/m3", 1e3, 0},
             {"t/m2", 9806.65, 0},  // metric tons of force
             {"mg/L", 1e-3, 0},
             {"g", 1e-3, 0},
             {"V", 1, 0},
             {"A", 1, 0},
             {"kV", 1e3, 0},
             {"ohm/kft", 1 / (1000 * FT), 0},
             {"cmil", 3.14159265358979323846 / 4 * 1e-6 * IN *IN, 0},
             {"ohm.cmil/ft", 3.14159265358979323846 / 4 * 1e-6 * IN *IN / FT, 0},
             {"kWh", 3.6e6, 0},
             {"Kday", 86400, 0}};

static const struct unit *unit_named(const char *name) {
  for (size_t i = 0; i < sizeof UNITS / sizeof *UNITS; i++) {
    if (strcmp(UNITS[i].name, name) == 0) return &UNITS[i];
  }
  return NULL;
}

#endif
