// SPDX-License-Identifier: MIT
// Writing values for people: units that the trade uses, digits that can be built.
#ifndef FOREBAY_UNITS_WRITE_H
#define FOREBAY_UNITS_WRITE_H

#include "base/text.h"
#include "units/unit.h"

// How a value wants to be shown; NULL unit: the dimension's own sensible choice:
//   US lengths: under 2 in to 1/16, under 3 ft in inches to 1/4, to 20 ft in feet and inches to 1/2, then whole inches;
//   elevations to 1/8 ("-4 in", "+1 ft 3 3/8 in"); mass to 10 lb (to 1 lb under 100 lb), tons to 0.1 from 2,000 lb;
//   flow to 10 gal/h. Metric: mm under 1 m (to 1), then m to 0.01; L under 1,000 L, then m3; L/s to 0.1 (0.01 under 1);
//   kg to 1, t to 0.1 from 1,000 kg. Elevations of 1 m and more to 1 mm. Small areas and volumes get a decimal more.
//   Ratios to 0.01 under 10, to 0.1 under 100, then to 1. Time in s, min (to 2 h), h (to 48 h), days or years. A value
//   other than 0 never shows as 0.
// finer: 0 as above; each step more shows the value finer (1/16, 1/32 ... or one more decimal).
struct write_style {
  enum unit_system system;
  const struct unit *unit;
  int finer;
  bool decimal;  // US lengths in inches to 0.01 and not in feet and fractions: bores of pipe
};

void unit_write(struct text *text, double value_si, enum dimension dimension, struct write_style style);

// A value beside its limit: the finer step is raised, for both, until they print differently (at most 6 steps), unless
// the two are at the limit in the sense of units/compare.
void unit_write_pair(struct text *value_text, struct text *limit_text, double value, double limit,
                     enum dimension dimension, struct write_style style);

// The same with how far the two are apart, without a sign: exactly the difference of the two as they are printed, and
// all a step finer where they are less than a tenth of the limit apart. Both finite.
void unit_write_apart(struct text *value_text, struct text *limit_text, struct text *apart_text, double value,
                      double limit, enum dimension dimension, struct write_style style);

// A text that unit_read reads back to the same double: for design files that the program writes.
void unit_write_exact(struct text *text, double value_si, enum dimension dimension, enum unit_system system);

// A value of unnamed powers (a product in a rule's function): digits and base units, "12.4 m4/s".
void unit_write_powers(struct text *text, double value_si, struct powers powers);

#endif
