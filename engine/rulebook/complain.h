// SPDX-License-Identifier: MIT
// Reading one rule or change: where complaints go.
#ifndef FOREBAY_RULEBOOK_COMPLAIN_H
#define FOREBAY_RULEBOOK_COMPLAIN_H

#include "rulebook/rule.h"

struct reading_rule {
  struct rulebook *book;
  struct arena *arena;
  struct problems *problems;
  struct rule_file *file;
  const char *verb, *id;  // id NULL: of what has no name
  struct rule *rule;      // is marked as broken by the first complaint; NULL: none
  bool wrong;
};

// key NULL: the rule as a whole.
void rule_complain(struct reading_rule *at, int line, const char *key, const char *said, const char *read,
                   const char *right);
// "`flow`, if that is meant"; NULL when no word is near.
const char *rule_nearest(struct arena *arena, const char *written, const char *const *words, size_t count);
// A text of its own: trimmed, not empty; NULL with a complaint otherwise.
const char *rule_text(struct reading_rule *at, const struct value *value);

#endif
