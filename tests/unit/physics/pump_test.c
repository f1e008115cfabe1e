// SPDX-License-Identifier: MIT
#include "physics/pump.h"

#include "near.h"

static const struct pump_point POINTS[] = {{0, 5}, {1e-3, 4}, {2e-3, 2.5}, {3e-3, 0}};
static const struct pump_point OPEN_END[] = {{0.5e-3, 5}, {2e-3, 3}};
static const struct pump_curve PUMP = {.points = POINTS, .count = 4, .speed = 1};
static const struct pump_curve SHORT = {.points = OPEN_END, .count = 2, .speed = 1};

static double lift(double flow, void *with) { return *(double *)with + 1e5 * flow * flow; }
static double nowhere(double flow, void *with) {
  (void)with;
  return flow * NOT_A_NUMBER;
}

static void the_curve_passes_through_its_points(void **state) {
  (void)state;
  for (size_t i = 0; i < 4; i++) assert_near(pump_head(&PUMP, POINTS[i].flow), POINTS[i].head, 1e-15);
}

static void the_curve_does_not_rise_between_falling_points(void **state) {
  (void)state;
  for (int step = 0; step < 300; step++) {
    const double flow = step * 1e-5;
    assert_less(pump_head(&PUMP, flow + 1e-5), pump_head(&PUMP, flow));
  }
}

static void beyond_the_last_point_the_head_is_none(void **state) {
  (void)state;
  assert_equal(pump_head(&SHORT, 2e-3), 3);
  assert_equal(pump_head(&SHORT, 2.0001e-3), 0);
  assert_equal(pump_head(&SHORT, 1e9), 0);
  assert_equal(pump_head_slope(&SHORT, 1e9), 0);
}

static void left_of_the_first_point_its_head_holds(void **state) {
  (void)state;
  assert_equal(pump_head(&SHORT, 0.2e-3), 5);
  assert_equal(pump_head(&SHORT, -1), 5);
  assert_equal(pump_shut_off_head(&SHORT), 5);
}

static void two_points_make_a_straight_line(void **state) {
  (void)state;
  assert_near(pump_head(&SHORT, 1.25e-3), 4, 1e-12);
}

static void speed_moves_flow_and_head(void **state) {
  (void)state;
  struct pump_curve half = PUMP;
  half.speed = 0.5;
  assert_near(pump_head(&half, 0.5e-3), 1, 1e-12);
  assert_near(pump_greatest_flow(&half), 1.5e-3, 1e-18);
  half.speed = 0;
  assert_equal(pump_head(&half, 0), 0);
  assert_equal(pump_head_slope(&half, 0), 0);
}

static void the_slope_is_that_of_the_head(void **state) {
  (void)state;
  for (int step = 0; step < 17; step++) {
    const double flow = 0.1e-3 + step * 0.17e-3;
    const double rise = pump_head(&PUMP, flow + 1e-9) - pump_head(&PUMP, flow - 1e-9);
    assert_near(pump_head_slope(&PUMP, flow), rise / 2e-9, 1e-2);
  }
}

static void a_pump_that_cannot_lift_moves_nothing(void **state) {
  (void)state;
  double over = 5.1, at = 5;
  assert_equal(pump_operating_point(&PUMP, lift, &over).flow, 0);
  assert_equal(pump_operating_point(&PUMP, lift, &at).flow, 0);
  assert_equal(pump_operating_point(&PUMP, lift, &over).head, 5);
  assert_int_equal(pump_operating_point(&PUMP, lift, &over).beyond, 0);
}

static void pump_and_system_agree_where_they_meet(void **state) {
  (void)state;
  double statics[] = {4.999, 3, 0.5, 0};
  for (int i = 0; i < 4; i++) {
    const struct pump_duty duty = pump_operating_point(&PUMP, lift, &statics[i]);
    assert_near(duty.head, lift(duty.flow, &statics[i]), 1e-10);
    assert_int_equal(duty.beyond, 0);
  }
}

static void a_system_that_asks_nothing_runs_the_pump_off_its_curve(void **state) {
  (void)state;
  double drain = -50;
  const struct pump_duty off = pump_operating_point(&SHORT, lift, &drain);
  assert_equal(off.flow, 2e-3);
  assert_int_equal(off.beyond, 1);
}

static void a_bad_curve_is_pointed_at(void **state) {
  (void)state;
  const struct pump_point back[] = {{0, 5}, {2e-3, 4}, {1e-3, 3}}, lost[] = {{0, 5}, {1e-3, NOT_A_NUMBER}};
  const struct pump_point below[] = {{-1, 5}, {1e-3, 3}}, same[] = {{0, 5}, {0, 3}};
  const struct pump_curve curves[] = {{back, 3, 1}, {lost, 2, 1}, {below, 2, 1},
                                      {same, 2, 1}, {back, 1, 1}, {NULL, 3, 1}};
  const size_t faults[] = {2, 1, 0, 1, 0, 0};
  for (int i = 0; i < 6; i++) {
    assert_int_equal(pump_curve_fault(&curves[i]), faults[i]);
    assert_no_number(pump_head(&curves[i], 1e-3));
    assert_no_number(pump_greatest_flow(&curves[i]));
  }
  assert_int_equal(pump_curve_fault(&PUMP), 4);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  struct pump_curve backwards = PUMP;
  backwards.speed = -1;
  double none = NOT_A_NUMBER;
  assert_no_number(pump_head(&backwards, 1e-3));
  assert_no_number(pump_head(&PUMP, NOT_A_NUMBER));
  assert_no_number(pump_operating_point(&PUMP, lift, &none).flow);
  assert_no_number(pump_operating_point(&PUMP, nowhere, NULL).flow);
  assert_no_number(pump_shaft_power(1e-3, 3, 0));
  assert_no_number(pump_shaft_power(1e-3, 3, 1.2));
  assert_no_number(pump_intake_cover(1e-3, 0));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_curve_passes_through_its_points),
      cmocka_unit_test(the_curve_does_not_rise_between_falling_points),
      cmocka_unit_test(beyond_the_last_point_the_head_is_none),
      cmocka_unit_test(left_of_the_first_point_its_head_holds),
      cmocka_unit_test(two_points_make_a_straight_line),
      cmocka_unit_test(speed_moves_flow_and_head),
      cmocka_unit_test(the_slope_is_that_of_the_head),
      cmocka_unit_test(a_pump_that_cannot_lift_moves_nothing),
      cmocka_unit_test(pump_and_system_agree_where_they_meet),
      cmocka_unit_test(a_system_that_asks_nothing_runs_the_pump_off_its_curve),
      cmocka_unit_test(a_bad_curve_is_pointed_at),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/pump", tests, NULL, NULL);
}
