// SPDX-License-Identifier: MIT
// Designs with one slip each, in tests/designs/broken: that line is told, in those words, and nothing else.
// What to expect stands in the first line of a Lua file, `-- expect: LINE: words | more words`, and beside a JSON file
// in one that ends in .expect. LINE 0 is the file as a whole. Adding a case is adding a file.
#include <stdio.h>
#include <stdlib.h>
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

#define FOLDER FOREBAY_ROOT "/tests/designs/broken"

enum { MOST_BYTES = 1 << 20, FEWEST_PAIRS = 30 };

struct expectation {
  int line;
  const char *words;
};

// "12: words | more": cut at the end of its line.
static struct expectation read_expectation(struct arena *arena, const char *from) {
  char *words;
  struct expectation expected = {.line = (int)strtol(from, &words, 10)};
  assert_int_equal(*words, ':');
  words += strspn(words, ": ");
  expected.words = arena_copy(arena, words, strcspn(words, "\n"));
  assert_string_not_equal(expected.words, "");  // any message would hold no words at all
  return expected;
}

static struct expectation expectation_of(struct arena *arena, const struct file_bytes *file) {
  static const char mark[] = "-- expect: ";
  struct problems problems = problems_in(arena);
  struct file_bytes beside;
  char path[512];
  size_t stem = strlen(file->name) - strlen(".json");
  if (strncmp(file->bytes, mark, strlen(mark)) == 0) return read_expectation(arena, file->bytes + strlen(mark));
  snprintf(path, sizeof path, "%.*s.expect", (int)stem, file->name);
  if (!file_read(&problems, path, MOST_BYTES, &beside)) fail_msg("%s: nothing says what to expect", file->name);
  return read_expectation(arena, beside.bytes);
}

// True when all words that " | " parts stand in what was told.
static bool holds_all(const char *told, char *words) {
  for (char *word = words; word;) {
    char *next = strstr(word, " | ");
    if (next) *next = '\0';
    if (!strstr(told, word)) return false;
    word = next ? next + 3 : NULL;
  }
  return true;
}

static int count_wrong(const char *name) {
  struct arena *arena = arena_new();
  struct problems problems = problems_in(arena);
  struct file_bytes file;
  if (!file_read(&problems, name, MOST_BYTES, &file)) fail_msg("%s: cannot be read", name);
  struct expectation expected = expectation_of(arena, &file);
  bool right =
      !design_read(arena, &file, &problems) && problems.count == 1 && problems.list[0].at.line == expected.line;
  struct text told = text_in(arena);
  problems_write(&told, &problems, 20);
  right = right && holds_all(text_end(&told), arena_copy(arena, expected.words, strlen(expected.words)));
  if (!right)
    print_error("%s: expected line %d: %s\n  told:\n%s", name, expected.line, expected.words, text_end(&told));
  arena_free(arena);
  return !right;
}

static void check_all(const char *ending) {
  struct arena *arena = arena_new();
  struct problems problems = problems_in(arena);
  const char **names;
  size_t count;
  int wrong = 0;
  assert_int_equal(file_list(&problems, FOLDER, ending, &names, &count, NULL), true);
  assert_in_range(count, FEWEST_PAIRS, 1000);
  for (size_t i = 0; i < count; i++) wrong += count_wrong(names[i]);
  arena_free(arena);
  assert_int_equal(wrong, 0);
}

static void each_slip_in_lua_is_told_at_its_line(void **state) {
  (void)state;
  check_all(".lua");
}

static void each_slip_in_json_is_told_at_its_line(void **state) {
  (void)state;
  check_all(".json");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(each_slip_in_lua_is_told_at_its_line),
      cmocka_unit_test(each_slip_in_json_is_told_at_its_line),
  };
  return cmocka_run_group_tests_name("designs/broken", tests, NULL, NULL);
}
