// SPDX-License-Identifier: MIT
#include "physics/levels.h"

#include <math.h>

double levels_stacked(const double *errors, size_t count, double settlement) {
  double squares = 0;
  for (size_t i = 0; i < count; i++) squares += errors[i] * errors[i];
  return settlement >= 0 ? sqrt(squares) + settlement : (double)NAN;
}
