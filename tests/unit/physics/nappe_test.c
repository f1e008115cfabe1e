// SPDX-License-Identifier: MIT
#include "physics/nappe.h"

#include "near.h"

static void no_water_does_nothing(void **state) {
  (void)state;
  for (int i = 0; i < 2; i++) {
    const double q = i == 0 ? 0 : -1;
    assert_equal(nappe_critical_depth(q), 0);
    assert_equal(nappe_brink_depth(q), 0);
    assert_equal(nappe_brink_speed(q), 0);
    assert_equal(nappe_landing_speed(q, 1), 0);
    assert_equal(nappe_sheet_length(q), 0);
    assert_equal(nappe_weber(q), 0);
    assert_equal(nappe_throw(q, 1, true).high, 0);
  }
}

static void no_number_stays_none(void **state) {
  (void)state;
  assert_no_number(nappe_critical_depth(NOT_A_NUMBER));
  assert_no_number(nappe_brink_speed(NOT_A_NUMBER));
  assert_no_number(nappe_landing_speed(0.01, NOT_A_NUMBER));
  assert_no_number(nappe_landing_speed(NOT_A_NUMBER, 1));
  assert_no_number(nappe_sheet_length(NOT_A_NUMBER));
  assert_no_number(nappe_sheet_flow(NOT_A_NUMBER));
  assert_no_number(nappe_weber(NOT_A_NUMBER));
  assert_no_number(nappe_throw(NOT_A_NUMBER, 1, true).low);
  assert_no_number(nappe_throw(0.01, NOT_A_NUMBER, false).high);
}

static void a_sheet_without_an_edge_likely_clings(void **state) {
  (void)state;
  const struct band foot = nappe_throw(0.01, 1, false);
  assert_equal(foot.low, 0);
  assert_equal(foot.likely, 0);
  assert_equal(foot.high, nappe_throw(0.01, 1, true).high);
  assert_int_equal(foot.outside, 0);
}

static void the_throw_is_in_order(void **state) {
  (void)state;
  const struct band throw = nappe_throw(0.01, 1, true);
  assert_less(throw.low, throw.likely);
  assert_less(throw.likely, throw.high);
  assert_near(throw.low / throw.high, 0.715, 1e-12);
}

static void no_drop_is_no_throw(void **state) {
  (void)state;
  assert_equal(nappe_throw(0.01, 0, true).high, 0);
  assert_equal(nappe_throw(0.01, -1, true).high, 0);
  assert_equal(nappe_fall_time(-1), 0);
  assert_equal(nappe_reach(-2, 1), 0);
  assert_equal(nappe_sheet_flow(-1), 0);
}

static void sheet_flow_undoes_sheet_length(void **state) {
  (void)state;
  for (int step = 0; step < 6; step++) {
    const double q = 1e-5 * pow(7, step);
    assert_near(nappe_sheet_flow(nappe_sheet_length(q)) / q, 1, 1e-12);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(no_water_does_nothing),
      cmocka_unit_test(no_number_stays_none),
      cmocka_unit_test(a_sheet_without_an_edge_likely_clings),
      cmocka_unit_test(the_throw_is_in_order),
      cmocka_unit_test(no_drop_is_no_throw),
      cmocka_unit_test(sheet_flow_undoes_sheet_length),
  };
  return cmocka_run_group_tests_name("physics/nappe", tests, NULL, NULL);
}
