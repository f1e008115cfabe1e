// SPDX-License-Identifier: MIT
// How a given or a measured value is usually got, and how well it is known then. Rows stand in taking.def.
#ifndef FOREBAY_CATALOGUE_TAKING_H
#define FOREBAY_CATALOGUE_TAKING_H

#include "catalogue/catalogue.h"

enum way {
#define WAY(id, name, half, source) WAY_##id,
#define BY(dimension, way)
#define BUT(kind, given, way)
#include "catalogue/taking.def"
  WAY_COUNT,
  WAY_NONE = WAY_COUNT
};

struct way_row {
  const char *name, *half;  // "tape", "1/2 in"
  enum source source;
};
const struct way_row *taking_way(enum way way);

enum way taking_of(enum row_id given);   // of a written number; WAY_NONE: it does not vary
enum way taking_with(const char *with);  // of a measured value, by its `with`; NULL or another word: by eye

#endif
