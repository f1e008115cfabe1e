// SPDX-License-Identifier: MIT
// What layers decided about rules that stand already: each limit and severity set anew, each rule retired or taken
// back, with what was said before and by whom. In the order of the layers.
#ifndef FOREBAY_RULEBOOK_DECISION_H
#define FOREBAY_RULEBOOK_DECISION_H

#include "base/text.h"
#include "review/review.h"

struct rulebook;

enum decision_sort { DECISION_LIMIT, DECISION_SEVERITY, DECISION_RETIRED, DECISION_BACK };

struct decision {
  const char *rule, *title;
  enum decision_sort sort;
  const char *what;             // "at least", "least"; "severity"; NULL: the rule as a whole
  const char *written;          // what the rule's own layer wrote; NULL: the rule as a whole
  const char *from, *to;        // in force until then, and from then on; NULL: the rule as a whole
  const char *layer, *because;  // because NULL: no reason stated
  struct place at;
  const char *had_layer;  // who had set `from`
  struct place had_at;
  bool overrules;    // an earlier layer had changed it in another way: the later one holds
  bool stands;       // in force: no later layer decided otherwise
  bool life_safety;  // lives depend on the rule
  bool softer;       // than its own layer wrote it, or it cannot be told
};

const struct decision *rulebook_decisions(const struct rulebook *rulebook, size_t *count);

// Lives depend on the rule, and what is in force asks for less than was written.
static inline bool decision_softens(const struct decision *decision) {
  return decision->stands && decision->life_safety && decision->softer;
}

// In force, and not what the rule's own layer wrote.
bool decision_changes(const struct decision *decision);

// In words: "at least 18 in -> 20 in", "severity revise -> hold", "retired", "taken back".
void decision_write(struct text *text, const struct decision *decision);
// "house says 18 in (house.lua:10), crew says 24 in (crew.lua:4); the later one holds", of one that overrules.
void decision_write_dispute(struct text *text, const struct decision *decision);

#endif
