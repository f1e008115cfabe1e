// SPDX-License-Identifier: MIT
#include "physics/soil.h"

#include "near.h"

static void unknown_ground_has_no_slope(void **state) {
  (void)state;
  assert_no_number(soil_steepest_slope(SOIL_TYPES));
  assert_no_number(soil_steepest_slope_short_term((enum soil_type) - 1));
}

static void weaker_ground_asks_for_flatter_sides(void **state) {
  (void)state;
  for (enum soil_type type = SOIL_TYPE_A; type < SOIL_TYPES; type++) {
    assert_less(soil_steepest_slope(type - 1), soil_steepest_slope(type));
  }
}

static void level_backfill_is_the_plain_case(void **state) {
  (void)state;
  assert_near(soil_active_coefficient_sloping(0.6, 0), soil_active_coefficient(0.6), 1e-15);
  assert_equal(soil_active_coefficient(0), 1);
}

static void backfill_as_steep_as_it_stands(void **state) {
  (void)state;
  assert_near(soil_active_coefficient_sloping(0.5, 0.5), cos(0.5), 1e-7);
  assert_no_number(soil_active_coefficient_sloping(0.5, 0.51));
}

static void the_worse_of_volume_and_weight_counts(void **state) {
  (void)state;
  assert_equal(soil_truck_loads(10, 20000, 6, 15000), 2);
  assert_equal(soil_truck_loads(10, 40000, 6, 15000), 3);
  assert_equal(soil_truck_loads(19, 20000, 6, 15000), 4);
}

static void a_full_truck_is_one_truck(void **state) {
  (void)state;
  assert_equal(soil_truck_loads(6, 1, 6, ENDLESS), 1);
  assert_equal(soil_truck_loads(6.1, 1, 6, NOT_A_NUMBER), 2);
  assert_equal(soil_truck_loads(0.3, 1, 0.1, NOT_A_NUMBER), 3);  // 0.3/0.1 is a little under 3, 0.7/0.1 as well
  assert_equal(soil_truck_loads(6 * (1 + 1e-12), 1, 6, ENDLESS), 1);
  assert_equal(soil_truck_loads(0, 0, 6, 15000), 0);
}

static void loads_of_an_unknown_truck_are_unknown(void **state) {
  (void)state;
  assert_no_number(soil_truck_loads(10, 20000, NOT_A_NUMBER, ENDLESS));
  assert_no_number(soil_truck_loads(10, 20000, 0, 15000));
  assert_no_number(soil_truck_loads(10, NOT_A_NUMBER, 6, 15000));
  assert_no_number(soil_truck_loads(-1, 20000, 6, 15000));
}

static void loose_and_bank_undo_each_other(void **state) {
  (void)state;
  assert_near(soil_bank_volume(soil_loose_volume(7, 0.3), 0.3), 7, 1e-14);
  assert_no_number(soil_loose_volume(7, -0.1));
  assert_no_number(soil_loose_volume(-7, 0.1));
  assert_no_number(soil_swell(0, 1500));
  assert_no_number(soil_swell(1800, NOT_A_NUMBER));
}

static void bad_input_gives_no_pressure(void **state) {
  (void)state;
  assert_no_number(soil_active_coefficient(-0.1));
  assert_no_number(soil_active_coefficient(1.6));
  assert_no_number(soil_active_coefficient(NOT_A_NUMBER));
  assert_no_number(soil_thrust(0.3, 1800, -1));
  assert_no_number(soil_thrust(-0.3, 1800, 1));
  assert_no_number(soil_surcharge_thrust(0.3, -1, 1));
  assert_equal(soil_thrust(0.3, 1800, 0), 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(unknown_ground_has_no_slope),           cmocka_unit_test(weaker_ground_asks_for_flatter_sides),
      cmocka_unit_test(level_backfill_is_the_plain_case),      cmocka_unit_test(backfill_as_steep_as_it_stands),
      cmocka_unit_test(the_worse_of_volume_and_weight_counts), cmocka_unit_test(a_full_truck_is_one_truck),
      cmocka_unit_test(loads_of_an_unknown_truck_are_unknown), cmocka_unit_test(loose_and_bank_undo_each_other),
      cmocka_unit_test(bad_input_gives_no_pressure),
  };
  return cmocka_run_group_tests_name("physics/soil", tests, NULL, NULL);
}
