// SPDX-License-Identifier: MIT
// Errors of level that add up between the fixed point and a lip. m. Errors that know nothing of each other add as the
// root of the sum of their squares (propagation of errors, any surveying textbook); settlement goes one way and is
// added whole. Bad input: NaN.
#ifndef FOREBAY_PHYSICS_LEVELS_H
#define FOREBAY_PHYSICS_LEVELS_H

#include <stddef.h>

double levels_stacked(const double *errors, size_t count, double settlement);  // errors as +/-, signs not read

#endif
