// SPDX-License-Identifier: MIT
// What is certain without trying anything: between the bounds that the rows of a given set and the rule's own `when`,
// its limits must leave room for a value that meets them and for one that does not.
#include <math.h>
#include <string.h>

#include "rulebook/check.h"
#include "units/compare.h"
#include "units/read.h"

struct range {
  double low, high;
  bool open;  // low itself is no value of it
};

// `otherwise` where the text cannot be read, which claims nothing.
static double bound_of(struct arena *arena, const struct row *row, const char *text, double otherwise) {
  struct text wrong = text_in(arena), right = text_in(arena);
  struct reading reading;
  return unit_read(text, strlen(text), row->dimension, &reading, &wrong, &right) ? reading.value : otherwise;
}

static struct range range_of_row(struct arena *arena, const struct row *row) {
  struct range range = {-INFINITY, INFINITY, false};
  const char *low = row->above ? row->above : row->least;
  if (low) range.low = bound_of(arena, row, low, range.low);
  range.open = row->above != NULL;
  if (row->most && !row->unbounded) range.high = bound_of(arena, row, row->most, range.high);
  return range;
}

static struct range either(struct range a, struct range b) {
  bool same = a.low == b.low;
  return (struct range){fmin(a.low, b.low), fmax(a.high, b.high),
                        same            ? a.open && b.open
                        : a.low < b.low ? a.open
                                        : b.open};
}

// Of all kinds that the path can end at.
static struct range range_of(struct arena *arena, const struct path *path) {
  const struct path_step *last = &path->steps[path->count - 1];
  struct range range = {INFINITY, -INFINITY, true};
  for (int kind = 0; kind < KIND_COUNT; kind++) {
    if (!kinds_hold(path->last_rows_of, (enum kind)kind)) continue;
    range = either(range, range_of_row(arena, catalogue_row((enum row_id)last->rows[kind])));
  }
  return range;
}

static bool lies_below(double a, double b) {
  return a < b && (isinf(a) || isinf(b) || compare(a, b, 0) == STANDS_BELOW);
}

// Some value of the range is no less than the bound, or no more; and some is less, or more.
static bool reaches_up(struct range range, double bound) { return !lies_below(range.high, bound); }
static bool reaches_down(struct range range, double bound) {
  return lies_below(range.low, bound) || (!range.open && !lies_below(bound, range.low));
}

static bool can_meet(struct range range, const struct limit *limit) {
  return limit->sense == SENSE_AT_LEAST ? reaches_up(range, limit->value) : reaches_down(range, limit->value);
}
static bool can_break(struct range range, const struct limit *limit) {
  return limit->sense == SENSE_AT_LEAST ? lies_below(range.low, limit->value) : lies_below(limit->value, range.high);
}

static struct range narrowed(struct range range, const struct requirement *when) {
  if (when->sort == WHEN_AT_LEAST && !lies_below(when->bound, range.low)) {
    range.open = range.open && !lies_below(range.low, when->bound);
    range.low = when->bound;
  }
  if (when->sort == WHEN_AT_MOST) range.high = fmin(range.high, when->bound);
  return range;
}

static bool is_empty(struct range range) {
  return lies_below(range.high, range.low) || (range.open && !lies_below(range.low, range.high));
}

static bool same_path(const struct path *a, const struct path *b) { return strcmp(a->text, b->text) == 0; }

// The range that every requirement on this path leaves of it.
static struct range left_by_when(struct arena *arena, const struct rule *rule, const struct path *path) {
  struct range range = range_of(arena, path);
  for (size_t i = 0; i < rule->when_count; i++) {
    if (same_path(&rule->when[i].path, path)) range = narrowed(range, &rule->when[i]);
  }
  return range;
}

// True: one of them leaves nothing to judge, and that is told.
static bool never_applies(struct checking *checking) {
  const struct rule *rule = checking->rule;
  for (size_t i = 0; i < rule->when_count; i++) {
    const struct requirement *when = &rule->when[i];
    if (when->sort == WHEN_WORD || !is_empty(left_by_when(checking->arena, rule, &when->path))) continue;
    check_complain(checking, when->line, NULL,
                   text_phrase(checking->arena, "`%s` can never be so: the rule applies to nothing", when->path.text),
                   when->text, "a threshold within what a design can say");
    checking->settled = true;
    return true;
  }
  return false;
}

static const char *range_words(const struct rule *rule) {
  for (size_t i = 0; i < rule->when_count; i++) {
    if (same_path(&rule->when[i].path, &rule->judges)) return "within its bounds and `when`";
  }
  return "within its bounds";
}

static void tell(struct checking *checking, const struct limit *limit, const char *what) {
  const struct rule *rule = checking->rule;
  struct problem problem = {
      .said = text_phrase(checking->arena, "the rule can never %s: %s", what,
                          text_phrase(checking->arena, "every value that `%s` can have %s %s the limit",
                                      rule->judges.text, range_words(rule), strcmp(what, "flag") ? "breaks" : "meets")),
      .read = limit->text,
      .right = "a limit that some designs meet and others do not"};
  check_complain_at(checking, limit->at, problem);
  checking->settled = true;
}

static void check_numbers(struct checking *checking) {
  const struct limits *limits = &checking->rule->now;
  struct range range = left_by_when(checking->arena, checking->rule, &checking->rule->judges);
  bool flags = false;
  for (size_t i = 0; i < limits->count; i++) {
    flags = flags || can_break(range, &limits->list[i]);
    if (can_meet(range, &limits->list[i])) continue;
    tell(checking, &limits->list[i], "come out clear");
    return;
  }
  if (!flags && limits->count) tell(checking, &limits->list[0], "flag");
}

// ---- words ---------------------------------------------------------------------------------------------------------

static bool holds_word(const char *const *words, size_t count, const char *word) {
  for (size_t i = 0; i < count; i++) {
    if (strcmp(words[i], word) == 0) return true;
  }
  return false;
}

static bool when_allows(const struct rule *rule, const char *word) {
  for (size_t i = 0; i < rule->when_count; i++) {
    const struct requirement *when = &rule->when[i];
    if (same_path(&when->path, &rule->judges) && !holds_word(when->words, when->word_count, word)) return false;
  }
  return true;
}

static bool in_sets(const struct path *path, enum word_set set) {
  const struct path_step *last = &path->steps[path->count - 1];
  for (int kind = 0; kind < KIND_COUNT; kind++) {
    if (kinds_hold(path->last_rows_of, (enum kind)kind) && catalogue_row((enum row_id)last->rows[kind])->words == set)
      return true;
  }
  return false;
}

static void check_words(struct checking *checking) {
  const struct rule *rule = checking->rule;
  for (size_t i = 0; i < rule->now.count; i++) {
    const struct limit *limit = &rule->now.list[i];
    bool met = false, broken = false;
    for (int word = 0; word < WORD_COUNT; word++) {
      const struct word_row *row = catalogue_word((enum word)word);
      if (!in_sets(&rule->judges, row->set) || !when_allows(rule, row->word)) continue;
      bool meets = holds_word(limit->words, limit->word_count, row->word);
      met = met || meets;
      broken = broken || !meets;
    }
    if (!met || !broken) tell(checking, limit, met ? "flag" : "come out clear");
    if (!met || !broken) return;
  }
}

void check_range(struct checking *checking) {
  const struct rule *rule = checking->rule;
  if (never_applies(checking) || !rule->judges.count) return;
  if (rule->judges.sort == SORT_CHOICE)
    check_words(checking);
  else
    check_numbers(checking);
}
