// SPDX-License-Identifier: MIT
// The public functions as a program that links the library uses them: the header alone.
#include "forebay/forebay.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define POOL                                                                 \
  "basin \"pool\" { purpose = \"display\", outline = circle { \"6 ft\" },\n" \
  "  depth = \"12 in\", water_level = \"-2 in\", rim = \"0 in\" }\n"

static const char stones[] =
    "project { name = \"Three stones\", units = \"us\" }\n"
    "site { soil = \"type B\", gate_width = \"6 ft\" }\n"
    "boulder \"tall\" { length = \"30 in\", width = \"20 in\", height = \"6 ft\", embedment = \"6 in\" }\n"
    "boulder \"low\" { length = \"30 in\", width = \"20 in\", height = \"2 ft\" }\n"
    "boulder \"deep\" { length = \"30 in\", width = \"20 in\", height = \"2 ft\", embedment = \"12 in\" }\n" POOL;

static const char rules[] =
    "rule \"foot\" {\n"
    "  title = \"A stone has its foot in the ground\",\n"
    "  for_each = \"boulder\", stage = \"stone\", severity = \"hold\",\n"
    "  judges = \"embedded_share\", at_least = \"25 %\",\n"
    "  why = [[It falls.]], source = \"common practice, no source\",\n"
    "  examples = { { \"shallow\", boulder = { embedded_share = \"10 %\" }, outcome = \"flagged\" },\n"
    "    { \"deep\", boulder = { embedded_share = \"40 %\" }, outcome = \"clear\" },\n"
    "    { \"at the limit\", boulder = { embedded_share = \"25 %\" }, outcome = \"clear\" } },\n"
    "}\n";

static struct fb_file file(const char *name, const char *bytes) { return (struct fb_file){name, bytes, strlen(bytes)}; }

static fb_design *design_of(const char *name, const char *bytes, fb_problems *problems) {
  struct fb_file one = file(name, bytes);
  return fb_design_new(&one, NULL, 0, problems);
}

static fb_rulebook *rulebook_of(const char *bytes, fb_problems *problems) {
  struct fb_file one = file("stone.lua", bytes);
  struct fb_layer layer = {"trade", &one, 1};
  return fb_rulebook_new(&layer, 1, NULL, NULL, NULL, problems);
}

struct handles {
  fb_problems *problems;
  fb_design *design;
  fb_rulebook *rulebook;
};

static int setup(void **state) {
  static struct handles handles;
  handles.problems = fb_problems_new();
  handles.design = design_of("garden.lua", stones, handles.problems);
  handles.rulebook = rulebook_of(rules, handles.problems);
  *state = &handles;
  return !handles.problems || !handles.design || !handles.rulebook;
}

static int teardown(void **state) {
  struct handles *handles = *state;
  fb_rulebook_free(handles->rulebook);
  fb_design_free(handles->design);
  fb_problems_free(handles->problems);
  return 0;
}

static void assert_has(const char *text, const char *piece) {
  if (!strstr(text, piece)) assert_string_equal(text, piece);
}

static void test_version(void **state) {
  (void)state;
  assert_string_equal(fb_version(), "0.1.0");
}

static void test_a_design_and_a_rulebook_give_a_review(void **state) {
  struct handles *handles = *state;
  assert_int_equal(fb_problems_count(handles->problems), 0);
  assert_int_equal(fb_rulebook_count(handles->rulebook), 1);
  assert_true(fb_rulebook_whole(handles->rulebook));
  fb_review *review = fb_review_new(handles->design, handles->rulebook, FB_LAYOUT, NULL, NULL, handles->problems);
  struct fb_counts counts = fb_review_counts(review);
  assert_int_equal(counts.rules, 1);
  assert_int_equal(counts.entities, 6);
  assert_int_equal(counts.flagged, 1);
  assert_int_equal(counts.clear, 1);
  assert_int_equal(counts.unanswered, 1);
  assert_int_equal(counts.unanswered_held, 1);
  assert_int_equal(counts.hold, 2);
  assert_int_equal(counts.broken, 0);
  fb_review_free(review);
}

static void test_the_report_says_the_same_each_time(void **state) {
  struct handles *handles = *state;
  fb_review *review = fb_review_new(handles->design, handles->rulebook, FB_LAYOUT, NULL, NULL, handles->problems);
  fb_text *first = fb_report_text_new(review, NULL), *second = fb_report_text_new(review, NULL);
  assert_string_equal(fb_text_bytes(first), fb_text_bytes(second));
  assert_int_equal(fb_text_length(first), strlen(fb_text_bytes(first)));
  assert_has(fb_text_bytes(first), "DO NOT DIG YET   2 hold (1 not met, 1 not answered)\n");
  assert_has(fb_text_bytes(first),
             "    boulder \"tall\": share of its height below ground is 8 %, at least 25 % is\n"
             "      asked (17 % short)\n");
  fb_text_free(first);
  fb_text_free(second);
  fb_review_free(review);
}

static void test_units_follow_the_design_or_the_caller(void **state) {
  struct handles *handles = *state;
  fb_text *us = fb_explain_new(handles->design, "tall.height", FB_UNITS_AS_DESIGNED, false, handles->problems);
  fb_text *si = fb_explain_new(handles->design, "tall.height", FB_UNITS_SI, false, handles->problems);
  assert_has(fb_text_bytes(us), "boulder \"tall\".height = 6 ft (given, line 3)\n");
  assert_has(fb_text_bytes(si), "boulder \"tall\".height = 1.83 m (given as \"6 ft\", line 3)\n");
  fb_text_free(us);
  fb_text_free(si);
}

// One stone and no more: what it asks for is on the page, twice the same.
static void test_a_takeoff_follows_the_design(void **state) {
  struct handles *handles = *state;
  fb_text *first = fb_takeoff_new(handles->design, FB_UNITS_AS_DESIGNED, false, handles->problems);
  fb_text *second = fb_takeoff_new(handles->design, FB_UNITS_US, false, handles->problems);
  fb_text *working = fb_takeoff_new(handles->design, FB_UNITS_US, true, handles->problems);
  assert_string_equal(fb_text_bytes(first), fb_text_bytes(second));
  assert_has(fb_text_bytes(first), "\nSTONE\n");
  assert_null(strstr(fb_text_bytes(first), "    = "));
  assert_has(fb_text_bytes(working), "    = mass_low, mass, mass_high of these stones, each summed\n");
  fb_text_free(first);
  fb_text_free(second);
  fb_text_free(working);
}

static void test_a_design_in_metric_prints_metric(void **state) {
  struct handles *handles = *state;
  fb_design *metric = design_of(
      "m.lua", "project { name = \"M\", units = \"si\" }\nsite { test_hole = \"5 ft\" }\n" POOL, handles->problems);
  fb_text *text = fb_explain_new(metric, "site.test_hole", FB_UNITS_AS_DESIGNED, false, handles->problems);
  assert_has(fb_text_bytes(text), "site.test_hole = 1.52 m");
  fb_text_free(text);
  fb_design_free(metric);
}

static void test_explaining_what_is_not_there_names_the_nearest(void **state) {
  struct handles *handles = *state;
  assert_null(fb_explain_new(handles->design, "tall.hieght", FB_UNITS_US, false, handles->problems));
  assert_int_equal(fb_problems_count(handles->problems), 1);
  const struct fb_problem *problem = fb_problems_at(handles->problems, 0);
  assert_string_equal(problem->right, "height");
  assert_null(problem->file);
  assert_null(fb_problems_at(handles->problems, 1));
  assert_false(fb_problems_out_of_memory(handles->problems));
}

static void test_explaining_tells_what_is_found_impossible(void **state) {
  struct handles *handles = *state;
  fb_design *design = design_of("low.lua",
                                "project { name = \"Low\", units = \"us\" }\n"
                                "site { soil = \"type B\", gate_width = \"6 ft\" }\n"
                                "basin \"high\" { purpose = \"bowl\", outline = circle { \"3 ft\" },\n"
                                "  depth = \"8 in\", rim = \"12 in\" }\n"
                                "spill \"lip\" { from = \"high\", into = \"pool\", lip = \"notch\",\n"
                                "  lip_width = \"6 in\", crest = \"-4 in\" }\n" POOL,
                                handles->problems);
  assert_int_equal(fb_problems_count(handles->problems), 0);
  fb_text *text = fb_explain_new(design, "lip.drop", FB_UNITS_US, false, handles->problems);
  assert_non_null(text);
  assert_int_equal(fb_problems_count(handles->problems), 1);
  const struct fb_problem *problem = fb_problems_at(handles->problems, 0);
  assert_string_equal(problem->file, "low.lua");
  assert_int_equal(problem->line, 6);
  assert_string_equal(problem->where, "spill \"lip\".crest");
  fb_text_free(text);
  fb_design_free(design);
}

// Order and content are those of a design in Lua, whichever seed jansson has.
static void test_a_fixed_hash_seed_changes_no_result(void **state) {
  struct handles *handles = *state;
  fb_fix_hash_seed();
  fb_design *design = design_of(
      "pool.json",
      "{\"project\": {\"name\": \"Pool\", \"units\": \"us\"}, \"site\": {\"soil\": \"type B\", \"gate_width\": "
      "\"6 ft\"}, \"basin\": {\"pool\": {\"purpose\": \"display\", \"outline\": {\"circle\": \"6 ft\"}, "
      "\"depth\": \"12 in\", \"water_level\": \"-2 in\", \"rim\": \"0 in\"}}}",
      handles->problems);
  assert_int_equal(fb_problems_count(handles->problems), 0);
  fb_text *text = fb_explain_new(design, "pool.freeboard", FB_UNITS_US, false, handles->problems);
  assert_has(fb_text_bytes(text), "basin \"pool\".freeboard = 2 in");
  fb_text_free(text);
  fb_design_free(design);
}

static void test_a_design_with_errors_gives_them_with_their_lines(void **state) {
  struct handles *handles = *state;
  fb_design *design = design_of("bad.lua",
                                "project { name = \"Bad\", units = \"us\" }\n"
                                "boulder \"a\" { length = \"30 in\", width = \"20 in\",\n"
                                "  height = 6 }\n" POOL,
                                handles->problems);
  assert_null(design);
  assert_int_equal(fb_problems_count(handles->problems), 1);
  const struct fb_problem *problem = fb_problems_at(handles->problems, 0);
  assert_string_equal(problem->file, "bad.lua");
  assert_int_equal(problem->line, 3);
  assert_string_equal(problem->where, "boulder \"a\".height");
}

static void test_a_broken_rule_file_leaves_the_rest_in_force(void **state) {
  struct handles *handles = *state;
  struct fb_file files[] = {file("one.lua", "rule \"x\" {"), file("two.lua", rules)};
  struct fb_layer layer = {"trade", files, 2};
  fb_rulebook *rulebook = fb_rulebook_new(&layer, 1, NULL, NULL, NULL, handles->problems);
  assert_non_null(rulebook);
  assert_false(fb_rulebook_whole(rulebook));
  assert_int_equal(fb_rulebook_count(rulebook), 1);
  assert_string_equal(fb_problems_at(handles->problems, 0)->file, "one.lua");
  fb_review *review = fb_review_new(handles->design, rulebook, FB_LAYOUT, NULL, NULL, handles->problems);
  fb_text *text = fb_report_text_new(review, NULL);
  assert_has(fb_text_bytes(text), "NOT USABLE, so the review is incomplete\n  one.lua:1: ");
  fb_text_free(text);
  fb_review_free(review);
  fb_rulebook_free(rulebook);
}

static void test_a_rule_broken_beforehand_is_reported_and_not_run(void **state) {
  struct handles *handles = *state;
  fb_rulebook_break(handles->rulebook, "foot", "it ran for more than 2 s");
  fb_review *review = fb_review_new(handles->design, handles->rulebook, FB_LAYOUT, NULL, NULL, handles->problems);
  struct fb_counts counts = fb_review_counts(review);
  assert_int_equal(counts.broken, 1);
  assert_int_equal(counts.flagged + counts.clear + counts.unanswered, 0);
  fb_text *text = fb_report_text_new(review, NULL);
  assert_has(fb_text_bytes(text), "it ran for more than 2 s");
  fb_text_free(text);
  fb_review_free(review);
}

struct seen {
  size_t count;
  char first_rule[32], first_entity[32];
};

static void note(void *with, const char *rule, const char *entity) {
  struct seen *seen = with;
  if (seen->count++) return;
  strncat(seen->first_rule, rule, sizeof seen->first_rule - 1);
  strncat(seen->first_entity, entity, sizeof seen->first_entity - 1);
}

static void test_the_watch_is_told_before_each(void **state) {
  struct handles *handles = *state;
  struct seen seen = {0};
  fb_review *review = fb_review_new(handles->design, handles->rulebook, FB_LAYOUT, note, &seen, handles->problems);
  assert_int_equal(seen.count, 3);
  assert_string_equal(seen.first_rule, "foot");
  assert_string_equal(seen.first_entity, "boulder \"tall\"");
  fb_review_free(review);
}

static void note_file(void *with, const char *name) { strncat(with, name, 31); }

static void test_the_watch_is_told_before_each_file(void **state) {
  struct handles *handles = *state;
  struct fb_file files[] = {file("one.lua", ""), file("two.lua", "")};
  struct fb_layer layer = {"trade", files, 2};
  char names[64] = "";
  fb_rulebook *rulebook = fb_rulebook_new(&layer, 1, NULL, note_file, names, handles->problems);
  assert_string_equal(names, "one.luatwo.lua");
  fb_rulebook_free(rulebook);
}

static void test_rules_are_listed_and_shown(void **state) {
  struct handles *handles = *state;
  fb_text *list = fb_rulebook_text_new(handles->rulebook, NULL, handles->problems);
  assert_has(fb_text_bytes(list), "foot");
  fb_text_free(list);
  fb_text *one = fb_rulebook_text_new(handles->rulebook, "foot", handles->problems);
  assert_has(fb_text_bytes(one), "It falls.");
  fb_text_free(one);
  assert_null(fb_rulebook_text_new(handles->rulebook, "foto", handles->problems));
  assert_string_equal(fb_problems_at(handles->problems, 0)->right, "foot");
}

static void note_rule(void *with, const char *rule) {
  (void)rule;
  ++*(size_t *)with;
}

static void test_rules_are_run_on_their_examples(void **state) {
  struct handles *handles = *state;
  size_t passed = 0, failed = 99, told = 0;
  fb_text *text = fb_rule_test_new(handles->rulebook, note_rule, &told, &passed, &failed, handles->problems);
  if (failed) assert_string_equal(fb_text_bytes(text), "");  // shows what failed
  assert_true(passed >= 3);
  assert_true(told >= 1);
  fb_text_free(text);
}

// All of its examples state the judged share itself, and none what it is worked out from.
static void test_rules_are_checked_as_written(void **state) {
  struct handles *handles = *state;
  const char *const files[] = {"stone.lua"}, *const others[] = {"else.lua"};
  size_t wrong = 99, told = 0;
  fb_text *text = fb_rulebook_check_new(handles->rulebook, files, 1, note_rule, &told, &wrong, handles->problems);
  assert_string_equal(fb_text_bytes(text), "1 rule checked: 1 thing is wrong.\n");
  assert_int_equal(wrong, 1);
  assert_int_equal(told, 1);
  assert_int_equal(fb_problems_count(handles->problems), 1);
  assert_string_equal(fb_problems_at(handles->problems, 0)->file, "stone.lua");
  assert_int_equal(fb_problems_at(handles->problems, 0)->line, 1);
  fb_text_free(text);
  text = fb_rulebook_check_new(handles->rulebook, others, 1, NULL, NULL, &wrong, handles->problems);
  assert_string_equal(fb_text_bytes(text), "0 rules checked: nothing is wrong.\n");
  fb_text_free(text);
}

static void test_rules_to_start_from(void **state) {
  struct handles *handles = *state;
  fb_text *text = fb_starter_rules_new("ours", handles->problems);
  assert_non_null(strstr(fb_text_bytes(text), "rule \"ours\" {"));
  assert_non_null(strstr(fb_text_bytes(text), "rule \"ours-check\" {"));
  fb_text_free(text);
  assert_null(fb_starter_rules_new("Ours!", handles->problems));
  assert_int_equal(fb_problems_count(handles->problems), 1);
  assert_string_equal(fb_problems_at(handles->problems, 0)->read, "Ours!");
}

static void test_a_starter_design_reads_and_reviews(void **state) {
  struct handles *handles = *state;
  fb_design *starter = design_of("new.lua", fb_starter_design(), handles->problems);
  assert_int_equal(fb_problems_count(handles->problems), 0);
  fb_review *review = fb_review_new(starter, handles->rulebook, FB_LAYOUT, NULL, NULL, handles->problems);
  assert_int_equal(fb_review_counts(review).flagged + fb_review_counts(review).clear, 1);
  fb_text *text = fb_report_text_new(review, NULL);
  assert_null(strstr(fb_text_bytes(text), "PROBLEMS"));
  fb_text *flow = fb_explain_new(starter, "lip.flow", FB_UNITS_US, false, handles->problems);
  assert_has(fb_text_bytes(flow), "spill \"lip\".flow = 1,");  // its pump reaches the bowl
  fb_text *full = fb_explain_new(starter, "lip.flow", FB_UNITS_US, true, handles->problems);
  assert_has(fb_text_bytes(flow), "for more; --full shows");
  assert_null(strstr(fb_text_bytes(full), "for more; --full shows"));
  assert_in_range(strlen(fb_text_bytes(full)), 2 * strlen(fb_text_bytes(flow)), SIZE_MAX);
  fb_text_free(full);
  fb_text_free(flow);
  fb_text_free(text);
  fb_review_free(review);
  fb_design_free(starter);
}

static void test_the_starter_design_is_short(void **state) {
  (void)state;
  size_t lines = 0, column = 0;
  for (const char *c = fb_starter_design(); *c; c++) {
    column = *c == '\n' ? 0 : column + 1;
    lines += *c == '\n';
    assert_in_range(column, 0, 100);
  }
  assert_in_range(lines, 20, 60);
}

static void test_files_need_no_closing_nul_and_may_go_after_the_call(void **state) {
  struct handles *handles = *state;
  char name[] = "gone.lua", bytes[sizeof stones];
  memcpy(bytes, stones, sizeof stones - 1);
  bytes[sizeof stones - 1] = '!';
  struct fb_file one = {name, bytes, sizeof stones - 1};
  fb_design *design = fb_design_new(&one, NULL, 0, handles->problems);
  assert_non_null(design);
  memset(name, 'x', sizeof name - 1);
  memset(bytes, 'x', sizeof bytes);
  fb_review *review = fb_review_new(design, handles->rulebook, FB_LAYOUT, NULL, NULL, handles->problems);
  fb_text *text = fb_report_text_new(review, NULL);
  assert_has(fb_text_bytes(text), "Design    gone.lua (");
  fb_text_free(text);
  fb_review_free(review);
  fb_design_free(design);
}

static fb_design *tried(const char *where, const char *text, fb_problems *problems) {
  struct fb_file one = file("garden.lua", stones);
  struct fb_trial trial = {where, text, "first trial"};
  struct fb_reading with = {.trials = &trial, .trial_count = 1};
  return fb_design_with_new(&one, &with, problems);
}

static void test_a_trial_is_reviewed_and_told(void **state) {
  struct handles *handles = *state;
  fb_design *design = tried("tall.embedment", "2 ft", handles->problems);
  fb_review *review = fb_review_new(design, handles->rulebook, FB_LAYOUT, NULL, NULL, handles->problems);
  assert_int_equal(fb_review_counts(review).flagged, 0);  // a third of 6 ft, where a quarter is asked
  fb_text *text = fb_report_text_new(review, NULL);
  assert_has(fb_text_bytes(text), "TRIED: boulder \"tall\".embedment = 2 ft (is 6 in)\n");
  fb_text_free(text);
  fb_review_free(review);
  fb_design_free(design);
}

static void test_what_cannot_be_tried_is_a_problem(void **state) {
  struct handles *handles = *state;
  assert_null(tried("tal.embedment", "2 ft", handles->problems));
  const struct fb_problem *problem = fb_problems_at(handles->problems, 0);
  assert_string_equal(problem->file, "first trial");
  assert_string_equal(problem->right, "\"tall\", if that is meant");
}

static void test_reviews_side_by_side(void **state) {
  struct handles *handles = *state;
  fb_design *design = tried("tall.embedment", "2 ft", handles->problems);
  fb_review *reviews[] = {fb_review_new(handles->design, handles->rulebook, FB_LAYOUT, NULL, NULL, handles->problems),
                          fb_review_new(design, handles->rulebook, FB_LAYOUT, NULL, NULL, handles->problems)};
  const fb_review *const both[] = {reviews[0], reviews[1]};
  fb_text *text = fb_compare_new(both, 2, FB_UNITS_AS_DESIGNED);
  assert_has(fb_text_bytes(text), "  boulder \"tall\".embedment ............ 6 in | 24 in\n");
  assert_has(fb_text_bytes(text), "  gone    hold -> clear: A stone has its foot in the ground: boulder \"tall\"\n");
  assert_null(fb_compare_new(both, 1, FB_UNITS_AS_DESIGNED));
  fb_text_free(text);
  fb_review_free(reviews[0]);
  fb_review_free(reviews[1]);
  fb_design_free(design);
}

static void test_an_edit_gives_the_text_with_one_value_changed(void **state) {
  struct handles *handles = *state;
  struct fb_file one = file("garden.lua", stones);
  struct fb_trial change = {"tall.embedment", "2 ft", NULL};
  fb_text *text = fb_design_edit_new(handles->design, &one, &change, 1, handles->problems);
  const char *where = strstr(stones, "\"6 in\" }");
  assert_non_null(where);
  assert_memory_equal(fb_text_bytes(text), stones, (size_t)(where - stones));
  assert_string_equal(fb_text_bytes(text) + (where - stones) + strlen("\"2 ft\""), where + strlen("\"6 in\""));
  fb_text_free(text);
  change.where = "tall.embedded_share";
  assert_null(fb_design_edit_new(handles->design, &one, &change, 1, handles->problems));
  assert_string_equal(fb_problems_at(handles->problems, 0)->said, "`embedded_share` is worked out, not given");
}

static void test_nothing_is_no_trouble_to_free(void **state) {
  (void)state;
  fb_text_free(NULL);
  fb_review_free(NULL);
  fb_rulebook_free(NULL);
  fb_design_free(NULL);
  fb_problems_free(NULL);
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, setup, teardown)
  const struct CMUnitTest tests[] = {
      TEST(test_version),
      TEST(test_a_trial_is_reviewed_and_told),
      TEST(test_what_cannot_be_tried_is_a_problem),
      TEST(test_reviews_side_by_side),
      TEST(test_an_edit_gives_the_text_with_one_value_changed),
      TEST(test_a_design_and_a_rulebook_give_a_review),
      TEST(test_the_report_says_the_same_each_time),
      TEST(test_units_follow_the_design_or_the_caller),
      TEST(test_a_design_in_metric_prints_metric),
      TEST(test_explaining_what_is_not_there_names_the_nearest),
      TEST(test_explaining_tells_what_is_found_impossible),
      TEST(test_a_fixed_hash_seed_changes_no_result),
      TEST(test_a_takeoff_follows_the_design),
      TEST(test_a_design_with_errors_gives_them_with_their_lines),
      TEST(test_a_broken_rule_file_leaves_the_rest_in_force),
      TEST(test_a_rule_broken_beforehand_is_reported_and_not_run),
      TEST(test_the_watch_is_told_before_each),
      TEST(test_the_watch_is_told_before_each_file),
      TEST(test_rules_are_listed_and_shown),
      TEST(test_rules_are_run_on_their_examples),
      TEST(test_rules_are_checked_as_written),
      TEST(test_rules_to_start_from),
      TEST(test_a_starter_design_reads_and_reviews),
      TEST(test_the_starter_design_is_short),
      TEST(test_files_need_no_closing_nul_and_may_go_after_the_call),
      TEST(test_nothing_is_no_trouble_to_free),
  };
  return cmocka_run_group_tests_name("api/api", tests, NULL, NULL);
}
