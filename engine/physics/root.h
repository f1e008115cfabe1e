// SPDX-License-Identifier: MIT
// The one place where f(x) = 0 is solved, within a bracket that only shrinks: it cannot fail to arrive.
#ifndef FOREBAY_PHYSICS_ROOT_H
#define FOREBAY_PHYSICS_ROOT_H

typedef double (*root_function)(double x, void *with);

// f must not fall between low and high. Gives x between them, to rounding, with f <= 0 left of it and f > 0 right of
// it: `low` when f is above 0 all along, `high` when it is not above 0 anywhere. NaN from f gives NaN.
double root_rising(root_function f, void *with, double low, double high);

#endif
