// SPDX-License-Identifier: MIT
// The closed form against GEOS, a general library, which moves the same rings side by side (computed with GEOS 3.11);
// and by hand where that is easy.
#include "physics/polygon_convex.h"

#include <math.h>

#include "near.h"

static const struct polygon_point SQUARE[] = {{0, 0}, {4, 0}, {4, 4}, {0, 4}};
static const struct polygon_point FAR_SQUARE[] = {{9000, 9000}, {9000, 9004}, {9004, 9004}, {9004, 9000}};
static const struct polygon_point SKEW[] = {{0, 0}, {5, -1}, {8, 2}, {6, 5}, {3, 5.5}, {-1, 3}};
static const struct polygon_point HALFWAY[] = {{0, 0}, {2, 0}, {4, 0}, {4, 3}, {0, 3}};
static const struct polygon_point SHARP[] = {{0, 0}, {10, 0.4}, {10, -0.4}};
static const struct polygon_point HOLLOW[] = {{0, 0}, {4, 0}, {2, 1}, {4, 4}, {0, 4}};
static const struct polygon_point STAR[] = {{0, 3}, {1.8, -2.4}, {-2.9, 0.9}, {2.9, 0.9}, {-1.8, -2.4}};
static const struct polygon_point TWICE[] = {{0, 0}, {4, 0}, {4, 0}, {4, 4}, {0, 4}};

static void check_like_geos(const struct polygon_point *points, size_t count, double distance, double near) {
  struct polygon_convex convex;
  struct polygon_inset closed, geos;
  struct polygon *polygon = polygon_new(points, count, NULL);
  assert_non_null(polygon);
  assert_int_equal(polygon_convex_of(points, count, &convex), true);
  assert_near(convex.area / polygon_area(polygon), 1, 1e-12);
  assert_near(convex.perimeter / polygon_perimeter(polygon), 1, 1e-12);
  assert_int_equal(polygon_convex_inset(&convex, distance, &closed), true);
  assert_int_equal(polygon_inset(polygon, distance, &geos, NULL), true);
  assert_near(closed.area / geos.area, 1, near);
  assert_near(closed.perimeter / geos.perimeter, 1, near);
  assert_int_equal(closed.pieces, geos.pieces);
  polygon_free(polygon);
}

static void moves_as_geos_does(void **state) {
  (void)state;
  const double distances[] = {-2, -0.3, 0, 0.2, 0.9};
  for (int i = 0; i < 5; i++) {
    check_like_geos(SQUARE, 4, distances[i], 1e-12);
    check_like_geos(FAR_SQUARE, 4, distances[i], 1e-9);
    check_like_geos(SKEW, 6, distances[i], 1e-11);
    check_like_geos(HALFWAY, 5, distances[i], 1e-11);
  }
}

// Inward GEOS leaves out corners of a ring as fine as this by some rule of its own: hence the wider band.
static void moves_round_ones_as_geos_does(void **state) {
  (void)state;
  struct polygon_point ring[POLYGON_ELLIPSE_POINTS];
  const double distances[] = {-1, -0.1, 0.1, 0.5, 0.8};
  polygon_ellipse(4, 4, ring);
  for (int i = 0; i < 5; i++) check_like_geos(ring, POLYGON_ELLIPSE_POINTS, distances[i], 2e-6);
  polygon_ellipse(6, 4, ring);
  for (int i = 0; i < 5; i++) check_like_geos(ring, POLYGON_ELLIPSE_POINTS, distances[i], 2e-6);
}

// By hand: a circle of 4 m less 0.5 m all round has pi 1.5^2 of area, but for what 1024 straight sides leave out.
static void a_circle_shrinks_to_a_circle(void **state) {
  (void)state;
  struct polygon_point ring[POLYGON_ELLIPSE_POINTS];
  struct polygon_convex convex;
  struct polygon_inset inset;
  polygon_ellipse(4, 4, ring);
  assert_int_equal(polygon_convex_of(ring, POLYGON_ELLIPSE_POINTS, &convex), true);
  assert_int_equal(polygon_convex_inset(&convex, 0.5, &inset), true);
  assert_near(inset.area, acos(-1) * 1.5 * 1.5, 2e-5);
}

static void a_side_that_would_be_gone_is_left_to_geos(void **state) {
  (void)state;
  struct polygon_convex convex;
  struct polygon_inset inset;
  assert_int_equal(polygon_convex_of(SQUARE, 4, &convex), true);
  assert_near(convex.inward, 2, 1e-12);
  assert_int_equal(polygon_convex_inset(&convex, 2, &inset), false);
  assert_int_equal(polygon_convex_inset(&convex, NOT_A_NUMBER, &inset), false);
  assert_int_equal(polygon_convex_of(SHARP, 3, &convex), true);
  assert_int_equal(polygon_convex_inset(&convex, -0.1, &inset), false);
}

static void what_is_not_convex_is_left_to_geos(void **state) {
  (void)state;
  struct polygon_convex convex;
  const struct polygon_point no_number[] = {{0, 0}, {4, 0}, {NOT_A_NUMBER, 4}};
  const struct polygon_point line[] = {{0, 0}, {4, 0}, {2, 0}};
  assert_int_equal(polygon_convex_of(HOLLOW, 5, &convex), false);
  assert_int_equal(polygon_convex_of(STAR, 5, &convex), false);
  assert_int_equal(polygon_convex_of(TWICE, 5, &convex), false);
  assert_int_equal(polygon_convex_of(no_number, 3, &convex), false);
  assert_int_equal(polygon_convex_of(line, 3, &convex), false);
  assert_int_equal(polygon_convex_of(SQUARE, 2, &convex), false);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(moves_as_geos_does),
      cmocka_unit_test(moves_round_ones_as_geos_does),
      cmocka_unit_test(a_circle_shrinks_to_a_circle),
      cmocka_unit_test(a_side_that_would_be_gone_is_left_to_geos),
      cmocka_unit_test(what_is_not_convex_is_left_to_geos),
  };
  return cmocka_run_group_tests_name("physics/polygon_convex", tests, NULL, NULL);
}
