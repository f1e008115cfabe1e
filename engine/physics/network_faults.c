// SPDX-License-Identifier: MIT
// What-ifs: one thing changed for one solve, the answer of the base left as it is.
#include <math.h>

#include "physics/network_inside.h"
#include "physics/water.h"

static const struct network_answer *solve_trial(struct network_solver *solver, bool warm) {
  network_start_trial(solver);
  network_run_solve(solver, &solver->trial, warm);
  network_end_trial(solver);
  return &solver->trial.answer;
}

static bool is_link(const struct network_solver *solver, size_t link) { return link < solver->network->link_count; }

static const struct network_answer *refuse(struct network_solver *solver, enum network_status status, size_t where) {
  network_blank_answer(&solver->trial);
  solver->trial.answer.status = status;
  solver->trial.answer.where = where;
  network_end_trial(solver);
  return &solver->trial.answer;
}

static void hold(struct network_solver *solver, size_t link, double flow) {
  solver->overrides[link] = (struct network_override){.held = true, .flow = flow};
}

const struct network_answer *network_pump_out(struct network_solver *solver, size_t link) {
  if (!is_link(solver, link) || solver->network->links[link].law != NETWORK_PUMP) {
    return refuse(solver, NETWORK_BAD_LINK, link);
  }
  solver->idle = link;
  return solve_trial(solver, false);  // from rest it is nearer
}

// The open end loses its velocity head: K = 1 on its bore.
const struct network_answer *network_parted(struct network_solver *solver, size_t node, double bore) {
  if (node >= solver->nodes) return refuse(solver, NETWORK_BAD_NODE, node);
  solver->opening = (struct network_link){.from = node,
                                          .to = NETWORK_AWAY,
                                          .law = NETWORK_VALVE,
                                          .falls = true,
                                          .at = solver->network->nodes[node].elevation,
                                          .valve = {.k = 1, .bore = bore}};
  return solve_trial(solver, true);
}

static bool is_usable(const struct network_answer *answer) {
  return answer->converged && answer->status != NETWORK_NOT_CONNECTED && answer->status != NETWORK_CLOSED_LOOP;
}

// Head that stands after a link over head that stands before it.
static double head_over(const struct network_solver *solver, const struct network_answer *answer, size_t i) {
  const struct network_link *link = &solver->network->links[i];
  const double after = network_falls(link) ? link->at : answer->heads[link->to];
  return after - answer->heads[link->from];
}

// With none at all the head would hang on what seeps through shut ways. So little asks what none does, to some
// nanometres.
#define ALMOST_NONE 1e-10  // m3/s

bool network_system_curve(struct network_solver *solver, size_t link, const double *flows, double *heads,
                          size_t count) {
  bool all = is_link(solver, link) && solver->network->links[link].law == NETWORK_PUMP;
  const bool is_pump = all;
  for (size_t i = 0; i < count; i++) {
    heads[i] = (double)NAN;
    if (!is_pump || !(fabs(flows[i]) <= 1e6)) continue;
    hold(solver, link, fabs(flows[i]) < ALMOST_NONE ? ALMOST_NONE : flows[i]);
    const struct network_answer *answer = solve_trial(solver, true);
    if (is_usable(answer)) heads[i] = head_over(solver, answer, link);
    all = all && is_usable(answer);
  }
  return all;
}

static void find_k(const struct network_solver *solver, const struct network_answer *answer,
                   struct network_target *target) {
  const struct network_link *link = &solver->network->links[target->link];
  const double velocity = pipe_velocity(target->flow, link->valve.bore);
  target->head = -head_over(solver, answer, target->link);
  target->k = 2 * GRAVITY * target->head / (velocity * velocity);
  target->cannot_get = !(target->k >= target->k_open);
}

static bool is_target(const struct network_solver *solver, const struct network_target *target) {
  if (!is_link(solver, target->link)) return false;
  const struct network_link *link = &solver->network->links[target->link];
  return link->law == NETWORK_VALVE && !link->shut && target->flow > 1e-9 && target->flow <= 1e6;
}

const struct network_answer *network_balance(struct network_solver *solver, struct network_target *targets,
                                             size_t count) {
  for (size_t i = 0; i < count; i++) {
    targets[i].k = targets[i].head = 0;
    targets[i].cannot_get = true;
    if (!is_target(solver, &targets[i])) return refuse(solver, NETWORK_BAD_LINK, targets[i].link);
    hold(solver, targets[i].link, targets[i].flow);
  }
  const struct network_answer *answer = solve_trial(solver, true);
  for (size_t i = 0; i < count && is_usable(answer); i++) find_k(solver, answer, &targets[i]);
  return answer;
}
