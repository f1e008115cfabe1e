// SPDX-License-Identifier: MIT
// One small design and what a rule says of it, in an arena of its own.
#ifndef FOREBAY_RULEBOOK_TRIAL_H
#define FOREBAY_RULEBOOK_TRIAL_H

#include "rulebook/example.h"
#include "rulebook/run.h"

struct trials {
  struct rulebook *book;
  struct arena *owner;  // gives up when a trial runs out of memory
  struct arena **held;  // the arena of the trial that runs: freed with the owner when a jump leaves the trial
};
struct trials trials_in(struct rulebook *book, struct arena *owner);

struct trial {
  struct trials *trials;
  const struct rule *rule;
  const struct value *table;
  const struct limits *limits;
  int limit_table;
  void (*then)(struct trial *trial);  // told when it was judged or could not be built; all below lives until it returns
  struct arena *arena;
  struct example example;
  struct evaluation *ev;
  struct problems problems;
  struct outcome outcome;
  bool built;
};
void trial_run(struct trial *trial);

// Of an example's table. NULL: it has none.
const char *trial_name(const struct value *table);
const char *trial_expected(const struct value *table);  // one of the outcomes that can be expected, or NULL
const char *trial_outcome(const struct trial *trial);   // in words
bool trial_as_expected(const struct trial *trial);
// "is clear, and flagged was expected": in the trial's arena. unbuilt: what is wrong with the example, a line each.
const char *trial_surprise(struct trial *trial, const char *expected);
const char *trial_unbuilt(struct trial *trial);

// Whether a rule's examples need one that stands at the limit.
bool trial_wants_limit(const struct rule *rule);

#endif
