// SPDX-License-Identifier: MIT
// A value that is known only as a range. `low <= likely <= high`, all in the same SI unit.
// `outside`: worked out, but beyond the range in which the formula was tested; the value stands and the doubt travels
// on. A calculation that cannot be done (a negative width, NaN read) gives NaN in all three and `outside` true.
#ifndef FOREBAY_PHYSICS_BAND_H
#define FOREBAY_PHYSICS_BAND_H

#include <math.h>
#include <stdbool.h>

struct band {
  double low, likely, high;
  bool outside;
};

static inline struct band band_none(void) {
  return (struct band){.low = (double)NAN, .likely = (double)NAN, .high = (double)NAN, .outside = true};
}

#endif
