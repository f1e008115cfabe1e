// SPDX-License-Identifier: MIT
// What a report says of a firm's decisions.
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
// clang-format off: it needs those above
#include <cmocka.h>
// clang-format on

#include "report/text.h"
#include "unit/review/sample.h"

static const struct decision decisions[] = {
    {.rule = "misses-the-basin",
     .sort = DECISION_RETIRED,
     .layer = "house",
     .at = {"house.lua", 8},
     .because = "we set by eye",
     .stands = true,
     .softer = true},
    {.rule = "stone-shallow-set",
     .sort = DECISION_LIMIT,
     .what = "at least",
     .written = "10 in",
     .from = "12 in",
     .to = "14 in",
     .layer = "crew",
     .at = {"crew.lua", 4},
     .because = "our frost line",
     .had_layer = "house",
     .had_at = {"house.lua", 10},
     .overrules = true,
     .stands = true},
    {.rule = "odd-rule",  // as its own layer wrote it
     .sort = DECISION_SEVERITY,
     .what = "severity",
     .written = "advise",
     .from = "advise",
     .to = "advise",
     .layer = "house",
     .at = {"house.lua", 12},
     .stands = true},
    {.rule = "wall-needs-engineer",
     .sort = DECISION_LIMIT,
     .what = "at most",
     .written = "4 ft",
     .from = "4 ft",
     .to = "5 ft",
     .layer = "house",
     .at = {"house.lua", 14},
     .because = "dry walls here stand on rock",
     .stands = true,
     .life_safety = true,
     .softer = true},
};

static const struct report_style us = {UNITS_US, 80, false, false};
static const struct report_style in_short = {UNITS_US, 80, false, true};

static const char *report_of(struct sample *sample, size_t from, size_t count, struct report_style style) {
  struct report_about about = {.project = "Test garden",
                               .file = "garden.lua",
                               .digest = "0011223344556677",
                               .decisions = decisions + from,
                               .decision_count = count,
                               .version = "9.9.9"};
  struct text text = text_in(sample->arena);
  report_text(&text, &sample->review, &about, style);
  return text_end(&text);
}

static void assert_has(const char *report, const char *piece) {
  if (!strstr(report, piece)) assert_string_equal(report, piece);
}

static void assert_lacks(const char *report, const char *piece) {
  const char *found = strstr(report, piece);
  if (found) assert_string_equal(found, "");
}

static void decisions_are_on_record_with_who_and_why(void **state) {
  assert_has(report_of(*state, 0, 4, us),
             "\nDECISIONS ON RECORD\n"
             "  misses-the-basin: retired by house (house.lua:8); we set by eye\n"
             "  stone-shallow-set: at least 10 in -> 14 in, by crew (crew.lua:4); our frost\n"
             "    line\n"
             "  stone-shallow-set, at least: house says 12 in (house.lua:10), crew says 14 in\n"
             "    (crew.lua:4); the later one holds\n"
             "  wall-needs-engineer: at most 4 ft -> 5 ft, by house (house.lua:14); dry walls\n"
             "    here stand on rock\n\n");
  assert_lacks(report_of(*state, 2, 1, us), "DECISIONS ON RECORD");
}

static void what_lives_depend_on_stands_under_the_verdict(void **state) {
  static const char softened[] =
      "DO NOT DIG YET   2 hold (1 not met, 1 not answered), 2 advise; 1 more unanswered\n"
      "\nSOFTENED BY THE FIRM: lives depend on these rules\n"
      "  wall-needs-engineer: at most 4 ft -> 5 ft, by house (house.lua:14); dry walls\n"
      "    here stand on rock\n"
      "  Local codes and licensed practice decide, whatever a firm's rules say.\n";
  assert_has(report_of(*state, 0, 4, us), softened);
  assert_has(report_of(*state, 0, 4, in_short), softened);
  assert_lacks(report_of(*state, 0, 3, us), "SOFTENED");
}

static void the_trade_alone_in_a_line(void **state) {
  struct sample *sample = *state;
  assert_lacks(report_of(sample, 0, 4, us), "rules alone");
  sample->review.firm = (struct firm_effect){
      .known = true, .layer = "trade", .alone = {[SEVERITY_HOLD] = 2, [SEVERITY_ADVISE] = 1}, .added = 2, .taken = 1};
  assert_has(report_of(sample, 0, 3, us),
             "2 advise; 1 more unanswered\n"
             "By the trade rules alone: 2 hold, 1 advise; the firm adds 2, takes away 1.\n");
  assert_has(report_of(sample, 0, 4, us), "whatever a firm's rules say.\n\nBy the trade rules alone: 2 hold");
  sample->review.firm.added = sample->review.firm.taken = 0;
  assert_lacks(report_of(sample, 0, 4, us), "rules alone");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(decisions_are_on_record_with_who_and_why, sample_setup, sample_teardown),
      cmocka_unit_test_setup_teardown(what_lives_depend_on_stands_under_the_verdict, sample_setup, sample_teardown),
      cmocka_unit_test_setup_teardown(the_trade_alone_in_a_line, sample_setup, sample_teardown),
  };
  return cmocka_run_group_tests_name("report/text_firm", tests, NULL, NULL);
}
