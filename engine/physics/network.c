// SPDX-License-Identifier: MIT
// The handle: memory, and the plain solve.
#include "physics/network.h"

#include <stdlib.h>
#include <string.h>

#include "physics/network_inside.h"

// All arrays of a solver stand behind it in one block, the largest elements first.
static void *carve(char **at, size_t count, size_t size) {
  char *array = *at;
  *at += count * size;
  return array;
}

static void carve_numbers(struct network_solver *solver, char **at) {
  const size_t nodes = solver->nodes, links = solver->links;
  double **by_link[] = {&solver->slopes, &solver->steps,      &solver->residuals,
                        &solver->losses, &solver->base.flows, &solver->trial.flows};
  double **by_node[] = {&solver->balances, &solver->rises, &solver->base.heads, &solver->trial.heads};
  for (size_t i = 0; i < sizeof by_link / sizeof *by_link; i++) *by_link[i] = carve(at, links, sizeof(double));
  for (size_t i = 0; i < sizeof by_node / sizeof *by_node; i++) *by_node[i] = carve(at, nodes, sizeof(double));
}

static size_t room_behind(size_t nodes, size_t links) {
  return links * (sizeof(struct network_link) + sizeof(struct network_override) + 6 * sizeof(double) +
                  2 * sizeof(enum network_state) + sizeof(bool)) +
         nodes * (4 * sizeof(double) + 3 * sizeof(bool));
}

static struct network_solver *bare_solver(const struct network *network) {
  const size_t nodes = network->node_count, links = network->link_count + 1;
  struct network_solver *solver = calloc(1, sizeof *solver + room_behind(nodes, links));
  if (!solver) return NULL;
  *solver = (struct network_solver){.network = network, .nodes = nodes, .links = links, .idle = NETWORK_AWAY};
  solver->opening =
      (struct network_link){.shut = true, .falls = true, .to = NETWORK_AWAY, .law = NETWORK_VALVE, .valve = {1, 1}};
  char *at = (char *)(solver + 1);
  solver->taken = carve(&at, links, sizeof *solver->taken);
  solver->overrides = carve(&at, links, sizeof *solver->overrides);
  carve_numbers(solver, &at);
  solver->base.states = carve(&at, links, sizeof *solver->base.states);
  solver->trial.states = carve(&at, links, sizeof *solver->trial.states);
  solver->slight = carve(&at, links, sizeof(bool));
  solver->known = carve(&at, nodes, sizeof(bool));
  solver->base.reached = carve(&at, nodes, sizeof(bool));
  solver->trial.reached = carve(&at, nodes, sizeof(bool));
  return solver;
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
  struct network_solver *solver = bare_solver(network);
  if (!solver || make_mesh(solver)) return solver;
  network_solver_free(solver);
  return NULL;
}

static bool same_shape(const struct network *a, const struct network *b) {
  if (a->node_count != b->node_count || a->link_count != b->link_count) return false;
  for (size_t i = 0; i < a->link_count; i++) {
    if (a->links[i].from != b->links[i].from || a->links[i].to != b->links[i].to) return false;
  }
  return true;
}

struct network_solver *network_solver_like(const struct network_solver *solver, const struct network *network) {
  if (!same_shape(solver->network, network)) return NULL;
  struct network_solver *like = bare_solver(network);
  if (!like) return NULL;
  like->mesh = solver->mesh;
  like->lent = true;
  memcpy(like->base.flows, solver->base.flows, like->links * sizeof(double));
  memcpy(like->base.heads, solver->base.heads, like->nodes * sizeof(double));
  like->base.answer.converged = solver->base.answer.converged;
  return like;
}

void network_solver_free(struct network_solver *solver) {
  if (solver && !solver->lent) network_mesh_free(solver->mesh);
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
