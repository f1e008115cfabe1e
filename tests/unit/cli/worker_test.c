// SPDX-License-Identifier: MIT
#define _GNU_SOURCE
#include "cli/worker.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

static const struct worker_clock quick = {.rule_ms = 300, .file_ms = 200, .run_ms = 2000};

static int start(void **state) {
  *state = arena_new();
  return *state ? 0 : -1;
}

static int end(void **state) {
  arena_free(*state);
  return 0;
}

static struct worker_outcome run(void **state, worker_work *work) {
  struct worker_outcome outcome;
  worker_run(*state, work, NULL, &quick, &outcome);
  return outcome;
}

static void say(struct child *child, char type, const char *words) {
  frame_write(&child->out, type, words, strlen(words));
}

static _Noreturn void loop_for_ever(void) {
  for (volatile unsigned turns = 0;; turns++) continue;
}

static int work_well(struct child *child, void *with) {
  (void)with;
  char many[1000];
  memset(many, 'x', sizeof many);
  for (int i = 0; i < 1000; i++) frame_write(&child->out, FRAME_RESULT, many, sizeof many);
  say(child, FRAME_DIAGNOSTIC, "pond.lua:1: a word\n");
  return 2;
}

static void an_answer_comes_whole(void **state) {
  struct worker_outcome outcome = run(state, work_well);
  assert_int_equal(outcome.end, WORKER_DONE);
  assert_int_equal(outcome.status, 2);
  assert_int_equal(outcome.result.length, 1000000);
  assert_int_equal(strspn(outcome.result.at, "x"), 1000000);
  assert_string_equal(text_end(&outcome.diagnostics), "pond.lua:1: a word\n");
  assert_int_equal(outcome.last_words.length, 0);
}

static _Noreturn int stay_at_a_rule(struct child *child, void *with) {
  (void)with;
  whereabouts_set(child->page, AT_RULE_FILE, "rules/a.lua", NULL);
  whereabouts_set(child->page, AT_RULE, "easy", "spill \"a\"");
  whereabouts_set(child->page, AT_RULE, "stuck", "spill \"left lip\"");
  say(child, FRAME_RESULT, "half a report");
  loop_for_ever();
}

static void a_stuck_rule_is_ended_and_named(void **state) {
  struct worker_outcome outcome = run(state, stay_at_a_rule);
  assert_int_equal(outcome.end, WORKER_RULE_SLOW);
  assert_int_equal(outcome.note.kind, AT_RULE);
  assert_string_equal(outcome.note.name, "stuck");
  assert_string_equal(outcome.note.entity, "spill \"left lip\"");
  assert_int_equal(outcome.result.length, 0);
  assert_in_range(outcome.spent_ms, quick.rule_ms / 4, quick.run_ms);
}

static _Noreturn int stay_at_a_file(struct child *child, void *with) {
  (void)with;
  whereabouts_set(child->page, AT_RULE_FILE, "rules/a.lua", NULL);
  loop_for_ever();
}

static _Noreturn int stay_at_the_start(struct child *child, void *with) {
  (void)child, (void)with;
  loop_for_ever();
}

static void a_stuck_file_is_ended_and_named(void **state) {
  struct worker_outcome outcome = run(state, stay_at_a_file);
  assert_int_equal(outcome.end, WORKER_RULE_SLOW);
  assert_int_equal(outcome.note.kind, AT_RULE_FILE);
  assert_string_equal(outcome.note.name, "rules/a.lua");
  assert_string_equal(outcome.note.entity, "");
  assert_int_equal(run(state, stay_at_the_start).end, WORKER_RULE_SLOW);
}

static _Noreturn int wait_at_a_rule(struct child *child, void *with) {
  (void)with;
  whereabouts_set(child->page, AT_RULE, "waits", NULL);
  close(SEAL_FRAMES_FD);
  close(SEAL_WORDS_FD);
  loop_for_ever();
}

static void a_child_that_closes_its_pipes_and_stays_is_ended(void **state) {
  struct worker_outcome outcome = run(state, wait_at_a_rule);
  assert_int_equal(outcome.end, WORKER_RULE_SLOW);
  assert_string_equal(outcome.note.name, "waits");
}

static _Noreturn int move_on_for_ever(struct child *child, void *with) {
  (void)with;
  for (;;) whereabouts_set(child->page, AT_RULE, "one of many", "basin \"a\"");
}

static void many_quick_rules_end_with_the_run(void **state) {
  struct worker_outcome outcome = run(state, move_on_for_ever);
  assert_int_equal(outcome.end, WORKER_RUN_SLOW);
  assert_int_equal(outcome.note.kind, AT_RULE);
  assert_string_equal(outcome.note.name, "one of many");
  assert_in_range(outcome.spent_ms, quick.run_ms, 10 * quick.run_ms);  // looked at now and then, later when busy
}

static void busy_for_ms(long ms) {
  struct timespec from, now;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &from);
  do {
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  } while ((now.tv_sec - from.tv_sec) * 1000 + (now.tv_nsec - from.tv_nsec) / 1000000 < ms);
}

static int twelve_slow_rules(struct child *child, void *with) {
  (void)with;
  for (int i = 0; i < 12; i++) {
    whereabouts_set(child->page, AT_RULE, "slow", NULL);
    busy_for_ms(60);
  }
  return 0;
}

static void the_clock_begins_anew_with_each_rule(void **state) {
  // Room for a busy machine: the rule's clock counts its processor time, the run's clock what passes on the wall.
  const struct worker_clock patient = {.rule_ms = 300, .file_ms = 200, .run_ms = 60000};
  struct worker_outcome outcome;
  worker_run(*state, twelve_slow_rules, NULL, &patient, &outcome);
  assert_int_equal(outcome.end, WORKER_DONE);
  assert_in_range(outcome.spent_ms, 500, patient.run_ms);
}

static _Noreturn int die_in_a_rule(struct child *child, void *with) {
  (void)with;
  whereabouts_set(child->page, AT_RULE, "deadly", "pump \"p\"");
  say(child, FRAME_RESULT, "half a report");
  abort();
}

static void a_child_that_dies_is_named_with_its_signal(void **state) {
  struct worker_outcome outcome = run(state, die_in_a_rule);
  assert_int_equal(outcome.end, WORKER_DIED);
  assert_int_equal(outcome.signal, SIGABRT);
  assert_string_equal(outcome.note.name, "deadly");
  assert_string_equal(outcome.note.entity, "pump \"p\"");
  assert_int_equal(outcome.result.length, 0);
}

static _Noreturn int say_nothing_and_leave(struct child *child, void *with) {
  (void)child, (void)with;
  _exit(0);
}

static _Noreturn int leave_after_the_end(struct child *child, void *with) {
  (void)with;
  frame_end(&child->out, 0);
  _exit(7);
}

static _Noreturn int lie(struct child *child, void *with) {
  (void)with;
  frame_write_all(child->out.to, "R\377\377\377\377", 5);
  loop_for_ever();
}

static _Noreturn int speak_for_ever(struct child *child, void *with) {
  (void)with;
  static char many[FRAME_MOST];
  for (;;) frame_write(&child->out, FRAME_RESULT, many, sizeof many);
}

static void an_answer_that_is_not_whole_is_a_fault(void **state) {
  static const struct {
    worker_work *work;
    const char *why;
  } rows[] = {
      {say_nothing_and_leave, "an early end"},
      {leave_after_the_end, "an exit status of its own"},
      {lie, "a frame of a length that is never written"},
      {speak_for_ever, "more bytes than are accepted"},
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
    struct worker_outcome outcome = run(state, rows[i].work);
    assert_int_equal(outcome.end, WORKER_FAULT);
    assert_string_equal(outcome.why, rows[i].why);
  }
}

static int scream(struct child *child, void *with) {
  (void)child, (void)with;
  for (int i = 0; i < 20000; i++) frame_write_all(SEAL_WORDS_FD, "all is lost\n", 12);
  return 1;
}

static void last_words_are_kept_up_to_a_limit(void **state) {
  struct worker_outcome outcome = run(state, scream);
  assert_int_equal(outcome.end, WORKER_DONE);
  assert_int_equal(outcome.last_words.length, 64 << 10);
  assert_int_equal(strncmp(outcome.last_words.at, "all is lost\n", 12), 0);
}

static _Noreturn int write_a_wild_page(struct child *child, void *with) {
  (void)with;
  static char name[2 * WHEREABOUTS_NAME];
  memset(name, '\033', sizeof name - 1);
  whereabouts_set(child->page, (enum whereabouts_kind)77, name, "a\nb");
  memset(child->page, 0x1b, WHEREABOUTS_NAME + WHEREABOUTS_ENTITY);  // no closing NUL anywhere
  abort();
}

static void a_wild_page_is_read_tamely(void **state) {
  struct worker_outcome outcome = run(state, write_a_wild_page);
  assert_int_equal(outcome.end, WORKER_DIED);
  assert_int_equal(outcome.note.kind, AT_START);
  assert_int_equal(strspn(outcome.note.name, "?"), WHEREABOUTS_NAME - 1);
  assert_null(strchr(outcome.note.entity, '\033'));
}

static int open_descriptors(void) {
  int count = 0;
  for (int fd = 0; fd < 256; fd++) count += fcntl(fd, F_GETFD) >= 0;
  return count;
}

static void nothing_stays_behind(void **state) {
  int before = open_descriptors();
  run(state, work_well);
  run(state, stay_at_a_file);
  run(state, die_in_a_rule);
  run(state, lie);
  assert_int_equal(open_descriptors(), before);
  assert_int_equal(waitpid(-1, NULL, WNOHANG), -1);
  assert_int_equal(errno, ECHILD);
}

// With standard input, output and error closed, the pipes get the very numbers that they are to be moved to.
static void closed_standard_descriptors_do_no_harm(void **state) {
  pid_t middle = fork();
  if (middle == 0) {
    for (int fd = 0; fd <= 3; fd++) close(fd);
    struct worker_outcome outcome = run(state, work_well);
    _exit(outcome.end == WORKER_DONE && outcome.result.length == 1000000 ? 0 : 1);
  }
  int how = -1;
  assert_int_equal(waitpid(middle, &how, 0), middle);
  assert_int_equal(how, 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(an_answer_comes_whole, start, end),
      cmocka_unit_test_setup_teardown(a_stuck_rule_is_ended_and_named, start, end),
      cmocka_unit_test_setup_teardown(a_stuck_file_is_ended_and_named, start, end),
      cmocka_unit_test_setup_teardown(a_child_that_closes_its_pipes_and_stays_is_ended, start, end),
      cmocka_unit_test_setup_teardown(many_quick_rules_end_with_the_run, start, end),
      cmocka_unit_test_setup_teardown(the_clock_begins_anew_with_each_rule, start, end),
      cmocka_unit_test_setup_teardown(a_child_that_dies_is_named_with_its_signal, start, end),
      cmocka_unit_test_setup_teardown(an_answer_that_is_not_whole_is_a_fault, start, end),
      cmocka_unit_test_setup_teardown(last_words_are_kept_up_to_a_limit, start, end),
      cmocka_unit_test_setup_teardown(a_wild_page_is_read_tamely, start, end),
      cmocka_unit_test_setup_teardown(nothing_stays_behind, start, end),
      cmocka_unit_test_setup_teardown(closed_standard_descriptors_do_no_harm, start, end),
  };
  return cmocka_run_group_tests_name("cli/worker", tests, NULL, NULL);
}
