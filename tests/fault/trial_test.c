// SPDX-License-Identifier: MIT
// Memory runs out at every place of a trial once. Each time control is back at the arena_try round it, and nothing is
// left behind when the arena goes (the sanitizer build looks for leaks); what the rulebook judges next is right.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

#include "designs/judged.h"
#include "rulebook/rejudge.h"

enum { MOST = 100000, BEYOND = 3 };

struct trying {
  struct arena *arena;
  struct problems problems;
  struct review review;
  struct evaluation *ev;
  struct rejudging *rejudging;
  struct trial_change change;
  size_t flagged;
};

static struct trying *judged_anew(struct judged *judged, struct rulebook *book) {
  struct arena *arena = arena_new();
  struct trying *trying = arena_alloc(arena, sizeof *trying);
  *trying = (struct trying){.arena = arena, .problems = problems_in(arena), .review = {.arena = arena}};
  trying->ev = evaluation_in(arena, judged->store, &trying->problems);
  rulebook_judge(book, trying->ev, &trying->review, (struct rulebook_watch){0});
  trying->rejudging = rejudging_in(book, &trying->review);
  int pump = store_of_kind(judged->store, KIND_pump, 0);
  trying->change = (struct trial_change){store_slot(judged->store, pump, ROW_pump_speed), 0.4};
  return trying;
}

static void try_all(void *with) {
  struct trying *trying = with;
  trial_begin(trying->ev, &trying->change, 1);
  for (size_t i = 0; i < trying->review.outcome_count; i++) {
    struct outcome now;
    rejudge(trying->rejudging, i, &now);
    trying->flagged += now.sort == OUTCOME_FLAGGED;
  }
  trial_end(trying->ev);
}

static bool try_with_fault(struct judged *judged, struct rulebook *book, long n, size_t *flagged) {
  struct trying *trying = judged_anew(judged, book);
  arena_fail_nth(n);
  bool done = arena_try(trying->arena, try_all, trying);
  arena_fail_nth(0);
  *flagged = trying->flagged;
  arena_free(trying->arena);
  return done;
}

static void every_allocation_of_a_trial_fails_once(void **state) {
  (void)state;
  struct judged judged = judged_read("tests/designs/porch.lua");
  struct rulebook *book = judged_rules(&judged);
  size_t expected, flagged;
  int done = 0, failed = 0;
  assert_int_equal(try_with_fault(&judged, book, 0, &expected), true);
  assert_int_not_equal(expected, 0);
  for (long n = 1; n < MOST && done < BEYOND; n++) {
    if (try_with_fault(&judged, book, n, &flagged)) {
      assert_int_equal(flagged, expected);
      done++;
    } else {
      failed++;
    }
  }
  assert_int_equal(done, BEYOND);
  assert_in_range(failed, 1, MOST);
  judged_free(&judged);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(every_allocation_of_a_trial_fails_once)};
  return cmocka_run_group_tests_name("fault/trial", tests, NULL, NULL);
}
