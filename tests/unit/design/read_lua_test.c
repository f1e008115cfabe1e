// SPDX-License-Identifier: MIT
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "design/read.h"

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

// What a design must have besides what a test is about. One line, so that a test's own text begins at line 2.
#define BASIN                                                                                                 \
  "project { name = 'Test', units = 'us' } basin 'pond' { purpose = 'display', outline = circle { '6 ft' }, " \
  "depth = '20 in', rim = '0 in', water_level = '-4 in' }\n"
#define SOUND "site {} " BASIN

struct outcome {
  struct arena *arena;
  struct problems problems;
  struct store *store;
};

static struct outcome read_bytes(const char *text, size_t length) {
  struct outcome o = {.arena = arena_new()};
  o.problems = problems_in(o.arena);
  struct file_bytes file = {"d.lua", arena_copy(o.arena, text, length), length};
  o.store = design_read(o.arena, &file, &o.problems);
  return o;
}

static struct outcome read_text(const char *text) { return read_bytes(text, strlen(text)); }

static struct outcome read_sound(const char *text) {
  struct outcome o = read_text(text);
  struct text told = text_in(o.arena);
  problems_write(&told, &o.problems, 10);
  if (!o.store) fail_msg("not read: %s", text_end(&told));
  return o;
}

static void close_to(double value, double expected) {
  if (!(fabs(value - expected) <= 1e-12 * (1 + fabs(expected)))) fail_msg("%.17g is not %.17g", value, expected);
}

static const struct slot *slot_of(const struct outcome *o, const char *name, enum row_id row) {
  int entity = store_named(o->store, name, strlen(name));
  assert_int_not_equal(entity, -1);
  return store_at(o->store, entity, row);
}

// Problems of a text: "line: said" and the words that must stand in the one told there.
static void check_one_problem(const char *text, int line, const char *words) {
  struct outcome o = read_text(text);
  struct text told = text_in(o.arena);
  problems_write(&told, &o.problems, 10);
  assert_null(o.store);
  if (o.problems.count != 1 || o.problems.list[0].at.line != line || !strstr(text_end(&told), words))
    fail_msg("expected line %d: %s\ntold:\n%s", line, words, text_end(&told));
  arena_free(o.arena);
}

static void values_stand_in_si_with_their_places(void **state) {
  (void)state;
  struct outcome o =
      read_sound(SOUND "boulder 'stone' { length = '4 ft +/- 2 in',\n width = '30 in', height = '2 ft' }");
  const struct slot *length = slot_of(&o, "stone", ROW_boulder_length),
                    *width = slot_of(&o, "stone", ROW_boulder_width);
  close_to(length->value, 4 * 0.3048);
  close_to(length->tolerance, 2 * 0.0254);
  assert_int_equal(length->line, 2);
  assert_int_equal(width->line, 3);
  assert_int_equal(width->to - width->from, strlen("'30 in'"));
  arena_free(o.arena);
}

static void reckoned_values_keep_their_value_and_tolerance(void **state) {
  (void)state;
  struct outcome o =
      read_sound(SOUND
                 "local w = q'1 ft 6 in'\nboulder 'stone' { length = w * 2 + q'1 in', width = q'2 ft +/- 1 in',\n"
                 "  height = 2 * w, density = q'165 lb/ft3' }\ndig 'pit' { of = 'pond', slope = q'1.5H:1V' }\n"
                 "jet 'j' { basin = 'pond', at = -q'3 in', orifice = '5/8 in', count = 6 / 2 }");
  close_to(slot_of(&o, "stone", ROW_boulder_length)->value, 37 * 0.0254);
  close_to(slot_of(&o, "stone", ROW_boulder_width)->value, 24 * 0.0254);
  close_to(slot_of(&o, "stone", ROW_boulder_width)->tolerance, 0.0254);
  close_to(slot_of(&o, "stone", ROW_boulder_height)->value, 36 * 0.0254);
  // 1 lb = 0.45359237 kg, 1 ft = 0.3048 m, both by definition.
  close_to(slot_of(&o, "stone", ROW_boulder_density)->value, 165 * 0.45359237 / (0.3048 * 0.3048 * 0.3048));
  close_to(slot_of(&o, "pit", ROW_dig_slope)->value, 1.5);
  close_to(slot_of(&o, "j", ROW_jet_at)->value, -3 * 0.0254);
  close_to(slot_of(&o, "j", ROW_jet_count)->value, 3);
  arena_free(o.arena);
}

static void entities_stand_in_the_order_of_their_calls(void **state) {
  (void)state;
  struct outcome o = read_sound(
      "basin 'b' { purpose = 'bowl', outline = ellipse { '5 ft', '4 ft' }, depth = '1 ft', rim = '1 in', water_level = "
      "'0 in' }\n"
      "for i = 1, 2 do machine('m' .. i) { width = '3 ft' } end\nproject { name = 'x', units = 'si' }");
  assert_int_equal(o.store->entities[0].kind, KIND_basin);
  assert_int_equal(o.store->entities[1].kind, KIND_point);
  assert_string_equal(o.store->entities[2].name, "m1");
  assert_string_equal(o.store->entities[3].name, "m2");
  assert_int_equal(o.store->entities[3].at.line, 2);
  assert_int_equal(o.store->entities[4].kind, KIND_project);
  arena_free(o.arena);
}

static void parts_take_names_or_positions(void **state) {
  (void)state;
  struct outcome o = read_sound(SOUND
                                "pump 'p' { from = 'pond', type = 'dry', curve = { {'0 gal/h', '10 ft'}, { head = '0 "
                                "ft', flow = '900 gal/h' } } }");
  int pump = store_named(o.store, "p", 1);
  assert_int_equal(store_members(o.store, pump, ROW_pump_curve), 2);
  int second = store_member(o.store, pump, ROW_pump_curve, 1);
  // 1 US gallon = 231 in3, by definition.
  close_to(store_at(o.store, second, ROW_curve_point_flow)->value, 900 * 231 * 0.0254 * 0.0254 * 0.0254 / 3600);
  close_to(store_at(o.store, second, ROW_curve_point_head)->value, 0);
  arena_free(o.arena);
}

static void shapes_keep_their_word_and_points(void **state) {
  (void)state;
  struct outcome o = read_sound(SOUND
                                "basin 'r' { purpose = 'bowl', outline = rectangle { '5 ft', '4 ft' }, depth = '1 ft', "
                                "rim = '1 in', water_level = '0 in' }");
  int pond = store_named(o.store, "pond", 4), r = store_named(o.store, "r", 1);
  close_to(store_at(o.store, pond, ROW_basin_outline)->value, WORD_shape_circle);
  close_to(store_at(o.store, store_member(o.store, pond, ROW_basin_outline, 0), ROW_point_x)->value, 6 * 0.3048);
  close_to(store_at(o.store, r, ROW_basin_outline)->value, WORD_shape_rectangle);
  assert_int_equal(store_members(o.store, r, ROW_basin_outline), 1);
  close_to(store_at(o.store, store_member(o.store, r, ROW_basin_outline, 0), ROW_point_y)->value, 4 * 0.3048);
  arena_free(o.arena);
}

static void a_value_in_a_loop_has_the_line_of_its_constructor(void **state) {
  (void)state;
  check_one_problem(SOUND
                    "for i = 1, 1 do\n  machine('digger ' .. i) {\n    height = '8 ft',\n    width = '3 gal' }\nend",
                    3, "machine \"digger 1\".width: gal is a volume");
}

static void values_from_elsewhere_have_the_line_that_leads_there(void **state) {
  (void)state;
  check_one_problem(SOUND
                    "local curve = { {'0 gal/h', '9 ft'}, {'900 gal/h', '9 gal'} }\n"
                    "pump 'p' { from = 'pond', type = 'dry',\n curve = curve }",
                    4, "curve[2].head");
}

static void all_problems_are_told_in_one_go_and_in_order(void **state) {
  (void)state;
  struct outcome o = read_text(
      SOUND "machine 'a' { width = 3 }\nmachne 'b' {}\nmachine 'c' { widht = '3 ft', width = '3 ft' }\nmachine 'd' {}");
  assert_null(o.store);
  assert_int_equal(o.problems.count, 4);
  for (int i = 0; i < 4; i++) assert_int_equal(o.problems.list[i].at.line, i + 2);
  arena_free(o.arena);
}

static void after_an_error_of_running_only_that_and_what_was_recorded_is_told(void **state) {
  (void)state;
  struct outcome o =
      read_text(SOUND "machine 'a' { width = 3 }\nmachne 'b' {}\nlocal x = nil + 1\nmachine 'c' { width = 4 }");
  assert_null(o.store);
  assert_int_equal(o.problems.count, 2);
  assert_int_equal(o.problems.list[0].at.line, 3);
  assert_int_equal(o.problems.list[1].at.line, 4);
  arena_free(o.arena);
}

static void what_is_no_text_is_refused_with_a_reason(void **state) {
  (void)state;
  static const struct {
    const char *bytes, *words;
    size_t length;
    int line;
  } cases[] = {{"", "empty", 0, 0},
               {" \n\xEF", "no UTF-8", 3, 2},
               {"\xEF\xBB\xBF \n", "empty", 5, 0},
               {"x = 1\n\xFF\xFE", "no UTF-8", 8, 2},
               {"project\0", "zero bytes", 8, 0},
               {"\x1BLua", "", 4, 0}};
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    struct outcome o = read_bytes(cases[i].bytes, cases[i].length);
    assert_null(o.store);
    assert_int_equal(o.problems.count, 1);
    assert_int_equal(o.problems.list[0].at.line, cases[i].line);
    assert_non_null(strstr(o.problems.list[0].said, cases[i].words));
    arena_free(o.arena);
  }
}

static void a_byte_order_mark_is_no_problem(void **state) {
  (void)state;
  struct outcome o = read_sound("\xEF\xBB\xBF" SOUND);
  arena_free(o.arena);
}

static void a_design_needs_a_project_and_a_basin(void **state) {
  (void)state;
  check_one_problem("project { name = 'x', units = 'us' }", 0, "there is no basin");
  struct outcome o = read_text("-- nothing\n");
  assert_int_equal(o.problems.count, 2);
  assert_string_equal(o.problems.list[0].said, "there is no project");
  arena_free(o.arena);
}

static void words_used_wrongly_are_told_and_reading_goes_on(void **state) {
  (void)state;
  check_one_problem(SOUND "machine 'a'", 2, "machine \"a\": has no table of givens");
  check_one_problem(SOUND "machine { width = '3 ft' }", 2, "`machine` stands without a name");
  check_one_problem(SOUND "machine 'a' { width = '3 ft' } { height = '8 ft' }", 2, "has two tables");
  check_one_problem(SOUND "machine 'a' '3 ft'", 2, "is followed by no table");
  check_one_problem(SOUND "machine(3) { width = '3 ft' }", 2, "`machine` stands without a name");
  check_one_problem(BASIN "site 'x' {}", 2, "`site` takes no name");
  check_one_problem(SOUND "\nmachine '' { width = '3 ft' }", 3, "empty name");
  check_one_problem(SOUND "machine 'a[1]' { width = '3 ft' }", 2, ". or [");
  check_one_problem(SOUND "machine 'a\\nb' { width = '3 ft' }", 2, "control characters");
  check_one_problem(SOUND "machine 'a\\0b' { width = '3 ft' }", 2, "control characters");
  check_one_problem(SOUND "machine 'pond' { width = '3 ft' }", 2, "used already");
}

static void values_of_the_wrong_sort_are_told(void **state) {
  (void)state;
  check_one_problem(SOUND "machine 'a' { width = true }", 2, "is true without quotes");
  check_one_problem(SOUND "machine 'a' { width = ipairs }", 2, "is a function");
  check_one_problem(SOUND "machine 'a' { width = {} }", 2, "is a list in braces");
  check_one_problem(SOUND "machine 'a' { width = circle { '3 ft' } }", 2, "is a shape, circle");
  check_one_problem(SOUND "machine 'a' { width = '3 ft', '8 ft' }", 2, "without its name");
  check_one_problem(SOUND "machine 'a' { width = '3 ft', [true] = '8 ft' }", 2, "not known here");
  check_one_problem(SOUND "machine 'a' { width = '3 ft', [1.5] = '8 ft' }", 2, "not known here");
  check_one_problem(SOUND "machine 'a' { width = '3\\0 ft' }", 2, "control characters");
  check_one_problem(SOUND "machine 'a' { width = '3 ft', ['width\\0'] = '8 ft' }", 2, "not known here");
  check_one_problem(SOUND "machine 'a' { width = '3 ft', lifts = { '6 ft' } }", 2,
                    "lifts[1]: is one text where a part");
  check_one_problem(SOUND "machine 'a' { width = q'3 ft' * q'1 ft' }", 2, "machine \"a\".width");
  check_one_problem(SOUND "machine 'a' { width = 1/0 }", 2, "bare number");
  check_one_problem(SOUND "circuit 'c' { volts = '120 V', feeds = {} }", 2, "empty list");
  check_one_problem(SOUND "machine 'a' { width = '3 ft', measured = '3 ft' }", 2, "`measured` names no value");
  check_one_problem(SOUND "machine 'a' { width = '3 ft', measured = { with = 'tape' } }", 2,
                    "`measured` names no value");
}

static void what_never_ends_is_stopped(void **state) {
  (void)state;
  check_one_problem(SOUND "while true do end", 2, "");
  check_one_problem(SOUND "local function f() return 1 + f() end f()", 2, "a chain of calls");
  check_one_problem(SOUND "for i = 1, 6000 do machine('m' .. i) { width = '3 ft' } end", 2, "more than 5000 entities");
}

// Each table holds the last one twice: 2^40 values for one who follows them all.
static void tables_shared_without_measure_are_stopped(void **state) {
  (void)state;
  struct outcome o =
      read_text(SOUND
                "local t = { {'0 gal/h', '9 ft'} }\nfor i = 1, 40 do t = { t, t, t, t, t, t, t, t, t, t } end\n"
                "pump 'p' { from = 'pond', type = 'dry', curve = t }");
  assert_null(o.store);
  assert_in_range(o.problems.count, 1, 2000);
  arena_free(o.arena);
}

static void read_whole(void *with) {
  struct outcome *o = with;
  static const char text[] =
      SOUND "local w = q'3 ft'\nmachine 'a' { width = w }\nmachne 'b' {}\nmachine 'c' { depth = 3 }";
  struct file_bytes file = {"d.lua", text, sizeof text - 1};
  o->store = design_read(o->arena, &file, &o->problems);
}

static bool survives(long nth) {
  struct outcome o = {.arena = arena_new()};
  o.problems = problems_in(o.arena);
  arena_fail_nth(nth);
  bool done = arena_try(o.arena, read_whole, &o);
  arena_fail_nth(0);
  assert_null(o.store);
  bool whole = done && o.problems.count == 3 && !strstr(o.problems.list[0].said, "memory");
  arena_free(o.arena);
  return !whole;
}

static void every_allocation_may_fail(void **state) {
  (void)state;
  long nth = 1;
  while (nth < 100000 && survives(nth)) nth += nth < 200 ? 1 : 7;
  assert_in_range(nth, 100, 99999);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(values_stand_in_si_with_their_places),
      cmocka_unit_test(reckoned_values_keep_their_value_and_tolerance),
      cmocka_unit_test(entities_stand_in_the_order_of_their_calls),
      cmocka_unit_test(parts_take_names_or_positions),
      cmocka_unit_test(shapes_keep_their_word_and_points),
      cmocka_unit_test(a_value_in_a_loop_has_the_line_of_its_constructor),
      cmocka_unit_test(values_from_elsewhere_have_the_line_that_leads_there),
      cmocka_unit_test(all_problems_are_told_in_one_go_and_in_order),
      cmocka_unit_test(after_an_error_of_running_only_that_and_what_was_recorded_is_told),
      cmocka_unit_test(what_is_no_text_is_refused_with_a_reason),
      cmocka_unit_test(a_byte_order_mark_is_no_problem),
      cmocka_unit_test(a_design_needs_a_project_and_a_basin),
      cmocka_unit_test(words_used_wrongly_are_told_and_reading_goes_on),
      cmocka_unit_test(values_of_the_wrong_sort_are_told),
      cmocka_unit_test(what_never_ends_is_stopped),
      cmocka_unit_test(tables_shared_without_measure_are_stopped),
      cmocka_unit_test(every_allocation_may_fail),
  };
  return cmocka_run_group_tests_name("design/read_lua", tests, NULL, NULL);
}
