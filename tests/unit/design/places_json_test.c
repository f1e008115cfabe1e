// SPDX-License-Identifier: MIT
#include <string.h>

#include "design/places_tree.h"

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
  struct json_fault fault;
};

static struct scanned scan(const char *text) {
  struct scanned s = {.arena = arena_new(), .text = text};
  s.problems = problems_in(s.arena);
  s.places = places_scan_json(s.arena, "d.json", text, strlen(text), &s.problems, &s.fault);
  return s;
}

static void check(struct scanned *s, const char *kind, const char *name, const char *path, int line,
                  const char *bytes) {
  struct value_place place = {0};
  if (!places_find(s->places, kind, name, 0, path, &place)) fail_msg("%s is not found", path);
  assert_int_equal(place.line, line);
  assert_string_equal(arena_copy(s->arena, s->text + place.from, place.to - place.from), bytes);
}

static void values_stand_where_they_were_written(void **state) {
  (void)state;
  struct scanned s = scan(
      "{\"site\": {\"soil\": \"type B\",\n \"storm\": {\"depth\": \"1 in\"}},\n"
      "\"basin\": {\"low\":\n {\"depth\": \"30 in\", \"shelves\": [{\"width\": 1},\n {\"width\": -2.5e1}]}}}");
  check(&s, "site", NULL, "soil", 1, "\"type B\"");
  check(&s, "site", NULL, "storm.depth", 2, "\"1 in\"");
  check(&s, "basin", "low", "", 4, "{\"depth\": \"30 in\", \"shelves\": [{\"width\": 1},\n {\"width\": -2.5e1}]}");
  check(&s, "basin", "low", "depth", 4, "\"30 in\"");
  check(&s, "basin", "low", "shelves[2].width", 5, "-2.5e1");
  assert_int_equal(s.problems.count, 0);
  assert_null(s.fault.said);
  arena_free(s.arena);
}

static void a_shape_is_no_step_of_the_path(void **state) {
  (void)state;
  struct scanned s =
      scan("{\"basin\": {\"a\": {\"outline\":\n {\"polygon\": [[\"0 ft\", \"1 ft\"],\n [\"2 ft\", \"3 ft\"]]}}}}");
  check(&s, "basin", "a", "outline[2][1]", 3, "\"2 ft\"");
  check(&s, "basin", "a", "outline", 2, "{\"polygon\": [[\"0 ft\", \"1 ft\"],\n [\"2 ft\", \"3 ft\"]]}");
  arena_free(s.arena);
}

static void names_are_read_without_their_escapes(void **state) {
  (void)state;
  struct scanned s =
      scan("{\"basin\": {\"a \\\"b\\\" \\u00e9 \\ud83d\\ude00 \\\\ \\/\": {\"de\\u0070th\": \"1 ft\"}}}");
  check(&s, "basin", "a \"b\" \xC3\xA9 \xF0\x9F\x98\x80 \\ /", "depth", 1, "\"1 ft\"");
  arena_free(s.arena);
}

static void bytes_count_from_before_a_byte_order_mark(void **state) {
  (void)state;
  struct scanned s = scan("\xEF\xBB\xBF{\"site\": {\"soil\": 1}}");
  check(&s, "site", NULL, "soil", 1, "1");
  arena_free(s.arena);
}

static void check_twice(const char *text, int line, const char *said) {
  struct scanned s = scan(text);
  assert_int_equal(s.problems.count, 1);
  assert_int_equal(s.problems.list[0].at.line, line);
  assert_string_equal(s.problems.list[0].said, said);
  arena_free(s.arena);
}

static void what_is_given_twice_is_told_at_its_second_line(void **state) {
  (void)state;
  check_twice("{\"site\": {\"soil\": 1,\n\n \"s\\u006Fil\": 2}}", 3, "`soil` is given twice; first at line 1");
  check_twice("{\"basin\": {\"a\": {},\n \"a\": {}}}", 2, "`a` is given twice; first at line 1");
  check_twice("{\"basin\": {\"a\": {}},\n \"basin\": {\"b\": {}}}", 2, "`basin` is given twice; first at line 1");
  check_twice("{\"site\": {},\n \"site\": {}}", 2, "`site` is given twice; first at line 1");
  check_twice("{\"basin\": {\"a\": {\"shelves\": [{\"width\": 1,\n \"width\": 2}]}}}", 2,
              "`width` is given twice; first at line 1");
}

static void what_is_no_json_is_told_at_its_line(void **state) {
  (void)state;
  static const struct {
    const char *text, *said;
    int line;
  } cases[] = {
      {"{\"site\": {\"soil\": \"B\"\n\n \"gate\": 1}}", "a comma is missing after this value", 1},
      {"{\"site\": [1\n 2]}", "a comma is missing after this value", 1},
      {"{\"site\":\n {\"soil\": 'B'}}", "text stands in single quotes", 2},
      {"{\"site\":\n {soil: 1}}", "text stands without quotes", 2},
      {"{\"site\": {\"soil\": tru}}", "text stands without quotes", 1},
      {"{\"site\": {\"soil\" = 1}}", "= stands where JSON has a colon", 1},
      {"{\"site\": {\n// none\n\"soil\": 1}}", "JSON has no comments", 2},
      {"{\"site\": [1, 2\n}", "a list that [ opens is closed by }", 2},
      {"{\"site\": {\"a\": 1\n]", "an object that { opens is closed by ]", 2},
      {"{\"site\": \"B\n}", "a text has no closing quotes on its line", 1},
      {"{\"site\": {\"soil\": 1}", "the file ends before its lists and objects are closed", 1},
      {"{} {}", "something stands behind the end of the design", 1},
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    struct scanned s = scan(cases[i].text);
    assert_non_null(s.fault.said);
    assert_string_equal(s.fault.said, cases[i].said);
    assert_int_equal(s.fault.line, cases[i].line);
    arena_free(s.arena);
  }
}

static void lists_without_end_are_a_fault_and_no_crash(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  struct text text = text_in(arena);
  text_add_many(&text, '[', 100000);
  struct scanned s = scan(text_end(&text));
  assert_string_equal(s.fault.said, "lists and objects stand in each other more than 200 deep");
  arena_free(s.arena);
  arena_free(arena);
}

static void any_beginning_of_a_text_can_be_scanned(void **state) {
  (void)state;
  static const char whole[] =
      "{\"basin\": {\"a\\u00e9\\ud83d\\ude00\": {\"x\": [1, true, \"\\\\\"], \"outline\": {\"circle\": [null]}}}}";
  for (size_t length = 0; length < sizeof whole - 1; length++) {
    struct arena *arena = arena_new();
    struct problems problems = problems_in(arena);
    struct json_fault fault = {0};
    places_scan_json(arena, "d.json", arena_copy(arena, whole, length), length, &problems, &fault);
    assert_non_null(fault.said);
    arena_free(arena);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(values_stand_where_they_were_written),
      cmocka_unit_test(a_shape_is_no_step_of_the_path),
      cmocka_unit_test(names_are_read_without_their_escapes),
      cmocka_unit_test(bytes_count_from_before_a_byte_order_mark),
      cmocka_unit_test(what_is_given_twice_is_told_at_its_second_line),
      cmocka_unit_test(what_is_no_json_is_told_at_its_line),
      cmocka_unit_test(lists_without_end_are_a_fault_and_no_crash),
      cmocka_unit_test(any_beginning_of_a_text_can_be_scanned),
  };
  return cmocka_run_group_tests_name("design/places_json", tests, NULL, NULL);
}
