// SPDX-License-Identifier: MIT
// A rule, its limits and all rules together, as they are kept between reading and judging.
#ifndef FOREBAY_RULEBOOK_RULE_H
#define FOREBAY_RULEBOOK_RULE_H

#include "design/places.h"
#include "rulebook/decision.h"
#include "rulebook/path.h"
#include "rulebook/rulebook.h"
#include "rulebook/stock.h"
#include "rulebook/value.h"
#include "script/call.h"

enum { NO_REF = -2 };  // LUA_NOREF

struct rule_file {
  const char *name, *layer, *discipline;
  const struct places *places;
  size_t first_problem, problem_count;  // that finding the places brought up
  struct file_bytes bytes;              // borrowed: for as long as rules are checked
  bool usable;                          // it ran to its end
};

// One threshold. A data rule's: `value` in the judged dimension, or `words` for SENSE_IS. A function rule's: `powers`
// say what it is, or `words` hold a text that is no value.
struct limit {
  const char *name, *text;  // "at_least"; as written
  enum sense sense;
  enum severity severity;
  bool by_severity;  // written as { revise = ..., hold = ... }
  double value;
  struct powers powers;
  const char *const *words;
  size_t word_count;
  const char *layer;
  struct place at;
};

struct limits {
  struct limit *list;
  size_t count, room;
};

enum condition_sort { WHEN_WORD, WHEN_AT_LEAST, WHEN_AT_MOST };
struct requirement {  // one line of `when`
  struct path path;
  enum condition_sort sort;
  double bound;
  const char *text;
  const char *const *words;
  size_t word_count;
  int line;
};

struct rule {
  struct rule_facts facts;
  struct rule_file *file;
  uint64_t kinds;
  struct requirement *when;
  size_t when_count;
  struct path judges;                                   // data rules; count 0: a function rule
  struct limits own, now;                               // as its own layer wrote them; in force
  enum severity severity, severity_own;                 // where a limit or a finding names none: in force; as written
  bool by_severity;                                     // every limit says its own severity
  int when_function, check, fix, limit_own, limit_now;  // registry references or NO_REF
  const struct value *examples;                         // NULL until examples_take, or where there are none
  const struct value *examples_later;                   // still in Lua, as reviews do not ask for them
  const struct value *table;
  bool retired;
};

struct change {  // an adjust or a retire
  bool retires, spent;
  const char *id;
  const struct value *table;
  struct rule_file *file;
  int line;
};

struct rulebook {
  struct arena *arena;
  struct rulebook_budget budget;
  struct script *script;
  struct problems problems;
  struct rule_file *reading;  // while a file loads
  struct rule_file **files;   // in the order read
  size_t file_count, file_room;
  const char *first_layer, *last_layer;
  size_t layer_count;
  struct rule **rules;
  size_t rule_count, rule_room;
  struct change *changes;
  size_t change_count, change_room;
  struct rule_facts *facts;  // in force, after rulebook_finish
  struct rule **in_force;    // in the same order
  size_t fact_count;
  struct retired_rule *retired;
  size_t retired_count;
  struct decision *decisions;
  size_t decision_count, decision_room;
  struct stock stock;
  int pending, entity_meta;  // registry: what the file that loads has said so far; of entities
  uint32_t generation;
  struct run *run;  // while a rule runs
};

struct rule *rulebook_rule(const struct rulebook *book, const char *id);         // retired ones too; NULL: none
struct rule_facts *rulebook_facts(const struct rulebook *book, const char *id);  // in force; NULL: none

// layer.c
void rulebook_apply_changes(struct rulebook *book);

#endif
