// SPDX-License-Identifier: MIT
// Whole rule files: what makes one unusable, and what spoils one rule and leaves the others in force.
#include "unit/rulebook/firm.h"

#define HEAD \
  "title = \"t\", why = \"w\", source = \"s\", stage = \"stone\", severity = \"revise\", for_each = \"boulder\", "
#define GOOD(id) "rule \"" id "\" { " HEAD "judges = \"embedment\", at_least = \"6 in\" }\n"

static size_t in_force(struct firm *firm) {
  size_t count, whole = 0;
  const struct rule_facts *rules = rulebook_rules(firm->rulebook, &count);
  for (size_t i = 0; i < count; i++) whole += rules[i].broken == NULL;
  return whole;
}

static void check_problems(const char *text, bool usable, size_t rules, const char *problems) {
  struct firm *firm = firm_new();
  bool used = firm_read(firm, "trade", "a.lua", text);
  rulebook_finish(firm->rulebook, &firm->problems);
  assert_string_equal(firm_problems(firm), problems);
  assert_int_equal(used, usable);
  assert_int_equal(in_force(firm), rules);
  assert_int_equal(rulebook_problems(firm->rulebook)->count, firm->problems.count);
  firm_free(firm);
}

static void a_good_file(void **state) {
  (void)state;
  check_problems(GOOD("a") GOOD("b") "local depth = \"6 in\"\n" GOOD("c"), true, 3, "");
  check_problems("", true, 0, "");
}

static void rules_written_in_a_loop(void **state) {
  (void)state;
  check_problems(
      "for _, kind in ipairs { \"boulder\", \"coping\" } do\n"
      "  rule(kind .. \"-heavy\") { title = \"t\", why = \"w\", source = \"s\", stage = \"stone\", severity = "
      "\"revise\",\n"
      "    for_each = kind, judges = \"mass_high\", at_most = \"2 ton\" }\n"
      "end\n",
      true, 2, "");
}

static void check_slip(const char *text, bool whole, int line, size_t left) {
  struct firm *firm = firm_new();
  assert_int_equal(firm_read(firm, "trade", "a.lua", text), whole);
  assert_true(firm_read(firm, "trade", "b.lua", GOOD("z")));
  rulebook_finish(firm->rulebook, &firm->problems);
  assert_int_equal(firm->problems.count, 1);
  assert_string_equal(firm->problems.list[0].at.file, "a.lua");
  assert_int_equal(firm->problems.list[0].at.line, line);
  assert_false(rulebook_whole(firm->rulebook));
  assert_int_equal(in_force(firm), left + 1);
  firm_free(firm);
}

static void a_syntax_error_ends_the_file(void **state) {
  (void)state;
  check_slip(GOOD("a") "rule \"b\" { title = }\n", false, 2, 0);
  check_slip(GOOD("a") GOOD("b") "rule \"c\" { title = \"t\"\n  why = \"w\" }\n", false, 3, 0);
}

static void an_error_while_it_runs_leaves_what_stands_before_it(void **state) {
  (void)state;
  check_slip(GOOD("a") "local x = 1 + {}\n" GOOD("b"), false, 2, 1);
}

static void a_bad_declaration_takes_no_other_with_it(void **state) {
  (void)state;
  check_slip(GOOD("a") "\nrule(7) { }\n" GOOD("b"), true, 3, 2);
  check_slip(GOOD("a") "rule \"b\" \"c\"\n" GOOD("d"), true, 2, 2);
  check_slip(GOOD("a") "rule { title = \"x\" }\n" GOOD("d"), true, 2, 2);
  check_slip(GOOD("a") "adjust { }\n" GOOD("d"), true, 2, 2);
  check_slip(GOOD("a") "retire \"a\" \"because\"\n" GOOD("d"), true, 2, 2);
  check_slip(GOOD("a") "stock \"mine\" { pumps = { } }\n" GOOD("d"), true, 2, 2);
}

static void a_file_without_end_is_stopped(void **state) {
  (void)state;
  struct firm *firm = firm_with((struct rulebook_budget){.file_instructions = 100000});
  assert_false(firm_read(firm, "trade", "a.lua", GOOD("a") "while true do end\n"));
  assert_int_equal(firm->problems.count, 1);
  assert_int_equal(firm->problems.list[0].at.line, 2);
  assert_non_null(strstr(firm->problems.list[0].said, "does not end"));
  assert_true(firm_read(firm, "trade", "b.lua", GOOD("b")));
  rulebook_finish(firm->rulebook, &firm->problems);
  assert_int_equal(in_force(firm), 2);  // what stood before it, and the next file
  firm_free(firm);
}

static void memory_is_bounded(void **state) {
  (void)state;
  struct firm *firm = firm_with((struct rulebook_budget){.memory = 1 << 20});
  assert_false(firm_read(firm, "trade", "a.lua", "local t = {}\nfor i = 1, 1e6 do t[i] = { i } end\n"));
  assert_int_equal(firm->problems.count, 1);
  assert_true(firm_read(firm, "trade", "b.lua", GOOD("b")));
  firm_free(firm);
}

static void a_file_that_is_no_text(void **state) {
  (void)state;
  check_problems("rule \"a\" { title = \"\xff\" }", false, 0,
                 "a.lua: is not a text in UTF-8; write the file saved as UTF-8\n");
}

static void a_bad_rule_hides_no_other(void **state) {
  (void)state;
  check_problems(GOOD("a") "rule \"b\" { " HEAD "judges = \"embedmant\", at_least = \"6 in\" }\n" GOOD("c"), true, 2,
                 "a.lua:2: rule \"b\".judges: a boulder has no `embedmant`; read \"embedmant\"; write `embedment`, if "
                 "that is meant\n");
}

static void an_unknown_word_spoils_its_rule_alone(void **state) {
  (void)state;
  check_problems(GOOD("a") "rule \"b\" { " HEAD "judges = embedment, at_least = \"6 in\" }\n" GOOD("c"), true, 2,
                 "a.lua:2: this name is not known here; read \"embedment\"; write \"embedment\" in quotes, if it is a "
                 "name\n");
  check_problems(GOOD("a") "rul \"b\" { }\n" GOOD("c"), true, 2,
                 "a.lua:2: this name is not known here; read \"rul\"; write `rule`, if that is meant\n");
}

static void a_name_without_its_table(void **state) {
  (void)state;
  check_problems(GOOD("a") "rule \"b\"\n" GOOD("c"), true, 2,
                 "a.lua:2: rule \"b\": has no table in { } after its name; write its contents in { }\n");
}

static void rules_that_stand_twice(void **state) {
  (void)state;
  check_problems(GOOD("a") GOOD("b") GOOD("a"), true, 2,
                 "a.lua:3: rule \"a\": stands already in a.lua, line 1; the first one holds; write another name\n");
  struct firm *firm = firm_new();
  firm_read(firm, "trade", "a.lua", GOOD("a"));
  firm_read(firm, "house", "h.lua", "\n" GOOD("a"));
  assert_string_equal(firm_problems(firm),
                      "h.lua:2: rule \"a\": stands already in a.lua, line 1; the first one holds; "
                      "write adjust \"a\" { ... } to change its limits, or another name\n");
  firm_free(firm);
}

static void functions_keep_nothing_from_outside(void **state) {
  (void)state;
  check_problems(
      GOOD("a") "local lip = q\"6 in\"\nrule \"b\" { " HEAD
                "\n  check = function(stone)\n    return at_least(stone.embedment, lip)\n  end }\n",
      true, 1,
      "a.lua:4: rule \"b\".check: `lip` is set outside of the function, and a rule keeps nothing from outside; "
      "write it under limit = { }, or set `lip` inside of the function\n");
  check_problems("local n = 0\nrule \"b\" { " HEAD
                 "when = function() n = n + 1 return true end,\n judges = \"embedment\", at_least = \"6 in\" }\n",
                 true, 0,
                 "a.lua:2: rule \"b\".when: `n` is set outside of the function, and a rule keeps nothing from outside; "
                 "write it under limit = { }, or set `n` inside of the function\n");
}

static void nothing_is_set_for_the_whole_file(void **state) {
  (void)state;
  check_problems("depth = \"6 in\"\n" GOOD("a"), true, 1,
                 "a.lua:1: `depth` is set for the whole file; write `local` before it\n");
}

static void named_limits(void **state) {
  (void)state;
  check_problems("rule \"a\" { " HEAD "limit = { least = \"6 inch\" },\n check = function() end }\n", true, 1, "");
  check_problems("rule \"a\" { " HEAD "\n limit = { least = \"6 foo\" },\n check = function() end }\n", true, 0,
                 "a.lua:2: rule \"a\".least: \"foo\" is no unit that is known here; read \"6 foo\"; write a number "
                 "with its unit, as in 30 in\n");
  check_problems("rule \"a\" { " HEAD "\n limit = { \"6 in\" },\n check = function() end }\n", true, 0,
                 "a.lua:2: rule \"a\".limit: a limit has no name before it; read \"6 in\"; write least = \"...\"\n");
  check_problems("rule \"a\" { " HEAD "\n check = 5 }\n", true, 0,
                 "a.lua:2: rule \"a\".check: is not a function; read \"5\"; write function(entity, limit) ... end\n");
}

static void tables_too_deep_or_endless(void **state) {
  (void)state;
  check_problems("local t = {}\nt.t = t\nrule \"b\" (t)\n" GOOD("a"), true, 1,
                 "a.lua:3: tables stand in tables more than 12 deep; write fewer\n");
  check_problems("local t = {}\nfor i = 1, 5000 do t[i] = \"x\" end\nrule \"b\" { " HEAD "when = t }\n" GOOD("a"), true,
                 1, "a.lua:3: a rule holds more than 4,000 values; write fewer\n");
}

static void words_of_rules_outside_of_rules(void **state) {
  (void)state;
  check_problems("local ok = at_least(q\"1 in\", q\"2 in\")\n", false, 0,
                 "a.lua:1: `at_least` compares while a rule runs; write it inside of check = function(...) ... end\n");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_good_file),
      cmocka_unit_test(rules_written_in_a_loop),
      cmocka_unit_test(a_syntax_error_ends_the_file),
      cmocka_unit_test(an_error_while_it_runs_leaves_what_stands_before_it),
      cmocka_unit_test(a_bad_declaration_takes_no_other_with_it),
      cmocka_unit_test(a_file_without_end_is_stopped),
      cmocka_unit_test(memory_is_bounded),
      cmocka_unit_test(a_file_that_is_no_text),
      cmocka_unit_test(a_bad_rule_hides_no_other),
      cmocka_unit_test(an_unknown_word_spoils_its_rule_alone),
      cmocka_unit_test(a_name_without_its_table),
      cmocka_unit_test(rules_that_stand_twice),
      cmocka_unit_test(functions_keep_nothing_from_outside),
      cmocka_unit_test(nothing_is_set_for_the_whole_file),
      cmocka_unit_test(named_limits),
      cmocka_unit_test(tables_too_deep_or_endless),
      cmocka_unit_test(words_of_rules_outside_of_rules),
  };
  return cmocka_run_group_tests_name("rulebook/load", tests, NULL, NULL);
}
