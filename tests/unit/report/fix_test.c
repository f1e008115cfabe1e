// SPDX-License-Identifier: MIT
// Fixes in words, each way in which they can stand, on a review put together by hand.
#include "report/text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "unit/review/sample.h"

// Findings of the sample: 1 the site's utilities, 2 the wall, 3 and 4 the two stones.
enum { OF_SITE, OF_WALL, OF_TALL, OF_SCREEN, FINDINGS };

static const struct report_about plain = {
    .project = "Test garden", .file = "garden.lua", .digest = "0011223344556677", .version = "9.9.9"};

struct told {
  struct sample *sample;
  struct mend_finding findings[FINDINGS];
  struct mends mends;
};

static int setup(void **state) {
  struct told *told = calloc(1, sizeof *told);
  told->sample = sample_new();
  size_t count;
  const struct outcome **findings = review_findings(&told->sample->review, &count);
  assert_int_equal(count, FINDINGS);
  for (size_t i = 0; i < count; i++)
    told->findings[i] = (struct mend_finding){.finding = findings[i], .best = {.standing = MEND_ADVICE, .price = NAN}};
  told->mends = (struct mends){.list = told->findings, .count = FINDINGS};
  *state = told;
  return 0;
}

static int teardown(void **state) {
  struct told *told = *state;
  arena_free(told->sample->arena);
  free(told);
  return 0;
}

static const char *report_of(struct told *told, bool brief) {
  struct text text = text_in(told->sample->arena);
  struct report_about about = plain;
  about.mends = &told->mends;
  report_text(&text, &told->sample->review, &about, (struct report_style){UNITS_US, 80, false, brief});
  return text_end(&text);
}

// Shows the finding that the fix is of, when the piece is not there.
static void assert_has(const char *report, const char *piece) {
  const char *at = strstr(report, "ADVISE 3");
  if (!strstr(report, piece)) assert_string_equal(at ? at : report, piece);
}

static void assert_lacks(const char *report, const char *piece) {
  const char *found = strstr(report, piece);
  if (found) assert_string_equal(found, "");
}

static const struct mend_change deeper = {
    .entity = TALL, .row = ROW_boulder_embedment, .value = 0.3048, .text = "12 in", .was = "6 in"};
static const struct mend_change lower = {
    .entity = TALL, .row = ROW_boulder_height, .value = 1.524, .text = "5 ft", .was = "6 ft"};
static const struct mend_change backfill = {
    .entity = TALL, .row = ROW_boulder_machine_beside, .value = WORD_yes_no_no, .text = "no"};
static const struct mend_change thicker = {
    .entity = WALL, .row = ROW_wall_thickness, .value = 0.4064, .text = "16 in", .was = "12 in"};

static void stands(struct told *told, enum mend_standing standing, const struct mend_change *changes, size_t count) {
  told->findings[OF_TALL].best = (struct mend){.standing = standing, .changes = changes, .count = count, .price = NAN};
}

static void proven(void **state) {
  stands(*state, MEND_PROVEN, &deeper, 1);
  const char *report = report_of(*state, false);
  assert_has(report,
             "      asked (6 in short)\n    Fix 3: raise how deep its foot is set (embedment) from 6 in to 12 in.\n    "
             "     Proven.\n");
  assert_has(report, "2 advise; 1 more unanswered\nFixes: 1 of 3 findings that are not met has one that is proven.\n");
  assert_has(report, "Proven: the design with that change in it was read and reviewed again;");
  assert_has(report_of(*state, true), "    Proven fix 3: raise embedment from 6 in to 12 in\n");
}

static void with_another_way(void **state) {
  struct told *told = *state;
  stands(told, MEND_PROVEN, &deeper, 1);
  told->findings[OF_TALL].others[0] =
      (struct mend){.standing = MEND_PROVEN, .changes = &lower, .count = 1, .price = NAN};
  told->findings[OF_TALL].other_count = 1;
  assert_has(report_of(told, false),
             "    or: lower height of its box as set, foot included (height) from 6 ft to 5\n         ft. Proven.\n");
}

static void two_that_go_together(void **state) {
  const struct mend_change both[] = {deeper, backfill};
  stands(*state, MEND_PROVEN, both, 2);
  assert_has(report_of(*state, false),
             "    Fix 3: raise how deep its foot is set (embedment) from 6 in to 12 in, and\n"
             "         write a machine works beside it while it is backfilled\n"
             "         (machine_beside): no. Proven.\n");
}

static void of_another_thing_and_raising(void **state) {
  struct told *told = *state;
  static const struct mend_raised raised = {.rule = GATE, .entity = SITE, .severity = SEVERITY_REVISE};
  stands(told, MEND_RAISES, &thicker, 1);
  told->findings[OF_TALL].best.raised = &raised;
  told->findings[OF_TALL].best.raised_count = 1;
  assert_has(report_of(told, false),
             "    Fix 3: raise thickness (thickness) of wall \"back wall\" from 12 in to 16 in.\n"
             "         Proven, but raises gate-too-narrow on site (revise).\n");
  assert_lacks(report_of(told, true), "fix 3");
}

static void by_hand(void **state) {
  struct told *told = *state;
  stands(told, MEND_BY_HAND, &deeper, 1);
  told->findings[OF_TALL].best.line = 7;
  told->findings[OF_TALL].best.why = "is written in a loop";
  assert_has(report_of(told, false),
             "from 6 in to 12 in. Works\n         in a trial; line 7 is written in a loop: change it there by hand.\n");
}

static void not_enough(void **state) {
  struct told *told = *state;
  stands(told, MEND_NOT_ENOUGH, &deeper, 1);
  told->findings[OF_TALL].best.reached = told->findings[OF_TALL].finding->comparisons[0];
  told->findings[OF_TALL].best.reached.value = sample_inches(9);
  told->findings[OF_TALL].best.reached.margin = sample_inches(-3);
  assert_has(report_of(told, false),
             "from 6 in to 12 in. Not\n         enough: at best, how deep its foot is set is 9 in, at least 12 in is\n "
             "        asked (3 in short).\n");
}

static void measured(void **state) {
  struct told *told = *state;
  stands(told, MEND_MEASURE, NULL, 0);
  told->findings[OF_TALL].best.measured = store_slot(told->sample->store, TALL, ROW_boulder_mass);
  assert_has(report_of(told, false),
             "    Measure again: likely weight (mass) of boulder \"tall stone\" was taken on\n         site and holds "
             "until it is taken anew after a change.\n");
}

static void a_choice(void **state) {
  stands(*state, MEND_CHOICE, &deeper, 1);
  assert_has(report_of(*state, false), "from 6 in to 12 in. Needs\n         a choice: what follows does as well.\n");
}

// Where nothing was found, the rule's own words stand as before.
static void the_rules_words_stay(void **state) {
  assert_has(report_of(*state, false), "    Try: set it deeper, or choose a taller stone\n");
}

static void a_pump_with_its_price(void **state) {
  struct told *told = *state;
  static const struct mend_change pump = {.entity = TALL, .row = ROW_pump_model, .text = "mid 1900"};
  stands(told, MEND_PROVEN, &pump, 1);
  told->findings[OF_TALL].best.price = 240;
  assert_has(report_of(told, false),
             "    Fix 3: take \"mid 1900\" of the firm's stock, with its maker's data, $240.00.\n"
             "         Proven.\n");
}

static void what_goes_together(void **state) {
  struct told *told = *state;
  const struct mend_change both[] = {deeper, thicker};
  static const struct mend_raised left = {
      .rule = UTILITIES, .entity = SITE, .severity = SEVERITY_HOLD, .unanswered = true};
  told->mends.joint = (struct mend_joint){.mend = {.standing = MEND_PROVEN, .changes = both, .count = 2, .price = NAN},
                                          .held_before = 2,
                                          .held_after = 1,
                                          .left = &left,
                                          .left_count = 1,
                                          .price = 36.5};
  assert_has(report_of(told, false),
             "ONE SET OF CHANGES, the best that was found\n"
             "  boulder \"tall stone\": raise how deep its foot is set (embedment) from 6 in to\n"
             "    12 in\n"
             "  wall \"back wall\": raise thickness (thickness) from 12 in to 16 in\n"
             "  It mends 1 of 2 holds. Proven.\n"
             "  Left: utilities-not-located on site (unanswered).\n"
             "  By the prices stated, what is ordered and hauled costs $36.50 more.\n");
  told->mends.joint.held_after = 0;
  told->mends.joint.left_count = 0;
  assert_has(report_of(told, false), "  Nothing is held or to be revised any more. Proven.\n");
}

static void no_fixes_were_looked_for(void **state) {
  struct told *told = *state;
  struct text text = text_in(told->sample->arena);
  report_text(&text, &told->sample->review, &plain, (struct report_style){UNITS_US, 80, false, false});
  assert_lacks(text_end(&text), "Fix ");
  assert_lacks(text_end(&text), "Proven");
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, setup, teardown)
  const struct CMUnitTest tests[] = {
      TEST(proven),
      TEST(with_another_way),
      TEST(two_that_go_together),
      TEST(of_another_thing_and_raising),
      TEST(by_hand),
      TEST(not_enough),
      TEST(measured),
      TEST(a_choice),
      TEST(the_rules_words_stay),
      TEST(a_pump_with_its_price),
      TEST(what_goes_together),
      TEST(no_fixes_were_looked_for),
  };
  return cmocka_run_group_tests_name("report/fix", tests, NULL, NULL);
}
