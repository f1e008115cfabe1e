// SPDX-License-Identifier: MIT
// What the first layer (the trade's) says alone: the outcomes that are there already where nobody changed a rule, and
// those that a changed or retired rule gives as it was written.
#include <string.h>

#include "rulebook/limits.h"
#include "rulebook/run.h"

enum { NO_FINDING = -1 };

// What is accepted in the design, or behind us, counts by nobody's rules.
static int finding_of(const struct outcome *outcome) {
  if (outcome->counting != COUNTS) return NO_FINDING;
  if (outcome->sort == OUTCOME_FLAGGED) return (int)outcome->severity;
  return outcome->sort == OUTCOME_UNANSWERED && outcome->counts_as_held ? SEVERITY_HOLD : NO_FINDING;
}

struct alone {
  struct rulebook *book;
  struct review *review;
  struct rulebook_watch watch;
  struct firm_effect effect;
};

static bool is_first(const struct alone *alone, const char *layer) { return strcmp(layer, alone->effect.layer) == 0; }

static bool is_changed(const struct rulebook *book, const char *id) {
  for (size_t i = 0; i < book->decision_count; i++) {
    if (strcmp(book->decisions[i].rule, id) == 0 && decision_changes(&book->decisions[i])) return true;
  }
  return false;
}

static void compare_findings(struct firm_effect *effect, int by_first, int by_all) {
  if (by_first != NO_FINDING) effect->alone[by_first]++;
  if (by_first == by_all) return;
  effect->added += by_first == NO_FINDING;
  effect->taken += by_all == NO_FINDING;
  effect->changed += by_first != NO_FINDING && by_all != NO_FINDING;
}

// Outcomes of rules in force that the first layer wrote and nobody changed, and of rules that it did not write.
static void count_as_is(struct alone *alone) {
  const struct review *review = alone->review;
  for (size_t i = 0; i < review->outcome_count; i++) {
    const struct outcome *outcome = &review->outcomes[i];
    const struct rule_facts *rule = &review->rules[outcome->rule];
    bool first = is_first(alone, rule->layer);
    if (first && is_changed(alone->book, rule->id)) continue;
    compare_findings(&alone->effect, first ? finding_of(outcome) : NO_FINDING, finding_of(outcome));
  }
}

// NULL: retired, or without an outcome.
static const struct outcome *in_force(const struct alone *alone, const char *id, int entity) {
  for (size_t i = 0; i < alone->review->outcome_count; i++) {
    const struct outcome *outcome = &alone->review->outcomes[i];
    if (outcome->entity == entity && strcmp(alone->review->rules[outcome->rule].id, id) == 0) return outcome;
  }
  return NULL;
}

static void tell(const struct alone *alone, const char *id, int entity) {
  if (!alone->watch.tell) return;
  struct text name = text_in(alone->review->arena);
  store_describe_entity(&name, alone->review->design, entity);
  alone->watch.tell(alone->watch.with, id, text_end(&name));
}

static void judge_as_written(struct alone *alone, const struct rule *rule) {
  const struct store *design = alone->review->design;
  struct rule written = *rule;
  bool all = rule->by_severity && rule->judges.count > 0;
  written.severity = rule->severity_own;
  written.facts.severity = limits_worst(&rule->own, all ? SEVERITY_ADVISE : rule->severity_own);
  written.fix = NO_REF;
  struct run run = {.book = alone->book,
                    .rule = &written,
                    .limits = &rule->own,
                    .limit_table = rule->limit_own,
                    .ev = alone->review->evaluation,
                    .arena = alone->review->arena};
  for (size_t entity = 0; entity < design->entity_count && !run.stopped; entity++) {
    if (!kinds_hold(rule->kinds, design->entities[entity].kind)) continue;
    struct outcome outcome = {.entity = (int)entity};
    tell(alone, rule->facts.id, (int)entity);
    run.entity = (int)entity;
    run_judge(&run, &outcome);
    const struct outcome *now = in_force(alone, rule->facts.id, (int)entity);
    bool behind = rule->facts.stage < alone->review->come_to && !rule->facts.life_safety;
    outcome.counting = now ? now->counting : behind ? BEHIND_US : COUNTS;
    compare_findings(&alone->effect, finding_of(&outcome), now ? finding_of(now) : NO_FINDING);
  }
}

void rulebook_judge_alone(struct rulebook *book, struct review *review, struct rulebook_watch watch) {
  if (book->layer_count < 2) return;
  struct alone *alone = arena_alloc(review->arena, sizeof *alone);
  *alone = (struct alone){.book = book, .review = review, .watch = watch};
  alone->effect = (struct firm_effect){.known = true, .layer = book->first_layer};
  count_as_is(alone);
  for (size_t i = 0; i < book->rule_count; i++) {
    const struct rule *rule = book->rules[i];
    bool changed = is_first(alone, rule->facts.layer) && is_changed(book, rule->facts.id);
    if (changed && !rule->facts.broken) judge_as_written(alone, rule);
  }
  review->firm = alone->effect;
}
