// SPDX-License-Identifier: MIT
// What can be wrong with a rule: each slip at its own line, with what was read and what would be right.
#include "unit/rulebook/firm.h"

#include "rulebook/fix.h"

static const char *const data_rule[] = {
    "rule \"r\" {",                    // 1
    "  title = \"t\", why = \"w\",",   // 2
    "  source = \"s\",",               // 3
    "  for_each = \"spill\",",         // 4
    "  stage = \"plumbing\",",         // 5
    "  severity = \"revise\",",        // 6
    "  judges = \"flow_per_width\",",  // 7
    "  at_least = \"40 gal/h/in\",",   // 8
    "",                                // 9
    "}",                               // 10
};
enum { RULE_LINES = 10 };

// One line of the rule above replaced by another.
struct slip {
  int line;
  const char *instead, *problems;
};

static const char *with_line(struct arena *arena, int line, const char *instead) {
  struct text text = text_in(arena);
  for (int i = 0; i < RULE_LINES; i++) text_printf(&text, "%s\n", i + 1 == line ? instead : data_rule[i]);
  return text_end(&text);
}

static void check_slip(const struct slip *slip) {
  struct arena *arena = arena_new();
  struct firm *firm = firm_of(with_line(arena, slip->line, slip->instead));
  size_t count;
  assert_string_equal(firm_problems(firm), slip->problems);
  const struct rule_facts *rules = rulebook_rules(firm->rulebook, &count);
  assert_int_equal(count, 1);
  assert_int_equal(rules[0].broken != NULL, slip->problems[0] != '\0');
  assert_int_equal(rulebook_whole(firm->rulebook), slip->problems[0] == '\0');
  firm_free(firm);
  arena_free(arena);
}

static void check_slips(const struct slip *slips, size_t count) {
  for (size_t i = 0; i < count; i++) check_slip(&slips[i]);
}
#define CHECK(slips) check_slips(slips, sizeof slips / sizeof *slips)
#define AT(line) "rules/trade/spills.lua:" #line ": "

static void keys_that_every_rule_has(void **state) {
  (void)state;
  static const struct slip slips[] = {
      {2, "  why = \"w\",", AT(1) "rule \"r\": `title` is missing\n"},
      {3, "", AT(1) "rule \"r\": `source` is missing\n"},
      {4, "", AT(1) "rule \"r\": `for_each` is missing\n"},
      {5, "", AT(1) "rule \"r\": `stage` is missing\n"},
      {6, "", AT(1) "rule \"r\": `severity` is missing; write hold, revise or advise\n"},
      {2, "  title = \"  \", why = \"w\",", AT(2) "rule \"r\".title: is empty; write words in quotes\n"},
      {2, "  title = 5, why = \"w\",", AT(2) "rule \"r\".title: is not a text; read \"5\"; write words in quotes\n"},
      {2, "  tittle = \"x\", title = \"t\", why = \"w\",",
       AT(2) "rule \"r\": a rule has no `tittle`; write `title`, if that is meant\n"},
      {2, "  \"x\", title = \"t\", why = \"w\",",
       AT(2) "rule \"r\": a value has no name before it; read \"x\"; write name = value\n"},
      {4, "  for_each = \"spil\",",
       AT(4) "rule \"r\".for_each: is no kind of thing in a design; read \"spil\"; write `spill`, if that is meant\n"},
      {4, "  for_each = { \"spill\", \"bason\" },",
       AT(4) "rule \"r\".for_each: is no kind of thing in a design; read \"bason\"; write `basin`, if that is meant\n"},
      {4, "  for_each = {},",
       AT(4) "rule \"r\".for_each: names no kind; read \"{ }\"; write a kind such as \"spill\", or a list of them\n"},
      {4, "  for_each = spill,",
       AT(4) "this name is not known here; read \"spill\"; write \"spill\" in quotes, if it is a name\n"},
      {5, "  stage = \"plumming\",",
       AT(5) "rule \"r\".stage: is no stage; read \"plumming\"; write `plumbing`, if that is meant\n"},
      {5, "  stage = \"sometime\",",
       AT(5) "rule \"r\".stage: is no stage; read \"sometime\"; write layout, dig, liner, stone, plumbing, power, "
             "finish or water-up\n"},
      {6, "  severity = \"holds\",",
       AT(6) "rule \"r\".severity: is no severity; read \"holds\"; write hold, revise or advise\n"},
      {6, "  severity = \"revise\", life_safety = \"yes\",",
       AT(6) "rule \"r\".life_safety: is neither true nor false; read \"yes\"; write true, or leave it out\n"},
  };
  CHECK(slips);
}

static void what_is_judged(void **state) {
  (void)state;
  static const struct slip slips[] = {
      {7, "",
       AT(1) "rule \"r\": says nothing to check; write `judges` with a limit, or `check = function(entity, limit) ... "
             "end`\n"},
      {7, "  judges = \"flow_per_widht\",",
       AT(7) "rule \"r\".judges: a spill has no `flow_per_widht`; read \"flow_per_widht\"; write `flow_per_width`, if "
             "that is meant\n"},
      {7, "  judges = \"into.rimm\",",
       AT(7) "rule \"r\".judges: a basin or channel has no `rimm`; read \"into.rimm\"; write `rim`, if that is "
             "meant\n"},
      {7, "  judges = \"into.rim\",",
       AT(8) "rule \"r\".at_least: gal/h/in is a flow over each length, a height over the site datum is asked for; "
             "read \"40 gal/h/in\"; write -4 in\n"},
      {7, "  judges = \"flow.rim\",",
       AT(7) "rule \"r\".judges: `flow` refers to nothing, so nothing stands behind it; read \"flow.rim\"; write its "
             "name alone\n"},
      {7, "  judges = \"from.pipes_in.flow\",",
       AT(7) "rule \"r\".judges: `pipes_in` is a list, which a path does not walk; read \"from.pipes_in.flow\"; write "
             "a check = function(...) that walks it\n"},
      {7, "  judges = \"from\",",
       AT(7) "rule \"r\".judges: is neither a value nor a choice of words; read \"from\"; write the name of one, or a "
             "check = function(...)\n"},
      {7, "  judges = \"into..rim\",",
       AT(7) "rule \"r\".judges: a name is missing in the path; read \"into..rim\"; write names with one point between "
             "them, as in `into.rim`\n"},
      {7, "  judges = \"lip\",", AT(8) "rule \"r\".at_least: `lip` is a choice of words; write is = \"...\"\n"},
      {7, "  judges = \"from.geometry\",",
       AT(7) "rule \"r\".judges: is neither a value nor a choice of words; read \"from.geometry\"; write the name of "
             "one, or a check = function(...)\n"},
  };
  CHECK(slips);
}

static void limits(void **state) {
  (void)state;
  static const struct slip slips[] = {
      {8, "", AT(1) "rule \"r\": has no limit for what it judges; write `at_least`, `at_most`, `within` or `is`\n"},
      {8, "  at_least = \"40 gal\",",
       AT(8) "rule \"r\".at_least: gal is a volume, a flow over each length is asked for; read \"40 gal\"; write 60 "
             "gal/h/in\n"},
      {8, "  at_least = 40,",
       AT(8) "rule \"r\".at_least: has no unit; read \"40\"; write a text with its unit, such as \"60 gal/h/in\"\n"},
      {8, "  at_least = \"40\",",
       AT(8) "rule \"r\".at_least: has no unit; read \"40\"; write 40 gal/h/in or 40 L/s/m\n"},
      {8, "  at_least = q\"40 gal/h/in\",",
       AT(8) "rule \"r\".at_least: is not a value in quotes; read \"q\"...\"\"; write a text with its unit, such as "
             "\"60 gal/h/in\"\n"},
      {8, "  at_least = { revise = \"40 gal/h/in\", hold = \"60 gal/h/in\" },",
       AT(8) "rule \"r\".at_least: the limit of the milder severity is never reached before that of the graver one; "
             "read \"40 gal/h/in and 60 gal/h/in\"\n"},
      {8, "  at_least = { revize = \"40 gal/h/in\" },",
       AT(8) "rule \"r\".at_least: is neither one value nor one for each severity; read \"revize\"; write { revise = "
             "\"...\", hold = \"...\" }\n"},
      {8, "  at_least = { \"1 in\" },",
       AT(8) "rule \"r\".at_least: is neither one value nor one for each severity; write { revise = \"...\", hold = "
             "\"...\" }\n"},
      {8, "  at_most = { revise = \"40 gal/h/in\", hold = \"30 gal/h/in\" },",
       AT(8) "rule \"r\".at_most: the limit of the milder severity is never reached before that of the graver one; "
             "read \"40 gal/h/in and 30 gal/h/in\"\n"},
      {8, "  at_most = { advise = \"40 gal/h/in\", hold = \"50 gal/h/in\" },",
       AT(6) "rule \"r\".severity: is none of those that its limits name; read \"revise\"; write no severity here: the "
             "limits say it\n"},
      {8, "  within = { \"60 gal/h/in\", \"40 gal/h/in\" },",
       AT(8) "rule \"r\".within: the least that is asked is more than the most that is allowed; read \"60 gal/h/in and "
             "40 gal/h/in\"\n"},
      {8, "  within = { from = \"60 gal/h/in\" },",
       AT(8) "rule \"r\".within: does not say from where to where; read \"{ ... }\"; write { from = \"...\", to = "
             "\"...\" }\n"},
      {8, "  within = \"60 gal/h/in\",",
       AT(8) "rule \"r\".within: does not say from where to where; read \"60 gal/h/in\"; write { from = \"...\", to = "
             "\"...\" }\n"},
      {8, "  is = \"sheet\",", AT(8) "rule \"r\".is: `flow_per_width` is a value; write at_least, at_most or within\n"},
      {8, "  at_least = \"40 gal/h/in\", limit = { least = \"1 in\" },",
       AT(1) "rule \"r\": has `judges`, whose limit is `at_least`, `at_most`, `within` or `is`; write no limit = { "
             "}\n"},
      {8, "  at_least = \"40 gal/h/in\", check = function() end,",
       AT(1) "rule \"r\": has both `judges` and `check`; write one of the two\n"},
  };
  CHECK(slips);
}

static void requirements(void **state) {
  (void)state;
  static const struct slip slips[] = {
      {9, "  when = { effekt = \"sheet\" },",
       AT(9) "rule \"r\".when: a spill has no `effekt`; read \"effekt\"; write `effect`, if that is meant\n"},
      {9, "  when = { effect = \"sheat\" },",
       AT(9) "rule \"r\".when.effect: `effect` has no such word; read \"sheat\"; write \"sheet\" or \"single stream\" "
             "or \"cascade\" or \"trickle\"\n"},
      {9, "  when = { effect = { at_least = \"1\" } },",
       AT(9) "rule \"r\".when.effect: is no requirement; read \"{ ... }\"; write a word, or { one_of = { ... } }\n"},
      {9, "  when = { effect = { one_of = { \"sheet\", \"cascad\" } } },",
       AT(9) "rule \"r\".when.effect: `effect` has no such word; read \"cascad\"; write \"sheet\" or \"single stream\" "
             "or \"cascade\" or \"trickle\"\n"},
      {9, "  when = { drop = \"2 ft\" },",
       AT(9) "rule \"r\".when.drop: is no requirement; read \"2 ft\"; write { at_least = \"...\" } or { at_most = "
             "\"...\" }\n"},
      {9, "  when = { drop = { at_leest = \"2 ft\" } },",
       AT(9) "rule \"r\".when.drop: is no requirement; read \"{ ... }\"; write { at_least = \"...\" } or { at_most = "
             "\"...\" }\n"},
      {9, "  when = { drop = { at_least = \"2 gal\" } },",
       AT(9) "rule \"r\".when.drop: gal is a volume, a length is asked for; read \"2 gal\"; write 2 ft 6 in\n"},
      {9, "  when = { drop = { at_least = 2 } },",
       AT(9) "rule \"r\".when.drop: has no unit; read \"2\"; write a text with its unit, such as \"2 ft 6 in\"\n"},
      {9, "  when = { [\"into.purpose\"] = \"fishy\" },",
       AT(9) "rule \"r\".when.into.purpose: `into.purpose` has no such word; read \"fishy\"; write \"plunge\" or "
             "\"fish\" or \"display\" or \"bowl\" or \"hollow\"\n"},
      {9, "  when = { [\"into.width\"] = { at_least = \"2 gal\" } },",
       AT(9) "rule \"r\".when.into.width: gal is a volume, a length is asked for; read \"2 gal\"; write 2 ft 6 in\n"},
      {9, "  when = \"sheet\",",
       AT(9) "rule \"r\".when: is neither a table nor a function; read \"sheet\"; write { effect = \"sheet\" }\n"},
      {9, "  when = {},",
       AT(9) "rule \"r\".when: is neither a table nor a function; read \"{ }\"; write { effect = \"sheet\" }\n"},
  };
  CHECK(slips);
}

static void fixes(void **state) {
  (void)state;
  static const struct slip slips[] = {
      {9, "  fix = { rase = \"lip_width\", by = \"1 in\" },",
       AT(9) "rule \"r\".fix: has no `rase`; write `raise`, if that is meant\n" AT(
           9) "rule \"r\".fix: does not say one thing to do; write one of raise, lower, set, choose, advise\n"},
      {9, "  fix = { raise = \"lip_with\", by = \"1 in\" },",
       AT(9) "rule \"r\".fix: a spill has no `lip_with`; read \"lip_with\"; write `lip_width`, if that is meant\n"},
      {9, "  fix = { raise = \"lip_width\", by = \"1 gal\" },",
       AT(9) "rule \"r\".fix: gal is a volume, a length is asked for; read \"1 gal\"; write 2 ft 6 in\n"},
      {9, "  fix = { raise = \"flow\", by = \"1 gal/h\" },",
       AT(9) "rule \"r\".fix: is worked out, so nobody can write it; read \"flow\"; write a given that it is worked "
             "out from\n"},
      {9, "  fix = { raise = \"lip_width\", lower = \"crest\" },",
       AT(9) "rule \"r\".fix: does not say one thing to do; write one of raise, lower, set, choose, advise\n"},
      {9, "  fix = { set = \"lip\", to = \"brod stone\" },",
       AT(9) "rule \"r\".fix: `lip` has no such word; read \"brod stone\"; write \"thin edge\" or \"broad stone\" or "
             "\"rounded\" or \"notch\" or \"V\"\n"},
      {9, "  fix = { raise = \"lip\", by = \"1 in\" },",
       AT(9) "rule \"r\".fix: is no value that can be raised or lowered; read \"lip\"; write set = \"...\", to = "
             "\"...\"\n"},
      {9, "  fix = { set = \"from.shelves\" },",
       AT(9) "rule \"r\".fix: is a list, which no fix writes; read \"from.shelves\"; write a given of what stands in "
             "it\n"},
      {9, "  fix = { { raise = \"crest\" }, { raise = \"rim\" } },",
       AT(9) "rule \"r\".fix: a spill has no `rim`; read \"rim\"\n"},
      {9, "  fix = { { raise = \"crest\" }, by = \"1 in\" },",
       AT(9) "rule \"r\".fix: is neither one change nor a list of changes; read \"by\"; write { { raise = \"...\" }, { "
             "set = \"...\", to = \"...\" } }\n"},
      {9, "  fix = 7,",
       AT(9) "rule \"r\".fix: is neither words, a table nor a function; read \"7\"; write { raise = \"...\", by = "
             "\"...\" }\n"},
      {9, "  fix = \"\",", AT(9) "rule \"r\".fix: is empty; write words in quotes\n"},
  };
  CHECK(slips);
}

static void other_keys(void **state) {
  (void)state;
  static const struct slip slips[] = {
      {9, "  examples = \"none\",",
       AT(9) "rule \"r\".examples: is not a list; read \"none\"; write { { \"name\", ..., outcome = \"flagged\" } }\n"},
      {9, "  title = \"again\",", AT(9) "rule \"r\": `title` is given twice; first at line 2; write it once\n"},
      {9, "  caution = {},", AT(9) "rule \"r\".caution: is not a text; read \"{ }\"; write words in quotes\n"},
      {9, "  why = why_so,",
       AT(9) "this name is not known here; read \"why_so\"; write \"why_so\" in quotes, if it is a name\n" AT(
           9) "rule \"r\": `why` is given twice; first at line 2; write it once\n"},
  };
  CHECK(slips);
}

// ---- what is right -------------------------------------------------------------------------------------------------

static void rules_that_are_right(void **state) {
  (void)state;
  static const struct slip slips[] = {
      {9, "", ""},
      {8, "  within = { \"40 gal/h/in\", \"60 gal/h/in\" },", ""},
      {8, "  within = { from = \"40 gal/h/in\", to = \"60 gal/h/in\" },", ""},
      {8, "  at_least = { revise = \"40 gal/h/in\", hold = \"30 gal/h/in\" },", ""},
      {7, "  judges = \"flow_per_width\", at_most = \"60 gal/h/in\",", ""},
      {4, "  for_each = { \"spill\" },", ""},
      {9, "  when = { effect = \"sheet\", [\"into.rim\"] = { at_least = \"-4 in\", at_most = \"1 ft\" } },", ""},
      {9, "  when = { [\"site.soil\"] = { one_of = { \"type A\", \"type B\" } } },", ""},
      {9, "  when = function(spill) return spill.drop >= q\"2 ft\" end, fix = function() end,", ""},
      {9, "  fix = { advise = \"a wider lip\" }, caution = \"wet stone\", life_safety = true,", ""},
  };
  CHECK(slips);
}

static void limits_by_severity_need_no_severity(void **state) {
  (void)state;
  struct firm *firm = firm_of(
      "rule \"r\" { title = \"t\", why = \"w\", source = \"s\", for_each = \"pipe\", stage = \"dig\",\n"
      "judges = \"velocity\", at_most = { revise = \"5 ft/s\", hold = \"8 ft/s\" } }");
  size_t count;
  assert_string_equal(firm_problems(firm), "");
  const struct rule_facts *rule = rulebook_rules(firm->rulebook, &count);
  assert_int_equal(rule->severity, SEVERITY_HOLD);
  assert_int_equal(rule->limit_count, 2);
  assert_string_equal(rule->limits[0].text, "8 ft/s");
  assert_int_equal(rule->limits[0].severity, SEVERITY_HOLD);
  assert_int_equal(rule->limits[0].at.line, 2);
  assert_int_equal(rule->limits[1].severity, SEVERITY_REVISE);
  firm_free(firm);
}

static void a_graver_limit_that_comes_first(void **state) {
  (void)state;
  struct firm *firm = firm_of(
      "rule \"r\" { title = \"t\", why = \"w\", source = \"s\", for_each = \"pipe\", stage = \"dig\",\n"
      "judges = \"velocity\", at_most = { revise = \"8 ft/s\", hold = \"5 ft/s\" } }");
  assert_string_equal(firm_problems(firm), AT(2) "rule \"r\".at_most: the limit of the milder severity is never reached "
                                                 "before that of the graver one; read \"8 ft/s and 5 ft/s\"\n");
  firm_free(firm);
}

static void facts_are_as_written(void **state) {
  (void)state;
  struct firm *firm = firm_of(
      "\nrule \"lip-dry\" { title = \"The lip is wet\", why = [[\n  Two\n  lines. ]], source = \"a book\", caution = "
      "\"slippery\",\n"
      "for_each = { \"spill\", \"channel\" }, stage = \"water-up\", severity = \"advise\", life_safety = true,\n"
      "judges = \"flow\", at_least = \"40 gal/h\", fix = { raise = \"width\", by = \"2 in\", to_no_more_than = \"2 "
      "ft\" } }");
  const struct rule_facts *rule = rulebook_find(firm->rulebook, "lip-dry");
  assert_string_equal(firm_problems(firm), "");
  assert_string_equal(rule->title, "The lip is wet");
  assert_string_equal(rule->why, "Two\n  lines.");
  assert_string_equal(rule->source, "a book");
  assert_string_equal(rule->caution, "slippery");
  assert_string_equal(rule->discipline, "spills");
  assert_string_equal(rule->layer, "trade");
  assert_int_equal(rule->stage, STAGE_WATER_UP);
  assert_int_equal(rule->severity, SEVERITY_ADVISE);
  assert_true(rule->life_safety);
  assert_true(rule->for_each == (KIND_BIT(spill) | KIND_BIT(channel)));
  assert_int_equal(rule->at.line, 2);
  assert_string_equal(rule->try_words, "Raise width (width of the bed), to no more than 2 ft.");
  assert_string_equal(rule->fix->words, rule->try_words);
  assert_int_equal(rule->fix->count, 1);
  assert_null(rule->broken);
  assert_null(rule->adjusted_by);
  assert_int_equal(rule->limits[0].at.line, 6);
  assert_string_equal(rule->limits[0].layer, "trade");
  firm_free(firm);
}

static void names_of_rules(void **state) {
  (void)state;
  static const char *const wrong[] = {"Lip", "lip_dry", "lip-", "-lip", "lip--dry", "1-lip", "", "lip dry"};
  for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
    struct firm *firm = firm_new();
    struct text text = text_in(firm->arena), said = text_in(firm->arena);
    text_printf(&text, "\n\nrule \"%s\" { }", wrong[i]);
    text_printf(&said,
                "a.lua:3: rule \"%s\": is not a name for a rule; read \"%s\"; write small letters, digits and hyphens, "
                "as in sheet-breaks-up\n",
                wrong[i], wrong[i]);
    firm_read(firm, "trade", "a.lua", text_end(&text));
    assert_string_equal(firm_problems(firm), text_end(&said));
    firm_free(firm);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(keys_that_every_rule_has),
      cmocka_unit_test(what_is_judged),
      cmocka_unit_test(limits),
      cmocka_unit_test(requirements),
      cmocka_unit_test(fixes),
      cmocka_unit_test(other_keys),
      cmocka_unit_test(rules_that_are_right),
      cmocka_unit_test(limits_by_severity_need_no_severity),
      cmocka_unit_test(a_graver_limit_that_comes_first),
      cmocka_unit_test(facts_are_as_written),
      cmocka_unit_test(names_of_rules),
  };
  return cmocka_run_group_tests_name("rulebook/read_rule", tests, NULL, NULL);
}
