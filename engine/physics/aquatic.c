// SPDX-License-Identifier: MIT
#include "physics/aquatic.h"

#include <math.h>

#define MILLIGRAM_PER_LITRE 1e-3  // kg/m3
#define ICE_CONDUCTIVITY 2.22     // W/(m K)
#define ICE_DENSITY 917.0         // kg/m3
#define ICE_FUSION 333.6e3        // J/kg

// kg of the chemical for each kg of chlorine, at pH 7
static const double DOSE[AQUATIC_NEUTRALISERS] = {
    [AQUATIC_THIOSULFATE] = 1.9,     [AQUATIC_BISULFITE] = 1.61,           [AQUATIC_METABISULFITE] = 1.47,
    [AQUATIC_SULFITE] = 1.96,        [AQUATIC_CALCIUM_THIOSULFATE] = 1.22, [AQUATIC_ASCORBIC_ACID] = 2.5,
    [AQUATIC_SODIUM_ASCORBATE] = 2.8};

static double amount(double value) { return value >= 0 ? value : (double)NAN; }

double aquatic_pressure(double altitude) {
  if (!(altitude >= -1000 && altitude <= 11000)) return (double)NAN;
  const double lapse = 0.0065, warmth = 288.15, exponent = 5.25588;  // K/m, K, g M / (R lapse)
  return AQUATIC_ATMOSPHERE * pow(1 - lapse * altitude / warmth, exponent);
}

double aquatic_oxygen_saturation(double temperature, double pressure) {
  if (!(temperature >= 273.15 && temperature <= 313.15) || !(pressure > 0)) return (double)NAN;
  const double i = 1 / temperature;
  const double logarithm = -139.34411 + i * (1.575701e5 + i * (-6.642308e7 + i * (1.243800e10 + i * -8.621949e11)));
  return exp(logarithm) * MILLIGRAM_PER_LITRE * pressure / AQUATIC_ATMOSPHERE;
}

double aquatic_chlorine(double volume, double concentration) { return amount(volume) * amount(concentration); }

double aquatic_neutraliser_dose(enum aquatic_neutraliser neutraliser, double chlorine) {
  return (unsigned)neutraliser < AQUATIC_NEUTRALISERS ? DOSE[neutraliser] * amount(chlorine) : (double)NAN;
}

double aquatic_ice_thickness(double cold, double share) {
  if (!(share > 0 && share <= 1)) return (double)NAN;
  return share * sqrt(2 * ICE_CONDUCTIVITY * amount(cold) / (ICE_DENSITY * ICE_FUSION));
}
