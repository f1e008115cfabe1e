// SPDX-License-Identifier: MIT
// H. Liner.
#include "quantities/read.h"

#define FOREBAY_ROWS "catalogue/liner.def"

static double liner_count_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return (double)basin_count_liners(ev, basin);
}

static double edge_over_water_of_liner(struct evaluation *ev, struct liner_ref liner) {
  return liner_get_edge(ev, liner) - basin_get_highest_water(ev, liner_get_of(ev, liner));
}

#include "quantities/export.h"
