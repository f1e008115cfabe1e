// SPDX-License-Identifier: MIT
#include "review/arrange.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"

static bool is_found(const struct outcome *outcome) {
  return outcome->sort == OUTCOME_FLAGGED || (outcome->sort == OUTCOME_UNANSWERED && outcome->counts_as_held);
}
static bool is_finding(const struct outcome *outcome) { return outcome->counting == COUNTS && is_found(outcome); }
static bool is_behind(const struct outcome *outcome) {
  return outcome->counting == BEHIND_US && (is_found(outcome) || outcome->sort == OUTCOME_UNANSWERED);
}

enum severity finding_severity(const struct outcome *finding) {
  return finding->sort == OUTCOME_UNANSWERED ? SEVERITY_HOLD : finding->severity;
}

// Settling a design adds what stands in each once, such as the prices; nobody wrote those, so they have no line.
static size_t count_entities(const struct store *design) {
  size_t count = 0;
  for (size_t i = 0; i < design->entity_count; i++) {
    count += !catalogue_kind(design->entities[i].kind)->part && design->entities[i].kind != KIND_accept &&
             design->entities[i].at.line > 0;
  }
  return count;
}

struct review_counts review_count(const struct review *review) {
  struct review_counts counts = {.rules = review->rule_count, .entities = count_entities(review->design)};
  for (size_t i = 0; i < review->rule_count; i++) counts.broken_rules += review->rules[i].broken != NULL;
  for (size_t i = 0; i < review->outcome_count; i++) {
    const struct outcome *outcome = &review->outcomes[i];
    counts.sorts[outcome->sort]++;
    bool held = is_found(outcome) && finding_severity(outcome) == SEVERITY_HOLD;
    counts.accepted += outcome->counting == ACCEPTED;
    counts.accepted_held += outcome->counting == ACCEPTED && held;
    counts.behind += is_behind(outcome);
    counts.behind_held += outcome->counting == BEHIND_US && held;
    counts.unanswered_behind += outcome->sort == OUTCOME_UNANSWERED && outcome->counting == BEHIND_US;
    if (!is_finding(outcome)) continue;
    counts.severities[finding_severity(outcome)]++;
    counts.unanswered_held += outcome->sort == OUTCOME_UNANSWERED;
  }
  return counts;
}

enum verdict review_verdict(const struct review *review) {
  struct review_counts counts = review_count(review);
  if (counts.severities[SEVERITY_HOLD] > 0) return VERDICT_HELD;
  if (counts.rules == counts.broken_rules) return VERDICT_NO_RULES;
  bool whole = counts.broken_rules == 0 && counts.sorts[OUTCOME_BROKEN] == 0 && review->unusable->count == 0 &&
               review->acceptances_wrong == 0;
  return whole ? VERDICT_NOTHING_HELD : VERDICT_INCOMPLETE;
}

// --- lists of outcomes

static bool is_unanswered_aside(const struct outcome *outcome) {
  return outcome->sort == OUTCOME_UNANSWERED && !outcome->counts_as_held && outcome->counting == COUNTS;
}
static bool is_broken(const struct outcome *outcome) { return outcome->sort == OUTCOME_BROKEN; }
static bool is_clear_in_doubt(const struct outcome *outcome) {
  return outcome->sort == OUTCOME_CLEAR && outcome->in_doubt;
}

static const struct outcome **pick(const struct review *review, bool (*wanted)(const struct outcome *), size_t *count) {
  const struct outcome **list = arena_array(review->arena, review->outcome_count, sizeof(struct outcome *));
  *count = 0;
  for (size_t i = 0; i < review->outcome_count; i++) {
    if (wanted(&review->outcomes[i])) list[(*count)++] = &review->outcomes[i];
  }
  return list;
}

const struct outcome **review_aside(const struct review *review, enum aside which, size_t *count) {
  static bool (*const wanted[])(const struct outcome *) = {
      [ASIDE_UNANSWERED] = is_unanswered_aside,
      [ASIDE_BROKEN] = is_broken,
      [ASIDE_IN_DOUBT] = is_clear_in_doubt,
      [ASIDE_BEHIND] = is_behind,
  };
  return pick(review, wanted[which], count);
}

// What a finding is sorted by. Its place in the review comes last, so that no two are equal and qsort, which is not
// stable, has no say.
struct finding_key {
  const struct outcome *outcome;
  enum stage stage;
  enum severity severity;
};

static int by_stage_and_severity(const void *a, const void *b) {
  const struct finding_key *one = a, *other = b;
  if (one->stage != other->stage) return one->stage < other->stage ? -1 : 1;
  if (one->severity != other->severity) return one->severity > other->severity ? -1 : 1;
  return one->outcome < other->outcome ? -1 : one->outcome > other->outcome;
}

const struct outcome **review_findings(const struct review *review, size_t *count) {
  const struct outcome **list = pick(review, is_finding, count);
  struct finding_key *keys = arena_array(review->arena, *count, sizeof *keys);
  for (size_t i = 0; i < *count; i++) {
    keys[i] = (struct finding_key){list[i], review->rules[list[i]->rule].stage, finding_severity(list[i])};
  }
  if (*count) qsort(keys, *count, sizeof *keys, by_stage_and_severity);
  for (size_t i = 0; i < *count; i++) list[i] = keys[i].outcome;
  return list;
}

static bool belongs(const struct outcome_group *group, const struct outcome *outcome) {
  return group->rule == outcome->rule && group->severity == finding_severity(outcome);
}

const struct outcome_group *review_groups(const struct review *review, const struct outcome *const *list, size_t length,
                                          size_t *count) {
  struct outcome_group *groups = arena_array(review->arena, length, sizeof *groups);
  bool *seen = arena_array(review->arena, review->rule_count, sizeof *seen);
  *count = 0;
  for (size_t i = 0; i < length; i++) {
    if (*count && belongs(&groups[*count - 1], list[i])) {
      groups[*count - 1].count++;
      continue;
    }
    groups[(*count)++] = (struct outcome_group){i, 1, list[i]->rule, finding_severity(list[i]), seen[list[i]->rule]};
    seen[list[i]->rule] = true;
  }
  return groups;
}

// Problems with a rule name it as `rule "id"`, or a part of it as `rule "id".at_least`.
bool review_explains(const struct review *review, const struct rule_facts *broken) {
  struct text name = text_in(review->arena);
  text_printf(&name, "rule \"%s\"", broken->id);
  for (size_t i = 0; i < review->unusable->count; i++) {
    const char *where = review->unusable->list[i].where;
    if (where && strncmp(where, text_end(&name), name.length) == 0) return true;
  }
  return false;
}

// --- what to answer first

static int most_awaited_first(const void *a, const void *b) {
  const struct awaited *one = a, *other = b;
  if (one->held != other->held) return one->held > other->held ? -1 : 1;
  if (one->waiting != other->waiting) return one->waiting > other->waiting ? -1 : 1;
  return one->slot < other->slot ? -1 : one->slot > other->slot;
}

static void await_roots(struct awaited *of_slot, const struct outcome *outcome) {
  if (outcome->sort != OUTCOME_UNANSWERED || outcome->counting != COUNTS) return;
  for (size_t r = 0; r < outcome->root_count; r++) {
    of_slot[outcome->roots[r]].waiting++;
    of_slot[outcome->roots[r]].held += outcome->counts_as_held;
  }
}

const struct awaited *review_awaited(const struct review *review, size_t *count) {
  size_t slots = review->design->slot_count;
  struct awaited *list = arena_array(review->arena, slots, sizeof *list);
  for (size_t i = 0; i < review->outcome_count; i++) await_roots(list, &review->outcomes[i]);
  *count = 0;
  for (size_t slot = 0; slot < slots; slot++) {
    struct awaited one = list[slot];
    one.slot = (int)slot;
    if (one.waiting) list[(*count)++] = one;
  }
  if (*count) qsort(list, *count, sizeof *list, most_awaited_first);
  return list;
}
