// SPDX-License-Identifier: MIT
// What the trade's rules alone would find, against a review by a rulebook that holds nothing else.
#include "unit/rulebook/firm.h"

#define RULE(id, more) "rule \"" id "\" { title = \"t\", why = \"w\", source = \"s\", stage = \"stone\", " more " }\n"

static const char trade[] = RULE("deep",
                                 "for_each = \"basin\", severity = \"hold\", judges = \"depth\", at_most = \"20 in\"")
    RULE("foot", "for_each = \"boulder\", severity = \"revise\", judges = \"embedment\", at_least = \"6 in\"") RULE(
        "steps", "for_each = \"boulder\", judges = \"height\", at_most = { advise = \"1 ft\", revise = \"2 ft\" }")
        RULE("asks",
             "for_each = \"boulder\", severity = \"advise\", limit = { least = \"3 ft\" }, check = function(b, limit) "
             "return at_least(b.length, limit.least) end")
            RULE("gate",
                 "for_each = \"site\", severity = \"advise\", life_safety = true, judges = \"gate_width\", at_least = "
                 "\"4 "
                 "ft\"")
                RULE("same", "for_each = \"boulder\", severity = \"advise\", judges = \"width\", at_least = \"2 ft\"");

static const char garden[] =
    "project { name = \"G\", units = \"us\" }\n"
    "basin \"pool\" { purpose = \"display\", outline = circle { \"6 ft\" }, rim = \"2 in\", water_level = \"0 in\", "
    "depth = \"2 "
    "ft\" }\n"
    "boulder \"a\" { length = \"3 ft\", width = \"1 ft\", height = \"30 in\", embedment = \"4 in\" }\n"
    "boulder \"b\" { length = \"2 ft\", width = \"3 ft\", height = \"18 in\", embedment = \"8 in\" }\n";

static int finding(const struct outcome *outcome) {
  if (outcome->sort == OUTCOME_FLAGGED) return (int)outcome->severity;
  return outcome->sort == OUTCOME_UNANSWERED && outcome->counts_as_held ? SEVERITY_HOLD : -1;
}

static void check(const char *house, size_t added, size_t taken, size_t changed) {
  struct firm *both = firm_new(), *alone = firm_of(trade);
  size_t counts[SEVERITY_COUNT] = {0};
  firm_read(both, "trade", "t.lua", trade);
  firm_read(both, "house", "h.lua", house);
  rulebook_finish(both->rulebook, &both->problems);
  assert_string_equal(firm_problems(both), "");
  const struct review *by_trade = firm_judge(alone, garden), *by_both = firm_judge(both, garden);
  for (size_t i = 0; i < by_trade->outcome_count; i++) {
    if (finding(&by_trade->outcomes[i]) >= 0) counts[finding(&by_trade->outcomes[i])]++;
  }
  assert_int_equal(by_trade->firm.known, 0);
  assert_int_equal(by_both->firm.known, 1);
  for (int s = 0; s < SEVERITY_COUNT; s++) assert_int_equal(by_both->firm.alone[s], counts[s]);
  assert_int_equal(by_both->firm.added, added);
  assert_int_equal(by_both->firm.taken, taken);
  assert_int_equal(by_both->firm.changed, changed);
  firm_free(both);
  firm_free(alone);
}

static void nothing_changed_changes_nothing(void **state) {
  (void)state;
  check("", 0, 0, 0);
  check("stock { prices = { gravel = \"$3\" } }", 0, 0, 0);
  check("adjust \"foot\" { at_least = \"6 in\" }", 0, 0, 0);
}

static void limits_and_severities(void **state) {
  (void)state;
  check("adjust \"foot\" { at_least = \"10 in\" }", 1, 0, 0);
  check("adjust \"foot\" { at_least = \"3 in\" }", 0, 1, 0);
  check("adjust \"foot\" { severity = \"hold\" }", 0, 0, 1);
  check("adjust \"steps\" { at_most = { advise = \"2 ft\", revise = \"4 ft\" } }", 0, 1, 1);
  check("adjust \"asks\" { limit = { least = \"18 in\" } }", 0, 1, 0);
  check("adjust \"asks\" { severity = \"hold\" }", 0, 0, 1);
}

static void rules_retired_and_new(void **state) {
  (void)state;
  check("retire \"deep\" { because = \"x\" }", 0, 1, 0);
  check("retire \"gate\" { because = \"x\" }", 0, 1, 0);  // not answered, and lives depend on it
  check(RULE("own", "for_each = \"boulder\", severity = \"advise\", judges = \"length\", at_least = \"10 ft\""), 2, 0,
        0);
  check("retire \"deep\" { because = \"x\" }\nadjust \"foot\" { at_least = \"10 in\" }", 1, 1, 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(nothing_changed_changes_nothing),
      cmocka_unit_test(limits_and_severities),
      cmocka_unit_test(rules_retired_and_new),
  };
  return cmocka_run_group_tests_name("rulebook/judge_alone", tests, NULL, NULL);
}
