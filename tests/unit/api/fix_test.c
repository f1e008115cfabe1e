// SPDX-License-Identifier: MIT
// Fixes as a program that links the library asks for them: the public header alone.
#include "forebay/forebay.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static const char stones[] =
    "project { name = \"Two stones\", units = \"us\" }\n"
    "basin \"pool\" { purpose = \"display\", outline = circle { \"6 ft\" },\n"
    "  depth = \"12 in\", water_level = \"-2 in\", rim = \"0 in\" }\n"
    "boulder \"tall\" { length = \"30 in\", width = \"20 in\", height = \"6 ft\", embedment = \"6 in\" } -- foot\n"
    "boulder \"open\" { length = \"30 in\", width = \"20 in\", height = \"2 ft\" }\n";

static const char rules[] =
    "rule \"foot\" {\n"
    "  title = \"A stone has its foot in the ground\",\n"
    "  for_each = \"boulder\", stage = \"stone\", severity = \"hold\",\n"
    "  judges = \"embedded_share\", at_least = \"25 %\",\n"
    "  why = [[It falls.]], source = \"common practice, no source\",\n"
    "}\n";

struct handles {
  fb_problems *problems;
  fb_design *design;
  fb_rulebook *rulebook;
  fb_review *review;
};

static int setup(void **state) {
  static struct handles handles;
  struct fb_file design = {"garden.lua", stones, sizeof stones - 1}, stone = {"stone.lua", rules, sizeof rules - 1};
  struct fb_layer layer = {"trade", &stone, 1};
  handles.problems = fb_problems_new();
  handles.design = fb_design_new(&design, NULL, 0, handles.problems);
  handles.rulebook = fb_rulebook_new(&layer, 1, NULL, NULL, NULL, handles.problems);
  handles.review = fb_review_new(handles.design, handles.rulebook, FB_LAYOUT, NULL, NULL, handles.problems);
  *state = &handles;
  return !handles.review;
}

static int teardown(void **state) {
  struct handles *handles = *state;
  fb_review_free(handles->review);
  fb_rulebook_free(handles->rulebook);
  fb_design_free(handles->design);
  fb_problems_free(handles->problems);
  return 0;
}

static void count_calls(void *with, const char *rule, const char *entity) {
  assert_string_equal(rule, "foot");
  assert_int_equal(strncmp(entity, "boulder ", 8), 0);
  ++*(size_t *)with;
}

static void nothing_before_they_are_looked_for(void **state) {
  struct handles *handles = *state;
  const size_t first = 1;
  struct fb_fix fix;
  assert_int_equal(fb_fix_count(handles->review), 0);
  assert_false(fb_fix_of(handles->review, 1, &fix));
  assert_null(fb_apply_new(handles->review, &(struct fb_applied){.findings = &first, .count = 1}, handles->problems));
}

// A quarter of 72 in is 18 in.
static void found_and_applied(void **state) {
  struct handles *handles = *state;
  const size_t first = 1;
  size_t calls = 0;
  struct fb_fix fix;
  assert_true(fb_review_mend(handles->review, count_calls, &calls, handles->problems));
  assert_in_range(calls, 2, 1000);
  assert_int_equal(fb_fix_count(handles->review), 2);
  assert_true(fb_fix_of(handles->review, 1, &fix));
  assert_int_equal(fix.standing, FB_PROVEN);
  assert_string_equal(fix.rule, "foot");
  assert_int_equal(fix.changes, 1);
  assert_int_equal(fix.raised, 0);
  fb_text *text =
      fb_apply_new(handles->review, &(struct fb_applied){.findings = &first, .count = 1}, handles->problems);
  assert_non_null(text);
  assert_non_null(strstr(fb_text_bytes(text), "height = \"6 ft\", embedment = \"18 in\" } -- foot\n"));
  assert_int_equal(fb_text_length(text), sizeof stones - 1 + strlen("18 in") - strlen("6 in"));
  fb_text_free(text);
  fb_text *report = fb_report_text_new(handles->review, NULL);
  assert_non_null(
      strstr(fb_text_bytes(report), "Fix 1: raise how deep its foot is set (embedment) from 6 in to 18 in."));
  fb_text_free(report);
}

static void what_waits_for_an_answer_has_no_fix(void **state) {
  struct handles *handles = *state;
  const size_t numbers[] = {2};
  struct fb_fix fix;
  assert_true(fb_review_mend(handles->review, NULL, NULL, NULL));
  assert_true(fb_fix_of(handles->review, 2, &fix));
  assert_int_equal(fix.standing, FB_ADVICE);
  assert_int_equal(fix.changes, 0);
  assert_false(fb_fix_of(handles->review, 0, &fix));
  assert_false(fb_fix_of(handles->review, 3, &fix));
  assert_null(fb_apply_new(handles->review, &(struct fb_applied){.findings = numbers, .count = 1}, handles->problems));
  assert_int_equal(fb_problems_count(handles->problems), 1);
  assert_string_equal(fb_problems_at(handles->problems, 0)->said,
                      "finding 2 waits for an answer; no change of the design gives it");
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, setup, teardown)
  const struct CMUnitTest tests[] = {
      TEST(nothing_before_they_are_looked_for),
      TEST(found_and_applied),
      TEST(what_waits_for_an_answer_has_no_fix),
  };
  return cmocka_run_group_tests_name("api/fix", tests, NULL, NULL);
}
