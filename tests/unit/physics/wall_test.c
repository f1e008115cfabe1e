// SPDX-License-Identifier: MIT
#include "physics/wall.h"

#include "near.h"

static const struct wall BLOCK = {.height = 1, .top = 0.3, .base = 0.5, .density = 2300, .friction = 0.5};
static const struct wall_ground FILL = {
    .ground = {.coefficient = 0.33, .height = 1, .density = 1900, .density_wet = 1100}};

static void with_nothing_behind_it_stands(void **state) {
  (void)state;
  const struct wall_ground none = {.ground = {.height = 0}};
  const struct wall_standing s = wall_standing(&BLOCK, &none);
  assert_equal(s.overturning, ENDLESS);
  assert_equal(s.sliding, ENDLESS);
}

static void wet_ground_is_far_worse_than_drained(void **state) {
  (void)state;
  struct wall_ground wet = FILL;
  wet.ground.water = 1;
  assert_less(2 * wall_standing(&BLOCK, &FILL).thrust, wall_standing(&BLOCK, &wet).thrust);
  assert_less(wall_standing(&BLOCK, &wet).overturning, wall_standing(&BLOCK, &FILL).overturning / 2);
}

static void uplift_and_inclination_work_against_each_other(void **state) {
  (void)state;
  struct wall uplifted = BLOCK;
  struct wall_ground wet = FILL, inclined = FILL;
  uplifted.uplift = 1;
  wet.ground.water = 0.5;
  inclined.inclination = 0.2;
  assert_less(wall_standing(&uplifted, &wet).overturning, wall_standing(&BLOCK, &wet).overturning);
  assert_less(wall_standing(&uplifted, &wet).sliding, wall_standing(&BLOCK, &wet).sliding);
  assert_less(wall_standing(&BLOCK, &FILL).overturning, wall_standing(&BLOCK, &inclined).overturning);
}

static void uplift_is_a_triangle_under_the_base(void **state) {
  (void)state;
  struct wall uplifted = BLOCK;
  struct wall_ground wet = FILL;
  uplifted.uplift = 1;
  wet.ground.water = 0.8;
  const struct wall_standing s = wall_standing(&uplifted, &wet), dry_base = wall_standing(&BLOCK, &wet);
  const double force = 1000 * 9.80665 * 0.8 * 0.5 / 2;
  assert_near(s.tipping - dry_base.tipping, force * 0.5 * 2 / 3, 1e-9);
  assert_near((dry_base.sliding - s.sliding) * s.thrust / 0.5, force, 1e-6);
}

static void a_wall_that_is_lifted_off_does_not_hold(void **state) {
  (void)state;
  struct wall light = BLOCK;
  struct wall_ground wet = FILL;
  light.density = 300;
  light.uplift = 1;
  wet.ground.water = 1;
  assert_equal(wall_standing(&light, &wet).sliding, 0);
}

static void passing_both_factors_it_may_still_lift_its_heel(void **state) {
  (void)state;
  const struct wall thick = {.height = 1.2192, .top = 0.6096, .base = 0.6096, .density = 2323, .friction = 0.55};
  const struct wall_ground fill = {.ground = {.coefficient = 1. / 3, .height = 1.2192, .density = 1922}};
  const struct wall_standing s = wall_standing(&thick, &fill);
  assert_less(2, s.overturning);
  assert_less(1.5, s.sliding);
  assert_int_equal(s.pressure.in_kern, false);
  assert_equal(s.pressure.rear, 0);
}

static void embedment_has_a_least(void **state) {
  (void)state;
  assert_near(wall_least_embedment(0.5, WALL_TOE_LEVEL), 0.1524, 1e-12);
  assert_near(wall_least_embedment(7, WALL_TOE_2_TO_1), 1, 1e-12);
  assert_no_number(wall_least_embedment(0, WALL_TOE_LEVEL));
  assert_no_number(wall_least_embedment(1, WALL_TOES));
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  struct wall bad = BLOCK;
  bad.top = 0.6;
  assert_no_number(wall_standing(&bad, &FILL).overturning);
  bad = BLOCK;
  bad.height = 0;
  assert_no_number(wall_standing(&bad, &FILL).sliding);
  struct wall_ground wrong = FILL;
  wrong.ground.coefficient = NOT_A_NUMBER;
  assert_no_number(wall_standing(&BLOCK, &wrong).pressure.front);
  wrong = FILL;
  wrong.ground.water = -1;
  assert_no_number(wall_standing(&BLOCK, &wrong).sliding);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(with_nothing_behind_it_stands),
      cmocka_unit_test(wet_ground_is_far_worse_than_drained),
      cmocka_unit_test(uplift_and_inclination_work_against_each_other),
      cmocka_unit_test(uplift_is_a_triangle_under_the_base),
      cmocka_unit_test(a_wall_that_is_lifted_off_does_not_hold),
      cmocka_unit_test(passing_both_factors_it_may_still_lift_its_heel),
      cmocka_unit_test(embedment_has_a_least),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/wall", tests, NULL, NULL);
}
