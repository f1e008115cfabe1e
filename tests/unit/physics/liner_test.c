// SPDX-License-Identifier: MIT
#include "physics/liner.h"

#include "near.h"

static void the_rule_of_thumb_is_never_short(void **state) {
  (void)state;
  for (double side = 0; side < 3; side += 0.1) {
    assert_less(liner_run(10, 1, side, 0.3), liner_rule_of_thumb(10, 1, 0.3) + 1e-9);
  }
}

static void sides_that_meet_leave_no_bottom(void **state) {
  (void)state;
  assert_near(liner_run(4, 1, 2, 0), 2 * sqrt(5), 1e-12);
  assert_no_number(liner_run(3.9, 1, 2, 0));
}

static void one_roll_needs_no_lap(void **state) {
  (void)state;
  assert_equal(liner_pieces(3, 3, 0.3), 1);
  assert_equal(liner_pieces(3.01, 3, 0.3), 2);
  assert_equal(liner_pieces(5.7, 3, 0.3), 2);
  assert_equal(liner_pieces(5.71, 3, 0.3), 3);
}

static void without_ground_water_nothing_floats(void **state) {
  (void)state;
  const struct liner_uplift dry = {.structure = 20};
  const struct liner_uplift covered = {.structure = 20, .uplift = 1000, .above = 1000};
  assert_equal(liner_uplift_factor(&dry), ENDLESS);
  assert_equal(liner_uplift_factor(&covered), ENDLESS);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  const struct liner_uplift bad = {.structure = -1, .uplift = 1000};
  const struct liner_point one[] = {{0, 0}};
  assert_no_number(liner_uplift_factor(&bad));
  assert_no_number(liner_along(one, 1, 0));
  assert_no_number(liner_run(4, -1, 0, 0));
  assert_no_number(liner_pieces(4, 1, 1));
  assert_no_number(liner_pieces(0, 1, 0.1));
  assert_no_number(liner_mass(1, 1, NOT_A_NUMBER));
  assert_no_number(liner_ballast_depth(1, 1.2, 0));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_rule_of_thumb_is_never_short),
      cmocka_unit_test(sides_that_meet_leave_no_bottom),
      cmocka_unit_test(one_roll_needs_no_lap),
      cmocka_unit_test(without_ground_water_nothing_floats),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/liner", tests, NULL, NULL);
}
