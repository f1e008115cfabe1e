// SPDX-License-Identifier: MIT
// Limits: read, held against one another, and handed to a rule's functions.
#ifndef FOREBAY_RULEBOOK_LIMITS_H
#define FOREBAY_RULEBOOK_LIMITS_H

#include "rulebook/complain.h"

struct limit *limits_add(struct arena *arena, struct limits *limits);
// at_least, at_most, within, is of a rule or an adjust. True: key was one of them.
bool limits_read_bound(struct reading_rule *at, const struct rule *rule, const struct value *value,
                       struct limits *limits);
void limits_read_named(struct reading_rule *at, enum severity plain, const struct value *table, struct limits *limits);
void limits_check(struct reading_rule *at, const struct limits *limits, int line);
enum severity limits_worst(const struct limits *limits, enum severity plain);
// The table that a rule's functions are given: a registry reference.
int limits_push_table(struct rulebook *book, const struct limits *limits);

#endif
