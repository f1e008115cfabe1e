// SPDX-License-Identifier: MIT
// A standing pipe that takes what is too much: ruled by its entrance, round rim as a weir (C 3.33 ft^0.5/s on its
// circumference, Francis) at first, drowned as an orifice (C 0.60) later; the lesser of the two (drainage manuals'
// inlet curves work so; from memory). A pipe that runs flat behind it may pass less. m, m3/s. Bad input: NaN. A grate
// or leaves take away from it: count half (common practice, no source).
#ifndef FOREBAY_PHYSICS_OVERFLOW_H
#define FOREBAY_PHYSICS_OVERFLOW_H

#include <stdbool.h>

struct overflow {
  double bore;
  double open;  // share of rim and bore that is open; 1: clean
};

double overflow_flow(const struct overflow *overflow, double head);  // water over the rim of the pipe
double overflow_head(const struct overflow *overflow, double flow);  // the inverse: rise at a storm or a stuck fill
bool overflow_is_drowned(const struct overflow *overflow, double head);

#endif
