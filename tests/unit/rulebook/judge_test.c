// SPDX-License-Identifier: MIT
// What rules say of a design: every sort of outcome, from data rules and from functions.
#include <math.h>

#include "unit/rulebook/firm.h"

#include "rulebook/fix.h"

#define HEAD "title = \"t\", why = \"w\", source = \"s\", stage = \"stone\", "
#define RULE(id, kind, body) "rule \"" id "\" { " HEAD "for_each = \"" kind "\", " body " }\n"
#define CHECK(id, kind, body) RULE(id, kind, "severity = \"revise\", check = function(it, limit) " body " end")

// "deep" is set 6 in of 24, "shallow" 2 in of 24, "open" nobody knows; the pond's rim stands 4 in over its water.
static const char garden[] =
    "project { name = \"g\", units = \"us\" }\n"
    "site { gate_width = \"open\" }\n"
    "basin \"pond\" { purpose = \"display\", outline = circle { \"10 ft\" }, depth = \"30 in\", rim = \"0 in\", "
    "water_level = \"-4 in\",\n"
    "  shelves = { { depth = \"12 in\", width = \"14 in\" }, { depth = \"20 in\", width = \"6 in\" } } }\n"
    "boulder \"deep\" { length = \"4 ft\", width = \"3 ft\", height = \"24 in\", embedment = \"6 in\", beside = "
    "\"pond\", stone = \"granite\" }\n"
    "boulder \"shallow\" { length = \"4 ft\", width = \"3 ft\", height = \"24 in\", embedment = \"2 in\", beside = "
    "\"pond\" }\n"
    "boulder \"open\" { length = \"4 ft\", width = \"3 ft\", height = \"24 in\" }\n";

static struct firm *judged(const char *rules) {
  struct firm *firm = firm_of(rules);
  assert_string_equal(firm_problems(firm), "");
  firm_judge(firm, garden);
  return firm;
}

static void check_sort(const char *rules, const char *rule, const char *name, enum outcome_sort sort) {
  struct firm *firm = judged(rules);
  const struct outcome *outcome = firm_outcome(firm, rule, name);
  if (outcome->sort == OUTCOME_BROKEN && sort != OUTCOME_BROKEN) fail_msg("%s", outcome->because);
  assert_int_equal(outcome->sort, sort);
  firm_free(firm);
}

static void check_broken(const char *rules, const char *because) {
  struct firm *firm = judged(rules);
  const struct outcome *outcome = firm_outcome(firm, "a", "deep");
  assert_int_equal(outcome->sort, OUTCOME_BROKEN);
  assert_string_equal(outcome->because, because);
  assert_int_equal(outcome->judged, -1);
  firm_free(firm);
}

// ---- data rules ----

static void data_rules(void **state) {
  (void)state;
  struct firm *firm =
      judged(RULE("a", "boulder", "severity = \"revise\", judges = \"embedded_share\", at_least = \"25 %\""));
  const struct outcome *deep = firm_outcome(firm, "a", "deep"), *shallow = firm_outcome(firm, "a", "shallow");
  assert_int_equal(firm->review.outcome_count, 3);
  assert_int_equal(deep->sort, OUTCOME_CLEAR);
  assert_int_equal(deep->judged, 0);
  assert_true(deep->comparisons[0].satisfied);
  assert_int_equal(shallow->sort, OUTCOME_FLAGGED);
  assert_int_equal(shallow->severity, SEVERITY_REVISE);
  const struct comparison *comparison = &shallow->comparisons[shallow->judged];
  assert_int_equal(comparison->sense, SENSE_AT_LEAST);
  assert_int_equal(comparison->row, ROW_boulder_embedded_share);
  assert_int_equal(comparison->entity, shallow->entity);
  assert_int_equal(comparison->dimension, DIM_RATIO);
  assert_near(comparison->value, 2.0 / 24.0);
  assert_near(comparison->limit, 0.25);
  assert_near(comparison->margin, 2.0 / 24.0 - 0.25);
  assert_true(shallow->read_count > 0);
  firm_free(firm);
}

static void an_open_given_leaves_it_unanswered(void **state) {
  (void)state;
  struct firm *firm =
      judged(RULE("a", "boulder", "severity = \"revise\", judges = \"embedded_share\", at_least = \"25 %\"")
                 RULE("b", "boulder", "severity = \"hold\", judges = \"embedded_share\", at_least = \"25 %\"")
                     RULE("c", "boulder",
                          "severity = \"advise\", life_safety = true, judges = \"embedment\", at_least = \"6 in\""));
  const struct outcome *revise = firm_outcome(firm, "a", "open"), *hold = firm_outcome(firm, "b", "open"),
                       *life = firm_outcome(firm, "c", "open");
  assert_int_equal(revise->sort, OUTCOME_UNANSWERED);
  assert_int_equal(revise->severity, SEVERITY_REVISE);
  assert_false(revise->counts_as_held);
  assert_int_equal(revise->root_count, 1);
  assert_int_equal(revise->roots[0], store_slot(firm->review.design, revise->entity, ROW_boulder_embedment));
  assert_int_equal(hold->sort, OUTCOME_UNANSWERED);
  assert_true(hold->counts_as_held);
  assert_true(life->counts_as_held);
  assert_false(firm_outcome(firm, "b", "deep")->counts_as_held);
  firm_free(firm);
}

static void words(void **state) {
  (void)state;
  struct firm *firm =
      judged(RULE("a", "boulder", "severity = \"advise\", judges = \"stone\", is = { \"granite\", \"basalt\" }"));
  assert_int_equal(firm_outcome(firm, "a", "deep")->sort, OUTCOME_CLEAR);
  const struct outcome *flagged = firm_outcome(firm, "a", "open");
  assert_int_equal(flagged->sort, OUTCOME_FLAGGED);
  assert_string_equal(flagged->comparisons[0].words, "unknown");
  assert_string_equal(flagged->comparisons[0].asked, "granite or basalt");
  firm_free(firm);
}

static void paths_over_references(void **state) {
  (void)state;
  check_sort(RULE("a", "boulder", "severity = \"advise\", judges = \"beside.rim\", at_least = \"0 in\""), "a", "deep",
             OUTCOME_CLEAR);
  check_sort(RULE("a", "boulder", "severity = \"advise\", judges = \"beside.rim\", at_least = \"1 in\""), "a", "deep",
             OUTCOME_FLAGGED);
  check_sort(RULE("a", "boulder", "severity = \"advise\", judges = \"beside.rim\", at_least = \"0 in\""), "a", "open",
             OUTCOME_UNANSWERED);
  check_sort(RULE("a", "boulder", "severity = \"advise\", judges = \"site.gate_width\", at_least = \"100 ft\""), "a",
             "open", OUTCOME_CLEAR);
}

static void several_kinds_and_parts(void **state) {
  (void)state;
  struct firm *firm = judged(
      "rule \"a\" { " HEAD
      "for_each = { \"basin\", \"boulder\" }, severity = \"advise\", judges = \"depth\", at_least = \"2 ft\" }\n" RULE(
          "b", "shelf", "severity = \"advise\", judges = \"width\", at_least = \"12 in\"")
          RULE("c", "pump", "severity = \"advise\", judges = \"flow\", at_least = \"12 gal/h\"")
              RULE("d", "site", "severity = \"advise\", judges = \"swell\", at_most = \"25 %\""));
  assert_int_equal(firm_outcome(firm, "a", "pond")->sort, OUTCOME_CLEAR);
  assert_int_equal(firm_outcome(firm, "a", "deep")->sort, OUTCOME_NOT_APPLICABLE);
  assert_int_equal(firm->review.outcome_count, 4 + 2 + 1);
  assert_int_equal(firm_outcome(firm, "b", NULL)->sort, OUTCOME_CLEAR);
  assert_int_equal(firm->review.outcomes[5].sort, OUTCOME_FLAGGED);
  assert_int_equal(firm_outcome(firm, "d", NULL)->sort, OUTCOME_CLEAR);
  firm_free(firm);
}

static void the_worst_broken_limit_counts(void **state) {
  (void)state;
  struct firm *firm =
      judged(RULE("a", "boulder",
                  "judges = \"embedment\", at_least = { hold = \"1 in\", revise = \"4 in\", advise = \"8 in\" }")
                 RULE("b", "boulder", "judges = \"embedment\", at_least = { hold = \"3 in\", revise = \"4 in\" }"));
  assert_int_equal(firm_outcome(firm, "a", "deep")->severity, SEVERITY_ADVISE);
  assert_int_equal(firm_outcome(firm, "a", "shallow")->severity, SEVERITY_REVISE);
  assert_int_equal(firm_outcome(firm, "b", "deep")->sort, OUTCOME_CLEAR);
  const struct outcome *worst = firm_outcome(firm, "b", "shallow");
  assert_int_equal(worst->severity, SEVERITY_HOLD);
  assert_near(worst->comparisons[worst->judged].limit, 3 * 0.0254);
  firm_free(firm);
}

static void requirements(void **state) {
  (void)state;
#define WHEN(when) RULE("a", "boulder", "severity = \"hold\", judges = \"height\", at_least = \"9 ft\", when = " when)
  check_sort(WHEN("{ embedment = { at_least = \"6 in\" } }"), "a", "deep", OUTCOME_FLAGGED);  // inclusive
  check_sort(WHEN("{ embedment = { at_most = \"6 in\" } }"), "a", "deep", OUTCOME_FLAGGED);
  check_sort(WHEN("{ embedment = { at_least = \"6 in\" } }"), "a", "shallow", OUTCOME_NOT_APPLICABLE);
  check_sort(WHEN("{ embedment = { at_least = \"6 in\" } }"), "a", "open", OUTCOME_UNANSWERED);
  check_sort(WHEN("{ stone = \"granite\" }"), "a", "deep", OUTCOME_FLAGGED);
  check_sort(WHEN("{ stone = \"granite\" }"), "a", "shallow", OUTCOME_NOT_APPLICABLE);
  check_sort(WHEN("{ stone = { one_of = { \"basalt\", \"unknown\" } } }"), "a", "shallow", OUTCOME_FLAGGED);
  check_sort(WHEN("{ stone = \"granite\", embedment = { at_least = \"4 in\" } }"), "a", "deep", OUTCOME_FLAGGED);
  check_sort(WHEN("{ stone = \"granite\", embedment = { at_least = \"7 in\" } }"), "a", "deep", OUTCOME_NOT_APPLICABLE);
  check_sort(WHEN("{ [\"beside.purpose\"] = \"display\" }"), "a", "deep", OUTCOME_FLAGGED);
  check_sort(WHEN("{ [\"beside.purpose\"] = \"display\" }"), "a", "open", OUTCOME_UNANSWERED);
  // One that surely does not hold settles it, whatever an open one would say.
  check_sort(WHEN("{ stone = \"granite\", embedment = { at_least = \"4 in\" } }"), "a", "open", OUTCOME_NOT_APPLICABLE);
  check_sort(WHEN("function(it) return it.embedment >= q\"6 in\" end"), "a", "deep", OUTCOME_FLAGGED);
  check_sort(WHEN("function(it) return it.embedment >= q\"6 in\" end"), "a", "shallow", OUTCOME_NOT_APPLICABLE);
  check_sort(WHEN("function(it) return it.embedment >= q\"6 in\" end"), "a", "open", OUTCOME_UNANSWERED);
  check_broken(WHEN("function(it) return it.embedment end"),
               "rules/trade/spills.lua:1: `when` returns neither true nor false; write a comparison such as "
               "basin.depth >= q\"4 ft\"");
}

static void what_contradicts_itself_is_unanswered(void **state) {
  (void)state;
  struct firm *firm = firm_of(RULE("a", "basin", "severity = \"hold\", judges = \"perimeter\", at_least = \"1 ft\"")
                                  CHECK("b", "basin", "return at_least(it.perimeter, q\"1 ft\")"));
  firm_judge(firm,
             "project { name = \"g\", units = \"us\" }\n"
             "basin \"pond\" { purpose = \"display\", depth = \"30 in\", rim = \"0 in\", water_level = \"-4 in\",\n"
             "  outline = polygon { {\"0 ft\", \"0 ft\"}, {\"9 ft\", \"9 ft\"}, {\"9 ft\", \"0 ft\"}, {\"0 ft\", \"9 "
             "ft\"} } }\n");
  for (size_t i = 0; i < 2; i++) {
    const struct outcome *outcome = &firm->review.outcomes[i];
    assert_int_equal(outcome->sort, OUTCOME_UNANSWERED);
    assert_string_equal(outcome->because, "what is given contradicts itself: see the problems");
    assert_int_equal(outcome->root_count, 0);
  }
  assert_true(firm_outcome(firm, "a", NULL)->counts_as_held);
  assert_int_equal(firm->review.problems->count, 1);
  firm_free(firm);
}

// ---- functions ----

static void functions_that_chain(void **state) {
  (void)state;
  struct firm *firm = judged(RULE("a", "boulder",
                                  "severity = \"revise\", limit = { least = \"4 in\", most = \"1 ft\" },\n"
                                  "check = function(it, limit) return at_least(it.embedment, limit.least) or "
                                  "at_most(it.embedment, limit.most) end"));
  const struct outcome *deep = firm_outcome(firm, "a", "deep"), *shallow = firm_outcome(firm, "a", "shallow");
  assert_int_equal(deep->sort, OUTCOME_CLEAR);
  assert_int_equal(deep->comparison_count, 2);
  assert_int_equal(deep->judged, 0);  // 2 of 4 in to spare is relatively as much as 6 of 12; the first stays
  assert_int_equal(shallow->sort, OUTCOME_FLAGGED);
  assert_int_equal(shallow->comparison_count, 1);
  assert_int_equal(shallow->judged, 0);
  assert_int_equal(shallow->comparisons[0].row, ROW_boulder_embedment);
  assert_near(shallow->comparisons[0].margin, -2 * 0.0254);
  assert_int_equal(firm_outcome(firm, "a", "open")->sort, OUTCOME_UNANSWERED);
  assert_int_equal(firm_outcome(firm, "a", "open")->root_count, 1);
  firm_free(firm);
}

static void limits_by_severity_in_functions(void **state) {
  (void)state;
  struct firm *firm = judged(
      RULE("a", "boulder",
           "severity = \"advise\", limit = { least = { revise = \"7 in\", hold = \"3 in\" } },\n"
           "check = function(it, limit) return at_least(it.embedment, limit.least) end")
          RULE("b", "boulder",
               "severity = \"advise\", check = function(it) return within(it.embedment, q\"1 in\", q\"4 in\") end"));
  assert_int_equal(firm->review.rules[0].severity, SEVERITY_HOLD);
  assert_int_equal(firm_outcome(firm, "a", "deep")->severity, SEVERITY_REVISE);
  assert_int_equal(firm_outcome(firm, "a", "shallow")->severity, SEVERITY_HOLD);
  assert_int_equal(firm_outcome(firm, "b", "shallow")->sort, OUTCOME_CLEAR);
  assert_int_equal(firm_outcome(firm, "b", "shallow")->comparison_count, 2);
  const struct outcome *over = firm_outcome(firm, "b", "deep");
  assert_int_equal(over->sort, OUTCOME_FLAGGED);
  assert_int_equal(over->comparisons[over->judged].sense, SENSE_AT_MOST);
  firm_free(firm);
}

static void words_and_conditions_in_functions(void **state) {
  (void)state;
  struct firm *firm = judged(CHECK("a", "boulder", "return is(it.stone, \"granite\", \"basalt\")") CHECK(
      "b", "boulder", "return must(it.height < q\"1 ft\", \"it is lower than a foot\")"));
  assert_int_equal(firm_outcome(firm, "a", "deep")->sort, OUTCOME_CLEAR);
  const struct outcome *found = firm_outcome(firm, "a", "open"), *must = firm_outcome(firm, "b", "deep");
  assert_int_equal(found->comparisons[0].row, ROW_boulder_stone);
  assert_string_equal(found->comparisons[0].words, "unknown");
  assert_string_equal(found->comparisons[0].asked, "granite or basalt");
  assert_int_equal(must->sort, OUTCOME_FLAGGED);
  assert_int_equal(must->severity, SEVERITY_REVISE);
  assert_string_equal(must->comparisons[0].words, "it is lower than a foot");
  firm_free(firm);
}

static void the_tightest_bound_of_what_is_clear(void **state) {
  (void)state;
  struct firm *firm = judged(CHECK("a", "boulder",
                                   "return must(true, \"x\") or at_least(it.height, q\"1 in\") or at_most(it.height, "
                                   "q\"25 in\") or at_most(it.height, q\"9 ft\")"));
  const struct outcome *outcome = firm_outcome(firm, "a", "deep");
  assert_int_equal(outcome->sort, OUTCOME_CLEAR);
  assert_int_equal(outcome->comparison_count, 4);
  assert_int_equal(outcome->judged, 2);
  firm_free(firm);
}

static void what_an_entity_gives(void **state) {
  (void)state;
  static const char *const true_things[] = {
      "it.height == q\"2 ft\"",
      "it.stone == \"granite\"",
      "it.name == \"deep\"",
      "it.kind == \"boulder\"",
      "it.beside.name == \"pond\"",
      "count(it.beside.shelves) == 2",
      "it.beside.shelves[2].width == q\"6 in\"",
      "#it.beside.stones_beside == 2",
      "it.beside.stones_beside[1] == it",
      "it.beside ~= it",
      "tostring(it) == \"boulder \\\"deep\\\"\"",
      "type(it) == \"entity\"",
      "it.site.soil == \"type C\"",
      "it.project.name == \"g\"",
      "count(it.hollows) == 0",
      "it.beside.freeboard == q\"4 in\"",
      "it.beside.rim - it.beside.water_level == q\"4 in\"",
      "it.embedment / it.height <= 0.25",
      "it.embedment / it.height >= 0.25",
      "it.beside.outline == \"circle\"",
      "tostring(it.embedment) == \"6 in\"",
  };
  for (size_t i = 0; i < sizeof true_things / sizeof *true_things; i++) {
    struct arena *arena = arena_new();
    struct text text = text_in(arena);
    text_printf(&text, CHECK("a", "boulder", "return must(%s, \"x\")"), true_things[i]);
    struct firm *firm = judged(text_end(&text));
    const struct outcome *outcome = firm_outcome(firm, "a", "deep");
    if (outcome->sort != OUTCOME_CLEAR)
      fail_msg("%s: %s", true_things[i], outcome->because ? outcome->because : "is not so");
    firm_free(firm);
    arena_free(arena);
  }
}

static void functions_that_fail(void **state) {
  (void)state;
#define AT "rules/trade/spills.lua:1: "
  check_broken(CHECK("a", "boulder", "return at_least(it.embedmant, q\"6 in\")"),
               AT "a boulder has no `embedmant`; write `embedment`, if that is meant");
  check_broken(CHECK("a", "boulder", "return at_leest(it.embedment, q\"6 in\")"),
               AT "this name is not known here; read \"at_leest\"; write `at_least`, if that is meant");
  check_broken(CHECK("a", "boulder", "return at_least(it.embedment, q\"6 gal\")"),
               AT "a length cannot be compared with a volume; write two values of one sort");
  check_broken(CHECK("a", "boulder", "return at_least(it.embedment, limit.least)"),
               AT "a length cannot be compared with nothing (nil); write two values of one sort");
  check_broken(CHECK("a", "boulder", "return at_least(it.embedment, {})"),
               AT "the table is no limit by severity; write { revise = ..., hold = ... }");
  check_broken(CHECK("a", "boulder", "it.embedment = 5"),
               AT "a rule reads the design and changes nothing in it; write a `local` of your own");
  check_broken(CHECK("a", "boulder", "for _ in pairs(it) do end"),
               AT "an entity cannot be walked; write one of its lists, as in ipairs(basin.spills_out)");
  check_broken(CHECK("a", "boulder", "return it[1]"), AT "an entity is read by a name; write a name, as in spill.flow");
  check_broken(CHECK("a", "boulder", "return it.beside.geometry"),
               AT "`geometry` is worked out as a whole and is no single value; write the quantities that read it");
  check_broken(CHECK("a", "boulder", "return is(it.stone, \"granit\")"),
               AT "no given has the word \"granit\"; write one of the words of that given");
  check_broken(CHECK("a", "boulder", "return must(it.stone, \"x\")"),
               AT "must asks for a condition that is true or false; write a comparison");
  check_broken(CHECK("a", "boulder", "return must(true)"),
               AT "must needs words after its condition; write must(condition, \"what is asked\")");
  check_broken(CHECK("a", "boulder", "return count(5)"), AT "count needs a list; write count(basin.spills_out)");
  check_broken(CHECK("a", "boulder", "limit.least = 5"),
               AT "`limit` cannot be changed here; write a `local` of your own");
  check_broken(CHECK("a", "boulder", "rule \"b\" { }"),
               AT "`rule` is used while a rule runs; write it outside of all rules");
}

static void answers_that_make_no_sense(void **state) {
  (void)state;
  static const char *const bodies[] = {"return true",         "return false", "return 5",    "return it",
                                       "return it.embedment", "return {}",    "return \"x\""};
  for (size_t i = 0; i < sizeof bodies / sizeof *bodies; i++) {
    struct arena *arena = arena_new();
    struct text text = text_in(arena);
    text_printf(&text, CHECK("a", "boulder", "%s"), bodies[i]);
    check_broken(text_end(&text), AT
                 "`check` returns something else than what at_least, at_most, within, must or is give back; "
                 "return one of these, several joined by `or`, or nothing");
    arena_free(arena);
  }
}

static void budgets_stop_a_rule_and_no_other(void **state) {
  (void)state;
  static const char *const bodies[] = {"while true do end",
                                       "local function f() return f() end return f()",
                                       "local function f() return 1 + f() end return f()",
                                       "for i = 1, 1e9 do local t = { it.beside.shelves } end",
                                       "local s = \"x\" while true do s = s .. s end",
                                       "local t = {} for i = 1, 1e9 do t[i] = { i } end",
                                       "for i = 1, 1e9 do at_least(it.height, q\"1 in\") end"};
  for (size_t i = 0; i < sizeof bodies / sizeof *bodies; i++) {
    struct arena *arena = arena_new();
    struct text text = text_in(arena);
    text_printf(&text,
                CHECK("a", "boulder", "%s")
                    RULE("b", "boulder", "severity = \"hold\", judges = \"height\", at_most = \"3 ft\""),
                bodies[i]);
    struct firm *firm = judged(text_end(&text));
    assert_int_equal(firm_outcome(firm, "a", "deep")->sort, OUTCOME_BROKEN);
    assert_int_equal(firm_outcome(firm, "a", "shallow")->sort, OUTCOME_BROKEN);
    assert_int_equal(firm_outcome(firm, "b", "deep")->sort, OUTCOME_CLEAR);
    firm_free(firm);
    arena_free(arena);
  }
}

static void a_broken_rule_hides_no_other(void **state) {
  (void)state;
  struct firm *firm =
      firm_of(RULE("bad", "boulder", "severity = \"hold\", judges = \"nothing\", at_most = \"3 ft\"")
                  CHECK("fails", "boulder", "return it.name.x.y")
                      RULE("good", "boulder", "severity = \"hold\", judges = \"height\", at_most = \"1 ft\""));
  firm_judge(firm, garden);
  assert_int_equal(firm->review.rule_count, 3);
  assert_non_null(firm->review.rules[0].broken);
  assert_int_equal(firm->review.outcome_count, 6);  // nothing of the one that cannot run at all
  assert_int_equal(firm_outcome(firm, "fails", "open")->sort, OUTCOME_BROKEN);
  assert_int_equal(firm_outcome(firm, "good", "open")->sort, OUTCOME_FLAGGED);
  assert_int_equal(firm->review.unusable->count, 1);
  firm_free(firm);
}

static void outcomes_come_by_rule_then_entity(void **state) {
  (void)state;
  struct firm *firm = judged(RULE("z", "boulder", "severity = \"hold\", judges = \"height\", at_most = \"3 ft\"")
                                 RULE("a", "basin", "severity = \"hold\", judges = \"depth\", at_most = \"3 ft\""));
  for (size_t i = 1; i < firm->review.outcome_count; i++) {
    const struct outcome *before = &firm->review.outcomes[i - 1], *now = &firm->review.outcomes[i];
    assert_true(before->rule < now->rule || (before->rule == now->rule && before->entity < now->entity));
  }
  assert_string_equal(firm->review.rules[firm->review.outcomes[0].rule].id, "z");
  firm_free(firm);
}

static void rules_remember_nothing(void **state) {
  (void)state;
  // Each read gives a list of its own, and what is shared cannot be written.
  check_sort(CHECK("a", "boulder", "it.site.storm.kept = 1 return must(it.site.storm.kept == nil, \"x\")"), "a",
             "shallow", OUTCOME_CLEAR);
  check_sort(CHECK("a", "boulder", "math.kept = 1"), "a", "deep", OUTCOME_BROKEN);
  check_sort(CHECK("a", "boulder", "string.kept = 1"), "a", "deep", OUTCOME_BROKEN);
  check_sort(CHECK("a", "boulder", "kept = 1"), "a", "deep", OUTCOME_BROKEN);
  check_sort(CHECK("a", "boulder", "limit.kept = 1"), "a", "deep", OUTCOME_BROKEN);
}

// ---- fixes that a function works out ----

static void check_fix(const char *fix, const char *words) {
  struct arena *arena = arena_new();
  struct text text = text_in(arena);
  text_printf(
      &text,
      RULE("a", "boulder",
           "severity = \"revise\", judges = \"embedment\", at_least = \"6 in\", fix = function(it, limit) %s end"),
      fix);
  struct firm *firm = judged(text_end(&text));
  const struct outcome *outcome = firm_outcome(firm, "a", "shallow");
  assert_int_equal(outcome->sort, OUTCOME_FLAGGED);
  if (words) assert_string_equal(outcome->try_words, words);
  if (!words) assert_null(outcome->try_words);
  assert_null(firm_outcome(firm, "a", "deep")->try_words);
  assert_null(firm->review.rules[0].try_words);
  firm_free(firm);
  arena_free(arena);
}

static void fixes_worked_out(void **state) {
  (void)state;
  check_fix("return \"dig \" .. tostring(q\"6 in\" - it.embedment) .. \" deeper\"", "dig 4 in deeper");
  check_fix("return { raise = \"embedment\", to = \"6 in\" }", "Raise embedment (how deep its foot is set) to 6 in.");
  check_fix("return { raise = \"embedment\", by = q\"6 in\" - it.embedment }",
            "Raise embedment (how deep its foot is set) by 4 in.");
  check_fix("return { lower = \"beside.rim\", by = it.embedment }",
            "Lower rim (lowest point of the rim) of beside by 2 in.");
  check_fix("return { choose = \"stone\", to = \"granite\" }", "Choose stone (sort of stone) to granite.");
  check_fix("return { { raise = \"embedment\", to = \"6 in\" }, { set = \"pose\", to = \"upright\" } }",
            "Raise embedment (how deep its foot is set) to 6 in, and set pose (how it is set) to upright.");
  check_fix("return { advise = \"ask the quarry\" }", "ask the quarry");
  check_fix("return nil", NULL);
  check_fix("", NULL);
}

// The second change of a foot that is set deeper: 0.0254 m an inch by definition, and the word as written.
static void a_fix_is_data_too(void **state) {
  (void)state;
  struct firm *firm = judged(
      RULE("a", "boulder",
           "severity = \"revise\", judges = \"embedment\", at_least = \"6 in\", fix = { { raise = \"embedment\", by = "
           "\"1 in\", to_no_more_than = \"12 in\" }, { set = \"beside.barrier\", to = \"stated\" } }"));
  const struct rule_fixes *fix = firm->review.rules[0].fix;
  assert_non_null(fix);
  assert_int_equal(fix->count, 2);
  assert_int_equal(fix->list[0].verb, FIX_RAISE);
  assert_string_equal(fix->list[0].path.text, "embedment");
  assert_true(fix->list[0].by == 1 * 0.0254);
  assert_true(fix->list[0].most == 12 * 0.0254);
  assert_true(isnan(fix->list[0].to) && isnan(fix->list[0].least));
  assert_false(fix->list[0].amount);
  assert_int_equal(fix->list[1].verb, FIX_SET);
  assert_string_equal(fix->list[1].text, "stated");
  assert_int_equal(fix->list[1].path.count, 2);
  firm_free(firm);
}

static void a_fix_that_fails_leaves_the_finding(void **state) {
  (void)state;
  check_fix("return { raise = \"embedmant\" }", "the fix could not be worked out: a boulder has no `embedmant`");
  check_fix("return { raise = \"embedment\", by = it.embedment * it.embedment }",
            "the fix could not be worked out: an amount is not of the sort of what it changes");
  check_fix("return 5", "the fix could not be worked out: is neither words, a table nor a function");
  check_fix("return it.embedmant",
            "the fix could not be worked out: rules/trade/spills.lua:1: a boulder has no `embedmant`; write "
            "`embedment`, if that is meant");
  check_fix("while true do end",
            "the fix could not be worked out: rules/trade/spills.lua:1: it takes too many steps: a loop or a chain of "
            "calls does not end");
  check_fix("return it.gravel_behind", "the fix cannot be worked out until what it reads is stated");
}

struct told {
  struct arena *arena;
  struct text text;
};

static void note(void *with, const char *rule, const char *entity) {
  struct told *told = with;
  text_printf(&told->text, "%s on %s\n", rule, entity);
}

static void the_watch_is_told(void **state) {
  (void)state;
  struct firm *firm = judged(RULE("a", "basin", "severity = \"hold\", judges = \"depth\", at_most = \"3 ft\"")
                                 RULE("b", "site", "severity = \"hold\", judges = \"swell\", at_most = \"30 %\""));
  struct told told = {firm->arena, text_in(firm->arena)};
  struct problems problems = problems_in(firm->arena);
  struct review review = {.arena = firm->arena, .problems = &problems};
  rulebook_judge(firm->rulebook, evaluation_in(firm->arena, firm->review.design, &problems), &review,
                 (struct rulebook_watch){note, &told});
  assert_string_equal(text_end(&told.text), "a on basin \"pond\"\nb on site\n");
  firm_free(firm);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(data_rules),
      cmocka_unit_test(an_open_given_leaves_it_unanswered),
      cmocka_unit_test(words),
      cmocka_unit_test(paths_over_references),
      cmocka_unit_test(several_kinds_and_parts),
      cmocka_unit_test(the_worst_broken_limit_counts),
      cmocka_unit_test(requirements),
      cmocka_unit_test(what_contradicts_itself_is_unanswered),
      cmocka_unit_test(functions_that_chain),
      cmocka_unit_test(limits_by_severity_in_functions),
      cmocka_unit_test(words_and_conditions_in_functions),
      cmocka_unit_test(the_tightest_bound_of_what_is_clear),
      cmocka_unit_test(what_an_entity_gives),
      cmocka_unit_test(functions_that_fail),
      cmocka_unit_test(answers_that_make_no_sense),
      cmocka_unit_test(budgets_stop_a_rule_and_no_other),
      cmocka_unit_test(a_broken_rule_hides_no_other),
      cmocka_unit_test(outcomes_come_by_rule_then_entity),
      cmocka_unit_test(rules_remember_nothing),
      cmocka_unit_test(fixes_worked_out),
      cmocka_unit_test(a_fix_is_data_too),
      cmocka_unit_test(a_fix_that_fails_leaves_the_finding),
      cmocka_unit_test(the_watch_is_told),
  };
  return cmocka_run_group_tests_name("rulebook/judge", tests, NULL, NULL);
}
