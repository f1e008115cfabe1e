// SPDX-License-Identifier: MIT
// The rules as shipped: each says why in a few sentences and where from, and nothing is wrong with how it is written.
#include "unit/rulebook/firm.h"

enum { LARGEST = 1 << 20, FILES_MOST = 40, SENTENCES_LEAST = 2, SENTENCES_MOST = 5 };

struct shipped {
  struct firm *firm;
  const char *names[FILES_MOST];
  size_t count;
};

static int setup(void **state) {
  static struct shipped shipped;
  struct firm *firm = firm_new();
  const char **names;
  shipped = (struct shipped){.firm = firm};
  if (!file_list(&firm->problems, FOREBAY_ROOT "/rules/trade", ".lua", &names, &shipped.count, NULL)) return 1;
  if (shipped.count == 0 || shipped.count > FILES_MOST) return 1;
  for (size_t i = 0; i < shipped.count; i++) {
    struct file_bytes file;
    if (!file_read(&firm->problems, names[i], LARGEST, &file)) return 1;
    shipped.names[i] = file.name;
    rulebook_read_file(firm->rulebook, "trade", &file, &firm->problems);
  }
  rulebook_finish(firm->rulebook, &firm->problems);
  *state = &shipped;
  return 0;
}

static int teardown(void **state) {
  struct shipped *shipped = *state;
  firm_free(shipped->firm);
  return 0;
}

static void test_nothing_is_wrong_with_how_they_are_written(void **state) {
  struct shipped *shipped = *state;
  struct firm *firm = shipped->firm;
  struct text notes = text_in(firm->arena);
  struct rulebook_check_counts counts =
      rulebook_check(firm->rulebook, (struct rulebook_files){shipped->names, shipped->count}, &firm->problems, &notes,
                     (struct rulebook_watch){0});
  assert_string_equal(firm_problems(firm), "");
  size_t count;
  rulebook_rules(firm->rulebook, &count);
  assert_int_equal(counts.rules, count);
  assert_true(count > 100);
}

// A sentence ends at . ! or ? before a space or the end; "1.5 in" and "App. B" of a source do not stand in reasons.
static int sentences(const char *words) {
  int count = 0;
  for (; *words; words++) {
    bool ends = *words == '.' || *words == '!' || *words == '?';
    count += ends && (!words[1] || words[1] == ' ' || words[1] == '\n');
  }
  return count;
}

static void test_each_says_why_in_a_few_sentences(void **state) {
  struct shipped *shipped = *state;
  struct text wrong = text_in(shipped->firm->arena);
  size_t count;
  const struct rule_facts *rules = rulebook_rules(shipped->firm->rulebook, &count);
  for (size_t i = 0; i < count; i++) {
    int said = sentences(rules[i].why);
    if (said < SENTENCES_LEAST || said > SENTENCES_MOST)
      text_printf(&wrong, "%s:%d: %s: %d sentences\n", rules[i].at.file, rules[i].at.line, rules[i].id, said);
  }
  assert_string_equal(text_end(&wrong), "");
}

static void test_each_has_a_title_and_a_source(void **state) {
  struct shipped *shipped = *state;
  struct text wrong = text_in(shipped->firm->arena);
  size_t count;
  const struct rule_facts *rules = rulebook_rules(shipped->firm->rulebook, &count);
  for (size_t i = 0; i < count; i++) {
    bool titled = strcmp(rules[i].title, rules[i].id) != 0 && strchr(rules[i].title, ' ');
    if (!titled || !*rules[i].source || !rules[i].for_each) text_printf(&wrong, "%s\n", rules[i].id);
  }
  assert_string_equal(text_end(&wrong), "");
}

// Where a life depends on it, somebody else has the last word, and the rule says who.
static void test_each_that_guards_a_life_has_a_caution(void **state) {
  struct shipped *shipped = *state;
  struct text wrong = text_in(shipped->firm->arena);
  size_t count;
  const struct rule_facts *rules = rulebook_rules(shipped->firm->rulebook, &count);
  for (size_t i = 0; i < count; i++) {
    if (rules[i].life_safety && !rules[i].caution) text_printf(&wrong, "%s\n", rules[i].id);
  }
  assert_string_equal(text_end(&wrong), "");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(test_nothing_is_wrong_with_how_they_are_written),
      cmocka_unit_test(test_each_says_why_in_a_few_sentences),
      cmocka_unit_test(test_each_has_a_title_and_a_source),
      cmocka_unit_test(test_each_that_guards_a_life_has_a_caution),
  };
  return cmocka_run_group_tests_name("rules/trade_rules", tests, setup, teardown);
}
