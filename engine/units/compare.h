// SPDX-License-Identifier: MIT
// The comparison band: a value within 1 part in 1e9 of its limit is at the limit, and satisfies it.
#ifndef FOREBAY_UNITS_COMPARE_H
#define FOREBAY_UNITS_COMPARE_H

enum standing { STANDS_BELOW = -1, STANDS_AT = 0, STANDS_ABOVE = 1 };

// scale: the largest magnitude that went into the value (the terms of a difference, elevations over the datum);
// 0 when value and limit say enough themselves.
enum standing compare(double value, double limit, double scale);

#endif
