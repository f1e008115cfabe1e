// SPDX-License-Identifier: MIT
#include "near.h"
#include "physics/polygon.h"

static const struct polygon_point SQUARE[] = {{0, 0}, {4, 0}, {4, 4}, {0, 4}};
static const struct polygon_point CLOSED[] = {{0, 0}, {0, 4}, {4, 4}, {4, 0}, {0, 0}};

static void walking_wraps_round_both_ways(void **state) {
  (void)state;
  assert_equal(polygon_along(SQUARE, 4, 0).x, 0);
  assert_near(polygon_along(SQUARE, 4, 6).y, 2, 1e-12);
  assert_near(polygon_along(SQUARE, 4, 22).y, 2, 1e-12);
  assert_near(polygon_along(SQUARE, 4, -1).y, 1, 1e-12);
  assert_near(polygon_along(CLOSED, 5, 6).x, 2, 1e-12);
  assert_equal(polygon_along(SQUARE, 1, 3).x, 0);
  assert_no_number(polygon_along(SQUARE, 0, 3).x);
  assert_no_number(polygon_along(SQUARE, 4, NOT_A_NUMBER).x);
}

static void a_rectangle_is_its_corners(void **state) {
  (void)state;
  struct polygon_point corners[4];
  polygon_rectangle(5, 2, corners);
  assert_equal(corners[2].x, 5);
  assert_equal(corners[2].y, 2);
  assert_equal(corners[3].x - corners[0].x, 0);
}

static void an_ellipse_is_round_its_middle(void **state) {
  (void)state;
  struct polygon_point ring[POLYGON_ELLIPSE_POINTS];
  double x = 0, y = 0;
  polygon_ellipse(6, 2, ring);
  for (size_t i = 0; i < POLYGON_ELLIPSE_POINTS; i++) {
    x += ring[i].x;
    y += ring[i].y;
    assert_near(pow(ring[i].x / 3, 2) + pow(ring[i].y, 2), 1, 1e-5);
  }
  assert_near(x, 0, 1e-10);
  assert_near(y, 0, 1e-10);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(walking_wraps_round_both_ways),
      cmocka_unit_test(a_rectangle_is_its_corners),
      cmocka_unit_test(an_ellipse_is_round_its_middle),
  };
  return cmocka_run_group_tests_name("physics/polygon_shape", tests, NULL, NULL);
}
