// SPDX-License-Identifier: MIT
// The handle: memory, and the plain solve.
#include "physics/network.h"

#include <stdlib.h>
#include <string.h>

#include "physics/network_inside.h"

static bool run_new(struct network_run *run, size_t nodes, size_t links) {
  run->flows = calloc(links, sizeof *run->flows);
  run->heads = calloc(nodes, sizeof *run->heads);
  run->states = calloc(links, sizeof *run->states);
  run->reached = calloc(nodes, sizeof *run->reached);
  return run->flows && run->heads && run->states && run->reached;
}

static void run_free(struct network_run *run) {
  free(run->flows);
  free(run->heads);
  free(run->states);
  free(run->reached);
}

static bool make_room(struct network_solver *solver) {
  const size_t nodes = solver->nodes, links = solver->links;
  solver->taken = calloc(links, sizeof *solver->taken);
  solver->overrides = calloc(links, sizeof *solver->overrides);
  solver->slopes = calloc(links, sizeof *solver->slopes);
  solver->steps = calloc(links, sizeof *solver->steps);
  solver->residuals = calloc(links, sizeof *solver->residuals);
  solver->losses = calloc(links, sizeof *solver->losses);
  solver->slight = calloc(links, sizeof *solver->slight);
  solver->balances = calloc(nodes, sizeof *solver->balances);
  solver->rises = calloc(nodes, sizeof *solver->rises);
  solver->known = calloc(nodes, sizeof *solver->known);
  return run_new(&solver->base, nodes, links) && run_new(&solver->trial, nodes, links) && solver->taken &&
         solver->overrides && solver->slopes && solver->steps && solver->residuals && solver->losses &&
         solver->slight && solver->balances && solver->rises && solver->known;
}

static bool make_mesh(struct network_solver *solver) {
  struct network_pair *pairs = calloc(solver->links, sizeof *pairs);
  if (!pairs) return false;
  for (size_t i = 0; i + 1 < solver->links; i++) {
    const struct network_link *link = &solver->network->links[i];
    pairs[i] = (struct network_pair){.from = link->from, .to = link->to};
  }
  pairs[solver->links - 1] = (struct network_pair){.from = NETWORK_AWAY, .to = NETWORK_AWAY};
  solver->mesh = network_mesh_new(solver->nodes, pairs, solver->links);
  free(pairs);
  return solver->mesh != NULL;
}

struct network_solver *network_solver_new(const struct network *network) {
  if (!network || network->node_count == 0) return NULL;
  struct network_solver *solver = calloc(1, sizeof *solver);
  if (!solver) return NULL;
  solver->network = network;
  solver->nodes = network->node_count;
  solver->links = network->link_count + 1;
  solver->idle = NETWORK_AWAY;
  solver->opening =
      (struct network_link){.shut = true, .falls = true, .to = NETWORK_AWAY, .law = NETWORK_VALVE, .valve = {1, 1}};
  if (make_room(solver) && make_mesh(solver)) return solver;
  network_solver_free(solver);
  return NULL;
}

void network_solver_free(struct network_solver *solver) {
  if (!solver) return;
  network_mesh_free(solver->mesh);
  run_free(&solver->base);
  run_free(&solver->trial);
  free(solver->taken);
  free(solver->overrides);
  free(solver->slopes);
  free(solver->steps);
  free(solver->residuals);
  free(solver->losses);
  free(solver->slight);
  free(solver->balances);
  free(solver->rises);
  free(solver->known);
  free(solver);
}

void network_blank_answer(struct network_run *run) {
  run->answer = (struct network_answer){.status = NETWORK_SOLVED,
                                        .where = NETWORK_AWAY,
                                        .flows = run->flows,
                                        .heads = run->heads,
                                        .states = run->states,
                                        .reached = run->reached};
}

const struct network_answer *network_solve(struct network_solver *solver, bool warm) {
  network_run_solve(solver, &solver->base, warm);
  return &solver->base.answer;
}

void network_start_trial(struct network_solver *solver) {
  const struct network_run *from = &solver->base;
  memcpy(solver->trial.flows, from->flows, solver->links * sizeof *from->flows);
  memcpy(solver->trial.heads, from->heads, solver->nodes * sizeof *from->heads);
  solver->trial.answer.converged = from->answer.converged;
}

void network_end_trial(struct network_solver *solver) {
  solver->idle = NETWORK_AWAY;
  solver->opening.shut = true;
  memset(solver->overrides, 0, solver->links * sizeof *solver->overrides);
}
