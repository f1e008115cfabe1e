// SPDX-License-Identifier: MIT
#include "physics/zone.h"

#include "near.h"

static void the_edge_never_comes_nearer_than_two_feet(void **state) {
  (void)state;
  assert_near(zone_from_edge(0, 1.5, 0), 0.6096, 1e-12);
  assert_near(zone_from_edge(3, 0, 0), 0.6096, 1e-12);
  assert_near(zone_from_edge(3, 1, 1), 0.6096, 1e-12);
  assert_less(0.6096, zone_from_edge(3, 1, 0.99));
}

static void the_fall_zone_has_no_step_where_the_two_meet(void **state) {
  (void)state;
  assert_near(zone_fall(1.2192, true), zone_fall(1.2192, false), 1e-12);
  assert_less(zone_fall(1.3, false), zone_fall(1.3, true));
}

static void any_side_may_be_the_longest(void **state) {
  (void)state;
  assert_near(zone_hook_path(1, 2, 3), 3 + 0.9144, 1e-12);
  assert_near(zone_hook_path(3, 1, 2), 3 + 0.9144, 1e-12);
  assert_near(zone_hook_path(1, 3, 2), 3 + 0.9144, 1e-12);
}

static void more_volts_never_ask_less(void **state) {
  (void)state;
  for (double kilovolts = 0; kilovolts < 1000; kilovolts += 1.7) {
    const double less = zone_power_line(kilovolts * 1000), more = zone_power_line((kilovolts + 1.7) * 1000);
    if (more < less) assert_less(less, more);
    if (zone_power_line_equipment(kilovolts * 1000) > less)
      assert_less(zone_power_line_equipment(kilovolts * 1000), less);
  }
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  assert_no_number(zone_power_line(1000.1e3));
  assert_no_number(zone_power_line(-1));
  assert_no_number(zone_power_line(NOT_A_NUMBER));
  assert_no_number(zone_power_line_equipment(NOT_A_NUMBER));
  assert_no_number(zone_fall(-1, true));
  assert_no_number(zone_fall(NOT_A_NUMBER, true));
  assert_no_number(zone_hook_path(0, 1, 1));
  assert_no_number(zone_from_edge(1, NOT_A_NUMBER, 1));
  assert_no_number(zone_from_edge(-1, 1.5, 1));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_edge_never_comes_nearer_than_two_feet),
      cmocka_unit_test(the_fall_zone_has_no_step_where_the_two_meet),
      cmocka_unit_test(any_side_may_be_the_longest),
      cmocka_unit_test(more_volts_never_ask_less),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/zone", tests, NULL, NULL);
}
