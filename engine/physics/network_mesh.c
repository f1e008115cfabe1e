// SPDX-License-Identifier: MIT
#include "physics/network_mesh.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#define NOWHERE UINT32_MAX

// The two directions between a pair of nodes; `low` is the node with the smaller number.
struct edge {
  double into_low, into_high;  // what the rise of the other sends into it
};

struct arm {
  uint32_t node, edge;
};

// One node, its neighbours that are taken out after it, and the edges among those: for arms i < j, in order.
struct star {
  uint32_t node, arms, first_arm, first_edge;
};

struct network_mesh {
  size_t nodes, edge_count, arm_count, between_count;
  struct edge *edges;
  struct star *stars;  // in the order of taking out
  struct arm *arms;
  uint32_t *between;
  struct network_pair *ends;
  uint32_t *edge_of_pair;
  double *leaks;  // by node: what its rise sends out to a known level
  double *pivots;
};

// What is needed only while the order is found.
struct sketch {
  uint32_t *edge_at;  // nodes x nodes
  bool *gone;
  size_t arm_room, between_room;
  bool no_memory;
};

static bool grow(void **array, size_t *room, size_t needed, size_t size) {
  if (needed <= *room) return true;
  const size_t larger = 2 * needed + 16;
  void *moved = realloc(*array, larger * size);
  if (!moved) return false;
  *array = moved;
  *room = larger;
  return true;
}

static uint32_t edge_between(struct network_mesh *mesh, struct sketch *sketch, size_t a, size_t b) {
  uint32_t *edge = &sketch->edge_at[a * mesh->nodes + b];
  if (*edge == NOWHERE) {
    *edge = (uint32_t)mesh->edge_count++;
    sketch->edge_at[b * mesh->nodes + a] = *edge;
  }
  return *edge;
}

static bool is_pair(const struct network_mesh *mesh, const struct network_pair *pair) {
  return pair->from != pair->to && pair->from < mesh->nodes && pair->to < mesh->nodes;
}

static size_t neighbours(const struct network_mesh *mesh, const struct sketch *sketch, size_t node) {
  size_t count = 0;
  for (size_t other = 0; other < mesh->nodes; other++) {
    count += !sketch->gone[other] && sketch->edge_at[node * mesh->nodes + other] != NOWHERE;
  }
  return count;
}

static size_t least_joined(const struct network_mesh *mesh, const struct sketch *sketch) {
  size_t best = 0, least = SIZE_MAX;
  for (size_t node = 0; node < mesh->nodes && least > 0; node++) {
    if (sketch->gone[node]) continue;
    const size_t count = neighbours(mesh, sketch, node);
    if (count < least) {
      least = count;
      best = node;
    }
  }
  return best;
}

static void add_arms(struct network_mesh *mesh, struct sketch *sketch, struct star *star) {
  void *arms = mesh->arms;
  if (!grow(&arms, &sketch->arm_room, mesh->arm_count + mesh->nodes, sizeof *mesh->arms)) sketch->no_memory = true;
  mesh->arms = arms;
  star->first_arm = (uint32_t)mesh->arm_count;
  for (size_t other = 0; other < mesh->nodes && !sketch->no_memory; other++) {
    const uint32_t edge = sketch->edge_at[star->node * mesh->nodes + other];
    if (!sketch->gone[other] && edge != NOWHERE) {
      mesh->arms[mesh->arm_count++] = (struct arm){.node = (uint32_t)other, .edge = edge};
    }
  }
  star->arms = (uint32_t)mesh->arm_count - star->first_arm;
}

static void add_edges_between(struct network_mesh *mesh, struct sketch *sketch, struct star *star) {
  const struct arm *arms = mesh->arms + star->first_arm;
  const size_t count = star->arms;
  void *between = mesh->between;
  if (!grow(&between, &sketch->between_room, mesh->between_count + count * count, sizeof *mesh->between)) {
    sketch->no_memory = true;
  }
  mesh->between = between;
  star->first_edge = (uint32_t)mesh->between_count;
  for (size_t i = 0; i < count && !sketch->no_memory; i++) {
    for (size_t j = i + 1; j < count; j++) {
      mesh->between[mesh->between_count++] = edge_between(mesh, sketch, arms[i].node, arms[j].node);
    }
  }
}

static void find_order(struct network_mesh *mesh, struct sketch *sketch, size_t pairs) {
  for (size_t i = 0; i < mesh->nodes * mesh->nodes; i++) sketch->edge_at[i] = NOWHERE;
  for (size_t i = 0; i < pairs; i++) {
    const struct network_pair pair = mesh->ends[i];
    mesh->edge_of_pair[i] = is_pair(mesh, &pair) ? edge_between(mesh, sketch, pair.from, pair.to) : NOWHERE;
  }
  for (size_t i = 0; i < mesh->nodes && !sketch->no_memory; i++) {
    struct star *star = &mesh->stars[i];
    star->node = (uint32_t)least_joined(mesh, sketch);
    sketch->gone[star->node] = true;
    add_arms(mesh, sketch, star);
    if (!sketch->no_memory) add_edges_between(mesh, sketch, star);
  }
}

static bool plan(struct network_mesh *mesh, size_t pairs) {
  struct sketch sketch = {.edge_at = calloc(mesh->nodes * mesh->nodes, sizeof *sketch.edge_at),
                          .gone = calloc(mesh->nodes, sizeof *sketch.gone)};
  sketch.no_memory = !sketch.edge_at || !sketch.gone;
  if (!sketch.no_memory) find_order(mesh, &sketch, pairs);
  free(sketch.edge_at);
  free(sketch.gone);
  if (sketch.no_memory) return false;
  mesh->edges = calloc(mesh->edge_count + 1, sizeof *mesh->edges);
  return mesh->edges != NULL;
}

struct network_mesh *network_mesh_new(size_t nodes, const struct network_pair *pairs, size_t count) {
  struct network_mesh *mesh = calloc(1, sizeof *mesh);
  if (!mesh) return NULL;
  mesh->nodes = nodes;
  mesh->stars = calloc(nodes + 1, sizeof *mesh->stars);
  mesh->ends = calloc(count + 1, sizeof *mesh->ends);
  mesh->edge_of_pair = calloc(count + 1, sizeof *mesh->edge_of_pair);
  mesh->leaks = calloc(nodes + 1, sizeof *mesh->leaks);
  mesh->pivots = calloc(nodes + 1, sizeof *mesh->pivots);
  if (mesh->stars && mesh->ends && mesh->edge_of_pair && mesh->leaks && mesh->pivots) {
    if (count > 0) memcpy(mesh->ends, pairs, count * sizeof *pairs);
    if (plan(mesh, count)) return mesh;
  }
  network_mesh_free(mesh);
  return NULL;
}

void network_mesh_free(struct network_mesh *mesh) {
  if (!mesh) return;
  free(mesh->edges);
  free(mesh->stars);
  free(mesh->arms);
  free(mesh->between);
  free(mesh->ends);
  free(mesh->edge_of_pair);
  free(mesh->leaks);
  free(mesh->pivots);
  free(mesh);
}

void network_mesh_clear(struct network_mesh *mesh) {
  memset(mesh->edges, 0, mesh->edge_count * sizeof *mesh->edges);
  memset(mesh->leaks, 0, mesh->nodes * sizeof *mesh->leaks);
}

static double *into(struct edge *edge, size_t node, size_t other) {
  return node < other ? &edge->into_low : &edge->into_high;
}

void network_mesh_join(struct network_mesh *mesh, size_t pair, double conductance) {
  if (mesh->edge_of_pair[pair] == NOWHERE) return;
  struct edge *edge = &mesh->edges[mesh->edge_of_pair[pair]];
  edge->into_low += conductance;
  edge->into_high += conductance;
}

void network_mesh_pour(struct network_mesh *mesh, size_t pair, double conductance) {
  if (mesh->edge_of_pair[pair] == NOWHERE) return;
  const struct network_pair *ends = &mesh->ends[pair];
  *into(&mesh->edges[mesh->edge_of_pair[pair]], ends->to, ends->from) += conductance;
}

void network_mesh_leave(struct network_mesh *mesh, size_t node, double conductance) {
  mesh->leaks[node] += conductance;
}

// What each neighbour's rise sent into the node is passed on in the shares in which the node passes on its own.
static void take_out(struct network_mesh *mesh, const struct star *star, double *inflows) {
  const struct arm *arms = mesh->arms + star->first_arm;
  const uint32_t *between = mesh->between + star->first_edge;
  double all = mesh->leaks[star->node];
  for (size_t i = 0; i < star->arms; i++) all += *into(&mesh->edges[arms[i].edge], arms[i].node, star->node);
  mesh->pivots[star->node] = all;
  if (!(all > 0)) return;
  for (size_t i = 0; i < star->arms; i++) {
    struct edge *to_i = &mesh->edges[arms[i].edge];
    const double share = *into(to_i, arms[i].node, star->node) / all, sent = *into(to_i, star->node, arms[i].node);
    inflows[arms[i].node] += share * inflows[star->node];
    mesh->leaks[arms[i].node] += sent * (mesh->leaks[star->node] / all);
    for (size_t j = i + 1; j < star->arms; j++) {
      const struct edge *to_j = &mesh->edges[arms[j].edge];
      struct edge *both = &mesh->edges[*between++];
      const double share_j = (arms[j].node < star->node ? to_j->into_low : to_j->into_high) / all;
      const double sent_j = star->node < arms[j].node ? to_j->into_low : to_j->into_high;
      *into(both, arms[i].node, arms[j].node) += share * sent_j;
      *into(both, arms[j].node, arms[i].node) += share_j * sent;
    }
  }
}

static double rise_of(const struct network_mesh *mesh, const struct star *star, double inflow, const double *rises) {
  const struct arm *arms = mesh->arms + star->first_arm;
  double sum = inflow;
  for (size_t i = 0; i < star->arms; i++) {
    sum += *into(&mesh->edges[arms[i].edge], star->node, arms[i].node) * rises[arms[i].node];
  }
  return mesh->pivots[star->node] > 0 ? sum / mesh->pivots[star->node] : 0;
}

void network_mesh_solve(struct network_mesh *mesh, const bool *known, double *inflows, double *rises) {
  for (size_t i = 0; i < mesh->nodes; i++) {
    if (!known[mesh->stars[i].node]) take_out(mesh, &mesh->stars[i], inflows);
  }
  for (size_t i = mesh->nodes; i-- > 0;) {
    const struct star *star = &mesh->stars[i];
    rises[star->node] = known[star->node] ? 0 : rise_of(mesh, star, inflows[star->node], rises);
  }
}
