// SPDX-License-Identifier: MIT
// Hollows cut level by level. Expected: frustum and prism formulas of any handbook of mensuration.
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "physics/cuts.h"

static void near_to(double value, double expected) {
  if (fabs(value - expected) > 1e-9 * fmax(1, fabs(expected))) fail_msg("%.12g is not %.12g", value, expected);
}

// A square pit, 4 x 4 at the top, sides 1:2 inward, 2 deep: 2 x 2 at the bottom. Frustum: 2/3 (16 + 8 + 4) = 18.667.
static const struct cut square[] = {{0, -2, 16, 9, 4}};
static const struct cuts pit = {square, 1};

// A step: 10 m2 from 1 down to 0, then 4 m2 from 0 to -1.
static const struct cut steps[] = {{1, 0, 10, 10, 10}, {0, -1, 4, 4, 4}};
static const struct cuts stepped = {steps, 2};

static void volumes(void **state) {
  (void)state;
  near_to(cuts_volume(&pit, 0, -2), 56.0 / 3);
  near_to(cuts_volume(&pit, -1, -2), (4 + 4 * 6.25 + 9) / 6);  // 3 x 3 at half depth, 2.5 x 2.5 between
  near_to(cuts_volume(&stepped, 1, -1), 14);
  near_to(cuts_volume(&stepped, 0.25, -0.5), 2.5 + 2);
  near_to(cuts_volume(&stepped, 3, -1), 34);  // above the top the area stays
  near_to(cuts_volume(&stepped, -1, 1), 0);
  near_to(cuts_volume(&stepped, -5, -9), 0);
}

static void areas(void **state) {
  (void)state;
  near_to(cuts_area(&pit, -1), 9);
  near_to(cuts_area(&pit, 7), 16);
  near_to(cuts_area(&stepped, 0), 4);
  near_to(cuts_area(&stepped, 0.001), 10);
  near_to(cuts_area(&stepped, -1), 4);
  near_to(cuts_area(&stepped, -1.001), 0);
}

static void rises(void **state) {
  (void)state;
  near_to(cuts_rise_to(&stepped, -1, 4), 0);
  near_to(cuts_rise_to(&stepped, -0.5, 2 + 5), 0.5);
  near_to(cuts_rise_to(&stepped, 0, 30), 3);
  near_to(cuts_rise_to(&stepped, 0, 0), 0);
  near_to(cuts_volume(&pit, cuts_rise_to(&pit, -1.5, 7), -1.5), 7);
}

static void nothing(void **state) {
  (void)state;
  const struct cuts none = {NULL, 0};
  near_to(cuts_area(&none, 0), 0);
  near_to(cuts_volume(&none, 1, 0), 0);
  assert_int_equal(isnan(cuts_rise_to(&none, 0, 1)), 1);
  assert_int_equal(isnan(cuts_volume(&pit, (double)NAN, 0)), 1);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(volumes), cmocka_unit_test(areas), cmocka_unit_test(rises),
                                     cmocka_unit_test(nothing)};
  return cmocka_run_group_tests_name("physics/cuts", tests, NULL, NULL);
}
