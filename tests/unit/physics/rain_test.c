// SPDX-License-Identifier: MIT
#include "physics/rain.h"

#include "near.h"

static const struct rain_catch YARD = {.basin = 14, .runoff = 37, .share = 0.9};

static void a_basin_alone_catches_its_own_rain(void **state) {
  (void)state;
  const struct rain_catch alone = {.basin = 14, .runoff = 0, .share = 0};
  assert_near(rain_catch_area(&alone), 14, 0);
  assert_near(rain_catch_volume(&alone, 0.02), 0.28, 1e-12);
}

static void an_overflow_never_takes_more_than_fell(void **state) {
  (void)state;
  assert_equal(rain_catch_kept(&YARD, 0.02, 900, 1), 0);
  assert_near(rain_catch_kept(&YARD, 0.02, 900, 0), rain_catch_volume(&YARD, 0.02), 1e-12);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  struct rain_catch bad = YARD;
  bad.share = 1.1;
  assert_no_number(rain_catch_area(&bad));
  assert_no_number(rain_intensity(0.02, 0));
  assert_no_number(rain_runoff(0.5, -1, 1));
  assert_no_number(rain_volume(NOT_A_NUMBER, 1));
  assert_no_number(rain_catch_kept(&YARD, 0.02, NOT_A_NUMBER, 0));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_basin_alone_catches_its_own_rain),
      cmocka_unit_test(an_overflow_never_takes_more_than_fell),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/rain", tests, NULL, NULL);
}
