// SPDX-License-Identifier: MIT
#include "physics/lifting.h"

#include "near.h"

static const struct lifting_row CHART[] = {{2, 1500}, {3, 1000}, {5, 500}};

static void a_rigid_stone_hangs_on_two_legs(void **state) {
  (void)state;
  assert_int_equal(lifting_legs_carrying(4, true), 2);
  assert_int_equal(lifting_legs_carrying(4, false), 3);
  assert_int_equal(lifting_legs_carrying(1, true), 1);
}

static void a_flat_leg_carries_without_end(void **state) {
  (void)state;
  assert_no_number(lifting_leg_load(1000, 2, 0, true));
  assert_less(1e6, lifting_leg_load(1000, 2, 1e-4, true));
  assert_near(lifting_leg_load(1000, 2, LIFTING_LEAST_ANGLE, true), 1000, 1e-9);
}

static void the_chart_is_read_only_inside(void **state) {
  (void)state;
  assert_near(lifting_rated(CHART, 3, 2), 1500, 1e-9);
  assert_near(lifting_rated(CHART, 3, 3), 1000, 1e-9);
  assert_near(lifting_rated(CHART, 3, 5), 500, 1e-9);
  assert_no_number(lifting_rated(CHART, 3, 1.99));
  assert_no_number(lifting_rated(CHART, 3, 5.01));
  assert_no_number(lifting_rated_next_row(CHART, 3, 5.01));
  assert_near(lifting_rated_next_row(CHART, 3, 2.5), 1000, 1e-9);
}

static void between_rows_it_never_reads_above_a_straight_line(void **state) {
  (void)state;
  for (double reach = 2.05; reach < 3; reach += 0.1) {
    assert_less(lifting_rated(CHART, 3, reach), 1500 - 500 * (reach - 2));
    assert_less(1000, lifting_rated(CHART, 3, reach));
  }
}

static void a_bad_chart_gives_no_number(void **state) {
  (void)state;
  const struct lifting_row falling[] = {{2, 1500}, {2, 1000}, {4, 900}}, negative[] = {{2, -1}};
  assert_no_number(lifting_rated(falling, 3, 3));
  assert_no_number(lifting_rated(negative, 1, 2));
  assert_no_number(lifting_rated(CHART, 0, 2));
  assert_no_number(lifting_rated(CHART, 3, NOT_A_NUMBER));
}

static void deductions_leave_nothing_below_nothing(void **state) {
  (void)state;
  assert_equal(lifting_left(100, 150), 0);
  assert_no_number(lifting_left(100, -1));
  assert_no_number(lifting_left(NOT_A_NUMBER, 1));
}

static void hitches_follow_their_angle(void **state) {
  (void)state;
  assert_near(lifting_hitch_factor(LIFTING_VERTICAL, NOT_A_NUMBER), 1, 0);
  assert_no_number(lifting_hitch_factor(LIFTING_CHOKER, -0.1));
  assert_no_number(lifting_hitch_factor(LIFTING_CHOKER, 3.2));
  assert_no_number(lifting_hitch_factor(LIFTING_BASKET, 0));
  assert_no_number(lifting_hitch_factor(LIFTING_BASKET, 1.6));
  assert_no_number(lifting_hitch_factor(LIFTING_HITCHES, 1));
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  assert_no_number(lifting_leg_load(-1, 2, 1, true));
  assert_no_number(lifting_leg_load(1, 0, 1, true));
  assert_no_number(lifting_leg_load(1, 2, 1.6, true));
  assert_no_number(lifting_rated_capacity(-1, 1));
  assert_no_number(lifting_track_pressure(1, 0, 1));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_rigid_stone_hangs_on_two_legs),
      cmocka_unit_test(a_flat_leg_carries_without_end),
      cmocka_unit_test(the_chart_is_read_only_inside),
      cmocka_unit_test(between_rows_it_never_reads_above_a_straight_line),
      cmocka_unit_test(a_bad_chart_gives_no_number),
      cmocka_unit_test(deductions_leave_nothing_below_nothing),
      cmocka_unit_test(hitches_follow_their_angle),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/lifting", tests, NULL, NULL);
}
