// SPDX-License-Identifier: MIT
#include "physics/thrust.h"

#include "near.h"

static const struct thrust_ground FILL = {
    .coefficient = 0.3, .height = 1.2, .density = 1600, .density_wet = 1000, .water = 0.5, .surcharge = 2000};

static void no_ground_does_not_push(void **state) {
  (void)state;
  const struct thrust_ground none = {.coefficient = NOT_A_NUMBER, .height = 0, .density = NOT_A_NUMBER};
  assert_equal(thrust_of_ground(&none).force, 0);
  assert_equal(thrust_of_ground(&none).moment, 0);
  const struct thrust nothing = {0, 0};
  assert_equal(thrust_arm(&nothing), 0);
}

static void water_over_the_ground_is_water_to_its_top(void **state) {
  (void)state;
  struct thrust_ground full = FILL, over = FILL;
  full.water = 1.2;
  over.water = 5;
  assert_near(thrust_of_ground(&over).force, thrust_of_ground(&full).force, 1e-9);
}

static void the_layers_join_without_a_step(void **state) {
  (void)state;
  struct thrust_ground dry = FILL, damp = FILL;
  dry.water = 0;
  damp.water = 1e-9;
  assert_near(thrust_of_ground(&damp).force, thrust_of_ground(&dry).force, 1e-4);
  assert_near(thrust_of_ground(&damp).moment, thrust_of_ground(&dry).moment, 1e-4);
}

static void the_sum_of_thin_slices_is_the_thrust(void **state) {
  (void)state;
  enum { SLICES = 20000 };
  double force = 0, moment = 0;
  for (int i = 0; i < SLICES; i++) {
    const double up = 1.2 * (i + 0.5) / SLICES, dry = up > 0.5 ? 1.2 - up : 0.7, wet = up > 0.5 ? 0 : 0.5 - up;
    const double pressure = 0.3 * (2000 + 9.80665 * (1600 * dry + 1000 * wet));
    force += pressure * 1.2 / SLICES;
    moment += pressure * up * 1.2 / SLICES;
  }
  assert_near(thrust_of_ground(&FILL).force, force, 1e-4 * force);
  assert_near(thrust_of_ground(&FILL).moment, moment, 1e-4 * moment);
}

static void wet_density_is_asked_for_only_in_water(void **state) {
  (void)state;
  struct thrust_ground ground = FILL;
  ground.density_wet = NOT_A_NUMBER;
  assert_no_number(thrust_of_ground(&ground).force);
  ground.water = 0;
  assert_less(0, thrust_of_ground(&ground).force);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  struct thrust_ground bad = FILL;
  bad.coefficient = -1;
  assert_no_number(thrust_of_ground(&bad).force);
  bad = FILL;
  bad.height = NOT_A_NUMBER;
  assert_no_number(thrust_of_ground(&bad).moment);
  bad = FILL;
  bad.water = -0.1;
  assert_no_number(thrust_of_ground(&bad).force);
  assert_no_number(thrust_of_water(-1).force);
  assert_no_number(thrust_coulomb_coefficient(0.5, 0.6, 0, 0));
  assert_no_number(thrust_coulomb_coefficient(0.5, 0, 0, 0.51));
  assert_no_number(thrust_coulomb_coefficient(0, 0, 0, 0));
}

static void fill_that_rises_or_leans_on_the_wall_pushes_harder(void **state) {
  (void)state;
  const double level = thrust_coulomb_coefficient(0.6, 0.2, 0, 0);
  assert_less(level, thrust_coulomb_coefficient(0.6, 0.2, 0, 0.3));
  assert_less(level, thrust_coulomb_coefficient(0.6, 0.2, 0.15, 0));
  assert_less(thrust_coulomb_coefficient(0.6, 0.2, -0.15, 0), level);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(no_ground_does_not_push),
      cmocka_unit_test(water_over_the_ground_is_water_to_its_top),
      cmocka_unit_test(the_layers_join_without_a_step),
      cmocka_unit_test(the_sum_of_thin_slices_is_the_thrust),
      cmocka_unit_test(wet_density_is_asked_for_only_in_water),
      cmocka_unit_test(bad_input_gives_no_number),
      cmocka_unit_test(fill_that_rises_or_leans_on_the_wall_pushes_harder),
  };
  return cmocka_run_group_tests_name("physics/thrust", tests, NULL, NULL);
}
