// SPDX-License-Identifier: MIT
#include "physics/polygon_surface.h"

#include "near.h"

typedef struct polygon_surface_point place;

static const place PLANE[] = {{0, 0, 0}, {10, 0, 1}, {10, 10, 3}, {0, 10, 2}, {4, 6, 1.6}};
static const struct polygon_point BOX[] = {{4, 4}, {6, 4}, {6, 6}, {4, 6}};

static struct polygon_surface *good(const place *points, size_t count) {
  struct polygon_problem problem = {.text = ""};
  struct polygon_surface *surface = polygon_surface_new(points, count, &problem);
  assert_string_equal(problem.text, "");
  assert_non_null(surface);
  return surface;
}

static void refused(const place *points, size_t count, const char *text) {
  struct polygon_problem problem = {.text = ""};
  struct polygon_surface *surface = polygon_surface_new(points, count, &problem);
  assert_string_equal(problem.text, text);
  assert_null(surface);
}

static double cut(const place *points, size_t count, const struct polygon_point *bottom, size_t corners, double level,
                  double side, const char *trouble) {
  struct polygon_problem problem = {.text = ""};
  struct polygon_surface *surface = good(points, count);
  struct polygon *outline = polygon_new(bottom, corners, &problem);
  const struct polygon_pit pit = {outline, level, side};
  const double volume = polygon_surface_cut(surface, &pit, &problem);
  assert_string_equal(problem.text, trouble);
  polygon_free(outline);
  polygon_surface_free(surface);
  return volume;
}

static void a_plane_is_a_plane_everywhere(void **state) {
  (void)state;
  struct polygon_surface *surface = good(PLANE, 5);
  for (int i = 0; i <= 10; i++) {
    for (int k = 0; k <= 10; k++) {
      const struct polygon_point at = {i, k};
      assert_near(polygon_surface_height(surface, at), 0.1 * i + 0.2 * k, 1e-9);
    }
  }
  const struct polygon_point outside = {10.1, 5};
  assert_no_number(polygon_surface_height(surface, outside));
  polygon_surface_free(surface);
}

static void the_border_goes_round_and_the_triangles_fill_it(void **state) {
  (void)state;
  struct polygon_surface *surface = good(PLANE, 5);
  double around = 0, area = 0;
  assert_int_equal(polygon_surface_border_count(surface), 4);
  for (size_t i = 0; i < 4; i++) {
    place ends[2];
    polygon_surface_border(surface, i, ends);
    around += hypot(ends[1].x - ends[0].x, ends[1].y - ends[0].y);
  }
  for (size_t i = 0; i < polygon_surface_count(surface); i++) {
    place c[3];
    polygon_surface_triangle(surface, i, c);
    area += fabs((c[1].x - c[0].x) * (c[2].y - c[0].y) - (c[2].x - c[0].x) * (c[1].y - c[0].y)) / 2;
  }
  assert_near(around, 40, 1e-9);
  assert_near(area, 100, 1e-9);
  polygon_surface_free(surface);
}

static void bad_surveys_are_refused(void **state) {
  (void)state;
  const place twice[] = {{0, 0, 0}, {5, 0, 1}, {0, 5, 1}, {5, 0.0005, 1.5}};
  const place line[] = {{0, 0, 0}, {1, 1, 1}, {2, 2, 1}};
  const place odd[] = {{0, 0, 0}, {1, 1, 1}, {2, NOT_A_NUMBER, 1}}, far[] = {{0, 0, 0}, {1, 1, 1}, {2e6, 0, 1}};
  refused(twice, 4, "two points of the survey are at one place");
  refused(line, 3, "the points of the survey lie on one line");
  refused(odd, 3, "a point of the survey is not a place that can be meant");
  refused(far, 3, "a point of the survey is not a place that can be meant");
  refused(PLANE, 2, "a survey has at least three points");
  refused(PLANE, POLYGON_SURFACE_POINTS + 1, "the survey has too many points");
}

static void the_place_of_a_double_point_is_told(void **state) {
  (void)state;
  const place twice[] = {{5, 0, 0}, {0, 0, 1}, {0, 5, 1}, {5, 0, 1.5}};
  struct polygon_problem problem;
  assert_null(polygon_surface_new(twice, 4, &problem));
  assert_int_equal(problem.placed, true);
  assert_near(problem.at.x, 5, 0);
  assert_null(polygon_surface_new(twice, 4, NULL));
}

static void ground_under_the_bottom_is_not_cut(void **state) {
  (void)state;
  assert_equal(cut(PLANE, 5, BOX, 4, 4, 1, ""), 0);
  assert_near(cut(PLANE, 5, BOX, 4, 1.8, 0, ""), 0, 1e-9);
}

static void a_bottom_that_ground_falls_through_is_cut_in_part(void **state) {
  (void)state;
  // the plane 0.1 x + 0.2 y stands at 1.2 to 1.8 over the box; what is over 1.5, summed strip by strip
  const double steps = 2000;
  double sum = 0;
  for (double i = 0.5; i < steps; i++) {
    const double x = 4 + 2 * i / steps, from = fmin(6, fmax(4, (1.5 - 0.1 * x) / 0.2)), h = 0.1 * x + 0.2 * 6 - 1.5;
    const double low = fmax(0, 0.1 * x + 0.2 * from - 1.5);
    sum += (6 - from) * (h + low) / 2 * 2 / steps;
  }
  assert_near(cut(PLANE, 5, BOX, 4, 1.5, 0, ""), sum, 1e-3 * sum);
}

static void a_step_of_level_terraces_is_cut_whole(void **state) {
  (void)state;
  // upper terrace level 2, lower level 1, steep bank between x 4.9 and 5.1: each half of the box counts whole
  const place terraces[] = {{0, 0, 2},   {0, 10, 2},   {4.9, 0, 2}, {4.9, 10, 2},
                            {5.1, 0, 1}, {5.1, 10, 1}, {10, 0, 1},  {10, 10, 1}};
  assert_near(cut(terraces, 8, BOX, 4, 0, 0, ""), 2 * (2 * 0.9 + 1.5 * 0.2 + 1 * 0.9), 1e-2);
}

static void a_survey_that_ends_in_the_pit_is_refused(void **state) {
  (void)state;
  const struct polygon_point beside[] = {{20, 20}, {22, 20}, {22, 22}}, over[] = {{8, 4}, {12, 4}, {12, 6}, {8, 6}};
  assert_no_number(cut(PLANE, 5, beside, 3, -1, 0, "the survey ends inside the pit"));
  assert_no_number(cut(PLANE, 5, over, 4, -1, 0, "the survey ends inside the pit"));
  assert_no_number(cut(PLANE, 5, BOX, 4, -5, 1.5, "the survey ends inside the pit"));
}

static void a_courtyard_pit_leaves_its_middle_standing(void **state) {
  (void)state;
  // a horseshoe whose gap the sides close: inside, ground is left where they have not met; 4 corners of flat ground
  const place flat[] = {{-20, -20, 0}, {20, -20, 0}, {20, 20, 0}, {-20, 20, 0}};
  const struct polygon_point shoe[] = {{-6, -6}, {6, -6},  {6, 6},  {0.1, 6},  {0.1, 5},  {5, 5},
                                       {5, -5},  {-5, -5}, {-5, 5}, {-0.1, 5}, {-0.1, 6}, {-6, 6}};
  // outer square 12 + 2 s wide, inner hole 10 - 2 s, gap gone from s = 0.1 on
  double volume = 0;
  for (int i = 0; i < 1000; i++) {
    const double s = (i + 0.5) / 1000, outer = (12 + 2 * s) * (12 + 2 * s), inner = (10 - 2 * s) * (10 - 2 * s);
    volume += (outer - inner - fmax(0, 0.2 - 2 * s) * (1 + 2 * s)) / 1000;
  }
  assert_near(cut(flat, 4, shoe, 12, -1, 1, ""), volume, 2e-3 * volume);
}

static void holes_are_read_ring_by_ring(void **state) {
  (void)state;
  const struct polygon_point shoe[] = {{-6, -6}, {6, -6},  {6, 6},  {0.1, 6},  {0.1, 5},  {5, 5},
                                       {5, -5},  {-5, -5}, {-5, 5}, {-0.1, 5}, {-0.1, 6}, {-6, 6}};
  struct polygon_problem problem;
  struct polygon *outline = polygon_new(shoe, 12, &problem), *closed = polygon_inset_new(outline, -0.5, &problem);
  struct polygon_point ring[16];
  assert_int_equal(polygon_holes(outline, 0), 0);
  assert_int_equal(polygon_hole(outline, 0, 0, ring, 16), 0);
  assert_int_equal(polygon_holes(closed, 0), 1);
  const size_t count = polygon_hole(closed, 0, 0, ring, 16);
  assert_in_range(count, 4, 16);
  for (size_t i = 0; i < count; i++) assert_near(fmax(fabs(ring[i].x), fabs(ring[i].y)), 4.5, 1e-9);
  assert_int_equal(polygon_holes(closed, 1), 0);
  polygon_free(closed);
  polygon_free(outline);
}

static double flat_cut(double left, double low, double right, double high, const char *trouble) {
  const place flat[] = {{left, low, 0}, {right, low, 0}, {right, high, 0}, {left, high, 0}};
  return cut(flat, 4, BOX, 4, -2, 1, trouble);
}

static void each_side_of_the_survey_must_reach_past_the_pit(void **state) {
  (void)state;
  assert_near(flat_cut(1.8, 1.7, 8.3, 8.2, ""), 2 * (4 + 4 * 16 + 36) / 6., 1e-6);
  assert_no_number(flat_cut(2.5, 1.7, 8.3, 8.2, "the survey ends inside the pit"));
  assert_no_number(flat_cut(1.8, 2.5, 8.3, 8.2, "the survey ends inside the pit"));
  assert_no_number(flat_cut(1.8, 1.7, 7.5, 8.2, "the survey ends inside the pit"));
  assert_no_number(flat_cut(1.8, 1.7, 8.3, 7.5, "the survey ends inside the pit"));
}

static void a_slanted_pit_is_looked_at_along_its_sides(void **state) {
  (void)state;
  // a triangle with its long side at 45 degrees: the corner of the survey beyond that side is near, but outside
  const place corner[] = {{-9, -9, 0}, {4, -9, 0}, {4, 4, 0}, {-9, 4, 0}};
  const place nearer[] = {{-9, -9, 0}, {2.9, -9, 0}, {2.9, 2.9, 0}, {-9, 2.9, 0}};
  const struct polygon_point slanted[] = {{-3, -3}, {3, -3}, {-3, 3}};
  assert_near(cut(corner, 4, slanted, 3, -1, 0, ""), 18, 1e-6);
  assert_near(cut(corner, 4, slanted, 3, -1, 0.1, ""), 18 + (6 + 6 + sqrt(72)) * 0.05 + 5.828427125 * 0.01 / 3, 1e-6);
  assert_no_number(cut(nearer, 4, slanted, 3, -1, 0, "the survey ends inside the pit"));
}

static void low_ground_at_the_border_is_not_in_the_pit(void **state) {
  (void)state;
  // uphill the sides come out inside the survey; downhill they pass over its border in the air. Volume by
  // shapely 1.8.5.
  const place slope[] = {{0, 0, 0}, {0, 31, 6.2}, {30, 0, 3}, {30, 31, 9.2}};
  assert_near(cut(slope, 4, BOX, 4, 0.5, 2, ""), 28.631, 0.029);
}

static void many_points_on_a_plane_change_nothing(void **state) {
  (void)state;
  enum { SIDE = 12 };
  place grid[SIDE * SIDE];
  for (int i = 0; i < SIDE * SIDE; i++) {
    const double x = i % SIDE - 0.5, y = i / SIDE - 0.7;
    grid[i] = (place){x, y, 0.1 * x + 0.2 * y};
  }
  const double few = cut(PLANE, 5, BOX, 4, 0.9, 0.5, ""), many = cut(grid, SIDE * SIDE, BOX, 4, 0.9, 0.5, "");
  assert_near(many, few, 1e-3 * few);
  struct polygon_surface *surface = good(grid, SIDE * SIDE);
  assert_int_equal(polygon_surface_border_count(surface), 4 * (SIDE - 1));
  polygon_surface_free(surface);
}

static void bad_pits_give_no_number(void **state) {
  (void)state;
  assert_no_number(cut(PLANE, 5, BOX, 4, NOT_A_NUMBER, 0, "the pit has no bottom, level or slope"));
  assert_no_number(cut(PLANE, 5, BOX, 4, 0, -1, "the pit has no bottom, level or slope"));
  assert_no_number(cut(PLANE, 5, BOX, 4, 0, ENDLESS, "the pit has no bottom, level or slope"));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_plane_is_a_plane_everywhere),
      cmocka_unit_test(the_border_goes_round_and_the_triangles_fill_it),
      cmocka_unit_test(bad_surveys_are_refused),
      cmocka_unit_test(the_place_of_a_double_point_is_told),
      cmocka_unit_test(ground_under_the_bottom_is_not_cut),
      cmocka_unit_test(a_bottom_that_ground_falls_through_is_cut_in_part),
      cmocka_unit_test(a_step_of_level_terraces_is_cut_whole),
      cmocka_unit_test(a_survey_that_ends_in_the_pit_is_refused),
      cmocka_unit_test(a_courtyard_pit_leaves_its_middle_standing),
      cmocka_unit_test(holes_are_read_ring_by_ring),
      cmocka_unit_test(each_side_of_the_survey_must_reach_past_the_pit),
      cmocka_unit_test(a_slanted_pit_is_looked_at_along_its_sides),
      cmocka_unit_test(low_ground_at_the_border_is_not_in_the_pit),
      cmocka_unit_test(many_points_on_a_plane_change_nothing),
      cmocka_unit_test(bad_pits_give_no_number),
  };
  return cmocka_run_group_tests_name("physics/polygon_surface", tests, NULL, NULL);
}
