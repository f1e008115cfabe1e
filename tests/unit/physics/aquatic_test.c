// SPDX-License-Identifier: MIT
#include "physics/aquatic.h"

#include "near.h"

static void warm_and_high_water_holds_less_oxygen(void **state) {
  (void)state;
  const double cool = aquatic_oxygen_saturation(283.15, AQUATIC_ATMOSPHERE);
  assert_less(aquatic_oxygen_saturation(303.15, AQUATIC_ATMOSPHERE), cool);
  assert_near(aquatic_oxygen_saturation(283.15, AQUATIC_ATMOSPHERE / 2), cool / 2, 1e-15);
}

static void ice_grows_with_the_root_of_the_cold(void **state) {
  (void)state;
  assert_equal(aquatic_ice_thickness(0, 1), 0);
  assert_near(aquatic_ice_thickness(4e6, 0.5) / aquatic_ice_thickness(1e6, 0.5), 2, 1e-12);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  assert_no_number(aquatic_oxygen_saturation(272, AQUATIC_ATMOSPHERE));
  assert_no_number(aquatic_oxygen_saturation(320, AQUATIC_ATMOSPHERE));
  assert_no_number(aquatic_oxygen_saturation(283, 0));
  assert_no_number(aquatic_chlorine(-1, 1));
  assert_no_number(aquatic_neutraliser_dose(AQUATIC_NEUTRALISERS, 1));
  assert_no_number(aquatic_neutraliser_dose(AQUATIC_SULFITE, NOT_A_NUMBER));
  assert_no_number(aquatic_ice_thickness(-1, 1));
  assert_no_number(aquatic_ice_thickness(1, 0));
}

// Standard atmosphere, ISO 2533 (from memory): 89,874.6 Pa at 1,000 m, 70,108.5 Pa at 3,000 m.
static void air_is_thinner_up_high(void **state) {
  (void)state;
  assert_near(aquatic_pressure(0), 101325, 1e-9);
  assert_near(aquatic_pressure(1000), 89874.6, 1);
  assert_near(aquatic_pressure(3000), 70108.5, 1);
  assert_no_number(aquatic_pressure(12000));
  assert_no_number(aquatic_pressure(NOT_A_NUMBER));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(warm_and_high_water_holds_less_oxygen),
      cmocka_unit_test(ice_grows_with_the_root_of_the_cold),
      cmocka_unit_test(air_is_thinner_up_high),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/aquatic", tests, NULL, NULL);
}
