// SPDX-License-Identifier: MIT
// The teaching design: each planted fault is flagged, what hangs on the branched pipe is answered (its water is solved
// through both branches at once), and no rule breaks. What to expect stands in crew-lesson.expect.
#define _POSIX_C_SOURCE 200809L  // strtok_r
// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

#include "designs/judged.h"

enum { FEWEST_FAULTS = 10 };

#define LEFT 1148.62  // gal/h through each branch: see below
#define RIGHT 1199.33

struct expected {
  char rule[64], entity[64], outcome[32];
};

// "rule  entity of several words  outcome".
static bool read_line(char *line, struct expected *expected) {
  line[strcspn(line, "\n")] = '\0';
  if (line[0] == '#' || line[0] == '\0') return false;
  char *outcome = strrchr(line, ' '), *entity = strchr(line, ' ');
  if (!entity || outcome == entity) fail_msg("not `rule entity outcome`: %s", line);
  snprintf(expected->outcome, sizeof expected->outcome, "%s", outcome + 1);
  *entity++ = '\0';
  for (*outcome = '\0'; outcome[-1] == ' '; outcome--) outcome[-1] = '\0';
  snprintf(expected->rule, sizeof expected->rule, "%s", line);
  snprintf(expected->entity, sizeof expected->entity, "%s", entity + strspn(entity, " "));
  return true;
}

static void each_expected(struct judged *judged, void (*check)(struct judged *, const struct expected *)) {
  FILE *table = fopen(judged_path(judged->arena, "tests/designs/crew-lesson.expect"), "r");
  assert_non_null(table);
  char line[256];
  struct expected expected;
  while (fgets(line, sizeof line, table)) {
    if (read_line(line, &expected)) check(judged, &expected);
  }
  fclose(table);
}

static struct judged lesson(void) {
  struct judged judged = judged_read("projects/crew-lesson.lua");
  judged_judge(&judged);
  return judged;
}

static void check_outcome(struct judged *judged, const struct expected *expected) {
  const struct outcome *outcome = judged_outcome(judged, expected->rule, expected->entity);
  const char *found = outcome ? outcome_word(outcome->sort) : "no outcome";
  if (strcmp(found, expected->outcome) != 0) {
    fail_msg("%s on %s: %s, %s expected", expected->rule, expected->entity, found, expected->outcome);
  }
}

static void outcomes_are_as_listed(void **state) {
  (void)state;
  struct judged judged = lesson();
  each_expected(&judged, check_outcome);
  judged_free(&judged);
}

// ---- The notes in the design and the list say the same ----

static bool in_list(struct judged *judged, const char *rule, const char *wanted) {
  FILE *table = fopen(judged_path(judged->arena, "tests/designs/crew-lesson.expect"), "r");
  assert_non_null(table);
  char line[256];
  struct expected expected;
  bool found = false;
  while (!found && fgets(line, sizeof line, table)) {
    found = read_line(line, &expected) && strcmp(expected.rule, rule) == 0 && strcmp(expected.outcome, wanted) == 0;
  }
  fclose(table);
  return found;
}

// The rule ids after `-- planted:` on one line, divided by commas. How many.
static size_t check_notes(struct judged *judged, char *notes, bool stages[STAGE_COUNT]) {
  size_t count = 0;
  for (char *id; (id = strtok_r(notes, ", \n", &notes)); count++) {
    if (!in_list(judged, id, "flagged")) fail_msg("%s is planted, and not in crew-lesson.expect", id);
    for (size_t i = 0; i < judged->review.rule_count; i++) {
      if (strcmp(judged->review.rules[i].id, id) == 0) stages[judged->review.rules[i].stage] = true;
    }
  }
  return count;
}

static void every_stage_has_a_planted_fault(void **state) {
  (void)state;
  static const char mark[] = "  -- planted: ";
  struct judged judged = lesson();
  struct file_bytes file = judged_file(&judged, judged_path(judged.arena, "projects/crew-lesson.lua"));
  char *rest = arena_copy(judged.arena, file.bytes, file.length);
  bool stages[STAGE_COUNT] = {false};
  size_t count = 0;
  for (char *line; (line = strtok_r(rest, "\n", &rest));) {
    char *note = strstr(line, mark);
    if (note) count += check_notes(&judged, note + strlen(mark), stages);
  }
  assert_in_range(count, FEWEST_FAULTS, 100);
  for (int stage = 0; stage < STAGE_COUNT; stage++) {
    if (!stages[stage]) fail_msg("no fault is planted for the stage %s", stage_name((enum stage)stage));
  }
  judged_free(&judged);
}

static void no_rule_breaks(void **state) {
  (void)state;
  struct judged judged = lesson();
  for (size_t i = 0; i < judged.review.outcome_count; i++) {
    const struct outcome *it = &judged.review.outcomes[i];
    if (it->sort != OUTCOME_BROKEN) continue;
    fail_msg("%s on %s: %s", judged.review.rules[it->rule].id, judged_name(&judged, it->entity), it->because);
  }
  judged_fail_on_problems(&judged, "while working");
  judged_free(&judged);
}

// ---- The branches ----

static double flow_of(struct evaluation *ev, const char *pipe) {
  return evaluation_number(ev, store_named(evaluation_design(ev), pipe, strlen(pipe)), ROW_pipe_flow);
}

// scipy 1.10.1 with Colebrook's factor from fluids 1.0.22, on the drawing's lengths and fittings: 2,348 gal/h together.
static void both_branches_are_solved(void **state) {
  (void)state;
  struct judged judged = judged_read("projects/crew-lesson.lua");
  struct evaluation *ev = evaluation_in(judged.arena, judged.store, &judged.problems);
  const double gallon_an_hour = 231 * 0.0254 * 0.0254 * 0.0254 / 3600;
  double left = flow_of(ev, "left branch") / gallon_an_hour, right = flow_of(ev, "right branch") / gallon_an_hour;
  if (!(left > LEFT - 1 && left < LEFT + 1)) fail_msg("left branch: %.2f gal/h, %.2f expected", left, LEFT);
  if (!(right > RIGHT - 1 && right < RIGHT + 1)) fail_msg("right branch: %.2f gal/h, %.2f expected", right, RIGHT);
  judged_free(&judged);
}

static void shutting_one_branch_leaves_all_to_the_other(void **state) {
  (void)state;
  struct judged judged = judged_read("projects/crew-lesson.lua");
  int pipe = store_named(judged.store, "right branch", strlen("right branch"));
  assert_int_not_equal(pipe, -1);
  store_at(judged.store, pipe, ROW_pipe_valve_open)->value = 0;
  struct evaluation *ev = evaluation_in(judged.arena, judged.store, &judged.problems);
  double pump = evaluation_number(ev, store_named(judged.store, "twin pump", 9), ROW_pump_flow);
  assert_true(flow_of(ev, "right branch") == 0);
  if (!(flow_of(ev, "left branch") == pump)) fail_msg("%.12g is not %.12g", flow_of(ev, "left branch"), pump);
  judged_free(&judged);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(outcomes_are_as_listed),
      cmocka_unit_test(every_stage_has_a_planted_fault),
      cmocka_unit_test(no_rule_breaks),
      cmocka_unit_test(both_branches_are_solved),
      cmocka_unit_test(shutting_one_branch_leaves_all_to_the_other),
  };
  return cmocka_run_group_tests_name("designs/lesson", tests, NULL, NULL);
}
