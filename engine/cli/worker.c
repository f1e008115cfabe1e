// SPDX-License-Identifier: MIT
#define _GNU_SOURCE  // pipe2
#include "cli/worker.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { TICK_MS = 20, ANSWER_MOST = 64 << 20, LAST_WORDS_MOST = 64 << 10 };

struct watched {  // a running child, seen from the parent
  struct arena *arena;
  struct worker_outcome *outcome;
  const struct worker_clock *clock;
  struct whereabouts *page;
  pid_t pid;
  int frames, words;  // read ends; -1: at their end
  struct frame_reader reader;
  struct timespec last;
  long long cpu_ms;        // processor time that it had used when last seen
  unsigned count;          // of the page, when last seen
  unsigned here_quarters;  // how long that has been the same, in quarters of a millisecond
  unsigned share, of;      // of the work
  bool ended;              // by us
};

struct worker_clock worker_clock_usual(void) {
  const unsigned slower = SEAL_EMPTY ? 3 : 1;
  return (struct worker_clock){.rule_ms = 2000 * slower, .file_ms = 2000 * slower, .run_ms = 20000 * slower};
}

// ---- the child -----------------------------------------------------------------------------------------------------

// Ends through exit, so that a sanitizer's leak check runs; a leak makes the exit status other than 0.
static _Noreturn void be_child(struct watched *watched, int frames, int words, pid_t parent, worker_work *work,
                               void *with) {
  prctl(PR_SET_PDEATHSIG, SIGKILL);
  if (getppid() != parent) _exit(3);
  signal(SIGPIPE, SIG_IGN);
  if (!seal_descriptors(frames, words)) _exit(3);
  struct child child = {
      .out = {.to = SEAL_FRAMES_FD}, .page = watched->page, .share = watched->share, .of = watched->of};
  seal_close(&child.seal, watched->clock->run_ms / 1000 + 5);
  int status = work(&child, with);
  whereabouts_set(watched->page, AT_REST, NULL, NULL);
  frame_end(&child.out, status);
  close(SEAL_FRAMES_FD);
  exit(child.out.failed ? 3 : 0);
}

// ---- the parent ----------------------------------------------------------------------------------------------------

static unsigned limit_here(const struct watched *watched) {
  struct whereabouts_note *note = &watched->outcome->note;
  const unsigned limits[AT_KINDS] = {
      [AT_START] = watched->clock->file_ms,     [AT_DESIGN] = watched->clock->file_ms,
      [AT_RULE_FILE] = watched->clock->file_ms, [AT_RULE] = watched->clock->rule_ms,
      [AT_REST] = watched->clock->run_ms,
  };
  return limits[note->kind];
}

static void end_child(struct watched *watched, enum worker_end end) {
  kill(watched->pid, SIGKILL);
  watched->ended = true;
  watched->outcome->end = end;
}

static long long to_ms(const struct timespec *t) { return t->tv_sec * 1000LL + t->tv_nsec / 1000000; }

// Time in which this process was itself stopped or starved is not held against the child: a step counts four ticks at
// most.
static unsigned step_ms(struct watched *watched) {
  struct timespec now;
  clock_gettime(CLOCK_MONOTONIC, &now);
  long long ms = to_ms(&now) - to_ms(&watched->last);
  if (ms > 0) watched->last = now;
  return ms > 4 * TICK_MS ? 4 * TICK_MS : ms > 0 ? (unsigned)ms : 0;
}

// On a busy machine a rule must not break for being given too little of it: what counts is the processor's time, or a
// quarter of the clock's for a child that only waits.
static unsigned step_here_quarters(struct watched *watched, unsigned step) {
  clockid_t clock;
  struct timespec used;
  if (clock_getcpuclockid(watched->pid, &clock) != 0 || clock_gettime(clock, &used) != 0) return step;
  long long quarters = 4 * (to_ms(&used) - watched->cpu_ms);
  watched->cpu_ms = to_ms(&used);
  return quarters > step ? (unsigned)quarters : step;
}

static void keep_the_clock(struct watched *watched) {
  unsigned step = step_ms(watched), count = whereabouts_count(watched->page);
  unsigned here = step_here_quarters(watched, step);
  watched->outcome->spent_ms += step;
  watched->here_quarters = count == watched->count ? watched->here_quarters + here : 0;
  watched->count = count;
  if (watched->ended) return;
  whereabouts_read(watched->page, &watched->outcome->note);
  bool still_here = whereabouts_count(watched->page) == count;
  if (watched->outcome->spent_ms > watched->clock->run_ms) {
    end_child(watched, WORKER_RUN_SLOW);
  } else if (still_here && watched->here_quarters / 4 > limit_here(watched)) {
    end_child(watched, WORKER_RULE_SLOW);
  }
}

static void take_frames(struct watched *watched, const char *bytes, size_t length) {
  if (frame_feed(&watched->reader, bytes, length) == FRAME_BAD && !watched->ended) end_child(watched, WORKER_FAULT);
}

static void take_words(struct watched *watched, const char *bytes, size_t length) {
  size_t room = LAST_WORDS_MOST - watched->outcome->last_words.length;
  text_add_bytes(&watched->outcome->last_words, bytes, length < room ? length : room);
}

// Reads what is there; the descriptor becomes -1 at its end.
static void take_from(struct watched *watched, int *from, void take(struct watched *, const char *, size_t)) {
  char bytes[1 << 14];
  ssize_t got = read(*from, bytes, sizeof bytes);
  if (got < 0 && (errno == EINTR || errno == EAGAIN)) return;
  if (got > 0) {
    take(watched, bytes, (size_t)got);
    return;
  }
  close(*from);
  *from = -1;
}

// The descriptors of all children that are not at their end, a pair for each.
static bool anything_open(const struct watched *all, unsigned count, struct pollfd *pairs) {
  bool open = false;
  for (unsigned i = 0; i < count; i++) {
    pairs[2 * i] = (struct pollfd){.fd = all[i].frames, .events = POLLIN};
    pairs[2 * i + 1] = (struct pollfd){.fd = all[i].words, .events = POLLIN};
    open = open || all[i].frames >= 0 || all[i].words >= 0;
  }
  return open;
}

static void listen_to(struct watched *all, unsigned count, struct pollfd *pairs) {
  while (anything_open(all, count, pairs)) {
    int ready = poll(pairs, 2 * count, TICK_MS);
    for (unsigned i = 0; i < count; i++) {
      if (all[i].frames >= 0 || all[i].words >= 0) keep_the_clock(&all[i]);
      if (ready <= 0) continue;
      if (pairs[2 * i].revents) take_from(&all[i], &all[i].frames, take_frames);
      if (pairs[2 * i + 1].revents) take_from(&all[i], &all[i].words, take_words);
    }
  }
}

// A child may close its pipes and stay: the clock goes on until it has ended.
static int await_end(struct watched *watched) {
  int how = 0;
  for (;;) {
    pid_t got = waitpid(watched->pid, &how, WNOHANG);
    if (got == watched->pid) return how;
    if (got < 0 && errno != EINTR) return W_EXITCODE(3, 0);
    nanosleep(&(struct timespec){.tv_nsec = 1000000}, NULL);
    keep_the_clock(watched);
  }
}

static void judge_end(struct watched *watched, int how) {
  struct worker_outcome *outcome = watched->outcome;
  whereabouts_read(watched->page, &outcome->note);
  enum frame_state state = frame_close(&watched->reader);
  if (watched->ended && outcome->end != WORKER_FAULT) return;
  if (!watched->ended && WIFSIGNALED(how)) {
    outcome->signal = WTERMSIG(how);
    outcome->end = outcome->signal == SIGXCPU ? WORKER_RUN_SLOW : WORKER_DIED;
    return;
  }
  bool good = state == FRAME_WHOLE && WIFEXITED(how) && WEXITSTATUS(how) == 0;
  outcome->end = good ? WORKER_DONE : WORKER_FAULT;
  outcome->why = watched->reader.why ? watched->reader.why : "an exit status of its own";
  outcome->status = watched->reader.status;
  outcome->result = watched->reader.result;
  outcome->diagnostics = watched->reader.diagnostics;
}

// What must be undone whatever happens, also when memory runs out in the parent.
static void put_away(void *what) {
  struct watched *watched = what;
  if (watched->pid > 0) {
    kill(watched->pid, SIGKILL);
    while (waitpid(watched->pid, NULL, 0) < 0 && errno == EINTR) {
    }
  }
  watched->pid = 0;
  if (watched->frames >= 0) close(watched->frames);
  if (watched->words >= 0) close(watched->words);
  watched->frames = watched->words = -1;
  whereabouts_free(watched->page);
  watched->page = NULL;
}

static bool start(struct watched *watched, worker_work *work, void *with) {
  int frames[2], words[2];
  pid_t parent = getpid();
  watched->page = whereabouts_new();
  if (!watched->page || pipe2(frames, O_CLOEXEC) != 0) return false;
  watched->frames = frames[0];
  if (pipe2(words, O_CLOEXEC) != 0) {
    close(frames[1]);
    return false;
  }
  watched->words = words[0];
  fflush(NULL);  // or the child would write what is still in the buffers once more
  watched->pid = fork();
  if (watched->pid == 0) be_child(watched, frames[1], words[1], parent, work, with);
  close(frames[1]);
  close(words[1]);
  return watched->pid > 0;
}

static struct watched *watch(struct arena *arena, const struct worker_clock *clock, struct worker_outcome *outcomes,
                             unsigned count) {
  struct watched *all = arena_array(arena, count, sizeof *all);
  for (unsigned i = 0; i < count; i++) {
    outcomes[i] = (struct worker_outcome){.end = WORKER_NOT_STARTED, .last_words = text_in(arena)};
    all[i] = (struct watched){
        .arena = arena, .outcome = &outcomes[i], .clock = clock, .frames = -1, .words = -1, .share = i, .of = count};
    all[i].reader = frame_reader_in(arena, ANSWER_MOST);
    arena_at_free(arena, put_away, &all[i]);
  }
  return all;
}

static void end_all(struct watched *all, unsigned count) {
  for (unsigned i = 0; i < count; i++) {
    if (all[i].pid > 0) {
      int how = await_end(&all[i]);
      judge_end(&all[i], how);
      all[i].pid = 0;
    }
    put_away(&all[i]);
  }
}

void worker_run_all(struct arena *arena, worker_work *work, void *with, const struct worker_clock *clock,
                    struct worker_outcome *outcomes, unsigned count) {
  struct watched *all = watch(arena, clock, outcomes, count);
  struct pollfd *pairs = arena_array(arena, 2 * (size_t)count, sizeof *pairs);
  for (unsigned i = 0; i < count; i++) {
    if (!start(&all[i], work, with)) outcomes[i].error = errno;
    if (all[i].pid < 0) all[i].pid = 0;
    clock_gettime(CLOCK_MONOTONIC, &all[i].last);
  }
  listen_to(all, count, pairs);
  end_all(all, count);
}

void worker_run(struct arena *arena, worker_work *work, void *with, const struct worker_clock *clock,
                struct worker_outcome *outcome) {
  worker_run_all(arena, work, with, clock, outcome, 1);
}
