// SPDX-License-Identifier: MIT
#include "physics/network.h"

#include "near.h"
#include "network_rig.h"

static const struct pump_point STRONG[] = {{0, 9}, {1e-3, 8}, {2e-3, 6}, {3e-3, 3}, {3.6e-3, 0}};
static const struct pump_point WEAK[] = {{0, 7}, {0.8e-3, 6.4}, {1.6e-3, 4.5}, {2.4e-3, 1}};
static const struct pump_point DROOPING[] = {{0, 5}, {1e-3, 6.5}, {2e-3, 6}, {3e-3, 3}, {3.6e-3, 0}};

// A pump at a pond, a header, three lines that end in the air.
struct garden {
  struct rig *rig;
  size_t pond, header, pump, lines[3];
};

static struct garden garden_new(void) {
  struct garden garden = {.rig = rig_new()};
  garden.pond = rig_level(garden.rig, 0);
  garden.header = rig_junction(garden.rig, -0.5);
  garden.pump = rig_pump(garden.rig, garden.pond, garden.header, STRONG, 5);
  for (size_t i = 0; i < 3; i++) {
    garden.lines[i] = rig_outlet(garden.rig, garden.header, 1 + 0.5 * (double)i, 8, 0.0351);
  }
  return garden;
}

// A pond, two pumps, a filter, a header that feeds a high bowl through the air, a low bowl under water and three jets;
// the high bowl spills into the low one, that one into the pond.
static struct rig *mixed_new(void) {
  struct rig *rig = rig_new();
  const size_t pond = rig_level(rig, -0.10), header = rig_junction(rig, 0), tee = rig_junction(rig, 0),
               jets = rig_junction(rig, 0), high = rig_junction(rig, 1), low = rig_junction(rig, 0.5);
  rig_pump(rig, pond, header, STRONG, 5);
  rig->links[rig_pump(rig, pond, header, WEAK, 4)].check = true;
  rig_link(rig, (struct network_link){.from = header,
                                      .to = tee,
                                      .law = NETWORK_FILTER,
                                      .filter = {.dirty_k1 = 900, .dirty_k2 = 2e5, .dirty = true}});
  rig->links[2].to = rig_junction(rig, 0);  // filter, then pipe
  rig->links[rig_pipe(rig, rig->links[2].to, tee, 7, 0.0525)].pipe.pipe.minor = 2.4;
  rig->links[rig_outlet(rig, tee, 1.15, 9, 0.0409)].pipe.pipe.minor = 3.5;
  rig->links[4].to = high;
  rig->links[rig_pipe(rig, tee, low, 4, 0.0351)].pipe.pipe.minor = 12;
  rig->links[rig_pipe(rig, tee, jets, 5, 0.0409)].pipe.pipe.minor = 2;
  rig_link(rig, (struct network_link){.from = jets,
                                      .to = pond,
                                      .law = NETWORK_NOZZLE,
                                      .at = 0.05,
                                      .nozzle = {3.14159265358979323846 / 4 * 0.012 * 0.012, 0.92, 3}});
  rig_lip(rig, high, low, 1.02, 0.40);
  rig->links[rig_lip(rig, low, pond, 0.55, 0.55)].lip.weir.lip = WEIR_BROAD_STONE;
  return rig;
}

// Expected: scipy 1.10.1 (optimize.root, hybr, xtol 1e-14, greatest misfit 1e-16), all ten equations written out on
// their own in Python: PchipInterpolator for the pumps, Colebrook by brentq (64/Re under 2000), K v|v|/2g, k1 q + k2
// q^2, Q = 3.33 or 2.6 ft^0.5/s L h^1.5 over the lips, v^2/2g with 0.92 for the nozzles; g 9.80665,
// viscosity 1.1385e-6.
static void a_mixed_garden_agrees_with_scipy(void **state) {
  (void)state;
  struct rig *rig = mixed_new();
  const struct network_answer *answer = rig_solve(rig, false);
  assert_int_equal(answer->status, NETWORK_SOLVED);
  assert_near(answer->flows[0], 0.0019399164230275482, 1e-12);
  assert_near(answer->flows[1], 0.0009715425435948215, 1e-12);
  assert_near(answer->flows[4], 0.0006293222227791274, 1e-12);
  assert_near(answer->flows[5], 0.0009315943486261176, 1e-12);
  assert_near(answer->flows[6], 0.0013505423952171248, 1e-12);
  assert_near(answer->heads[1], 6.043661405533856, 1e-8);
  assert_near(answer->heads[2], 1.2602870870789191, 1e-8);
  assert_near(answer->heads[3], 1.0044273177480851, 1e-8);
  assert_near(answer->heads[4], 1.0290137928785197, 1e-8);
  assert_near(answer->heads[5], 0.5657527887254882, 1e-8);
  rig_free(rig);
}

static double over_the_crest(double level, void *with) {
  const double head = level - *(double *)with;
  return head > 0 ? 3.33 * sqrt(0.3048) * 0.4 * head * sqrt(head) : 0;  // 3.33 ft^0.5/s, 0.4 m wide
}

static void a_lip_may_be_a_function_of_level(void **state) {
  (void)state;
  double crest = 1.02;
  struct rig *rig = mixed_new();
  rig->links[8].lip.flow = over_the_crest;
  rig->links[8].lip.with = &crest;
  assert_near(rig_solve(rig, false)->heads[4], 1.0290137928785197, 1e-9);
  rig_free(rig);
}

static void closing_one_valve_raises_all_others(void **state) {
  (void)state;
  for (size_t closed = 0; closed < 3; closed++) {
    struct garden garden = garden_new();
    double before[3];
    const struct network_answer *answer = rig_solve(garden.rig, false);
    for (size_t i = 0; i < 3; i++) before[i] = answer->flows[garden.lines[i]];
    garden.rig->links[garden.lines[closed]].shut = true;
    answer = rig_solve(garden.rig, true);
    for (size_t i = 0; i < 3; i++) {
      if (i != closed) assert_less(before[i], answer->flows[garden.lines[i]]);
    }
    assert_equal(answer->flows[garden.lines[closed]], 0);
    assert_int_equal(answer->states[garden.lines[closed]], NETWORK_SHUT);
    rig_free(garden.rig);
  }
}

static void a_check_valve_blocks(void **state) {
  (void)state;
  struct rig *rig = rig_new();
  const size_t low = rig_level(rig, 0), middle = rig_junction(rig, 0), high = rig_level(rig, 3);
  const size_t checked = rig_pipe(rig, low, middle, 5, 0.04);
  rig_pipe(rig, middle, high, 5, 0.04);
  assert_less(rig_solve(rig, false)->flows[checked], -1e-3);
  rig->links[checked].check = true;
  const struct network_answer *answer = rig_solve(rig, false);
  assert_equal(answer->flows[checked], 0);
  assert_int_equal(answer->states[checked], NETWORK_BLOCKED);
  assert_near(answer->heads[middle], 3, 1e-9);
  rig_free(rig);
}

static void a_pump_that_cannot_lift_is_named(void **state) {
  (void)state;
  for (int check = 0; check < 2; check++) {
    struct rig *rig = rig_new();
    const size_t pond = rig_level(rig, 0), top = rig_junction(rig, 0);
    const size_t pump = rig_pump(rig, pond, top, STRONG, 5);
    rig->links[pump].check = check;
    rig_outlet(rig, top, 9.5, 10, 0.04);
    const struct network_answer *answer = rig_solve(rig, false);
    assert_int_equal(answer->status, NETWORK_DEAD_HEADED);
    assert_int_equal(answer->where, pump);
    assert_int_equal(answer->converged, true);
    assert_near(answer->flows[pump], 0, 1e-15);
    assert_near(answer->heads[top], 9, 0.01);
    rig_free(rig);
  }
}

static void an_outlet_in_air_never_sucks(void **state) {
  (void)state;
  struct rig *rig = rig_new();
  const size_t high = rig_level(rig, 2), top = rig_junction(rig, 4), low = rig_level(rig, 0);
  rig_pipe(rig, high, top, 5, 0.04);
  rig_pipe(rig, top, low, 5, 0.04);  // a siphon over the top, where the line stands open
  const size_t open = rig_outlet(rig, top, 4, 0.1, 0.04);
  const struct network_answer *answer = rig_solve(rig, false);
  assert_equal(answer->flows[open], 0);
  assert_int_equal(answer->states[open], NETWORK_BLOCKED);
  assert_less(answer->heads[top], 4);
  rig_free(rig);
}

static void a_drowned_end_flows_back(void **state) {
  (void)state;
  struct rig *rig = rig_new();
  const size_t pond = rig_level(rig, 0), line = rig_junction(rig, 0), bowl = rig_level(rig, 1);
  const size_t pump = rig_pump(rig, pond, line, STRONG, 5), pipe = rig_pipe(rig, line, bowl, 6, 0.04);
  assert_less(0, rig_solve(rig, false)->flows[pipe]);
  rig->links[pump].pump.idle = true;
  const struct network_answer *answer = rig_solve(rig, false);
  // 1 m of head through K 5 of the pump and K 1.5 of the pipe on the same bore, and some friction
  const double without_friction = 3.14159265358979323846 / 4 * 0.04 * 0.04 * sqrt(2 * 9.80665 / 6.5);
  assert_less(answer->flows[pipe], -0.5 * without_friction);
  assert_less(-without_friction, answer->flows[pipe]);
  rig->links[pump].check = true;
  assert_near(rig_solve(rig, false)->flows[pipe], 0, 1e-15);
  rig_free(rig);
}

static void two_pumps_in_a_row_add_their_heads(void **state) {
  (void)state;
  struct rig *rig = rig_new();
  const size_t pond = rig_level(rig, 0), between = rig_junction(rig, 0), top = rig_level(rig, 11);
  const size_t first = rig_pump(rig, pond, between, STRONG, 5), second = rig_pump(rig, between, top, STRONG, 5);
  const struct network_answer *answer = rig_solve(rig, false);
  assert_near(answer->heads[between], 5.5, 1e-5);
  assert_near(2 * pump_head(&rig->links[first].pump.curve, answer->flows[second]), 11, 1e-5);
  rig_free(rig);
}

static void a_pump_off_the_end_of_its_curve_stops_there(void **state) {
  (void)state;
  struct rig *rig = rig_new();
  const size_t pond = rig_level(rig, 0), below = rig_level(rig, -2);
  const size_t pump = rig_pump(rig, pond, below, WEAK, 4);
  const struct network_answer *answer = rig_solve(rig, false);
  assert_near(answer->flows[pump], 2.4e-3, 1e-8);
  assert_int_equal(answer->states[pump], NETWORK_BEYOND_END);
  rig_free(rig);
}

// The last point has head left: at every speed the flow stays there and the head behind it is what is asked.
static void the_end_of_a_curve_is_found_at_any_speed(void **state) {
  (void)state;
  for (int tenths = 3; tenths <= 40; tenths++) {
    struct rig *rig = rig_new();
    const size_t pond = rig_level(rig, 0), between = rig_junction(rig, 0);
    const size_t pump = rig_pump(rig, pond, between, WEAK, 4);
    rig->links[pump].pump.curve.speed = tenths / 10.0;
    rig_pipe(rig, between, rig_level(rig, 0), 0.1, 0.1);
    const struct network_answer *answer = rig_solve(rig, false);
    assert_int_equal(answer->states[pump], NETWORK_BEYOND_END);
    assert_near(answer->flows[pump], 2.4e-3 * tenths / 10, 1e-7);
    assert_less(answer->steps, 30);
    rig_free(rig);
  }
}

static void a_drooping_curve_still_ends_somewhere_true(void **state) {
  (void)state;
  for (int step = 0; step < 60; step++) {
    struct rig *rig = rig_new();
    const size_t pond = rig_level(rig, 0), top = rig_junction(rig, 0);
    const size_t pump = rig_pump(rig, pond, top, DROOPING, 5);
    rig_outlet(rig, top, 0.1 * step, 10, 0.0409);
    const struct network_answer *answer = rig_solve(rig, false);
    assert_int_equal(answer->status, NETWORK_SOLVED);
    assert_near(answer->heads[top], pump_head(&rig->links[pump].pump.curve, answer->flows[pump]), 1e-6);
    rig_free(rig);
  }
}

static void a_part_without_a_way_out_is_named(void **state) {
  (void)state;
  struct garden garden = garden_new();
  const size_t first = rig_junction(garden.rig, 1.5), second = rig_junction(garden.rig, 2);
  const size_t pipe = rig_pipe(garden.rig, first, second, 3, 0.04);
  const size_t joint = rig_valve(garden.rig, garden.header, first, 2, 0.04);
  assert_int_equal(rig_solve(garden.rig, false)->status, NETWORK_SOLVED);
  garden.rig->links[joint].shut = true;
  const struct network_answer *answer = rig_solve(garden.rig, true);
  assert_int_equal(answer->status, NETWORK_NOT_CONNECTED);
  assert_int_equal(answer->where, first);
  assert_int_equal(answer->converged, true);
  assert_int_equal(answer->reached[second], false);
  assert_int_equal(answer->reached[garden.header], true);
  assert_int_equal(answer->states[pipe], NETWORK_UNREACHED);
  assert_equal(answer->heads[second], 2);
  assert_less(1e-4, answer->flows[garden.pump]);
  rig_free(garden.rig);
}

static void a_loop_without_a_source_is_named(void **state) {
  (void)state;
  struct rig *rig = rig_new();
  rig_level(rig, 0);
  const size_t pond = rig_junction(rig, 0), bowl = rig_junction(rig, 1);
  rig_pump(rig, pond, bowl, STRONG, 5);
  rig_lip(rig, bowl, pond, 1, 0.3);
  const struct network_answer *answer = rig_solve(rig, false);
  assert_int_equal(answer->status, NETWORK_CLOSED_LOOP);
  assert_int_equal(answer->where, pond);
  rig_free(rig);
}

static void water_put_in_behind_a_check_valve_has_no_way(void **state) {
  (void)state;
  struct rig *rig = rig_new();
  const size_t pond = rig_level(rig, 0), end = rig_junction(rig, 0);
  rig->links[rig_pipe(rig, pond, end, 5, 0.04)].check = true;
  rig->nodes[end].inflow = -1e-3;
  assert_int_equal(rig_solve(rig, false)->status, NETWORK_SOLVED);
  rig->nodes[end].inflow = 1e-3;
  const struct network_answer *answer = rig_solve(rig, false);
  assert_int_equal(answer->status, NETWORK_NO_WAY);
  assert_int_equal(answer->where, end);
  assert_int_equal(answer->converged, false);
  rig_free(rig);
}

static void what_cannot_be_used_is_pointed_at(void **state) {
  (void)state;
  const double bad[] = {NOT_A_NUMBER, ENDLESS, -ENDLESS, -1, 0, 1e300};
  for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
    struct garden garden = garden_new();
    garden.rig->links[garden.lines[1]].pipe.pipe.bore = bad[i];
    const struct network_answer *answer = rig_solve(garden.rig, false);
    assert_int_equal(answer->status, NETWORK_BAD_LINK);
    assert_int_equal(answer->where, garden.lines[1]);
    assert_int_equal(answer->converged, false);
    rig_free(garden.rig);
  }
  struct garden garden = garden_new();
  garden.rig->nodes[garden.pond].head = NOT_A_NUMBER;
  assert_int_equal(rig_solve(garden.rig, false)->status, NETWORK_BAD_NODE);
  garden.rig->nodes[garden.pond].head = 0;
  garden.rig->links[0].to = 99;
  assert_int_equal(rig_solve(garden.rig, false)->status, NETWORK_BAD_LINK);
  rig_free(garden.rig);
}

// A line that gives head instead of taking it, more than all else takes: no answer, and none is made up.
static void an_impossible_network_ends(void **state) {
  (void)state;
  struct rig *rig = rig_new();
  const size_t high = rig_level(rig, 5), middle = rig_junction(rig, 0), low = rig_level(rig, 0);
  rig_valve(rig, high, middle, -150, 0.05);
  rig_valve(rig, middle, low, 100, 0.05);
  const struct network_answer *answer = rig_solve(rig, false);
  assert_int_equal(answer->status, NETWORK_UNSETTLED);
  assert_int_equal(answer->converged, false);
  assert_equal(answer->flows[0], 0);
  assert_equal(answer->heads[middle], 0);
  assert_less(answer->steps, 500);
  rig_free(rig);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_mixed_garden_agrees_with_scipy),
      cmocka_unit_test(a_lip_may_be_a_function_of_level),
      cmocka_unit_test(closing_one_valve_raises_all_others),
      cmocka_unit_test(a_check_valve_blocks),
      cmocka_unit_test(a_pump_that_cannot_lift_is_named),
      cmocka_unit_test(an_outlet_in_air_never_sucks),
      cmocka_unit_test(a_drowned_end_flows_back),
      cmocka_unit_test(two_pumps_in_a_row_add_their_heads),
      cmocka_unit_test(a_pump_off_the_end_of_its_curve_stops_there),
      cmocka_unit_test(the_end_of_a_curve_is_found_at_any_speed),
      cmocka_unit_test(a_drooping_curve_still_ends_somewhere_true),
      cmocka_unit_test(a_part_without_a_way_out_is_named),
      cmocka_unit_test(a_loop_without_a_source_is_named),
      cmocka_unit_test(water_put_in_behind_a_check_valve_has_no_way),
      cmocka_unit_test(what_cannot_be_used_is_pointed_at),
      cmocka_unit_test(an_impossible_network_ends),
  };
  return cmocka_run_group_tests_name("physics/network", tests, NULL, NULL);
}
