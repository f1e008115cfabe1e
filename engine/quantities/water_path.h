// SPDX-License-Identifier: MIT
// The one path of a pump, from its delivery to its only outlet, and what it asks.
#ifndef FOREBAY_QUANTITIES_WATER_PATH_H
#define FOREBAY_QUANTITIES_WATER_PATH_H

#include "quantities/read.h"

enum { PATH_PIPES = 64 };

struct path_pipe {
  double length, bore, roughness, times, minor;  // SI; minor: sum of K
};

struct water_path {
  struct path_pipe pipes[PATH_PIPES];
  size_t count;
  double suction, outlet;              // water heights at both ends, m
  bool closed;                         // a valve on the way is shut
  double nozzle_area;                  // of all nozzles together; 0: the pipe just ends
};

// False: a mark was set (not connected, branched, a circle without an outlet).
bool water_path_of(struct evaluation *ev, struct pump_ref pump, struct water_path *path);

double water_path_losses(const struct water_path *path, double flow);  // pipes, fittings, valve and what leaves
double water_path_asks(double flow, void *with);                       // lift and losses, for the pump's solver

double pipe_bore_of(struct evaluation *ev, struct pipe_ref pipe);
double path_pipe_loss(const struct path_pipe *pipe, double flow);  // friction, fittings, valve; m
struct path_pipe path_pipe_of(struct evaluation *ev, struct pipe_ref pipe);
bool pipe_is_shut(struct evaluation *ev, struct pipe_ref pipe);

// Loss in a nozzle: head that pushes a flow through an area (all nozzles together).
double nozzle_head(double flow, double area);
double nozzle_area_of(struct evaluation *ev, struct jet_ref jet);

#endif
