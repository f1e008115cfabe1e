// SPDX-License-Identifier: MIT
// From the tables of a rule file to rules: what each key takes.
#ifndef FOREBAY_RULEBOOK_READ_RULE_H
#define FOREBAY_RULEBOOK_READ_RULE_H

#include "rulebook/complain.h"
#include "rulebook/fix.h"
#include "units/unit.h"

void rule_read(struct rulebook *book, struct rule_file *file, const char *id, const struct value *table, int line);
bool rule_read_severity(const char *word, enum severity *severity);

// read_when.c
void rule_read_when(struct reading_rule *at, struct rule *rule, const struct value *when);

// limits.c: one word or a list of them, all known where the path ends.
bool rule_read_words(struct reading_rule *at, const struct path *path, const char *key, const struct value *value,
                     const char *const **words, size_t *count);

// fix.c: the fix as data and in words; NULL with a complaint. system: for values that a function worked out.
const struct rule_fixes *rule_read_fix(struct reading_rule *at, const struct rule *rule, const struct value *fix,
                                       enum unit_system system);

#endif
