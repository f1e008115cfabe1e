// SPDX-License-Identifier: MIT
// What is set aside and tried again, with work that misbehaves by itself in place of strangers' rules.
#define _GNU_SOURCE
#include "cli/errand.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

static int start(void **state) {
  *state = arena_new();
  return *state ? 0 : -1;
}

static int end(void **state) {
  arena_free(*state);
  return 0;
}

static const struct settings settings;

struct attempt {
  struct errand errand;
  struct text result, diagnostics;
  int status;
};

static struct attempt attempt(struct arena *arena, errand_work *work) {
  struct attempt a = {
      .errand = errand_new(arena, &settings, work), .result = text_in(arena), .diagnostics = text_in(arena)};
  struct file_bytes *files = arena_array(arena, 3, sizeof *files);
  struct input_layer *layer = arena_alloc(arena, sizeof *layer);
  files[0] = (struct file_bytes){"trade/a.lua", "", 0};
  files[1] = (struct file_bytes){"trade/b.lua", "", 0};
  files[2] = (struct file_bytes){"trade/c.lua", "", 0};
  *layer = (struct input_layer){.name = "trade", .files = files, .count = 3};
  a.errand.inputs.layers = layer;
  a.errand.inputs.layer_count = 1;
  a.errand.clock = (struct worker_clock){.rule_ms = 200, .file_ms = 200, .run_ms = 2000};
  a.status = errand_attempts(&a.errand, &a.result, &a.diagnostics);
  return a;
}

static const char *said(const struct errand *errand, size_t index) {
  return index < errand->problems.count ? errand->problems.list[index].said : "(nothing)";
}

static bool is_broken(const struct errand *errand, const char *id) {
  for (size_t i = 0; i < errand->broken_count; i++) {
    if (strcmp(errand->broken[i].id, id) == 0) return true;
  }
  return false;
}

static void loop_for_ever(void) {
  for (volatile unsigned turns = 0;; turns++) continue;
}

static int answer(struct child *child, const char *words, int status) {
  frame_write(&child->out, FRAME_RESULT, words, strlen(words));
  return status;
}

// ---- work ----------------------------------------------------------------------------------------------------------

static int two_bad_rules(struct child *child, const struct errand *errand, fb_problems *problems) {
  (void)problems;
  whereabouts_set(child->page, AT_RULE, "stuck", "spill \"a\"");
  if (!is_broken(errand, "stuck")) loop_for_ever();
  whereabouts_set(child->page, AT_RULE, "deadly", "spill \"b\"");
  if (!is_broken(errand, "deadly")) abort();
  return answer(child, "the report\n", STATUS_HELD);
}

static void rules_that_hold_it_up_are_marked_and_the_rest_is_done(void **state) {
  struct attempt a = attempt(*state, two_bad_rules);
  assert_int_equal(a.status, STATUS_UNUSABLE);
  assert_string_equal(text_end(&a.result), "the report\n");
  assert_int_equal(a.errand.broken_count, 2);
  assert_string_equal(a.errand.broken[0].id, "stuck");
  assert_string_equal(a.errand.broken[0].because, "it took longer than 200 ms on spill \"a\" and was ended");
  assert_string_equal(a.errand.broken[1].id, "deadly");
  assert_string_equal(a.errand.broken[1].because, "the program stopped on spill \"b\": it gave up by itself");
  assert_int_equal(a.errand.problems.count, 2);
  assert_string_equal(a.errand.problems.list[0].where, "stuck");
}

static bool has_file(const struct errand *errand, const char *name) {
  for (size_t i = 0; i < errand->layers[0].count; i++) {
    if (strcmp(errand->layers[0].files[i].name, name) == 0) return true;
  }
  return false;
}

static int a_bad_file(struct child *child, const struct errand *errand, fb_problems *problems) {
  (void)problems;
  whereabouts_set(child->page, AT_RULE_FILE, "trade/b.lua", NULL);
  if (has_file(errand, "trade/b.lua")) loop_for_ever();
  return answer(child, has_file(errand, "trade/a.lua") && has_file(errand, "trade/c.lua") ? "both" : "lost",
                STATUS_CLEAR);
}

static void a_file_that_holds_it_up_is_left_out(void **state) {
  struct attempt a = attempt(*state, a_bad_file);
  assert_int_equal(a.status, STATUS_UNUSABLE);
  assert_string_equal(text_end(&a.result), "both");
  assert_int_equal(a.errand.inputs.whole, 0);
  assert_string_equal(a.errand.problems.list[0].at.file, "trade/b.lua");
  assert_string_equal(
      said(&a.errand, 0),
      "it took longer than 200 ms and was ended; this file is left out, and the rest was done without it");
}

static int a_bad_design(struct child *child, const struct errand *errand, fb_problems *problems) {
  (void)errand, (void)problems;
  whereabouts_set(child->page, AT_DESIGN, "pond.lua", NULL);
  loop_for_ever();
  return STATUS_CLEAR;
}

static int a_deadly_design(struct child *child, const struct errand *errand, fb_problems *problems) {
  (void)errand, (void)problems;
  whereabouts_set(child->page, AT_DESIGN, "pond.lua", NULL);
  abort();
}

static void a_design_cannot_be_left_out(void **state) {
  struct attempt slow = attempt(*state, a_bad_design), deadly = attempt(*state, a_deadly_design);
  assert_int_equal(slow.status, STATUS_UNUSABLE);
  assert_string_equal(slow.errand.problems.list[0].at.file, "pond.lua");
  assert_string_equal(said(&slow.errand, 0), "it took longer than 200 ms and was ended; the design cannot be used");
  assert_int_equal(deadly.status, STATUS_FAULT);
  assert_string_equal(said(&deadly.errand, 0),
                      "an internal fault: the work stopped: it gave up by itself; last at pond.lua");
}

static int a_rule_that_cannot_be_helped(struct child *child, const struct errand *errand, fb_problems *problems) {
  (void)errand, (void)problems;
  whereabouts_set(child->page, AT_RULE, "undying", NULL);
  abort();
}

static void a_rule_named_twice_ends_the_attempts(void **state) {
  struct attempt a = attempt(*state, a_rule_that_cannot_be_helped);
  assert_int_equal(a.status, STATUS_FAULT);
  assert_int_equal(a.errand.broken_count, 1);
  assert_int_equal(a.result.length, 0);
}

static int ever_another_rule(struct child *child, const struct errand *errand, fb_problems *problems) {
  (void)problems;
  const char name[] = {'r', (char)('a' + errand->broken_count), '\0'};
  whereabouts_set(child->page, AT_RULE, name, NULL);
  abort();
}

static int ever_another_stuck_rule(struct child *child, const struct errand *errand, fb_problems *problems) {
  (void)problems;
  const char name[] = {'r', (char)('a' + errand->broken_count), '\0'};
  whereabouts_set(child->page, AT_RULE, name, NULL);
  loop_for_ever();
  return STATUS_CLEAR;
}

static void the_attempts_come_to_an_end(void **state) {
  struct attempt deadly = attempt(*state, ever_another_rule), stuck = attempt(*state, ever_another_stuck_rule);
  assert_int_equal(deadly.status, STATUS_FAULT);
  assert_int_equal(deadly.errand.broken_count, RETRIES);
  assert_int_equal(stuck.status, STATUS_UNUSABLE);
  assert_in_range(stuck.errand.broken_count, 1, 10);  // 2 s in all, at least 200 ms each
  size_t last = stuck.errand.problems.count - 1;
  const char *words = "the work took longer than 2 s in all and was ended, last at r";
  assert_int_equal(strncmp(said(&stuck.errand, last), words, strlen(words)), 0);
}

static int a_wrong_file_name(struct child *child, const struct errand *errand, fb_problems *problems) {
  (void)errand, (void)problems;
  whereabouts_set(child->page, AT_RULE_FILE, "/etc/passwd", NULL);
  abort();
}

static int a_fault(struct child *child, const struct errand *errand, fb_problems *problems) {
  (void)errand, (void)problems;
  answer(child, "half", STATUS_CLEAR);
  _exit(0);
}

static void what_is_no_ones_is_an_internal_fault(void **state) {
  struct attempt wrong = attempt(*state, a_wrong_file_name), fault = attempt(*state, a_fault);
  assert_int_equal(wrong.status, STATUS_FAULT);
  assert_int_equal(fault.status, STATUS_FAULT);
  assert_int_equal(fault.result.length, 0);
  assert_string_equal(said(&fault.errand, 0), "an internal fault: the answer is not whole: an early end");
}

static int asks_for_status(struct child *child, const struct errand *errand, fb_problems *problems) {
  (void)errand, (void)problems;
  return answer(child, "", STATUS_HELD);
}

static void a_good_answer_keeps_its_status(void **state) {
  struct attempt a = attempt(*state, asks_for_status);
  assert_int_equal(a.status, STATUS_HELD);
  assert_int_equal(a.errand.problems.count, 0);
}

static void a_seal_that_is_asked_for_must_hold(void **state) {
  const struct settings strict = {.require_seal = true};
  struct errand errand = errand_new(*state, &strict, asks_for_status);
  struct text result = text_in(*state), diagnostics = text_in(*state);
  assert_int_equal(errand_attempts(&errand, &result, &diagnostics), SEAL_EMPTY ? STATUS_UNUSABLE : STATUS_HELD);
  assert_int_equal(strstr(text_end(&diagnostics), "--require-seal") != NULL, SEAL_EMPTY);
}

struct whole_run {
  struct arena *arena;
  int status;
};

static void run_once(void *with) {
  struct whole_run *whole = with;
  whole->status = attempt(whole->arena, asks_for_status).status;
}

// The n-th allocation fails, in the parent or (it inherits the count) in the child, until there are fewer than n.
static void memory_that_runs_out_leaves_no_child_and_no_half_answer(void **state) {
  (void)state;
  bool done = false, ran_out = false;
  for (long n = 1; n < 500 && !(done && !ran_out); n++) {
    struct whole_run whole = {.arena = arena_new(), .status = -1};
    arena_fail_nth(n);
    done = arena_try(whole.arena, run_once, &whole);
    arena_fail_nth(0);
    ran_out = !done || whole.status == STATUS_FAULT;
    arena_free(whole.arena);
    if (done && !ran_out) assert_int_equal(whole.status, STATUS_HELD);
    assert_int_equal(waitpid(-1, NULL, WNOHANG), -1);
    assert_int_equal(errno, ECHILD);
  }
  assert_int_equal(done, 1);
  assert_int_equal(ran_out, 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(rules_that_hold_it_up_are_marked_and_the_rest_is_done, start, end),
      cmocka_unit_test_setup_teardown(a_file_that_holds_it_up_is_left_out, start, end),
      cmocka_unit_test_setup_teardown(a_design_cannot_be_left_out, start, end),
      cmocka_unit_test_setup_teardown(a_rule_named_twice_ends_the_attempts, start, end),
      cmocka_unit_test_setup_teardown(the_attempts_come_to_an_end, start, end),
      cmocka_unit_test_setup_teardown(what_is_no_ones_is_an_internal_fault, start, end),
      cmocka_unit_test_setup_teardown(a_good_answer_keeps_its_status, start, end),
      cmocka_unit_test(memory_that_runs_out_leaves_no_child_and_no_half_answer),
      cmocka_unit_test_setup_teardown(a_seal_that_is_asked_for_must_hold, start, end),
  };
  return cmocka_run_group_tests_name("cli/errand", tests, NULL, NULL);
}
