// SPDX-License-Identifier: MIT
#include "catalogue/taking.h"

#include <string.h>

static const struct way_row ways[] = {
#define WAY(id, name, half, source) [WAY_##id] = {name, half, SOURCE_##source},
#define BY(dimension, way)
#define BUT(kind, given, way)
#include "catalogue/taking.def"
};

struct by_dimension {
  enum dimension dimension;
  enum way way;
};
static const struct by_dimension by_dimension[] = {
#define WAY(id, name, half, source)
#define BY(dimension, way) {DIM_##dimension, WAY_##way},
#define BUT(kind, given, way)
#include "catalogue/taking.def"
};

struct exception {
  enum row_id row;
  enum way way;
};
static const struct exception exceptions[] = {
#define WAY(id, name, half, source)
#define BY(dimension, way)
#define BUT(kind, given, way) {ROW_##kind##_##given, WAY_##way},
#include "catalogue/taking.def"
};

const struct way_row *taking_way(enum way way) { return &ways[way]; }

enum way taking_of(enum row_id given) {
  for (size_t i = 0; i < sizeof exceptions / sizeof *exceptions; i++) {
    if (exceptions[i].row == given) return exceptions[i].way;
  }
  for (size_t i = 0; i < sizeof by_dimension / sizeof *by_dimension; i++) {
    if (by_dimension[i].dimension == catalogue_row(given)->dimension) return by_dimension[i].way;
  }
  return WAY_NONE;
}

enum way taking_with(const char *with) {
  for (int way = 0; with && way < WAY_COUNT; way++) {
    if (strcmp(ways[way].name, with) == 0) return (enum way)way;
  }
  return WAY_EYE;
}
