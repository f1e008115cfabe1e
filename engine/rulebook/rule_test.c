// SPDX-License-Identifier: MIT
// Rules tried on their own examples, and data rules just inside and just outside of each limit in force.
#include <math.h>
#include <string.h>

#include "rulebook/example.h"
#include "rulebook/run.h"
#include "units/write.h"

struct testing {
  struct rulebook *book;
  const struct rule *rule;
  struct text *text;
  struct arena **held;  // the arena of the trial that runs
  struct rule_test_counts counts;
  bool has_flagged, has_clear, has_limit;
};

// One small design and what the rule says of it; lives in an arena of its own.
struct trial {
  struct testing *testing;
  struct arena *arena;
  const struct value *table;
  const struct limits *limits;
  int limit_table;
  struct example example;
  struct evaluation *ev;
  struct problems problems;
  struct outcome outcome;
  bool built;
  void (*then)(struct trial *trial);
};

static const char *outcome_name(enum outcome_sort sort) {
  static const char *const names[] = {[OUTCOME_CLEAR] = "clear",
                                      [OUTCOME_FLAGGED] = "flagged",
                                      [OUTCOME_UNANSWERED] = "unanswered",
                                      [OUTCOME_NOT_APPLICABLE] = "not applicable",
                                      [OUTCOME_BROKEN] = "broken"};
  return names[sort];
}

static void judge_trial(struct trial *trial) {
  struct rulebook *book = trial->testing->book;
  book->generation++;
  trial->problems = problems_in(trial->arena);
  trial->ev = evaluation_in(trial->arena, trial->example.store, &trial->problems);
  struct run run = {.book = book,
                    .rule = trial->testing->rule,
                    .limits = trial->limits,
                    .limit_table = trial->limit_table,
                    .ev = trial->ev,
                    .arena = trial->arena,
                    .entity = trial->example.entity};
  run_judge(&run, &trial->outcome);
}

static void run_trial(void *with) {
  struct trial *trial = with;
  trial->example.arena = trial->arena;
  trial->built = example_build(&trial->example, trial->testing->rule, trial->table, trial->testing->rule->file->name);
  if (trial->built) judge_trial(trial);
  trial->then(trial);
}

// The caller's arena may run out within a trial, whose own arena is then freed with it.
static void try_out(struct trial *trial) {
  struct testing *testing = trial->testing;
  trial->arena = *testing->held = arena_new();
  bool whole = trial->arena && arena_try(trial->arena, run_trial, trial);
  arena_free(trial->arena);
  *testing->held = NULL;
  if (!whole) arena_give_up(testing->text->arena);
}

// ---- what is written -----------------------------------------------------------------------------------------------

static void begin_line(struct testing *testing, const char *what, int line, const char *name) {
  text_printf(testing->text, "%s %s", what, testing->rule->facts.id);
  if (name) text_printf(testing->text, ", %s", name);
  text_printf(testing->text, " (%s:%d): ", testing->rule->file->name, line);
}

static void fail_line(struct testing *testing, int line, const char *name, const char *said) {
  begin_line(testing, "FAILED", line, name);
  text_printf(testing->text, "%s\n", said);
  testing->counts.failed++;
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

static const char *surprise(struct trial *trial, const char *expected) {
  struct text said = text_in(trial->arena);
  text_printf(&said, "is %s, and %s was expected", outcome_name(trial->outcome.sort), expected);
  if (trial->outcome.sort == OUTCOME_UNANSWERED) add_unstated(&said, trial);
  if (trial->outcome.because) text_printf(&said, ": %s", trial->outcome.because);
  for (size_t i = 0; i < trial->problems.count; i++) text_printf(&said, "; %s", trial->problems.list[i].said);
  return text_end(&said);
}

// ---- examples ------------------------------------------------------------------------------------------------------

static const char *name_of(const struct value *table) {
  for (const struct value *member = table->first; member; member = member->next) {
    if (!member->key && member->sort == VALUE_TEXT) return member->text;
  }
  return NULL;
}

static const char *expected_of(const struct value *table) {
  const struct value *outcome = value_member(table, "outcome");
  return outcome && outcome->sort == VALUE_TEXT ? outcome->text : NULL;
}

static bool is_outcome(const char *word) {
  for (int sort = OUTCOME_CLEAR; sort < OUTCOME_BROKEN; sort++) {
    if (strcmp(outcome_name((enum outcome_sort)sort), word) == 0) return true;
  }
  return false;
}

static void state_problems(struct trial *trial, const char *name) {
  struct text said = text_in(trial->arena);
  for (size_t i = 0; i < trial->example.problems.count; i++) {
    if (i) text_add(&said, "\n  ");
    problem_write(&said, &trial->example.problems.list[i]);
  }
  fail_line(trial->testing, trial->table->line, name, text_end(&said));
}

static void compare_outcome(struct trial *trial) {
  struct testing *testing = trial->testing;
  const char *name = text_phrase(trial->arena, "\"%s\"", name_of(trial->table)), *expected = expected_of(trial->table);
  if (!trial->built) {
    state_problems(trial, name);
  } else if (strcmp(outcome_name(trial->outcome.sort), expected) != 0) {
    fail_line(testing, trial->table->line, name, surprise(trial, expected));
  } else {
    testing->counts.passed++;
  }
}

static void try_example(struct testing *testing, const struct value *table) {
  const char *name = table->sort == VALUE_TABLE ? name_of(table) : NULL;
  const char *expected = name ? expected_of(table) : NULL;
  if (!name) {
    fail_line(testing, table->line, NULL,
              "an example has no name; write { \"its name\", spill = { ... }, outcome = \"flagged\" }");
    return;
  }
  if (!expected || !is_outcome(expected)) {
    fail_line(testing, table->line, name,
              "its outcome is missing or none of flagged, clear, unanswered, not applicable");
    return;
  }
  testing->has_flagged = testing->has_flagged || strcmp(expected, "flagged") == 0;
  testing->has_clear = testing->has_clear || strcmp(expected, "clear") == 0;
  testing->has_limit = testing->has_limit || strstr(name, "limit");
  struct trial trial = {.testing = testing,
                        .table = table,
                        .limits = &testing->rule->own,
                        .limit_table = testing->rule->limit_own,
                        .then = compare_outcome};
  try_out(&trial);
}

static bool wants_limit(const struct rule *rule) { return rule->own.count > 0 && rule->judges.sort != SORT_CHOICE; }

// The trade's rules must have examples of each sort; a firm's rule is used without, with a note.
static void check_examples(struct testing *testing) {
  const struct rule *rule = testing->rule;
  bool limit = testing->has_limit || !wants_limit(rule);
  if (testing->has_flagged && testing->has_clear && limit) return;
  struct text said = text_in(testing->text->arena);
  text_add(&said, "has no example");
  if (!testing->has_flagged) text_add(&said, ", flagged");
  if (!testing->has_clear) text_add(&said, ", clear");
  if (!limit) text_add(&said, ", at the limit (with \"limit\" in its name)");
  if (strcmp(rule->file->layer, "trade") == 0) {
    fail_line(testing, rule->facts.at.line, NULL, text_end(&said));
    return;
  }
  begin_line(testing, "note:", rule->facts.at.line, NULL);
  text_printf(testing->text, "%s\n", text_end(&said));
  testing->counts.notes++;
}

// ---- around the limits ---------------------------------------------------------------------------------------------

struct generated {
  struct trial trial;
  const struct limit *limit;
  size_t number;
  bool inside;
};

static bool can_generate(const struct rule *rule) {
  bool can = rule->judges.count == 1 && rule->judges.sort == SORT_NUMBER && rule->when_function == NO_REF;
  for (size_t i = 0; i < rule->when_count; i++) can = can && rule->when[i].path.count == 1;
  return can;
}

static struct value *add_text(struct arena *arena, struct value *table, const char *key, const char *text) {
  struct value *value = arena_alloc(arena, sizeof *value);
  *value = (struct value){.sort = VALUE_TEXT, .key = key, .text = text, .next = table->first, .line = table->line};
  table->first = value;
  return value;
}

// A requirement's own bound or first word satisfies it.
static void state_when(struct arena *arena, struct value *fields, const struct rule *rule) {
  for (size_t i = 0; i < rule->when_count; i++) {
    const struct requirement *when = &rule->when[i];
    const char *name = when->path.text;
    if (value_member(fields, name)) continue;
    add_text(arena, fields, name, when->sort == WHEN_WORD ? when->words[0] : when->text);
  }
}

static struct value *generate(struct arena *arena, const struct rule *rule, enum kind kind, double value) {
  struct value *table = arena_alloc(arena, sizeof *table), *fields = arena_alloc(arena, sizeof *fields);
  struct text text = text_in(arena);
  unit_write_exact(&text, value, rule->judges.dimension, UNITS_SI);
  *fields = (struct value){.sort = VALUE_TABLE, .key = catalogue_kind(kind)->name, .line = rule->facts.at.line};
  *table = (struct value){.sort = VALUE_TABLE, .first = fields, .line = rule->facts.at.line};
  add_text(arena, fields, rule->judges.text, text_end(&text));
  state_when(arena, fields, rule);
  return table;
}

// A step well beyond the comparison band and well within any reading of the limit.
static double beyond(const struct limit *limit) {
  enum { PARTS = 1000000 };
  double step = (limit->value != 0 ? fabs(limit->value) : 1) / PARTS;
  return limit->sense == SENSE_AT_LEAST ? limit->value - step : limit->value + step;
}

static void compare_generated(struct trial *trial) {
  struct generated *generated = (struct generated *)trial;
  struct testing *testing = trial->testing;
  if (!trial->built || trial->outcome.sort == OUTCOME_NOT_APPLICABLE || trial->outcome.sort == OUTCOME_UNANSWERED)
    return;
  bool met =
      generated->number < trial->outcome.comparison_count && trial->outcome.comparisons[generated->number].satisfied;
  if (met == generated->inside && trial->outcome.sort != OUTCOME_BROKEN) {
    testing->counts.passed++;
    return;
  }
  const char *name = text_phrase(trial->arena, "just %s of %s %s", generated->inside ? "inside" : "outside",
                                 generated->limit->name, generated->limit->text);
  fail_line(testing, generated->limit->at.line, name, surprise(trial, generated->inside ? "clear" : "flagged"));
}

static void try_beside(struct testing *testing, size_t number, enum kind kind, bool inside) {
  const struct rule *rule = testing->rule;
  const struct limit *limit = &rule->now.list[number];
  struct arena *arena = testing->text->arena;
  struct value *table = generate(arena, rule, kind, inside ? limit->value : beyond(limit));
  struct generated generated = {.trial = {.testing = testing,
                                          .table = table,
                                          .limits = &rule->now,
                                          .limit_table = rule->limit_now,
                                          .then = compare_generated},
                                .limit = limit,
                                .number = number,
                                .inside = inside};
  try_out(&generated.trial);
}

static void try_limits(struct testing *testing) {
  const struct rule *rule = testing->rule;
  if (!can_generate(rule)) return;
  for (int kind = 0; kind < KIND_COUNT; kind++) {
    if (!kinds_hold(rule->judges.last_rows_of, (enum kind)kind)) continue;
    for (size_t i = 0; i < rule->now.count; i++) {
      try_beside(testing, i, (enum kind)kind, true);
      try_beside(testing, i, (enum kind)kind, false);
    }
  }
}

// ---- all of it -----------------------------------------------------------------------------------------------------

static void test_rule(struct testing *testing, struct rulebook_watch watch) {
  const struct rule *rule = testing->rule;
  testing->has_flagged = testing->has_clear = testing->has_limit = false;
  if (watch.tell) watch.tell(watch.with, rule->facts.id, "");
  if (rule->facts.broken) {
    fail_line(testing, rule->facts.at.line, NULL,
              text_phrase(testing->text->arena, "cannot run: %s", rule->facts.broken));
    return;
  }
  for (const struct value *table = rule->examples ? rule->examples->first : NULL; table; table = table->next)
    try_example(testing, table);
  check_examples(testing);
  try_limits(testing);
}

static void free_held(void *what) { arena_free(*(struct arena **)what); }

struct rule_test_counts rulebook_test(struct rulebook *book, struct text *text, struct rulebook_watch watch) {
  struct testing testing = {.book = book, .text = text, .held = arena_alloc(text->arena, sizeof(struct arena *))};
  arena_at_free(text->arena, free_held, testing.held);
  for (size_t i = 0; i < book->fact_count; i++) {
    testing.rule = book->in_force[i];
    test_rule(&testing, watch);
  }
  text_printf(text, "%zu %s tried: %zu passed, %zu failed", book->fact_count, book->fact_count == 1 ? "rule" : "rules",
              testing.counts.passed, testing.counts.failed);
  if (testing.counts.notes)
    text_printf(text, ", %zu %s", testing.counts.notes, testing.counts.notes == 1 ? "note" : "notes");
  text_add(text, ".\n");
  return testing.counts;
}
