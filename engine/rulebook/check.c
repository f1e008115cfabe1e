// SPDX-License-Identifier: MIT
// How a rule is written: its examples, what of it they reach, and whether it can come out either way.
#include "rulebook/check.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "rulebook/coverage.h"

void check_complain_at(struct checking *checking, struct place at, struct problem problem) {
  problem.at = at;
  if (!problem.where) problem.where = text_phrase(checking->arena, "rule \"%s\"", checking->rule->facts.id);
  problem_add(checking->wrong, problem);
  checking->counts.wrong++;
}

void check_complain(struct checking *checking, int line, const char *example, const char *said, const char *read,
                    const char *right) {
  const struct rule *rule = checking->rule;
  struct problem problem = {.said = said, .read = read, .right = right};
  if (example) problem.where = text_phrase(checking->arena, "rule \"%s\", \"%s\"", rule->facts.id, example);
  check_complain_at(checking, (struct place){rule->file->name, line}, problem);
}

void check_note(struct checking *checking, int line, const char *said) {
  text_printf(checking->notes, "%s:%d: note: rule \"%s\": %s\n", checking->rule->file->name, line,
              checking->rule->facts.id, said);
  checking->counts.notes++;
}

// ---- what one came to ------------------------------------------------------------------------------------------

// "file:7: words" of the rule's own file; others stay as they are.
static const char *split_place(const struct rule *rule, const char *because, int *line) {
  size_t length = strlen(rule->file->name);
  *line = rule->facts.at.line;
  if (strncmp(because, rule->file->name, length) != 0 || because[length] != ':') return because;
  char *end;
  long number = strtol(because + length + 1, &end, 10);
  if (number <= 0 || strncmp(end, ": ", 2) != 0) return because;
  *line = (int)number;
  return end + 2;
}

static void complain_broken(struct checking *checking, struct example_run *tried, const char *example) {
  int line;
  const char *said = split_place(checking->rule, tried->outcome.because, &line);
  if (line == checking->broken_line) return;
  checking->broken_line = line;
  check_complain(checking, line, example, said, NULL, NULL);
}

// A quantity that the example states in the place of what it is worked out from.
static bool is_stated(struct checking *checking, struct example_run *tried, int entity, enum row_id row) {
  if (catalogue_row(row)->sort != SORT_QUANTITY || evaluation_condition(tried->ev, entity, row) != CONDITION_MEASURED)
    return false;
  checking->out_of_reach = checking->out_of_reach || check_out_of_reach(row);
  return true;
}

// A value that a line of `when` asks for decides where the rule applies, and not what it says.
static bool is_of_when(const struct rule *rule, enum row_id row) {
  for (size_t i = 0; i < rule->when_count; i++) {
    const struct path *path = &rule->when[i].path;
    for (int kind = 0; kind < KIND_COUNT; kind++) {
      if (path->steps[path->count - 1].rows[kind] == row) return true;
    }
  }
  return false;
}

// What a function reckoned out by itself hangs on all that it read: values and words, not the references on the way.
static bool any_worked_out(struct checking *checking, struct example_run *tried) {
  bool any = false, values = false;
  for (size_t i = 0; i < tried->outcome.read_count; i++) {
    int entity;
    enum row_id id = store_row_of_slot(tried->example.store, tried->outcome.reads[i], &entity);
    const struct row *row = catalogue_row(id);
    if (is_of_when(checking->rule, id) || row->sort == SORT_REFERENCE || row_is_list(row)) continue;
    values = true;
    any = any || !is_stated(checking, tried, entity, id);
  }
  return any || !values;
}

static bool is_worked_out(struct checking *checking, struct example_run *tried) {
  const struct outcome *outcome = &tried->outcome;
  const struct comparison *judged = outcome->judged >= 0 ? &outcome->comparisons[outcome->judged] : NULL;
  if (!judged || judged->row == ROW_COUNT) return any_worked_out(checking, tried);
  return !is_stated(checking, tried, judged->entity, judged->row);
}

void check_take_outcome(struct checking *checking, struct example_run *tried, const char *example) {
  enum outcome_sort sort = tried->outcome.sort;
  if (sort == OUTCOME_BROKEN) complain_broken(checking, tried, example);
  if ((sort != OUTCOME_CLEAR && sort != OUTCOME_FLAGGED) || !is_worked_out(checking, tried)) return;
  checking->worked_out = true;
  checking->flagged = checking->flagged || sort == OUTCOME_FLAGGED;
  checking->clear = checking->clear || sort == OUTCOME_CLEAR;
}

// ---- examples ------------------------------------------------------------------------------------------------------

struct checked_example {
  struct example_run tried;
  struct checking *checking;
};

static bool is_bound(const struct comparison *comparison) { return comparison->sense <= SENSE_AT_MOST; }

// Wide enough for what conversions and heights over a far datum leave; an example a hair beside its limit is wrong.
static bool stands_at(const struct comparison *comparison) {
  double size = fmax(fabs(comparison->value), fabs(comparison->limit));
  return fabs(comparison->margin) <= 1e-9 + 1e-6 * size;
}

// An example that says so stands at one of the limits it was compared with; a function may compare by itself.
static void check_at_limit(struct checking *checking, const struct example_run *tried, const char *name) {
  bool any = false, at = false;
  for (size_t i = 0; i < tried->outcome.comparison_count; i++) {
    const struct comparison *comparison = &tried->outcome.comparisons[i];
    any = any || is_bound(comparison);
    at = at || (is_bound(comparison) && stands_at(comparison));
  }
  if (any && !at)
    check_complain(checking, tried->table->line, name, "is named for the limit and does not stand at it", NULL,
                   "the value of the limit, or another name");
}

static void take_unbuilt(struct checking *checking, const struct example_run *tried, const char *name) {
  const struct problems *found = &tried->example.problems;
  for (size_t i = 0; i < found->count; i++) {
    const struct problem *problem = &found->list[i];
    struct problem about = *problem;
    about.where = text_phrase(checking->arena, "rule \"%s\", \"%s\"%s%s", checking->rule->facts.id, name,
                              problem->where ? ", " : "", problem->where ? problem->where : "");
    check_complain_at(checking, problem->at, about);
  }
}

static void take_example(struct example_run *tried) {
  struct checking *checking = ((struct checked_example *)tried)->checking;
  const char *name = example_run_name(tried->table), *expected = example_run_expected(tried->table);
  if (!tried->built) {
    take_unbuilt(checking, tried, name);
    return;
  }
  check_take_outcome(checking, tried, name);
  if (tried->outcome.sort != OUTCOME_BROKEN && !example_run_as_expected(tried))
    check_complain(checking, tried->table->line, name, example_run_surprise(tried, expected), NULL, NULL);
  if (strstr(name, "limit") && tried->outcome.sort <= OUTCOME_FLAGGED) check_at_limit(checking, tried, name);
}

static void try_example(struct checking *checking, const struct coverage *coverage, const struct value *table) {
  const char *name = table->sort == VALUE_TABLE ? example_run_name(table) : NULL;
  const char *expected = name ? example_run_expected(table) : NULL;
  if (!name)
    check_complain(checking, table->line, NULL, "an example has no name", NULL,
                   "{ \"its name\", spill = { ... }, outcome = \"flagged\" }");
  else if (!expected)
    check_complain(checking, table->line, name, "its outcome is missing or unknown", NULL,
                   "outcome = \"flagged\", \"clear\", \"unanswered\" or \"not applicable\"");
  if (!expected) return;
  checking->has_flagged = checking->has_flagged || strcmp(expected, "flagged") == 0;
  checking->has_clear = checking->has_clear || strcmp(expected, "clear") == 0;
  checking->has_limit = checking->has_limit || strstr(name, "limit");
  struct checked_example example = {.tried = {.runs = &checking->runs,
                                              .rule = checking->rule,
                                              .table = table,
                                              .limits = &checking->rule->own,
                                              .limit_table = coverage->limit_table,
                                              .then = take_example},
                                    .checking = checking};
  example_run(&example.tried);
}

static void check_sorts(struct checking *checking) {
  const struct rule *rule = checking->rule;
  struct text lacks = text_in(checking->arena);
  if (!checking->has_flagged) text_add(&lacks, ", one that is flagged");
  if (!checking->has_clear) text_add(&lacks, ", one that is clear");
  if (!checking->has_limit && example_run_wants_limit(rule))
    text_add(&lacks, ", one at the limit (with \"limit\" in its name)");
  if (lacks.length)
    check_complain(checking, rule->facts.at.line, NULL, "its examples are not enough", NULL,
                   text_phrase(checking->arena, "also %s", lacks.at + 2));
  else if (!checking->worked_out && !checking->settled && !checking->broken_line && !checking->out_of_reach)
    check_complain(checking, rule->facts.at.line, NULL, "each of its examples states what is judged itself", NULL,
                   "one that states what it is worked out from instead: `forebay explain --list` has the formulas");
}

// ---- what the examples reach ---------------------------------------------------------------------------------------

static bool unrun(const struct coverage *coverage, int line) {
  return line <= coverage->line_count && coverage->can[line] && !coverage->ran[line];
}

static void check_lines(struct checking *checking, const struct coverage *coverage) {
  for (int line = 1; line <= coverage->line_count; line++) {
    if (!unrun(coverage, line)) continue;
    int last = line;
    while (unrun(coverage, last + 1)) last++;
    const char *said = last == line
                           ? text_phrase(checking->arena, "line %d is run by none of its examples", line)
                           : text_phrase(checking->arena, "lines %d to %d are run by none of its examples", line, last);
    check_complain(checking, line, NULL, said, NULL, "an example that comes by here");
    line = last;
  }
}

static void check_limits_read(struct checking *checking, const struct coverage *coverage) {
  const struct limits *limits = &checking->rule->own;
  for (size_t i = 0; i < limits->count; i++) {
    const struct limit *limit = &limits->list[i];
    bool said = i > 0 && strcmp(limits->list[i - 1].name, limit->name) == 0;
    if (coverage->limit_read[i] || said) continue;
    check_complain(checking, limit->at.line, NULL,
                   text_phrase(checking->arena, "its limit `%s` is read by none of its examples", limit->name), NULL,
                   "a comparison that reads it and an example that comes by there, or leave the limit out");
  }
}

// ---- one rule, all rules -------------------------------------------------------------------------------------------

static void check_examples(struct checking *checking) {
  struct rulebook *book = checking->book;
  const struct rule *rule = checking->rule;
  struct coverage *coverage = coverage_of(book, rule);
  coverage_begin(book, coverage);
  for (const struct value *table = rule->examples ? rule->examples->first : NULL; table; table = table->next)
    try_example(checking, coverage, table);
  coverage_end(book);
  check_sorts(checking);
  if (checking->broken_line) return;  // what is behind a break is reached by nothing
  check_lines(checking, coverage);
  if (rule->check != NO_REF) check_limits_read(checking, coverage);
}

// Only where examples are worked out at all: that they are not is told already, or cannot be helped.
static void note_unseen(struct checking *checking) {
  if (checking->settled || !checking->worked_out || (checking->flagged && checking->clear)) return;
  const char *outcome = checking->flagged ? "come out clear" : "flag";
  const char *tried = text_phrase(checking->arena, "and none of %zu variations", checking->variations);
  check_note(checking, checking->rule->facts.at.line,
             text_phrase(checking->arena, "no example that states what it is worked out from %s made it %s",
                         checking->variations ? tried : "(in which there is nothing to vary)", outcome));
}

static void begin_rule(struct checking *checking, const struct rule *rule) {
  checking->rule = rule;
  checking->has_flagged = checking->has_clear = checking->has_limit = false;
  checking->out_of_reach = false;
  checking->worked_out = checking->flagged = checking->clear = checking->settled = false;
  checking->variations = 0;
  checking->broken_line = 0;
}

static void check_rule(struct checking *checking, struct rule *rule) {
  begin_rule(checking, rule);
  checking->counts.rules++;
  if (rule->facts.broken) return;  // told when it was read
  const char *unusable = examples_take(checking->book, rule);
  if (unusable) check_complain(checking, rule->facts.at.line, NULL, unusable, NULL, NULL);
  check_names(checking);
  check_range(checking);
  check_examples(checking);
  check_variations(checking);
  note_unseen(checking);
}

static bool is_asked(const struct rulebook_files *files, const char *name) {
  bool asked = false;
  for (size_t i = 0; i < files->count; i++) asked = asked || strcmp(files->names[i], name) == 0;
  return asked;
}

// Of a rule that is only adjusted here: the new limits against the bounds.
static void check_change(struct checking *checking, const struct change *change) {
  const struct rule *rule = rulebook_rule(checking->book, change->id);
  checking->counts.changes++;
  if (!rule || change->retires || rule->retired || rule->facts.broken) return;
  begin_rule(checking, rule);
  check_range(checking);
}

struct rulebook_check_counts rulebook_check(struct rulebook *book, struct rulebook_files files, struct problems *wrong,
                                            struct text *notes, struct rulebook_watch watch) {
  struct checking checking = {
      .book = book, .arena = notes->arena, .wrong = wrong, .notes = notes, .runs = example_runs_in(book, notes->arena)};
  for (size_t i = 0; i < book->fact_count; i++) {
    struct rule *rule = book->in_force[i];
    if (!is_asked(&files, rule->file->name)) continue;
    if (watch.tell) watch.tell(watch.with, rule->facts.id, "");
    check_rule(&checking, rule);
  }
  for (size_t i = 0; i < book->change_count; i++) {
    if (is_asked(&files, book->changes[i].file->name)) check_change(&checking, &book->changes[i]);
  }
  return checking.counts;
}
