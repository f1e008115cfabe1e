// SPDX-License-Identifier: MIT
#include "rulebook/decide.h"

#include <string.h>

const struct decision *rulebook_decisions(const struct rulebook *book, size_t *count) {
  *count = book->decision_count;
  return book->decisions;
}

static bool same(const char *a, const char *b) { return a == b || (a && b && strcmp(a, b) == 0); }

bool decision_changes(const struct decision *decision) {
  return decision->stands && (decision->sort == DECISION_RETIRED || !same(decision->written, decision->to));
}

// ---- in words ------------------------------------------------------------------------------------------------------

// `at_least` as it is said; of `within` its two ends stand in the value.
static const char *name_of(struct arena *arena, const char *name) {
  char *words = arena_copy(arena, name, strlen(name));
  for (char *c = words; *c; c++) {
    if (*c == '_') *c = ' ';
  }
  return words;
}

static const char *value_of(struct arena *arena, const struct limits *limits, const char *name) {
  struct text text = text_in(arena);
  for (size_t i = 0; i < limits->count; i++) {
    const struct limit *limit = &limits->list[i];
    if (strcmp(limit->name, name) != 0) continue;
    bool range = strcmp(name, "within") == 0;
    text_add(&text, text.length == 0 ? "" : range ? " to " : ", ");
    if (limit->by_severity) text_printf(&text, "%s ", severity_name(limit->severity));
    text_add(&text, limit->text ? limit->text : "?");
  }
  return text_end(&text);
}

static const struct limit *first_named(const struct limits *limits, const char *name) {
  for (size_t i = 0; i < limits->count; i++) {
    if (strcmp(limits->list[i].name, name) == 0) return &limits->list[i];
  }
  return NULL;
}

// ---- keeping -------------------------------------------------------------------------------------------------------

// The decision in force on the same matter; NULL: none but the rule's own.
static struct decision *standing(const struct deciding *d, enum decision_sort sort, const char *what) {
  for (size_t i = d->book->decision_count; i-- > 0;) {
    struct decision *it = &d->book->decisions[i];
    bool same_rule = strcmp(it->rule, d->rule->facts.id) == 0;
    if (same_rule && it->stands && it->sort == sort && same(it->what, what)) return it;
  }
  return NULL;
}

static struct decision start(const struct deciding *d, enum decision_sort sort, struct place at) {
  const struct rule_facts *facts = &d->rule->facts;
  return (struct decision){.rule = facts->id,
                           .title = facts->title,
                           .sort = sort,
                           .layer = d->change->file->layer,
                           .because = d->because,
                           .at = at,
                           .had_layer = facts->layer,
                           .had_at = facts->at,
                           .stands = true,
                           .life_safety = facts->life_safety};
}

static void add(const struct deciding *d, struct decision decision) {
  struct rulebook *book = d->book;
  book->decisions =
      arena_grow(book->arena, book->decisions, book->decision_count, &book->decision_room, sizeof *book->decisions);
  book->decisions[book->decision_count++] = decision;
}

// Takes the place of the one in force, and says so where that was another layer's and said otherwise.
static void take_over(const struct deciding *d, struct decision decision) {
  struct decision *had = standing(d, decision.sort, decision.what);
  if (had) {
    had->stands = false;
    decision.had_layer = had->layer;
    decision.had_at = had->at;
    decision.overrules = strcmp(had->layer, decision.layer) != 0 && !same(had->to, decision.to);
  }
  add(d, decision);
}

static struct limits named(struct arena *arena, const struct limits *limits, const char *name) {
  struct limits kept = {0};
  kept.list = arena_array(arena, limits->count + 1, sizeof *kept.list);
  for (size_t i = 0; i < limits->count; i++) {
    if (strcmp(limits->list[i].name, name) == 0) kept.list[kept.count++] = limits->list[i];
  }
  return kept;
}

static void decide_limit(const struct deciding *d, const struct limits *with, const struct limit *limit) {
  struct arena *arena = d->book->arena;
  struct decision decision = start(d, DECISION_LIMIT, limit->at);
  struct limits new_ones = named(arena, with, limit->name);
  const struct limit *own = first_named(&d->rule->own, limit->name);
  decision.what = name_of(arena, limit->name);
  decision.written = value_of(arena, &d->rule->own, limit->name);
  decision.from = value_of(arena, &d->rule->now, limit->name);
  decision.to = value_of(arena, &new_ones, limit->name);
  decision.softer = limits_soften(&d->rule->own, &new_ones);
  if (own) decision.had_at = own->at;
  take_over(d, decision);
}

void decide_limits(const struct deciding *d, const struct limits *with) {
  for (size_t i = 0; i < with->count; i++) {
    if (first_named(with, with->list[i].name) == &with->list[i]) decide_limit(d, with, &with->list[i]);
  }
}

void decide_severity(const struct deciding *d, enum severity severity, struct place at) {
  struct decision decision = start(d, DECISION_SEVERITY, at);
  decision.what = "severity";
  decision.written = severity_name(d->rule->severity_own);
  decision.from = severity_name(d->rule->severity);
  decision.to = severity_name(severity);
  decision.softer = severity < d->rule->severity_own;
  take_over(d, decision);
}

// The last thing that an earlier layer of the firm's had changed about the rule.
static const struct decision *changed_before(const struct deciding *d) {
  for (size_t i = d->book->decision_count; i-- > 0;) {
    const struct decision *it = &d->book->decisions[i];
    if (strcmp(it->rule, d->rule->facts.id) == 0 && it->stands && it->sort != DECISION_RETIRED) return it;
  }
  return NULL;
}

static struct place here(const struct deciding *d) { return (struct place){d->change->file->name, d->change->line}; }

void decide_retired(const struct deciding *d) {
  struct decision decision = start(d, DECISION_RETIRED, here(d));
  const struct decision *had = changed_before(d);
  decision.softer = true;
  if (had) {
    decision.overrules = true;
    decision.had_layer = had->layer;
    decision.had_at = had->at;
  }
  add(d, decision);
}

void decide_back(const struct deciding *d) {
  struct decision decision = start(d, DECISION_BACK, here(d)), *had = standing(d, DECISION_RETIRED, NULL);
  decision.overrules = true;
  if (had) {
    had->stands = false;
    decision.had_layer = had->layer;
    decision.had_at = had->at;
  }
  add(d, decision);
}

// What was decided about a rule's limits does not count while the rule is retired.
void decide_finish(struct rulebook *book) {
  for (size_t i = 0; i < book->decision_count; i++) {
    struct decision *it = &book->decisions[i];
    if (it->sort != DECISION_RETIRED && rulebook_rule(book, it->rule)->retired) it->stands = false;
  }
}
