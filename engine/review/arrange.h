// SPDX-License-Identifier: MIT
// What a report shows, worked out of a finished review: counts, the verdict, the order of findings, what to answer
// first, what was assumed, the order list. All memory comes from the review's arena.
#ifndef FOREBAY_REVIEW_ARRANGE_H
#define FOREBAY_REVIEW_ARRANGE_H

#include "review/review.h"

struct review_counts {
  size_t rules, entities;  // entities: parts left out, and what nobody wrote
  size_t sorts[OUTCOME_SORT_COUNT];
  size_t severities[SEVERITY_COUNT];  // flagged outcomes by severity, and unanswered ones that count as held under hold
  size_t unanswered_held;
  size_t accepted, accepted_held, behind, behind_held;  // found, and not counted; those that would hold
  size_t unanswered_behind;                             // of the unanswered
  size_t broken_rules;                                  // rules that could not run at all
};
struct review_counts review_count(const struct review *review);

enum verdict { VERDICT_HELD, VERDICT_NO_RULES, VERDICT_INCOMPLETE, VERDICT_NOTHING_HELD };
enum verdict review_verdict(const struct review *review);

// Findings: flagged outcomes and unanswered ones that count as held; by stage, then severity (worst first), then rule
// and entity. Their numbers in the report are 1, 2, 3 ... in this order. Pointers into review->outcomes.
const struct outcome **review_findings(const struct review *review, size_t *count);
enum severity finding_severity(const struct outcome *finding);  // hold for what counts as held

// Outcomes of one rule that stand together: `count` of them from `first` on in a list of outcomes.
struct outcome_group {
  size_t first, count;
  size_t rule;
  enum severity severity;
  bool again;  // a group of this rule stands before it
};
const struct outcome_group *review_groups(const struct review *review, const struct outcome *const *list, size_t length,
                                          size_t *count);

// Outcomes of one sort that are no findings, as they stand in the review: unanswered without being held, broken, clear
// though a value is in doubt, found or unanswered at a stage that is behind us.
enum aside { ASIDE_UNANSWERED, ASIDE_BROKEN, ASIDE_IN_DOUBT, ASIDE_BEHIND };
const struct outcome **review_aside(const struct review *review, enum aside which, size_t *count);

// Whether what is wrong with a rule that cannot run is already among the review's unusable.
bool review_explains(const struct review *review, const struct rule_facts *broken);

// Slots to fill, each with how many unanswered outcomes wait for it; the one that holds most first, then the most
// awaited, then as designed.
struct awaited {
  int slot;
  size_t waiting, held;
};
const struct awaited *review_awaited(const struct review *review, size_t *count);

// The same given or measurement of several entities, asked for at once: the slots stand as in review_awaited, and an
// answer that waits for several of them counts once. Ordered by the same, and then by the first slot's place.
struct asked {
  const int *slots;
  size_t slot_count;
  size_t waiting, held;
};
const struct asked *review_asked(const struct review *review, size_t *count);

// Defaults that some rule or quantity read: slots, those of one row together, then as designed.
const int *review_defaults(const struct review *review, size_t *count);

// The order list: values of the design that are worth ordering or booking. Rows whose value is missing carry that.
struct takeoff_row {
  const char *what;  // "gravel", "soil to haul" ...
  int entity;
  enum row_id row;
  const int *roots;  // where the value is missing: slots to fill
  size_t root_count;
};
const struct takeoff_row *review_takeoff(const struct review *review, size_t *count);

// Cautions that this design calls for: short texts by hazard (drowning, electricity near water, excavation, lifting,
// falling stone, structures, dust), each only where the design has what brings it.
const char *const *review_cautions(const struct review *review, size_t *count);

#endif
