// SPDX-License-Identifier: MIT
#include "physics/root.h"

#include <math.h>

// Doubles between 0 and 1e308 are parted in at most 2100 halvings; a bracket of one magnitude needs about 55.
enum { HALVINGS = 2200 };

double root_rising(root_function f, void *with, double low, double high) {
  for (int i = 0; i < HALVINGS; i++) {
    double middle = low + (high - low) / 2;
    if (!(middle > low && middle < high)) break;
    double value = f(middle, with);
    if (isnan(value)) return value;
    if (value > 0) {
      high = middle;
    } else {
      low = middle;
    }
  }
  return isnan(low) || isnan(high) ? (double)NAN : low;
}
