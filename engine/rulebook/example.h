// SPDX-License-Identifier: MIT
// A rule's example as a small design.
#ifndef FOREBAY_RULEBOOK_EXAMPLE_H
#define FOREBAY_RULEBOOK_EXAMPLE_H

#include "rulebook/rule.h"

struct example {
  struct arena *arena;
  struct store *store;
  struct problems problems;
  uint64_t kinds;
  int entity;  // the one to judge; -1: none of the rule's kinds
};
bool example_build(struct example *example, const struct rule *rule, const struct value *table, const char *file);
// Takes a rule's examples out of Lua, which reading it left there; once. NULL: done; else why they cannot be used.
const char *examples_take(struct rulebook *book, struct rule *rule);

// What a table is that a reference to these kinds holds: the first that has all that is stated; else the first of all.
enum kind example_kind_for(uint64_t targets, const struct value *fields);

#endif
