// SPDX-License-Identifier: MIT
#include "quantities/functions.h"

#include <stddef.h>

// Each discipline's file defines work_out_<kind>_<name> for its rows: see quantities/export.h.
#define C(...)
#define T(...)
#define R(...)
#define RN(...)
#define RL(...)
#define P(...)
#define S(...)
#define B(...)
#define G(...)
#define GD(kind, name, ...) double work_out_##kind##_##name(struct evaluation *ev, int entity);
#define Q(kind, name, ...) double work_out_##kind##_##name(struct evaluation *ev, int entity);
#define U(kind, name, ...) const void *work_out_##kind##_##name(struct evaluation *ev, int entity);
#include "catalogue/rows.def"

static const struct row_function functions[ROW_COUNT] = {
#define C(...)
#define T(...)
#define R(...)
#define RN(...)
#define RL(...)
#define P(...)
#define S(...)
#define B(...)
#define G(...)
#define GD(kind, name_, ...) [ROW_##kind##_##name_] = {.number = work_out_##kind##_##name_},
#define Q(kind, name_, ...) [ROW_##kind##_##name_] = {.number = work_out_##kind##_##name_},
#define U(kind, name_, ...) [ROW_##kind##_##name_] = {.bundle = work_out_##kind##_##name_},
#include "catalogue/rows.def"
};

const struct row_function *row_function(enum row_id row) {
  return functions[row].number || functions[row].bundle ? &functions[row] : NULL;
}
