// SPDX-License-Identifier: MIT
// One small design and what a rule says of it, in an arena of its own.
#ifndef FOREBAY_RULEBOOK_EXAMPLE_RUN_H
#define FOREBAY_RULEBOOK_EXAMPLE_RUN_H

#include "rulebook/example.h"
#include "rulebook/run.h"

struct example_runs {
  struct rulebook *book;
  struct arena *owner;  // gives up when a run runs out of memory
  struct arena **held;  // the arena of the run that is on: freed with the owner when a jump leaves it
};
struct example_runs example_runs_in(struct rulebook *book, struct arena *owner);

struct example_run {
  struct example_runs *runs;
  const struct rule *rule;
  const struct value *table;
  const struct limits *limits;
  int limit_table;
  // Told when it was judged or could not be built; all below lives until it returns.
  void (*then)(struct example_run *tried);
  struct arena *arena;
  struct example example;
  struct evaluation *ev;
  struct problems problems;
  struct outcome outcome;
  bool built;
};
void example_run(struct example_run *tried);

// Of an example's table. NULL: it has none.
const char *example_run_name(const struct value *table);
const char *example_run_expected(const struct value *table);       // one of the outcomes that can be expected, or NULL
const char *example_run_outcome(const struct example_run *tried);  // in words
bool example_run_as_expected(const struct example_run *tried);
// "is clear, and flagged was expected": in its arena. unbuilt: what is wrong with the example, a line each.
const char *example_run_surprise(struct example_run *tried, const char *expected);
const char *example_run_unbuilt(struct example_run *tried);

// Whether a rule's examples need one that stands at the limit.
bool example_run_wants_limit(const struct rule *rule);

#endif
