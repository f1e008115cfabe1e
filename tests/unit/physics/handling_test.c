// SPDX-License-Identifier: MIT
#include "physics/handling.h"

#include "near.h"

static const struct handling_lift EASY = {
    .out = 0.254, .height = 0.762, .travel = 0.254, .frequency = 1, .coupling = HANDLING_GOOD};

static void nearer_counts_as_ten_inches(void **state) {
  (void)state;
  struct handling_lift close = EASY;
  close.out = 0;
  close.travel = 0;
  assert_near(handling_recommended(&close), handling_recommended(&EASY), 1e-12);
}

static void out_of_reach_nothing_is_recommended(void **state) {
  (void)state;
  struct handling_lift far = EASY;
  far.out = 0.64;
  assert_equal(handling_recommended(&far), 0);
  assert_equal(handling_index(&far, 1), ENDLESS);
  far = EASY;
  far.height = 1.8;
  assert_equal(handling_recommended(&far), 0);
  far = EASY;
  far.turn = 2.4;
  assert_equal(handling_recommended(&far), 0);
  far = EASY;
  far.travel = 1.8;
  assert_equal(handling_recommended(&far), 0);
}

static void limits_themselves_are_inside(void **state) {
  (void)state;
  struct handling_lift limit = EASY;
  limit.out = 25 * 0.0254;
  assert_near(handling_recommended(&limit), handling_recommended(&EASY) * 0.4, 1e-9);
  limit = EASY;
  limit.turn = 135 * 3.14159265358979323846 / 180;
  assert_near(handling_recommended(&limit), handling_recommended(&EASY) * 0.568, 1e-9);
}

static void low_and_poor_grips_count_less(void **state) {
  (void)state;
  struct handling_lift low = EASY;
  low.height = 0.5;
  const double good = handling_recommended(&low);
  assert_near(good, 51 * 0.45359237 * (1 - 0.0075 * (30 - 0.5 / 0.0254)), 1e-9);
  low.coupling = HANDLING_FAIR;
  assert_near(handling_recommended(&low), 0.95 * good, 1e-9);
  low.coupling = HANDLING_POOR;
  assert_near(handling_recommended(&low), 0.9 * good, 1e-9);
  low.frequency = 0.5;
  assert_near(handling_recommended(&low), 0.45 * good, 1e-9);
}

static void the_smallest_team_that_can(void **state) {
  (void)state;
  assert_int_equal(handling_people_for(0), 0);
  assert_int_equal(handling_people_for(NOT_A_NUMBER), 0);
  for (unsigned people = 1; people < 12; people++) {
    assert_int_equal(handling_people_for(handling_team(people)), people);
    assert_int_equal(handling_people_for(handling_team(people) * 1.0001), people + 1);
  }
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  struct handling_lift bad = EASY;
  bad.out = -0.1;
  assert_no_number(handling_recommended(&bad));
  bad = EASY;
  bad.frequency = 1.1;
  assert_no_number(handling_recommended(&bad));
  bad = EASY;
  bad.coupling = HANDLING_COUPLINGS;
  assert_no_number(handling_recommended(&bad));
  assert_no_number(handling_index(&EASY, -1));
  bad = EASY;
  bad.turn = NOT_A_NUMBER;
  assert_no_number(handling_recommended(&bad));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(nearer_counts_as_ten_inches),  cmocka_unit_test(out_of_reach_nothing_is_recommended),
      cmocka_unit_test(limits_themselves_are_inside), cmocka_unit_test(low_and_poor_grips_count_less),
      cmocka_unit_test(the_smallest_team_that_can),   cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/handling", tests, NULL, NULL);
}
