// SPDX-License-Identifier: MIT
#include "report/wording.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "unit/review/sample.h"

static struct text words;

static const struct wording *us_of(struct sample *sample) {
  struct wording *wording = arena_alloc(sample->arena, sizeof *wording);
  *wording = (struct wording){sample->review.evaluation, UNITS_US};
  words = text_in(sample->arena);
  return wording;
}

static void again(struct sample *sample) {
  sample->review.evaluation = evaluation_in(sample->arena, sample->store, &sample->found);
}

static void assert_value(struct sample *sample, int entity, enum row_id row, const char *expected) {
  const struct wording *wording = us_of(sample);
  word_value(&words, wording, entity, row);
  assert_string_equal(text_end(&words), expected);
}

static void test_values_read_as_they_are_written(void **state) {
  struct sample *sample = *state;
  sample_write(sample, SITE, ROW_site_gate_width, "open", 2);
  sample_write(sample, SITE, ROW_site_gate_height, "6 ft 6 in", 2);
  sample_write(sample, SITE, ROW_site_debris, "dealt with", 2);
  again(sample);
  assert_value(sample, SITE, ROW_site_gate_width, "open");  // without bound
  assert_value(sample, SITE, ROW_site_gate_height, "6 ft 6 in");
  assert_value(sample, SITE, ROW_site_debris, "dealt with");
  assert_value(sample, SITE, ROW_site_swell, "25 %");  // a default, in the unit of its row
  assert_value(sample, SITE, ROW_site_utilities, "not given");
  assert_value(sample, PROJECT, ROW_project_name, "\"Test garden\"");
  assert_value(sample, TALL, ROW_boulder_beside, "not given");
  assert_value(sample, SITE, ROW_site_storm, "none");
}

static void test_a_share_is_worked_out_and_shown_in_percent(void **state) {
  assert_value(*state, TALL, ROW_boulder_embedded_share, "8 %");  // 6 in of 72 in
  assert_value(*state, LOW, ROW_boulder_embedded_share, "could not be worked out: something it needs is missing");
}

static void assert_origin(struct sample *sample, int entity, enum row_id row, const char *expected) {
  const struct wording *wording = us_of(sample);
  word_origin(&words, wording, entity, row);
  assert_string_equal(text_end(&words), expected);
}

static void test_origins(void **state) {
  struct sample *sample = *state;
  assert_origin(sample, TALL, ROW_boulder_height, "given, line 3");
  assert_origin(sample, TALL, ROW_boulder_stone, "a default");
  assert_origin(sample, TALL, ROW_boulder_embedded_share, "worked out");
  assert_origin(sample, SITE, ROW_site_utilities, "");
}

static void test_a_given_keeps_its_tolerance(void **state) {
  struct sample *sample = *state;
  sample_write(sample, SITE, ROW_site_test_hole, "5 ft +/- 2 in", 9);
  again(sample);
  assert_origin(sample, SITE, ROW_site_test_hole, "given +/- 2 in, line 9");
}

static void test_measured_values_show_both(void **state) {
  struct sample *sample = *state;
  assert_true(store_measure(sample->store, &sample->found, TALL, "mass_high",
                            (struct store_text){"3,100 lb", false, {.line = 3}}, "scale"));
  again(sample);
  assert_value(sample, TALL, ROW_boulder_mass_high, "1.6 ton");
  // 25 ft3 at 187.3 lb/ft3, worked by hand: 4,682 lb.
  assert_origin(sample, TALL, ROW_boulder_mass_high, "measured with a scale; 2.3 ton is worked out");
}

static void test_measured_by_eye_is_not_with_an_eye(void **state) {
  struct sample *sample = *state;
  assert_true(store_measure(sample->store, &sample->found, LOW, "embedded_share",
                            (struct store_text){"20 %", false, {.line = 4}}, "eye"));
  again(sample);
  assert_origin(sample, LOW, ROW_boulder_embedded_share, "measured by eye");  // nothing can be worked out beside it
}

static void test_choices_are_listed_in_order(void **state) {
  us_of(*state);
  word_choice_list(&words, ROW_basin_reach);
  assert_string_equal(text_end(&words), "fenced, adults, children or public");
  us_of(*state);
  word_choice_list(&words, ROW_site_test_hole);
  assert_string_equal(text_end(&words), "");
}

static void test_formulas_lose_their_braces(void **state) {
  us_of(*state);
  word_formula(&words, "{flow} / {lip_width}");
  assert_string_equal(text_end(&words), "flow / lip_width");
}

static void test_sources_carry_their_mark_once(void **state) {
  us_of(*state);
  word_source(&words, SOURCE_PRACTICE);
  assert_string_equal(text_end(&words), "common practice, no source");
  us_of(*state);
  word_source(&words, SOURCE_TABLE_B1);
  assert_string_equal(text_end(&words), "29 CFR 1926 Subpart P, App. B, Table B-1 (second hand)");
}

// --- comparisons

static void assert_compared(struct sample *sample, const struct comparison *comparison, const char *expected) {
  const struct wording *wording = us_of(sample);
  word_comparison(&words, wording, comparison->entity, comparison);
  assert_string_equal(text_end(&words), expected);
}

static struct comparison numbers(enum sense sense, int entity, enum row_id row, double value, double limit) {
  double margin = sense == SENSE_AT_LEAST ? value - limit : limit - value;
  return (struct comparison){.sense = sense,
                             .entity = entity,
                             .row = row,
                             .dimension = catalogue_row(row)->dimension,
                             .value = value,
                             .limit = limit,
                             .margin = margin,
                             .satisfied = margin >= 0};
}

static void test_a_share_against_its_limit(void **state) {
  struct comparison one = numbers(SENSE_AT_LEAST, TALL, ROW_boulder_embedded_share, 6.0 / 72, 1.0 / 6);
  assert_compared(*state, &one, "share of its height below ground is 8 %, at least 17 % is asked (9 % short)");
}

static void test_value_and_limit_never_print_alike_when_flagged(void **state) {
  struct comparison one = numbers(SENSE_AT_LEAST, TALL, ROW_boulder_embedment, sample_inches(11.98), sample_inches(12));
  struct sample *sample = *state;
  const struct wording *wording = us_of(sample);
  word_comparison(&words, wording, TALL, &one);
  assert_null(strstr(text_end(&words), "is 12 in, at least 12 in"));
  assert_null(strstr(text_end(&words), "(0 in short)"));
}

static void test_figures_that_are_close_are_shown_finer(void **state) {
  struct comparison one = numbers(SENSE_AT_LEAST, TALL, ROW_boulder_embedded_share, 0.1538, 1.0 / 6);
  assert_compared(*state, &one, "share of its height below ground is 15.4 %, at least 16.7 % is asked (1.3 % short)");
}

static void test_less_than_none_is_said_and_keeps_its_sign(void **state) {
  struct comparison one =
      numbers(SENSE_AT_LEAST, LOW, ROW_boulder_gravel_behind, sample_inches(-0.5), sample_inches(12));
  assert_compared(
      *state, &one,
      "gravel between it and the bank is none, and 1/2 in too little, at least 12 in is asked (12 1/2 in short)");
  struct comparison level = numbers(SENSE_AT_LEAST, TALL, ROW_boulder_top, sample_inches(-4), 0);
  assert_compared(*state, &level, "its top is -4 in, at least 0 in is asked (4 in short)");
  struct comparison most = numbers(SENSE_AT_MOST, LOW, ROW_boulder_gravel_behind, sample_inches(-1), sample_inches(-2));
  assert_compared(*state, &most, "gravel between it and the bank is -1 in, at most -2 in is allowed (1 in over)");
}

static void assert_find_out(struct sample *sample, int entity, enum row_id row, enum unit_system units,
                            const char *expected) {
  const struct wording *wording = us_of(sample);
  word_find_out(&words, &(struct wording){wording->ev, units}, *sample_slot(sample, entity, row));
  assert_string_equal(text_end(&words), expected);
}

static void test_what_to_find_out_is_choices_or_an_example(void **state) {
  assert_find_out(*state, SITE, ROW_site_utilities, UNITS_US, "site.utilities: located or not located");
  assert_find_out(*state, SITE, ROW_site_test_hole, UNITS_US, "site.test_hole: a length, with its unit");
  assert_find_out(*state, LOW, ROW_boulder_embedment, UNITS_SI, "boulder \"low stone\".embedment: a length, in mm");
  assert_find_out(*state, LOW, ROW_boulder_beside, UNITS_US, "boulder \"low stone\".beside: the name of a basin");
  assert_find_out(*state, LOW, ROW_boulder_mass_high, UNITS_US,
                  "boulder \"low stone\".mass_high: measure it on site, a weight (mass), with its unit");
}

static void test_a_clear_one_in_short(void **state) {
  struct sample *sample = *state;
  struct comparison one = numbers(SENSE_AT_MOST, WALL, ROW_wall_footing_to_top, sample_inches(38), sample_inches(48));
  struct outcome outcome = sample_flag(WALL, WALL_HEIGHT, SEVERITY_HOLD, &one);
  const struct wording *wording = us_of(sample);
  word_outcome_short(&words, wording, &outcome);
  assert_string_equal(text_end(&words), "bottom of the footing to the top 3 ft 2 in, at most 4 ft allowed");
}

static void test_a_satisfied_one_has_no_margin(void **state) {
  struct comparison one = numbers(SENSE_AT_MOST, WALL, ROW_wall_footing_to_top, sample_inches(38), sample_inches(48));
  assert_compared(*state, &one, "bottom of the footing to the top is 3 ft 2 in, at most 4 ft is allowed");
}

static void test_a_remark_in_what_a_row_says_is_set_off(void **state) {
  struct comparison one = numbers(SENSE_AT_MOST, TALL, ROW_boulder_mass_high, 1000 * 0.45359237, 500 * 0.45359237);
  assert_compared(*state, &one, "weight, high, is 1,000 lb, at most 500 lb is allowed (500 lb over)");
}

static void test_difference_of_elevations_is_a_length(void **state) {
  struct comparison one = numbers(SENSE_AT_LEAST, TALL, ROW_boulder_top, sample_inches(-4), sample_inches(2));
  assert_compared(*state, &one, "its top is -4 in, at least +2 in is asked (6 in short)");
}

static void test_a_value_without_bound_reads_as_its_word(void **state) {
  struct comparison one = numbers(SENSE_AT_MOST, SITE, ROW_site_gate_width, INFINITY, sample_inches(48));
  assert_compared(*state, &one, "narrowest way in, across, is open, at most 4 ft is allowed");
}

static void test_a_value_of_another_entity_is_named(void **state) {
  struct comparison one = numbers(SENSE_AT_LEAST, SITE, ROW_site_test_hole, sample_inches(12), sample_inches(24));
  const struct wording *wording = us_of(*state);
  word_comparison(&words, wording, TALL, &one);
  assert_string_equal(text_end(&words), "site: depth of the test hole is 12 in, at least 24 in is asked (12 in short)");
}

static void test_words_against_words(void **state) {
  struct comparison one = {.sense = SENSE_IS,
                           .entity = SITE,
                           .row = ROW_site_utilities,
                           .dimension = DIMENSION_COUNT,
                           .words = "not located",
                           .asked = "located"};
  assert_compared(*state, &one, "public lines under the ground: not located; located is asked");
  struct comparison must = {.sense = SENSE_MUST,
                            .entity = -1,
                            .row = ROW_COUNT,
                            .dimension = DIMENSION_COUNT,
                            .words = "the disconnect is out of sight"};
  assert_compared(*state, &must, "the disconnect is out of sight");
}

static void test_a_reckoned_value_of_no_named_dimension(void **state) {
  struct comparison one = {.sense = SENSE_AT_LEAST,
                           .entity = -1,
                           .row = ROW_COUNT,
                           .dimension = DIMENSION_COUNT,
                           .value = 1.25,
                           .limit = 2,
                           .margin = -0.75};
  assert_compared(*state, &one, "what the rule reckons is 1.25, at least 2 is asked (0.75 short)");
}

static void test_unanswered_lists_three_and_counts_the_rest(void **state) {
  struct sample *sample = *state;
  const int roots[] = {*sample_slot(sample, LOW, ROW_boulder_embedment), *sample_slot(sample, SITE, ROW_site_test_hole),
                       *sample_slot(sample, SITE, ROW_site_debris), *sample_slot(sample, SITE, ROW_site_utilities)};
  struct outcome outcome = sample_unanswered(SHALLOW, LOW, roots, false);
  outcome.root_count = 4;
  const struct wording *wording = us_of(sample);
  word_outcome(&words, wording, &outcome);
  assert_string_equal(text_end(&words),
                      "unanswered; missing: how deep its foot is set (embedment); depth of the test hole "
                      "(site.test_hole); what the test hole found (site.debris); and 1 more");
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, sample_setup, sample_teardown)
  const struct CMUnitTest tests[] = {
      TEST(test_values_read_as_they_are_written),
      TEST(test_a_share_is_worked_out_and_shown_in_percent),
      TEST(test_origins),
      TEST(test_a_given_keeps_its_tolerance),
      TEST(test_measured_values_show_both),
      TEST(test_measured_by_eye_is_not_with_an_eye),
      TEST(test_choices_are_listed_in_order),
      TEST(test_formulas_lose_their_braces),
      TEST(test_sources_carry_their_mark_once),
      TEST(test_a_share_against_its_limit),
      TEST(test_value_and_limit_never_print_alike_when_flagged),
      TEST(test_figures_that_are_close_are_shown_finer),
      TEST(test_less_than_none_is_said_and_keeps_its_sign),
      TEST(test_what_to_find_out_is_choices_or_an_example),
      TEST(test_a_clear_one_in_short),
      TEST(test_a_satisfied_one_has_no_margin),
      TEST(test_a_remark_in_what_a_row_says_is_set_off),
      TEST(test_difference_of_elevations_is_a_length),
      TEST(test_a_value_without_bound_reads_as_its_word),
      TEST(test_a_value_of_another_entity_is_named),
      TEST(test_words_against_words),
      TEST(test_a_reckoned_value_of_no_named_dimension),
      TEST(test_unanswered_lists_three_and_counts_the_rest),
  };
  return cmocka_run_group_tests_name("report/wording", tests, NULL, NULL);
}
