// SPDX-License-Identifier: MIT
// What must hold for every network, tried on many made by chance: pipes, valves, filters, pumps with and without check
// valves, jets, outlets, lips, cascades of basins.
#include "near.h"
#include "network_rig.h"

enum { NETWORKS = 200 };

static const struct pump_point STRONG[] = {{0, 9}, {1e-3, 8}, {2e-3, 6}, {3e-3, 3}, {3.6e-3, 0}};
static const struct pump_point WEAK[] = {{0, 2.5}, {0.5e-3, 2.2}, {1.5e-3, 0.5}};

static size_t add_by_chance(struct rig *rig, unsigned long *seed, size_t from, size_t to) {
  const double bore = rig_even(seed, 0.02, 0.08), length = rig_even(seed, 0.2, 30);
  switch (rig_any(seed, 8)) {
    case 0: return rig_valve(rig, from, to, rig_even(seed, 0.1, 30), bore);
    case 1: return rig_power(rig, from, to, rig_even(seed, 1e3, 1e6), 1.852);
    case 2:
      return rig_link(rig, (struct network_link){.from = from,
                                                 .to = to,
                                                 .law = NETWORK_FILTER,
                                                 .filter = {.clean_k1 = rig_even(seed, 10, 500), .clean_k2 = 1e5}});
    case 3: return rig_pump(rig, from, to, STRONG, 5);
    case 4: return rig_pump(rig, from, to, WEAK, 3);
    default: return rig_pipe(rig, from, to, length, bore);
  }
}

static void add_ways_out(struct rig *rig, unsigned long *seed, size_t nodes) {
  for (size_t n = 1; n < nodes; n++) {
    const size_t to = rig_any(seed, 3) == 0 ? NETWORK_AWAY : rig_any(seed, n);
    const double at = rig_even(seed, -1, 4);
    switch (rig_any(seed, 7)) {
      case 0: rig_outlet(rig, n, at, rig_even(seed, 0.5, 8), 0.035); break;
      case 1: rig_lip(rig, n, to, at, rig_even(seed, 0.1, 1)); break;
      case 2:
        rig_link(rig, (struct network_link){
                          .from = n, .to = to, .law = NETWORK_NOZZLE, .at = at, .nozzle = {1e-4, 0.9, 3}});
        break;
      default: break;
    }
  }
}

// A tree from node 0, which is a level, and as many links again between any two.
static struct rig *rig_by_chance(unsigned long seed) {
  struct rig *rig = rig_new();
  const size_t nodes = 3 + rig_any(&seed, 25);
  rig_level(rig, rig_even(&seed, -1, 1));
  for (size_t n = 1; n < nodes; n++) {
    if (rig_any(&seed, 10) == 0) {
      rig_level(rig, rig_even(&seed, 0, 3));
    } else {
      rig_junction(rig, rig_even(&seed, -1, 3));
    }
    rig->nodes[n].inflow = rig_any(&seed, 5) == 0 ? rig_even(&seed, -2e-4, 2e-4) : 0;
    rig_pipe(rig, rig_any(&seed, n), n, rig_even(&seed, 0.5, 20), rig_even(&seed, 0.025, 0.06));
  }
  for (size_t i = 0; i < nodes; i++) {
    const size_t from = rig_any(&seed, nodes), to = rig_any(&seed, nodes);
    if (from == to) continue;
    const size_t link = add_by_chance(rig, &seed, from, to);
    rig->links[link].check = rig_any(&seed, 3) == 0;
  }
  add_ways_out(rig, &seed, nodes);
  return rig;
}

static double greatest_flow(const struct rig *rig, const struct network_answer *answer) {
  double greatest = 1e-6;
  for (size_t i = 0; i < rig->network.link_count; i++) greatest = fmax(greatest, fabs(answer->flows[i]));
  return greatest;
}

// Worked here from the flows, not asked of the solver.
static double worst_balance(const struct rig *rig, const struct network_answer *answer) {
  double balance[RIG_NODES] = {0}, worst = 0;
  for (size_t n = 0; n < rig->network.node_count; n++) balance[n] = rig->nodes[n].inflow;
  for (size_t i = 0; i < rig->network.link_count; i++) {
    balance[rig->links[i].from] -= answer->flows[i];
    if (rig->links[i].to != NETWORK_AWAY) balance[rig->links[i].to] += answer->flows[i];
  }
  for (size_t n = 0; n < rig->network.node_count; n++) {
    if (!rig->nodes[n].fixed) worst = fmax(worst, fabs(balance[n]));
  }
  return worst;
}

static void every_node_is_in_balance(void **state) {
  (void)state;
  int most = 0;
  for (unsigned long seed = 1; seed <= NETWORKS; seed++) {
    struct rig *rig = rig_by_chance(seed * 7919);
    const struct network_answer *answer = rig_solve(rig, false);
    if (!answer->converged) print_error("network %lu: status %d after %d steps\n", seed, (int)answer->status, answer->steps);
    assert_int_equal(answer->converged, true);
    assert_near(worst_balance(rig, answer) / greatest_flow(rig, answer), 0, 1e-9);
    if (answer->steps > most) most = answer->steps;
    if (getenv("SHOW")) print_error("%lu: %d\n", seed, answer->steps);
    rig_free(rig);
  }
  if (getenv("SHOW")) print_error("most %d\n", most);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_node_is_in_balance),
  };
  return cmocka_run_group_tests_name("physics/network_random", tests, NULL, NULL);
}
