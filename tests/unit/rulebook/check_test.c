// SPDX-License-Identifier: MIT
// How rules are written, checked: each slip alone in a rule that is right otherwise, and what is said of it.
#include "unit/rulebook/firm.h"

#define HEAD "title = \"t\", why = \"w\", source = \"s\", stage = \"layout\", severity = \"revise\",\n"
#define RULE(body) "rule \"a\" { " HEAD body " }\n"

// A data rule on a given, and one with a check: nothing is wrong with either.
#define DATA_EXAMPLES                                                              \
  "examples = { { \"f\", basin = { depth = \"1 in\" }, outcome = \"flagged\" },\n" \
  "{ \"c\", basin = { depth = \"9 in\" }, outcome = \"clear\" },\n"                \
  "{ \"limit\", basin = { depth = \"8 in\" }, outcome = \"clear\" } },"
#define DATA "for_each = \"basin\", judges = \"depth\", at_least = \"8 in\"," DATA_EXAMPLES
#define CHECK_EXAMPLES                                                                                \
  "examples = { { \"f\", pipe = { length = \"80 ft\", valve = \"none\" }, outcome = \"flagged\" },\n" \
  "{ \"c\", pipe = { length = \"80 ft\", valve = \"ball\" }, outcome = \"clear\" },\n"                \
  "{ \"limit\", pipe = { length = \"60 ft\", valve = \"none\" }, outcome = \"clear\" } },"

static const char *check_in(struct firm *firm, const char *rules, struct rulebook_check_counts *counts) {
  static const char *const names[] = {"a.lua"};
  firm_read(firm, "house", "a.lua", rules);
  rulebook_finish(firm->rulebook, &firm->problems);
  struct text notes = text_in(firm->arena);
  *counts = rulebook_check(firm->rulebook, (struct rulebook_files){names, 1}, &firm->problems, &notes,
                           (struct rulebook_watch){0});
  return text_end(&notes);
}

static void expect(const char *rules, const char *wrong, const char *notes) {
  struct firm *firm = firm_new();
  struct rulebook_check_counts counts;
  assert_string_equal(check_in(firm, rules, &counts), notes);
  problems_sort(&firm->problems);
  assert_string_equal(firm_problems(firm), wrong);
  firm_free(firm);
}

static void rules_that_are_right(void **state) {
  (void)state;
  expect(RULE(DATA), "", "");
  expect(RULE("for_each = \"pipe\", limit = { long = \"60 ft\" },\n"
              "check = function(pipe, limit)\n"
              "  return at_most(pipe.length, limit.long) and is(pipe.valve, \"ball\")\n"
              "end,\n" CHECK_EXAMPLES),
         "", "");
}

static void counts_what_it_looked_at(void **state) {
  (void)state;
  struct firm *firm = firm_new();
  struct rulebook_check_counts counts;
  firm_read(firm, "trade", "trade.lua", "rule \"b\" { " HEAD DATA " }");
  check_in(
      firm,
      RULE("for_each = \"basin\", judges = \"depth\", at_least = \"8 in\",") "adjust \"b\" { at_least = \"9 in\" }",
      &counts);
  assert_int_equal(counts.rules, 1);  // that of a.lua alone
  assert_int_equal(counts.changes, 1);
  assert_int_equal(counts.wrong, 1);
  assert_int_equal(counts.notes, 0);
  firm_free(firm);
}

static void examples_that_are_lacking(void **state) {
  (void)state;
  expect(RULE("for_each = \"basin\", judges = \"depth\", at_least = \"8 in\","),
         "a.lua:1: rule \"a\": its examples are not enough; write also one that is flagged, one that is clear, one at "
         "the limit (with \"limit\" in its name)\n",
         "");
}

static void examples_that_do_otherwise(void **state) {
  (void)state;
  expect(RULE("for_each = \"basin\", judges = \"depth\", at_least = \"8 in\",\n"
              "examples = { { \"f\", basin = { depth = \"9 in\" }, outcome = \"flagged\" },\n"
              "{ \"c\", basin = { depth = \"9 in\" }, outcome = \"claer\" },\n"
              "{ \"d\", basin = { dept = \"9 in\" }, outcome = \"clear\" },\n"
              "{ \"the limit\", basin = { depth = \"8 1/4 in\" }, outcome = \"clear\" } },"),
         "a.lua:3: rule \"a\", \"f\": is clear, and flagged was expected\n"
         "a.lua:4: rule \"a\", \"c\": its outcome is missing or unknown; write outcome = \"flagged\", \"clear\", "
         "\"unanswered\" or \"not applicable\"\n"
         "a.lua:5: rule \"a\", \"d\": a basin has no `dept`; write `depth`, if that is meant\n"
         "a.lua:6: rule \"a\", \"the limit\": is named for the limit and does not stand at it; write the value of the "
         "limit, or another name\n",
         "");
}

static void only_the_judged_quantity_is_stated(void **state) {
  (void)state;
#define FREEBOARD(flagged)                                                   \
  RULE(                                                                      \
      "for_each = \"basin\", judges = \"freeboard\", at_least = \"3 in\",\n" \
      "examples = { { \"f\", basin = { " flagged                             \
      " }, outcome = \"flagged\" },\n"                                       \
      "{ \"c\", basin = { freeboard = \"4 in\" }, outcome = \"clear\" },\n"  \
      "{ \"limit\", basin = { freeboard = \"3 in\" }, outcome = \"clear\" } },")
  expect(FREEBOARD("freeboard = \"1 in\""),
         "a.lua:1: rule \"a\": each of its examples states what is judged itself; write one that states what it is "
         "worked out from instead: `forebay explain --list` has the formulas\n",
         "");
  // Worked out in one; that it can come out clear as well is found by other values of rim and water level.
  expect(FREEBOARD("rim = \"0 in\", water_level = \"-1 in\""), "", "");
}

// No example can state an outline: what hangs on one may be stated itself.
static void out_of_reach(void **state) {
  (void)state;
  expect(RULE("for_each = \"basin\", judges = \"perimeter\", at_least = \"30 ft\",\n"
              "examples = { { \"f\", basin = { perimeter = \"20 ft\" }, outcome = \"flagged\" },\n"
              "{ \"c\", basin = { perimeter = \"40 ft\" }, outcome = \"clear\" },\n"
              "{ \"limit\", basin = { perimeter = \"30 ft\" }, outcome = \"clear\" } },"),
         "", "");
}

// A word needs no example at the limit.
static void limits_that_are_words(void **state) {
  (void)state;
  expect(RULE("for_each = \"pipe\", limit = { valve = \"ball\" },\n"
              "check = function(pipe, limit) return is(pipe.valve, limit.valve) end,\n"
              "examples = { { \"f\", pipe = { valve = \"none\" }, outcome = \"flagged\" },\n"
              "{ \"c\", pipe = { valve = \"ball\" }, outcome = \"clear\" } },"),
         "", "");
}

// A count of what the example describes, which no other value of it changes.
static void not_seen_is_a_note(void **state) {
  (void)state;
  expect(RULE("for_each = \"boulder\", judges = \"pick_count\", at_least = \"1\",\n"
              "examples = { { \"f\", boulder = {}, outcome = \"flagged\" },\n"
              "{ \"c\", boulder = { pick_count = 2 }, outcome = \"clear\" },\n"
              "{ \"limit\", boulder = { pick_count = 1 }, outcome = \"clear\" } },"),
         "",
         "a.lua:1: note: rule \"a\": no example that states what it is worked out from (in which there is nothing to "
         "vary) made it come out clear\n");
}

static void certain_by_the_bounds(void **state) {
  (void)state;
  // A depth is more than 0 in.
  expect(RULE("for_each = \"basin\", judges = \"depth\", at_least = \"0 in\",\n" DATA_EXAMPLES),
         "a.lua:2: rule \"a\": the rule can never flag: every value that `depth` can have within its bounds meets the "
         "limit; read \"0 in\"; write a limit that some designs meet and others do not\n"
         "a.lua:3: rule \"a\", \"f\": is clear, and flagged was expected\n"
         "a.lua:5: rule \"a\", \"limit\": is named for the limit and does not stand at it; write the value of the "
         "limit, or another name\n",
         "");
  expect(
      RULE("for_each = \"basin\", when = { depth = { at_least = \"4 ft\" } }, judges = \"depth\", at_most = \"2 ft\",\n"
           "examples = { { \"f\", basin = { depth = \"5 ft\" }, outcome = \"flagged\" } },"),
      "a.lua:1: rule \"a\": its examples are not enough; write also one that is clear, one at the limit (with "
      "\"limit\" in its name)\n"
      "a.lua:2: rule \"a\": the rule can never come out clear: every value that `depth` can have within its bounds "
      "and `when` breaks the limit; read \"2 ft\"; write a limit that some designs meet and others do not\n",
      "");
}

static void a_when_that_is_never_so(void **state) {
  (void)state;
  struct firm *firm = firm_new();
  struct rulebook_check_counts counts;
  check_in(firm, RULE("when = { depth = { at_least = \"4 ft\", at_most = \"3 ft\" } },\n" DATA), &counts);
  assert_non_null(
      strstr(firm_problems(firm), "a.lua:2: rule \"a\": `depth` can never be so: the rule applies to nothing"));
  firm_free(firm);
}

static void words_that_are_all_right(void **state) {
  (void)state;
  struct firm *firm = firm_new();
  struct rulebook_check_counts counts;
  check_in(firm,
           RULE("for_each = \"pipe\", judges = \"water_test\", is = { \"none\", \"planned\" },\n"
                "examples = { { \"c\", pipe = { water_test = \"none\" }, outcome = \"clear\" } },"),
           &counts);
  assert_non_null(strstr(firm_problems(firm), "the rule can never flag: every value that `water_test` can have"));
  firm_free(firm);
}

#define FUNCTION(body)                                                                            \
  RULE("for_each = \"pipe\", limit = { long = \"60 ft\" },\ncheck = function(pipe, limit)\n" body \
       "end,\n" CHECK_EXAMPLES)

static void lines_that_nothing_runs(void **state) {
  (void)state;
  expect(FUNCTION("  if pipe.length > q\"90 ft\" then\n"
                  "    local twice = 2\n"
                  "    return must(twice == 1, \"x\")\n"
                  "  end\n"
                  "  return at_most(pipe.length, limit.long) and is(pipe.valve, \"ball\")\n"),
         "a.lua:5: rule \"a\": lines 5 to 6 are run by none of its examples; write an example that comes by here\n",
         "");
}

static void limits_that_nothing_reads(void **state) {
  (void)state;
  expect(RULE("for_each = \"pipe\", limit = { long = \"60 ft\", short = \"1 ft\",\n"
              "wide = { revise = \"2 in\", advise = \"1 in\" } },\n"
              "check = function(pipe, limit)\n"
              "  return at_most(pipe.length, limit.long) and is(pipe.valve, \"ball\")\n"
              "end,\n" CHECK_EXAMPLES),
         "a.lua:2: rule \"a\": its limit `short` is read by none of its examples; write a comparison that reads it and "
         "an example that comes by there, or leave the limit out\n"
         "a.lua:3: rule \"a\": its limit `wide` is read by none of its examples; write a comparison that reads it and "
         "an example that comes by there, or leave the limit out\n",
         "");
}

// Walking all of them reads all of them.
static void limits_that_are_walked(void **state) {
  (void)state;
  expect(RULE("for_each = \"pipe\", limit = { long = \"60 ft\", longer = \"70 ft\" },\n"
              "check = function(pipe, limit)\n"
              "  for _, most in pairs(limit) do\n"
              "    local over = at_most(pipe.length, most) and is(pipe.valve, \"ball\")\n"
              "    if over then return over end\n"
              "  end\n"
              "end,\n" CHECK_EXAMPLES),
         "", "");
}

// Found on a branch that no example takes as well, in loops and in locals; a name set twice is left alone.
static void names_in_functions(void **state) {
  (void)state;
  struct firm *firm = firm_new();
  struct rulebook_check_counts counts;
  check_in(firm,
           FUNCTION("  local from, twice = nil, pipe\n"
                    "  local filter = pipe.filter\n"
                    "  if pipe.lenght then return at_most(pipe.length, limit.lnog) end\n"
                    "  for _, bend in ipairs(pipe.fittings) do\n"
                    "    if bend.cuont == 3 then return must(filter.dirty_los == 1, bend.kind) end\n"
                    "  end\n"
                    "  twice = filter\n"
                    "  return must(twice.anything and pipe.site.sol, from)\n"),
           &counts);
  const char *wrong = firm_problems(firm);
  assert_non_null(strstr(wrong, "a.lua:6: rule \"a\": a pipe has no `lenght`; write `length`, if that is meant\n"));
  assert_non_null(strstr(wrong, "a.lua:6: rule \"a\": the rule has no limit `lnog`; write `long`, if that is meant\n"));
  assert_non_null(strstr(wrong, "a.lua:8: rule \"a\": a fitting has no `cuont`; write `count`, if that is meant\n"));
  assert_non_null(strstr(wrong, "a.lua:8: rule \"a\": a filter has no `dirty_los`"));
  assert_non_null(strstr(wrong, "a.lua:11: rule \"a\": a site has no `sol`; write `soil`, if that is meant\n"));
  assert_null(strstr(wrong, "anything"));
  firm_free(firm);
}

static void what_breaks_when_it_runs(void **state) {
  (void)state;
  struct firm *firm = firm_new();
  struct rulebook_check_counts counts;
  // No example has so long a pipe; a variation does.
  check_in(firm,
           FUNCTION("  if pipe.length > q\"200 ft\" then return at_most(pipe.length, q\"3 gal/h\") end\n"
                    "  return at_most(pipe.length, limit.long) and is(pipe.valve, \"ball\")\n"),
           &counts);
  assert_non_null(strstr(firm_problems(firm), "a.lua:4: rule \"a\", \"f\" with length = \""));
  assert_int_equal(counts.wrong, 1);
  firm_free(firm);
  expect(RULE("for_each = \"pipe\", check = function() return 7 end,\n"
              "examples = { { \"c\", pipe = {}, outcome = \"clear\" },\n"
              "{ \"f\", pipe = { valve = \"ball\" }, outcome = \"flagged\" } },"),
         "a.lua:2: rule \"a\", \"c\": `check` returns something else than what at_least, at_most, within, must or is "
         "give back; return one of these, several joined by `or`, or nothing\n",
         "");
}

// A review never looks at examples, so it can use a rule whose examples nobody can.
static void examples_without_end(void **state) {
  (void)state;
  struct firm *firm = firm_new();
  struct text rules = text_in(firm->arena);
  text_add(&rules, "local many = {} for i = 1, 4500 do many[i] = { \"x\" } end\n");
  text_add(&rules,
           "rule \"a\" { " HEAD "for_each = \"basin\", judges = \"depth\", at_least = \"8 in\", examples = many }\n");
  struct rulebook_check_counts counts;
  check_in(firm, text_end(&rules), &counts);
  assert_non_null(strstr(firm_problems(firm),
                         "a.lua:2: rule \"a\": its examples cannot be used: a rule holds more than 4,000 values\n"));
  firm_judge(firm,
             "project { name = \"p\", units = \"us\" }\nbasin \"b\" { outline = circle { \"6 ft\" }, rim = \"0 in\", "
             "water_level = \"-4 in\", depth = \"4 in\", purpose = \"display\" }\n");
  assert_int_equal(firm_outcome(firm, "a", "b")->sort, OUTCOME_FLAGGED);
  firm_free(firm);
}

// A limit that a later file sets can shut a rule of the trade's: told at the line that sets it.
static void an_adjusted_limit(void **state) {
  (void)state;
  struct firm *firm = firm_new();
  struct rulebook_check_counts counts;
  firm_read(firm, "trade", "trade.lua", "rule \"b\" { " HEAD DATA " }");
  check_in(firm, "adjust \"b\" {\n  at_least = \"0 in\" }\n", &counts);
  assert_non_null(strstr(firm_problems(firm), "a.lua:2: rule \"b\": the rule can never flag"));
  firm_free(firm);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(rules_that_are_right),      cmocka_unit_test(counts_what_it_looked_at),
      cmocka_unit_test(examples_that_are_lacking), cmocka_unit_test(examples_that_do_otherwise),
      cmocka_unit_test(certain_by_the_bounds),     cmocka_unit_test(only_the_judged_quantity_is_stated),
      cmocka_unit_test(not_seen_is_a_note),        cmocka_unit_test(a_when_that_is_never_so),
      cmocka_unit_test(words_that_are_all_right),  cmocka_unit_test(lines_that_nothing_runs),
      cmocka_unit_test(limits_that_are_walked),    cmocka_unit_test(out_of_reach),
      cmocka_unit_test(limits_that_are_words),     cmocka_unit_test(limits_that_nothing_reads),
      cmocka_unit_test(names_in_functions),        cmocka_unit_test(what_breaks_when_it_runs),
      cmocka_unit_test(an_adjusted_limit),         cmocka_unit_test(examples_without_end),
  };
  return cmocka_run_group_tests_name("rulebook/check", tests, NULL, NULL);
}
