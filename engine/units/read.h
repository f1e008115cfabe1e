// SPDX-License-Identifier: MIT
// Reading a value with its unit, as people on site write it.
#ifndef FOREBAY_UNITS_READ_H
#define FOREBAY_UNITS_READ_H

#include <stdbool.h>
#include <stddef.h>

#include "base/text.h"
#include "units/dimension.h"

struct reading {
  double value;              // SI
  double tolerance;          // SI, of the same dimension (a difference for points), NaN when none is stated
  enum dimension dimension;  // the one asked for; from unit_read_any the one that the unit says
};

// Reads `text` as a value of one dimension: "4 ft 6 1/2 in", "4'6\"", "2,400 gal/h", "5 %", "3/8 in", "-4 in",
// "18 in +/- 2 in" (or "±"), "1.5H:1V", "34 deg from level", "upright", "2 %" for slopes, "$120".
// A length where an elevation is wanted is right (and a "+" or "-" before the first part holds for all of it:
// "-1 ft 6 in" is -18 in). A bare number is right for RATIO and COUNT alone.
// False: `wrong` gets what is wrong ("has no unit", "gal is a volume, a length is asked for") and `right` what to
// write.
bool unit_read(const char *text, size_t length, enum dimension want, struct reading *reading, struct text *wrong,
               struct text *right);

// The same where nothing is asked for: q"..." in rules. A length reads as LENGTH; a slope needs its H:V or "from
// level".
bool unit_read_any(const char *text, size_t length, struct reading *reading, struct text *wrong, struct text *right);

#endif
