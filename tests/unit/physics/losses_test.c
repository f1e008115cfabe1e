// SPDX-License-Identifier: MIT
#include "physics/losses.h"

#include "near.h"

static const struct losses DAY = {.evaporation = 2e-6, .splash = 3e-6, .leak = 1e-6, .rain = 0, .fill = 0};

static void what_is_filled_up_never_runs_dry(void **state) {
  (void)state;
  struct losses filled = DAY;
  filled.fill = 6e-6;
  assert_equal(losses_time_to(&filled, 1), ENDLESS);
  filled.fill = 7e-6;
  assert_less(losses_net(&filled), 0);
  assert_equal(losses_time_to(&filled, 1), ENDLESS);
  assert_near(losses_time_to(&DAY, 6), 1e6, 1e-3);
  assert_equal(losses_time_to(&DAY, 0), 0);
}

static void a_level_that_fell_less_than_the_pan_shows_no_leak(void **state) {
  (void)state;
  assert_equal(losses_leak(10, 0.002, 0.003, 86400), 0);
  assert_near(losses_leak(10, 0.004, 0.003, 100), 1e-4, 1e-15);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  struct losses bad = DAY;
  bad.leak = -1;
  assert_no_number(losses_net(&bad));
  assert_no_number(losses_time_to(&bad, 1));
  assert_no_number(losses_time_to(&DAY, NOT_A_NUMBER));
  assert_no_number(losses_level_rate(&DAY, 0));
  assert_no_number(losses_splash(1, 1.5));
  assert_no_number(losses_leak(10, NOT_A_NUMBER, 0, 100));
  assert_no_number(losses_leak(10, 0.1, 0, 0));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(what_is_filled_up_never_runs_dry),
      cmocka_unit_test(a_level_that_fell_less_than_the_pan_shows_no_leak),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/losses", tests, NULL, NULL);
}
