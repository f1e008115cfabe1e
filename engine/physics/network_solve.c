// SPDX-License-Identifier: MIT
// Newton on flows and heads together. Each step: every link is laid straight at its flow, the heads that balance all
// nodes follow from one linear solve (network_mesh), the flows from the heads. Along the step the work done is
// followed:
//   the sum over links of  change of flow x (loss at the new flow - head there is)
// starts below 0, rises, and is 0 where the step has given what it can. For losses that grow with flow the step so
// bounded always gains, so it converges from any start.
#include <float.h>
#include <math.h>
#include <string.h>

#include "physics/network_inside.h"

enum { GREATEST_STEPS = 200, WARM_STEPS = 25 };

#define SMALL_SHARE 1e-10  // a step smaller than this share of the greatest flow and head (of 1 m at least) is the last
#define SMALLEST_SCALE 1e-5  // m3/s
#define HEAD_ROUNDING 1e-14  // share of the greatest head under which a misfit is rounding
#define USED_UP 0.25         // share of the first slope of the work at which a step is long enough
#define LONGEST_STEP 8.0
#define REST 1e-12                // m3/s, counts as none
#define GREATEST_IMBALANCE 1e-10  // share of the greatest flow

// From soft to hard. The end of a pump's curve stays softer: its flow is no small number, so its last digits count.
static const struct network_walls STAGES[] = {
    {.back = 1e4, .end = 1e4}, {.back = 1e8, .end = 1e7}, {.back = 1e20, .end = 1e10}};
enum { STAGE_COUNT = sizeof STAGES / sizeof *STAGES };

struct pass {
  struct network_solver *solver;
  struct network_run *run;
  struct network_walls walls;
  double viscosity;
  bool known;  // the losses at the present flows are known from the last step
};

static const struct network_link *link_at(const struct network_solver *solver, size_t i) { return &solver->taken[i]; }

static struct network_view view_of(const struct pass *pass, size_t i) {
  return (struct network_view){.back = pass->walls.back,
                               .end = pass->walls.end,
                               .viscosity = pass->viscosity,
                               .slight = pass->solver->slight[i]};
}

static double loss_at(const struct pass *pass, size_t i, double flow) {
  const struct network_view view = view_of(pass, i);
  return network_loss(link_at(pass->solver, i), flow, &view);
}

static double slope_at(const struct pass *pass, size_t i, double flow) {
  const struct network_view view = view_of(pass, i);
  return network_slope(link_at(pass->solver, i), flow, &view);
}

static bool is_dead(const struct network_solver *solver, size_t i) {
  return solver->taken[i].shut || solver->overrides[i].held;
}

// Head there is to drive a link.
static double drop(const struct pass *pass, size_t i) {
  const struct network_link *link = link_at(pass->solver, i);
  const double *heads = pass->run->heads;
  return heads[link->from] - (network_falls(link) ? link->at - pass->solver->datum : heads[link->to]);
}

static double change_of_drop(const struct pass *pass, size_t i) {
  const struct network_link *link = link_at(pass->solver, i);
  const double *rises = pass->solver->rises;
  return rises[link->from] - (network_falls(link) ? 0 : rises[link->to]);
}

// A link that is at rest opens when there is head for it, else it keeps shut.
static double slope_now(const struct pass *pass, size_t i, double flow) {
  const struct network_link *link = link_at(pass->solver, i);
  const bool rests = !(flow < 0 || flow > 0);
  if (!rests || !network_one_way(link)) return slope_at(pass, i, flow);
  const bool pushed = drop(pass, i) > loss_at(pass, i, 0);
  return slope_at(pass, i, pushed ? 0 : -DBL_MIN);
}

static void lay_straight(const struct pass *pass) {
  struct network_solver *solver = pass->solver;
  for (size_t i = 0; i < solver->links; i++) {
    solver->slopes[i] = solver->residuals[i] = 0;
    if (is_dead(solver, i)) continue;
    const double flow = pass->run->flows[i];
    solver->slopes[i] = slope_now(pass, i, flow);
    if (!pass->known) solver->losses[i] = loss_at(pass, i, flow);
    solver->residuals[i] = solver->losses[i] - drop(pass, i);
  }
}

static bool is_node(const struct network_solver *solver, size_t node) { return node < solver->nodes; }

static bool is_known(const struct network_solver *solver, const struct network_run *run, size_t node) {
  return solver->network->nodes[node].fixed || !run->reached[node];
}

// What more comes into each node than leaves it.
static double find_balances(const struct network_solver *solver, const struct network_run *run, double *balances) {
  double worst = 0;
  for (size_t n = 0; n < solver->nodes; n++) balances[n] = solver->network->nodes[n].inflow;
  for (size_t i = 0; i < solver->links; i++) {
    const struct network_link *link = link_at(solver, i);
    if (link->shut) continue;
    balances[link->from] -= run->flows[i];
    if (is_node(solver, link->to)) balances[link->to] += run->flows[i];
  }
  for (size_t n = 0; n < solver->nodes; n++) {
    if (!is_known(solver, run, n)) worst = fmax(worst, fabs(balances[n]));
  }
  return worst;
}

static void put_in_mesh(const struct pass *pass, size_t i, const bool *known) {
  struct network_solver *solver = pass->solver;
  const struct network_link *link = link_at(solver, i);
  const double conductance = 1 / solver->slopes[i], push = solver->residuals[i] / solver->slopes[i];
  const bool into_free = is_node(solver, link->to) && !known[link->to], from_free = !known[link->from];
  solver->balances[link->from] += push;
  if (into_free) solver->balances[link->to] -= push;
  if (into_free && from_free) {
    (network_falls(link) ? network_mesh_pour : network_mesh_join)(solver->mesh, i, conductance);
  } else {
    if (from_free) network_mesh_leave(solver->mesh, link->from, conductance);
    if (into_free && !network_falls(link)) network_mesh_leave(solver->mesh, link->to, conductance);
  }
}

static void find_step(const struct pass *pass) {
  struct network_solver *solver = pass->solver;
  const bool *known = solver->known;
  network_mesh_clear(solver->mesh);
  find_balances(solver, pass->run, solver->balances);
  for (size_t i = 0; i < solver->links; i++) {
    if (!is_dead(solver, i)) put_in_mesh(pass, i, known);
  }
  network_mesh_solve(solver->mesh, known, solver->balances, solver->rises);
  for (size_t i = 0; i < solver->links; i++) {
    if (is_dead(solver, i)) continue;
    solver->steps[i] = (change_of_drop(pass, i) - solver->residuals[i]) / solver->slopes[i];
  }
}

static double work_along(const struct pass *pass, double share) {
  const struct network_solver *solver = pass->solver;
  double work = 0;
  for (size_t i = 0; i < solver->links; i++) {
    if (is_dead(solver, i)) continue;
    const double step = solver->steps[i], flow = pass->run->flows[i];
    solver->losses[i] = loss_at(pass, i, flow + share * step);
    work += step * (solver->losses[i] - drop(pass, i) - change_of_drop(pass, i));
  }
  return work;
}

static double work_at_start(const struct network_solver *solver) {
  double work = 0;
  for (size_t i = 0; i < solver->links; i++) work -= solver->slopes[i] * solver->steps[i] * solver->steps[i];
  return work;
}

// Between a share of the step where work is still to be had and one where it is overdone: regula falsi (Illinois).
static double share_between(const struct pass *pass, double low, double at_low, double high, double at_high,
                            double enough) {
  double share = high;
  for (int i = 0; i < 40; i++) {
    share = low + (high - low) * fmin(0.95, fmax(0.02, at_low / (at_low - at_high)));
    const double work = work_along(pass, share);
    if (fabs(work) <= enough) break;
    if (work < 0) {
      low = share, at_low = work, at_high /= 2;
    } else {
      high = share, at_high = work, at_low /= 2;
    }
  }
  return share;
}

static double length_of_step(const struct pass *pass) {
  const double at_start = work_at_start(pass->solver), enough = USED_UP * fabs(at_start);
  double low = 0, at_low = at_start, high = 1, at_high = work_along(pass, 1);
  while (at_high < -enough && high < LONGEST_STEP) {
    low = high, at_low = at_high;
    high *= 2, at_high = work_along(pass, high);
  }
  return at_high <= enough ? high : share_between(pass, low, at_low, high, at_high, enough);
}

static double greatest_flow(const struct pass *pass) {
  double greatest = SMALLEST_SCALE;
  for (size_t i = 0; i < pass->solver->links; i++) greatest = fmax(greatest, fabs(pass->run->flows[i]));
  return greatest;
}

static double greatest_head(const struct pass *pass) {
  double greatest = 0;
  for (size_t n = 0; n < pass->solver->nodes; n++) greatest = fmax(greatest, fabs(pass->run->heads[n]));
  return greatest;
}

// Where balance alone decides the flows they stand still at once, while the heads may still have far to go.
static bool heads_rest(const struct pass *pass, double share) {
  const double enough = share * fmax(1, greatest_head(pass));
  for (size_t n = 0; n < pass->solver->nodes; n++) {
    if (!(fabs(pass->solver->rises[n]) <= enough)) return false;
  }
  return true;
}

// A wall is so steep that the step which opens it looks like nothing.
static bool opens(const struct network_solver *solver, const struct network_run *run, size_t i) {
  const double flow = run->flows[i];
  return network_one_way(link_at(solver, i)) && flow < 0 && flow + solver->steps[i] > 0;
}

static bool is_small(const struct pass *pass, double share) {
  const struct network_solver *solver = pass->solver;
  const double flow = share * greatest_flow(pass), head = HEAD_ROUNDING * greatest_head(pass);
  for (size_t i = 0; i < solver->links; i++) {
    if (is_dead(solver, i)) continue;
    const bool rests = fabs(solver->steps[i]) <= flow || fabs(solver->residuals[i]) <= head;
    if (!rests || opens(solver, pass->run, i)) return false;
  }
  return heads_rest(pass, share);
}

static void go(const struct pass *pass, double share) {
  const struct network_solver *solver = pass->solver;
  for (size_t n = 0; n < solver->nodes; n++) pass->run->heads[n] += solver->rises[n];
  for (size_t i = 0; i < solver->links; i++) {
    if (!is_dead(solver, i)) pass->run->flows[i] += share * solver->steps[i];
  }
}

// True once nothing moves any more. The first step is taken whole: it is what brings all nodes into balance.
static bool settle(struct pass *pass, double small_share, int greatest, bool balanced) {
  struct network_run *run = pass->run;
  pass->known = false;
  for (int i = 0; i < greatest; i++) {
    lay_straight(pass);
    find_step(pass);
    const bool small = is_small(pass, small_share), whole = small || (i == 0 && !balanced);
    go(pass, whole ? 1 : length_of_step(pass));
    pass->known = !whole;
    run->answer.steps++;
    if (small && (i > 0 || balanced)) return true;
  }
  return false;
}

static void start_cold(const struct network_solver *solver, struct network_run *run) {
  for (size_t i = 0; i < solver->links; i++) run->flows[i] = network_usual_flow(link_at(solver, i));
  for (size_t n = 0; n < solver->nodes; n++) run->heads[n] = 0;
}

// Heads that are given, and flows that are.
static void put_givens(struct network_solver *solver, struct network_run *run) {
  const struct network *network = solver->network;
  for (size_t n = 0; n < solver->nodes; n++) {
    solver->known[n] = is_known(solver, run, n);
    if (network->nodes[n].fixed) run->heads[n] = network->nodes[n].head - solver->datum;
    if (!run->reached[n]) run->heads[n] = network->nodes[n].elevation - solver->datum;
  }
  for (size_t i = 0; i < solver->links; i++) {
    if (solver->taken[i].shut) run->flows[i] = 0;
    if (solver->overrides[i].held) run->flows[i] = solver->overrides[i].flow;
  }
}

static void find_datum(struct network_solver *solver) {
  double lowest = INFINITY;
  for (size_t n = 0; n < solver->nodes; n++) {
    if (solver->network->nodes[n].fixed) lowest = fmin(lowest, solver->network->nodes[n].head);
  }
  for (size_t i = 0; i < solver->links; i++) {
    if (!solver->taken[i].shut && network_falls(link_at(solver, i))) lowest = fmin(lowest, solver->taken[i].at);
  }
  solver->datum = isfinite(lowest) ? lowest : 0;
}

static bool settle_cold(struct pass *pass) {
  start_cold(pass->solver, pass->run);
  put_givens(pass->solver, pass->run);
  bool done = false;
  for (int stage = 0; stage < STAGE_COUNT; stage++) {
    const bool last = stage == STAGE_COUNT - 1;
    pass->walls.back = STAGES[stage].back;
    pass->walls.end = STAGES[stage].end;
    done = settle(pass, last ? SMALL_SHARE : 1e-3, GREATEST_STEPS / STAGE_COUNT, stage > 0);
  }
  return done;
}

static bool settle_warm(struct pass *pass) {
  put_givens(pass->solver, pass->run);
  pass->walls.back = STAGES[STAGE_COUNT - 1].back;
  pass->walls.end = STAGES[STAGE_COUNT - 1].end;
  return settle(pass, SMALL_SHARE, WARM_STEPS, false);
}

static enum network_state state_of(const struct network_solver *solver, const struct network_run *run, size_t i) {
  const struct network_link *link = link_at(solver, i);
  const double flow = run->flows[i];
  if (!run->reached[link->from] || (!network_falls(link) && !run->reached[link->to])) return NETWORK_UNREACHED;
  if (link->shut) return NETWORK_SHUT;
  if (solver->overrides[i].held) return NETWORK_FLOWS;
  if (network_lifts(link) && fabs(flow) <= REST) return NETWORK_LIFTS_NOTHING;
  if (network_lifts(link) && flow < 0) return NETWORK_RUNS_BACK;
  if (network_lifts(link) && flow > pump_greatest_flow(&link->pump.curve)) return NETWORK_BEYOND_END;
  return network_one_way(link) && flow <= 0 ? NETWORK_BLOCKED : NETWORK_FLOWS;
}

// What seeps through a wall counts as nothing, and heads go back to the caller's datum.
static void finish(struct network_solver *solver, struct network_run *run) {
  double greatest = SMALLEST_SCALE;
  for (size_t i = 0; i < solver->links; i++) {
    if (network_one_way(link_at(solver, i)) && !solver->overrides[i].held) run->flows[i] = fmax(0, run->flows[i]);
    greatest = fmax(greatest, fabs(run->flows[i]));
    run->states[i] = state_of(solver, run, i);
    if (run->states[i] == NETWORK_LIFTS_NOTHING && run->answer.status == NETWORK_SOLVED) {
      run->answer.status = NETWORK_DEAD_HEADED;
      run->answer.where = i;
    }
  }
  run->answer.imbalance = find_balances(solver, run, solver->balances) / greatest;
  for (size_t n = 0; n < solver->nodes; n++) run->heads[n] += solver->datum;
}

static size_t worst_node(const struct network_solver *solver, const struct network_run *run) {
  size_t worst = 0;
  double most = 0;
  for (size_t n = 0; n < solver->nodes; n++) {
    if (is_known(solver, run, n) || !(fabs(solver->balances[n]) > most)) continue;
    most = fabs(solver->balances[n]);
    worst = n;
  }
  return worst;
}

// Where no answer was found nothing is passed off as one: all at rest.
static void blank(const struct network_solver *solver, struct network_run *run) {
  run->answer.converged = false;
  for (size_t i = 0; i < solver->links; i++) run->flows[i] = 0;
  for (size_t n = 0; n < solver->nodes; n++) run->heads[n] = solver->network->nodes[n].elevation;
}

// Heads of a run are kept over the caller's datum between solves.
static void to_datum(const struct network_solver *solver, struct network_run *run) {
  for (size_t n = 0; n < solver->nodes; n++) run->heads[n] -= solver->datum;
}

static void take_links(struct network_solver *solver) {
  const size_t count = solver->network->link_count;
  if (count > 0) memcpy(solver->taken, solver->network->links, count * sizeof *solver->taken);
  solver->taken[count] = solver->opening;
  if (solver->idle < count) solver->taken[solver->idle].pump.idle = true;
}

void network_run_solve(struct network_solver *solver, struct network_run *run, bool warm) {
  struct pass pass = {.solver = solver, .run = run, .viscosity = solver->network->viscosity};
  const bool was_good = run->answer.converged;
  network_blank_answer(run);
  take_links(solver);
  if (network_find_fault(solver, &run->answer)) return;
  network_find_reached(solver, run);
  for (size_t i = 0; i < solver->links; i++) {
    solver->slight[i] = network_is_slight(link_at(solver, i), solver->network->viscosity);
  }
  find_datum(solver);
  to_datum(solver, run);
  run->answer.converged = (warm && was_good && settle_warm(&pass)) || settle_cold(&pass);
  finish(solver, run);
  if (!run->answer.converged) {
    run->answer.status = NETWORK_UNSETTLED;
  } else if (!(run->answer.imbalance <= GREATEST_IMBALANCE)) {
    run->answer.status = NETWORK_NO_WAY;
    run->answer.where = worst_node(solver, run);
  }
  if (run->answer.status >= NETWORK_NO_WAY) blank(solver, run);
}
