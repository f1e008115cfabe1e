// SPDX-License-Identifier: MIT
// Exact pieces of the report on a review put together by hand.
#include "report/text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "unit/review/sample.h"

static const struct report_layer layers[] = {{"trade", "0123456789abcdef", 3}, {"house", "fedcba9876543210", 2}};
static const struct report_about about = {.project = "Test garden",
                                          .file = "garden.lua",
                                          .digest = "0011223344556677",
                                          .layers = layers,
                                          .layer_count = 2,
                                          .retired_count = 1,
                                          .version = "9.9.9",
                                          .seal = "nothing was sealed"};

static const char *report_of(struct sample *sample, struct report_style style) {
  struct text text = text_in(sample->arena);
  report_text(&text, &sample->review, &about, style);
  return text_end(&text);
}

static const struct report_style us = {UNITS_US, 80, false, false};

// Shows both when the piece is not there.
static void assert_has(const char *report, const char *piece) {
  if (!strstr(report, piece)) assert_string_equal(report, piece);
}

static void assert_lacks(const char *report, const char *piece) {
  const char *found = strstr(report, piece);
  if (found) assert_string_equal(found, "");
}

static void test_begins_with_what_it_is_and_the_verdict(void **state) {
  static const char head[] =
      "Test garden\n"
      "Design    garden.lua (0011223344556677)\n"
      "Rulebook  trade: 3 rules (0123456789abcdef), house: 2 rules (fedcba9876543210);\n"
      "          1 retired\n"
      "\n"
      "DO NOT DIG YET   2 hold (1 not met, 1 not answered), 2 advise; 1 more unanswered\n"
      "\n";
  const char *report = report_of(*state, us);
  struct sample *sample = *state;
  assert_string_equal(arena_copy(sample->arena, report, sizeof head - 1), head);
}

static void test_ends_with_what_was_checked(void **state) {
  static const char foot[] =
      "\n"
      "forebay 9.9.9; nothing was sealed\n"
      "CHECKED  5 rules on 6 things: 1 clear, 3 flagged, 2 unanswered, 0 not\n"
      "         applicable, none broken. 1 rule could not run at all.\n";
  const char *report = report_of(*state, us);
  assert_string_equal(report + strlen(report) - (sizeof foot - 1), foot);
}

static void test_asks_first_for_what_holds_most(void **state) {
  assert_has(report_of(*state, us),
             "ANSWER FIRST\n"
             "  1  public lines under the ground (utilities): site: located or not located\n"
             "     1 answer waits, 1 held\n"
             "  2  how deep its foot is set (embedment): boulder \"low stone\"\n"
             "     1 answer waits\n"
             "\n");
}

static void test_an_unanswered_hold_names_what_is_missing_and_defers(void **state) {
  assert_has(report_of(*state, us),
             "LAYOUT\n"
             "HOLD 1  NOT ANSWERED: Lines under the ground are located before digging\n"
             "    site: unanswered; missing: public lines under the ground (utilities)\n"
             "    A bucket in a gas or power line kills.\n"
             "    Find out: site.utilities: located or not located\n"
             "    Caution: No digging, not by hand either, before the marks are on the ground.\n"
             "    Lives depend on it: local codes and the competent, licensed people decide.\n"
             "    [utilities-not-located; trade; common practice, no source]\n");
}

static void test_entities_of_one_rule_stand_under_one_heading_with_one_why(void **state) {
  assert_has(report_of(*state, us),
             "ADVISE 3-4  NOT MET: A set stone has its foot in the ground\n"
             "    boulder \"tall stone\": how deep its foot is set is 6 in, at least 12 in is\n"
             "      asked (6 in short)\n"
             "    boulder \"screen\": how deep its foot is set is 1 in, at least 12 in is asked\n"
             "      (11 in short)\n"
             "    A stone that sits on the ground looks dropped, and frost and gravel move it.\n"
             "    Try: set it deeper, or choose a taller stone\n"
             "    [stone-shallow-set on embedment; trade, limit by house; common practice, no\n"
             "    source]\n");
}

static void test_a_doubtful_value_says_so(void **state) {
  assert_has(report_of(*state, us),
             "STONE\n"
             "HOLD 2  NOT MET: A wall this tall is an engineer's\n"
             "    wall \"back wall\": bottom of the footing to the top is 4 ft 1 in (in doubt),\n"
             "      at most 4 ft is allowed (1 in over)\n");
  assert_has(report_of(*state, us),
             "\nIn doubt: built on a value outside the tested range of its formula; forebay\n"
             "explain names that value.\n");
}

static void make_low_stone_held(struct sample *sample) {
  struct outcome *outcomes = arena_array(sample->arena, 6, sizeof *outcomes);
  memcpy(outcomes, sample->review.outcomes, 6 * sizeof *outcomes);
  outcomes[2].counts_as_held = true;
  sample->review.outcomes = outcomes;
}

static void test_no_fix_is_offered_for_a_value_that_nobody_knows(void **state) {
  struct sample *sample = *state;
  make_low_stone_held(sample);
  const char *report = report_of(sample, us);
  assert_has(report,
             "  NOT ANSWERED: A set stone has its foot in the ground\n"
             "    boulder \"low stone\": unanswered; missing: how deep its foot is set\n"
             "      (embedment)\n"
             "    A stone that sits on the ground looks dropped, and frost and gravel move it.\n"
             "    Find out: boulder \"low stone\".embedment: a length, with its unit\n"
             "    [stone-shallow-set");
  assert_has(report,
             "      (11 in short)\n"
             "    Why: as above, under the same title.\n"
             "    Try: set it deeper, or choose a taller stone\n");
}

static void test_a_fix_beside_an_unanswered_one_is_for_what_is_flagged(void **state) {
  struct sample *sample = *state;
  make_low_stone_held(sample);
  struct outcome *outcomes = arena_array(sample->arena, 2, sizeof *outcomes);
  outcomes[0] = sample->review.outcomes[1];
  outcomes[1] = sample->review.outcomes[2];
  outcomes[0].severity = SEVERITY_HOLD;
  sample->review.outcomes = outcomes;
  sample->review.outcome_count = 2;
  const char *report = report_of(sample, us);
  assert_has(report,
             "    Find out: boulder \"low stone\".embedment: a length, with its unit\n"
             "    Try, for what is flagged: set it deeper, or choose a taller stone\n");
  outcomes[0].try_words = "raise embedment to 12 in";
  report = report_of(sample, us);
  assert_has(report, "    Try: raise embedment to 12 in\n");
  assert_lacks(report, "set it deeper");
}

static void test_clear_but_doubtful_takes_a_line_or_two(void **state) {
  struct sample *sample = *state;
  struct outcome *outcomes = arena_array(sample->arena, 1, sizeof *outcomes);
  struct comparison *one = arena_alloc(sample->arena, sizeof *one);
  *one = sample->review.outcomes[5].comparisons[0];
  one->value = sample_inches(40);
  one->satisfied = true;
  outcomes[0] = sample->review.outcomes[5];
  outcomes[0].sort = OUTCOME_CLEAR;
  outcomes[0].comparisons = one;
  sample->review.outcomes = outcomes;
  sample->review.outcome_count = 1;
  assert_has(report_of(sample, us),
             "CLEAR, BUT IN DOUBT\n"
             "  Each is built on a value outside the tested range of its formula; forebay\n"
             "  explain names that value.\n"
             "  back wall: bottom of the footing to the top 3 ft 4 in, at most 4 ft allowed\n"
             "    [wall-needs-engineer]\n");
}

static void test_metric_shows_the_same_in_millimetres(void **state) {
  // 6 in and 12 in are 152.4 mm and 304.8 mm, and what is printed adds up; 49 in and 48 in are 1.2446 m and 1.2192 m.
  const char *report = report_of(*state, (struct report_style){UNITS_SI, 120, false, false});
  assert_has(report, "how deep its foot is set is 152 mm, at least 305 mm is asked (153 mm short)");
  assert_has(report, "is 1.245 m (in doubt), at most 1.219 m is allowed (26 mm over)");
}

static void test_says_what_broke(void **state) {
  const char *report = report_of(*state, us);
  assert_has(report,
             "RULES THAT COULD NOT RUN: what they ask was not checked\n"
             "  An odd rule [odd-rule]: the limit has no unit\n");
}

static void test_a_rule_explained_among_the_unusable_is_not_explained_twice(void **state) {
  struct sample *sample = *state;
  problem_add(&sample->unusable, (struct problem){.at = {"house.lua", 31},
                                                  .where = "rule \"odd-rule\".at_least",
                                                  .said = "the limit has no unit",
                                                  .read = "12"});
  const char *report = report_of(sample, us);
  assert_has(report,
             "NOT USABLE, so the review is incomplete\n"
             "  house.lua:31: rule \"odd-rule\".at_least: the limit has no unit; read \"12\"\n");
  assert_has(report, "  An odd rule [odd-rule]: see above\n");
}

static void test_unanswered_without_being_held_stands_apart(void **state) {
  assert_has(report_of(*state, us),
             "UNANSWERED, not held\n"
             "  A set stone has its foot in the ground [stone-shallow-set]\n"
             "    boulder \"low stone\": unanswered; missing: how deep its foot is set\n"
             "      (embedment)\n");
}

static void test_lists_defaults_and_the_order(void **state) {
  const char *report = report_of(*state, us);
  assert_has(report,
             "DEFAULTS USED: not written in the design\n"
             "  soil class (soil): type C; site\n");
  assert_has(report,
             "  sort of stone (stone): unknown; boulder \"tall stone\", boulder \"low stone\",\n"
             "    boulder \"screen\"\n");
  // Boxes of 25, 8 1/3 and 6.94 ft3 at 187.3 lb/ft3, worked by hand: 7,544 lb.
  assert_has(report, "  all stones together, at most: 3.8 ton\n");
}

static void test_a_missing_order_says_what_it_needs(void **state) {
  struct sample *sample = *state;
  int dig = store_add(sample->store, KIND_dig, "pit", 7);
  sample_write(sample, dig, ROW_dig_of, "back wall", 7);
  store_settle(sample->store, &sample->found);
  sample->review.evaluation = evaluation_in(sample->arena, sample->store, &sample->found);
  assert_has(report_of(sample, us), "  soil to haul, loose: missing: ");
}

static void test_what_was_measured_stands_beside_what_is_worked_out(void **state) {
  struct sample *sample = *state;
  assert_true(store_measure(sample->store, &sample->found, TALL, "mass_high",
                            (struct store_text){"3,100 lb", false, {.line = 3}}, "scale"));
  sample->review.evaluation = evaluation_in(sample->arena, sample->store, &sample->found);
  assert_has(report_of(sample, us),
             "MEASURED ON SITE: stands in for what is worked out\n"
             "  boulder \"tall stone\".mass_high: 1.6 ton, measured with a scale; 2.3 ton is\n"
             "    worked out\n");
}

static void test_nothing_held_is_no_permit(void **state) {
  struct sample *sample = *state;
  sample->review.rule_count = BAD;
  sample->review.outcomes += 1;
  sample->review.outcome_count = 4;
  assert_has(report_of(sample, us),
             "NOTHING HELD by the rules in force; 2 advise; 1 unanswered.\n"
             "This is not a permit to dig: see the cautions.\n");
}

static void test_an_incomplete_review_never_reads_as_nothing_held(void **state) {
  struct sample *sample = *state;
  sample->review.outcomes += 1;
  sample->review.outcome_count = 4;
  const char *report = report_of(sample, us);
  assert_has(report,
             "THE REVIEW IS INCOMPLETE: nothing is held by the rules that could be used;\n"
             "2 advise; 1 unanswered.\n"
             "This is not a permit to dig: see what could not be used, and the cautions.\n");
  assert_lacks(report, "NOTHING HELD");
}

static void test_no_rules_check_nothing(void **state) {
  struct sample *sample = *state;
  sample->review.rule_count = sample->review.outcome_count = 0;
  const char *report = report_of(sample, us);
  assert_has(report, "NOTHING WAS CHECKED: no rule is in force.");
  assert_lacks(report, "NOTHING HELD");
}

static void test_empty_sections_are_left_out(void **state) {
  const char *report = report_of(*state, us);
  assert_lacks(report, "PROBLEMS");
  assert_lacks(report, "NOT USABLE");
  assert_lacks(report, "MEASURED");
  assert_lacks(report, "BROKEN");
}

static void test_problems_found_while_working_are_shown(void **state) {
  struct sample *sample = *state;
  problem_add(&sample->found, (struct problem){.at = {"garden.lua", 8}, .said = "the outline crosses itself"});
  assert_has(report_of(sample, us),
             "PROBLEMS found while working\n"
             "  garden.lua:8: the outline crosses itself\n");
}

// A value of another entity is named whole where it stands for one finding alone.
static void test_what_to_explain_is_named_behind_the_rule(void **state) {
  struct sample *sample = *state;
  assert_has(report_of(sample, us), "    [wall-needs-engineer on footing_to_top; ");
  struct outcome *outcome = arena_alloc(sample->arena, sizeof *outcome);
  struct comparison *one = arena_alloc(sample->arena, sizeof *one);
  *outcome = sample->review.outcomes[5];
  *one = outcome->comparisons[0];
  outcome->comparisons = one;
  sample->review.outcomes = outcome;
  sample->review.outcome_count = 1;
  one->entity = TALL;
  one->row = ROW_boulder_embedment;
  assert_has(report_of(sample, us), "    [wall-needs-engineer on boulder \"tall stone\".embedment; ");
  one->row = ROW_COUNT;
  assert_has(report_of(sample, us), "    [wall-needs-engineer; ");
}

static const struct report_style brief = {UNITS_US, 80, false, true};

static void test_in_short_each_group_takes_a_line(void **state) {
  assert_string_equal(report_of(*state, brief),
                      "DO NOT DIG YET   2 hold (1 not met, 1 not answered), 2 advise; 1 more unanswered\n"
                      "\n"
                      "ANSWER FIRST\n"
                      "  1  public lines under the ground (utilities): site: located or not located\n"
                      "     1 answer waits, 1 held\n"
                      "  2  how deep its foot is set (embedment): boulder \"low stone\"\n"
                      "     1 answer waits\n"
                      "\n"
                      "HOLD 1  NOT ANSWERED: Lines under the ground are located before digging: site\n"
                      "HOLD 2  NOT MET: A wall this tall is an engineer's: back wall\n"
                      "ADVISE 3-4  NOT MET: A set stone has its foot in the ground: tall stone, screen\n"
                      "\n"
                      "The whole report says why, what to try, and what to be careful of.\n"
                      "CHECKED  5 rules on 6 things: 1 clear, 3 flagged, 2 unanswered, 0 not\n"
                      "         applicable, none broken. 1 rule could not run at all.\n");
}

static void test_in_short_a_long_title_is_cut_and_names_are_counted(void **state) {
  struct sample *sample = *state;
  struct rule_facts rules[RULES];
  struct outcome *outcomes = arena_array(sample->arena, 9, sizeof *outcomes);
  memcpy(rules, sample_rules, sizeof rules);
  rules[sample->review.outcomes[1].rule].title =
      "A title that goes on\n    and on, to where no line of a page is l\xc3\xb6ng enough";
  for (size_t i = 0; i < 9; i++) outcomes[i] = sample->review.outcomes[1];
  sample->review.rules = rules;
  sample->review.outcomes = outcomes;
  sample->review.outcome_count = 9;
  assert_has(report_of(sample, brief),
             "\nADVISE 1-9  NOT MET: A title that goes on and on, to w...: tall stone and 8 more\n");
}

static size_t columns(const char *line, size_t length) {
  size_t count = 0;
  for (size_t i = 0; i < length; i++) count += ((unsigned char)line[i] & 0xC0) != 0x80;
  return count;
}

static void test_no_line_is_wider_than_asked(void **state) {
  static const size_t widths[] = {48, 60, 80, 100};
  for (size_t w = 0; w < sizeof widths / sizeof *widths; w++) {
    const char *line = report_of(*state, (struct report_style){UNITS_US, widths[w], false, false});
    for (const char *end; (end = strchr(line, '\n')) != NULL; line = end + 1) {
      // A heading is one line; all others wrap.
      if (strncmp(line, "RULES THAT", 10) == 0) continue;
      assert_in_range(columns(line, (size_t)(end - line)), 0, widths[w]);
    }
  }
}

static void test_colour_is_laid_on_and_changes_nothing_else(void **state) {
  struct sample *sample = *state;
  const char *plain = report_of(sample, us);
  const char *coloured = report_of(sample, (struct report_style){UNITS_US, 80, true, false});
  assert_has(coloured, "\x1b[1;31mHOLD 1  \x1b[0mNOT ANSWERED: Lines under");
  assert_has(coloured, "\x1b[1;36mADVISE 3-4  \x1b[0m");
  assert_lacks(plain, "\x1b");
  struct text stripped = text_in(sample->arena);
  for (const char *c = coloured; *c; c++) {
    if (*c == '\x1b')
      c = strchr(c, 'm');
    else
      text_add_char(&stripped, *c);
  }
  assert_string_equal(text_end(&stripped), plain);
}

static void test_a_strangers_control_characters_do_not_reach_the_terminal(void **state) {
  struct sample *sample = *state;
  struct rule_facts rules[RULES];
  memcpy(rules, sample_rules, sizeof rules);
  rules[WALL_HEIGHT].why = "Tall \x1b[2Jwalls\x7f and \xc2\x9bmore \xc3\xa9";
  sample->review.rules = rules;
  const char *report = report_of(sample, us);
  assert_has(report, "    Tall ?[2Jwalls? and ?more \xc3\xa9\n");
  assert_lacks(report, "\x1b");
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, sample_setup, sample_teardown)
  const struct CMUnitTest tests[] = {
      TEST(test_begins_with_what_it_is_and_the_verdict),
      TEST(test_ends_with_what_was_checked),
      TEST(test_asks_first_for_what_holds_most),
      TEST(test_an_unanswered_hold_names_what_is_missing_and_defers),
      TEST(test_entities_of_one_rule_stand_under_one_heading_with_one_why),
      TEST(test_a_doubtful_value_says_so),
      TEST(test_no_fix_is_offered_for_a_value_that_nobody_knows),
      TEST(test_a_fix_beside_an_unanswered_one_is_for_what_is_flagged),
      TEST(test_clear_but_doubtful_takes_a_line_or_two),
      TEST(test_metric_shows_the_same_in_millimetres),
      TEST(test_says_what_broke),
      TEST(test_a_rule_explained_among_the_unusable_is_not_explained_twice),
      TEST(test_unanswered_without_being_held_stands_apart),
      TEST(test_lists_defaults_and_the_order),
      TEST(test_a_missing_order_says_what_it_needs),
      TEST(test_what_was_measured_stands_beside_what_is_worked_out),
      TEST(test_nothing_held_is_no_permit),
      TEST(test_an_incomplete_review_never_reads_as_nothing_held),
      TEST(test_no_rules_check_nothing),
      TEST(test_empty_sections_are_left_out),
      TEST(test_problems_found_while_working_are_shown),
      TEST(test_what_to_explain_is_named_behind_the_rule),
      TEST(test_in_short_each_group_takes_a_line),
      TEST(test_in_short_a_long_title_is_cut_and_names_are_counted),
      TEST(test_no_line_is_wider_than_asked),
      TEST(test_colour_is_laid_on_and_changes_nothing_else),
      TEST(test_a_strangers_control_characters_do_not_reach_the_terminal),
  };
  return cmocka_run_group_tests_name("report/text", tests, NULL, NULL);
}
