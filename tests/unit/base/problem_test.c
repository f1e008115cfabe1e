// SPDX-License-Identifier: MIT
#include "base/problem.h"

#include <string.h>

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

static int start(void **state) {
  *state = arena_new();
  return *state == NULL;
}

static int finish(void **state) {
  arena_free(*state);
  return 0;
}

static const char *written(struct arena *arena, struct problem problem) {
  struct text text = text_in(arena);
  problem_write(&text, &problem);
  return text_end(&text);
}

static void writes_what_is_there(void **state) {
  struct arena *arena = *state;
  struct problem problem = {.at = {"garden.lua", 12},
                            .where = "basin \"lower\".depth",
                            .said = "has no unit",
                            .read = "30",
                            .right = "30 in or 30 ft",
                            .cause = "deeper down"};
  assert_string_equal(written(arena, problem),
                      "garden.lua:12: basin \"lower\".depth: has no unit; read \"30\"; write 30 in or 30 ft\n"
                      "    deeper down");
  problem = (struct problem){.at = {"garden.lua", 0}, .said = "the file is empty"};
  assert_string_equal(written(arena, problem), "garden.lua: the file is empty");
  problem = (struct problem){.said = "no such rule", .read = "rim"};
  assert_string_equal(written(arena, problem), "no such rule; read \"rim\"");
}

static void keeps_to_one_line_and_to_bounds(void **state) {
  struct arena *arena = *state;
  struct problem problem = {.at = {"a\x1B[31m.lua", 1}, .said = "wrong", .read = "one\ntwo\x07"};
  assert_string_equal(written(arena, problem), "a?[31m.lua:1: wrong; read \"one two?\"");
  char longer[401] = "";
  for (size_t i = 0; i < 200; i++) memcpy(longer + 2 * i, "é", 2);
  problem = (struct problem){.said = "wrong", .read = longer};
  const char *line = written(arena, problem);
  assert_true(text_is_utf8(line, strlen(line)));
  assert_in_range(strlen(line), 60, 130);
  assert_non_null(strstr(line, "é...\""));
}

static void lets_no_control_character_pass(void **state) {
  struct text text = text_in(*state);
  problem_write(&text, &(struct problem){.at = {"a\033.lua", 3},
                                         .said = "is \xC2\x9B"
                                                 "2J",
                                         .read = "x\n\xC2\x85y \xC2\xBD"});
  assert_string_equal(text_end(&text), "a?.lua:3: is ?2J; read \"x ?y \xC2\xBD\"");
}

static void copies_its_texts(void **state) {
  struct problems problems = problems_in(*state);
  char said[] = "first";
  problem_add(&problems, (struct problem){.said = said});
  said[0] = 'X';
  assert_string_equal(problems.list[0].said, "first");
  assert_null(problems.list[0].read);
}

static void add(struct problems *problems, const char *file, int line, const char *said) {
  problem_add(problems, (struct problem){.at = {file, line}, .said = said});
}

static void sorts_by_file_line_and_arrival(void **state) {
  struct problems problems = problems_in(*state);
  add(&problems, "z.lua", 9, "c");
  add(&problems, "a.lua", 5, "g");
  add(&problems, "z.lua", 2, "a");
  add(&problems, "z.lua", 9, "d");
  add(&problems, NULL, 0, "i");
  add(&problems, "a.lua", 0, "f");
  add(&problems, "z.lua", 9, "e");
  add(&problems, "z.lua", 2, "b");
  add(&problems, "a.lua", 5, "h");
  problems_sort(&problems);
  char order[10] = "";
  for (size_t i = 0; i < problems.count; i++) order[i] = problems.list[i].said[0];
  assert_string_equal(order, "abcdefghi");
}

static void writes_no_more_than_asked(void **state) {
  struct problems problems = problems_in(*state);
  for (int i = 1; i <= 5; i++) add(&problems, "f", i, "wrong");
  struct text text = text_in(*state);
  problems_write(&text, &problems, 2);
  assert_string_equal(text_end(&text), "f:1: wrong\nf:2: wrong\nand 3 more\n");
  text = text_in(*state);
  problems_write(&text, &problems, 5);
  assert_string_equal(text_end(&text), "f:1: wrong\nf:2: wrong\nf:3: wrong\nf:4: wrong\nf:5: wrong\n");
}

static void many_problems(void **state) {
  struct problems problems = problems_in(*state);
  for (int i = 0; i < 2000; i++) add(&problems, i % 2 ? "odd" : "even", 2000 - i, "wrong");
  problems_sort(&problems);
  for (size_t i = 1; i < 1000; i++) {
    assert_string_equal(problems.list[i].at.file, "even");
    assert_in_range(problems.list[i].at.line, problems.list[i - 1].at.line, 2000);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(writes_what_is_there, start, finish),
      cmocka_unit_test_setup_teardown(keeps_to_one_line_and_to_bounds, start, finish),
      cmocka_unit_test_setup_teardown(lets_no_control_character_pass, start, finish),
      cmocka_unit_test_setup_teardown(copies_its_texts, start, finish),
      cmocka_unit_test_setup_teardown(sorts_by_file_line_and_arrival, start, finish),
      cmocka_unit_test_setup_teardown(writes_no_more_than_asked, start, finish),
      cmocka_unit_test_setup_teardown(many_problems, start, finish),
  };
  return cmocka_run_group_tests_name("base/problem", tests, NULL, NULL);
}
