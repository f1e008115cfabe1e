// SPDX-License-Identifier: MIT
#include "physics/dewater.h"

#include "near.h"

static const struct dewater_pit PIT = {.area = 20, .permeability = 1e-4, .thickness = 4, .lowering = 1.5};

static void nothing_lowered_nothing_comes(void **state) {
  (void)state;
  struct dewater_pit still = PIT;
  still.lowering = 0;
  assert_equal(dewater_inflow(&still), 0);
  still.thickness = ENDLESS;
  assert_equal(dewater_inflow(&still), 0);
}

static void tight_ground_below_lets_nothing_up(void **state) {
  (void)state;
  assert_equal(dewater_bottom_inflow(&PIT), 0);
  struct dewater_pit open = PIT;
  open.thickness = ENDLESS;
  assert_less(0, dewater_bottom_inflow(&open));
}

static void lower_and_looser_more_comes(void **state) {
  (void)state;
  struct dewater_pit deeper = PIT, looser = PIT;
  deeper.lowering = 2;
  looser.permeability = 1e-3;
  assert_less(dewater_inflow(&PIT), dewater_inflow(&deeper));
  assert_less(3 * dewater_inflow(&PIT), dewater_inflow(&looser));
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  struct dewater_pit bad = PIT;
  bad.lowering = 5;
  assert_no_number(dewater_inflow(&bad));
  bad = PIT;
  bad.area = 0;
  assert_no_number(dewater_side_inflow(&bad));
  bad = PIT;
  bad.permeability = NOT_A_NUMBER;
  assert_no_number(dewater_bottom_inflow(&bad));
  assert_no_number(dewater_reach(&bad));
  assert_no_number(dewater_radius(-1));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(nothing_lowered_nothing_comes),
      cmocka_unit_test(tight_ground_below_lets_nothing_up),
      cmocka_unit_test(lower_and_looser_more_comes),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/dewater", tests, NULL, NULL);
}
