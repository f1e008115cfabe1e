// SPDX-License-Identifier: MIT
#include "physics/levels.h"

#include "near.h"

static void nothing_stacked_is_nothing(void **state) {
  (void)state;
  assert_equal(levels_stacked(NULL, 0, 0), 0);
  assert_near(levels_stacked(NULL, 0, 0.01), 0.01, 0);
}

static void signs_do_not_cancel(void **state) {
  (void)state;
  const double errors[] = {-0.003, 0.004};
  assert_near(levels_stacked(errors, 2, 0), 0.005, 1e-15);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  const double errors[] = {0.003, NOT_A_NUMBER};
  assert_no_number(levels_stacked(errors, 2, 0));
  assert_no_number(levels_stacked(errors, 1, -0.01));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(nothing_stacked_is_nothing),
      cmocka_unit_test(signs_do_not_cancel),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/levels", tests, NULL, NULL);
}
