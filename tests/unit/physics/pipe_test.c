// SPDX-License-Identifier: MIT
#include "physics/pipe.h"

#include "near.h"

static const double VISCOSITY = 1.1e-6;
static const struct pipe PIPE = {.length = 10, .bore = 0.05, .roughness = 1.5e-6, .minor = 3};

static void friction_has_no_step_and_no_kink(void **state) {
  (void)state;
  static const double edges[] = {2000, 4000}, roughs[] = {0, 1e-4, 1e-2};
  for (int e = 0; e < 2; e++) {
    for (int r = 0; r < 3; r++) {
      const double d = 1e-3 * edges[e];
      const double at = pipe_friction_factor(edges[e], roughs[r]);
      const double left = at - pipe_friction_factor(edges[e] - d, roughs[r]);
      const double right = pipe_friction_factor(edges[e] + d, roughs[r]) - at;
      assert_near(left / d, right / d, 3e-3 * at / d * 0.1);
    }
  }
}

static void the_loss_rises_all_the_way(void **state) {
  (void)state;
  double before = 0;
  for (int step = 0; step < 236; step++) {
    const double flow = 1e-6 * pow(1.05, step);
    const double loss = pipe_head_loss(&PIPE, flow, VISCOSITY);
    assert_less(before, loss);
    before = loss;
  }
}

static void the_slope_is_that_of_the_loss(void **state) {
  (void)state;
  for (int step = 0; step < 22; step++) {
    const double flow = 1e-6 * pow(1.7, step);
    const double d = flow * 1e-6;
    const double rise = pipe_head_loss(&PIPE, flow + d, VISCOSITY) - pipe_head_loss(&PIPE, flow - d, VISCOSITY);
    assert_near(pipe_head_slope(&PIPE, flow, VISCOSITY) / (rise / (2 * d)), 1, 1e-5);
    assert_equal(pipe_head_slope(&PIPE, -flow, VISCOSITY), pipe_head_slope(&PIPE, flow, VISCOSITY));
  }
}

// Hagen and Poiseuille: h = 128 nu L Q / (pi g D^4), any handbook
static void at_rest_the_slope_is_that_of_slow_flow(void **state) {
  (void)state;
  const double slow = 128 * VISCOSITY * 10 / (3.14159265358979 * 9.80665 * pow(0.05, 4));
  assert_near(pipe_head_slope(&PIPE, 0, VISCOSITY) / slow, 1, 1e-12);
}

static void no_flow_loses_nothing(void **state) {
  (void)state;
  assert_equal(pipe_head_loss(&PIPE, 0, VISCOSITY), 0);
  assert_equal(pipe_friction_factor(0, 0.001), 0);
}

static void a_loss_has_the_sign_of_its_flow(void **state) {
  (void)state;
  assert_equal(pipe_head_loss(&PIPE, -0.002, VISCOSITY), -pipe_head_loss(&PIPE, 0.002, VISCOSITY));
  assert_less(pipe_minor_loss(1, -2), 0);
}

static void huge_numbers_stay_numbers(void **state) {
  (void)state;
  assert_less(0, pipe_friction_factor(1e15, 1e-6));
  assert_less(0, pipe_friction_factor(1e15, 0));
  assert_less(0, pipe_friction_factor(4000.0000001, 0.5));
  assert_less(0, pipe_head_loss(&PIPE, 1e6, VISCOSITY));
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  struct pipe pipe = PIPE;
  pipe.bore = 0;
  assert_no_number(pipe_head_loss(&pipe, 0.001, VISCOSITY));
  pipe.bore = -1;
  assert_no_number(pipe_head_slope(&pipe, 0.001, VISCOSITY));
  pipe = PIPE;
  pipe.length = -1;
  assert_no_number(pipe_head_loss(&pipe, 0.001, VISCOSITY));
  pipe = PIPE;
  pipe.roughness = -1;
  assert_no_number(pipe_head_loss(&pipe, 0.001, VISCOSITY));
  assert_no_number(pipe_head_loss(&PIPE, NOT_A_NUMBER, VISCOSITY));
  assert_no_number(pipe_head_loss(&PIPE, 0.001, 0));
  assert_no_number(pipe_volume(-1, 0.05));
  assert_no_number(pipe_area(0));
  assert_no_number(pipe_friction_factor(-5, 0));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(friction_has_no_step_and_no_kink),
      cmocka_unit_test(the_loss_rises_all_the_way),
      cmocka_unit_test(the_slope_is_that_of_the_loss),
      cmocka_unit_test(at_rest_the_slope_is_that_of_slow_flow),
      cmocka_unit_test(no_flow_loses_nothing),
      cmocka_unit_test(a_loss_has_the_sign_of_its_flow),
      cmocka_unit_test(huge_numbers_stay_numbers),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/pipe", tests, NULL, NULL);
}
