// SPDX-License-Identifier: MIT
// The search for fixes on rules so plain that the answer is known by hand: the first place of the step's grid past the
// limit, the bound where it lies nearer, both changes of a pair, the cheapest pump of the stock.
#include <math.h>

#include "unit/rulebook/firm.h"

#include "mend/mend.h"

#define HEAD "title = \"t\", why = \"w\", source = \"s\", stage = \"stone\", severity = \"revise\", "
#define RULE(id, kind, body) "rule \"" id "\" { " HEAD "for_each = \"" kind "\", " body " }\n"

#define POND                                                                                                    \
  "basin \"pond\" { purpose = \"display\", outline = circle { \"10 ft\" }, depth = \"30 in\", rim = \"0 in\", " \
  "water_level = \"-4 in\" }\n"
#define GARDEN(stone)                               \
  "project { name = \"g\", units = \"us\" }\n" POND \
  "boulder \"a\" { length = \"4 ft\", width = \"3 ft\", height = \"24 in\",\n  " stone " }\n"

struct tried {
  struct firm *firm;
  const struct mends *mends;
  struct mend_source source;
};

static struct tried tried_with(const char *rules, const char *stock, const char *design) {
  struct tried tried = {.firm = firm_new()};
  struct firm *firm = tried.firm;
  firm_read(firm, "trade", "rules/trade/spills.lua", rules);
  if (stock) firm_read(firm, "house", "house.lua", stock);
  rulebook_finish(firm->rulebook, &firm->problems);
  assert_string_equal(firm_problems(firm), "");
  firm_judge(firm, design);
  tried.source.file = (struct file_bytes){"garden.lua", design, strlen(design)};
  tried.mends = mends_of(firm->rulebook, &firm->review, &tried.source, (struct rulebook_watch){0});
  return tried;
}

static struct tried tried(const char *rules, const char *design) { return tried_with(rules, NULL, design); }
static void tried_free(struct tried *tried) { firm_free(tried->firm); }

static bool apply(struct tried *tried, const size_t *numbers, size_t count, struct file_bytes *made) {
  const struct mend_order order = {.review = &tried->firm->review,
                                   .mends = tried->mends,
                                   .source = &tried->source,
                                   .numbers = numbers,
                                   .count = count};
  return mend_apply(tried->firm->arena, &order, made, &tried->firm->problems);
}

// "proven; embedment 9 in": the best fix of the first finding.
static const char *fix_text(struct tried *tried) {
  struct text text = text_in(tried->firm->arena);
  assert_true(tried->mends->count > 0);
  const struct mend *best = &tried->mends->list[0].best;
  text_add(&text, mend_standing_words(best->standing));
  for (size_t i = 0; i < best->raised_count; i++)
    text_printf(&text, " %s", tried->firm->review.rules[best->raised[i].rule].id);
  for (size_t i = 0; i < best->count; i++) {
    if (best->changes[i].beside) continue;
    text_printf(&text, "; %s %s", catalogue_row(best->changes[i].row)->name, best->changes[i].text);
  }
  return text_end(&text);
}

static void check(const char *rules, const char *design, const char *wanted) {
  struct tried it = tried(rules, design);
  assert_string_equal(fix_text(&it), wanted);
  tried_free(&it);
}

#define DEEP(limit, fix) RULE("a", "boulder", "judges = \"embedment\", " limit ", fix = { " fix " }")

static void goes_to_the_first_place_past_the_limit(void **state) {
  (void)state;
  check(DEEP("at_least = \"9 in\"", "raise = \"embedment\", by = \"1 in\""), GARDEN("embedment = \"4 in\""),
        "proven; embedment 9 in");
  check(DEEP("at_least = \"8 1/2 in\"", "raise = \"embedment\", by = \"1 in\""), GARDEN("embedment = \"4 1/4 in\""),
        "proven; embedment 9 in");
  check(DEEP("at_most = \"3 in\"", "lower = \"embedment\", by = \"1/2 in\""), GARDEN("embedment = \"7 3/4 in\""),
        "proven; embedment 3 in");
}

static void keeps_the_tolerance_and_the_unit(void **state) {
  (void)state;
  struct tried it = tried(DEEP("at_least = \"200 mm\"", "raise = \"embedment\", by = \"1 in\""),
                          "project { name = \"g\", units = \"si\" }\n" POND
                          "boulder \"a\" { length = \"1 m\", width = \"1 m\", height = \"600 mm\",\n"
                          "  embedment = \"95 mm +/- 10 mm\" } -- the foot\n");
  // The catalogue's step is 20 mm: 100, 120 ... 200.
  assert_string_equal(fix_text(&it), "proven; embedment 200 mm");
  size_t number = 1;
  struct file_bytes made;
  assert_true(apply(&it, &number, 1, &made));
  assert_non_null(strstr(made.bytes, "embedment = \"200 mm +/- 10 mm\" } -- the foot\n"));
  tried_free(&it);
}

static void stops_at_the_bound(void **state) {
  (void)state;
  check(DEEP("at_least = \"6 1/2 in\"", "raise = \"embedment\", by = \"1 in\", to_no_more_than = \"6 1/2 in\""),
        GARDEN("embedment = \"4 in\""), "proven; embedment 6 1/2 in");
  struct tried it =
      tried(DEEP("at_least = \"9 in\"", "raise = \"embedment\", by = \"1 in\", to_no_more_than = \"6 in\""),
            GARDEN("embedment = \"4 in\""));
  assert_string_equal(fix_text(&it), "not enough; embedment 6 in");
  assert_near(it.mends->list[0].best.reached.value, 6 * 0.0254);
  tried_free(&it);
}

// Doubling from 1 in goes past a window of one step.
static void finds_a_narrow_window(void **state) {
  (void)state;
  check(DEEP("within = { \"7 in\", \"7 in\" }", "raise = \"embedment\", by = \"1 in\""), GARDEN("embedment = \"4 in\""),
        "proven; embedment 7 in");
}

static void says_what_it_raises(void **state) {
  (void)state;
  check(DEEP("at_least = \"9 in\"", "raise = \"embedment\", by = \"1 in\"")
            RULE("b", "boulder", "judges = \"embedment\", at_most = \"8 in\""),
        GARDEN("embedment = \"4 in\""), "proven, but raises b; embedment 9 in");
}

// What stands behind must be as deep as the foot: the foot alone raises that, and the two together nothing.
static void mends_what_it_raises(void **state) {
  (void)state;
  check(DEEP("at_least = \"9 in\"", "raise = \"embedment\", by = \"1 in\"")
            RULE("b", "boulder", "check = function(it) return at_least(it.gravel_behind, it.embedment) end"),
        GARDEN("embedment = \"4 in\", gravel_behind = \"8 in\""), "proven; embedment 9 in; gravel_behind 9 in");
}

// Past 6 in a second rule asks for 8 in: what just clears the first is gone beyond.
static void goes_on_to_where_nothing_new_comes_up(void **state) {
  (void)state;
  check(DEEP("at_least = \"6 in\"", "raise = \"embedment\", by = \"1 in\"")
            RULE("b", "boulder",
                 "when = { embedment = { at_least = \"6 in\" } }, judges = \"embedment\", at_least = \"8 in\""),
        GARDEN("embedment = \"4 in\""), "proven; embedment 8 in");
}

static void changes_go_together(void **state) {
  (void)state;
  check(RULE("a", "boulder",
             "check = function(it) return at_least(it.embedment, q\"6 in\") or is(it.machine_beside, \"no\") end, fix "
             "= { { "
             "raise = \"embedment\", by = \"1 in\" }, { set = \"machine_beside\", to = \"no\" } }"),
        GARDEN("embedment = \"4 in\", machine_beside = \"yes\""), "proven; embedment 6 in; machine_beside no");
}

static void words_and_choices(void **state) {
  (void)state;
  check(
      RULE("a", "boulder", "judges = \"machine_beside\", is = \"no\", fix = { set = \"machine_beside\", to = \"no\" }"),
      GARDEN("machine_beside = \"yes\""), "proven; machine_beside no");
  struct tried it =
      tried(RULE("a", "boulder", "judges = \"pose\", is = { \"lying\", \"pillar\" }, fix = { choose = \"pose\" }"),
            GARDEN("pose = \"upright\""));
  assert_string_equal(fix_text(&it), "proven; pose lying");
  tried_free(&it);
}

static void advice_and_measurements(void **state) {
  (void)state;
  check(RULE("a", "boulder", "judges = \"people_reach\", is = \"no\", fix = { advise = \"ask\" }"),
        GARDEN("people_reach = \"yes\""), "advice");
  check(RULE("a", "boulder", "judges = \"mass\", at_most = \"100 lb\""),
        GARDEN("stone = \"granite\", shape = \"sawn\", measured = { mass = \"900 lb\", with = \"scale\" }"),
        "measure again");
  // Nothing that the rule reads can be changed.
  check(RULE("a", "boulder", "check = function(it) return must(false, \"never\") end"), GARDEN("embedment = \"4 in\""),
        "advice");
}

static void what_a_loop_writes_is_left_to_a_hand(void **state) {
  (void)state;
  struct tried it = tried(DEEP("at_least = \"9 in\"", "raise = \"embedment\", by = \"1 in\""),
                          "project { name = \"g\", units = \"us\" }\n" POND
                          "for i = 1, 2 do\n"
                          "  boulder(\"b\" .. i) { length = \"4 ft\", width = \"3 ft\", height = \"24 in\",\n"
                          "    embedment = \"4 in\" }\n"
                          "end\n");
  assert_string_equal(fix_text(&it), "works in a trial; embedment 9 in");
  assert_int_equal(it.mends->list[0].best.line, 5);
  size_t number = 1;
  struct file_bytes made;
  assert_false(apply(&it, &number, 1, &made));
  assert_non_null(strstr(firm_problems(it.firm), "fix 1 cannot be written"));
  tried_free(&it);
}

static void numbers_that_are_not_there(void **state) {
  (void)state;
  struct tried it =
      tried(DEEP("at_least = \"9 in\"", "raise = \"embedment\", by = \"1 in\""), GARDEN("embedment = \"4 in\""));
  const size_t wrong[] = {0, 2, 1};
  struct file_bytes made;
  assert_false(apply(&it, wrong, 3, &made));
  assert_string_equal(firm_problems(it.firm),
                      "there is no finding 0: they go from 1 to 1; write 1\n"
                      "there is no finding 2: they go from 1 to 1; write 1\n");
  tried_free(&it);
}

// ---- the firm's stock ----

// A pump that lifts 10 ft to a mouth 12 ft up gives nothing; the stock has two that lift 20 ft.
#define LIFT                                                                                                         \
  "project { name = \"g\", units = \"us\" }\n"                                                                       \
  "basin \"low\" { purpose = \"display\", outline = circle { \"10 ft\" }, depth = \"30 in\", rim = \"0 in\", "       \
  "water_level = \"-4 in\" }\n"                                                                                      \
  "basin \"high\" { purpose = \"bowl\", outline = circle { \"3 ft\" }, depth = \"10 in\", rim = \"138 in\", "        \
  "water_level = \"130 in\" }\n"                                                                                     \
  "pump \"p\" { from = \"low\", type = \"submersible\", curve = { { \"0 gal/h\", \"10 ft\" }, { \"900 gal/h\", \"0 " \
  "ft\" } } }\n"                                                                                                     \
  "pipe \"q\" { from = \"p\", to = \"high\", size = \"2 in\", length = \"14 ft\", outlet = \"above water\", "        \
  "outlet_at = "                                                                                                     \
  "\"144 in\" }\n"                                                                                                   \
  "spill \"s\" { from = \"high\", into = \"low\", crest = \"130 in\", lip = \"thin edge\", lip_width = \"12 in\" }\n"
#define FLOWS RULE("a", "pump", "judges = \"flow\", at_least = \"100 gal/h\", fix = { choose = \"model\" }")
#define PUMP(model, price) \
  "{ model = \"" model     \
  "\", type = \"submersible\", curve = { { \"0 gal/h\", \"20 ft\" }, { \"900 gal/h\", \"0 ft\" } }" price " }, "

static void check_stock(const char *pumps, const char *wanted) {
  char stock[1024] = "stock { pumps = { ";
  strcat(strcat(stock, pumps), " } }");
  struct tried it = tried_with(FLOWS, stock, LIFT);
  assert_string_equal(fix_text(&it), wanted);
  tried_free(&it);
}

static void the_cheapest_pump_that_does(void **state) {
  (void)state;
  check_stock(PUMP("dear", ", price = \"$300\"") PUMP("fair", ", price = \"$200\""), "proven; model fair");
  check_stock(PUMP("one", ", price = \"$200\"") PUMP("other", ", price = \"$200\""), "needs a choice; model one");
  check_stock(PUMP("one", "") PUMP("priced", ", price = \"$900\""), "proven; model priced");
}

static void an_empty_stock_has_nothing_to_choose(void **state) {
  (void)state;
  check_stock("", "advice");
}

// 14 ft of 2 in pipe hold 14 x 12 x pi/4 x 2.067^2 = 564 in3, 2.44 gal; of 2 1/2 in (2.469) 3.48 gal; of 3 in (3.068)
// 5.38 gal. Bores: ASTM D1785, second hand, as in the trade's table.
#define HOLDS RULE("a", "pipe", "judges = \"volume\", at_least = \"4 gal\", fix = { choose = \"size\" }")

static void the_next_pipe_size_that_does(void **state) {
  (void)state;
  struct tried it = tried_with(HOLDS, NULL, LIFT);
  assert_string_equal(fix_text(&it), "proven; size 3 in");
  tried_free(&it);
  it = tried_with(HOLDS, "stock { pipe_sizes = { { size = \"2 1/2 in\" }, { size = \"4 in\" } } }", LIFT);
  assert_string_equal(fix_text(&it), "proven; size 4 in");
  tried_free(&it);
  it = tried_with(HOLDS, "stock { pipe_sizes = {} }", LIFT);
  assert_int_equal(it.mends->list[0].best.standing, MEND_ADVICE);
  tried_free(&it);
}

// ---- what goes together ----

static void one_set_settles_all(void **state) {
  (void)state;
  struct tried it = tried(DEEP("at_least = \"9 in\"", "raise = \"embedment\", by = \"1 in\"")
                              RULE("b", "boulder", "judges = \"gravel_behind\", at_least = \"12 in\""),
                          GARDEN("embedment = \"4 in\", gravel_behind = \"8 in\""));
  const struct mend_joint *joint = &it.mends->joint;
  assert_int_equal(joint->mend.standing, MEND_PROVEN);
  assert_int_equal(joint->mend.count, 2);
  assert_int_equal(joint->revise_before, 2);
  assert_int_equal(joint->revise_after, 0);
  assert_int_equal(joint->left_count, 0);
  tried_free(&it);
}

// Two rules pull one given apart: no set clears both, and none is called to.
static void no_set_where_two_rules_contradict(void **state) {
  (void)state;
  struct tried it = tried(DEEP("at_least = \"9 in\"", "raise = \"embedment\", by = \"1 in\"")
                              RULE("b", "boulder",
                                   "judges = \"embedment\", at_most = \"3 in\", fix = { lower = "
                                   "\"embedment\", by = \"1 in\" }"),
                          GARDEN("embedment = \"4 in\""));
  assert_true(it.mends->joint.revise_after > 0 || it.mends->joint.mend.count == 0);
  tried_free(&it);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(goes_to_the_first_place_past_the_limit),
      cmocka_unit_test(keeps_the_tolerance_and_the_unit),
      cmocka_unit_test(stops_at_the_bound),
      cmocka_unit_test(finds_a_narrow_window),
      cmocka_unit_test(says_what_it_raises),
      cmocka_unit_test(mends_what_it_raises),
      cmocka_unit_test(goes_on_to_where_nothing_new_comes_up),
      cmocka_unit_test(changes_go_together),
      cmocka_unit_test(words_and_choices),
      cmocka_unit_test(advice_and_measurements),
      cmocka_unit_test(what_a_loop_writes_is_left_to_a_hand),
      cmocka_unit_test(numbers_that_are_not_there),
      cmocka_unit_test(the_cheapest_pump_that_does),
      cmocka_unit_test(an_empty_stock_has_nothing_to_choose),
      cmocka_unit_test(the_next_pipe_size_that_does),
      cmocka_unit_test(one_set_settles_all),
      cmocka_unit_test(no_set_where_two_rules_contradict),
  };
  return cmocka_run_group_tests_name("mend/mend", tests, NULL, NULL);
}
