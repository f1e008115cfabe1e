// SPDX-License-Identifier: MIT
// What the files of this folder share and nobody else includes.
#ifndef FOREBAY_RULEBOOK_INSIDE_H
#define FOREBAY_RULEBOOK_INSIDE_H

#include "design/places.h"
#include "rulebook/path.h"
#include "rulebook/rulebook.h"
#include "rulebook/value.h"
#include "script/call.h"

enum { NO_REF = -2 };  // LUA_NOREF

struct rule_file {
  const char *name, *layer, *discipline;
  const struct places *places;
  size_t first_problem, problem_count;  // that finding the places brought up
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
  enum severity severity;                               // where a limit or a finding names none
  bool by_severity;                                     // every limit says its own severity
  int when_function, check, fix, limit_own, limit_now;  // registry references or NO_REF
  const struct value *examples;
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
  struct rule **rules;
  size_t rule_count, rule_room;
  struct change *changes;
  size_t change_count, change_room;
  struct rule_facts *facts;  // in force, after rulebook_finish
  struct rule **in_force;    // in the same order
  size_t fact_count;
  struct retired_rule *retired;
  size_t retired_count;
  int pending, entity_meta;  // registry: what the file that loads has said so far; of entities
  uint32_t generation;
  struct run *run;  // while a rule runs
};

// Reading one rule or change: where complaints go. key NULL: the rule as a whole.
struct reading_rule {
  struct rulebook *book;
  struct arena *arena;
  struct problems *problems;
  struct rule_file *file;
  const char *verb, *id;
  struct rule *rule;  // is marked as broken by the first complaint; NULL: none
  bool wrong;
};
void complain(struct reading_rule *at, int line, const char *key, const char *said, const char *read,
              const char *right);
const char *phrase(struct arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));
const char *nearest_phrase(struct arena *arena, const char *written, const char *const *words, size_t count);
// A text of its own: trimmed, not empty; NULL with a complaint otherwise.
const char *text_of(struct reading_rule *at, const struct value *value);

// read_rule.c, read_when.c
void read_rule(struct rulebook *book, struct rule_file *file, const char *id, const struct value *table, int line);
void read_when(struct reading_rule *at, struct rule *rule, const struct value *when);
bool read_severity(const char *word, enum severity *severity);
bool read_words(struct reading_rule *at, const struct path *path, const char *key, const struct value *value,
                const char *const **words, size_t *count);

// fix.c: the fix in words; NULL with a complaint. system: for values that a function worked out.
const char *read_fix(struct reading_rule *at, const struct rule *rule, const struct value *fix,
                     enum unit_system system);

// limits.c
struct limit *add_limit(struct arena *arena, struct limits *limits);
// at_least, at_most, within, is of a rule or an adjust. True: key was one of them.
bool read_bound(struct reading_rule *at, const struct rule *rule, const struct value *value, struct limits *limits);
void read_named_limits(struct reading_rule *at, enum severity plain, const struct value *table, struct limits *limits);
void check_limits(struct reading_rule *at, const struct limits *limits, int line);
enum severity worst_severity(const struct limits *limits, enum severity plain);
// The table that a rule's functions are given: a registry reference.
int push_limit_table(struct rulebook *book, const struct limits *limits);

// layer.c
void apply_changes(struct rulebook *book);

// words.c, entity.c
void set_words(lua_State *L, struct rulebook *book, int environment);
bool is_finding(lua_State *L, int index, int *comparison);
void open_entities(lua_State *L, struct rulebook *book);
void push_entity(lua_State *L, struct rulebook *book, int entity);

// judge.c: one rule on one entity.
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
  bool exhausted;       // an arena ran out
};
void judge_rule(struct run *run, struct outcome *outcome);
// A function of the rule called with the entity and the limits; its one result stays on the stack. False: nothing does.
bool call_rule(struct run *run, int function, struct script_failure *failure);
// What a rule's fix function says of a flagged outcome, or why it cannot.
const char *worked_out_fix(struct run *run);
const char *failure_words(struct run *run, const struct script_failure *failure);
// A number with the largest elevation behind it; NaN when there is none.
double read_scaled(struct run *run, int entity, enum row_id row, double *scale);
// Adds the comparison of a value with a limit; its index.
int add_bound(struct run *run, struct comparison start, double scale);
int add_comparison(struct run *run, struct comparison comparison);

// example.c
struct example {
  struct arena *arena;
  struct store *store;
  struct problems problems;
  uint64_t kinds;
  int entity;  // the one to judge; -1: none of the rule's kinds
};
bool build_example(struct example *example, const struct rule *rule, const struct value *table, const char *file);

#endif
