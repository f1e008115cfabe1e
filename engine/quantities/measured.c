// SPDX-License-Identifier: MIT
// Measured beside worked out: how far the two are apart.
#include <math.h>
#include <string.h>

#include "quantities/read.h"

#define FOREBAY_ROWS "catalogue/measured.def"

struct apart {
  double values, share, level;
};

static bool ends_in(const char *name, const char *ending) {
  size_t length = strlen(name), count = strlen(ending);
  return length > count && strcmp(name + length - count, ending) == 0;
}

// Worked out under the other ending: of `mass_high` that of `mass_low`. NaN: there is none.
static double other_end(struct evaluation *ev, int entity, const struct row *row, const char *ending,
                        const char *other) {
  struct text name = text_in(evaluation_arena(ev));
  text_add_bytes(&name, row->name, strlen(row->name) - strlen(ending));
  text_add(&name, other);
  enum row_id id = catalogue_row_named(row->kind, text_end(&name), name.length);
  return id == ROW_COUNT ? (double)NAN : evaluation_worked_out(ev, entity, id);
}

// A lowest or highest value is a bound of what it may be: it disagrees where it leaves the band that is worked out.
static double off_by(struct evaluation *ev, int entity, const struct row *row, double measured, double worked_out) {
  double over = measured - worked_out;
  if (ends_in(row->name, "_low")) return fmax(fmax(-over, 0), measured - other_end(ev, entity, row, "_low", "_high"));
  if (ends_in(row->name, "_high")) return fmax(fmax(over, 0), other_end(ev, entity, row, "_high", "_low") - measured);
  return fabs(over);
}

static void add_value(struct evaluation *ev, int entity, struct apart *apart, enum row_id id, double worked_out) {
  const struct row *row = catalogue_row(id);
  double off = off_by(ev, entity, row, evaluation_number(ev, entity, id), worked_out);
  if (row->dimension == DIM_ELEVATION) {
    apart->level = fmax(apart->level, off);
  } else if (worked_out != 0) {
    apart->share = fmax(apart->share, off / fabs(worked_out));
  }
  apart->values++;
}

static struct apart apart_of(struct evaluation *ev, int entity) {
  const struct store *design = evaluation_design(ev);
  struct apart apart = {0};
  for (size_t m = 0; m < design->measurement_count; m++) {
    int of;
    enum row_id id = store_row_of_slot(design, design->measurements[m].slot, &of);
    if (of != entity) continue;
    double worked_out = evaluation_worked_out(ev, entity, id);
    if (isfinite(worked_out)) add_value(ev, entity, &apart, id, worked_out);
  }
  return apart;
}

#define MEASURED(kind)                                                                   \
  static double measured_values_of_##kind(struct evaluation *ev, struct kind##_ref it) { \
    return apart_of(ev, it.at).values;                                                   \
  }                                                                                      \
  static double measured_apart_of_##kind(struct evaluation *ev, struct kind##_ref it) {  \
    return apart_of(ev, it.at).share;                                                    \
  }
MEASURED(basin)
MEASURED(spill)
MEASURED(channel)
MEASURED(intake)
MEASURED(pump)
MEASURED(pipe)
MEASURED(jet)
MEASURED(boulder)
MEASURED(dig)
MEASURED(liner)
MEASURED(wall)
MEASURED(coping)
MEASURED(circuit)

static double levels_apart_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return apart_of(ev, basin.at).level;
}

#include "quantities/export.h"
