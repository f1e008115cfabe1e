// SPDX-License-Identifier: MIT
// A rule's examples again with other values in them, from a fixed ladder and never by chance: one value at a time, then
// two at once. Only examples in which the judged value is worked out are of use: who states it can state anything.
#include <math.h>
#include <string.h>

#include "rulebook/check.h"
#include "units/read.h"
#include "units/write.h"

enum { LEAVES_MOST = 40, STEPS_MOST = 24, TRIES_MOST = 400, DEPTH_MOST = 8 };

struct leaf {
  struct value *value;
  const struct row *row;
  const char *steps[STEPS_MOST];  // texts to put there; the first few span the widest
  size_t count;
};

struct varying {
  struct checking *checking;
  struct arena *arena;  // of this example's variations
  struct value *table;  // a copy that is changed in place
  struct leaf leaves[LEAVES_MOST];
  size_t count;
  bool useful;                     // the judged value is worked out in it
  const struct leaf *one, *other;  // that are changed now; NULL: none
};

// ---- a copy to write in --------------------------------------------------------------------------------------------

static struct value *copy_of(struct arena *arena, const struct value *value) {
  struct value *copy = arena_alloc(arena, sizeof *copy);
  *copy = *value;
  struct value **at = &copy->first;
  for (const struct value *member = value->first; member; member = member->next) {
    *at = copy_of(arena, member);
    at = &(*at)->next;
  }
  return copy;
}

// ---- the ladder ----------------------------------------------------------------------------------------------------

static bool value_of(struct arena *arena, const struct row *row, const char *text, double *number) {
  struct text wrong = text_in(arena), right = text_in(arena);
  struct reading reading;
  bool read = text && unit_read(text, strlen(text), row->dimension, &reading, &wrong, &right);
  if (read) *number = reading.value;
  return read;
}

static void add_step(struct leaf *leaf, const char *text) {
  if (leaf->count < STEPS_MOST) leaf->steps[leaf->count++] = text;
}

static void add_number(struct varying *varying, struct leaf *leaf, double number) {
  struct text text = text_in(varying->arena);
  unit_write_exact(&text, leaf->row->whole ? round(number) : number, leaf->row->dimension, UNITS_SI);
  add_step(leaf, text_end(&text));
}

// A size to go by where the written value is 0: the first limit in the same dimension.
static double size_of(const struct varying *varying, const struct leaf *leaf, double written) {
  const struct rule *rule = varying->checking->rule;
  if (written != 0) return written;
  for (size_t i = 0; i < rule->own.count; i++) {
    const struct limit *limit = &rule->own.list[i];
    bool same = rule->judges.count ? rule->judges.dimension == leaf->row->dimension
                                   : powers_equal(limit->powers, dimension_row(leaf->row->dimension)->powers);
    if (same && !limit->words && limit->value != 0) return limit->value;
  }
  return 1;
}

static void add_numbers(struct varying *varying, struct leaf *leaf) {
  static const double parts[] = {0.1, 10, 0, 0.5, 2, 4, 0.25, 0.75, 1.25, 0.9, 1.1, 100, 0.01, -1};
  const struct row *row = leaf->row;
  double written = 0, bound;
  if (!value_of(varying->arena, row, value_shown(varying->arena, leaf->value), &written)) return;
  double size = size_of(varying, leaf, written);
  if (value_of(varying->arena, row, row->least, &bound)) add_number(varying, leaf, bound);
  if (value_of(varying->arena, row, row->most, &bound)) add_number(varying, leaf, bound);
  for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) add_number(varying, leaf, size * parts[i]);
}

static void add_words(struct leaf *leaf) {
  for (int word = 0; word < WORD_COUNT; word++) {
    const struct word_row *row = catalogue_word((enum word)word);
    if (row->set == leaf->row->words) add_step(leaf, row->word);
  }
}

// ---- the values of an example --------------------------------------------------------------------------------------

static void find_leaves(struct varying *varying, struct value *fields, enum kind kind, int depth);

static bool is_plain(const struct value *value) { return value->sort == VALUE_TEXT || value->sort == VALUE_NUMBER; }

static void add_leaf(struct varying *varying, struct value *value, const struct row *row) {
  if (varying->count == LEAVES_MOST || !is_plain(value)) return;
  struct leaf *leaf = &varying->leaves[varying->count++];
  *leaf = (struct leaf){.value = value, .row = row};
  if (row->sort == SORT_CHOICE)
    add_words(leaf);
  else
    add_numbers(varying, leaf);
}

static void find_in_list(struct varying *varying, struct value *list, const struct row *row, int depth) {
  for (struct value *member = list->first; member; member = member->next) {
    if (member->sort != VALUE_TABLE) continue;
    bool refers = row->sort == SORT_REFERENCES;
    find_leaves(varying, member, refers ? example_kind_for(row->targets, member) : row->part, depth);
  }
}

static void find_in_field(struct varying *varying, struct value *field, enum kind kind, int depth) {
  enum row_id id = field->key ? catalogue_row_named(kind, field->key, strlen(field->key)) : ROW_COUNT;
  if (id == ROW_COUNT) return;
  const struct row *row = catalogue_row(id);
  if (row_is_number(row) || row->sort == SORT_CHOICE)
    add_leaf(varying, field, row);
  else if (row->sort == SORT_REFERENCE && field->sort == VALUE_TABLE)
    find_leaves(varying, field, example_kind_for(row->targets, field), depth);
  else if (row_is_list(row) && row->sort != SORT_SHAPE && field->sort == VALUE_TABLE)
    find_in_list(varying, field, row, depth);
}

static void find_leaves(struct varying *varying, struct value *fields, enum kind kind, int depth) {
  if (depth == DEPTH_MOST || kind == KIND_COUNT) return;
  for (struct value *field = fields->first; field; field = field->next) find_in_field(varying, field, kind, depth + 1);
}

static void find_all(struct varying *varying) {
  for (struct value *member = varying->table->first; member; member = member->next) {
    if (!member->key || member->sort != VALUE_TABLE) continue;
    find_leaves(varying, member, catalogue_kind_named(member->key, strlen(member->key)), 0);
  }
}

// ---- trying --------------------------------------------------------------------------------------------------------

// `shallow" with depth = "3 m" and valve = "ball`, to stand in quotes.
static const char *name_of(const struct varying *varying, struct arena *arena) {
  const struct leaf *one = varying->one, *other = varying->other;
  struct text text = text_in(arena);
  text_printf(&text, "%s\" with %s = \"%s", example_run_name(varying->table), one->row->name, one->value->text);
  if (other) text_printf(&text, "\" and %s = \"%s", other->row->name, other->value->text);
  return text_end(&text);
}

struct variation {
  struct example_run tried;
  struct varying *varying;
  bool first;  // the example as it is
};

static void take_variation(struct example_run *tried) {
  struct variation *variation = (struct variation *)tried;
  struct checking *checking = variation->varying->checking;
  if (variation->first) {
    bool before = checking->worked_out;
    checking->worked_out = false;
    if (tried->built) check_take_outcome(checking, tried, example_run_name(tried->table));
    variation->varying->useful = checking->worked_out;
    checking->worked_out = before;
    return;
  }
  if (!tried->built || tried->outcome.sort == OUTCOME_NOT_APPLICABLE) return;
  checking->variations++;
  check_take_outcome(checking, tried, name_of(variation->varying, tried->arena));
}

static void try_it(struct varying *varying, bool first) {
  struct checking *checking = varying->checking;
  struct variation variation = {.tried = {.runs = &checking->runs,
                                          .rule = checking->rule,
                                          .table = varying->table,
                                          .limits = &checking->rule->own,
                                          .limit_table = checking->rule->limit_own,
                                          .then = take_variation},
                                .varying = varying,
                                .first = first};
  example_run(&variation.tried);
}

static bool is_done(const struct checking *checking) {
  bool both = checking->flagged && checking->clear && checking->rule->check == NO_REF;
  return both || checking->broken_line || checking->variations >= TRIES_MOST;
}

static void put(struct leaf *leaf, const char *text) {
  leaf->value->sort = VALUE_TEXT;
  leaf->value->text = text;
}

// Steps of every later leaf beside the one that stands now.
static void vary_others(struct varying *varying, size_t from, size_t steps) {
  for (size_t k = from; k < varying->count; k++) {
    struct leaf *other = &varying->leaves[k];
    struct value kept = *other->value;
    varying->other = other;
    for (size_t n = 0; n < steps && n < other->count && !is_done(varying->checking); n++) {
      put(other, other->steps[n]);
      try_it(varying, false);
    }
    *other->value = kept;
  }
  varying->other = NULL;
}

// Every step of one leaf; others: the first of them alone, and as many of each later one with it.
static void vary(struct varying *varying, size_t number, size_t others) {
  struct leaf *leaf = &varying->leaves[number];
  struct value kept = *leaf->value;
  size_t most = others && leaf->count > others ? others : leaf->count;
  varying->one = leaf;
  for (size_t i = 0; i < most && !is_done(varying->checking); i++) {
    put(leaf, leaf->steps[i]);
    if (others)
      vary_others(varying, number + 1, others);
    else
      try_it(varying, false);
  }
  *leaf->value = kept;
}

static void vary_example(struct varying *varying, size_t others) {
  for (size_t i = 0; i < varying->count; i++) vary(varying, i, others);
}

static bool is_whole_example(const struct value *table) {
  return table->sort == VALUE_TABLE && example_run_name(table) && example_run_expected(table);
}

static void begin_example(struct varying *varying, const struct value *table) {
  varying->table = copy_of(varying->arena, table);
  varying->count = 0;
  find_all(varying);
  try_it(varying, true);
}

static void vary_examples(struct checking *checking, size_t others) {
  const struct value *examples = checking->rule->examples;
  struct varying *varying = arena_alloc(checking->arena, sizeof *varying);
  *varying = (struct varying){.checking = checking, .arena = checking->arena};
  for (const struct value *table = examples ? examples->first : NULL; table; table = table->next) {
    if (is_done(checking)) return;
    if (!is_whole_example(table)) continue;
    begin_example(varying, table);
    if (varying->useful) vary_example(varying, others);
  }
}

void check_variations(struct checking *checking) {
  enum { WIDEST = 4 };
  if (!checking->worked_out || checking->broken_line) return;
  vary_examples(checking, 0);
  vary_examples(checking, WIDEST);
}
