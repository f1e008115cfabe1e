// SPDX-License-Identifier: MIT
// All outcomes of one rulebook on one design, as plain data: what the rulebook's judge fills and the reports show.
// No Lua, no printing.
#ifndef FOREBAY_REVIEW_REVIEW_H
#define FOREBAY_REVIEW_REVIEW_H

#include "quantities/evaluate.h"

enum severity { SEVERITY_ADVISE, SEVERITY_REVISE, SEVERITY_HOLD, SEVERITY_COUNT };
enum stage {
  STAGE_LAYOUT,
  STAGE_DIG,
  STAGE_LINER,
  STAGE_STONE,
  STAGE_PLUMBING,
  STAGE_POWER,
  STAGE_FINISH,
  STAGE_WATER_UP,
  STAGE_COUNT
};
enum outcome_sort {
  OUTCOME_CLEAR,
  OUTCOME_FLAGGED,
  OUTCOME_UNANSWERED,
  OUTCOME_NOT_APPLICABLE,
  OUTCOME_BROKEN,
  OUTCOME_SORT_COUNT
};

const char *severity_name(enum severity severity);  // "hold"
const char *stage_name(enum stage stage);           // "water-up"

// A limit in force, and who set it.
struct rule_fixes;
struct rule_limit {
  const char *name;        // "at_least", "least" ...
  const char *text;        // as written: "40 gal/h/in"
  enum severity severity;  // which severity it brings, where limits differ by severity; else the rule's
  const char *layer;       // "trade", "house"
  struct place at;
};

// What a report may say of a rule. Owned by the rulebook.
struct rule_facts {
  const char *id, *title, *why, *source, *caution;  // caution NULL: none
  const char *discipline;                           // the rule file's name without folder and ending
  enum stage stage;
  enum severity severity;  // the worst it can give
  bool life_safety;
  uint64_t for_each;             // KIND_BITs; 0: the design as a whole
  const char *layer;             // who wrote it
  const char *adjusted_by;       // layer that changed it last, or NULL
  const char *because;           // the layer's reason, or NULL
  const char *try_words;         // the fix in words, or NULL
  const struct rule_fixes *fix;  // the same as data (rulebook/fix.h); NULL: none, or a function works it out
  const char *broken;            // why it cannot run at all, or NULL
  struct place at;
  const struct rule_limit *limits;
  size_t limit_count;
};

// What a rule asks of a value, and so on which side of its limit it is right. Where the value stands (below, at, above)
// is enum standing of units/compare.h, and says nothing of right or wrong.
enum sense { SENSE_AT_LEAST, SENSE_AT_MOST, SENSE_MUST, SENSE_IS, SENSE_COUNT };

// One comparison that a rule made, kept also when it was satisfied.
struct comparison {
  enum sense sense;
  bool satisfied;
  int entity;                // of the judged value, -1: not one value of the design
  enum row_id row;           // ROW_COUNT: not one value of the design
  enum dimension dimension;  // DIMENSION_COUNT: unnamed powers or words
  double value, limit;       // SI
  double margin;             // how far on the right side of the limit, in the value's unit; negative: short
  enum severity severity;    // what it brings when not satisfied
  const char *words;         // SENSE_MUST: the rule's words. SENSE_IS: the word found; NULL else
  const char *asked;         // SENSE_IS: the word or words asked
};

// Whether a finding counts. What is behind us was to be settled at a stage that the work has passed.
enum counting { COUNTS, ACCEPTED, BEHIND_US };

struct outcome {
  size_t rule;  // index into review.rules
  int entity;   // -1: the design as a whole
  enum outcome_sort sort;
  enum severity severity;  // flagged: what it brings; unanswered: the worst the rule can give
  bool counts_as_held;     // unanswered, and the rule can hold or is a matter of life safety
  enum counting counting;
  bool in_doubt;  // built on a value beyond its formula's tested range
  int judged;     // the comparison that decided it: index below, -1: none
  const struct comparison *comparisons;
  size_t comparison_count;
  const int *reads;  // slots read
  size_t read_count;
  const int *roots;  // unanswered: slots to fill
  size_t root_count;
  const char *try_words;         // flagged: a fix worked out for this entity; NULL: the rule's own words hold
  const struct rule_fixes *fix;  // the same as data; NULL: the rule's own holds
  const char *because;           // broken: what failed, with file:line; unanswered for another reason: which
};

// What became of an `accept` of the design.
enum acceptance_standing {
  ACCEPTANCE_ACCEPTED,  // the finding is there and does not count
  ACCEPTANCE_PASSED,    // counts again: the work has gone past up_to
  ACCEPTANCE_WORSE,     // counts again: the value is worse than what was accepted
  ACCEPTANCE_OPEN,      // nothing to accept yet: unanswered, or the rule is broken
  ACCEPTANCE_STALE,     // nothing flags any more
  ACCEPTANCE_WRONG,     // names what is not there, or may not be accepted; a problem says so
};
struct acceptance {
  int entity;  // the accept
  enum acceptance_standing standing;
  const struct outcome *outcome;  // NULL: none
  const char *id;                 // of the rule
};

// What a firm's layers make of a review that rests on the rules of the first layer.
struct firm_effect {
  bool known;                    // there are layers of a firm's
  const char *layer;             // the first one: "trade"
  size_t alone[SEVERITY_COUNT];  // findings by that one alone
  size_t added, taken, changed;  // findings that only the firm's layers bring; that they take away; of another severity
};

struct review {
  struct arena *arena;
  const struct store *design;
  struct evaluation *evaluation;
  const struct rule_facts *rules;
  size_t rule_count;
  const struct outcome *outcomes;  // by rule, then by entity in the order of the design
  size_t outcome_count;
  const struct problems *problems;  // found while working
  const struct problems *unusable;  // rule files or rules that could not be used
  size_t retired_count;
  enum stage come_to;  // how far the work has come; STAGE_COUNT: handed over. STAGE_LAYOUT: nothing is behind us
  const struct acceptance *acceptances;  // as written
  size_t acceptance_count, acceptances_wrong;
  const struct problems *acceptance_problems;  // NULL: nothing was decided
  struct firm_effect firm;
};

#endif
