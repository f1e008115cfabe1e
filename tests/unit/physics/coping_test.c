// SPDX-License-Identifier: MIT
#include "physics/coping.h"

#include "near.h"

static const struct coping CAP = {.length = 0.9, .depth = 0.36, .thickness = 0.05, .overhang = 0.04, .density = 2600};

static void without_overhang_or_load_nothing_tips(void **state) {
  (void)state;
  struct coping flush = CAP;
  flush.overhang = 0;
  assert_equal(coping_tipping_factor(&flush, 1000), ENDLESS);
  assert_equal(coping_tipping_factor(&CAP, 0), ENDLESS);
}

static void half_out_it_falls_by_itself(void **state) {
  (void)state;
  struct coping half = CAP;
  half.overhang = 0.18;
  assert_equal(coping_tipping_factor(&half, 0), 0);
  assert_equal(coping_tipping_factor(&half, 1000), 0);
  half.overhang = 0.3;
  assert_less(coping_tipping_factor(&half, 1000), 0);
  assert_equal(coping_tipping_factor(&half, 0), 0);
}

static void the_greatest_overhang_has_the_factor(void **state) {
  (void)state;
  struct coping cap = CAP;
  for (int step = 0; step < 9; step++) {
    const double factor = 0.5 + step * 0.5;
    cap.overhang = coping_greatest_overhang(&CAP, 1334, factor);
    assert_near(coping_tipping_factor(&cap, 1334), factor, 1e-12);
  }
}

static void stress_falls_with_the_square_of_the_thickness_for_a_load_alone(void **state) {
  (void)state;
  struct coping light = CAP, thick = CAP;
  light.density = thick.density = 1e-9;
  thick.thickness = 2 * light.thickness;
  assert_near(coping_cantilever_stress(&light, 0.3, 1000) / coping_cantilever_stress(&thick, 0.3, 1000), 4, 1e-9);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  struct coping bad = CAP;
  bad.overhang = 0.4;
  assert_no_number(coping_tipping_factor(&bad, 1000));
  bad.overhang = -0.01;
  assert_no_number(coping_weight(&bad));
  bad = CAP;
  bad.thickness = 0;
  assert_no_number(coping_cantilever_stress(&bad, 0.3, 1000));
  bad = CAP;
  bad.density = NOT_A_NUMBER;
  assert_no_number(coping_tipping_factor(&bad, 1000));
  assert_no_number(coping_tipping_factor(&CAP, -1));
  assert_no_number(coping_greatest_overhang(&CAP, 1000, 0));
  assert_no_number(coping_cantilever_stress(&CAP, 0, 1000));
  assert_no_number(coping_span_stress(0, 0.3, 0.05, 2600, 1000));
  assert_no_number(coping_span_stress(1, 0.3, 0.05, 2600, -1));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(without_overhang_or_load_nothing_tips),
      cmocka_unit_test(half_out_it_falls_by_itself),
      cmocka_unit_test(the_greatest_overhang_has_the_factor),
      cmocka_unit_test(stress_falls_with_the_square_of_the_thickness_for_a_load_alone),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/coping", tests, NULL, NULL);
}
