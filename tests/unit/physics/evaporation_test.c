// SPDX-License-Identifier: MIT
#include "physics/evaporation.h"

#include "near.h"

static void dew_is_not_counted(void **state) {
  (void)state;
  assert_equal(evaporation_meyer(0.5, 1000, 1200, 2), 0);
  assert_equal(evaporation_ashrae(1000, 1200, 2.45e6, 2), 0);
}

static void wind_carries_more_away(void **state) {
  (void)state;
  assert_less(evaporation_meyer(0.5, 2000, 1200, 0), evaporation_meyer(0.5, 2000, 1200, 2));
  assert_less(evaporation_ashrae(2000, 1200, 2.45e6, 0), evaporation_ashrae(2000, 1200, 2.45e6, 2));
  assert_near(evaporation_wind_at(3, 2, 2), 3, 1e-15);
}

static void the_two_laws_agree_on_the_size(void **state) {
  (void)state;
  // different bases, one physics: in light wind they stand within a factor of two of each other
  const double meyer = evaporation_meyer(0.5, 2500, 1250, 2);
  const double ashrae = evaporation_depth(evaporation_ashrae(2500, 1250, 2.45e6, 1));
  assert_less(meyer, 2 * ashrae);
  assert_less(ashrae, 2 * meyer);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  assert_no_number(evaporation_vapour_pressure(400));
  assert_no_number(evaporation_latent_heat(270));
  assert_no_number(evaporation_wind_at(1, 0, 9));
  assert_no_number(evaporation_meyer(0.5, NOT_A_NUMBER, 100, 1));
  assert_no_number(evaporation_meyer(0, 1000, 100, 1));
  assert_no_number(evaporation_ashrae(1000, -1, 2.45e6, 1));
  assert_no_number(evaporation_ashrae(1000, 100, 0, 1));
  assert_no_number(evaporation_depth(-1));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(dew_is_not_counted),
      cmocka_unit_test(wind_carries_more_away),
      cmocka_unit_test(the_two_laws_agree_on_the_size),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/evaporation", tests, NULL, NULL);
}
