// SPDX-License-Identifier: MIT
#include "rulebook/accept.h"

#include <math.h>
#include <string.h>

#include "rulebook/rule.h"
#include "units/compare.h"
#include "units/read.h"
#include "units/write.h"

struct deciding {
  const struct rulebook *book;
  struct review *review;
  struct outcome *outcomes;
  struct problems *problems;
  struct acceptance *list;
  size_t count, room;
  int accept;  // the entity
  const struct rule *rule;
};

// ---- reading an accept ----

static const struct slot *slot_of(const struct deciding *d, enum row_id row) {
  return store_at(d->review->design, d->accept, row);
}

static bool is_stated(const struct deciding *d, enum row_id row) {
  return slot_of(d, row)->condition == CONDITION_GIVEN;
}

static void complain(struct deciding *d, enum row_id row, const char *said, const char *read, const char *right) {
  const struct store *design = d->review->design;
  int line = row == ROW_COUNT ? 0 : slot_of(d, row)->line;
  problem_add(d->problems, (struct problem){.at = {design->file, line ? line : design->entities[d->accept].at.line},
                                            .where = row == ROW_COUNT ? "accept"
                                                                      : text_phrase(d->problems->arena, "accept.%s",
                                                                                    catalogue_row(row)->name),
                                            .said = said,
                                            .read = read,
                                            .right = right});
}

static void add(struct deciding *d, enum acceptance_standing standing, const struct outcome *outcome) {
  d->list = arena_grow(d->review->arena, d->list, d->count, &d->room, sizeof *d->list);
  d->list[d->count++] = (struct acceptance){d->accept, standing, outcome, slot_of(d, ROW_accept_rule)->text};
  d->review->acceptances_wrong += standing == ACCEPTANCE_WRONG;
}

static bool find_rule(struct deciding *d) {
  const char *id = slot_of(d, ROW_accept_rule)->text;
  d->rule = rulebook_rule(d->book, id);
  if (d->rule) return true;
  const char *near = rulebook_nearest(d->book, id);
  complain(d, ROW_accept_rule, "there is no such rule in the layers that were read", id,
           near ? text_phrase(d->problems->arena, "`%s`, if that is meant", near)
                : "the name in brackets under the finding; --rules for the layer that has it");
  return false;
}

// Lives are not for a design to bargain with: only a firm's layer may soften such a rule, with its reason on page one.
static bool may_be_accepted(struct deciding *d, enum severity severity) {
  const struct rule_facts *facts = &d->rule->facts;
  if (!facts->life_safety || severity < SEVERITY_HOLD) return true;
  complain(d, ROW_accept_rule, "lives depend on this rule, and what it holds cannot be accepted in a design", facts->id,
           "the design mended, or what it asks for answered");
  return false;
}

static bool is_reasoned(struct deciding *d) {
  const char *because = slot_of(d, ROW_accept_because)->text;
  if (because[strspn(because, " \t\r\n")] != '\0') return true;
  complain(d, ROW_accept_because, "is blank", NULL, "who decided, and why");
  return false;
}

static bool names_itself(enum kind kind) { return catalogue_kind(kind)->single; }

// Some kind that the rule judges stands once in a design, without a name; or it judges the design as a whole.
static bool judges_single(const struct rule *rule) {
  bool any = false;
  for (int k = 0; k < KIND_COUNT; k++) {
    if (!kinds_hold(rule->kinds, (enum kind)k)) continue;
    if (names_itself((enum kind)k)) return true;
    any = true;
  }
  return !any;
}

static int owner_of(const struct store *design, int entity) {
  while (design->entities[entity].owner >= 0) entity = design->entities[entity].owner;
  return entity;
}

// Whether the rule judges such things at all, or parts of them.
static bool concerns(const struct deciding *d, int on) {
  const struct store *design = d->review->design;
  for (size_t e = 0; e < design->entity_count; e++) {
    if (kinds_hold(d->rule->kinds, design->entities[e].kind) && owner_of(design, (int)e) == on) return true;
  }
  return false;
}

static const char *kinds_of(const struct deciding *d) {
  struct text text = text_in(d->problems->arena);
  catalogue_write_kinds(&text, d->rule->kinds, " or ");
  return text_end(&text);
}

static bool find_on(struct deciding *d, int *on) {
  const struct store *design = d->review->design;
  *on = -1;
  if (!is_stated(d, ROW_accept_on)) {
    if (judges_single(d->rule)) return true;
    complain(d, ROW_COUNT, "does not say what the finding is on", d->rule->facts.id,
             text_phrase(d->problems->arena, "on = \"...\", the name of a %s", kinds_of(d)));
    return false;
  }
  *on = (int)slot_of(d, ROW_accept_on)->value;
  if (concerns(d, *on)) return true;
  complain(d, ROW_accept_on,
           text_phrase(d->problems->arena, "is a %s, which this rule does not judge",
                       catalogue_kind(design->entities[*on].kind)->name),
           design->entities[*on].name, text_phrase(d->problems->arena, "the name of a %s", kinds_of(d)));
  return false;
}

// ---- what became of it ----

static bool is_past(const struct deciding *d) {
  if (!is_stated(d, ROW_accept_up_to)) return false;
  const char *word = catalogue_word((enum word)slot_of(d, ROW_accept_up_to)->value)->word;
  for (int stage = 0; stage < STAGE_COUNT; stage++) {
    if (strcmp(stage_name((enum stage)stage), word) == 0) return (int)d->review->come_to > stage;
  }
  return false;
}

static enum acceptance_standing against_word(struct deciding *d, const struct comparison *judged) {
  const char *at = slot_of(d, ROW_accept_at)->text;
  if (judged->sense == SENSE_IS) return strcmp(judged->words, at) == 0 ? ACCEPTANCE_ACCEPTED : ACCEPTANCE_WORSE;
  complain(d, ROW_accept_at, "this rule judges no value that could get worse", at, "the accept without `at`");
  return ACCEPTANCE_WRONG;
}

static bool is_worse(const struct comparison *judged, double value, double at) {
  return compare(value, at, 0) == (judged->sense == SENSE_AT_LEAST ? STANDS_BELOW : STANDS_ABOVE);
}

// People write down what a report prints, and that is rounded.
static bool prints_no_worse(const struct deciding *d, const struct comparison *judged, double at) {
  const struct row *row = judged->row == ROW_COUNT ? NULL : catalogue_row(judged->row);
  const char *units[] = {[UNITS_US] = row ? row->us : NULL, [UNITS_SI] = row ? row->si : NULL};
  for (int system = 0; system < 2; system++) {
    struct text printed = text_in(d->problems->arena), unheard = text_in(d->problems->arena);
    struct reading reading;
    const struct unit *unit = units[system] ? unit_named(units[system], strlen(units[system])) : NULL;
    unit_write(&printed, judged->value, judged->dimension,
               (struct write_style){.system = (enum unit_system)system, .unit = unit, .decimal = row && row->decimal});
    bool read = unit_read(text_end(&printed), printed.length, judged->dimension, &reading, &unheard, &unheard);
    if (read && !is_worse(judged, reading.value, at)) return true;
  }
  return false;
}

static enum acceptance_standing against_value(struct deciding *d, const struct comparison *judged) {
  const char *at = slot_of(d, ROW_accept_at)->text;
  struct text wrong = text_in(d->problems->arena), right = text_in(d->problems->arena);
  struct reading reading;
  if (!unit_read(at, strlen(at), judged->dimension, &reading, &wrong, &right)) {
    complain(d, ROW_accept_at, text_end(&wrong), at, right.length ? text_end(&right) : NULL);
    return ACCEPTANCE_WRONG;
  }
  if (!isnan(reading.tolerance)) {
    complain(d, ROW_accept_at, "states a tolerance", at, "the value that was accepted");
    return ACCEPTANCE_WRONG;
  }
  return is_worse(judged, judged->value, reading.value) && !prints_no_worse(d, judged, reading.value)
             ? ACCEPTANCE_WORSE
             : ACCEPTANCE_ACCEPTED;
}

static enum acceptance_standing standing_of(struct deciding *d, const struct outcome *outcome) {
  if (outcome->sort == OUTCOME_UNANSWERED || outcome->sort == OUTCOME_BROKEN) return ACCEPTANCE_OPEN;
  if (outcome->sort != OUTCOME_FLAGGED) return ACCEPTANCE_STALE;
  if (is_past(d)) return ACCEPTANCE_PASSED;
  if (!is_stated(d, ROW_accept_at)) return ACCEPTANCE_ACCEPTED;
  const struct comparison *judged = &outcome->comparisons[outcome->judged];
  return judged->sense == SENSE_IS || judged->sense == SENSE_MUST || judged->dimension == DIMENSION_COUNT
             ? against_word(d, judged)
             : against_value(d, judged);
}

static bool is_meant(const struct deciding *d, const struct outcome *outcome, int on) {
  if (strcmp(d->review->rules[outcome->rule].id, d->rule->facts.id) != 0) return false;
  if (outcome->entity < 0) return on < 0;
  int owner = owner_of(d->review->design, outcome->entity);
  return on < 0 ? names_itself(d->review->design->entities[owner].kind) : owner == on;
}

static void decide_outcome(struct deciding *d, struct outcome *outcome) {
  enum acceptance_standing standing = standing_of(d, outcome);
  if (standing == ACCEPTANCE_STALE) return;
  if (outcome->counting == ACCEPTED) {
    complain(d, ROW_COUNT, "accepts what another accept accepts already", d->rule->facts.id, "one of the two");
    standing = ACCEPTANCE_WRONG;
  } else if (outcome->sort == OUTCOME_FLAGGED && !may_be_accepted(d, outcome->severity)) {
    standing = ACCEPTANCE_WRONG;
  } else if (standing == ACCEPTANCE_ACCEPTED) {
    outcome->counting = ACCEPTED;
  }
  add(d, standing, outcome);
}

static void decide_all(struct deciding *d, int on) {
  size_t before = d->count;
  for (size_t i = 0; i < d->review->outcome_count; i++) {
    if (is_meant(d, &d->outcomes[i], on)) decide_outcome(d, &d->outcomes[i]);
  }
  if (d->count == before) add(d, ACCEPTANCE_STALE, NULL);
}

static void decide(struct deciding *d) {
  int on;
  if (find_rule(d) && is_reasoned(d) && may_be_accepted(d, d->rule->facts.severity) && find_on(d, &on))
    decide_all(d, on);
  else
    add(d, ACCEPTANCE_WRONG, NULL);
}

static void leave_behind(const struct review *review, struct outcome *outcome) {
  const struct rule_facts *facts = &review->rules[outcome->rule];
  if (facts->stage < review->come_to && !facts->life_safety) outcome->counting = BEHIND_US;
}

void rulebook_accept(const struct rulebook *book, struct review *review, struct outcome *outcomes) {
  struct problems *problems = arena_alloc(review->arena, sizeof *problems);
  *problems = problems_in(review->arena);
  struct deciding deciding = {.book = book, .review = review, .outcomes = outcomes, .problems = problems};
  for (size_t e = 0; e < review->design->entity_count; e++) {
    deciding.accept = (int)e;
    if (review->design->entities[e].kind == KIND_accept) decide(&deciding);
  }
  for (size_t i = 0; i < review->outcome_count; i++) leave_behind(review, &outcomes[i]);
  review->acceptances = deciding.list;
  review->acceptance_count = deciding.count;
  review->acceptance_problems = problems;
}
