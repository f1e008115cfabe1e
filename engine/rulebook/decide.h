// SPDX-License-Identifier: MIT
// Inside of layer.c: keeping what a change decides, before it is put in force.
#ifndef FOREBAY_RULEBOOK_DECIDE_H
#define FOREBAY_RULEBOOK_DECIDE_H

#include "rulebook/decision.h"
#include "rulebook/rule.h"

struct deciding {
  struct rulebook *book;
  const struct rule *rule;  // as it is until then
  const struct change *change;
  const char *because;
};

void decide_limits(const struct deciding *deciding, const struct limits *with);
void decide_severity(const struct deciding *deciding, enum severity severity, struct place at);
void decide_retired(const struct deciding *deciding);
void decide_back(const struct deciding *deciding);
void decide_finish(struct rulebook *book);

// Whether `with` asks for less than the limits of the same names in `had`, or cannot be held against them.
bool limits_soften(const struct limits *had, const struct limits *with);

#endif
