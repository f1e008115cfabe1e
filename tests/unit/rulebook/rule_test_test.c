// SPDX-License-Identifier: MIT
// Rules tried on their own examples, and around the limits in force.
#include "unit/rulebook/firm.h"

#define HEAD \
  "title = \"t\", why = \"w\", source = \"s\", stage = \"plumbing\", severity = \"revise\", for_each = \"spill\",\n"
#define RULE(body) "rule \"a\" { " HEAD body " }\n"
#define JUDGES "judges = \"flow_per_width\", at_least = \"40 gal/h/in\", "
#define GOOD_EXAMPLES                                                                   \
  "{ \"dry\", spill = { flow_per_width = \"10 gal/h/in\" }, outcome = \"flagged\" },\n" \
  "{ \"wet\", spill = { flow_per_width = \"90 gal/h/in\" }, outcome = \"clear\" },\n"   \
  "{ \"at the limit\", spill = { flow = \"400 gal/h\", lip_width = \"10 in\" }, outcome = \"clear\" },\n"

static void check_test(const char *layer, const char *rules, size_t passed, size_t failed, size_t notes,
                       const char *text) {
  struct firm *firm = firm_new();
  struct rule_test_counts counts;
  firm_read(firm, layer, "a.lua", rules);
  rulebook_finish(firm->rulebook, &firm->problems);
  assert_string_equal(firm_test_text(firm, &counts), text);
  assert_int_equal(counts.passed, passed);
  assert_int_equal(counts.failed, failed);
  assert_int_equal(counts.notes, notes);
  firm_free(firm);
}

static void good_examples(void **state) {
  (void)state;
  // Three examples; just inside and just outside of the limit.
  check_test("trade", RULE(JUDGES "examples = { " GOOD_EXAMPLES " }"), 5, 0, 0, "1 rule tried: 5 passed, 0 failed.\n");
}

static void an_example_that_comes_out_otherwise(void **state) {
  (void)state;
  check_test("trade",
             RULE(JUDGES "examples = { " GOOD_EXAMPLES
                         "{ \"damp\", spill = { flow_per_width = \"50 gal/h/in\" }, outcome = \"flagged\" } }"),
             5, 1, 0,
             "FAILED a, \"damp\" (a.lua:5): is clear, and flagged was expected\n1 rule tried: 5 passed, 1 failed.\n");
  check_test("trade",
             RULE(JUDGES "examples = { " GOOD_EXAMPLES
                         "{ \"damp\", spill = { flow_per_width = \"39 gal/h/in\" }, outcome = \"clear\" } }"),
             5, 1, 0,
             "FAILED a, \"damp\" (a.lua:5): is flagged, and clear was expected\n1 rule tried: 5 passed, 1 failed.\n");
}

static void what_an_example_does_not_state(void **state) {
  (void)state;
  check_test("trade",
             RULE(JUDGES "examples = { " GOOD_EXAMPLES
                         "{ \"open\", spill = { flow = \"400 gal/h\" }, outcome = \"clear\" } }"),
             5, 1, 0,
             "FAILED a, \"open\" (a.lua:5): is unanswered, and clear was expected; state spill.flow_per_width\n"
             "1 rule tried: 5 passed, 1 failed.\n");
  check_test("trade",
             RULE(JUDGES "examples = { " GOOD_EXAMPLES
                         "{ \"open\", spill = { flow = \"400 gal/h\" }, outcome = \"unanswered\" } }"),
             6, 0, 0, "1 rule tried: 6 passed, 0 failed.\n");
}

static void not_applicable_and_defaults(void **state) {
  (void)state;
  check_test(
      "trade",
      RULE("when = { drip_edge = \"edge\" }, " JUDGES "examples = {\n"
           "{ \"dry\", spill = { drip_edge = \"edge\", flow_per_width = \"10 gal/h/in\" }, outcome = \"flagged\" },\n"
           "{ \"at the limit\", spill = { drip_edge = \"edge\", flow_per_width = \"40 gal/h/in\" }, outcome = "
           "\"clear\" },\n"
           "{ \"no edge by default\", spill = { flow_per_width = \"10 gal/h/in\" }, outcome = \"not applicable\" } }"),
      5, 0, 0, "1 rule tried: 5 passed, 0 failed.\n");
}

static void examples_of_every_shape(void **state) {
  (void)state;
  check_test(
      "house",
      "rule \"a\" { title = \"t\", why = \"w\", source = \"s\", stage = \"plumbing\", severity = \"revise\", for_each "
      "= \"basin\",\n"
      "check = function(basin)\n"
      "  local wide = q\"0 in\"\n"
      "  for _, shelf in ipairs(basin.shelves) do wide = wide + shelf.width end\n"
      "  for _, spill in ipairs(basin.spills_out) do wide = wide + spill.lip_width end\n"
      "  for _, intake in ipairs(basin.intakes) do for _, stone in ipairs(intake.hidden_by) do wide = wide + "
      "stone.width end end\n"
      "  return at_least(wide, q\"100 in\") or is(basin.in_stone.stone, \"granite\") or is(basin.site.soil, \"type "
      "A\")\n"
      "end,\n"
      "examples = { { \"at the limit\", basin = { shelves = { { width = \"20 in\" }, { width = \"15 in\" } },\n"
      "    spills_out = { { lip_width = \"30 in\" } }, in_stone = \"boulder\",\n"
      "    intakes = { { hidden_by = { { width = \"10 in\" }, \"boulder\" } } } },\n"
      "  boulder = { width = \"25 in\", stone = \"granite\" }, site = { soil = \"type A\" }, outcome = \"clear\" },\n"
      "{ \"short\", basin = { shelves = { { width = \"20 in\" } } }, outcome = \"flagged\" } } }\n",
      2, 0, 0, "1 rule tried: 2 passed, 0 failed.\n");
}

static void examples_that_cannot_be_built(void **state) {
  (void)state;
#define SPOILT(example, said)                                                           \
  check_test("house", RULE(JUDGES "examples = { " GOOD_EXAMPLES example " }"), 5, 1, 0, \
             said "1 rule tried: 5 passed, 1 failed.\n")
  SPOILT(
      "{ spill = { flow = \"4 gal/h\" }, outcome = \"clear\" }",
      "FAILED a (a.lua:5): an example has no name; write { \"its name\", spill = { ... }, outcome = \"flagged\" }\n");
  SPOILT("{ \"x\", spill = { flow = \"4 gal/h\" }, outcome = \"good\" }",
         "FAILED a, x (a.lua:5): its outcome is missing or none of flagged, clear, unanswered, not applicable\n");
  SPOILT("{ \"x\", spill = { flo = \"4 gal/h\" }, outcome = \"clear\" }",
         "FAILED a, \"x\" (a.lua:5): a.lua:5: a spill has no `flo`; write `flow`, if that is meant\n");
  SPOILT("{ \"x\", basin = { depth = \"4 ft\" }, outcome = \"clear\" }",
         "FAILED a, \"x\" (a.lua:5): a.lua:5: states nothing that the rule judges; write a thing of the rule's kind, "
         "as in spill = { ... }\n");
  SPOILT("{ \"x\", spill = { into = { outline = \"circle\" } }, outcome = \"clear\" }",
         "FAILED a, \"x\" (a.lua:5): a.lua:5: `outline` cannot be stated in an example; write the quantities that are "
         "worked out from it\n");
  SPOILT(
      "{ \"x\", spill = { into = \"moat\" }, outcome = \"clear\" }",
      "FAILED a, \"x\" (a.lua:5): a.lua:5: `into` refers to nothing here; write a table in { } with what it states\n");
  SPOILT("{ \"x\", moat = { depth = \"4 ft\" }, outcome = \"clear\" }",
         "FAILED a, \"x\" (a.lua:5): a.lua:5: `moat` is no thing with its values; write a kind with a table, as in "
         "spill = { ... }\n");
}

static void the_trade_needs_examples(void **state) {
  (void)state;
  check_test("trade", RULE(JUDGES), 2, 1, 0,
             "FAILED a (a.lua:1): has no example, flagged, clear, at the limit (with \"limit\" in its name)\n1 rule "
             "tried: 2 passed, 1 failed.\n");
  check_test("house", RULE(JUDGES), 2, 0, 1,
             "note: a (a.lua:1): has no example, flagged, clear, at the limit (with \"limit\" in its name)\n1 rule "
             "tried: 2 passed, 0 failed, 1 note.\n");
}

static void examples_keep_to_the_limits_of_their_layer(void **state) {
  (void)state;
  struct firm *firm = firm_new();
  struct rule_test_counts counts;
  firm_read(firm, "trade", "a.lua", RULE(JUDGES "examples = { " GOOD_EXAMPLES " }"));
  firm_read(firm, "house", "h.lua", "adjust \"a\" { at_least = \"95 gal/h/in\" }");
  rulebook_finish(firm->rulebook, &firm->problems);
  assert_string_equal(firm_test_text(firm, &counts), "1 rule tried: 5 passed, 0 failed.\n");
  firm_free(firm);
}

static void broken_rules_fail(void **state) {
  (void)state;
  check_test(
      "trade", RULE("judges = \"flo\", at_least = \"1 in\""), 0, 1, 0,
      "FAILED a (a.lua:1): cannot run: a.lua:2: judges: a spill has no `flo`\n1 rule tried: 0 passed, 1 failed.\n");
  check_test("house",
             RULE("check = function(s) return at_least(s.flo, q\"1 in\") end, examples = { { \"x\", spill = {}, "
                  "outcome = \"clear\" } }"),
             0, 1, 1,
             "FAILED a, \"x\" (a.lua:2): is broken, and clear was expected: a.lua:2: a spill has no `flo`; write "
             "`flow`, if that is meant\n"
             "note: a (a.lua:1): has no example, flagged\n1 rule tried: 0 passed, 1 failed, 1 note.\n");
}

static void a_list_of_rules(void **state) {
  (void)state;
  struct firm *firm = firm_new();
  struct text text = text_in(firm->arena);
  firm_read(firm, "trade", "t.lua",
            RULE(JUDGES) "rule \"b-rule\" { title = \"A thing that is said in rather more words than one line can hold\", why = \"w\", source = \"s\",\n"
                         "stage = \"layout\", severity = \"hold\", life_safety = true, for_each = \"basin\", judges = \"depth\", at_most = \"3 ft\" }\n"
                         "rule \"c\" { title = \"c\", why = \"w\", source = \"s\", stage = \"layout\", severity = \"hold\", for_each = \"basin\", judges = \"deep\", at_most = \"3 ft\" }\n"
                         "rule \"d\" { title = \"d\", why = \"w\", source = \"s\", stage = \"layout\", severity = \"hold\", for_each = \"basin\", judges = \"depth\", at_most = \"3 ft\" }\n");
  firm_read(firm, "house", "h.lua", "retire \"d\" { because = \"we dig no basins\" }");
  rulebook_finish(firm->rulebook, &firm->problems);
  rulebook_list(firm->rulebook, &text);
  assert_string_equal(
      text_end(&text),
      "LAYOUT\n"
      "  hold    b-rule !                    A thing that is said in rather more words\n"
      "                                      than one line can hold\n"
      "  BROKEN  c                           c\n"
      "\n"
      "PLUMBING\n"
      "  revise  a                           t\n"
      "\n"
      "WHAT THE FIRM'S LAYERS CHANGE: as trade wrote it -> as it is in force\n"
      "  d: retired\n"
      "      house (h.lua:1): we dig no basins\n"
      "\n"
      "2 rules in force, 1 broken, 1 retired.\nA ! marks a matter of life and limb: no answer counts as held.\n");
  firm_free(firm);
}

// Layers that disagree, a guard of life softened, rules of their own, and the stock with what was replaced in it.
static void what_the_firm_makes_of_the_rules(void **state) {
  (void)state;
  struct firm *firm = firm_new();
  struct text text = text_in(firm->arena);
  firm_read(firm, "trade", "t.lua",
            RULE(JUDGES) "rule \"b\" { title = \"b\", why = \"w\", source = \"s\", stage = \"layout\", severity = \"hold\",\n"
                         "life_safety = true, for_each = \"basin\", judges = \"depth\", at_most = \"3 ft\" }\n");
  firm_read(
      firm, "house", "h.lua",
      "adjust \"a\" { at_least = \"50 gal/h/in\" }\nadjust \"b\" { severity = \"advise\", because = \"shallow\" }\n"
      "rule \"own\" { title = \"own\", why = \"w\", source = \"s\", stage = \"stone\", severity = \"advise\", for_each "
      "= "
      "\"basin\", judges = \"depth\", at_most = \"9 ft\" }\n"
      "stock { prices = { gravel = \"$38\" }, pipe_sizes = { { size = \"2 in\", price = \"$1.90\" }, { size = \"3 "
      "in\", "
      "price = \"$4\" } } }");
  firm_read(firm, "crew", "c.lua",
            "adjust \"a\" { at_least = \"60 gal/h/in\" }\nstock { prices = { gravel = \"$41\" }, pumps = {} }");
  rulebook_finish(firm->rulebook, &firm->problems);
  assert_string_equal(firm_problems(firm), "");
  rulebook_list(firm->rulebook, &text);
  assert_string_equal(strstr(text_end(&text), "WHAT THE FIRM"),
                      "WHAT THE FIRM'S LAYERS CHANGE: as trade wrote it -> as it is in force\n"
                      "  b !: severity hold -> advise; lives depend on this rule, and it is SOFTENED\n"
                      "      house (h.lua:2): shallow\n"
                      "  a: at least 40 gal/h/in -> 60 gal/h/in\n"
                      "      crew (c.lua:1): no reason stated\n"
                      "  house adds: own\n"
                      "\n"
                      "LAYERS THAT DISAGREE\n"
                      "  a, at least: house says 50 gal/h/in (h.lua:1), crew says 60 gal/h/in\n"
                      "    (c.lua:1); the later one holds\n"
                      "\n"
                      "STOCK\n"
                      "  pumps: none to choose from\n"
                      "  pipe (house): 2 in PVC schedule 40 $1.90 a foot; 3 in PVC schedule 40 $4 a\n"
                      "    foot\n"
                      "  prices (crew): gravel $41\n"
                      "    prices.gravel: house says $38 (h.lua:4), crew says $41 (c.lua:2); the later\n"
                      "      one holds\n"
                      "\n"
                      "3 rules in force.\nA ! marks a matter of life and limb: no answer counts as held.\n");
  firm_free(firm);
}

static void one_rule_in_full(void **state) {
  (void)state;
  struct firm *firm = firm_new();
  struct text text = text_in(firm->arena);
  firm_read(firm, "trade", "t.lua",
            RULE("when = { effect = \"sheet\", drop = { at_least = \"2 ft\" } },\n" JUDGES
                 "fix = { raise = \"lip_width\", by = \"1 in\" }, caution = \"wet\""));
  firm_read(firm, "house", "h.lua", "adjust \"a\" { at_least = \"50 gal/h/in\", because = \"thin lips\" }");
  rulebook_finish(firm->rulebook, &firm->problems);
  assert_true(rulebook_describe(firm->rulebook, "a", &text));
  assert_false(rulebook_describe(firm->rulebook, "b", &text));
  assert_string_equal(text_end(&text),
                      "rule        a\n"
                      "title       t\n"
                      "severity    revise\n"
                      "stage       plumbing\n"
                      "for each    spill\n"
                      "when        drop at least 2 ft; effect is sheet\n"
                      "judges      flow_per_width: flow over each inch of the lip\n"
                      "limit       at least 50 gal/h/in (house, h.lua:1)\n"
                      "changed     at least 40 gal/h/in -> 50 gal/h/in, by house (h.lua:1): thin lips\n"
                      "why         w\n"
                      "fix         Raise lip_width (width of the lip across the flow).\n"
                      "caution     wet\n"
                      "source      s\n"
                      "written in  t.lua:1 (trade)\n");
  firm_free(firm);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(good_examples),
      cmocka_unit_test(an_example_that_comes_out_otherwise),
      cmocka_unit_test(what_an_example_does_not_state),
      cmocka_unit_test(not_applicable_and_defaults),
      cmocka_unit_test(examples_of_every_shape),
      cmocka_unit_test(examples_that_cannot_be_built),
      cmocka_unit_test(the_trade_needs_examples),
      cmocka_unit_test(examples_keep_to_the_limits_of_their_layer),
      cmocka_unit_test(broken_rules_fail),
      cmocka_unit_test(a_list_of_rules),
      cmocka_unit_test(what_the_firm_makes_of_the_rules),
      cmocka_unit_test(one_rule_in_full),
  };
  return cmocka_run_group_tests_name("rulebook/rule_test", tests, NULL, NULL);
}
