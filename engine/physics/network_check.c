// SPDX-License-Identifier: MIT
// What can be said of a network before it is solved: numbers that cannot be used, parts with no way out to a level.
#include <math.h>
#include <string.h>

#include "physics/network_inside.h"

// Beyond these nothing is a garden any more and squares begin to overflow.
#define GREATEST_HEAD 1e6
#define GREATEST_FLOW 1e6
#define GREATEST_LOSS 1e20  // k, r
#define LEAST_BORE 1e-3
#define GREATEST_BORE 1e3
#define LEAST_LIP_HEAD 1e-5  // at a litre a second: a lip of 17 km

static bool is_within(double value, double least, double greatest) { return value >= least && value <= greatest; }
static bool is_bore(double bore) { return is_within(bore, LEAST_BORE, GREATEST_BORE); }
static bool is_coefficient(double k) { return fabs(k) <= GREATEST_LOSS; }

static bool pipe_is_good(const struct network_link *link) {
  const struct pipe *pipe = &link->pipe.pipe;
  return is_bore(pipe->bore) && is_within(pipe->length, 0, 1e7) && is_within(pipe->roughness, 0, pipe->bore) &&
         is_coefficient(pipe->minor) && is_within(link->pipe.times, 0, 1e6);
}

static bool valve_is_good(const struct network_link *link) {
  return is_bore(link->valve.bore) && is_coefficient(link->valve.k);
}

static bool power_is_good(const struct network_link *link) {
  return is_coefficient(link->power.r) && is_within(link->power.n, 1, 4);
}

static bool filter_is_good(const struct network_link *link) {
  return is_within(link->filter.clean_k1, 0, GREATEST_LOSS) && is_within(link->filter.clean_k2, 0, GREATEST_LOSS) &&
         is_within(link->filter.dirty_k1, 0, GREATEST_LOSS) && is_within(link->filter.dirty_k2, 0, GREATEST_LOSS);
}

static bool pump_is_good(const struct network_link *link) {
  const struct pump_curve *curve = &link->pump.curve;
  if (!is_bore(link->pump.bore) || !is_within(link->pump.k, 0, GREATEST_LOSS)) return false;
  if (!is_within(curve->speed, 0, 100) || pump_curve_fault(curve) != curve->count || curve->count < 2) return false;
  return pump_greatest_flow(curve) <= GREATEST_FLOW && pump_shut_off_head(curve) <= GREATEST_HEAD;
}

static bool nozzle_is_good(const struct network_link *link) {
  return is_within(link->nozzle.area, 1e-10, 1e6) && is_within(link->nozzle.coefficient, 1e-3, 10) &&
         is_within(link->nozzle.count, 1e-3, 1e6);
}

static bool lip_is_good(const struct network_link *link) {
  return link->lip.flow || is_within(weir_head(&link->lip.weir, 1e-3).likely, LEAST_LIP_HEAD, GREATEST_HEAD);
}

static bool (*const IS_GOOD[NETWORK_LAWS])(const struct network_link *link) = {
    [NETWORK_PIPE] = pipe_is_good,     [NETWORK_VALVE] = valve_is_good, [NETWORK_POWER] = power_is_good,
    [NETWORK_FILTER] = filter_is_good, [NETWORK_PUMP] = pump_is_good,   [NETWORK_NOZZLE] = nozzle_is_good,
    [NETWORK_LIP] = lip_is_good};

static bool link_is_good(const struct network_link *link, size_t nodes) {
  if (link->from >= nodes || (unsigned)link->law >= NETWORK_LAWS || !IS_GOOD[link->law](link)) return false;
  if (!network_falls(link)) return link->to < nodes && link->to != link->from;
  return (link->to < nodes || link->to == NETWORK_AWAY) && is_within(link->at, -GREATEST_HEAD, GREATEST_HEAD);
}

static bool node_is_good(const struct network_node *node) {
  if (!is_within(node->elevation, -GREATEST_HEAD, GREATEST_HEAD)) return false;
  const double given = node->fixed ? node->head : node->inflow;
  return is_within(given, -GREATEST_HEAD, GREATEST_HEAD);
}

bool network_find_fault(const struct network_solver *solver, struct network_answer *answer) {
  const struct network *network = solver->network;
  for (size_t n = 0; n < solver->nodes; n++) {
    if (node_is_good(&network->nodes[n])) continue;
    answer->status = NETWORK_BAD_NODE;
    answer->where = n;
    return true;
  }
  for (size_t i = 0; i < solver->links; i++) {
    const struct network_link *link = &solver->taken[i];
    const bool unused = link->shut && i == network->link_count;
    if (unused || (link_is_good(link, solver->nodes) && is_within(solver->network->viscosity, 1e-9, 1))) continue;
    answer->status = NETWORK_BAD_LINK;
    answer->where = i;
    return true;
  }
  return false;
}

// Water can leave `from` by this link towards a level that is known.
static bool leads_out(const struct network_run *run, const struct network_link *link, size_t nodes) {
  return link->to >= nodes || run->reached[link->to];
}

static bool spread(struct network_solver *solver, struct network_run *run) {
  bool any = false;
  for (size_t i = 0; i < solver->links; i++) {
    const struct network_link *link = &solver->taken[i];
    if (link->shut || solver->overrides[i].held) continue;
    if (!run->reached[link->from] && leads_out(run, link, solver->nodes)) any = run->reached[link->from] = true;
    if (network_falls(link) || run->reached[link->to] || !run->reached[link->from]) continue;
    any = run->reached[link->to] = true;
  }
  return any;
}

static bool has_pump(const struct network_solver *solver, const struct network_run *run) {
  for (size_t i = 0; i < solver->links; i++) {
    const struct network_link *link = &solver->taken[i];
    if (link->shut || !network_lifts(link)) continue;
    if (!run->reached[link->from] && !run->reached[link->to]) return true;
  }
  return false;
}

// A part that is out of reach is taken as at rest: its links are held at no flow, so that the rest can be solved.
static void lay_to_rest(struct network_solver *solver, const struct network_run *run) {
  for (size_t i = 0; i < solver->links; i++) {
    struct network_link *link = &solver->taken[i];
    if (link->from >= solver->nodes) continue;
    const bool into_rest = !network_falls(link) && !run->reached[link->to];
    if (!run->reached[link->from] || into_rest) link->shut = true;
  }
}

void network_find_reached(struct network_solver *solver, struct network_run *run) {
  bool all = true;
  for (size_t n = 0; n < solver->nodes; n++) run->reached[n] = solver->network->nodes[n].fixed;
  bool more = true;
  while (more) more = spread(solver, run);
  for (size_t n = solver->nodes; n-- > 0;) {
    if (run->reached[n]) continue;
    run->answer.where = n;
    all = false;
  }
  if (all) return;
  run->answer.status = has_pump(solver, run) ? NETWORK_CLOSED_LOOP : NETWORK_NOT_CONNECTED;
  lay_to_rest(solver, run);
}
