// SPDX-License-Identifier: MIT
#include "rulebook/trial.h"

#include <string.h>

static void free_held(void *what) { arena_free(*(struct arena **)what); }

struct trials trials_in(struct rulebook *book, struct arena *owner) {
  struct trials trials = {.book = book, .owner = owner, .held = arena_alloc(owner, sizeof(struct arena *))};
  arena_at_free(owner, free_held, trials.held);
  return trials;
}

static void judge_trial(struct trial *trial) {
  struct rulebook *book = trial->trials->book;
  book->generation++;
  trial->problems = problems_in(trial->arena);
  trial->ev = evaluation_in(trial->arena, trial->example.store, &trial->problems);
  struct run run = {.book = book,
                    .rule = trial->rule,
                    .limits = trial->limits,
                    .limit_table = trial->limit_table,
                    .ev = trial->ev,
                    .arena = trial->arena,
                    .entity = trial->example.entity};
  run_judge(&run, &trial->outcome);
}

static void work(void *with) {
  struct trial *trial = with;
  trial->example.arena = trial->arena;
  trial->built = example_build(&trial->example, trial->rule, trial->table, trial->rule->file->name);
  if (trial->built) judge_trial(trial);
  trial->then(trial);
}

// The owner's arena may run out within a trial, whose own arena is then freed with it.
void trial_run(struct trial *trial) {
  struct trials *trials = trial->trials;
  trial->arena = *trials->held = arena_new();
  bool whole = trial->arena && arena_try(trial->arena, work, trial);
  arena_free(trial->arena);
  *trials->held = NULL;
  if (!whole) arena_give_up(trials->owner);
}

// ---- in words ------------------------------------------------------------------------------------------------------

static const char *outcome_name(enum outcome_sort sort) {
  static const char *const names[] = {[OUTCOME_CLEAR] = "clear",
                                      [OUTCOME_FLAGGED] = "flagged",
                                      [OUTCOME_UNANSWERED] = "unanswered",
                                      [OUTCOME_NOT_APPLICABLE] = "not applicable",
                                      [OUTCOME_BROKEN] = "broken"};
  return names[sort];
}

static bool is_outcome(const char *word) {
  for (int sort = OUTCOME_CLEAR; sort < OUTCOME_BROKEN; sort++) {
    if (strcmp(outcome_name((enum outcome_sort)sort), word) == 0) return true;
  }
  return false;
}

const char *trial_name(const struct value *table) {
  for (const struct value *member = table->first; member; member = member->next) {
    if (!member->key && member->sort == VALUE_TEXT) return member->text;
  }
  return NULL;
}

const char *trial_expected(const struct value *table) {
  const struct value *outcome = value_member(table, "outcome");
  return outcome && outcome->sort == VALUE_TEXT && is_outcome(outcome->text) ? outcome->text : NULL;
}

const char *trial_outcome(const struct trial *trial) { return outcome_name(trial->outcome.sort); }

bool trial_as_expected(const struct trial *trial) {
  const char *expected = trial_expected(trial->table);
  return trial->built && expected && strcmp(trial_outcome(trial), expected) == 0;
}

// What the rule read and found missing, by the name that the example could state it under.
static void add_unstated(struct text *text, struct trial *trial) {
  const char *before = "; state ";
  for (size_t i = 0; i < trial->outcome.read_count; i++) {
    int entity;
    enum row_id row = store_row_of_slot(trial->example.store, trial->outcome.reads[i], &entity);
    enum condition condition = evaluation_condition(trial->ev, entity, row);
    if (condition != CONDITION_UNSET && condition != CONDITION_MISSING) continue;
    text_add(text, before);
    store_describe(text, trial->example.store, entity, row);
    before = ", ";
  }
}

const char *trial_surprise(struct trial *trial, const char *expected) {
  struct text said = text_in(trial->arena);
  text_printf(&said, "is %s, and %s was expected", trial_outcome(trial), expected);
  if (trial->outcome.sort == OUTCOME_UNANSWERED) add_unstated(&said, trial);
  if (trial->outcome.because) text_printf(&said, ": %s", trial->outcome.because);
  for (size_t i = 0; i < trial->problems.count; i++) text_printf(&said, "; %s", trial->problems.list[i].said);
  return text_end(&said);
}

const char *trial_unbuilt(struct trial *trial) {
  struct text said = text_in(trial->arena);
  for (size_t i = 0; i < trial->example.problems.count; i++) {
    if (i) text_add(&said, "\n  ");
    problem_write(&said, &trial->example.problems.list[i]);
  }
  return text_end(&said);
}

bool trial_wants_limit(const struct rule *rule) {
  for (size_t i = 0; i < rule->own.count; i++) {
    if (!rule->own.list[i].words) return true;
  }
  return false;
}
