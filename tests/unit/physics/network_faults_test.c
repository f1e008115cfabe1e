// SPDX-License-Identifier: MIT
// What-ifs, valves for targets, and the level of the basin that is drawn from.
#include "near.h"
#include "network_rig.h"

static const struct pump_point STRONG[] = {{0, 9}, {1e-3, 8}, {2e-3, 6}, {3e-3, 3}, {3.6e-3, 0}};

static const double AREA = 3.14159265358979323846 / 4 * 0.04 * 0.04;  // of a 40 mm bore

// Two pumps on one header, a line that ends in the air.
struct pair {
  struct rig *rig;
  size_t header, pumps[2], line;
};

static struct pair pair_new(bool checks) {
  struct pair pair = {.rig = rig_new()};
  const size_t pond = rig_level(pair.rig, 0);
  pair.header = rig_junction(pair.rig, -0.3);
  for (size_t i = 0; i < 2; i++) {
    pair.pumps[i] = rig_pump(pair.rig, pond, pair.header, STRONG, 5);
    pair.rig->links[pair.pumps[i]].check = checks;
  }
  pair.line = rig_outlet(pair.rig, pair.header, 2, 10, 0.05);
  return pair;
}

static void a_pump_out_leaves_the_other_less_without_check_valves(void **state) {
  (void)state;
  double left[2];
  for (int checks = 0; checks < 2; checks++) {
    struct pair pair = pair_new(checks);
    const double both = rig_solve(pair.rig, false)->flows[pair.line];
    const struct network_answer *answer = network_pump_out(pair.rig->solver, pair.pumps[0]);
    assert_int_equal(answer->converged, true);
    left[checks] = answer->flows[pair.line];
    assert_less(left[checks], both);
    assert_less(checks ? -1e-15 : -1, answer->flows[pair.pumps[0]]);
    if (!checks) assert_less(answer->flows[pair.pumps[0]], -1e-4);
    assert_int_equal(pair.rig->links[pair.pumps[0]].pump.idle, false);
    assert_equal(rig_solve(pair.rig, true)->flows[pair.line] > left[checks], 1);
    rig_free(pair.rig);
  }
  assert_less(left[0], left[1]);
}

static void a_what_if_leaves_the_base_alone(void **state) {
  (void)state;
  struct pair pair = pair_new(true);
  const struct network_answer *base = rig_solve(pair.rig, false);
  const double before = base->flows[pair.line];
  network_parted(pair.rig->solver, pair.header, 0.05);
  network_pump_out(pair.rig->solver, pair.pumps[1]);
  assert_equal(base->flows[pair.line], before);
  assert_near(rig_solve(pair.rig, true)->flows[pair.line], before, 1e-15);
  rig_free(pair.rig);
}

// v^2/2g stands at the open end and no more: the header is at its own height and that.
static void a_parted_line_runs_out_at_the_break(void **state) {
  (void)state;
  struct pair pair = pair_new(true);
  rig_solve(pair.rig, false);
  const struct network_answer *answer = network_parted(pair.rig->solver, pair.header, 0.04);
  const double out = answer->flows[pair.pumps[0]] + answer->flows[pair.pumps[1]] - answer->flows[pair.line];
  assert_near(answer->heads[pair.header], -0.3 + out * out / (AREA * AREA) / (2 * 9.80665), 1e-9);
  assert_int_equal(network_parted(pair.rig->solver, 99, 0.04)->status, NETWORK_BAD_NODE);
  assert_int_equal(network_parted(pair.rig->solver, pair.header, -1)->status, NETWORK_BAD_LINK);
  rig_free(pair.rig);
}

static void the_system_asks_lift_and_loss(void **state) {
  (void)state;
  struct pair pair = pair_new(true);
  pair.rig->links[pair.pumps[1]].shut = true;
  rig_solve(pair.rig, false);
  const double flows[] = {0, 0.5e-3, 1e-3, 2e-3, 4e-3};
  double heads[5];
  assert_int_equal(network_system_curve(pair.rig->solver, pair.pumps[0], flows, heads, 5), true);
  for (size_t i = 0; i < 5; i++) {
    const double loss = pipe_head_loss(&pair.rig->links[pair.line].pipe.pipe, flows[i], pair.rig->network.viscosity);
    assert_near(heads[i], 2 + loss, 1e-9);
  }
  rig_free(pair.rig);
}

static void the_system_curve_passes_through_the_answer(void **state) {
  (void)state;
  struct pair pair = pair_new(true);
  const double flow = rig_solve(pair.rig, false)->flows[pair.pumps[0]];
  double head;
  assert_int_equal(network_system_curve(pair.rig->solver, pair.pumps[0], &flow, &head, 1), true);
  assert_near(head, pump_head(&pair.rig->links[pair.pumps[0]].pump.curve, flow), 1e-5);
  assert_int_equal(network_system_curve(pair.rig->solver, pair.line, &flow, &head, 1), false);
  assert_no_number(head);
  rig_free(pair.rig);
}

static void water_without_a_way_through_asks_no_head(void **state) {
  (void)state;
  struct pair pair = pair_new(true);
  pair.rig->links[pair.line].shut = pair.rig->links[pair.pumps[1]].shut = true;
  rig_solve(pair.rig, false);
  const double flow = 1e-3;
  double head;
  assert_int_equal(network_system_curve(pair.rig->solver, pair.pumps[0], &flow, &head, 1), false);
  assert_no_number(head);
  rig_free(pair.rig);
}

// By hand: 5 m through a valve alone, 3 L/s in 40 mm: k = 2 g 5 / (q / A)^2.
static void a_valve_for_a_target_by_hand(void **state) {
  (void)state;
  struct rig *rig = rig_new();
  const size_t high = rig_level(rig, 5), valve = rig_valve(rig, high, NETWORK_AWAY, 0.1, 0.04);
  rig->links[valve].falls = true;
  rig_solve(rig, false);
  struct network_target target = {.link = valve, .flow = 3e-3, .k_open = 0.1};
  assert_int_equal(network_balance(rig->solver, &target, 1)->converged, true);
  assert_near(target.k, 2 * 9.80665 * 5 * (AREA / 3e-3) * (AREA / 3e-3), 1e-9);
  assert_near(target.head, 5, 1e-12);
  assert_int_equal(target.cannot_get, false);
  rig_free(rig);
}

// Three lines, each with its own valve.
struct fan {
  struct rig *rig;
  size_t valves[3];
  struct network_target targets[3];
};

static struct fan fan_new(const double flows[3]) {
  struct fan fan = {.rig = rig_new()};
  const size_t pond = rig_level(fan.rig, 0), header = rig_junction(fan.rig, 0);
  rig_pump(fan.rig, pond, header, STRONG, 5);
  for (size_t i = 0; i < 3; i++) {
    const size_t branch = rig_junction(fan.rig, 0);
    fan.valves[i] = rig_valve(fan.rig, header, branch, 0.2, 0.035);
    rig_outlet(fan.rig, branch, 1 + (double)i, 6, 0.035);
    fan.targets[i] = (struct network_target){.link = fan.valves[i], .flow = flows[i], .k_open = 0.2};
  }
  rig_solve(fan.rig, false);
  return fan;
}

static void valves_found_give_all_targets_at_once(void **state) {
  (void)state;
  const double flows[] = {0.4e-3, 0.7e-3, 0.9e-3};
  struct fan fan = fan_new(flows);
  assert_int_equal(network_balance(fan.rig->solver, fan.targets, 3)->status, NETWORK_SOLVED);
  for (size_t i = 0; i < 3; i++) {
    assert_int_equal(fan.targets[i].cannot_get, false);
    fan.rig->links[fan.valves[i]].valve.k = fan.targets[i].k;
  }
  const struct network_answer *answer = rig_solve(fan.rig, false);
  for (size_t i = 0; i < 3; i++) assert_near(answer->flows[fan.valves[i]], flows[i], 1e-9);
  rig_free(fan.rig);
}

static void an_outlet_that_cannot_get_its_target_is_named(void **state) {
  (void)state;
  const double flows[] = {0.4e-3, 0.7e-3, 2.2e-3};  // 3.3 L/s: the pump gives under 2 m there, the third asks over 3
  struct fan fan = fan_new(flows);
  network_balance(fan.rig->solver, fan.targets, 3);
  assert_int_equal(fan.targets[2].cannot_get, true);
  assert_less(fan.targets[2].head, 0);
  const double too_much[] = {1e-3, 2e-3, 3e-3};  // more than the pump has at all
  for (size_t i = 0; i < 3; i++) fan.targets[i].flow = too_much[i];
  network_balance(fan.rig->solver, fan.targets, 3);
  for (size_t i = 0; i < 3; i++) assert_int_equal(fan.targets[i].cannot_get, true);
  fan.targets[1].link = 0;
  assert_int_equal(network_balance(fan.rig->solver, fan.targets, 3)->status, NETWORK_BAD_LINK);
  rig_free(fan.rig);
}

struct tub {
  double area, bottom;
};

static double tub_volume(double level, void *with) {
  const struct tub *tub = with;
  return level > tub->bottom ? tub->area * (level - tub->bottom) : 0;
}

static double in_the_channel(const struct network_answer *running, void *with) {
  return running->flows[*(const size_t *)with] * 20;  // m3/s x 20 s under way
}

// A pond, a bowl that spills back into it, and what becomes of the pond's level.
static void settle_pond(double pond_area, bool channel, double *sunk, double *held, enum network_status *status) {
  struct rig *rig = rig_new();
  const size_t pond = rig_level(rig, -0.1), bowl = rig_junction(rig, 0.5);
  const size_t pump = rig_pump(rig, pond, bowl, STRONG, 5);
  size_t lip = rig_lip(rig, bowl, pond, 0.5, 0.3);
  rig_solve(rig, false);
  struct tub tubs[] = {{pond_area, -0.4}, {1, 0.2}};
  const struct network_storage storages[] = {{pond, -0.1, tub_volume, &tubs[0]}, {bowl, 0.5, tub_volume, &tubs[1]}};
  const struct network_water water = {
      .storages = storages, .count = 2, .in_flight = channel ? in_the_channel : NULL, .with = &lip};
  const struct network_answer *answer = network_settle(rig->solver, &water);
  *status = answer->status;
  *sunk = pond_area * (-0.1 - rig->nodes[pond].head);
  *held = (answer->heads[bowl] - 0.5) + (channel ? 20 * answer->flows[pump] : 0);
  rig_free(rig);
}

static void the_pond_sinks_by_what_is_under_way(void **state) {
  (void)state;
  for (int channel = 0; channel < 2; channel++) {
    double sunk, held;
    enum network_status status;
    settle_pond(6, channel, &sunk, &held, &status);
    assert_int_equal(status, NETWORK_SOLVED);
    assert_less(0.01, held);
    assert_near(sunk, held, 1e-7);
  }
}

static void a_pond_too_small_is_said_to_be(void **state) {
  (void)state;
  double sunk, held;
  enum network_status status;
  settle_pond(0.02, true, &sunk, &held, &status);
  assert_int_equal(status, NETWORK_NOT_ENOUGH);
  assert_equal(sunk, 0);  // its level is left as it was
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_pump_out_leaves_the_other_less_without_check_valves),
      cmocka_unit_test(a_what_if_leaves_the_base_alone),
      cmocka_unit_test(a_parted_line_runs_out_at_the_break),
      cmocka_unit_test(the_system_asks_lift_and_loss),
      cmocka_unit_test(the_system_curve_passes_through_the_answer),
      cmocka_unit_test(water_without_a_way_through_asks_no_head),
      cmocka_unit_test(a_valve_for_a_target_by_hand),
      cmocka_unit_test(valves_found_give_all_targets_at_once),
      cmocka_unit_test(an_outlet_that_cannot_get_its_target_is_named),
      cmocka_unit_test(the_pond_sinks_by_what_is_under_way),
      cmocka_unit_test(a_pond_too_small_is_said_to_be),
  };
  return cmocka_run_group_tests_name("physics/network_faults", tests, NULL, NULL);
}
