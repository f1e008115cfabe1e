// SPDX-License-Identifier: MIT
// Slots, defaults, references and what contradicts itself.
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "design/store.h"

struct fixture {
  struct arena *arena;
  struct problems problems;
  struct store *store;
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

static bool give(struct fixture *f, int entity, enum row_id row, const char *text, int line) {
  return store_write(f->store, &f->problems, entity, row, (struct store_text){text, false, {.line = line}});
}

// The one problem told: its line, and words that it must hold.
static void told(struct fixture *f, int line, const char *words) {
  struct text said = text_in(f->arena);
  problems_write(&said, &f->problems, 9);
  if (f->problems.count != 1) fail_msg("%zu problems: %s", f->problems.count, text_end(&said));
  assert_int_equal(f->problems.list[0].at.line, line);
  if (!strstr(text_end(&said), words)) fail_msg("\"%s\" is not in: %s", words, text_end(&said));
}

// A project and a basin without anything wrong; the basin's givens stand on lines 10 to 14.
static int basin(struct fixture *f, const char *name) {
  int project = store_add(f->store, KIND_project, NULL, 1);
  give(f, project, ROW_project_name, "Test", 1);
  give(f, project, ROW_project_units, "us", 1);
  int it = store_add(f->store, KIND_basin, name, 9);
  give(f, it, ROW_basin_purpose, "display", 10);
  give(f, it, ROW_basin_outline, "circle", 11);
  give(f, store_add_part(f->store, it, ROW_basin_outline, 11), ROW_point_x, "4 ft", 11);
  give(f, it, ROW_basin_rim, "0 in", 12);
  give(f, it, ROW_basin_water_level, "-4 in", 13);
  give(f, it, ROW_basin_depth, "2 ft", 14);
  return it;
}

static void sound_design_settles(void **state) {
  struct fixture *f = *state;
  int it = basin(f, "pool");
  assert_int_equal(store_settle(f->store, &f->problems), true);
  assert_int_equal(store_at(f->store, it, ROW_basin_voids)->condition, CONDITION_DEFAULT);
  assert_int_equal(store_at(f->store, it, ROW_basin_reach)->condition, CONDITION_UNSET);
  assert_int_equal(store_count(f->store, KIND_site), 1);
  int site = store_of_kind(f->store, KIND_site, 0);
  assert_int_equal(store_at(f->store, site, ROW_site_soil)->value, WORD_soil_type_c);
}

static void every_slot_leads_back_to_its_row(void **state) {
  struct fixture *f = *state;
  for (int kind = 0; kind < KIND_COUNT; kind++) store_add(f->store, (enum kind)kind, NULL, 1);
  for (int row = 0; row < ROW_COUNT; row++) {
    int expected = (int)catalogue_row((enum row_id)row)->kind, entity;
    assert_int_equal(store_row_of_slot(f->store, store_slot(f->store, expected, (enum row_id)row), &entity), row);
    assert_int_equal(entity, expected);
  }
}

static void references_and_what_refers(void **state) {
  struct fixture *f = *state;
  int pool = basin(f, "pool"), stone = store_add(f->store, KIND_boulder, "stone", 20);
  give(f, stone, ROW_boulder_length, "4 ft", 20);
  give(f, stone, ROW_boulder_width, "4 ft", 20);
  give(f, stone, ROW_boulder_height, "4 ft", 20);
  give(f, stone, ROW_boulder_beside, "pool", 21);
  assert_int_equal(store_settle(f->store, &f->problems), true);
  assert_int_equal(store_members(f->store, pool, ROW_basin_stones_beside), 1);
  assert_int_equal(store_member(f->store, pool, ROW_basin_stones_beside, 0), stone);
}

static void reference_to_nothing(void **state) {
  struct fixture *f = *state;
  basin(f, "pool");
  int pipe = store_add(f->store, KIND_liner, "sheet", 20);
  give(f, pipe, ROW_liner_of, "pol", 21);
  store_settle(f->store, &f->problems);
  told(f, 21, "\"pool\"");
}

static void reference_to_another_kind(void **state) {
  struct fixture *f = *state;
  basin(f, "pool");
  int liner = store_add(f->store, KIND_liner, "sheet", 20);
  give(f, liner, ROW_liner_of, "sheet", 21);
  store_settle(f->store, &f->problems);
  told(f, 21, "refers to a liner");
}

static void circle_of_places(void **state) {
  struct fixture *f = *state;
  int pool = basin(f, "pool"), stone = store_add(f->store, KIND_boulder, "stone", 20);
  give(f, stone, ROW_boulder_length, "4 ft", 20);
  give(f, stone, ROW_boulder_width, "4 ft", 20);
  give(f, stone, ROW_boulder_height, "4 ft", 20);
  give(f, stone, ROW_boulder_beside, "pool", 21);
  give(f, pool, ROW_basin_in_stone, "stone", 15);
  store_settle(f->store, &f->problems);
  told(f, 21, "circle");
}

static void what_is_needed_is_asked_for(void **state) {
  struct fixture *f = *state;
  basin(f, "pool");
  store_add(f->store, KIND_junction, "tee", 30);
  store_settle(f->store, &f->problems);
  told(f, 30, "height of the joint");
}

struct contradiction {
  enum row_id row;
  const char *text;
  const char *words;
};

static void contradictions_are_told(void **state) {
  static const struct contradiction planted[] = {
      {ROW_basin_rim, "-5 in", "at or under the water"},
      {ROW_basin_gravel_bed, "2 ft", "fills the basin"},
  };
  for (size_t i = 0; i < sizeof planted / sizeof planted[0]; i++) {
    begin(state);
    struct fixture *f = *state;
    int it = basin(f, "pool");
    give(f, it, planted[i].row, planted[i].text, 40);
    store_settle(f->store, &f->problems);
    told(f, 40, planted[i].words);
    if (i + 1 < sizeof planted / sizeof planted[0]) end(state);
  }
}

static void shelf_below_the_bottom(void **state) {
  struct fixture *f = *state;
  int it = basin(f, "pool"), shelf = store_add_part(f->store, it, ROW_basin_shelves, 50);
  give(f, shelf, ROW_shelf_depth, "24 in", 51);
  give(f, shelf, ROW_shelf_width, "12 in", 52);
  store_settle(f->store, &f->problems);
  told(f, 51, "bottom");
}

static void bounds_units_and_words(void **state) {
  static const struct {
    enum row_id row;
    const char *text;
    bool bare;
    const char *words;
  } planted[] = {
      {ROW_basin_depth, "0 in", false, "more than 0 in"},
      {ROW_basin_depth, "2 gal", false, "length"},
      {ROW_basin_depth, "30", true, "30 ft"},
      {ROW_basin_voids, "70 %", false, "at most 60 %"},
      {ROW_basin_reach, "kids", false, "children"},
      {ROW_basin_side_slope, "1:1.5", false, "1.5"},
  };
  for (size_t i = 0; i < sizeof planted / sizeof planted[0]; i++) {
    begin(state);
    struct fixture *f = *state;
    int it = store_add(f->store, KIND_basin, "pool", 1);
    bool written = store_write(f->store, &f->problems, it, planted[i].row,
                               (struct store_text){planted[i].text, planted[i].bare, {.line = 7}});
    assert_int_equal(written, false);
    told(f, 7, planted[i].words);
    if (i + 1 < sizeof planted / sizeof planted[0]) end(state);
  }
}

static void measuring_what_is_not_worked_out(void **state) {
  struct fixture *f = *state;
  int it = basin(f, "pool");
  assert_int_equal(store_measure(f->store, &f->problems, it, "net_volum",
                                 (struct store_text){"20 gal", false, {.line = 8}}, "bucket"),
                   false);
  told(f, 8, "net_volume");
}

static void measuring_in_no_known_way(void **state) {
  struct fixture *f = *state;
  int it = basin(f, "pool");
  assert_int_equal(store_measure(f->store, &f->problems, it, "net_volume",
                                 (struct store_text){"20 gal", false, {.line = 8}}, "thumb"),
                   false);
  told(f, 8, "bucket");
}

#define TEST(function) cmocka_unit_test_setup_teardown(function, begin, end)
int main(void) {
  const struct CMUnitTest tests[] = {
      TEST(sound_design_settles),
      TEST(every_slot_leads_back_to_its_row),
      TEST(references_and_what_refers),
      TEST(reference_to_nothing),
      TEST(reference_to_another_kind),
      TEST(circle_of_places),
      TEST(what_is_needed_is_asked_for),
      cmocka_unit_test_teardown(contradictions_are_told, end),
      TEST(shelf_below_the_bottom),
      cmocka_unit_test_teardown(bounds_units_and_words, end),
      TEST(measuring_what_is_not_worked_out),
      TEST(measuring_in_no_known_way),
  };
  return cmocka_run_group_tests_name("design/store", tests, NULL, NULL);
}
