// SPDX-License-Identifier: MIT
// Steady flow through a whole connected circulation: which flow in every link, which head at every node.
// m, m3/s, m2/s; heads are heights over one datum. A basin that pumps draw from is a fixed node (network_settle finds
// its level); a basin whose level the flow decides is a free node, and its head is its level. Fill a network, make a
// solver (it borrows the network), solve. Between solves everything may change but the counts, `from` and `to`.
//
// Method: Newton on flows and heads together (the global gradient of Todini & Pilati 1988, from memory). The linear
// part is eliminated node by node as star into mesh, which adds and never subtracts, so short wide pipes beside check
// valves cost no digits. A step is shortened, or lengthened, until the work it gains is used up.
#ifndef FOREBAY_PHYSICS_NETWORK_H
#define FOREBAY_PHYSICS_NETWORK_H

#include <stdbool.h>
#include <stddef.h>

#include "physics/pipe.h"
#include "physics/pump.h"
#include "physics/weir.h"

#define NETWORK_AWAY ((size_t)-1)  // `to` of water that leaves the network for good

struct network_node {
  bool fixed;        // its level is held at `head`
  double head;       // read only where fixed
  double elevation;  // of the point itself; reported as its head where nothing decides one
  double inflow;     // m3/s put in from outside, minus: taken out; not read where fixed
};

enum network_law {
  NETWORK_PIPE,
  NETWORK_VALVE,   // k v|v|/2g in a bore
  NETWORK_POWER,   // r q|q|^(n-1): Hazen-Williams, or a resistance given as such
  NETWORK_FILTER,  // k1 q + k2 q|q|
  NETWORK_PUMP,    // lifts from `from` to `to`
  NETWORK_NOZZLE,  // always falls
  NETWORK_LIP,     // always falls; `at` is the crest
  NETWORK_LAWS
};

struct network_link {
  size_t from, to;  // which nodes; positive flow runs from `from` to `to`
  enum network_law law;
  bool shut;
  bool check;  // a check valve in it: nothing runs back
  bool falls;  // leaves into air at `at` and falls into `to`: runs out only, whatever stands at `to`
  double at;
  union {
    struct {
      struct pipe pipe;
      double times;  // on its friction; 1 as worked out
    } pipe;
    struct {
      double k, bore;
    } valve;
    struct {
      double r, n;
    } power;
    struct {
      double clean_k1, clean_k2, dirty_k1, dirty_k2;
      bool dirty;
    } filter;
    struct {
      struct pump_curve curve;
      bool idle;       // stands still: a loss and no lift
      double k, bore;  // loss of water that runs through it while idle, or back through it
    } pump;
    struct {
      double area, coefficient, count;
    } nozzle;
    struct {
      struct weir weir;
      double (*flow)(double level, void *with);  // instead of the weir when set: must not fall as the level rises
      void *with;
    } lip;
  };
};

struct network {
  struct network_node *nodes;
  size_t node_count;
  struct network_link *links;
  size_t link_count;
  double viscosity;
};

enum network_status {
  NETWORK_SOLVED,
  NETWORK_DEAD_HEADED,    // solved; the pump `where` (a link, the first such) cannot lift and moves nothing
  NETWORK_NOT_CONNECTED,  // node `where` and all not `reached` have no way out to a level; the rest is solved
  NETWORK_CLOSED_LOOP,    // the same, and a pump runs there: a loop without a source
  NETWORK_NOT_ENOUGH,     // network_settle: the basin would be empty before all is filled
  NETWORK_NO_WAY,    // what is put in, taken out or held cannot get through: check valves stand against it at `where`
  NETWORK_BAD_LINK,  // link `where` holds a number that cannot be used, or names no node
  NETWORK_BAD_NODE,  // node `where` likewise
  NETWORK_UNSETTLED  // no answer within the bound on steps
};

enum network_state {
  NETWORK_FLOWS,
  NETWORK_SHUT,
  NETWORK_BLOCKED,  // check valve shut, or the head does not reach its way out
  NETWORK_LIFTS_NOTHING,
  NETWORK_RUNS_BACK,   // a running pump through which water returns
  NETWORK_BEYOND_END,  // a pump past the last point of its curve: nothing is known there, its flow stops at that point
  NETWORK_UNREACHED
};

struct network_answer {
  enum network_status status;
  size_t where;
  bool converged;  // else flows and heads say nothing; where not reached, both are of water at rest
  int steps;
  double imbalance;     // the greatest at a node, as a share of the greatest flow
  const double *flows;  // by link; owned by the solver, as are the next three
  const double *heads;  // by node
  const enum network_state *states;
  const bool *reached;  // by node
};

struct network_solver;

struct network_solver *network_solver_new(const struct network *network);  // NULL: no memory, or no nodes
// A solver of another network of the same shape (counts, `from` and `to`): its first warm solve starts from the last
// answer of `solver`, from which it borrows and which must outlive it. NULL: no memory, or of another shape.
struct network_solver *network_solver_like(const struct network_solver *solver, const struct network *network);
void network_solver_free(struct network_solver *solver);

// Solves the network as it now stands. `warm`: from the last answer of this function. Never NaN, never endless.
const struct network_answer *network_solve(struct network_solver *solver, bool warm);

// What-ifs, from the last network_solve or from rest, whichever is nearer, and without touching its answer; theirs
// stands until the next one.
const struct network_answer *network_pump_out(struct network_solver *solver, size_t link);
const struct network_answer *network_parted(struct network_solver *solver, size_t node, double bore);  // open at `node`
// Head asked of one pump at each flow, all else as it is; false, and NaN, where the flow has no way through.
bool network_system_curve(struct network_solver *solver, size_t link, const double *flows, double *heads, size_t count);

// A valve link and the flow wanted through it.
struct network_target {
  size_t link;
  double flow;
  double k;         // found: on the bore of the valve; below 0: pushed for, not throttled
  double head;      // found: m that the valve has to take
  bool cannot_get;  // found: needs less than `k_open`
  double k_open;    // least k the valve has
};

// The k of every valve that gives all targets at once, worked from the heads those flows leave; nothing is guessed.
const struct network_answer *network_balance(struct network_solver *solver, struct network_target *targets,
                                             size_t count);

// Water that is conserved: volumes of basins by level, and whatever else holds water while it runs.
struct network_storage {
  size_t node;
  double still;  // level at rest
  double (*volume)(double level, void *with);
  void *with;
};

struct network_water {
  const struct network_storage *storages;
  size_t count;
  size_t drawn;                                                           // which of them sinks to fill the rest
  double (*in_flight)(const struct network_answer *running, void *with);  // NULL: none
  void *with;
};

// Solves with the level of the drawn basin as one more unknown, and leaves it in that node's `head` when found.
const struct network_answer *network_settle(struct network_solver *solver, const struct network_water *water);

#endif
