// SPDX-License-Identifier: MIT
#include "units/compare.h"

#include <math.h>

static const double band_share = 1e-9;

enum standing compare(double value, double limit, double scale) {
  if (value == limit) return STANDS_AT;
  double band = band_share * fmax(fabs(scale), fmax(fabs(value), fabs(limit)));
  // An endless limit would make an endless band.
  if (isfinite(band) && fabs(value - limit) <= band) return STANDS_AT;
  return value < limit ? STANDS_BELOW : STANDS_ABOVE;
}
