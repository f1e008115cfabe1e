// SPDX-License-Identifier: MIT
// Memory runs out at every place once: the n-th allocation fails, for n = 1, 2, 3 ... until none does any more. Each
// time the call says NULL and that memory ran out, and leaves nothing behind (the sanitizer build looks for leaks).
// Then the same call with memory works.
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/arena.h"
#include "forebay/forebay.h"

static const char rules[] =
    "rule \"foot\" {\n"
    "  title = \"A stone has its foot in the ground\",\n"
    "  for_each = \"boulder\", stage = \"stone\", severity = \"advise\",\n"
    "  judges = \"embedded_share\", at_least = \"30 %\",\n"
    "  why = [[It falls.]], source = \"common practice, no source\",\n"
    "  examples = { { \"shallow\", boulder = { embedded_share = \"10 %\" }, outcome = \"flagged\" },\n"
    "    { \"as set\", boulder = { height = \"4 ft\", embedment = \"2 ft\" }, outcome = \"clear\" } },\n"
    "}\n"
    "rule \"lip\" {\n"
    "  title = \"Every lip gets water\", for_each = \"spill\", stage = \"plumbing\", severity = \"revise\",\n"
    "  limit = { least = \"500 gal/h/in\" },\n"
    "  check = function(spill, limit) return at_least(spill.flow_per_width, limit.least) end,\n"
    "  why = [[A dry lip is no fall.]], source = \"common practice, no source\",\n"
    "}\n"
    "rule \"misread\" { title = \"A slip\", for_each = \"spill\", stage = \"plumbing\", severity = \"revise\",\n"
    "  judges = \"flwo\", at_least = \"1 gal/h\", why = [[No.]], source = \"common practice, no source\" }\n";

static const char house[] =
    "adjust \"lip\" { limit = { least = \"40 gal/h/in\" }, because = \"b\" }\n"
    "stock { pumps = { { model = \"a\", type = \"dry\", curve = { {\"0 gal/h\", \"9 ft\"}, {\"900 gal/h\", \"0 ft\"} } "
    "} },\n"
    "  pipe_sizes = { { size = \"2 in\", price = \"$2\" } }, prices = { gravel = \"$38\", haul = \"190\" },\n"
    "  rates = { stones_per_day = 6 }, tolerances = { tape = \"1/2 in\" } }\n"
    "stock { prices = { gravel = \"$40\" } }\n";
static const char crew[] =
    "adjust \"lip\" { severity = \"advise\", limit = { least = \"50 gal/h/in\" } }\n"
    "stock { prices = { gravel = \"$41\" }, pumps = {} }\n";

static const char wrong[] =
    "project { name = \"Wrong\", units = \"us\" }\n"
    "basin \"pool\" { purpose = \"displai\", outline = circle { 6 }, depth = \"12\", rim = \"0 in\" }\n"
    "bolder \"a\" { length = \"30 gal\" }\n";

enum { MOST = 200000, BEYOND = 50 };  // allocations that no call here comes near; successes that end the search

struct handles {
  fb_problems *problems;
  fb_design *design;
  fb_rulebook *rulebook;
  fb_review *review;
};

// --- the calls under test: each makes something, and says whether it did

static bool try_design(struct handles *handles) {
  struct fb_file file = {"starter.lua", fb_starter_design(), strlen(fb_starter_design())};
  struct fb_reading with = {.stock_of = handles->rulebook};
  fb_design *design = fb_design_with_new(&file, &with, handles->problems);
  fb_design_free(design);
  return design != NULL;
}

static bool try_trial(struct handles *handles) {
  struct fb_file file = {"starter.lua", fb_starter_design(), strlen(fb_starter_design())};
  struct fb_trial trial = {"lip.lip_width", "16 in", NULL};
  struct fb_reading with = {.trials = &trial, .trial_count = 1};
  fb_design *design = fb_design_with_new(&file, &with, handles->problems);
  fb_design_free(design);
  return design != NULL;
}

static bool try_edit(struct handles *handles) {
  struct fb_file file = {"starter.lua", fb_starter_design(), strlen(fb_starter_design())};
  struct fb_trial change = {"lip.lip_width", "16 in", NULL};
  fb_text *text = fb_design_edit_new(handles->design, &file, &change, 1, handles->problems);
  fb_text_free(text);
  return text != NULL;
}

static bool try_compare(struct handles *handles) {
  const fb_review *const both[] = {handles->review, handles->review};
  fb_text *text = fb_compare_new(both, 2, FB_UNITS_US);
  fb_text_free(text);
  return text != NULL;
}

static bool try_wrong_design(struct handles *handles) {
  struct fb_file file = {"wrong.lua", wrong, sizeof wrong - 1};
  fb_design *design = fb_design_new(&file, NULL, 0, handles->problems);
  assert_null(design);
  return !fb_problems_out_of_memory(handles->problems);
}

static fb_rulebook *rulebook_new(struct handles *handles) {
  struct fb_file files[] = {{"rules.lua", rules, sizeof rules - 1},
                            {"house.lua", house, sizeof house - 1},
                            {"crew.lua", crew, sizeof crew - 1}};
  struct fb_layer layers[] = {{"trade", &files[0], 1}, {"house", &files[1], 1}, {"crew", &files[2], 1}};
  return fb_rulebook_new(layers, 3, NULL, NULL, NULL, handles->problems);
}

static bool try_rulebook(struct handles *handles) {
  fb_rulebook *rulebook = rulebook_new(handles);
  fb_rulebook_free(rulebook);
  return rulebook != NULL;
}

static bool try_review(struct handles *handles) {
  fb_review *review = fb_review_new(handles->design, handles->rulebook, FB_LAYOUT, NULL, NULL, handles->problems);
  fb_review_free(review);
  return review != NULL;
}

static bool try_report(struct handles *handles) {
  fb_text *text = fb_report_text_new(handles->review, NULL);
  fb_text_free(text);
  return text != NULL;
}

static bool try_explain(struct handles *handles) {
  fb_text *text = fb_explain_new(handles->design, "lip.flow", FB_UNITS_US, true, handles->problems);
  fb_text_free(text);
  return text != NULL;
}

static bool try_takeoff(struct handles *handles) {
  fb_text *text = fb_takeoff_new(handles->design, FB_UNITS_US, true, handles->problems);
  fb_text_free(text);
  return text != NULL;
}

static bool try_rule_text(struct handles *handles) {
  fb_text *text = fb_rulebook_text_new(handles->rulebook, "foot", handles->problems);
  fb_text_free(text);
  return text != NULL;
}

static bool try_rule_test(struct handles *handles) {
  size_t passed, failed;
  fb_text *text = fb_rule_test_new(handles->rulebook, NULL, NULL, &passed, &failed, handles->problems);
  fb_text_free(text);
  return text != NULL;
}

static bool try_rule_test_tap(struct handles *handles) {
  size_t passed, failed;
  fb_text *text = fb_rule_test_tap_new(handles->rulebook, false, NULL, NULL, &passed, &failed, handles->problems);
  fb_text_free(text);
  return text != NULL;
}

static bool try_check(struct handles *handles) {
  const char *const files[] = {"rules.lua"};
  size_t slips;
  fb_text *text = fb_rulebook_check_new(handles->rulebook, files, 1, NULL, NULL, &slips, handles->problems);
  fb_text_free(text);
  return text != NULL;
}

static bool try_starter_rules(struct handles *handles) {
  fb_text *text = fb_starter_rules_new(NULL, handles->problems);
  fb_text_free(text);
  return text != NULL;
}

static bool try_mend(struct handles *handles) { return fb_review_mend(handles->review, NULL, NULL, handles->problems); }

static bool try_apply(struct handles *handles) {
  const size_t number = 1;
  fb_text *text =
      fb_apply_new(handles->review, &(struct fb_applied){.findings = &number, .count = 1}, handles->problems);
  fb_text_free(text);
  return text != NULL;
}

// --- failing each allocation once

// Problems of one call at a time: what ran out before says nothing of the next.
static void renew_problems(struct handles *handles) {
  fb_problems_free(handles->problems);
  handles->problems = fb_problems_new();
}

static void renew_review(struct handles *handles) {
  fb_review_free(handles->review);
  handles->review = fb_review_new(handles->design, handles->rulebook, FB_LAYOUT, NULL, NULL, handles->problems);
}

// The call fails for every n up to some last one, and works for all beyond; says: problems tell that memory ran out.
static void fail_each_once(struct handles *handles, bool (*call)(struct handles *), bool says,
                           void (*before)(struct handles *)) {
  long n = 0, worked = 0;
  while (worked < BEYOND && n < MOST) {
    renew_problems(handles);
    if (before) before(handles);
    arena_fail_nth(++n);
    bool works = call(handles);
    arena_fail_nth(0);
    if (works && fb_problems_out_of_memory(handles->problems))
      fail_msg("allocation %ld: made, and yet out of memory", n);
    if (!works && worked) fail_msg("allocation %ld failed without a trace", n - 1);
    if (!works && says && !fb_problems_out_of_memory(handles->problems)) fail_msg("nothing said of allocation %ld", n);
    worked += works;
  }
  assert_in_range(n, BEYOND + 2, MOST - 1);
}

// Looking for fixes runs through all the rest many times over: of its allocations every so many fails, the first ones
// densely.
static void test_fixes(void **state) {
  struct handles *handles = *state;
  long n = 1;
  for (bool worked = false; !worked; n += 1 + n / 8) {
    renew_problems(handles);
    renew_review(handles);
    arena_fail_nth(n);
    worked = try_mend(handles);
    arena_fail_nth(0);
    if (worked && fb_problems_out_of_memory(handles->problems)) fail_msg("allocation %ld: found, and yet no memory", n);
    if (!worked && !fb_problems_out_of_memory(handles->problems)) fail_msg("nothing said of allocation %ld", n);
    if (!worked) assert_null(fb_report_text_new(handles->review, NULL));
    assert_in_range(n, 1, 10000000);
  }
  struct fb_fix fix;
  assert_true(fb_fix_of(handles->review, 1, &fix));
  assert_int_equal(fix.standing, FB_PROVEN);
}

static void test_applying(void **state) {
  struct handles *handles = *state;
  renew_problems(handles);
  renew_review(handles);
  assert_true(try_mend(handles));
  fail_each_once(handles, try_apply, true, NULL);
}

static void test_problems(void **state) {
  (void)state;
  for (long n = 1; n <= 2; n++) {
    arena_fail_nth(n);
    fb_problems *problems = fb_problems_new();
    arena_fail_nth(0);
    assert_null(problems);
  }
}

static void test_a_design(void **state) { fail_each_once(*state, try_design, true, NULL); }
static void test_a_wrong_design(void **state) { fail_each_once(*state, try_wrong_design, true, NULL); }
static void test_a_rulebook(void **state) { fail_each_once(*state, try_rulebook, true, NULL); }
static void test_a_review(void **state) { fail_each_once(*state, try_review, true, NULL); }
static void test_a_report(void **state) { fail_each_once(*state, try_report, false, renew_review); }
static void test_a_trial(void **state) { fail_each_once(*state, try_trial, true, NULL); }
static void test_an_edit(void **state) { fail_each_once(*state, try_edit, true, NULL); }
static void test_a_comparison(void **state) {
  renew_review(*state);
  fail_each_once(*state, try_compare, false, NULL);
}
static void test_an_explanation(void **state) { fail_each_once(*state, try_explain, true, NULL); }
static void test_a_takeoff(void **state) { fail_each_once(*state, try_takeoff, true, NULL); }
static void test_a_rule_as_text(void **state) { fail_each_once(*state, try_rule_text, true, NULL); }

static void test_the_rules_examples(void **state) { fail_each_once(*state, try_rule_test, true, NULL); }
static void test_the_rules_examples_as_tap(void **state) { fail_each_once(*state, try_rule_test_tap, true, NULL); }
static void test_a_check_of_rules(void **state) { fail_each_once(*state, try_check, true, NULL); }
static void test_rules_to_start_from(void **state) { fail_each_once(*state, try_starter_rules, true, NULL); }

// Where only the text found no memory, the review is whole and can be asked again.
static void test_a_report_can_be_asked_for_again(void **state) {
  struct handles *handles = *state;
  renew_problems(handles);
  renew_review(handles);
  arena_fail_nth(1);
  assert_null(fb_report_text_new(handles->review, NULL));
  arena_fail_nth(0);
  assert_true(try_report(handles));
}

static int setup(void **state) {
  static struct handles handles;
  struct fb_file file = {"starter.lua", fb_starter_design(), strlen(fb_starter_design())};
  handles = (struct handles){.problems = fb_problems_new()};
  handles.design = fb_design_new(&file, NULL, 0, handles.problems);
  handles.rulebook = rulebook_new(&handles);
  *state = &handles;
  return handles.design && handles.rulebook ? 0 : 1;
}

static int teardown(void **state) {
  struct handles *handles = *state;
  fb_review_free(handles->review);
  fb_rulebook_free(handles->rulebook);
  fb_design_free(handles->design);
  fb_problems_free(handles->problems);
  return 0;
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, setup, teardown)
  const struct CMUnitTest tests[] = {
      TEST(test_problems),
      TEST(test_a_design),
      TEST(test_a_wrong_design),
      TEST(test_a_rulebook),
      TEST(test_a_review),
      TEST(test_a_report),
      TEST(test_fixes),
      TEST(test_applying),
      TEST(test_a_takeoff),
      TEST(test_a_trial),
      TEST(test_an_edit),
      TEST(test_a_comparison),
      TEST(test_an_explanation),
      TEST(test_a_rule_as_text),
      TEST(test_the_rules_examples),
      TEST(test_the_rules_examples_as_tap),
      TEST(test_a_check_of_rules),
      TEST(test_rules_to_start_from),
      TEST(test_a_report_can_be_asked_for_again),
  };
  return cmocka_run_group_tests_name("fault/alloc", tests, NULL, NULL);
}
