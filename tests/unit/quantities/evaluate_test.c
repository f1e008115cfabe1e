// SPDX-License-Identifier: MIT
// What the evaluator promises: once, on first read, with the reads kept; missing sticks; who is to blame.
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "quantities/read.h"

static void near_to(double value, double expected, double near) {
  if (!(fabs(value - expected) <= near)) fail_msg("%.12g is not %.12g", value, expected);
}

struct fixture {
  struct arena *arena;
  struct problems problems;
  struct store *store;
  struct evaluation *ev;
};

static int begin(void **state) {
  struct arena *arena = arena_new();
  struct fixture *f = arena_alloc(arena, sizeof *f);
  *f = (struct fixture){.arena = arena, .problems = problems_in(arena), .store = store_in(arena, "test.lua")};
  *state = f;
  return 0;
}

static int end(void **state) {
  struct fixture *f = *state;
  arena_free(f->arena);
  return 0;
}

static void give(struct fixture *f, int entity, enum row_id row, const char *text) {
  struct store_text written = {text, false, {.line = 10 + entity}};
  if (!store_write(f->store, &f->problems, entity, row, written)) fail_msg("%s", text);
}

static void settle(struct fixture *f) {
  if (!store_settle_example(f->store, &f->problems)) {
    struct text said = text_in(f->arena);
    problems_write(&said, &f->problems, 9);
    fail_msg("%s", text_end(&said));
  }
  f->ev = evaluation_in(f->arena, f->store, &f->problems);
}

static int round_basin(struct fixture *f, const char *name) {
  int basin = store_add(f->store, KIND_basin, name, 3);
  give(f, basin, ROW_basin_outline, "circle");
  give(f, store_add_part(f->store, basin, ROW_basin_outline, 3), ROW_point_x, "4 ft");
  give(f, basin, ROW_basin_rim, "3 in");
  give(f, basin, ROW_basin_water_level, "0 in");
  give(f, basin, ROW_basin_depth, "2 ft");
  return basin;
}

static bool names_slot(struct fixture *f, const int *slots, size_t count, int entity, enum row_id row) {
  for (size_t i = 0; i < count; i++) {
    if (slots[i] == store_slot(f->store, entity, row)) return true;
  }
  return false;
}

static void unset_is_missing_and_blamed(void **state) {
  struct fixture *f = *state;
  int stone = store_add(f->store, KIND_boulder, "stone", 5);
  give(f, stone, ROW_boulder_height, "4 ft");
  settle(f);
  assert_int_equal(evaluation_condition(f->ev, stone, ROW_boulder_embedded_share), CONDITION_MISSING);
  assert_int_equal(isnan(evaluation_number(f->ev, stone, ROW_boulder_embedded_share)), 1);
  struct reader reader;
  int *roots;
  evaluation_begin(f->ev, &reader);
  evaluation_number(f->ev, stone, ROW_boulder_top);
  evaluation_end(f->ev);
  assert_int_equal(reader.missing, true);
  assert_int_equal(evaluation_roots(f->ev, reader.reads, reader.count, &roots), 1);
  assert_int_equal(roots[0], store_slot(f->store, stone, ROW_boulder_embedment));
}

static void an_absent_reference_is_missing(void **state) {
  struct fixture *f = *state;
  int stone = store_add(f->store, KIND_boulder, "stone", 5);
  give(f, stone, ROW_boulder_height, "4 ft");
  give(f, stone, ROW_boulder_embedment, "1 ft");
  settle(f);
  assert_int_equal(evaluation_condition(f->ev, stone, ROW_boulder_over_nearest_lip), CONDITION_MISSING);
}

static void measured_stands_in_and_both_are_kept(void **state) {
  struct fixture *f = *state;
  int basin = round_basin(f, "pool");
  assert_int_equal(store_measure(f->store, &f->problems, basin, "gross_volume",
                                 (struct store_text){"200 gal", false, {.line = 9}}, "meter"),
                   true);
  settle(f);
  assert_int_equal(evaluation_condition(f->ev, basin, ROW_basin_gross_volume), CONDITION_MEASURED);
  double gallon = 231 * 0.0254 * 0.0254 * 0.0254;
  near_to(evaluation_number(f->ev, basin, ROW_basin_gross_volume), 200 * gallon, 1e-9);
  near_to(evaluation_unmeasured(f->ev, basin, ROW_basin_gross_volume), 3.14159265 * 0.6096 * 0.6096 * 0.6096, 1e-6);
  near_to(evaluation_number(f->ev, basin, ROW_basin_net_volume), 200 * gallon, 1e-9);
}

static void reads_are_kept_in_order(void **state) {
  struct fixture *f = *state;
  int basin = round_basin(f, "pool");
  settle(f);
  const int *reads;
  evaluation_number(f->ev, basin, ROW_basin_freeboard);
  size_t count = evaluation_reads(f->ev, store_slot(f->store, basin, ROW_basin_freeboard), &reads);
  assert_int_equal(count, 2);
  assert_int_equal(reads[0], store_slot(f->store, basin, ROW_basin_rim));
  assert_int_equal(reads[1], store_slot(f->store, basin, ROW_basin_water_level));
}

static void a_crossing_outline_is_told_at_its_line(void **state) {
  struct fixture *f = *state;
  static const char *const points[4][2] = {{"0 ft", "0 ft"}, {"4 ft", "4 ft"}, {"4 ft", "0 ft"}, {"0 ft", "4 ft"}};
  int basin = store_add(f->store, KIND_basin, "bow", 3);
  store_write(f->store, &f->problems, basin, ROW_basin_outline, (struct store_text){"polygon", false, {.line = 77}});
  for (int i = 0; i < 4; i++) {
    int point = store_add_part(f->store, basin, ROW_basin_outline, 77);
    give(f, point, ROW_point_x, points[i][0]);
    give(f, point, ROW_point_y, points[i][1]);
  }
  give(f, basin, ROW_basin_rim, "3 in");
  give(f, basin, ROW_basin_water_level, "0 in");
  give(f, basin, ROW_basin_depth, "2 ft");
  settle(f);
  assert_int_equal(evaluation_condition(f->ev, basin, ROW_basin_water_area), CONDITION_IMPOSSIBLE);
  assert_int_equal(evaluation_condition(f->ev, basin, ROW_basin_net_volume), CONDITION_IMPOSSIBLE);
  assert_int_equal(f->problems.count, 1);
  assert_int_equal(f->problems.list[0].at.line, 77);
}

static void two_spills_round_a_circle_are_told(void **state) {
  struct fixture *f = *state;
  int first = round_basin(f, "first"), second = round_basin(f, "second");
  int spills[2];
  for (int i = 0; i < 2; i++) {
    spills[i] = store_add(f->store, KIND_spill, i ? "back" : "on", 20 + i);
    give(f, spills[i], ROW_spill_crest, "0 in");
    give(f, spills[i], ROW_spill_lip, "thin edge");
    give(f, spills[i], ROW_spill_lip_width, "10 in");
    store_refer(f->store, spills[i], ROW_spill_from, i ? second : first);
    store_refer(f->store, spills[i], ROW_spill_into, i ? first : second);
  }
  settle(f);
  assert_int_equal(evaluation_condition(f->ev, spills[0], ROW_spill_flow), CONDITION_IMPOSSIBLE);
  assert_int_equal(f->problems.count, 1);
  assert_non_null(strstr(f->problems.list[0].said, "depends on itself"));
  assert_non_null(strstr(f->problems.list[0].said, "spill \"back\".flow"));
}

static void doubt_travels(void **state) {
  struct fixture *f = *state;
  int basin = round_basin(f, "bowl"), spill = store_add(f->store, KIND_spill, "lip", 20);
  give(f, spill, ROW_spill_crest, "0 in");
  give(f, spill, ROW_spill_lip, "broad stone");
  give(f, spill, ROW_spill_lip_width, "12 in");
  store_refer(f->store, spill, ROW_spill_from, basin);
  assert_int_equal(store_measure(f->store, &f->problems, spill, "flow",
                                 (struct store_text){"600 gal/h", false, {.line = 20}}, "bucket"),
                   true);
  settle(f);
  assert_int_equal(evaluation_condition(f->ev, spill, ROW_spill_head_high), CONDITION_OUTSIDE);
  assert_int_equal(evaluation_in_doubt(f->ev, basin, ROW_basin_lip_storage), true);
  assert_int_equal(evaluation_in_doubt(f->ev, spill, ROW_spill_flow_per_width), false);
}

// 300 ft over the datum: the difference of two heights carries their rounding.
static void the_scale_is_that_of_the_terms(void **state) {
  struct fixture *f = *state;
  int basin = round_basin(f, "pool");
  give(f, basin, ROW_basin_rim, "300 ft");
  give(f, basin, ROW_basin_water_level, "299 ft 10 in");
  settle(f);
  near_to(evaluation_scale(f->ev, basin, ROW_basin_freeboard), 300 * 0.3048, 1e-9);
  near_to(evaluation_number(f->ev, basin, ROW_basin_freeboard), 2 * 0.0254, 1e-9);
}

static void a_list_read_by_a_reader_is_kept(void **state) {
  struct fixture *f = *state;
  int basin = round_basin(f, "pool");
  settle(f);
  struct reader reader;
  evaluation_begin(f->ev, &reader);
  assert_int_equal(evaluation_members(f->ev, basin, ROW_basin_shelves), 0);
  assert_int_equal(evaluation_stated(f->ev, basin, ROW_basin_fill_flow), false);
  evaluation_end(f->ev);
  assert_int_equal(reader.missing, false);
  assert_int_equal(names_slot(f, reader.reads, reader.count, basin, ROW_basin_shelves), true);
  assert_int_equal(names_slot(f, reader.reads, reader.count, basin, ROW_basin_fill_flow), true);
}

#define TEST(function) cmocka_unit_test_setup_teardown(function, begin, end)
int main(void) {
  const struct CMUnitTest tests[] = {
      TEST(unset_is_missing_and_blamed),
      TEST(an_absent_reference_is_missing),
      TEST(measured_stands_in_and_both_are_kept),
      TEST(reads_are_kept_in_order),
      TEST(a_crossing_outline_is_told_at_its_line),
      TEST(two_spills_round_a_circle_are_told),
      TEST(doubt_travels),
      TEST(the_scale_is_that_of_the_terms),
      TEST(a_list_read_by_a_reader_is_kept),
  };
  return cmocka_run_group_tests_name("quantities/evaluate", tests, NULL, NULL);
}
