// SPDX-License-Identifier: MIT
// From a text to a function, and what is said of a text that is none. The loader stands in load.c, its contract in
// call.h.
#include <stdlib.h>

#include "unit/script/runner.h"

static void a_byte_order_mark_is_skipped(void **state) {
  (void)state;
  gives("\xEF\xBB\xBFreturn 3", "3");
  gives("", "");
  gives("-- nothing but a remark", "");
}

static void long_texts_are_read_in_pieces(void **state) {
  (void)state;
  enum { LINES = 3000 };  // some 30 KiB: eight pieces
  char *text = malloc(LINES * 12 + 64);
  size_t length = (size_t)sprintf(text, "local n = 0\n");
  for (int i = 0; i < LINES; i++) length += (size_t)sprintf(text + length, "n = n + 1\n");
  strcpy(text + length, "return n");
  gives(text, "3000");
  strcpy(text + length, "return nothing");
  struct outcome outcome = run_rules(text);
  assert_int_equal(outcome.failure.line, LINES + 2);
  free(text);
}

static void too_long_a_text_is_not_read(void **state) {
  (void)state;
  struct outcome outcome;
  struct script *script = script_new((struct script_budget){.file_bytes = 100}, (struct script_owner){0});
  char text[101];
  memset(text, ' ', sizeof text);
  runner_run(script, text, 100, 0, &outcome);
  assert_int_equal(outcome.failure.kind, SCRIPT_FINE);
  runner_run(script, text, 101, 0, &outcome);
  assert_int_equal(outcome.failure.kind, SCRIPT_MISUSE);
  assert_string_equal(outcome.failure.said, "the file has 101 bytes, at most 100 are read");
  assert_string_equal(outcome.failure.file, "a design.lua");
  script_free(script);
}

static void a_nul_is_no_end(void **state) {
  (void)state;
  struct outcome outcome;
  struct script *script = script_new((struct script_budget){0}, (struct script_owner){0});
  static const char text[] = "local a = 1\n\0 local b = 2";
  runner_run(script, text, sizeof text - 1, 0, &outcome);
  assert_int_equal(outcome.failure.kind, SCRIPT_SYNTAX);
  assert_int_equal(outcome.failure.line, 2);
  script_free(script);
}

static void long_paths_keep_their_lines(void **state) {
  (void)state;
  struct script_failure failure;
  struct script *script = script_new((struct script_budget){0}, (struct script_owner){0});
  static const char path[] =
      "a/folder/with a rather long name/and one below it:12/that Lua would shorten in its messages/design.lua";
  assert_int_equal(script_protect(script, runner_environment, NULL, 0, 1, &failure), true);
  assert_int_equal(script_load(script, path, "\n\nlocal x = = 3", 15, &failure), false);
  assert_int_equal(failure.kind, SCRIPT_SYNTAX);
  assert_string_equal(failure.file, path);
  assert_int_equal(failure.line, 3);
  assert_string_equal(failure.said, "unexpected symbol near '='");
  assert_int_equal(script_protect(script, runner_environment, NULL, 0, 1, &failure), true);
  assert_int_equal(script_load(script, path, "\nreturn nil + 1", 15, &failure), true);
  assert_int_equal(script_call(script, 0, 0, 0, &failure), false);
  assert_string_equal(failure.file, path);
  assert_int_equal(failure.line, 2);
  assert_string_equal(failure.said, "attempt to perform arithmetic on a nil value");
  script_free(script);
}

static void slips_of_syntax_are_told_in_plain_words(void **state) {
  (void)state;
  struct outcome outcome = run_rules("local basin = {\n  depth = \"30 in\"\n  rim = \"0 in\",\n}\n");
  assert_int_equal(outcome.failure.kind, SCRIPT_SYNTAX);
  assert_int_equal(outcome.failure.line, 2);
  assert_string_equal(outcome.failure.said, "a comma is missing after this");
  assert_string_equal(outcome.failure.read, "\"30 in\"");
  assert_string_equal(outcome.failure.cause, "'}' expected (to close '{' at line 1) near 'rim'");
}

// Whatever bytes stand in the file, it ends with a failure or a result: single bytes of a fair text are changed.
static void no_bytes_harm(void **state) {
  (void)state;
  static const char text[] =
      "local t = { a = \"1\", [\"b\"] = { q\"2 ft\", 3.5 } }\nfor k, v in pairs(t) do t[k] = v end\n"
      "return [[x]], t.a -- end\n";
  struct outcome outcome;
  uint32_t random = 7;
  struct script *script = script_new((struct script_budget){0}, (struct script_owner){.profile = SCRIPT_RULES});
  int fine = 0, refused = 0;
  for (int turn = 0; turn < 4000; turn++) {
    char changed[sizeof text];
    memcpy(changed, text, sizeof text);
    for (int i = 0; i < 1 + turn % 4; i++) {
      random = random * 1664525u + 1013904223u;
      changed[(random >> 8) % (sizeof text - 1)] = (char)(random >> 24);
    }
    runner_run(script, changed, sizeof text - 1, 20000, &outcome);
    *(outcome.failure.kind == SCRIPT_FINE ? &fine : &refused) += 1;
  }
  assert_in_range(fine, 20, 4000);
  assert_in_range(refused, 1000, 4000);
  script_free(script);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_byte_order_mark_is_skipped),
      cmocka_unit_test(long_texts_are_read_in_pieces),
      cmocka_unit_test(too_long_a_text_is_not_read),
      cmocka_unit_test(a_nul_is_no_end),
      cmocka_unit_test(long_paths_keep_their_lines),
      cmocka_unit_test(slips_of_syntax_are_told_in_plain_words),
      cmocka_unit_test(no_bytes_harm),
  };
  return cmocka_run_group_tests_name("script/load", tests, NULL, NULL);
}
