// SPDX-License-Identifier: MIT
#include "cli/options.h"

#include <string.h>

#include "cli/command.h"

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

static const struct options_of review = {
    .options = HAS(help) | HAS(rules) | HAS(without_house) | HAS(units) | HAS(output) | HAS(fail_at) | HAS(format) |
               HAS(short_),
    .least = 1,
    .most = 1,
    .operands = "DESIGN",
};

static int start(void **state) {
  *state = arena_new();
  return *state ? 0 : -1;
}

static int end(void **state) {
  arena_free(*state);
  return 0;
}

enum { WORDS = 8 };

// Reads words up to the first NULL; returns what was wrong, "" when nothing was.
static const char *reads(struct arena *arena, const char *const *words, struct settings *settings) {
  char *argv[WORDS] = {NULL};
  int argc = 0;
  for (; argc < WORDS && words[argc]; argc++) argv[argc] = arena_copy(arena, words[argc], strlen(words[argc]));
  struct text *wrong = arena_alloc(arena, sizeof *wrong);
  *wrong = text_in(arena);
  bool read = options_read(arena, &review, argc, argv, settings, wrong);
  assert_int_equal(read, wrong->length == 0);
  return text_end(wrong);
}

#define READS(...) reads(*state, (const char *const[WORDS]){__VA_ARGS__}, &settings)

static void nothing_but_the_operand(void **state) {
  struct settings settings;
  assert_string_equal(READS("pond.lua"), "");
  assert_int_equal(settings.operands.count, 1);
  assert_string_equal(settings.operands.at[0], "pond.lua");
  assert_int_equal(settings.units, 0);
  assert_null(settings.output);
}

static void a_value_stands_behind_or_next(void **state) {
  struct settings settings;
  assert_string_equal(READS("--units=si", "pond.lua", "--fail-at", "advise"), "");
  assert_int_equal(settings.units, 2);
  assert_int_equal(settings.fail_at, 3);
  assert_string_equal(READS("-o", "a=b", "pond.lua"), "");
  assert_string_equal(settings.output, "a=b");
  assert_string_equal(READS("-oreport", "pond.lua"), "");
  assert_string_equal(settings.output, "report");
  assert_string_equal(READS("--output=x=y", "pond.lua"), "");
  assert_string_equal(settings.output, "x=y");
  assert_string_equal(READS("-o", "--units", "pond.lua"), "");
  assert_string_equal(settings.output, "--units");
}

static void a_list_keeps_its_order_and_a_choice_the_last(void **state) {
  struct settings settings;
  assert_string_equal(READS("--rules", "a", "d", "--rules=b", "--units=us", "--units=si", "--rules", "c"), "");
  assert_int_equal(settings.rules.count, 3);
  assert_string_equal(settings.rules.at[0], "a");
  assert_string_equal(settings.rules.at[1], "b");
  assert_string_equal(settings.rules.at[2], "c");
  assert_int_equal(settings.units, 2);
}

static void a_word_of_c_is_an_option_without_its_mark(void **state) {
  struct settings settings;
  assert_string_equal(READS("--short", "pond.lua"), "");
  assert_int_equal(settings.short_, 1);
  assert_string_equal(READS("--shor", "pond.lua"), "unknown option --shor; did you mean --short?");
  assert_string_equal(READS("--short_", "pond.lua"), "unknown option --short_; did you mean --short?");
  assert_string_equal(READS("--short-", "pond.lua"), "unknown option --short-; did you mean --short?");
}

static void two_dashes_end_the_options(void **state) {
  struct settings settings;
  assert_string_equal(READS("--without-house", "--", "--units"), "");
  assert_string_equal(settings.operands.at[0], "--units");
  assert_int_equal(settings.without_house, 1);
  assert_string_equal(READS("--", "--"), "");
  assert_string_equal(settings.operands.at[0], "--");
  assert_string_equal(READS("-"), "");
  assert_string_equal(settings.operands.at[0], "-");
}

static void help_asks_for_no_operand(void **state) {
  struct settings settings;
  assert_string_equal(READS("--help"), "");
  assert_int_equal(settings.help, 1);
  assert_string_equal(READS("-h"), "");
  assert_int_equal(settings.help, 1);
}

static void a_slip_is_told_with_what_would_be_right(void **state) {
  struct settings settings;
  assert_string_equal(READS("--unit", "pond.lua"), "unknown option --unit; did you mean --units?");
  assert_string_equal(READS("--without_house", "p"), "unknown option --without_house; did you mean --without-house?");
  assert_string_equal(READS("--frobnicate", "p"), "unknown option --frobnicate");
  assert_string_equal(READS("--fail_at=hold", "p"), "unknown option --fail_at; did you mean --fail-at?");
  assert_string_equal(READS("-x", "p"), "unknown option -x");
  assert_string_equal(READS("--require-seal", "p"), "unknown option --require-seal");
  assert_string_equal(READS("--format=html", "p"), "--format does not know \"html\"; there is only text");
  assert_string_equal(READS("--units", "SI2", "p"),
                      "--units does not know \"SI2\"; there are us and si; did you mean si?");
  assert_string_equal(READS("p", "-o"), "--output needs a value: FILE");
  assert_string_equal(READS("p", "--output="), "--output needs a value: FILE");
  assert_string_equal(READS("p", "--without-house=yes"), "--without-house takes no value");
  assert_string_equal(READS("--units=us"), "missing: DESIGN");
  assert_string_equal(READS("p", "q"), "one word too many: \"q\"");
  assert_string_equal(READS("--", "p", "-h"), "one word too many: \"-h\"");
}

static void a_command_is_found_by_its_name(void **state) {
  (void)state;
  assert_string_equal(command_find("rule-test")->name, "rule-test");
  assert_null(command_find("rule_test"));
  assert_null(command_find(""));
  assert_string_equal(command_nearest("reveiw"), "review");
  assert_string_equal(command_nearest("rulebok"), "rulebook");
  assert_null(command_nearest("xyzzy"));
}

static void every_option_is_in_the_help_of_its_command(void **state) {
  for (size_t i = 0; i < commands_count; i++) {
    struct text text = text_in(*state);
    command_describe(&text, &commands[i]);
    assert_non_null(strstr(text_end(&text), "--help"));
    bool units = (commands[i].accepts.options & HAS(units)) != 0;
    assert_int_equal(strstr(text_end(&text), "--units=us|si") != NULL, units);
  }
}

static void help_keeps_to_80_columns(void **state) {
  for (size_t i = 0; i <= commands_count; i++) {
    struct text text = text_in(*state);
    command_describe(&text, i < commands_count ? &commands[i] : NULL);
    for (const char *line = text_end(&text); *line; line += strcspn(line, "\n") + 1) {
      assert_in_range(strcspn(line, "\n"), 0, 80);
    }
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(nothing_but_the_operand, start, end),
      cmocka_unit_test_setup_teardown(a_value_stands_behind_or_next, start, end),
      cmocka_unit_test_setup_teardown(a_list_keeps_its_order_and_a_choice_the_last, start, end),
      cmocka_unit_test_setup_teardown(a_word_of_c_is_an_option_without_its_mark, start, end),
      cmocka_unit_test_setup_teardown(two_dashes_end_the_options, start, end),
      cmocka_unit_test_setup_teardown(help_asks_for_no_operand, start, end),
      cmocka_unit_test_setup_teardown(a_slip_is_told_with_what_would_be_right, start, end),
      cmocka_unit_test(a_command_is_found_by_its_name),
      cmocka_unit_test_setup_teardown(every_option_is_in_the_help_of_its_command, start, end),
      cmocka_unit_test_setup_teardown(help_keeps_to_80_columns, start, end),
  };
  return cmocka_run_group_tests_name("cli/options", tests, NULL, NULL);
}
