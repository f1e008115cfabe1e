// SPDX-License-Identifier: MIT
#define _GNU_SOURCE  // close_range
#include "cli/seal.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <unistd.h>

#if !SEAL_EMPTY
#include <seccomp.h>
#endif

#define LENGTH(rows) (sizeof(rows) / sizeof *(rows))

static bool close_from(unsigned first) {
  if (close_range(first, UINT_MAX, 0) == 0) return true;
  // Kernels before 5.9 have no close_range.
  long most = sysconf(_SC_OPEN_MAX);
  for (int fd = (int)first; fd < (most > 0 ? most : 1024); fd++) close(fd);
  return true;
}

bool seal_descriptors(int frames, int words) {
  // Out of the way first: a pipe may have been given the number that the other one is to have.
  int high_frames = fcntl(frames, F_DUPFD, SEAL_FRAMES_FD + 1);
  int high_words = fcntl(words, F_DUPFD, SEAL_FRAMES_FD + 1);
  if (high_frames < 0 || high_words < 0) return false;
  if (dup2(high_frames, SEAL_FRAMES_FD) < 0 || dup2(high_words, SEAL_WORDS_FD) < 0) return false;
  close(STDIN_FILENO);
  close(STDOUT_FILENO);
  return close_from(SEAL_FRAMES_FD + 1);
}

#if SEAL_EMPTY

void seal_close(struct seal *seal, unsigned cpu_seconds) {
  (void)cpu_seconds;
  *seal = (struct seal){.descriptors = true};
}

#else

// The script states and the engine keep to ceilings of their own, far below; this is for what those do not count.
enum { ADDRESS_SPACE_MIB = 2048 };

static bool limit(int what, rlim_t most) {
  return setrlimit((__rlimit_resource_t)what, &(struct rlimit){most, most}) == 0;
}

static bool set_limits(unsigned cpu_seconds) {
  const struct {
    int what;
    rlim_t most;
  } rows[] = {
      {RLIMIT_CPU, cpu_seconds}, {RLIMIT_AS, (rlim_t)ADDRESS_SPACE_MIB << 20}, {RLIMIT_CORE, 0}, {RLIMIT_FSIZE, 0},
      {RLIMIT_NOFILE, 0},
  };
  bool all = true;
  for (size_t i = 0; i < LENGTH(rows); i++) all = limit(rows[i].what, rows[i].most) && all;
  return all;
}

// Whatever is in neither list is answered with EPERM: a library that tries to open a file goes on without it.
static const int killed[] = {
    SCMP_SYS(execve),  SCMP_SYS(execveat), SCMP_SYS(socket),           SCMP_SYS(socketpair),
    SCMP_SYS(connect), SCMP_SYS(bind),     SCMP_SYS(listen),           SCMP_SYS(accept),
    SCMP_SYS(accept4), SCMP_SYS(ptrace),   SCMP_SYS(process_vm_readv), SCMP_SYS(process_vm_writev),
    SCMP_SYS(bpf),     SCMP_SYS(keyctl),
};
static const int allowed[] = {
    SCMP_SYS(brk),    SCMP_SYS(munmap),       SCMP_SYS(mremap),        SCMP_SYS(madvise),
    SCMP_SYS(futex),  SCMP_SYS(rt_sigreturn), SCMP_SYS(sigaltstack),   SCMP_SYS(rt_sigprocmask),
    SCMP_SYS(exit),   SCMP_SYS(exit_group),   SCMP_SYS(clock_gettime), SCMP_SYS(restart_syscall),
    SCMP_SYS(getpid), SCMP_SYS(gettid),       SCMP_SYS(sched_yield),
};

static bool add_plain(scmp_filter_ctx filter) {
  int failed = 0;
  for (size_t i = 0; i < LENGTH(killed); i++) failed |= seccomp_rule_add(filter, SCMP_ACT_KILL_PROCESS, killed[i], 0);
  for (size_t i = 0; i < LENGTH(allowed); i++) failed |= seccomp_rule_add(filter, SCMP_ACT_ALLOW, allowed[i], 0);
  return failed == 0;
}

// Writing to the two pipes; memory that cannot be executed and is no file; abort, which signals only itself.
static bool add_narrow(scmp_filter_ctx filter) {
  const struct scmp_arg_cmp no_exec = {2, SCMP_CMP_MASKED_EQ, PROT_EXEC, 0};
  const struct {
    int call;
    unsigned count;
    struct scmp_arg_cmp when[2];
  } rows[] = {
      {SCMP_SYS(write), 1, {{0, SCMP_CMP_EQ, SEAL_WORDS_FD, 0}}},
      {SCMP_SYS(write), 1, {{0, SCMP_CMP_EQ, SEAL_FRAMES_FD, 0}}},
      {SCMP_SYS(close), 1, {{0, SCMP_CMP_LE, SEAL_FRAMES_FD, 0}}},
      {SCMP_SYS(mmap), 2, {no_exec, {3, SCMP_CMP_MASKED_EQ, MAP_ANONYMOUS, MAP_ANONYMOUS}}},
      {SCMP_SYS(mprotect), 1, {no_exec}},
      {SCMP_SYS(tgkill), 1, {{0, SCMP_CMP_EQ, (scmp_datum_t)getpid(), 0}}},
  };
  int failed = 0;
  for (size_t i = 0; i < LENGTH(rows); i++) {
    failed |= seccomp_rule_add_array(filter, SCMP_ACT_ALLOW, rows[i].call, rows[i].count, rows[i].when);
  }
  return failed == 0;
}

static bool load_filter(void) {
  scmp_filter_ctx filter = seccomp_init(SCMP_ACT_ERRNO(EPERM));
  if (!filter) return false;
  bool loaded = seccomp_attr_set(filter, SCMP_FLTATR_ACT_BADARCH, SCMP_ACT_KILL_PROCESS) == 0 && add_plain(filter) &&
                add_narrow(filter) && seccomp_load(filter) == 0;
  seccomp_release(filter);
  return loaded;
}

void seal_close(struct seal *seal, unsigned cpu_seconds) {
  *seal = (struct seal){.descriptors = true};
  seal->privileges = prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 && prctl(PR_SET_DUMPABLE, 0, 0, 0, 0) == 0;
  seal->limits = set_limits(cpu_seconds);
  seal->filter = load_filter();
}

#endif

bool seal_whole(const struct seal *seal) {
  return seal->descriptors && seal->limits && seal->privileges && seal->filter;
}

const char *seal_words(const struct seal *seal) {
  if (seal_whole(seal)) return "whole: no files, no network, no programs; limited memory and time";
  if (SEAL_EMPTY) return "none: this build is for tests";
  return seal->filter ? "in part: system calls are filtered, but not all limits could be set"
                      : "in part: memory and time are limited, but this machine filters no system calls";
}
