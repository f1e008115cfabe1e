// SPDX-License-Identifier: MIT
#include "review/arrange.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "unit/review/sample.h"

static void test_names_of_severities_and_stages(void **state) {
  (void)state;
  assert_string_equal(severity_name(SEVERITY_ADVISE), "advise");
  assert_string_equal(severity_name(SEVERITY_HOLD), "hold");
  assert_string_equal(stage_name(STAGE_LAYOUT), "layout");
  assert_string_equal(stage_name(STAGE_WATER_UP), "water-up");
}

static void test_counts_add_up(void **state) {
  struct sample *sample = *state;
  struct review_counts counts = review_count(&sample->review);
  assert_int_equal(counts.rules, 5);
  assert_int_equal(counts.entities, 6);
  assert_int_equal(counts.broken_rules, 1);
  assert_int_equal(counts.sorts[OUTCOME_FLAGGED], 3);
  assert_int_equal(counts.sorts[OUTCOME_UNANSWERED], 2);
  assert_int_equal(counts.sorts[OUTCOME_CLEAR], 1);
  assert_int_equal(counts.unanswered_held, 1);
  assert_int_equal(counts.severities[SEVERITY_HOLD], 2);  // the wall, and what counts as held
  assert_int_equal(counts.severities[SEVERITY_REVISE], 0);
  assert_int_equal(counts.severities[SEVERITY_ADVISE], 2);
}

static void test_parts_are_no_things(void **state) {
  struct sample *sample = *state;
  store_add_part(sample->store, SITE, ROW_site_storm, 2);
  assert_int_equal(review_count(&sample->review).entities, 6);
}

static void assert_finding(const struct outcome *finding, size_t rule, int entity) {
  assert_int_equal(finding->rule, rule);
  assert_int_equal(finding->entity, entity);
}

static void test_findings_come_by_stage_severity_rule_entity(void **state) {
  struct sample *sample = *state;
  size_t count;
  const struct outcome **findings = review_findings(&sample->review, &count);
  assert_int_equal(count, 4);
  assert_finding(findings[0], UTILITIES, SITE);
  assert_finding(findings[1], WALL_HEIGHT,
                 WALL);  // a hold before the advice of the same stage, though its rule is later
  assert_finding(findings[2], SHALLOW, TALL);
  assert_finding(findings[3], SHALLOW, SCREEN);
  assert_int_equal(finding_severity(findings[0]), SEVERITY_HOLD);  // of a rule that by itself would say revise
  assert_int_equal(finding_severity(findings[2]), SEVERITY_ADVISE);
}

static void test_groups_hold_the_findings_of_one_rule_and_severity(void **state) {
  struct sample *sample = *state;
  size_t length, count;
  const struct outcome *const *findings = (const struct outcome *const *)review_findings(&sample->review, &length);
  const struct outcome_group *groups = review_groups(&sample->review, findings, length, &count);
  assert_int_equal(count, 3);
  assert_int_equal(groups[2].rule, SHALLOW);
  assert_int_equal(groups[2].first, 2);
  assert_int_equal(groups[2].count, 2);
  assert_false(groups[2].again);
}

static void test_a_rule_in_two_severities_makes_two_groups_and_the_second_says_so(void **state) {
  struct sample *sample = *state;
  struct outcome *outcomes = arena_array(sample->arena, 6, sizeof *outcomes);
  memcpy(outcomes, sample->review.outcomes, 6 * sizeof *outcomes);
  outcomes[1].severity = SEVERITY_REVISE;
  sample->review.outcomes = outcomes;
  size_t length, count;
  const struct outcome *const *findings = (const struct outcome *const *)review_findings(&sample->review, &length);
  const struct outcome_group *groups = review_groups(&sample->review, findings, length, &count);
  assert_int_equal(count, 4);
  assert_int_equal(groups[2].severity, SEVERITY_REVISE);
  assert_false(groups[2].again);
  assert_int_equal(groups[3].severity, SEVERITY_ADVISE);
  assert_true(groups[3].again);
}

static void test_the_verdict_is_the_worst_that_holds(void **state) {
  struct sample *sample = *state;
  assert_int_equal(review_verdict(&sample->review), VERDICT_HELD);
  sample->review.outcome_count = 0;
  assert_int_equal(review_verdict(&sample->review), VERDICT_INCOMPLETE);  // one rule is broken
  sample->review.rule_count = BAD;
  assert_int_equal(review_verdict(&sample->review), VERDICT_NOTHING_HELD);
  problem_add(&sample->unusable, (struct problem){.said = "this file is no Lua"});
  assert_int_equal(review_verdict(&sample->review), VERDICT_INCOMPLETE);
  sample->review.rule_count = 0;
  assert_int_equal(review_verdict(&sample->review), VERDICT_NO_RULES);
}

static void test_an_outcome_that_broke_leaves_the_review_incomplete(void **state) {
  struct sample *sample = *state;
  static const struct outcome broken = {.rule = GATE, .entity = SITE, .sort = OUTCOME_BROKEN, .judged = -1};
  sample->review.rule_count = BAD;
  sample->review.outcomes = &broken;
  sample->review.outcome_count = 1;
  assert_int_equal(review_verdict(&sample->review), VERDICT_INCOMPLETE);
}

static void test_what_holds_most_is_to_be_answered_first(void **state) {
  struct sample *sample = *state;
  const int *utilities = sample_slot(sample, SITE, ROW_site_utilities);
  const int *private_lines = sample_slot(sample, SITE, ROW_site_private_lines);
  const int *test_hole = sample_slot(sample, SITE, ROW_site_test_hole);
  const struct outcome outcomes[] = {
      sample_unanswered(SHALLOW, LOW, test_hole, false),    sample_unanswered(SHALLOW, TALL, test_hole, false),
      sample_unanswered(SHALLOW, SCREEN, test_hole, false), sample_unanswered(UTILITIES, SITE, utilities, true),
      sample_unanswered(GATE, SITE, private_lines, true),   sample_unanswered(GATE, SITE, private_lines, false),
  };
  sample->review.outcomes = outcomes;
  sample->review.outcome_count = 6;
  size_t count;
  const struct awaited *awaited = review_awaited(&sample->review, &count);
  assert_int_equal(count, 3);
  assert_int_equal(awaited[0].slot, *private_lines);
  assert_int_equal(awaited[0].waiting, 2);
  assert_int_equal(awaited[0].held, 1);
  assert_int_equal(awaited[1].slot, *utilities);
  assert_int_equal(awaited[2].slot, *test_hole);
  assert_int_equal(awaited[2].waiting, 3);
}

static void test_equally_awaited_givens_come_as_designed(void **state) {
  struct sample *sample = *state;
  const struct outcome outcomes[] = {
      sample_unanswered(SHALLOW, SCREEN, sample_slot(sample, SCREEN, ROW_boulder_gravel_height), false),
      sample_unanswered(SHALLOW, TALL, sample_slot(sample, TALL, ROW_boulder_gravel_height), false),
  };
  sample->review.outcomes = outcomes;
  sample->review.outcome_count = 2;
  size_t count;
  const struct awaited *awaited = review_awaited(&sample->review, &count);
  assert_int_equal(count, 2);
  assert_int_equal(awaited[0].slot, store_slot(sample->store, TALL, ROW_boulder_gravel_height));
}

static void test_the_same_given_of_several_is_asked_for_at_once(void **state) {
  struct sample *sample = *state;
  const int both[] = {store_slot(sample->store, SCREEN, ROW_boulder_gravel_height),
                      store_slot(sample->store, TALL, ROW_boulder_gravel_height)};
  struct outcome outcomes[] = {
      sample_unanswered(SHALLOW, SCREEN, both, false),
      sample_unanswered(SHALLOW, TALL, &both[1], true),
      sample_unanswered(GATE, SITE, sample_slot(sample, SITE, ROW_site_test_hole), true),
      sample_unanswered(GATE, SITE, sample_slot(sample, SITE, ROW_site_utilities), false),
  };
  outcomes[0].root_count = outcomes[0].read_count = 2;
  sample->review.outcomes = outcomes;
  sample->review.outcome_count = 4;
  size_t count;
  const struct asked *asked = review_asked(&sample->review, &count);
  assert_int_equal(count, 3);
  assert_int_equal(asked[0].slot_count, 2);
  assert_int_equal(asked[0].slots[0], both[1]);  // held, so before the other
  assert_int_equal(asked[0].slots[1], both[0]);
  assert_int_equal(asked[0].waiting, 2);  // the first outcome waits for both, and counts once
  assert_int_equal(asked[0].held, 1);
  assert_int_equal(asked[1].slots[0], store_slot(sample->store, SITE, ROW_site_test_hole));
  assert_int_equal(asked[2].waiting, 1);
  assert_int_equal(asked[2].held, 0);
}

static void test_asides_are_told_apart(void **state) {
  struct sample *sample = *state;
  size_t count;
  const struct outcome **unanswered = review_aside(&sample->review, ASIDE_UNANSWERED, &count);
  assert_int_equal(count, 1);
  assert_finding(unanswered[0], SHALLOW, LOW);
  review_aside(&sample->review, ASIDE_BROKEN, &count);
  assert_int_equal(count, 0);
  review_aside(&sample->review, ASIDE_IN_DOUBT, &count);  // the wall is in doubt, but flagged
  assert_int_equal(count, 0);
}

static bool lists_slot(const int *slots, size_t count, int slot) {
  for (size_t i = 0; i < count; i++) {
    if (slots[i] == slot) return true;
  }
  return false;
}

static void test_defaults_are_listed_when_something_read_them(void **state) {
  struct sample *sample = *state;
  size_t count;
  const int *slots = review_defaults(&sample->review, &count);
  assert_true(lists_slot(slots, count, store_slot(sample->store, SITE, ROW_site_soil)));        // read by a rule
  assert_true(lists_slot(slots, count, store_slot(sample->store, LOW, ROW_boulder_stone)));     // read by the takeoff
  assert_false(lists_slot(slots, count, store_slot(sample->store, LOW, ROW_boulder_pose)));     // read by nobody
  assert_false(lists_slot(slots, count, store_slot(sample->store, TALL, ROW_boulder_height)));  // written
}

static void test_the_order_list_leaves_out_what_nothing_brings(void **state) {
  struct sample *sample = *state;
  size_t count;
  const struct takeoff_row *rows = review_takeoff(&sample->review, &count);
  bool has_stone = false;
  for (size_t i = 0; i < count; i++) {
    has_stone = has_stone || rows[i].row == ROW_project_stone_mass_high;
    assert_int_not_equal(rows[i].row, ROW_project_loads);  // nothing is dug
    assert_int_equal(rows[i].entity, PROJECT);
  }
  assert_true(has_stone);
}

static bool says(const char *const *words, size_t count, const char *start) {
  for (size_t i = 0; i < count; i++) {
    if (strncmp(words[i], start, strlen(start)) == 0) return true;
  }
  return false;
}

static void test_cautions_follow_what_the_design_has(void **state) {
  struct sample *sample = *state;
  size_t count;
  const char *const *words = review_cautions(&sample->review, &count);
  assert_true(says(words, count, "Falling stone"));
  assert_true(says(words, count, "Structures"));
  assert_true(says(words, count, "Lifting"));
  assert_true(says(words, count, "Dust"));
  assert_false(says(words, count, "Electricity"));
  assert_false(says(words, count, "Drowning"));
  assert_int_equal(count, 4);
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, sample_setup, sample_teardown)
  const struct CMUnitTest tests[] = {
      TEST(test_names_of_severities_and_stages),
      TEST(test_counts_add_up),
      TEST(test_parts_are_no_things),
      TEST(test_findings_come_by_stage_severity_rule_entity),
      TEST(test_groups_hold_the_findings_of_one_rule_and_severity),
      TEST(test_a_rule_in_two_severities_makes_two_groups_and_the_second_says_so),
      TEST(test_the_verdict_is_the_worst_that_holds),
      TEST(test_an_outcome_that_broke_leaves_the_review_incomplete),
      TEST(test_what_holds_most_is_to_be_answered_first),
      TEST(test_equally_awaited_givens_come_as_designed),
      TEST(test_the_same_given_of_several_is_asked_for_at_once),
      TEST(test_asides_are_told_apart),
      TEST(test_defaults_are_listed_when_something_read_them),
      TEST(test_the_order_list_leaves_out_what_nothing_brings),
      TEST(test_cautions_follow_what_the_design_has),
  };
  return cmocka_run_group_tests_name("review/arrange", tests, NULL, NULL);
}
