// SPDX-License-Identifier: MIT
// What sort of thing a number measures. Values are SI doubles; a dimension says which SI unit and how it combines.
#ifndef FOREBAY_UNITS_DIMENSION_H
#define FOREBAY_UNITS_DIMENSION_H

#include <stdbool.h>
#include <stdint.h>

// Named dimensions, from dimension.def: DIM_LENGTH, DIM_ELEVATION, DIM_FLOW ...
enum dimension {
#define D(name, ...) DIM_##name,
#include "units/dimension.def"
#undef D
  DIMENSION_COUNT
};

// Powers of the base units. `tag` keeps apart what has equal powers and must not be mixed: counts, ratios, angles,
// slopes. `point` marks elevations and temperatures: point - point is a difference, point + point is an error.
struct powers {
  int8_t length, mass, time, current, temperature, money;
  int8_t tag, point;
};

struct dimension_row {
  const char *name;  // "flow per length"
  const char *says;  // "a flow over each length", with its article, for messages
  struct powers powers;
  const char *us, *si;  // unit names to show it in, from unit.def, when nothing else is asked
  const char *example;  // a value with unit, for messages: "2 ft 6 in"
};

const struct dimension_row *dimension_row(enum dimension dimension);
enum dimension dimension_of_powers(struct powers powers);  // DIMENSION_COUNT when it has no name
bool dimension_may_be_bare(enum dimension dimension);      // a number without a unit is right: shares and counts
bool powers_equal(struct powers a, struct powers b);

// Arithmetic on dimensions; false when the two do not go together.
bool powers_add(struct powers a, struct powers b, struct powers *sum);  // length + length, point + difference
bool powers_subtract(struct powers a, struct powers b, struct powers *difference);
bool powers_multiply(struct powers a, struct powers b, struct powers *product);
bool powers_divide(struct powers a, struct powers b, struct powers *quotient);

#endif
