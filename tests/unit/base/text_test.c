// SPDX-License-Identifier: MIT
#include "base/text.h"

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

static void grows_by_pieces(void **state) {
  struct text text = text_in(*state);
  assert_string_equal(text_end(&text), "");
  text_add(&text, "one");
  text_add_char(&text, ' ');
  text_add_bytes(&text, "two three", 3);
  text_add_many(&text, '.', 4);
  text_printf(&text, " %d %s", 5, "six");
  assert_string_equal(text_end(&text), "one two.... 5 six");
  assert_int_equal(text.length, 17);
}

static void holds_nul_bytes(void **state) {
  struct text text = text_in(*state);
  text_add_bytes(&text, "a\0b", 3);
  assert_int_equal(text.length, 3);
  assert_memory_equal(text_end(&text), "a\0b\0", 4);
}

static void grows_long(void **state) {
  struct text text = text_in(*state);
  for (int i = 0; i < 5000; i++) text_printf(&text, "%04d", i);
  assert_int_equal(text.length, 20000);
  assert_memory_equal(text_end(&text) + 4 * 4321, "4321", 4);
  text_add(&text, text_end(&text));  // of itself
  assert_int_equal(text.length, 40000);
  assert_memory_equal(text_end(&text) + 20000, "00000001", 8);
}

static void assert_wraps(struct arena *arena, const char *before, const char *words, size_t indent, size_t width,
                         const char *expected) {
  struct text text = text_in(arena);
  text_add(&text, before);
  text_wrap(&text, words, indent, width);
  assert_string_equal(text_end(&text), expected);
}

static void wraps(void **state) {
  struct arena *arena = *state;
  assert_wraps(arena, "", "one two three", 2, 7, "one two\n  three");
  assert_wraps(arena, "", "one two three", 2, 13, "one two three");
  assert_wraps(arena, "", "one two three", 2, 12, "one two\n  three");
  assert_wraps(arena, "why: ", "one two three", 5, 12, "why: one two\n     three");
  assert_wraps(arena, "before\n", "one two", 0, 3, "before\none\ntwo");
  assert_wraps(arena, "", "  one\n   two\t\tthree ", 0, 80, "one two three");
  assert_wraps(arena, "", "unbreakable words", 1, 4, "unbreakable\n words");
  assert_wraps(arena, "", "äöü äöü", 0, 7, "äöü äöü");
  assert_wraps(arena, "", "äöü äöü", 0, 6, "äöü\näöü");
  assert_wraps(arena, "x", "", 0, 6, "x");
}

static void finds_the_nearest_word(void **state) {
  (void)state;
  static const char *const words[] = {"depth", "width", "water_level", "rim", "in", "gal/h", "length"};
  static const struct {
    const char *written, *nearest;
  } rows[] = {
      {"depht", "depth"}, {"dpth", "depth"}, {"Depth", "depth"},   {"widht", "width"}, {"waterlevel", "water_level"},
      {"rmi", "rim"},     {"RIM", "rim"},    {"lenght", "length"}, {"inn", "in"},      {"gal/hr", "gal/h"},
      {"colour", NULL},   {"x", NULL},       {"", NULL},           {"deeps", NULL},    {"xy", NULL},
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
    const char *near = text_nearest(rows[i].written, words, sizeof words / sizeof *words);
    if (!near != !rows[i].nearest) fail_msg("%s: %s", rows[i].written, near ? near : "none");
    if (near) assert_string_equal(near, rows[i].nearest);
  }
}

static void nearest_of_extremes(void **state) {
  (void)state;
  char endless[1000];
  memset(endless, 'a', 999);
  endless[999] = '\0';
  const char *const words[] = {endless, "rim"};
  assert_null(text_nearest(endless, words, 2));
  assert_string_equal(text_nearest("rim", words, 2), "rim");
  assert_null(text_nearest("rim", NULL, 0));
}

static void tells_utf8(void **state) {
  (void)state;
  static const char *const right[] = {
      "", "plain", "½ ″ ± °", "\xED\x9F\xBF", "\xEE\x80\x80", "\xF0\x9F\x92\xA7", "\xF4\x8F\xBF\xBF"};
  // overlong, a surrogate, over U+10FFFF, cut short, a continuation alone
  static const char *const wrong[] = {"\xC0\xAF",
                                      "\xC1\xBF",
                                      "\xE0\x9F\xBF",
                                      "\xED\xA0\x80",
                                      "\xF0\x8F\xBF\xBF",
                                      "\xF4\x90\x80\x80",
                                      "\xF5\x80\x80\x80",
                                      "\xE2\x82",
                                      "a\x80",
                                      "\xFF",
                                      "\xC3("};
  for (size_t i = 0; i < sizeof right / sizeof *right; i++) {
    if (!text_is_utf8(right[i], strlen(right[i]))) fail_msg("right %zu is refused", i);
  }
  for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
    if (text_is_utf8(wrong[i], strlen(wrong[i]))) fail_msg("wrong %zu is taken", i);
  }
  assert_true(text_is_utf8("a\0b", 3));
}

// Encodings from the Unicode Standard, table 3-6, worked out by hand.
static void writes_code_points(void **state) {
  static const struct {
    unsigned code;
    const char *bytes;
  } points[] = {{'A', "A"},
                {0x7F, "\x7F"},
                {0x80, "\xC2\x80"},
                {0x7FF, "\xDF\xBF"},
                {0x800, "\xE0\xA0\x80"},
                {0xFFFF, "\xEF\xBF\xBF"},
                {0x10000, "\xF0\x90\x80\x80"},
                {0x10FFFF, "\xF4\x8F\xBF\xBF"}};
  for (size_t i = 0; i < sizeof points / sizeof *points; i++) {
    struct text text = text_in(*state);
    text_add_code_point(&text, points[i].code);
    assert_string_equal(text_end(&text), points[i].bytes);
  }
}

static void cuts_between_characters(void **state) {
  (void)state;
  assert_int_equal(text_cut("abc", 3, 3), 3);
  assert_int_equal(text_cut("abc", 3, 2), 2);
  assert_int_equal(text_cut("a\xC2\x9B", 3, 2), 1);
  assert_int_equal(text_cut("a\xF0\x9F\x92\xA7", 5, 4), 1);
  assert_int_equal(text_cut("a\xF0\x9F\x92\xA7", 5, 5), 5);
  assert_int_equal(text_cut("\xE2\x82\xAC\xE2\x82\xAC", 6, 3), 3);
  assert_int_equal(text_cut("", 0, 0), 0);
  // No UTF-8: cut all the same, so that whoever goes on from there comes to an end.
  assert_int_equal(text_cut("\x80\x80\x80\x80\x80\x80", 6, 5), 5);
}

static void tells_control_characters(void **state) {
  (void)state;
  assert_int_equal(text_control("\033[", 2), 1);
  assert_int_equal(text_control("\177", 1), 1);
  assert_int_equal(text_control("\0", 1), 1);
  assert_int_equal(text_control("\xC2\x80", 2), 2);
  assert_int_equal(text_control("\xC2\x9F", 2), 2);
  assert_int_equal(text_control("\xC2\xA0", 2), 0);
  assert_int_equal(text_control("\xC3\x9B", 2), 0);
  assert_int_equal(text_control("\xC2", 1), 0);
  assert_int_equal(text_control(" ", 1), 0);
  assert_int_equal(text_control("", 0), 0);
}

static void phrases_stand_by_themselves(void **state) {
  assert_string_equal(text_phrase(*state, "%s, line %d", "pond.lua", 7), "pond.lua, line 7");
  assert_string_equal(text_phrase(*state, "%s", ""), "");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(grows_by_pieces, start, finish),
      cmocka_unit_test_setup_teardown(holds_nul_bytes, start, finish),
      cmocka_unit_test_setup_teardown(grows_long, start, finish),
      cmocka_unit_test_setup_teardown(wraps, start, finish),
      cmocka_unit_test(finds_the_nearest_word),
      cmocka_unit_test(nearest_of_extremes),
      cmocka_unit_test(tells_utf8),
      cmocka_unit_test_setup_teardown(writes_code_points, start, finish),
      cmocka_unit_test(cuts_between_characters),
      cmocka_unit_test(tells_control_characters),
      cmocka_unit_test_setup_teardown(phrases_stand_by_themselves, start, finish),
  };
  return cmocka_run_group_tests_name("base/text", tests, NULL, NULL);
}
