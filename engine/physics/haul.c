// SPDX-License-Identifier: MIT
#include "physics/haul.h"

#include <math.h>

static double amount_of(double value) { return value >= 0 ? value : (double)NAN; }

double haul_pieces_of(double amount, double each) {
  return each > 0 ? ceil(amount_of(amount) / each * (1 - 1e-9)) : (double)NAN;
}

double haul_fill(const struct haul_vessel *vessel, double density) {
  if (!(vessel->volume > 0) || !(density > 0) || vessel->limit <= 0) return (double)NAN;
  return isfinite(vessel->limit) ? fmin(vessel->volume, vessel->limit / density) : vessel->volume;
}

double haul_fill_mass(const struct haul_vessel *vessel, double density) { return haul_fill(vessel, density) * density; }

double haul_pieces(const struct haul_vessel *vessel, double volume, double density) {
  return haul_pieces_of(volume, haul_fill(vessel, density));
}

double haul_pallets(double mass, double each) { return haul_pieces_of(mass, each); }

double haul_days(double amount, double rate_per_day, double crews) {
  return rate_per_day > 0 && crews > 0 ? amount_of(amount) / (rate_per_day * crews) : (double)NAN;
}

double haul_time(double loads, double cycle, double trucks) {
  return trucks > 0 ? amount_of(loads) * amount_of(cycle) / trucks : (double)NAN;
}
