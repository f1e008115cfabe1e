// SPDX-License-Identifier: MIT
// Networks put together a line at a time, for tests. Room for 700 nodes and 1,400 links.
#ifndef FOREBAY_TEST_PHYSICS_NETWORK_RIG_H
#define FOREBAY_TEST_PHYSICS_NETWORK_RIG_H

#include <stdlib.h>
#include <string.h>

#include "physics/network.h"

enum { RIG_NODES = 700, RIG_LINKS = 1400 };

struct rig {
  struct network network;
  struct network_node nodes[RIG_NODES];
  struct network_link links[RIG_LINKS];
  struct network_solver *solver;
};

static inline struct rig *rig_new(void) {
  struct rig *rig = calloc(1, sizeof *rig);
  if (!rig) abort();
  rig->network =
      (struct network){.nodes = rig->nodes, .links = rig->links, .viscosity = 1.1385e-6};  // about that of 15 C
  return rig;
}

static inline void rig_free(struct rig *rig) {
  network_solver_free(rig->solver);
  free(rig);
}

static inline size_t rig_node(struct rig *rig, struct network_node node) {
  if (rig->network.node_count == RIG_NODES) abort();
  rig->nodes[rig->network.node_count] = node;
  return rig->network.node_count++;
}

static inline size_t rig_level(struct rig *rig, double head) {
  return rig_node(rig, (struct network_node){.fixed = true, .head = head, .elevation = head});
}

static inline size_t rig_junction(struct rig *rig, double elevation) {
  return rig_node(rig, (struct network_node){.elevation = elevation});
}

static inline size_t rig_link(struct rig *rig, struct network_link link) {
  if (rig->network.link_count == RIG_LINKS) abort();
  rig->links[rig->network.link_count] = link;
  return rig->network.link_count++;
}

static inline size_t rig_pipe(struct rig *rig, size_t from, size_t to, double length, double bore) {
  return rig_link(rig, (struct network_link){
                           .from = from, .to = to, .law = NETWORK_PIPE, .pipe = {{length, bore, 1.5e-6, 1.5}, 1}});
}

static inline size_t rig_outlet(struct rig *rig, size_t from, double at, double length, double bore) {
  const size_t link = rig_pipe(rig, from, NETWORK_AWAY, length, bore);
  rig->links[link].falls = true;
  rig->links[link].at = at;
  return link;
}

static inline size_t rig_valve(struct rig *rig, size_t from, size_t to, double k, double bore) {
  return rig_link(rig, (struct network_link){.from = from, .to = to, .law = NETWORK_VALVE, .valve = {k, bore}});
}

static inline size_t rig_power(struct rig *rig, size_t from, size_t to, double r, double n) {
  return rig_link(rig, (struct network_link){.from = from, .to = to, .law = NETWORK_POWER, .power = {r, n}});
}

static inline size_t rig_pump(struct rig *rig, size_t from, size_t to, const struct pump_point *points, size_t count) {
  return rig_link(
      rig,
      (struct network_link){
          .from = from, .to = to, .law = NETWORK_PUMP, .pump = {.curve = {points, count, 1}, .k = 5, .bore = 0.04}});
}

static inline size_t rig_lip(struct rig *rig, size_t from, size_t to, double crest, double width) {
  return rig_link(rig, (struct network_link){.from = from,
                                             .to = to,
                                             .law = NETWORK_LIP,
                                             .at = crest,
                                             .lip = {.weir = {.lip = WEIR_THIN_EDGE, .width = width}}});
}

static inline const struct network_answer *rig_solve(struct rig *rig, bool warm) {
  if (!rig->solver) rig->solver = network_solver_new(&rig->network);
  if (!rig->solver) abort();
  return network_solve(rig->solver, warm);
}

// Even numbers that are the same everywhere: a multiplicative generator modulo 2^31 - 1 (Park & Miller).
static inline double rig_even(unsigned long *seed, double low, double high) {
  *seed = *seed * 48271UL % 2147483647UL;
  return low + (high - low) * (double)*seed / 2147483647.0;
}

static inline size_t rig_any(unsigned long *seed, size_t count) {
  return (size_t)rig_even(seed, 0, (double)count - 1e-6);
}

#endif
