// SPDX-License-Identifier: MIT
// One run of pipe out of what is given: bore, losses, valve, filter. SI.
#ifndef FOREBAY_QUANTITIES_PIPE_RUN_H
#define FOREBAY_QUANTITIES_PIPE_RUN_H

#include "physics/pipe.h"
#include "quantities/read.h"

struct pipe_run {
  struct pipe pipe;  // minor: fittings and check valve, without the valve
  double times;      // on its friction
  bool valve, check;
  double open, valve_k;  // of the valve; K 0 where it is shut
};

// Of its flow squared, s2/m5.
struct pipe_filter {
  double clean_k2, dirty_k2;  // a filter without a dirty loss stays clean
};

double pipe_run_bore(struct evaluation *ev, struct pipe_ref pipe);
struct pipe_run pipe_run_of(struct evaluation *ev, struct pipe_ref pipe);
struct pipe_run pipe_run_suction(struct evaluation *ev, struct pump_ref pump);  // of a dry pump; entrance counted
bool pipe_run_filter(struct evaluation *ev, struct pipe_ref pipe, struct pipe_filter *it);  // false: none in it
bool pipe_is_shut(struct evaluation *ev, struct pipe_ref pipe);
bool pipe_has_valve(struct evaluation *ev, struct pipe_ref pipe);

double pipe_run_loss(const struct pipe_run *run, double flow);  // friction, fittings, valve; m

double valve_loss(enum word valve, double open);  // K; no valve: 0
double valve_opening(enum word valve, double k);  // the opening that gives a K, 0 to 1

#endif
