// SPDX-License-Identifier: MIT
// Rules tried on their own examples, and data rules just inside and just outside of each limit in force.
#include <math.h>
#include <string.h>

#include "rulebook/example_run.h"
#include "units/write.h"

struct testing {
  struct rulebook *book;
  const struct rule *rule;
  struct text *text;
  struct example_runs runs;
  struct rule_test_style style;
  struct rule_test_counts counts;
  size_t number;  // of tests told so far
  bool has_flagged, has_clear, has_limit;
};

// One run of it. The run comes first: what is told when it ends finds the rest behind it.
struct told {
  struct example_run tried;
  struct testing *testing;
};

// ---- what is written -----------------------------------------------------------------------------------------------

static void begin_line(struct testing *testing, const char *what, int line, const char *name) {
  text_printf(testing->text, "%s %s", what, testing->rule->facts.id);
  if (name) text_printf(testing->text, ", %s", name);
  text_printf(testing->text, " (%s:%d): ", testing->rule->file->name, line);
}

// A description may hold neither `#` nor a backslash as they are: the one begins a directive, the other hides it.
// The quotes round an example's name are left off.
static void add_description(struct text *text, const char *words) {
  size_t length = strlen(words), quoted = *words == '"';
  const char *end = words + length - quoted;
  for (words += quoted; words < end; words++) {
    if (*words == '#' || *words == '\\') text_add_char(text, '\\');
    text_add_char(text, *words == '\n' ? ' ' : *words);
  }
}

static void tap_line(struct testing *testing, const char *verdict, const char *name) {
  text_printf(testing->text, "%s %zu - %s", verdict, ++testing->number, testing->rule->facts.id);
  if (name) text_add(testing->text, ": ");
  if (name) add_description(testing->text, name);
}

// Each line of it behind a `#`.
static void tap_comment(struct testing *testing, int line, const char *said) {
  text_printf(testing->text, "\n# %s:%d: ", testing->rule->file->name, line);
  for (; *said; said++) {
    text_add_char(testing->text, *said);
    if (*said == '\n') text_add(testing->text, "# ");
  }
  text_add_char(testing->text, '\n');
}

static void pass(struct testing *testing, const char *name) {
  testing->counts.passed++;
  if (!testing->style.tap) return;
  tap_line(testing, "ok", name);
  text_add_char(testing->text, '\n');
}

static void fail_line(struct testing *testing, int line, const char *name, const char *said) {
  testing->counts.failed++;
  if (testing->style.tap) {
    tap_line(testing, "not ok", name);
    tap_comment(testing, line, said);
    return;
  }
  begin_line(testing, "FAILED", line, name);
  text_printf(testing->text, "%s\n", said);
}

// Nothing failed and nothing was tried: what lacks is told.
static void note_line(struct testing *testing, int line, const char *said) {
  testing->counts.notes++;
  if (testing->style.tap) {
    tap_line(testing, "ok", "has examples of each sort");
    text_printf(testing->text, " # SKIP %s\n", said);
    return;
  }
  begin_line(testing, "note:", line, NULL);
  text_printf(testing->text, "%s\n", said);
}

// ---- examples ------------------------------------------------------------------------------------------------------

static void compare_outcome(struct example_run *tried) {
  struct testing *testing = ((struct told *)tried)->testing;
  const char *name = text_phrase(tried->arena, "\"%s\"", example_run_name(tried->table));
  if (example_run_as_expected(tried))
    pass(testing, name);
  else if (tried->built)
    fail_line(testing, tried->table->line, name, example_run_surprise(tried, example_run_expected(tried->table)));
  else
    fail_line(testing, tried->table->line, name, example_run_unbuilt(tried));
}

static void try_example(struct testing *testing, const struct value *table) {
  const char *name = table->sort == VALUE_TABLE ? example_run_name(table) : NULL;
  const char *expected = name ? example_run_expected(table) : NULL;
  if (!name) {
    fail_line(testing, table->line, NULL,
              "an example has no name; write { \"its name\", spill = { ... }, outcome = \"flagged\" }");
    return;
  }
  if (!expected) {
    fail_line(testing, table->line, name,
              "its outcome is missing or none of flagged, clear, unanswered, not applicable");
    return;
  }
  testing->has_flagged = testing->has_flagged || strcmp(expected, "flagged") == 0;
  testing->has_clear = testing->has_clear || strcmp(expected, "clear") == 0;
  testing->has_limit = testing->has_limit || strstr(name, "limit");
  struct told told = {.tried = {.runs = &testing->runs,
                                .rule = testing->rule,
                                .table = table,
                                .limits = &testing->rule->own,
                                .limit_table = testing->rule->limit_own,
                                .then = compare_outcome},
                      .testing = testing};
  example_run(&told.tried);
}

// The trade's rules must have examples of each sort; a firm's rule is used without, with a note.
static void check_examples(struct testing *testing) {
  const struct rule *rule = testing->rule;
  bool limit = testing->has_limit || !example_run_wants_limit(rule);
  if (testing->has_flagged && testing->has_clear && limit) return;
  struct text said = text_in(testing->text->arena);
  text_add(&said, "has no example");
  if (!testing->has_flagged) text_add(&said, ", flagged");
  if (!testing->has_clear) text_add(&said, ", clear");
  if (!limit) text_add(&said, ", at the limit (with \"limit\" in its name)");
  if (strcmp(rule->file->layer, "trade") == 0)
    fail_line(testing, rule->facts.at.line, NULL, text_end(&said));
  else
    note_line(testing, rule->facts.at.line, text_end(&said));
}

// ---- around the limits ---------------------------------------------------------------------------------------------

struct generated {
  struct example_run tried;
  struct testing *testing;
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

static void compare_generated(struct example_run *tried) {
  struct generated *generated = (struct generated *)tried;
  struct testing *testing = generated->testing;
  if (!tried->built || tried->outcome.sort == OUTCOME_NOT_APPLICABLE || tried->outcome.sort == OUTCOME_UNANSWERED)
    return;
  bool met =
      generated->number < tried->outcome.comparison_count && tried->outcome.comparisons[generated->number].satisfied;
  const char *name = text_phrase(tried->arena, "just %s of %s %s", generated->inside ? "inside" : "outside",
                                 generated->limit->name, generated->limit->text);
  if (met == generated->inside && tried->outcome.sort != OUTCOME_BROKEN)
    pass(testing, name);
  else
    fail_line(testing, generated->limit->at.line, name,
              example_run_surprise(tried, generated->inside ? "clear" : "flagged"));
}

static void try_beside(struct testing *testing, size_t number, enum kind kind, bool inside) {
  const struct rule *rule = testing->rule;
  const struct limit *limit = &rule->now.list[number];
  struct arena *arena = testing->text->arena;
  struct value *table = generate(arena, rule, kind, inside ? limit->value : beyond(limit));
  struct generated generated = {.tried = {.runs = &testing->runs,
                                          .rule = rule,
                                          .table = table,
                                          .limits = &rule->now,
                                          .limit_table = rule->limit_now,
                                          .then = compare_generated},
                                .testing = testing,
                                .limit = limit,
                                .number = number,
                                .inside = inside};
  example_run(&generated.tried);
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

static void test_rule(struct testing *testing, size_t number, struct rulebook_watch watch) {
  const struct rule *rule = testing->rule = testing->book->in_force[number];
  testing->has_flagged = testing->has_clear = testing->has_limit = false;
  if (watch.tell) watch.tell(watch.with, rule->facts.id, "");
  if (rule->facts.broken) {
    fail_line(testing, rule->facts.at.line, NULL,
              text_phrase(testing->text->arena, "cannot run: %s", rule->facts.broken));
    return;
  }
  const char *unusable = examples_take(testing->book, testing->book->in_force[number]);
  if (unusable) fail_line(testing, rule->facts.at.line, NULL, unusable);
  for (const struct value *table = rule->examples ? rule->examples->first : NULL; table; table = table->next)
    try_example(testing, table);
  check_examples(testing);
  try_limits(testing);
}

static void close_text(struct testing *testing, size_t rules) {
  struct text *text = testing->text;
  text_printf(text, "%zu %s tried: %zu passed, %zu failed", rules, rules == 1 ? "rule" : "rules",
              testing->counts.passed, testing->counts.failed);
  if (testing->counts.notes)
    text_printf(text, ", %zu %s", testing->counts.notes, testing->counts.notes == 1 ? "note" : "notes");
  text_add(text, ".\n");
}

// A file that could not be read at all has rules of which nobody knows: then the run does not count as whole.
static void close_tap(struct testing *testing) {
  const struct rulebook *book = testing->book;
  text_printf(testing->text, "1..%zu\n", testing->number);
  const char *lost = NULL;
  for (size_t i = 0; i < book->file_count && !lost; i++) lost = book->files[i]->usable ? NULL : book->files[i]->name;
  if (lost || testing->style.files_lost)
    text_printf(testing->text, "Bail out! %s cannot be read, and its rules were not tried\n",
                lost ? lost : "a rule file");
}

struct rule_test_counts rulebook_test(struct rulebook *book, struct text *text, struct rule_test_style style,
                                      struct rulebook_watch watch) {
  struct testing testing = {.book = book, .text = text, .runs = example_runs_in(book, text->arena), .style = style};
  if (style.tap) text_add(text, "TAP version 14\n");
  for (size_t i = 0; i < book->fact_count; i++) test_rule(&testing, i, watch);
  if (style.tap)
    close_tap(&testing);
  else
    close_text(&testing, book->fact_count);
  return testing.counts;
}
