// SPDX-License-Identifier: MIT
#include "physics/polygon.h"

#include "near.h"

static const struct polygon_point SQUARE[] = {{0, 0}, {4, 0}, {4, 4}, {0, 4}};
static const struct polygon_point CLOSED[] = {{0, 0}, {0, 4}, {4, 4}, {4, 0}, {0, 0}};
static const struct polygon_point BOW_TIE[] = {{0, 0}, {4, 4}, {4, 0}, {0, 4}};
static const struct polygon_point DUMB_BELL[] = {{0, 0},  {4, 0}, {4, 1.5}, {6, 1.5}, {6, 0}, {10, 0},
                                                 {10, 4}, {6, 4}, {6, 2.5}, {4, 2.5}, {4, 4}, {0, 4}};

static struct polygon *made(const struct polygon_point *points, size_t count) {
  struct polygon_problem problem = {.text = ""};
  struct polygon *polygon = polygon_new(points, count, &problem);
  assert_string_equal(problem.text, "");
  assert_non_null(polygon);
  return polygon;
}

static void assert_refused(const struct polygon_point *points, size_t count, const char *text) {
  struct polygon_problem problem = {.text = ""};
  assert_null(polygon_new(points, count, &problem));
  assert_string_equal(problem.text, text);
}

static void either_way_round_and_closed_or_not(void **state) {
  (void)state;
  struct polygon *one = made(SQUARE, 4), *other = made(CLOSED, 5);
  assert_equal(polygon_area(one), 16);
  assert_equal(polygon_area(other), 16);
  assert_equal(polygon_perimeter(other), 16);
  polygon_free(one);
  polygon_free(other);
}

static void a_crossing_is_told_with_its_place(void **state) {
  (void)state;
  struct polygon_problem problem;
  assert_null(polygon_new(BOW_TIE, 4, &problem));
  assert_string_equal(problem.text, "the outline crosses or touches itself");
  assert_int_equal(problem.placed, 1);
  assert_near(problem.at.x, 2, 1e-12);
  assert_near(problem.at.y, 2, 1e-12);
}

static void degenerate_outlines_are_refused(void **state) {
  (void)state;
  const struct polygon_point line[] = {{0, 0}, {1, 0}, {2, 0}}, dot[] = {{1, 1}, {1, 1}, {1, 1}, {1, 1}};
  const struct polygon_point lost[] = {{0, 0}, {NOT_A_NUMBER, 0}, {1, 1}}, far[] = {{0, 0}, {1e9, 0}, {1, 1}};
  struct polygon_problem problem;
  assert_refused(SQUARE, 0, "an outline has at least three points");
  assert_refused(SQUARE, 2, "an outline has at least three points");
  assert_refused(lost, 3, "a point of the outline is not a number");
  assert_refused(far, 3, "a point of the outline is too far away to be meant");
  assert_refused(dot, 4, "the outline has no area");
  assert_null(polygon_new(line, 3, &problem));
  assert_null(polygon_new(line, 3, NULL));
}

static void repeated_points_do_no_harm(void **state) {
  (void)state;
  const struct polygon_point twice[] = {{0, 0}, {0, 0}, {4, 0}, {4, 4}, {4, 4}, {0, 4}, {0, 0}};
  struct polygon *polygon = made(twice, 7);
  assert_equal(polygon_area(polygon), 16);
  polygon_free(polygon);
}

static void an_inset_past_the_middle_leaves_nothing(void **state) {
  (void)state;
  struct polygon *polygon = made(SQUARE, 4);
  struct polygon_inset inset;
  struct polygon_problem problem = {.text = "unset"};
  assert_int_equal(polygon_inset(polygon, 2.5, &inset, &problem), 1);
  assert_equal(inset.area, 0);
  assert_equal(inset.perimeter, 0);
  assert_int_equal(inset.pieces, 0);
  assert_null(polygon_inset_new(polygon, 2.5, &problem));
  assert_string_equal(problem.text, "");
  polygon_free(polygon);
}

static void a_mad_distance_is_refused(void **state) {
  (void)state;
  struct polygon *polygon = made(SQUARE, 4);
  struct polygon_inset inset;
  struct polygon_problem problem;
  assert_int_equal(polygon_inset(polygon, NOT_A_NUMBER, &inset, &problem), 0);
  assert_string_equal(problem.text, "an outline cannot be moved by that distance");
  assert_int_equal(polygon_inset(polygon, -1e300, &inset, &problem), 0);
  assert_null(polygon_inset_new(polygon, ENDLESS, &problem));
  assert_string_equal(problem.text, "an outline cannot be moved by that distance");
  polygon_free(polygon);
}

static void no_distance_changes_nothing(void **state) {
  (void)state;
  struct polygon *polygon = made(DUMB_BELL, 12);
  struct polygon_inset inset;
  assert_int_equal(polygon_inset(polygon, 0, &inset, NULL), 1);
  assert_near(inset.area, polygon_area(polygon), 1e-12);
  assert_int_equal(inset.pieces, 1);
  polygon_free(polygon);
}

static void the_pieces_of_an_inset_can_be_read(void **state) {
  (void)state;
  struct polygon *outline = made(DUMB_BELL, 12), *moved = polygon_inset_new(outline, 0.6, NULL);
  struct polygon_point ring[8] = {{0, 0}};
  assert_non_null(moved);
  assert_int_equal(polygon_pieces(moved), 2);
  for (size_t piece = 0; piece < 2; piece++) {
    // the cut through the neck may leave points on a straight side
    const size_t count = polygon_ring(moved, piece, ring, 8);
    assert_in_range(count, 4, 8);
    struct polygon *part = made(ring, count);
    assert_near(polygon_area(part), 2.8 * 2.8, 1e-12);
    polygon_free(part);
  }
  assert_int_equal(polygon_ring(moved, 2, ring, 8), 0);
  polygon_free(outline);
  assert_near(polygon_area(moved), 15.68, 1e-12);  // stands on its own
  polygon_free(moved);
}

static void a_ring_writes_no_more_than_there_is_room_for(void **state) {
  (void)state;
  struct polygon *polygon = made(SQUARE, 4);
  struct polygon_point ring[3] = {{-7, -7}, {-7, -7}, {-7, -7}};
  assert_int_equal(polygon_ring(polygon, 0, ring, 2), 4);
  assert_equal(ring[2].x, -7);
  assert_int_equal(polygon_ring(polygon, 0, NULL, 0), 4);
  polygon_free(polygon);
}

static void extents_do_not_depend_on_how_the_outline_is_turned(void **state) {
  (void)state;
  for (int step = 0; step < 11; step++) {
    const double turn = step * 0.3;
    const double c = cos(turn), s = sin(turn);
    const struct polygon_point turned[] = {{0, 0}, {5 * c, 5 * s}, {5 * c - 2 * s, 5 * s + 2 * c}, {-2 * s, 2 * c}};
    struct polygon *polygon = made(turned, 4);
    struct polygon_extents extents;
    assert_int_equal(polygon_extents(polygon, &extents, NULL), 1);
    assert_near(extents.length, 5, 1e-9);
    assert_near(extents.width, 2, 1e-9);
    assert_near(sin(extents.angle - turn), 0, 1e-9);
    polygon_free(polygon);
  }
}

static void nothing_can_be_freed(void **state) {
  (void)state;
  polygon_free(NULL);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(either_way_round_and_closed_or_not),
      cmocka_unit_test(a_crossing_is_told_with_its_place),
      cmocka_unit_test(degenerate_outlines_are_refused),
      cmocka_unit_test(repeated_points_do_no_harm),
      cmocka_unit_test(an_inset_past_the_middle_leaves_nothing),
      cmocka_unit_test(a_mad_distance_is_refused),
      cmocka_unit_test(no_distance_changes_nothing),
      cmocka_unit_test(the_pieces_of_an_inset_can_be_read),
      cmocka_unit_test(a_ring_writes_no_more_than_there_is_room_for),
      cmocka_unit_test(nothing_can_be_freed),
      cmocka_unit_test(extents_do_not_depend_on_how_the_outline_is_turned),
  };
  return cmocka_run_group_tests_name("physics/polygon", tests, NULL, NULL);
}
