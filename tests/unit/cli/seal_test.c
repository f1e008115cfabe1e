// SPDX-License-Identifier: MIT
// Each thing that the seal forbids is tried in a sealed child, which answers with the error number that it got.
#define _GNU_SOURCE
#include "cli/seal.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/ptrace.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include "cli/worker.h"

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

static int start(void **state) {
  if (SEAL_EMPTY) return 0;
  *state = arena_new();
  return *state ? 0 : -1;
}

static int end(void **state) {
  arena_free(*state);
  return 0;
}

// ---- what is tried; returns 0 or -1 with errno, as the calls do ----------------------------------------------------

static long try_open_read(void) { return open("/dev/null", O_RDONLY); }
static long try_open_write(void) { return open("/tmp/forebay-seal-test", O_WRONLY | O_CREAT, 0600); }
static long try_unlink(void) { return unlink("/tmp/forebay-seal-test"); }
static long try_stat(void) {
  struct stat status;
  return stat("/", &status);
}
static long try_fork(void) { return fork(); }
static long try_read(void) { return read(SEAL_FRAMES_FD, (char[1]){0}, 1); }
static long try_write_elsewhere(void) { return write(7, "a", 1); }
static long try_duplicate(void) { return dup2(SEAL_FRAMES_FD, 1); }
static long try_kill_parent(void) { return kill(getppid(), 0); }
static long try_kill_all(void) { return kill(-1, 0); }
static long try_raise_limit(void) { return setrlimit(RLIMIT_NOFILE, &(struct rlimit){64, 64}); }
static long try_change_user(void) { return setuid(65534); }
static long try_executable_memory(void) {
  void *page = mmap(NULL, 4096, PROT_READ | PROT_WRITE | PROT_EXEC, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
  return page == MAP_FAILED ? -1 : 0;
}
static long try_make_executable(void) {
  void *page = mmap(NULL, 4096, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
  return page == MAP_FAILED ? 1 : mprotect(page, 4096, PROT_READ | PROT_EXEC);
}
static long try_socket(void) { return socket(AF_INET, SOCK_STREAM, 0); }
static long try_socket_pair(void) { return socketpair(AF_UNIX, SOCK_STREAM, 0, (int[2]){0}); }
static long try_exec(void) { return execl("/bin/true", "true", (char *)NULL); }
static long try_exec_at(void) { return syscall(SYS_execveat, AT_FDCWD, "/bin/true", NULL, NULL, 0); }
static long try_trace(void) { return ptrace(PTRACE_TRACEME, 0, NULL, NULL); }
static long try_read_parent(void) { return syscall(SYS_process_vm_readv, getppid(), NULL, 0, NULL, 0, 0); }
static long try_abort(void) { abort(); }
static long try_memory(void) {
  char *much = malloc(100 << 20);
  if (!much) return -1;
  memset(much, 1, 100 << 20);
  free(much);
  return 0;
}
static long try_too_much_memory(void) {
  void *volatile much = malloc((size_t)3 << 30);
  free(much);
  return much ? 0 : -1;
}

static int answer_with_errno(struct child *child, void *with) {
  long (*const *try)(void) = with;
  errno = 0;
  long got = (*try)();
  char digits[32];
  int length = snprintf(digits, sizeof digits, "%d", got < 0 ? errno : 0);
  frame_write(&child->out, FRAME_RESULT, digits, (size_t)length);
  return seal_whole(&child->seal) ? 0 : 3;
}

static void try_it(struct arena *arena, long try(void), struct worker_outcome *outcome) {
  const struct worker_clock clock = {.rule_ms = 5000, .file_ms = 5000, .run_ms = 10000};
  worker_run(arena, answer_with_errno, &try, &clock, outcome);
}

static void files_processes_and_powers_are_refused(void **state) {
  static const struct {
    const char *name;
    long (*try)(void);
    int error;
  } rows[] = {
      {"open", try_open_read, EPERM},
      {"create", try_open_write, EPERM},
      {"unlink", try_unlink, EPERM},
      {"stat", try_stat, EPERM},
      {"fork", try_fork, EPERM},
      {"read", try_read, EPERM},
      {"write elsewhere", try_write_elsewhere, EPERM},
      {"dup2", try_duplicate, EPERM},
      {"kill", try_kill_parent, EPERM},
      {"kill all", try_kill_all, EPERM},
      {"setrlimit", try_raise_limit, EPERM},
      {"setuid", try_change_user, EPERM},
      {"executable memory", try_executable_memory, EPERM},
      {"make executable", try_make_executable, EPERM},
      {"memory", try_memory, 0},
      {"too much memory", try_too_much_memory, ENOMEM},
  };
  if (SEAL_EMPTY) skip();
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
    struct worker_outcome outcome;
    char expected[64], got[64];
    try_it(*state, rows[i].try, &outcome);
    assert_int_equal(outcome.end, WORKER_DONE);
    assert_int_equal(outcome.status, 0);
    snprintf(expected, sizeof expected, "%s: %d", rows[i].name, rows[i].error);
    snprintf(got, sizeof got, "%s: %s", rows[i].name, text_end(&outcome.result));
    assert_string_equal(got, expected);
  }
}

static void programs_networks_and_tracing_end_the_child(void **state) {
  static const struct {
    const char *name;
    long (*try)(void);
    int signal;
  } rows[] = {
      {"socket", try_socket, SIGSYS}, {"socketpair", try_socket_pair, SIGSYS},
      {"exec", try_exec, SIGSYS},     {"execveat", try_exec_at, SIGSYS},
      {"ptrace", try_trace, SIGSYS},  {"process_vm_readv", try_read_parent, SIGSYS},
      {"abort", try_abort, SIGABRT},
  };
  if (SEAL_EMPTY) skip();
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
    struct worker_outcome outcome;
    char expected[64], got[64];
    try_it(*state, rows[i].try, &outcome);
    snprintf(expected, sizeof expected, "%s: %d %d", rows[i].name, WORKER_DIED, rows[i].signal);
    snprintf(got, sizeof got, "%s: %d %d", rows[i].name, (int)outcome.end, outcome.signal);
    assert_string_equal(got, expected);
  }
}

static void the_same_calls_work_without_the_seal(void **state) {
  // Or the refusals above would prove nothing.
  (void)state;
  long opened = try_open_read();
  assert_in_range(opened, 3, 1000);
  close((int)opened);
  long connected = try_socket();
  if (connected >= 0) close((int)connected);
  assert_int_equal(connected >= 0 || errno != EPERM, 1);
  assert_int_equal(try_stat(), 0);
  assert_int_equal(try_kill_parent(), 0);
}

static void only_the_two_pipes_stay_open(void **state) {
  (void)state;
  int frames[2], words[2], high = fcntl(0, F_DUPFD, 500);
  assert_int_equal(pipe(frames) | pipe(words), 0);
  pid_t child = fork();
  if (child == 0) {
    unsigned wrong = !seal_descriptors(frames[1], words[1]);
    for (int fd = 0; fd < 1024; fd++) {
      bool open = fcntl(fd, F_GETFD) >= 0, should = fd == SEAL_WORDS_FD || fd == SEAL_FRAMES_FD;
      wrong += open != should;
    }
    wrong += write(SEAL_FRAMES_FD, "f", 1) != 1 || write(SEAL_WORDS_FD, "w", 1) != 1;
    _exit(wrong > 0);
  }
  int how = -1;
  assert_int_equal(waitpid(child, &how, 0), child);
  assert_int_equal(how, 0);
  char got[2];
  assert_int_equal(read(frames[0], got, 1), 1);
  assert_int_equal(read(words[0], got + 1, 1), 1);
  assert_memory_equal(got, "fw", 2);
  for (int i = 0; i < 2; i++) close(frames[i]), close(words[i]);
  close(high);
}

static void the_words_say_what_held(void **state) {
  (void)state;
  struct seal none = {.descriptors = true}, part = {true, false, true, true}, whole = {true, true, true, true};
  assert_int_equal(seal_whole(&none), 0);
  assert_int_equal(seal_whole(&part), 0);
  assert_int_equal(seal_whole(&whole), 1);
  assert_int_equal(strncmp(seal_words(&whole), "whole", 5), 0);
  assert_int_equal(strncmp(seal_words(&none), SEAL_EMPTY ? "none" : "in part", 4), 0);
  assert_string_not_equal(seal_words(&none), seal_words(&whole));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(files_processes_and_powers_are_refused, start, end),
      cmocka_unit_test_setup_teardown(programs_networks_and_tracing_end_the_child, start, end),
      cmocka_unit_test(the_same_calls_work_without_the_seal),
      cmocka_unit_test(only_the_two_pipes_stay_open),
      cmocka_unit_test(the_words_say_what_held),
  };
  return cmocka_run_group_tests_name("cli/seal", tests, NULL, NULL);
}
