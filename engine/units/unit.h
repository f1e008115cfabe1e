// SPDX-License-Identifier: MIT
// The one unit table. Factors are exact definitions (0.3048 m, 231 in3), composed, never rounded.
#ifndef FOREBAY_UNITS_UNIT_H
#define FOREBAY_UNITS_UNIT_H

#include <stddef.h>

#include "units/dimension.h"

enum unit_system { UNITS_US, UNITS_SI };

// A row of unit.def. value_si = (value + before) * factor: `before` is 0 but for temperatures.
struct unit {
  const char *name;  // how it is written: "gal/h"
  const char *also;  // other spellings, space-separated: "gph gal/hr" ("" for none)
  enum dimension dimension;
  double factor, before;
  int decimals;  // sensible decimals when shown in this unit
};

const struct unit *unit_named(const char *name, size_t length);  // by name or other spelling; NULL
const struct unit *unit_at(size_t index);                        // NULL after the last
double unit_to_si(const struct unit *unit, double value);
double unit_from_si(const struct unit *unit, double value_si);

#endif
