// SPDX-License-Identifier: MIT
#include "rulebook/rejudge.h"

#include "rulebook/run.h"

struct rejudging {
  struct rulebook *book;
  const struct review *review;
  size_t count;
};

struct rejudging *rejudging_in(struct rulebook *book, struct review *review) {
  struct rejudging *rejudging = arena_alloc(review->arena, sizeof *rejudging);
  *rejudging = (struct rejudging){.book = book, .review = review};
  return rejudging;
}

bool rejudge_touched(struct rejudging *rejudging, size_t outcome) {
  const struct outcome *base = &rejudging->review->outcomes[outcome];
  for (size_t i = 0; i < base->read_count; i++) {
    if (trial_changed(rejudging->review->evaluation, base->reads[i])) return true;
  }
  return false;
}

// A run of its own for each: what a run keeps from one entity to the next would end with the trial.
void rejudge(struct rejudging *rejudging, size_t outcome, struct outcome *now) {
  const struct review *review = rejudging->review;
  const struct outcome *base = &review->outcomes[outcome];
  *now = *base;
  if (!rejudge_touched(rejudging, outcome)) return;
  const struct rule *rule = rejudging->book->in_force[base->rule];
  struct run run = {.book = rejudging->book,
                    .rule = rule,
                    .limits = &rule->now,
                    .limit_table = rule->limit_now,
                    .ev = review->evaluation,
                    .arena = review->arena,
                    .entity = base->entity};
  rejudging->book->generation++;  // what a rule could have kept of an earlier run is no entity any more
  rejudging->count++;
  *now = (struct outcome){.rule = base->rule, .entity = base->entity};
  run_judge(&run, now);
}

size_t rejudge_count(const struct rejudging *rejudging) { return rejudging->count; }
