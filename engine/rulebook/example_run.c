// SPDX-License-Identifier: MIT
#include "rulebook/example_run.h"

#include <string.h>

static void free_held(void *what) { arena_free(*(struct arena **)what); }

struct example_runs example_runs_in(struct rulebook *book, struct arena *owner) {
  struct example_runs runs = {.book = book, .owner = owner, .held = arena_alloc(owner, sizeof(struct arena *))};
  arena_at_free(owner, free_held, runs.held);
  return runs;
}

static void judge_trial(struct example_run *tried) {
  struct rulebook *book = tried->runs->book;
  book->generation++;
  tried->problems = problems_in(tried->arena);
  tried->ev = evaluation_in(tried->arena, tried->example.store, &tried->problems);
  struct run run = {.book = book,
                    .rule = tried->rule,
                    .limits = tried->limits,
                    .limit_table = tried->limit_table,
                    .ev = tried->ev,
                    .arena = tried->arena,
                    .entity = tried->example.entity};
  run_judge(&run, &tried->outcome);
}

static void work(void *with) {
  struct example_run *tried = with;
  tried->example.arena = tried->arena;
  tried->built = example_build(&tried->example, tried->rule, tried->table, tried->rule->file->name);
  if (tried->built) judge_trial(tried);
  tried->then(tried);
}

// The owner's arena may run out within a tried, whose own arena is then freed with it.
void example_run(struct example_run *tried) {
  struct example_runs *runs = tried->runs;
  tried->arena = *runs->held = arena_new();
  bool whole = tried->arena && arena_try(tried->arena, work, tried);
  arena_free(tried->arena);
  *runs->held = NULL;
  if (!whole) arena_give_up(runs->owner);
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

const char *example_run_name(const struct value *table) {
  for (const struct value *member = table->first; member; member = member->next) {
    if (!member->key && member->sort == VALUE_TEXT) return member->text;
  }
  return NULL;
}

const char *example_run_expected(const struct value *table) {
  const struct value *outcome = value_member(table, "outcome");
  return outcome && outcome->sort == VALUE_TEXT && is_outcome(outcome->text) ? outcome->text : NULL;
}

const char *example_run_outcome(const struct example_run *tried) { return outcome_name(tried->outcome.sort); }

bool example_run_as_expected(const struct example_run *tried) {
  const char *expected = example_run_expected(tried->table);
  return tried->built && expected && strcmp(example_run_outcome(tried), expected) == 0;
}

// What the rule read and found missing, by the name that the example could state it under.
static void add_unstated(struct text *text, struct example_run *tried) {
  const char *before = "; state ";
  for (size_t i = 0; i < tried->outcome.read_count; i++) {
    int entity;
    enum row_id row = store_row_of_slot(tried->example.store, tried->outcome.reads[i], &entity);
    enum condition condition = evaluation_condition(tried->ev, entity, row);
    if (condition != CONDITION_UNSET && condition != CONDITION_MISSING) continue;
    text_add(text, before);
    store_describe(text, tried->example.store, entity, row);
    before = ", ";
  }
}

const char *example_run_surprise(struct example_run *tried, const char *expected) {
  struct text said = text_in(tried->arena);
  text_printf(&said, "is %s, and %s was expected", example_run_outcome(tried), expected);
  if (tried->outcome.sort == OUTCOME_UNANSWERED) add_unstated(&said, tried);
  if (tried->outcome.because) text_printf(&said, ": %s", tried->outcome.because);
  for (size_t i = 0; i < tried->problems.count; i++) text_printf(&said, "; %s", tried->problems.list[i].said);
  return text_end(&said);
}

const char *example_run_unbuilt(struct example_run *tried) {
  struct text said = text_in(tried->arena);
  for (size_t i = 0; i < tried->example.problems.count; i++) {
    if (i) text_add(&said, "\n  ");
    problem_write(&said, &tried->example.problems.list[i]);
  }
  return text_end(&said);
}

bool example_run_wants_limit(const struct rule *rule) {
  for (size_t i = 0; i < rule->own.count; i++) {
    if (!rule->own.list[i].words) return true;
  }
  return false;
}
