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

// A lowest or highest value is a bound of what it may be: inside of it nothing disagrees.
static double off_by(const struct row *row, double measured, double worked_out) {
  double over = measured - worked_out;
  if (ends_in(row->name, "_low")) return fmax(-over, 0);
  if (ends_in(row->name, "_high")) return fmax(over, 0);
  return fabs(over);
}

static void add_value(struct apart *apart, const struct row *row, double measured, double worked_out) {
  double off = off_by(row, measured, worked_out);
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
    if (isfinite(worked_out)) add_value(&apart, catalogue_row(id), evaluation_number(ev, entity, id), worked_out);
  }
  return apart;
}

#define MEASURED(kind)                                                                      \
  static double measured_values_of_##kind(struct evaluation *ev, struct kind##_ref it) {    \
    return apart_of(ev, it.at).values;                                                      \
  }                                                                                         \
  static double measured_apart_of_##kind(struct evaluation *ev, struct kind##_ref it) {     \
    return apart_of(ev, it.at).share;                                                       \
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
