// SPDX-License-Identifier: MIT
#include "physics/root.h"

#include "near.h"

static double shifted(double x, void *with) { return x - *(double *)with; }
static double cube(double x, void *with) { return x * x * x - *(double *)with; }
static double nowhere(double x, void *with) {
  (void)with;
  return x * NOT_A_NUMBER;
}
static double step(double x, void *with) { return x > *(double *)with ? 1 : -1; }

static void finds_a_root_to_rounding(void **state) {
  (void)state;
  double two = 2;
  assert_near(root_rising(cube, &two, 0, 2), cbrt(2), 1e-15);
}

static void finds_a_tiny_root_in_a_wide_bracket(void **state) {
  (void)state;
  double tiny = 1e-250;
  assert_near(root_rising(shifted, &tiny, 0, 1e300) / tiny, 1, 1e-12);
}

static void gives_the_end_when_the_root_is_outside(void **state) {
  (void)state;
  double below = -1, above = 5;
  assert_equal(root_rising(shifted, &below, 0, 2), 0);
  assert_near(root_rising(shifted, &above, 0, 2), 2, 1e-15);
}

static void finds_a_step(void **state) {
  (void)state;
  double at = 0.75;
  assert_near(root_rising(step, &at, 0, 1), 0.75, 1e-15);
}

static void passes_on_no_number(void **state) {
  (void)state;
  double zero = 0;
  assert_no_number(root_rising(nowhere, NULL, 0, 1));
  assert_no_number(root_rising(shifted, &zero, NOT_A_NUMBER, 1));
  assert_no_number(root_rising(shifted, &zero, 0, NOT_A_NUMBER));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(finds_a_root_to_rounding),
      cmocka_unit_test(finds_a_tiny_root_in_a_wide_bracket),
      cmocka_unit_test(gives_the_end_when_the_root_is_outside),
      cmocka_unit_test(finds_a_step),
      cmocka_unit_test(passes_on_no_number),
  };
  return cmocka_run_group_tests_name("physics/root", tests, NULL, NULL);
}
