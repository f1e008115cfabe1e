// SPDX-License-Identifier: MIT
#include "physics/water.h"

#include "near.h"

static void ice_and_steam_are_no_water(void **state) {
  (void)state;
  assert_no_number(water_density(273.0));
  assert_no_number(water_density(373.2));
  assert_no_number(water_dynamic_viscosity(-5));
  assert_no_number(water_kinematic_viscosity(NOT_A_NUMBER));
  assert_no_number(water_kinematic_viscosity(ENDLESS));
}

static void the_ends_of_the_range_belong_to_it(void **state) {
  (void)state;
  assert_less(999.8, water_density(273.15));
  assert_less(water_density(373.15), 958.5);
}

static void water_is_densest_near_4_degrees(void **state) {
  (void)state;
  assert_less(water_density(275.15), water_density(277.13));
  assert_less(water_density(279.15), water_density(277.13));
}

static void warm_water_runs_more_easily(void **state) {
  (void)state;
  for (int step = 0; step < 99; step++) {
    const double t = 274 + step * 1;
    assert_less(water_kinematic_viscosity(t), water_kinematic_viscosity(t - 0.5));
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(ice_and_steam_are_no_water),
      cmocka_unit_test(the_ends_of_the_range_belong_to_it),
      cmocka_unit_test(water_is_densest_near_4_degrees),
      cmocka_unit_test(warm_water_runs_more_easily),
  };
  return cmocka_run_group_tests_name("physics/water", tests, NULL, NULL);
}
