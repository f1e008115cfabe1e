// SPDX-License-Identifier: MIT
#include "physics/solid.h"

#include "near.h"

static void ellipse_perimeter_at_its_ends(void **state) {
  (void)state;
  assert_near(solid_ellipse_perimeter(2, 2), 2 * acos(-1), 1e-14);
  assert_equal(solid_ellipse_perimeter(3, 0), 6);
  assert_equal(solid_ellipse_perimeter(0, 3), 6);
  assert_equal(solid_ellipse_perimeter(0, 0), 0);
  assert_near(solid_ellipse_perimeter(1, 1e-6), 2, 1e-9);
  assert_equal(solid_ellipse_perimeter(8, 12), solid_ellipse_perimeter(12, 8));
}

static void a_pit_that_comes_to_a_point_is_a_pyramid(void **state) {
  (void)state;
  assert_near(solid_rectangle_pit(6, 6, 1.5, 2), 6 * 6 * 2 / 3.0, 1e-12);
}

static void a_pit_whose_sides_meet_first_cannot_be_dug(void **state) {
  (void)state;
  assert_no_number(solid_rectangle_pit(6, 5, 1.5, 2));
  assert_no_number(solid_rectangle_pit(5, 6, 1.5, 2));
}

static void upright_sides_make_a_box(void **state) {
  (void)state;
  assert_near(solid_rectangle_pit(6, 5, 0, 2), solid_box(6, 5, 2), 1e-12);
  assert_near(solid_cone_frustum(2, 2, 3), 3 * acos(-1), 1e-12);
}

static void the_water_counts_only_where_it_stands(void **state) {
  (void)state;
  assert_near(solid_mass_in_water(2, 0.5, 2600), 5200 - 500, 1e-9);
  assert_near(solid_mass_in_water(2, 0, 2600), 5200, 1e-9);
  assert_no_number(solid_mass_in_water(2, 2.1, 2600));
  assert_no_number(solid_mass_in_water(2, -1, 2600));
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  assert_no_number(solid_box(-1, -1, 1));
  assert_no_number(solid_ellipse_area(-1, -1));
  assert_no_number(solid_ellipse_perimeter(-2, 1));
  assert_no_number(solid_ellipse_perimeter(1, -2));
  assert_no_number(solid_ellipse_perimeter(NOT_A_NUMBER, 1));
  assert_no_number(solid_ellipse_perimeter(1, NOT_A_NUMBER));
  assert_no_number(solid_prismoid(1, NOT_A_NUMBER, 1, 1));
  assert_no_number(solid_prismoid(1, 1, -1, 1));
  assert_no_number(solid_cone_frustum(1, 1, -1));
  assert_no_number(solid_wedge(1, -1, 1, 1));
  assert_no_number(solid_trapezoid_area(1, 1, -1));
  assert_no_number(solid_top_width(1, -1, 1));
  assert_no_number(solid_boulder_volume(1, 1, 1, 1.01));
  assert_no_number(solid_boulder_volume(1, 1, 1, -0.1));
  assert_no_number(solid_mass(1, -1));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(ellipse_perimeter_at_its_ends),
      cmocka_unit_test(a_pit_that_comes_to_a_point_is_a_pyramid),
      cmocka_unit_test(a_pit_whose_sides_meet_first_cannot_be_dug),
      cmocka_unit_test(upright_sides_make_a_box),
      cmocka_unit_test(the_water_counts_only_where_it_stands),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/solid", tests, NULL, NULL);
}
