// SPDX-License-Identifier: MIT
// The function behind each row that is worked out. Made from the rows: a row without a function does not link, a
// function without a row does not compile.
#ifndef FOREBAY_QUANTITIES_FUNCTIONS_H
#define FOREBAY_QUANTITIES_FUNCTIONS_H

#include "catalogue/catalogue.h"

struct evaluation;

struct row_function {
  double (*number)(struct evaluation *ev, int entity);
  const void *(*bundle)(struct evaluation *ev, int entity);
};

const struct row_function *row_function(enum row_id row);  // NULL: nothing is worked out there

#endif
