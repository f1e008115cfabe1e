// SPDX-License-Identifier: MIT
// The givens that a builder can change: catalogue/mends.def.
#ifndef FOREBAY_MEND_ROWS_H
#define FOREBAY_MEND_ROWS_H

#include "catalogue/catalogue.h"
#include "units/unit.h"

enum mend_rank { MEND_ADJUST, MEND_FIT, MEND_PIPE, MEND_SHIM, MEND_SIZE, MEND_STONE };
enum mend_list { MEND_LIST_NONE, MEND_LIST_pipe, MEND_LIST_wire, MEND_LIST_pump };

struct mend_row {
  enum row_id row;
  enum mend_rank rank;
  const char *us, *si;  // step; NULL: no size
  enum word word;       // WORD_COUNT: no word
  enum mend_list list;
};

const struct mend_row *mend_row(enum row_id row);  // NULL: nothing that a builder can change
bool mend_row_is_fact(enum row_id row);            // to be found out
double mend_row_step(const struct mend_row *row, enum unit_system units);

// Pipe and wire: texts of what is sold beyond `now`, nearest first: larger or thicker for way 1, smaller for -1. At
// most `room`.
size_t mend_row_sizes(struct arena *arena, enum mend_list list, const char *now, int way, const char **texts,
                      size_t room);

#endif
