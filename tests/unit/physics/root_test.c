// SPDX-License-Identifier: MIT
#include "physics/root.h"

#include <math.h>

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

struct counted {
  double root;
  int times;
};

static double smooth(double x, void *with) {
  struct counted *counted = with;
  counted->times++;
  return x * sqrt(x) - counted->root * sqrt(counted->root);
}

static double flat_below(double x, void *with) { return x > *(double *)with ? x - *(double *)with : 0; }

static void is_quick_where_halving_would_take_fifty(void **state) {
  (void)state;
  struct counted counted = {.root = 0.0123456789};
  assert_near(root_rising(smooth, &counted, 0, 0.5) / counted.root, 1, 1e-15);
  assert_in_range(counted.times, 3, 30);
}

static void gives_the_last_place_where_it_is_not_above_none(void **state) {
  (void)state;
  double at = 0.3;
  assert_near(root_rising(flat_below, &at, 0, 1), 0.3, 1e-15);
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
      cmocka_unit_test(is_quick_where_halving_would_take_fifty),
      cmocka_unit_test(gives_the_last_place_where_it_is_not_above_none),
      cmocka_unit_test(finds_a_tiny_root_in_a_wide_bracket),
      cmocka_unit_test(gives_the_end_when_the_root_is_outside),
      cmocka_unit_test(finds_a_step),
      cmocka_unit_test(passes_on_no_number),
  };
  return cmocka_run_group_tests_name("physics/root", tests, NULL, NULL);
}
