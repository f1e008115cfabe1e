// SPDX-License-Identifier: MIT
#include "physics/footing.h"

#include "near.h"

static const struct footing_soil BED = {.phi = 0.63, .density = 1600, .bedding = 0.15};

static void the_middle_third_is_the_kern(void **state) {
  (void)state;
  const struct footing_pressure edge = footing_pressure(1000, 3, 1), just_out = footing_pressure(1000, 3, 0.999);
  assert_int_equal(edge.in_kern, true);
  assert_near(edge.rear, 0, 1e-9);
  assert_near(edge.front, 2000. / 3, 1e-9);
  assert_near(edge.contact, 3, 1e-12);
  assert_int_equal(just_out.in_kern, false);
  assert_equal(just_out.rear, 0);
  assert_near(just_out.contact, 2.997, 1e-12);
}

static void both_edges_are_alike(void **state) {
  (void)state;
  const struct footing_pressure to_front = footing_pressure(1000, 3, 0.4), to_rear = footing_pressure(1000, 3, 2.6);
  assert_near(to_front.front, to_rear.rear, 1e-9);
  assert_equal(to_rear.front, 0);
  assert_near(to_front.contact, to_rear.contact, 1e-9);
}

static void past_the_edge_nothing_bears(void **state) {
  (void)state;
  const struct footing_pressure over = footing_pressure(1000, 3, 0), beyond = footing_pressure(1000, 3, 3.2);
  assert_equal(over.front, ENDLESS);
  assert_equal(over.contact, 0);
  assert_equal(beyond.rear, ENDLESS);
}

static void the_width_asked_bears_the_load(void **state) {
  (void)state;
  for (int i = 1; i < 9; i++) {
    const double load = 5000 * i, w = footing_width_asked(&BED, load), g = 9.80665 * BED.density;
    const double bears =
        w * (g * BED.bedding * footing_surcharge_factor(BED.phi) + 0.5 * g * w * footing_weight_factor(BED.phi));
    assert_near(bears / load, 1, 1e-12);
  }
  assert_equal(footing_width_asked(&BED, 0), 0);
}

static void without_friction_only_the_bedding_counts_by_prandtl(void **state) {
  (void)state;
  assert_near(footing_surcharge_factor(0), 1, 1e-15);
  assert_equal(footing_weight_factor(0), 0);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  struct footing_soil bad = BED;
  bad.phi = 0;
  assert_no_number(footing_width_asked(&bad, 1000));
  bad = BED;
  bad.bedding = -0.1;
  assert_no_number(footing_width_asked(&bad, 1000));
  assert_no_number(footing_width_asked(&BED, -1));
  assert_no_number(footing_surcharge_factor(1.6));
  assert_no_number(footing_pressure(0, 1, 0.5).front);
  assert_no_number(footing_pressure(1000, 0, 0.5).front);
  assert_no_number(footing_pressure(1000, 1, NOT_A_NUMBER).contact);
  assert_no_number(footing_presumed_bearing(FOOTING_GROUNDS));
  assert_no_number(footing_presumed_lateral((enum footing_ground)99));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_middle_third_is_the_kern),
      cmocka_unit_test(both_edges_are_alike),
      cmocka_unit_test(past_the_edge_nothing_bears),
      cmocka_unit_test(the_width_asked_bears_the_load),
      cmocka_unit_test(without_friction_only_the_bedding_counts_by_prandtl),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/footing", tests, NULL, NULL);
}
