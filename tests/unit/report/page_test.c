// SPDX-License-Identifier: MIT
#include "report/page.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static int setup(void **state) {
  *state = arena_new();
  return 0;
}

static int teardown(void **state) {
  arena_free(*state);
  return 0;
}

static void assert_finished(const struct page *page, bool colour, const char *expected) {
  struct text text = text_in(page->text.arena);
  page_finish(page, colour, &text);
  assert_string_equal(text_end(&text), expected);
}

static void test_lines_wrap_and_hang(void **state) {
  struct page page = page_in(*state, 12);
  page_wrap(&page, 2, 1, "one two three four");
  assert_finished(&page, false, "  one two\n   three\n   four\n");
}

static void test_headings_stand_apart_but_for_the_first(void **state) {
  struct page page = page_in(*state, 20);
  page_heading(&page, "A");
  page_wrap(&page, 0, 0, "a");
  page_heading(&page, "B");
  assert_finished(&page, false, "A\na\n\nB\n");
  assert_finished(&page, true, "\x1b[1mA\x1b[0m\na\n\n\x1b[1mB\x1b[0m\n");
}

static void test_a_label_takes_columns_and_paint_takes_none(void **state) {
  struct page page = page_in(*state, 14);
  page_labelled(&page, 0, 4, PAINT_HOLD, "HOLD 1  ", "abc def ghi");
  assert_finished(&page, false, "HOLD 1  abc\n    def ghi\n");
  assert_finished(&page, true, "\x1b[1;31mHOLD 1  \x1b[0mabc\n    def ghi\n");
}

static void test_clauses_keep_together_where_they_fit(void **state) {
  struct page page = page_in(*state, 30);
  page_clauses(&page, 10, PAINT_BOLD, "NO DIG    ", "1 hold, 2 revise; 3 unanswered");
  page_clauses(&page, 0, PAINT_BOLD, "NOTHING; ", "2 advise; 1 open. No permit: see below.");
  page_clauses(&page, 0, PAINT_BOLD, "ALONE", "");
  assert_finished(&page, false,
                  "NO DIG    1 hold, 2 revise;\n"
                  "          3 unanswered\n"
                  "NOTHING; 2 advise; 1 open.\n"
                  "No permit: see below.\n"
                  "ALONE\n");
}

static void test_control_characters_are_shown_as_questions(void **state) {
  struct page page = page_in(*state, 40);
  page_wrap(&page, 0, 0, "a\x1b[31mb\x07 \xc2\x85 \xc3\x85");
  assert_finished(&page, true, "a?[31mb? ? \xc3\x85\n");
}

static void test_an_empty_page(void **state) {
  struct page page = page_in(*state, 40);
  page_blank(&page);
  assert_finished(&page, true, "");
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, setup, teardown)
  const struct CMUnitTest tests[] = {
      TEST(test_lines_wrap_and_hang),
      TEST(test_headings_stand_apart_but_for_the_first),
      TEST(test_a_label_takes_columns_and_paint_takes_none),
      TEST(test_clauses_keep_together_where_they_fit),
      TEST(test_control_characters_are_shown_as_questions),
      TEST(test_an_empty_page),
  };
  return cmocka_run_group_tests_name("report/page", tests, NULL, NULL);
}
