// SPDX-License-Identifier: MIT
// Whether an example can state what a quantity is worked out from. An outline cannot stand in one, nor can what is
// worked out as a whole; so a quantity whose formula leads to an outline, through such wholes alone, can only be stated
// itself.
#include <string.h>

#include "rulebook/check.h"

enum { STEPS_MOST = 6 };

static bool hangs_on_shape(enum row_id row, int steps);

static bool is_shape(enum row_id row, int steps) {
  enum row_sort sort = catalogue_row(row)->sort;
  return sort == SORT_SHAPE || (sort == SORT_BUNDLE && hangs_on_shape(row, steps - 1));
}

// The last name of `{to.geometry}`, of whatever kind that is.
static bool names_shape(const char *name, size_t length, int steps) {
  for (int kind = 0; kind < KIND_COUNT; kind++) {
    enum row_id row = catalogue_row_named((enum kind)kind, name, length);
    if (row != ROW_COUNT && is_shape(row, steps)) return true;
  }
  return false;
}

static bool hangs_on_shape(enum row_id row, int steps) {
  const char *at = steps > 0 ? catalogue_row(row)->formula : NULL;
  for (at = at ? strchr(at, '{') : NULL; at; at = strchr(at, '{')) {
    size_t length = strcspn(++at, "}");
    const char *name = at;
    for (size_t i = 0; i < length; i++) name = at[i] == '.' ? at + i + 1 : name;
    if (names_shape(name, (size_t)(at + length - name), steps)) return true;
  }
  return false;
}

bool check_out_of_reach(enum row_id row) { return hangs_on_shape(row, STEPS_MOST); }
