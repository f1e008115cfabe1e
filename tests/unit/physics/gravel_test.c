// SPDX-License-Identifier: MIT
#include "physics/gravel.h"

#include "near.h"

static const double VISCOSITY = 1.1e-6;

static void speed_and_gradient_undo_each_other(void **state) {
  (void)state;
  const struct gravel law = gravel_law(0.02, 0.4, VISCOSITY);
  for (int step = 0; step < 13; step++) {
    const double i = 1e-12 * pow(10, step);
    assert_near(gravel_gradient(&law, gravel_speed(&law, i)) / i, 1, 1e-12);
  }
}

static void no_fall_is_no_flow(void **state) {
  (void)state;
  const struct gravel law = gravel_law(0.02, 0.4, VISCOSITY);
  assert_equal(gravel_flow(&law, 0, 1), 0);
  assert_equal(gravel_flow(&law, -0.1, 1), 0);
  assert_equal(gravel_unconfined_flow(&law, 1, 0.1, 0.1, 1), 0);
  assert_equal(gravel_unconfined_flow(&law, 1, 0.1, 0.2, 1), 0);
}

static void gradient_has_the_sign_of_the_speed(void **state) {
  (void)state;
  const struct gravel law = gravel_law(0.02, 0.4, VISCOSITY);
  assert_equal(gravel_gradient(&law, -0.01), -gravel_gradient(&law, 0.01));
}

static void an_open_layer_carries_less_than_a_full_one_and_more_than_its_low_end(void **state) {
  (void)state;
  const struct gravel law = gravel_law(0.02, 0.4, VISCOSITY);
  const double flow = gravel_unconfined_flow(&law, 1, 0.2, 0.1, 5), gradient = 0.1 / 5;
  assert_less(flow, gravel_flow(&law, gradient, 0.2));
  assert_less(gravel_flow(&law, gradient, 0.1), flow);
}

static void a_layer_that_runs_dry_at_its_end_still_flows(void **state) {
  (void)state;
  const struct gravel law = gravel_law(0.02, 0.4, VISCOSITY);
  const double dry = gravel_unconfined_flow(&law, 1, 0.2, 0, 5);
  assert_less(0, dry);
  assert_less(gravel_unconfined_flow(&law, 1, 0.2, 0.05, 5), dry);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  const struct gravel law = gravel_law(0.02, 0.4, VISCOSITY);
  assert_no_number(gravel_law(0, 0.4, VISCOSITY).a);
  assert_no_number(gravel_law(0.02, 0, VISCOSITY).b);
  assert_no_number(gravel_law(0.02, 1, VISCOSITY).b);
  assert_no_number(gravel_law(0.02, 0.4, NOT_A_NUMBER).a);
  assert_no_number(gravel_flow(&law, 0.1, -1));
  assert_no_number(gravel_flow(&law, NOT_A_NUMBER, 1));
  assert_no_number(gravel_unconfined_flow(&law, 0, 0.2, 0.1, 5));
  assert_no_number(gravel_unconfined_flow(&law, 1, 0.2, -0.1, 5));
  assert_no_number(gravel_unconfined_flow(&law, 1, NOT_A_NUMBER, 0.1, 5));
  assert_no_number(gravel_unconfined_flow(&law, 1, 0.2, 0.1, 0));
  assert_no_number(gravel_void_volume(1, 1.5));
  assert_no_number(gravel_void_volume(-1, 0.4));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(speed_and_gradient_undo_each_other),
      cmocka_unit_test(no_fall_is_no_flow),
      cmocka_unit_test(gradient_has_the_sign_of_the_speed),
      cmocka_unit_test(an_open_layer_carries_less_than_a_full_one_and_more_than_its_low_end),
      cmocka_unit_test(a_layer_that_runs_dry_at_its_end_still_flows),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/gravel", tests, NULL, NULL);
}
