// SPDX-License-Identifier: MIT
// The ways by which water leaves a basin: its lips, then the channels that begin in it, in the order of the design.
#ifndef FOREBAY_QUANTITIES_WAYS_H
#define FOREBAY_QUANTITIES_WAYS_H

#include "physics/channel.h"
#include "physics/weir.h"
#include "quantities/read.h"

struct way {
  int entity;
  bool channel;
  double crest;
  struct weir weir;
  struct channel reach;
};

struct ways {
  struct way *at;
  size_t count;
  double flow;  // that all together must pass
  bool least;   // with the lowest coefficients
};

struct weir ways_weir(struct evaluation *ev, struct spill_ref spill);  // its width less what is blocked
struct channel ways_channel(struct evaluation *ev, struct channel_ref channel);

struct ways ways_of_basin(struct evaluation *ev, struct basin_ref basin);  // lips that are blocked altogether left out
double way_flow(const struct way *way, double level, bool least);          // m3/s at a level of the basin

#endif
