// SPDX-License-Identifier: MIT
// Heights at which water leaves and at which it is drawn, all at still water.
#ifndef FOREBAY_QUANTITIES_WATER_HEIGHTS_H
#define FOREBAY_QUANTITIES_WATER_HEIGHTS_H

#include "quantities/read.h"

double water_suction_level(struct evaluation *ev, struct pump_ref pump);
double water_pipe_end(struct evaluation *ev, struct pipe_ref pipe, struct basin_ref basin);
double water_jet_end(struct evaluation *ev, struct jet_ref jet);
struct basin_ref water_drawn_from(struct evaluation *ev, struct pump_ref pump);

// From the water of a pump to its highest outlet that is open; to the highest of all where none is.
double water_lift(struct evaluation *ev, struct pump_ref pump);

#endif
