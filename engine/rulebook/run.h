// SPDX-License-Identifier: MIT
// One rule on one entity, and what the rule's functions see and say while it runs.
//
// One arena serves a run: `arena` is also that of the evaluation, of the evaluation's problems and of the reader.
// run_judge asserts it. A function that Lua calls may allocate in it only by way of script_in_arena: memory that ran
// out leaves Lua by an error of Lua's own and not by a jump over it, and run_call goes on from there.
#ifndef FOREBAY_RULEBOOK_RUN_H
#define FOREBAY_RULEBOOK_RUN_H

#include "rulebook/rule.h"

struct run {
  struct rulebook *book;
  const struct rule *rule;
  const struct limits *limits;
  int limit_table;
  struct evaluation *ev;
  struct reader reader;
  struct arena *arena;
  int entity;
  struct comparison *comparisons;  // kept from run to run
  size_t count, room;
  int word_entity;  // where the last word that a function read comes from, for `is`
  enum row_id word_row;
  const char *word;
  const char *because;  // of what is missing, when no slot says it
  const char *stopped;  // the rule used up its budget on an earlier entity, with these words
};
void run_judge(struct run *run, struct outcome *outcome);
// judge_alone.c: what the first layer's rules say alone, after all outcomes are in.
void rulebook_judge_alone(struct rulebook *book, struct review *review, struct rulebook_watch watch);
// A function of the rule called with the entity and the limits; its one result stays on the stack. False: nothing does.
bool run_call(struct run *run, int function, struct script_failure *failure);
// What a rule's fix function says of a flagged outcome, or why it cannot.
const struct rule_fixes *run_fix(struct run *run);
const char *run_failure(struct run *run, const struct script_failure *failure);
// A number with the largest elevation behind it; NaN when there is none.
double run_read(struct run *run, int entity, enum row_id row, double *scale);
// Adds the comparison of a value with a limit; its index.
int run_add_bound(struct run *run, struct comparison start, double scale);
int run_add_comparison(struct run *run, struct comparison comparison);

// words.c, entity.c
void words_set(lua_State *L, struct rulebook *book, int environment);
bool words_finding(lua_State *L, int index, int *comparison);
void entity_open(lua_State *L, struct rulebook *book);
void entity_push(lua_State *L, struct rulebook *book, int entity);

#endif
