// SPDX-License-Identifier: MIT
// What the files of the flow solver share. Nobody else includes this.
#ifndef FOREBAY_PHYSICS_NETWORK_INSIDE_H
#define FOREBAY_PHYSICS_NETWORK_INSIDE_H

#include "physics/network.h"
#include "physics/network_mesh.h"

// How steeply the head rises against water that is kept from running back, or from running off the end of a pump's
// curve, m/(m3/s). Soft at first, so that a step may cross; then so hard that nothing passes.
struct network_walls {
  double back, end;
};

// How one link is looked at in one step.
struct network_view {
  double back, end, viscosity;
  bool slight;  // loses next to nothing: network_is_slight
};

// Head lost by a link at a flow, and its slope, which is kept positive (it stands for a curvature).
double network_loss(const struct network_link *link, double flow, const struct network_view *view);
double network_slope(const struct network_link *link, double flow, const struct network_view *view);
double network_usual_flow(const struct network_link *link);  // a flow to start from
bool network_is_slight(const struct network_link *link, double viscosity);
bool network_falls(const struct network_link *link);
bool network_one_way(const struct network_link *link);
bool network_lifts(const struct network_link *link);  // a pump that runs

struct network_override {
  bool held;  // the flow is `flow`, whatever the heads
  double flow;
};

struct network_run {
  double *flows, *heads;  // heads over solver->datum while solving
  enum network_state *states;
  bool *reached;
  struct network_answer answer;
};

// Links are those of the network and one more: the opening of a parted line, shut unless that is asked.
struct network_solver {
  const struct network *network;
  size_t nodes, links;
  struct network_mesh *mesh;
  bool lent;                   // the mesh is that of another solver
  struct network_link *taken;  // the links as this solve sees them
  struct network_link opening;
  struct network_override *overrides;
  size_t idle;  // pump that a what-if stops, or NETWORK_AWAY
  struct network_run base, trial;
  double datum;
  double *slopes, *steps, *residuals;  // by link
  double *balances, *rises;            // by node
  double *losses;                      // by link, at the flows of the last work_along
  bool *slight;                        // by link
  bool *known;                         // by node: its head is given
};

void network_blank_answer(struct network_run *run);
bool network_find_fault(const struct network_solver *solver, struct network_answer *answer);
void network_find_reached(struct network_solver *solver, struct network_run *run);
void network_run_solve(struct network_solver *solver, struct network_run *run, bool warm);
void network_start_trial(struct network_solver *solver);
void network_end_trial(struct network_solver *solver);

#endif
