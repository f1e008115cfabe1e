// SPDX-License-Identifier: MIT
#include "physics/water.h"

#include <math.h>
#include <stdbool.h>

static bool is_liquid(double temperature) { return temperature >= 273.15 && temperature <= 373.15; }

double water_density(double temperature) {
  if (!is_liquid(temperature)) return (double)NAN;
  // Kell (1975), eq. 16; t in C
  const double t = temperature - 273.15;
  const double above =
      999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 + t * -280.54253e-12))));
  return above / (1 + 16.879850e-3 * t);
}

double water_dynamic_viscosity(double temperature) {
  if (!is_liquid(temperature)) return (double)NAN;
  // IAPWS SR6-08 (2011), Table 1 and eq. for the viscosity at 0.1 MPa
  const double t = temperature / 300;
  return 1e-6 * (280.68 * pow(t, -1.9) + 511.45 * pow(t, -7.7) + 61.131 * pow(t, -19.6) + 0.45903 * pow(t, -40.0));
}

double water_kinematic_viscosity(double temperature) {
  return water_dynamic_viscosity(temperature) / water_density(temperature);
}
