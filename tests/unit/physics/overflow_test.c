// SPDX-License-Identifier: MIT
#include "physics/overflow.h"

#include "near.h"

static const struct overflow PIPE = {.bore = 0.0525, .open = 1};

static void the_head_is_the_inverse_of_the_flow(void **state) {
  (void)state;
  for (double head = 0.001; head < 0.2; head *= 1.5) {
    assert_near(overflow_head(&PIPE, overflow_flow(&PIPE, head)) / head, 1, 1e-12);
  }
}

static void it_drowns_once_and_stays_drowned(void **state) {
  (void)state;
  assert_int_equal(overflow_is_drowned(&PIPE, 0.005), false);
  assert_int_equal(overflow_is_drowned(&PIPE, 0.05), true);
}

static void half_open_it_passes_half(void **state) {
  (void)state;
  const struct overflow half = {.bore = 0.0525, .open = 0.5};
  assert_near(overflow_flow(&half, 0.03) / overflow_flow(&PIPE, 0.03), 0.5, 1e-12);
}

static void under_its_rim_it_takes_nothing(void **state) {
  (void)state;
  assert_equal(overflow_flow(&PIPE, -0.1), 0);
  assert_equal(overflow_flow(&PIPE, 0), 0);
  assert_equal(overflow_head(&PIPE, 0), 0);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  const struct overflow shut = {.bore = 0.05, .open = 0}, wide = {.bore = 0.05, .open = 1.5},
                        none = {.bore = 0, .open = 1};
  assert_no_number(overflow_flow(&shut, 0.1));
  assert_no_number(overflow_flow(&wide, 0.1));
  assert_no_number(overflow_head(&none, 1));
  assert_no_number(overflow_head(&PIPE, -1));
  assert_no_number(overflow_flow(&PIPE, NOT_A_NUMBER));
  assert_int_equal(overflow_is_drowned(&none, 1), false);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_head_is_the_inverse_of_the_flow),
      cmocka_unit_test(it_drowns_once_and_stays_drowned),
      cmocka_unit_test(half_open_it_passes_half),
      cmocka_unit_test(under_its_rim_it_takes_nothing),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/overflow", tests, NULL, NULL);
}
