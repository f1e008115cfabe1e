// SPDX-License-Identifier: MIT
// What a firm's layer changes: adjust, retire, rules of its own.
#include "rulebook/decision.h"

#include <stdio.h>

#include "unit/rulebook/firm.h"

static const char trade[] =
    "rule \"lip-overfed\" { title = \"t\", why = \"w\", source = \"s\", for_each = \"spill\", stage = \"plumbing\", "
    "severity = \"revise\",\n"
    "  judges = \"flow_per_width\", at_most = \"200 gal/h/in\" }\n"
    "rule \"pipe-too-fast\" { title = \"t\", why = \"w\", source = \"s\", for_each = \"pipe\", stage = \"plumbing\",\n"
    "  judges = \"velocity\", at_most = { revise = \"5 ft/s\", hold = \"8 ft/s\" } }\n"
    "rule \"set-stone\" { title = \"t\", why = \"w\", source = \"s\", for_each = \"boulder\", stage = \"stone\", "
    "severity = \"advise\",\n"
    "  limit = { least = \"4 in\", most = \"2 ft\" }, check = function() end }\n"
    "rule \"lip-shape\" { title = \"t\", why = \"w\", source = \"s\", for_each = \"spill\", stage = \"plumbing\", "
    "severity = \"revise\",\n"
    "  judges = \"lip\", is = { \"rounded\", \"notch\" } }\n";

static struct firm *firm_with_house(const char *house) {
  struct firm *firm = firm_new();
  assert_true(firm_read(firm, "trade", "t.lua", trade));
  assert_true(firm_read(firm, "house", "h.lua", house));
  rulebook_finish(firm->rulebook, &firm->problems);
  return firm;
}

static void check_house(const char *house, const char *problems) {
  struct firm *firm = firm_with_house(house);
  assert_string_equal(firm_problems(firm), problems);
  const struct rule_facts *rule = rulebook_find(firm->rulebook, "lip-overfed");
  if (problems[0]) assert_string_equal(rule->limits[0].text, "200 gal/h/in");
  firm_free(firm);
}

static void lives_are_softened_for_a_reason(void **state) {
  (void)state;
  struct firm *firm = firm_new();
  firm_read(firm, "trade", "t.lua",
            "rule \"way-out\" { title = \"t\", why = \"w\", source = \"s\", for_each = \"dig\", stage = \"dig\", "
            "severity = \"hold\", life_safety = true, judges = \"way_out\", at_most = \"25 ft\" }\n");
  firm_read(firm, "house", "h.lua", "adjust \"way-out\" { severity = \"advise\" }");
  rulebook_finish(firm->rulebook, &firm->problems);
  assert_string_equal(
      firm_problems(firm),
      "h.lua:1: adjust \"way-out\": lives depend on this rule, and `because` is missing; write because = "
      "\"why this firm may do otherwise\"\n");
  assert_int_equal(rulebook_find(firm->rulebook, "way-out")->severity, SEVERITY_HOLD);
  firm_free(firm);
}

static void a_limit_and_a_severity_adjusted(void **state) {
  (void)state;
  struct firm *firm = firm_with_house(
      "\nadjust \"lip-overfed\" {\n  at_most = \"250 gal/h/in\",\n  severity = \"advise\", because = \"our lips are "
      "broad\" }");
  const struct rule_facts *rule = rulebook_find(firm->rulebook, "lip-overfed");
  assert_string_equal(firm_problems(firm), "");
  assert_int_equal(rule->severity, SEVERITY_ADVISE);
  assert_string_equal(rule->layer, "trade");
  assert_string_equal(rule->adjusted_by, "house");
  assert_string_equal(rule->because, "our lips are broad");
  assert_int_equal(rule->limit_count, 1);
  assert_string_equal(rule->limits[0].text, "250 gal/h/in");
  assert_string_equal(rule->limits[0].layer, "house");
  assert_string_equal(rule->limits[0].at.file, "h.lua");
  assert_int_equal(rule->limits[0].at.line, 3);
  assert_int_equal(rule->limits[0].severity, SEVERITY_ADVISE);
  firm_free(firm);
}

static void limits_by_severity_adjusted(void **state) {
  (void)state;
  struct firm *firm =
      firm_with_house("adjust \"pipe-too-fast\" { at_most = { advise = \"4 ft/s\", revise = \"6 ft/s\" } }");
  const struct rule_facts *rule = rulebook_find(firm->rulebook, "pipe-too-fast");
  assert_string_equal(firm_problems(firm), "");
  assert_int_equal(rule->severity, SEVERITY_REVISE);
  assert_int_equal(rule->limit_count, 2);
  assert_string_equal(rule->limits[0].text, "4 ft/s");
  assert_int_equal(rule->limits[0].severity, SEVERITY_ADVISE);
  firm_free(firm);
}

static void one_of_the_named_limits_adjusted(void **state) {
  (void)state;
  struct firm *firm = firm_with_house("adjust \"set-stone\" { limit = { most = \"3 ft\" } }");
  const struct rule_facts *rule = rulebook_find(firm->rulebook, "set-stone");
  assert_string_equal(firm_problems(firm), "");
  assert_int_equal(rule->limit_count, 2);
  assert_string_equal(rule->limits[0].name, "least");
  assert_string_equal(rule->limits[0].layer, "trade");
  assert_string_equal(rule->limits[1].text, "3 ft");
  assert_string_equal(rule->limits[1].layer, "house");
  firm_free(firm);
}

static void words_adjusted(void **state) {
  (void)state;
  struct firm *firm = firm_with_house("adjust \"lip-shape\" { is = \"rounded\" }");
  assert_string_equal(firm_problems(firm), "");
  assert_string_equal(rulebook_find(firm->rulebook, "lip-shape")->limits[0].text, "rounded");
  firm_free(firm);
}

static void a_rule_retired(void **state) {
  (void)state;
  struct firm *firm = firm_with_house("retire \"lip-overfed\" { because = \"we build no lips\" }");
  size_t count, retired;
  assert_string_equal(firm_problems(firm), "");
  assert_null(rulebook_find(firm->rulebook, "lip-overfed"));
  rulebook_rules(firm->rulebook, &count);
  assert_int_equal(count, 3);
  const struct retired_rule *rules = rulebook_retired(firm->rulebook, &retired);
  assert_int_equal(retired, 1);
  assert_string_equal(rules[0].id, "lip-overfed");
  assert_string_equal(rules[0].layer, "house");
  assert_string_equal(rules[0].because, "we build no lips");
  firm_free(firm);
}

static void changes_that_cannot_be_used(void **state) {
  (void)state;
  check_house("adjust \"lip-overfeed\" { at_most = \"250 gal/h/in\" }",
              "h.lua:1: adjust \"lip-overfeed\": there is no such rule; write `lip-overfed`, if that is meant\n");
  check_house("retire \"moat\" { because = \"x\" }", "h.lua:1: retire \"moat\": there is no such rule\n");
  check_house("adjust \"lip-overfed\" { at_most = \"250 gal\" }",
              "h.lua:1: adjust \"lip-overfed\".at_most: gal is a volume, a flow over each length is asked for; read "
              "\"250 gal\"; write 60 gal/h/in\n");
  check_house("adjust \"lip-overfed\" { at_least = \"250 gal/h/in\" }",
              "h.lua:1: adjust \"lip-overfed\": the rule has no limit `at_least`; write `at_most`\n");
  check_house("adjust \"lip-overfed\" { at_moost = \"250 gal/h/in\" }",
              "h.lua:1: adjust \"lip-overfed\": `at_moost` cannot be adjusted in this rule; write `at_most`, if that "
              "is meant\n");
  check_house(
      "adjust \"lip-overfed\" { severity = \"hard\" }",
      "h.lua:1: adjust \"lip-overfed\".severity: is no severity; read \"hard\"; write hold, revise or advise\n");
  check_house("adjust \"lip-overfed\" { title = \"x\" }",
              "h.lua:1: adjust \"lip-overfed\": `title` cannot be adjusted in this rule\n");
  check_house("adjust \"set-stone\" { limit = { leest = \"3 in\" } }",
              "h.lua:1: adjust \"set-stone\": the rule has no limit `leest`; write `least` or `most`\n");
  check_house("adjust \"set-stone\" { limit = { least = \"3 gal\" } }",
              "h.lua:1: adjust \"set-stone\".least: is not of the sort that the rule asks for; read \"3 gal\"; write a "
              "value such as \"4 in\"\n");
  check_house("adjust \"pipe-too-fast\" { severity = \"hold\" }",
              "h.lua:1: adjust \"pipe-too-fast\".severity: is said by the rule's limits; write the limits by severity: "
              "at_most = { revise = \"...\", hold = \"...\" }\n");
  check_house("adjust \"pipe-too-fast\" { at_most = \"6 ft/s\" }",
              "h.lua:1: adjust \"pipe-too-fast\": the rule's limits are by severity, so this one needs a severity; "
              "read \"6 ft/s\"; "
              "write { revise = \"...\", hold = \"...\" }, or severity = \"...\" with it\n");
  check_house("adjust \"lip-shape\" { is = \"runded\" }",
              "h.lua:1: adjust \"lip-shape\".is: `lip` has no such word; read \"runded\"; write \"thin edge\" or "
              "\"broad stone\" or "
              "\"rounded\" or \"notch\" or \"V\"\n");
  check_house("retire \"lip-overfed\" { }",
              "h.lua:1: retire \"lip-overfed\": `because` is missing; write because = \"why this rule is not for this "
              "firm\"\n");
  check_house("retire \"lip-overfed\" { because = \"x\", at_most = \"1 in\" }",
              "h.lua:1: retire \"lip-overfed\": a retire has no `at_most`; write `because` alone\n");
}

static void one_layer_says_two_things(void **state) {
  (void)state;
  struct firm *firm = firm_with_house(
      "adjust \"lip-overfed\" { at_most = \"250 gal/h/in\" }\nadjust \"lip-overfed\" { at_most = \"300 gal/h/in\" }");
  assert_string_equal(firm_problems(firm),
                      "h.lua:2: adjust \"lip-overfed\".at_most: an adjust says otherwise in h.lua, line 1; "
                      "the first one holds; write one of the two\n");
  assert_string_equal(rulebook_find(firm->rulebook, "lip-overfed")->limits[0].text, "250 gal/h/in");
  firm_free(firm);
  firm = firm_with_house(
      "adjust \"lip-overfed\" { at_most = \"250 gal/h/in\" }\nretire \"lip-overfed\" { because = \"x\" }");
  assert_string_equal(firm_problems(firm),
                      "h.lua:2: retire \"lip-overfed\": the same layer adjusts or retires it already in h.lua, line 1; "
                      "that one holds; write one of the two\n");
  firm_free(firm);
  firm = firm_with_house(
      "retire \"lip-overfed\" { because = \"x\" }\nadjust \"lip-overfed\" { at_most = \"250 gal/h/in\" }\n"
      "adjust \"lip-overfed\" { because = \"y\" }");
  assert_string_equal(firm_problems(firm),
                      "h.lua:2: adjust \"lip-overfed\": the same layer retires it in h.lua, line 1; that one holds; "
                      "write one of the two\n"
                      "h.lua:3: adjust \"lip-overfed\": the same layer retires it in h.lua, line 1; that one holds; "
                      "write one of the two\n");
  assert_null(rulebook_find(firm->rulebook, "lip-overfed"));
  firm_free(firm);
  firm = firm_with_house(
      "adjust \"lip-overfed\" { at_most = \"250 gal/h/in\" }\nadjust \"lip-overfed\" { severity = \"hold\" }");
  assert_string_equal(firm_problems(firm), "");
  assert_int_equal(rulebook_find(firm->rulebook, "lip-overfed")->severity, SEVERITY_HOLD);
  assert_string_equal(rulebook_find(firm->rulebook, "lip-overfed")->limits[0].text, "250 gal/h/in");
  firm_free(firm);
}

static struct firm *firm_with_crew(const char *house, const char *crew) {
  struct firm *firm = firm_new();
  firm_read(firm, "trade", "t.lua", trade);
  firm_read(firm, "house", "h.lua", house);
  firm_read(firm, "crew", "c.lua", crew);
  rulebook_finish(firm->rulebook, &firm->problems);
  return firm;
}

// All decisions, one a line: whether it stands, changes and overrules, then its words.
static const char *decisions(struct firm *firm) {
  struct text text = text_in(firm->arena);
  size_t count;
  const struct decision *list = rulebook_decisions(firm->rulebook, &count);
  for (size_t i = 0; i < count; i++) {
    text_printf(&text, "%s%s%s %s: ", list[i].stands ? "S" : "-", decision_changes(&list[i]) ? "C" : "-",
                list[i].overrules ? "O" : "-", list[i].rule);
    if (list[i].overrules)
      decision_write_dispute(&text, &list[i]);
    else
      decision_write(&text, &list[i]);
    text_add_char(&text, '\n');
  }
  return text_end(&text);
}

static void check_layers(const char *house, const char *crew, const char *said) {
  struct firm *firm = firm_with_crew(house, crew);
  assert_string_equal(firm_problems(firm), "");
  assert_string_equal(decisions(firm), said);
  firm_free(firm);
}

static void later_layers_come_on_top(void **state) {
  (void)state;
  struct firm *firm = firm_with_crew("adjust \"lip-overfed\" { at_most = \"250 gal/h/in\" }",
                                     "\nadjust \"lip-overfed\" { at_most = \"300 gal/h/in\" }");
  assert_string_equal(firm_problems(firm), "");
  assert_string_equal(rulebook_find(firm->rulebook, "lip-overfed")->limits[0].text, "300 gal/h/in");
  assert_string_equal(rulebook_find(firm->rulebook, "lip-overfed")->adjusted_by, "crew");
  assert_string_equal(decisions(firm),
                      "--- lip-overfed: at most 200 gal/h/in -> 250 gal/h/in\n"
                      "SCO lip-overfed: house says 250 gal/h/in (h.lua:1), crew says 300 gal/h/in (c.lua:2); the later "
                      "one holds\n");
  firm_free(firm);
}

static void layers_that_agree_do_not_disagree(void **state) {
  (void)state;
  check_layers("adjust \"lip-overfed\" { at_most = \"250 gal/h/in\" }",
               "adjust \"lip-overfed\" { at_most = \"250 gal/h/in\" }",
               "--- lip-overfed: at most 200 gal/h/in -> 250 gal/h/in\n"
               "SC- lip-overfed: at most 200 gal/h/in -> 250 gal/h/in\n");
  check_layers("adjust \"lip-overfed\" { at_most = \"250 gal/h/in\" }",
               "adjust \"lip-overfed\" { severity = \"hold\" }",
               "SC- lip-overfed: at most 200 gal/h/in -> 250 gal/h/in\n"
               "SC- lip-overfed: severity revise -> hold\n");
  check_layers("retire \"lip-shape\" { because = \"x\" }", "retire \"lip-shape\" { because = \"y\" }",
               "SC- lip-shape: retired\n");
  check_layers("adjust \"lip-overfed\" { at_most = \"200 gal/h/in\" }", "",
               "S-- lip-overfed: at most 200 gal/h/in -> 200 gal/h/in\n");
}

static void severities_and_named_limits_disagree(void **state) {
  (void)state;
  check_layers("adjust \"lip-overfed\" { severity = \"hold\" }",
               "adjust \"lip-overfed\" { severity = \"advise\", because = \"x\" }",
               "--- lip-overfed: severity revise -> hold\n"
               "SCO lip-overfed: house says hold (h.lua:1), crew says advise (c.lua:1); the later one holds\n");
  check_layers("adjust \"set-stone\" { limit = { most = \"3 ft\" } }",
               "adjust \"set-stone\" { limit = { least = \"5 in\" } }",
               "SC- set-stone: most 2 ft -> 3 ft\nSC- set-stone: least 4 in -> 5 in\n");
}

static void retired_after_adjusted_and_the_other_way_round(void **state) {
  (void)state;
  check_layers("adjust \"lip-overfed\" { at_most = \"250 gal/h/in\" }", "retire \"lip-overfed\" { because = \"x\" }",
               "--- lip-overfed: at most 200 gal/h/in -> 250 gal/h/in\n"
               "SCO lip-overfed: house changes it (h.lua:1), crew retires it (c.lua:1); the later one holds\n");
  check_layers("retire \"lip-shape\" { because = \"x\" }", "adjust \"lip-shape\" { is = \"notch\" }",
               "--- lip-shape: retired\n"
               "S-O lip-shape: house retires it (h.lua:1), crew takes it back (c.lua:1); the later one holds\n"
               "SC- lip-shape: is rounded or notch -> notch\n");
  struct firm *firm =
      firm_with_crew("retire \"lip-shape\" { because = \"x\" }", "adjust \"lip-shape\" { because = \"y\" }");
  size_t retired;
  rulebook_retired(firm->rulebook, &retired);
  assert_int_equal(retired, 0);
  assert_string_equal(rulebook_find(firm->rulebook, "lip-shape")->limits[0].text, "rounded or notch");
  firm_free(firm);
}

// ---- rules on which lives depend -----------------------------------------------------------------------------------

#define LIFE(id, more) \
  "rule \"" id "\" { title = \"t\", why = \"w\", source = \"s\", stage = \"dig\", life_safety = true, " more " }\n"

static const char guards[] = LIFE("way-out",
                                  "for_each = \"dig\", severity = \"hold\", judges = \"way_out\", at_most = \"25 ft\"")
    LIFE("spoil", "for_each = \"dig\", severity = \"hold\", judges = \"spoil_setback\", at_least = \"2 ft\"") LIFE(
        "shores", "for_each = \"dig\", severity = \"hold\", judges = \"protection\", is = { \"sloped\", \"shored\" }")
        LIFE("deep", "for_each = \"basin\", judges = \"depth\", at_most = { revise = \"3 ft\", hold = \"5 ft\" }") LIFE(
            "asks", "for_each = \"dig\", severity = \"hold\", limit = { most = \"25 ft\" }, check = function() end");

static void check_guard(const char *change, const char *problems, bool softens) {
  struct firm *firm = firm_new();
  firm_read(firm, "trade", "t.lua", guards);
  firm_read(firm, "house", "h.lua", change);
  rulebook_finish(firm->rulebook, &firm->problems);
  assert_string_equal(firm_problems(firm), problems);
  size_t count, softened = 0;
  const struct decision *list = rulebook_decisions(firm->rulebook, &count);
  for (size_t i = 0; i < count; i++) softened += decision_softens(&list[i]);
  if (softened != softens) fail_msg("%s: %zu softened, %d wanted", change, softened, softens);
  firm_free(firm);
}

// Without a reason and with one.
static void check_softer(const char *id, const char *limit) {
  char change[200], problem[300];
  snprintf(change, sizeof change, "adjust \"%s\" { %s }", id, limit);
  snprintf(
      problem, sizeof problem,
      "h.lua:1: adjust \"%s\": lives depend on this rule, and `because` is missing; write because = \"why this firm "
      "may do otherwise\"\n",
      id);
  check_guard(change, problem, false);
  snprintf(change, sizeof change, "adjust \"%s\" { because = \"b\", %s }", id, limit);
  check_guard(change, "", true);
}

static void check_harder(const char *id, const char *limit) {
  char change[200];
  snprintf(change, sizeof change, "adjust \"%s\" { %s }", id, limit);
  check_guard(change, "", false);
}

static void softer_is_told_from_harder(void **state) {
  (void)state;
  check_softer("way-out", "at_most = \"30 ft\"");
  check_harder("way-out", "at_most = \"20 ft\"");
  check_harder("way-out", "at_most = \"300 in\"");  // the same
  check_softer("way-out", "severity = \"revise\"");
  check_softer("way-out", "at_most = { advise = \"20 ft\", revise = \"25 ft\" }");
  check_harder("way-out", "at_most = { advise = \"15 ft\", hold = \"25 ft\" }");
  check_softer("spoil", "at_least = \"20 in\"");
  check_harder("spoil", "at_least = \"3 ft\"");
  check_softer("shores", "is = { \"sloped\", \"none\" }");
  check_harder("shores", "is = \"shored\"");
  check_softer("deep", "at_most = { revise = \"3 ft\", hold = \"6 ft\" }");
  check_softer("deep", "at_most = { revise = \"3 ft\" }");
  check_harder("deep", "at_most = { revise = \"2 ft\", hold = \"5 ft\" }");
  check_softer("asks", "limit = { most = \"20 ft\" }");  // nobody can tell which way a check takes it
  check_softer("asks", "severity = \"advise\"");
}

static void lives_are_not_retired_without_a_word(void **state) {
  (void)state;
  check_guard("retire \"way-out\" { }",
              "h.lua:1: retire \"way-out\": `because` is missing; write because = \"why this rule is not for this "
              "firm\"\n",
              false);
  check_guard("retire \"way-out\" { because = \"we never dig\" }", "", true);
}

// Softened by one layer and put right by a later one: not softened any more.
static void what_is_put_right_again_is_not_softened(void **state) {
  (void)state;
  struct firm *firm = firm_new();
  size_t count;
  firm_read(firm, "trade", "t.lua", guards);
  firm_read(firm, "house", "h.lua", "adjust \"way-out\" { at_most = \"30 ft\", because = \"b\" }");
  firm_read(firm, "crew", "c.lua", "adjust \"way-out\" { at_most = \"22 ft\" }");
  rulebook_finish(firm->rulebook, &firm->problems);
  assert_string_equal(firm_problems(firm), "");
  const struct decision *list = rulebook_decisions(firm->rulebook, &count);
  assert_int_equal(count, 2);
  assert_int_equal(decision_softens(&list[0]), 0);
  assert_int_equal(decision_softens(&list[1]), 0);
  assert_int_equal(list[1].overrules, 1);
  assert_string_equal(list[1].written, "25 ft");
  assert_string_equal(list[1].from, "30 ft");
  firm_free(firm);
}

static void a_rule_broken_from_outside(void **state) {
  (void)state;
  struct firm *firm = firm_with_house("");
  assert_true(rulebook_break(firm->rulebook, "lip-overfed", "it took more than 2 s"));
  assert_false(rulebook_break(firm->rulebook, "moat", "x"));
  assert_string_equal(rulebook_find(firm->rulebook, "lip-overfed")->broken, "it took more than 2 s");
  assert_string_equal(rulebook_nearest(firm->rulebook, "lip-overfd"), "lip-overfed");
  firm_free(firm);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_limit_and_a_severity_adjusted),
      cmocka_unit_test(lives_are_softened_for_a_reason),
      cmocka_unit_test(limits_by_severity_adjusted),
      cmocka_unit_test(one_of_the_named_limits_adjusted),
      cmocka_unit_test(words_adjusted),
      cmocka_unit_test(a_rule_retired),
      cmocka_unit_test(changes_that_cannot_be_used),
      cmocka_unit_test(one_layer_says_two_things),
      cmocka_unit_test(later_layers_come_on_top),
      cmocka_unit_test(layers_that_agree_do_not_disagree),
      cmocka_unit_test(severities_and_named_limits_disagree),
      cmocka_unit_test(retired_after_adjusted_and_the_other_way_round),
      cmocka_unit_test(softer_is_told_from_harder),
      cmocka_unit_test(lives_are_not_retired_without_a_word),
      cmocka_unit_test(what_is_put_right_again_is_not_softened),
      cmocka_unit_test(a_rule_broken_from_outside),
  };
  return cmocka_run_group_tests_name("rulebook/layer", tests, NULL, NULL);
}
