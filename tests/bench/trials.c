// SPDX-License-Identifier: MIT
#define _POSIX_C_SOURCE 200809L  // clock_gettime
// Trials beside a whole review of the same design, in one process: how much one changed given works out again, and how
// long that takes. Shares and ratios say more about the program than the microseconds do. Nothing here passes or fails
// by time. trials DESIGN RULES...
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "design/read.h"
#include "quantities/functions.h"
#include "rulebook/rejudge.h"

struct bench {
  struct arena *arena;
  struct problems problems;
  struct store *store;
  struct rulebook *book;
  struct review review;
  struct evaluation *ev;
  struct rejudging *rejudging;
  size_t quantities;
};

static double micros(void) {
  struct timespec now;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);  // of this process alone: others may be busy
  return (double)now.tv_sec * 1e6 + (double)now.tv_nsec * 1e-3;
}

static void evaluate(struct bench *bench, struct arena *arena) {
  bench->review = (struct review){.arena = arena};
  bench->problems = problems_in(arena);
  bench->ev = evaluation_in(arena, bench->store, &bench->problems);
  rulebook_judge(bench->book, bench->ev, &bench->review, (struct rulebook_watch){0});
}

static void work_out_all(struct bench *bench) {
  for (size_t i = 0; i < bench->store->slot_count; i++) {
    int entity;
    enum row_id row = store_row_of_slot(bench->store, (int)i, &entity);
    if (!row_function(row)) continue;
    evaluation_condition(bench->ev, entity, row);
    bench->quantities++;
  }
}

static double review_micros(const struct bench *bench, int rounds) {
  double from = micros();
  for (int i = 0; i < rounds; i++) {
    struct bench copy = *bench;
    struct arena *arena = arena_new();
    if (arena) evaluate(&copy, arena);
    arena_free(arena);
  }
  return (micros() - from) / rounds;
}

static void judge_again(struct bench *bench) {
  struct outcome now;
  for (size_t i = 0; i < bench->review.outcome_count; i++) rejudge(bench->rejudging, i, &now);
}

static void settle_all(struct bench *bench) {
  for (size_t i = 0; i < bench->store->slot_count; i++) trial_changed(bench->ev, (int)i);
}

// Every outcome of interest is asked anew, as a search for a fix does.
__attribute__((noinline)) static void try_and_judge(struct bench *bench, struct trial_change change) {
  trial_begin(bench->ev, &change, 1);
  judge_again(bench);
  trial_end(bench->ev);
}

// The flow of every pipe, and nothing else.
__attribute__((noinline)) static void try_and_solve(struct bench *bench, struct trial_change change) {
  trial_begin(bench->ev, &change, 1);
  for (size_t i = 0; i < store_count(bench->store, KIND_pipe); i++) {
    evaluation_number(bench->ev, store_of_kind(bench->store, KIND_pipe, i), ROW_pipe_flow);
  }
  trial_end(bench->ev);
}

static struct trial_change change_of(const struct bench *bench, int slot, int round) {
  return (struct trial_change){slot, bench->store->slots[slot].value * (round % 2 ? 0.9 : 0.95)};
}

static double each(struct bench *bench, int slot, int rounds, void (*try)(struct bench *, struct trial_change)) {
  double from = micros();
  for (int i = 0; i < rounds; i++) try(bench, change_of(bench, slot, i));
  return (micros() - from) / rounds;
}

static double percent(size_t part, size_t whole) { return 100.0 * (double)part / (double)whole; }

static void report(struct bench *bench, int entity, enum row_id row, double whole) {
  struct text name = text_in(bench->arena);
  int slot = store_slot(bench->store, entity, row);
  struct trial_change change = change_of(bench, slot, 1);
  store_describe(&name, bench->store, entity, row);
  trial_begin(bench->ev, &change, 1);
  size_t before = rejudge_count(bench->rejudging);
  judge_again(bench);
  size_t judged = rejudge_count(bench->rejudging) - before, for_rules = trial_worked_out(bench->ev);
  settle_all(bench);
  size_t worked = trial_worked_out(bench->ev);
  trial_end(bench->ev);
  printf("%s: works out %zu of %zu quantities again (%.1f %%; %zu of them for the rules)\n", text_end(&name), worked,
         bench->quantities, percent(worked, bench->quantities), for_rules);
  printf("  judges %zu of %zu outcomes again (%.1f %%)\n", judged, bench->review.outcome_count,
         percent(judged, bench->review.outcome_count));
  double judging = each(bench, slot, 100, try_and_judge), solving = each(bench, slot, 400, try_and_solve);
  printf("  a trial with all its outcomes %.0f us, %.3f of a review; with the flows of all pipes alone %.1f us\n",
         judging, judging / whole, solving);
}

static bool read_all(struct bench *bench, int count, char **names) {
  struct file_bytes file;
  if (!file_read(&bench->problems, names[0], 1 << 20, &file)) return false;
  bench->store = design_read(bench->arena, &file, &bench->problems);
  bench->book = rulebook_in(bench->arena, (struct rulebook_budget){0});
  for (int i = 1; i < count && bench->store; i++) {
    if (!file_read(&bench->problems, names[i], 1 << 20, &file)) return false;
    rulebook_read_file(bench->book, "trade", &file, &bench->problems);
  }
  rulebook_finish(bench->book, &bench->problems);
  return bench->store && bench->problems.count == 0;
}

static void report_first(struct bench *bench, enum kind kind, enum row_id row, double whole) {
  if (store_count(bench->store, kind)) report(bench, store_of_kind(bench->store, kind, 0), row, whole);
}

// For counting instructions: the first pump a little slower, a thousand times.
static void solve_often(struct bench *bench) {
  int slot = store_slot(bench->store, store_of_kind(bench->store, KIND_pump, 0), ROW_pump_speed);
  for (int i = 0; i < 1000; i++) try_and_solve(bench, change_of(bench, slot, i));
}

int main(int argc, char **argv) {
  bool counting = argc > 2 && strcmp(argv[1], "--solve") == 0;
  struct bench bench = {.arena = arena_new()};
  if (!bench.arena || argc < 2) return 2;
  bench.problems = problems_in(bench.arena);
  if (!read_all(&bench, argc - 1 - counting, argv + 1 + counting)) return 2;
  double whole = counting ? 0 : review_micros(&bench, 20);
  evaluate(&bench, bench.arena);
  work_out_all(&bench);
  bench.rejudging = rejudging_in(bench.book, &bench.review);
  if (counting) {
    solve_often(&bench);
    arena_free(bench.arena);
    return 0;
  }
  printf("a review, judged from nothing: %.0f us\n", whole);
  report_first(&bench, KIND_spill, ROW_spill_lip_width, whole);
  report_first(&bench, KIND_pump, ROW_pump_speed, whole);
  report_first(&bench, KIND_basin, ROW_basin_depth, whole);
  arena_free(bench.arena);
  return 0;
}
