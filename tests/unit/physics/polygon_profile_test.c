// SPDX-License-Identifier: MIT
#include <math.h>

#include "near.h"
#include "physics/polygon.h"

static const struct polygon_point SQUARE[] = {{0, 0}, {4, 0}, {4, 4}, {0, 4}};
static const struct polygon_point BOW_TIE[] = {{0, 0}, {4, 4}, {4, 0}, {0, 4}};
static const struct polygon_point DUMB_BELL[] = {{0, 0},  {4, 0}, {4, 1.5}, {6, 1.5}, {6, 0}, {10, 0},
                                                 {10, 4}, {6, 4}, {6, 2.5}, {4, 2.5}, {4, 4}, {0, 4}};

static void a_profile_keeps_what_it_was_asked(void **state) {
  (void)state;
  const double depths[] = {0, 0.25, 0.6};
  struct polygon_inset first, second;
  struct polygon_profile *profile = polygon_profile_new(DUMB_BELL, 12, depths, 3, NULL);
  assert_non_null(profile);
  assert_near(polygon_area(polygon_profile_outline(profile)), 34, 1e-12);
  for (int i = 0; i < 3 * POLYGON_PROFILE_KEEPS; i++) {
    const double distance = (i % 100) * 0.01;
    assert_int_equal(polygon_profile_at(profile, distance, &first, NULL), 1);
    assert_int_equal(polygon_profile_at(profile, distance, &second, NULL), 1);
    assert_equal(second.area, first.area);
    assert_equal(second.distance, distance);
  }
  polygon_profile_free(profile);
}

static double inradius(const struct polygon_point *points, size_t count, double most) {
  struct polygon_profile *profile = polygon_profile_new(points, count, NULL, 0, NULL);
  assert_non_null(profile);
  const double radius = polygon_profile_inradius(profile, most);
  polygon_profile_free(profile);
  return radius;
}

// By hand: half a side; of a 3-4-5 triangle (3 + 4 - 5) / 2; of a kite, whose four
// sides one circle touches, area over half the perimeter; of a dumb-bell half of its squares.
static void the_widest_circle_is_found(void **state) {
  (void)state;
  const struct polygon_point triangle[] = {{0, 0}, {4, 0}, {0, 3}}, strip[] = {{0, 0}, {9, 0}, {9, 1}, {0, 1}};
  const struct polygon_point kite[] = {{0, 0}, {3, -3}, {12, 0}, {3, 3}};
  assert_near(inradius(SQUARE, 4, 3), 2, 6e-8);
  assert_near(inradius(strip, 4, 0.6), 0.5, 1.2e-8);
  assert_near(inradius(triangle, 3, 1.5), 1, 3e-8);
  assert_near(inradius(kite, 4, 3), 36 / (2 * (sqrt(18) + sqrt(90)) / 2), 6e-8);
  assert_near(inradius(DUMB_BELL, 12, 2.1), 2, 4.2e-8);
}

static void a_bad_profile_is_refused(void **state) {
  (void)state;
  const double mad[] = {0.1, NOT_A_NUMBER};
  struct polygon_problem problem;
  assert_null(polygon_profile_new(BOW_TIE, 4, NULL, 0, &problem));
  assert_string_equal(problem.text, "the outline crosses or touches itself");
  assert_null(polygon_profile_new(SQUARE, 4, mad, 2, &problem));
  assert_string_equal(problem.text, "an outline cannot be moved by that distance");
  polygon_profile_free(NULL);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_profile_keeps_what_it_was_asked),
      cmocka_unit_test(the_widest_circle_is_found),
      cmocka_unit_test(a_bad_profile_is_refused),
  };
  return cmocka_run_group_tests_name("physics/polygon_profile", tests, NULL, NULL);
}
