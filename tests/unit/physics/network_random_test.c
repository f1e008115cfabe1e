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
    case 0:
      return rig_valve(rig, from, to, rig_even(seed, 0.1, 30), bore);
    case 1:
      return rig_power(rig, from, to, rig_even(seed, 1e3, 1e6), 1.852);
    case 2:
      return rig_link(rig, (struct network_link){.from = from,
                                                 .to = to,
                                                 .law = NETWORK_FILTER,
                                                 .filter = {.clean_k1 = rig_even(seed, 10, 500), .clean_k2 = 1e5}});
    case 3:
      return rig_pump(rig, from, to, STRONG, 5);
    case 4:
      return rig_pump(rig, from, to, WEAK, 3);
    default:
      return rig_pipe(rig, from, to, length, bore);
  }
}

static void add_ways_out(struct rig *rig, unsigned long *seed, size_t nodes) {
  for (size_t n = 1; n < nodes; n++) {
    const size_t to = rig_any(seed, 3) == 0 ? NETWORK_AWAY : rig_any(seed, n);
    const double at = rig_even(seed, -1, 4);
    switch (rig_any(seed, 7)) {
      case 0:
        rig_outlet(rig, n, at, rig_even(seed, 0.5, 8), 0.035);
        break;
      case 1:
        rig_lip(rig, n, to, at, rig_even(seed, 0.1, 1));
        break;
      case 2:
        rig_link(rig,
                 (struct network_link){.from = n, .to = to, .law = NETWORK_NOZZLE, .at = at, .nozzle = {1e-4, 0.9, 3}});
        break;
      default:
        break;
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

// Never so small that rounding would be measured by rounding.
static double greatest_flow(const struct rig *rig, const struct network_answer *answer) {
  double greatest = 1e-6;
  for (size_t i = 0; i < rig->network.link_count; i++) greatest = fmax(greatest, fabs(answer->flows[i]));
  return greatest;
}

static double greatest_head(const struct rig *rig, const struct network_answer *answer) {
  double greatest = 1;
  for (size_t n = 0; n < rig->network.node_count; n++) greatest = fmax(greatest, fabs(answer->heads[n]));
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

static double bore_loss(double k, double bore, double flow) {
  const double velocity = flow / (3.14159265358979323846 / 4 * bore * bore);
  return k * velocity * fabs(velocity) / (2 * 9.80665);
}

// The laws once more, as a handbook has them.
static double loss_of(const struct network_link *link, double flow, double viscosity) {
  const double jet = flow / (link->nozzle.area * link->nozzle.coefficient * link->nozzle.count);
  switch (link->law) {
    case NETWORK_PIPE:
      return pipe_head_loss(&link->pipe.pipe, flow, viscosity);
    case NETWORK_VALVE:
      return bore_loss(link->valve.k, link->valve.bore, flow);
    case NETWORK_POWER:
      return link->power.r * flow * pow(fabs(flow), 0.852);
    case NETWORK_FILTER:
      return link->filter.clean_k1 * flow + link->filter.clean_k2 * flow * fabs(flow);
    case NETWORK_PUMP:
      return (flow < 0 ? bore_loss(link->pump.k, link->pump.bore, flow) : 0) - pump_head(&link->pump.curve, flow);
    case NETWORK_NOZZLE:
      return jet * jet / (2 * 9.80665);
    default:
      return weir_head(&link->lip.weir, fmax(0, flow)).likely;
  }
}

static bool falls(const struct network_link *link) {
  return link->falls || link->law == NETWORK_NOZZLE || link->law == NETWORK_LIP;
}

static void check_head(const struct rig *rig, const struct network_answer *answer, size_t i) {
  const struct network_link *link = &rig->links[i];
  const double after = falls(link) ? link->at : answer->heads[link->to];
  const double misfit = answer->heads[link->from] - after - loss_of(link, answer->flows[i], rig->network.viscosity);
  const double rounding = 1e-7 * greatest_head(rig, answer);
  const bool blocked = (link->check || falls(link)) && !(answer->flows[i] > 0);
  if (answer->states[i] == NETWORK_BEYOND_END) {
    assert_near(answer->flows[i], pump_greatest_flow(&link->pump.curve), 1e-9 * greatest_head(rig, answer));
  } else if (blocked) {
    assert_equal(answer->flows[i], 0);
    assert_less(misfit, rounding);
  } else {
    assert_near(misfit, 0, rounding);
  }
}

static void every_network_is_solved(void **state) {
  (void)state;
  for (unsigned long seed = 1; seed <= NETWORKS; seed++) {
    struct rig *rig = rig_by_chance(seed * 7919);
    const struct network_answer *answer = rig_solve(rig, false);
    if (!answer->converged) print_error("network %lu\n", seed);
    assert_int_equal(answer->converged, true);
    assert_less(answer->steps, 60);
    rig_free(rig);
  }
}

static void every_node_is_in_balance(void **state) {
  (void)state;
  for (unsigned long seed = 1; seed <= NETWORKS; seed++) {
    struct rig *rig = rig_by_chance(seed * 7919);
    const struct network_answer *answer = rig_solve(rig, false);
    assert_near(worst_balance(rig, answer) / greatest_flow(rig, answer), 0, 1e-9);
    rig_free(rig);
  }
}

static void every_link_loses_the_head_there_is(void **state) {
  (void)state;
  for (unsigned long seed = 1; seed <= NETWORKS; seed++) {
    struct rig *rig = rig_by_chance(seed * 7919);
    const struct network_answer *answer = rig_solve(rig, false);
    for (size_t i = 0; i < rig->network.link_count; i++) check_head(rig, answer, i);
    rig_free(rig);
  }
}

static void a_warm_start_changes_nothing(void **state) {
  (void)state;
  for (unsigned long seed = 1; seed <= NETWORKS; seed++) {
    struct rig *rig = rig_by_chance(seed * 7919), *other = rig_by_chance(seed * 7919);
    const size_t changed = seed % rig->network.node_count % (rig->network.node_count - 1);  // one of the tree's pipes
    rig_solve(rig, false);
    rig->links[changed].pipe.pipe.minor = other->links[changed].pipe.pipe.minor = 9;
    const struct network_answer *warm = rig_solve(rig, true), *cold = rig_solve(other, false);
    for (size_t i = 0; i < rig->network.link_count; i++) {
      assert_near(warm->flows[i], cold->flows[i], 1e-8 * greatest_flow(rig, cold));
    }
    rig_free(rig);
    rig_free(other);
  }
}

static void check_like(const struct rig *base, struct rig *other) {
  struct network_solver *like = network_solver_like(base->solver, &other->network);
  assert_non_null(like);
  const struct network_answer *cold = rig_solve(other, false), *warm = network_solve(like, true);
  assert_int_equal(warm->status, cold->status);
  for (size_t i = 0; i < other->network.link_count; i++) {
    assert_near(warm->flows[i], cold->flows[i], 1e-9 * greatest_flow(other, cold));
  }
  network_solver_free(like);
}

// It borrows the order of elimination and leaves the other's answer alone.
static void one_solver_starts_from_the_answer_of_another(void **state) {
  (void)state;
  for (unsigned long seed = 1; seed <= NETWORKS; seed++) {
    struct rig *base = rig_by_chance(seed * 7919), *other = rig_by_chance(seed * 7919);
    const size_t changed = seed % base->network.node_count % (base->network.node_count - 1);
    const double before = rig_solve(base, false)->flows[changed];
    other->links[changed].pipe.pipe.minor = 9;
    check_like(base, other);
    assert_equal(rig_solve(base, false)->flows[changed], before);
    other->network.link_count--;
    assert_null(network_solver_like(base->solver, &other->network));
    rig_free(base);
    rig_free(other);
  }
}

static void the_order_of_links_does_not_matter(void **state) {
  (void)state;
  for (unsigned long seed = 1; seed <= NETWORKS; seed++) {
    struct rig *rig = rig_by_chance(seed * 7919), *turned = rig_by_chance(seed * 7919);
    const size_t count = rig->network.link_count;
    for (size_t i = 0; i < count; i++) turned->links[i] = rig->links[count - 1 - i];
    const struct network_answer *one = rig_solve(rig, false), *other = rig_solve(turned, false);
    for (size_t i = 0; i < count; i++) {
      assert_near(one->flows[i], other->flows[count - 1 - i], 1e-8 * greatest_flow(rig, one));
    }
    rig_free(rig);
    rig_free(turned);
  }
}

static void a_shift_of_the_datum_does_not_matter(void **state) {
  (void)state;
  const double shift = 37.5;
  for (unsigned long seed = 1; seed <= NETWORKS; seed++) {
    struct rig *rig = rig_by_chance(seed * 7919), *raised = rig_by_chance(seed * 7919);
    for (size_t n = 0; n < rig->network.node_count; n++) raised->nodes[n].head += shift;
    for (size_t i = 0; i < rig->network.link_count; i++) raised->links[i].at += shift;
    const struct network_answer *one = rig_solve(rig, false), *other = rig_solve(raised, false);
    for (size_t i = 0; i < rig->network.link_count; i++) {
      assert_near(one->flows[i], other->flows[i], 1e-8 * greatest_flow(rig, one));
    }
    for (size_t n = 0; n < rig->network.node_count; n++) {
      assert_near(one->heads[n] + shift, other->heads[n], 1e-8 * greatest_head(rig, one));
    }
    rig_free(rig);
    rig_free(raised);
  }
}

// A tree of pipes behind one pump, with ends in the air and jets.
static void no_outlet_sees_more_head_than_its_pump(void **state) {
  (void)state;
  for (unsigned long seed = 1; seed <= NETWORKS; seed++) {
    unsigned long even = seed * 104729;
    struct rig *rig = rig_new();
    const size_t pond = rig_level(rig, 0), header = rig_junction(rig, 0), nodes = 3 + rig_any(&even, 12);
    rig->links[rig_pump(rig, pond, header, STRONG, 5)].check = true;
    for (size_t n = 2; n < nodes; n++) {
      rig_pipe(rig, 1 + rig_any(&even, n - 1), rig_junction(rig, 0), rig_even(&even, 1, 20), 0.04);
      rig_outlet(rig, n, rig_even(&even, 0, 12), 2, 0.03);
    }
    const struct network_answer *answer = rig_solve(rig, false);
    assert_int_equal(answer->converged, true);
    for (size_t n = 2; n < nodes; n++) assert_less(answer->heads[n], answer->heads[header] + 1e-9);
    assert_less(answer->heads[header], 9.02);
    rig_free(rig);
  }
}

// 16 x 16 nodes, 480 pipes and 20 ends in the air at all heights.
static void a_grid_of_500_takes_few_steps(void **state) {
  (void)state;
  unsigned long seed = 5;
  struct rig *rig = rig_new();
  rig_level(rig, 30);
  for (size_t n = 1; n < 256; n++) rig->nodes[rig_junction(rig, 0)].inflow = -2e-4;
  for (size_t n = 1; n < 256; n++) {
    if (n >= 16) rig_pipe(rig, n - 16, n, rig_even(&seed, 5, 50), rig_even(&seed, 0.02, 0.2));
    if (n % 16) rig_pipe(rig, n - 1, n, rig_even(&seed, 5, 50), rig_even(&seed, 0.02, 0.2));
  }
  for (size_t i = 0; i < 20; i++) rig_outlet(rig, 1 + rig_any(&seed, 255), rig_even(&seed, 0, 29), 3, 0.03);
  assert_int_equal(rig->network.link_count, 500);
  const struct network_answer *answer = rig_solve(rig, false);
  assert_int_equal(answer->status, NETWORK_SOLVED);
  assert_less(answer->steps, 30);
  assert_near(worst_balance(rig, answer) / greatest_flow(rig, answer), 0, 1e-10);
  for (size_t i = 0; i < 500; i++) check_head(rig, answer, i);
  rig_free(rig);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_network_is_solved),
      cmocka_unit_test(every_node_is_in_balance),
      cmocka_unit_test(every_link_loses_the_head_there_is),
      cmocka_unit_test(a_warm_start_changes_nothing),
      cmocka_unit_test(one_solver_starts_from_the_answer_of_another),
      cmocka_unit_test(the_order_of_links_does_not_matter),
      cmocka_unit_test(a_shift_of_the_datum_does_not_matter),
      cmocka_unit_test(no_outlet_sees_more_head_than_its_pump),
      cmocka_unit_test(a_grid_of_500_takes_few_steps),
  };
  return cmocka_run_group_tests_name("physics/network_random", tests, NULL, NULL);
}
