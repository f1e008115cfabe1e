// SPDX-License-Identifier: MIT
// The water of a design as a flow network: what pipes and joints lead together. Basins stand at still water, but for a
// bowl in which a pipe ends drowned and whose water is all of this circulation: that rises to what its lips ask.
#ifndef FOREBAY_QUANTITIES_WATER_NETWORK_H
#define FOREBAY_QUANTITIES_WATER_NETWORK_H

#include "quantities/read.h"

// The pump that stands for all that is joined to an entity (pump, pipe, junction, jet): the first in the design that
// is. -1: no pump feeds it.
struct pump_ref water_network_first_pump(struct evaluation *ev, int entity);

// Solved; NULL when a mark was set. The solver goes with the evaluation's arena.
const struct water_running *water_network_run(struct evaluation *ev, struct pump_ref first);

#endif
