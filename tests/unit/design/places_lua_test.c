// SPDX-License-Identifier: MIT
#include <string.h>

#include "design/places.h"

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

struct scanned {
  struct arena *arena;
  struct problems problems;
  const char *text;
  struct places *places;
};

static struct scanned scan(const char *text) {
  struct scanned s = {.arena = arena_new(), .text = text};
  s.problems = problems_in(s.arena);
  s.places = places_of_lua(s.arena, "d.lua", text, strlen(text), &s.problems);
  return s;
}

// The line and the very bytes of a value.
static void check(struct scanned *s, const char *kind, const char *name, int line, const char *path, int at_line,
                  const char *bytes) {
  struct value_place place = {0};
  if (!places_find(s->places, kind, name, line, path, &place)) fail_msg("%s is not found", path);
  assert_int_equal(place.line, at_line);
  assert_string_equal(arena_copy(s->arena, s->text + place.from, place.to - place.from), bytes);
}

static void check_absent(struct scanned *s, const char *kind, const char *name, int line, const char *path) {
  struct value_place place;
  assert_int_equal(places_find(s->places, kind, name, line, path, &place), false);
}

static void values_stand_where_they_were_written(void **state) {
  (void)state;
  struct scanned s = scan(
      "site { soil = \"type B\",\n  storm = { depth = \"1 in\" } }\n"
      "basin \"low\" {\n  depth = \"30 in\", -- not depth = 3\n"
      "  shelves = { { width = \"1 ft\" },\n    { width = '14 in' }, }, }\n");
  check(&s, "site", NULL, 0, "soil", 1, "\"type B\"");
  check(&s, "site", NULL, 1, "storm.depth", 2, "\"1 in\"");
  check(&s, "basin", "low", 3, "depth", 4, "\"30 in\"");
  check(&s, "basin", "low", 0, "shelves[2].width", 6, "'14 in'");
  check(&s, "basin", "low", 0, "shelves[1]", 5, "{ width = \"1 ft\" }");
  check_absent(&s, "basin", "low", 0, "shelves[3].width");
  check_absent(&s, "basin", "low", 0, "width");
  check_absent(&s, "basin", "high", 0, "depth");
  check_absent(&s, "basin", "low", 9, "depth");
  check_absent(&s, "bassin", "low", 0, "depth");
  assert_int_equal(s.problems.count, 0);
  arena_free(s.arena);
}

static void the_empty_path_is_the_constructor(void **state) {
  (void)state;
  struct scanned s = scan("\nbasin \"low\"\n{ depth = \"1 ft\" } local x = 1");
  check(&s, "basin", "low", 2, "", 2, "basin \"low\"\n{ depth = \"1 ft\" }");
  check(&s, "basin", "low", 3, "", 2, "basin \"low\"\n{ depth = \"1 ft\" }");
  arena_free(s.arena);
}

static void a_shape_is_no_step_of_the_path(void **state) {
  (void)state;
  struct scanned s = scan(
      "basin 'a' { outline = polygon {\n{'0 ft','1 ft'},\n{'2 ft','3 ft'} } }\n"
      "basin 'b' { outline = circle({ '6 ft' }), depth = '1 ft' }");
  check(&s, "basin", "a", 0, "outline[2][1]", 3, "'2 ft'");
  check(&s, "basin", "a", 0, "outline", 1, "polygon {\n{'0 ft','1 ft'},\n{'2 ft','3 ft'} }");
  check(&s, "basin", "b", 0, "outline[1]", 4, "'6 ft'");
  check(&s, "basin", "b", 0, "outline", 4, "circle({ '6 ft' })");
  check(&s, "basin", "b", 0, "depth", 4, "'1 ft'");
  arena_free(s.arena);
}

static void a_computed_value_is_all_of_its_expression(void **state) {
  (void)state;
  struct scanned s = scan(
      "local w = q\"3 in\"\nbasin 'a' { depth = (w + q\"1 in\") * 2, rim = f{1, 2}[1],\n"
      "  gravel_bed = (function(a, b) return a end)(1, 2), voids = '40 %' }");
  check(&s, "basin", "a", 0, "depth", 2, "(w + q\"1 in\") * 2");
  check(&s, "basin", "a", 0, "rim", 2, "f{1, 2}[1]");
  check(&s, "basin", "a", 0, "gravel_bed", 3, "(function(a, b) return a end)(1, 2)");
  check(&s, "basin", "a", 0, "voids", 3, "'40 %'");
  arena_free(s.arena);
}

static void texts_and_comments_hide_what_looks_like_code(void **state) {
  (void)state;
  struct scanned s = scan(
      "--[==[ basin 'no' { depth = '1 ft' } ]] ]==]\nproject { name = [[a } b\n\"c]], units = \"u\\\"s}\" }\n"
      "-- basin 'no' {\nbasin 'yes' { depth = 'it\\'s', rim = '\\z\n  0 in' }");
  check_absent(&s, "basin", "no", 0, "depth");
  check(&s, "project", NULL, 0, "name", 2, "[[a } b\n\"c]]");
  check(&s, "project", NULL, 0, "units", 3, "\"u\\\"s}\"");
  check(&s, "basin", "yes", 5, "depth", 5, "'it\\'s'");
  check(&s, "basin", "yes", 5, "rim", 5, "'\\z\n  0 in'");
  arena_free(s.arena);
}

static void every_end_of_a_line_counts_once(void **state) {
  (void)state;
  struct scanned s = scan("\xEF\xBB\xBF\r\n\r\n\n\rbasin 'a' {\r depth = '1 ft' }");
  check(&s, "basin", "a", 4, "depth", 5, "'1 ft'");
  arena_free(s.arena);
}

static void what_stands_in_a_loop_or_function_is_not_told_apart(void **state) {
  (void)state;
  struct scanned s = scan(
      "for i = 1, 2 do basin 'in for' { depth = '1 ft' } end\n"
      "local function f() return basin 'in function' { depth = '1 ft' } end\n"
      "while false do if x then basin 'in if' { depth = '1 ft' } end end\n"
      "repeat basin 'in repeat' { depth = '1 ft' } until true\n"
      "basin 'behind' { depth = '1 ft' }");
  check_absent(&s, "basin", "in for", 0, "depth");
  check_absent(&s, "basin", "in for", 0, "");
  check_absent(&s, "basin", "in function", 0, "depth");
  check_absent(&s, "basin", "in if", 0, "depth");
  check_absent(&s, "basin", "in repeat", 0, "depth");
  check(&s, "basin", "behind", 5, "depth", 5, "'1 ft'");
  arena_free(s.arena);
}

static void a_worked_out_name_is_found_by_its_line(void **state) {
  (void)state;
  struct scanned s =
      scan("local side = 'left'\nboulder(side .. ' stone') { height = '1 ft' }\nboulder(('x')) { height = '2 ft' }");
  check(&s, "boulder", "left stone", 2, "height", 2, "'1 ft'");
  check(&s, "boulder", "x", 3, "height", 3, "'2 ft'");
  check_absent(&s, "boulder", "left stone", 4, "height");
  arena_free(s.arena);
}

static void names_and_keys_are_read_as_lua_reads_them(void **state) {
  (void)state;
  struct scanned s = scan(
      "basin \"a \\\"b\\\" \\65\\x42\\u{43}\" { [\"depth\"] = '1 ft', [2] = 'two', [x] = 'no' }\n"
      "basin('c')({ depth = '2 ft' }) basin[[d]]{ depth = '3 ft' }\nt.basin 'e' { depth = '4 ft' }");
  check(&s, "basin", "a \"b\" ABC", 1, "depth", 1, "'1 ft'");
  check(&s, "basin", "a \"b\" ABC", 1, "[2]", 1, "'two'");
  check(&s, "basin", "c", 2, "depth", 2, "'2 ft'");
  check(&s, "basin", "d", 2, "depth", 2, "'3 ft'");
  check_absent(&s, "basin", "e", 0, "depth");
  arena_free(s.arena);
}

static void one_name_twice_is_told_apart_by_the_line(void **state) {
  (void)state;
  struct scanned s = scan("basin 'a' { depth = '1 ft' }\nbasin 'a' { depth = '2 ft' }");
  check(&s, "basin", "a", 1, "depth", 1, "'1 ft'");
  check(&s, "basin", "a", 2, "depth", 2, "'2 ft'");
  arena_free(s.arena);
}

static void a_given_twice_is_told_at_its_second_line(void **state) {
  (void)state;
  struct scanned s = scan(
      "basin 'a' {\n depth = '1 ft',\n shelves = { { width = '1 ft', width = '2 ft' } },\n depth = '2 ft' }\n"
      "basin 'b' { depth = '1 ft' }");
  assert_int_equal(s.problems.count, 2);
  assert_int_equal(s.problems.list[0].at.line, 3);
  assert_string_equal(s.problems.list[0].said, "`width` is given twice; first at line 3");
  assert_int_equal(s.problems.list[1].at.line, 4);
  assert_string_equal(s.problems.list[1].said, "`depth` is given twice; first at line 2");
  assert_string_equal(s.problems.list[1].where, "basin \"a\"");
  arena_free(s.arena);
}

static void a_thousand_values_are_all_found(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  struct text text = text_in(arena);
  text_add(&text, "basin 'a' { outline = polygon {\n");
  for (int i = 1; i <= 1000; i++) text_printf(&text, "{'%d ft','0 ft'},\n", i);
  text_add(&text, "} }");
  struct scanned s = scan(text_end(&text));
  check(&s, "basin", "a", 0, "outline[1][1]", 2, "'1 ft'");
  check(&s, "basin", "a", 0, "outline[777][1]", 778, "'777 ft'");
  check(&s, "basin", "a", 0, "outline[1000][1]", 1001, "'1000 ft'");
  arena_free(s.arena);
  arena_free(arena);
}

static void tables_without_end_are_a_problem_and_no_crash(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  struct text text = text_in(arena);
  text_add(&text, "basin 'a' ");
  text_add_many(&text, '{', 100000);
  struct scanned s = scan(text_end(&text));
  assert_int_equal(s.problems.count, 1);
  assert_int_equal(s.problems.list[0].at.line, 1);
  arena_free(s.arena);
  arena_free(arena);
}

static void any_beginning_of_a_text_can_be_scanned(void **state) {
  (void)state;
  static const char whole[] =
      "basin \"a\\\"\\u{41}\" { [\"x\"] = polygon { {1,[==[ ]] ]==]}, }, y = function() end, -- c\n z = '\\z \n' }";
  for (size_t length = 0; length < sizeof whole; length++) {
    struct arena *arena = arena_new();
    struct problems problems = problems_in(arena);
    char *exact = arena_copy(arena, whole, length);
    assert_non_null(places_of_lua(arena, "d.lua", exact, length, &problems));
    assert_int_equal(problems.count, 0);
    arena_free(arena);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(values_stand_where_they_were_written),
      cmocka_unit_test(the_empty_path_is_the_constructor),
      cmocka_unit_test(a_shape_is_no_step_of_the_path),
      cmocka_unit_test(a_computed_value_is_all_of_its_expression),
      cmocka_unit_test(texts_and_comments_hide_what_looks_like_code),
      cmocka_unit_test(every_end_of_a_line_counts_once),
      cmocka_unit_test(what_stands_in_a_loop_or_function_is_not_told_apart),
      cmocka_unit_test(a_worked_out_name_is_found_by_its_line),
      cmocka_unit_test(names_and_keys_are_read_as_lua_reads_them),
      cmocka_unit_test(one_name_twice_is_told_apart_by_the_line),
      cmocka_unit_test(a_given_twice_is_told_at_its_second_line),
      cmocka_unit_test(a_thousand_values_are_all_found),
      cmocka_unit_test(tables_without_end_are_a_problem_and_no_crash),
      cmocka_unit_test(any_beginning_of_a_text_can_be_scanned),
  };
  return cmocka_run_group_tests_name("design/places_lua", tests, NULL, NULL);
}
