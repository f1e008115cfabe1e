// SPDX-License-Identifier: MIT
// What of a rule its examples reach: lines of its functions, and the limits that they read.
#ifndef FOREBAY_RULEBOOK_COVERAGE_H
#define FOREBAY_RULEBOOK_COVERAGE_H

#include "rulebook/rule.h"

enum { COVERAGE_FUNCTIONS = 64 };

struct function_lines {
  int first, last;
};

struct coverage {
  const struct rule *rule;
  int line_count;                                       // of the rule's file
  bool *can, *ran;                                      // by line: something stands there that can run; it did
  bool *limit_read;                                     // for each of rule->own
  int limit_table;                                      // to run the rule with; NO_REF: it has no function
  struct function_lines functions[COVERAGE_FUNCTIONS];  // when, check, fix; then those inside them that ran
  size_t function_count;
};

struct coverage *coverage_of(struct rulebook *book, const struct rule *rule);  // in the rulebook's arena
// What runs between these counts.
void coverage_begin(struct rulebook *book, struct coverage *coverage);
void coverage_end(struct rulebook *book);

#endif
