// SPDX-License-Identifier: MIT
#define _GNU_SOURCE
#include "cli/deliver.h"

#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/file.h"

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
  return *state ? 0 : -1;
}

static int end(void **state) {
  arena_free(*state);
  return 0;
}

enum { PATH_ROOM = 64 };

static void new_folder(char path[PATH_ROOM]) {
  strcpy(path, "/tmp/forebay-deliver-XXXXXX");
  assert_non_null(mkdtemp(path));
}

// What is in a file after `bytes` were delivered to it.
static const char *delivered(struct arena *arena, const char *bytes, size_t length, bool colour) {
  char folder[PATH_ROOM];
  new_folder(folder);
  struct text path = text_in(arena), text = text_in(arena);
  struct problems problems = problems_in(arena);
  struct file_bytes file = {0};
  text_printf(&path, "%s/report", folder);
  text_add_bytes(&text, bytes, length);
  bool done = deliver(&problems, text_end(&path), colour, &text);
  bool read = file_read(&problems, text_end(&path), 1000, &file);
  unlink(text_end(&path));
  rmdir(folder);
  assert_int_equal(done && read, 1);
  assert_int_equal(file.length, length);
  return file.bytes;
}

#define DELIVERED(words, colour) delivered(*state, words, sizeof words - 1, colour)

static void text_arrives_as_it_is(void **state) {
  assert_string_equal(DELIVERED("a\tb\n\xc3\xa9 \xe2\x89\xa5\n", false), "a\tb\n\xc3\xa9 \xe2\x89\xa5\n");
}

static void what_drives_a_terminal_does_not_pass(void **state) {
  assert_string_equal(DELIVERED("a\033[2Jb\r\a\177", false), "a?[2Jb???");
  assert_string_equal(DELIVERED("a\xc2\x9b"
                                "2Jb\xc2",
                                false),
                      "a??2Jb\xc2");
  assert_string_equal(DELIVERED("nul\0!", false), "nul?!");
}

// What deliver_words writes to standard error.
static const char *told(struct arena *arena, const struct text *words) {
  char folder[PATH_ROOM];
  new_folder(folder);
  struct text path = text_in(arena);
  struct problems problems = problems_in(arena);
  struct file_bytes file = {0};
  text_printf(&path, "%s/told", folder);
  int standard = dup(STDERR_FILENO), other = open(text_end(&path), O_WRONLY | O_CREAT | O_EXCL, 0600);
  assert_int_equal(dup2(other, STDERR_FILENO), STDERR_FILENO);
  deliver_words(words->at, words->length);
  dup2(standard, STDERR_FILENO);
  close(standard);
  close(other);
  assert_int_equal(file_read(&problems, text_end(&path), 4000, &file), 1);
  unlink(text_end(&path));
  rmdir(folder);
  return file.bytes;
}

// A line is written in pieces: wherever their ends fall, a control character of two bytes is seen as one.
static void no_control_character_slips_through_between_pieces(void **state) {
  for (size_t before = 500; before < 520; before++) {
    struct text words = text_in(*state);
    text_add_many(&words, 'x', before);
    text_add(&words,
             "\xc2\x9b"
             "2Jy\xc3\xa9");
    const char *seen = told(*state, &words);
    assert_int_equal(strlen(seen), words.length + 1);
    assert_string_equal(seen + before, "??2Jy\xc3\xa9\n");
  }
}

static void only_colours_pass_and_only_when_asked_for(void **state) {
  assert_string_equal(DELIVERED("\033[1;31mX\033[0m", true), "\033[1;31mX\033[0m");
  assert_string_equal(DELIVERED("\033[1;31mX\033[0m", false), "?[1;31mX?[0m");
  assert_string_equal(DELIVERED("\033[1;31HX\033[m\033[1;", true), "?[1;31HX\033[m?[1;");
  assert_string_equal(DELIVERED("\033]0;title\a\033", true), "?]0;title??");
}

static void nothing_is_written_where_there_is_no_result(void **state) {
  char folder[PATH_ROOM];
  new_folder(folder);
  struct text path = text_in(*state), nothing = text_in(*state);
  struct problems problems = problems_in(*state);
  text_printf(&path, "%s/report", folder);
  assert_int_equal(deliver(&problems, text_end(&path), false, &nothing), 1);
  struct stat status;
  assert_int_equal(stat(text_end(&path), &status), -1);
  rmdir(folder);
}

static void a_missing_folder_is_a_problem(void **state) {
  struct text text = text_in(*state);
  struct problems problems = problems_in(*state);
  text_add(&text, "report");
  assert_int_equal(deliver(&problems, "/nowhere/at/all/report", false, &text), 0);
  assert_int_equal(problems.count, 1);
  assert_string_equal(problems.list[0].at.file, "/nowhere/at/all/report");
}

static void a_file_is_never_coloured(void **state) {
  (void)state;
  assert_int_equal(deliver_in_colour("report"), 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(text_arrives_as_it_is, start, end),
      cmocka_unit_test_setup_teardown(what_drives_a_terminal_does_not_pass, start, end),
      cmocka_unit_test_setup_teardown(no_control_character_slips_through_between_pieces, start, end),
      cmocka_unit_test_setup_teardown(only_colours_pass_and_only_when_asked_for, start, end),
      cmocka_unit_test_setup_teardown(nothing_is_written_where_there_is_no_result, start, end),
      cmocka_unit_test_setup_teardown(a_missing_folder_is_a_problem, start, end),
      cmocka_unit_test(a_file_is_never_coloured),
  };
  return cmocka_run_group_tests_name("cli/deliver", tests, NULL, NULL);
}
