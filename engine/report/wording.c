// SPDX-License-Identifier: MIT
#include "report/wording.h"

#include <math.h>
#include <string.h>

#include "base/number.h"
#include "units/write.h"

enum { FINEST = 6, MOST_ROOTS = 3, MOST_NAMES = 3 };

void word_doubt(struct text *text) { text_add(text, "; outside the tested range of its formula"); }

void word_count(struct text *text, size_t count, const char *one, const char *many) {
  number_write(text, (double)count, 0, true);
  text_add_char(text, ' ');
  text_add(text, count == 1 ? one : many);
}

void word_entity(struct text *text, const struct wording *wording, int entity) {
  if (entity < 0) {
    text_add(text, "the design");
  } else {
    store_describe_entity(text, evaluation_design(wording->ev), entity);
  }
}

// --- numbers

static struct write_style style_of(const struct wording *wording, enum row_id row) {
  struct write_style style = {.system = wording->units};
  if (row == ROW_COUNT) return style;
  const struct row *facts = catalogue_row(row);
  const char *unit = wording->units == UNITS_US ? facts->us : facts->si;
  if (unit) style.unit = unit_named(unit, strlen(unit));
  return style;
}

static const char *unbounded_word(enum row_id row) {
  const char *word = row == ROW_COUNT ? NULL : catalogue_row(row)->unbounded;
  return word ? word : "without bound";
}

static void write_number(struct text *text, const struct wording *wording, enum row_id row, enum dimension dimension,
                         double value) {
  if (isinf(value)) {
    text_add(text, unbounded_word(row));
  } else if (dimension == DIMENSION_COUNT) {
    number_write_short(text, value, 3, true);
  } else {
    unit_write(text, value, dimension, style_of(wording, row));
  }
}

void word_number(struct text *text, const struct wording *wording, enum row_id row, double value) {
  write_number(text, wording, row, catalogue_row(row)->dimension, value);
}

// Differences of points are plain lengths and so on; a temperature's has no name of its own and is shown bare.
static enum dimension dimension_of_difference(enum dimension dimension) {
  if (dimension == DIMENSION_COUNT) return DIMENSION_COUNT;
  struct powers powers = dimension_row(dimension)->powers;
  powers.point = 0;
  return dimension_of_powers(powers);
}

// As fine as it takes for a difference not to read as none.
static void write_difference(struct text *text, const struct wording *wording, enum row_id row,
                             enum dimension of_dimension, double difference) {
  enum dimension dimension = dimension_of_difference(of_dimension);
  if (dimension == DIMENSION_COUNT) {
    number_write_short(text, difference, 3, true);
    return;
  }
  struct write_style style = style_of(wording, row);
  if (dimension != of_dimension) style.unit = NULL;
  struct text shown, none;
  do {
    shown = text_in(text->arena);
    none = text_in(text->arena);
    unit_write(&shown, difference, dimension, style);
    unit_write(&none, 0, dimension, style);
  } while (strcmp(text_end(&shown), text_end(&none)) == 0 && ++style.finer <= FINEST);
  text_add(text, text_end(&shown));
}

// --- values

static void word_choice(struct text *text, const struct wording *wording, int entity, enum row_id row) {
  enum word word = evaluation_choice(wording->ev, entity, row);
  if (word != WORD_COUNT) text_add(text, catalogue_word(word)->word);
}

static void word_reference(struct text *text, const struct wording *wording, int entity, enum row_id row) {
  int to = evaluation_reference(wording->ev, entity, row);
  if (to >= 0) word_entity(text, wording, to);
}

// What a list of references or of what refers to an entity stands for; a part stands for itself.
static int member(const struct wording *wording, int entity, enum row_id row, size_t index) {
  int found = evaluation_member(wording->ev, entity, row, index);
  bool linked = catalogue_row(row)->sort == SORT_REFERENCES;
  return linked ? evaluation_reference(wording->ev, found, ROW_link_to) : found;
}

static void word_members(struct text *text, const struct wording *wording, int entity, enum row_id row) {
  size_t count = evaluation_members(wording->ev, entity, row);
  for (size_t i = 0; i < count && i < MOST_NAMES; i++) {
    if (i) text_add(text, ", ");
    word_entity(text, wording, member(wording, entity, row, i));
  }
  if (count == 0) text_add(text, "none");
  if (count > MOST_NAMES) text_printf(text, " and %zu more", count - MOST_NAMES);
}

static void word_parts(struct text *text, const struct wording *wording, int entity, enum row_id row) {
  size_t count = evaluation_members(wording->ev, entity, row);
  if (count == 0) {
    text_add(text, "none");
  } else {
    text_printf(text, "%zu of them", count);
  }
}

static void word_text(struct text *text, const struct wording *wording, int entity, enum row_id row) {
  text_printf(text, "\"%s\"", evaluation_text(wording->ev, entity, row));
}

static void word_amount(struct text *text, const struct wording *wording, int entity, enum row_id row) {
  word_number(text, wording, row, evaluation_number(wording->ev, entity, row));
}

static void word_bundle(struct text *text, const struct wording *wording, int entity, enum row_id row) {
  (void)wording, (void)entity;
  text_add(text, catalogue_row(row)->says);
}

static const char *const lacks[] = {
    [CONDITION_UNSET] = "not given",
    [CONDITION_MISSING] = "could not be worked out: something it needs is missing",
    [CONDITION_IMPOSSIBLE] = "could not be worked out: what is given contradicts itself",
    [CONDITION_OUTSIDE] = NULL,
};

static const char *lack_of(const struct wording *wording, int entity, enum row_id row) {
  enum row_sort sort = catalogue_row(row)->sort;
  bool counts_itself = sort == SORT_PARTS || sort == SORT_REFERENCES || sort == SORT_BACK;
  return counts_itself ? NULL : lacks[evaluation_condition(wording->ev, entity, row)];
}

bool word_has_value(const struct wording *wording, int entity, enum row_id row) {
  return lack_of(wording, entity, row) == NULL;
}

void word_value(struct text *text, const struct wording *wording, int entity, enum row_id row) {
  static void (*const words[])(struct text *, const struct wording *, int, enum row_id) = {
      [SORT_NUMBER] = word_amount,       [SORT_CHOICE] = word_choice,      [SORT_TEXT] = word_text,
      [SORT_REFERENCE] = word_reference, [SORT_REFERENCES] = word_members, [SORT_PARTS] = word_parts,
      [SORT_SHAPE] = word_choice,        [SORT_BACK] = word_members,       [SORT_QUANTITY] = word_amount,
      [SORT_BUNDLE] = word_bundle,
  };
  const char *lack = lack_of(wording, entity, row);
  if (lack) {
    text_add(text, lack);
  } else {
    words[catalogue_row(row)->sort](text, wording, entity, row);
  }
}

// --- where values come from

// Most means of measuring are held in the hand; these read otherwise.
static void word_means(struct text *text, const char *how) {
  if (!how || !*how) return;
  text_add(text, strcmp(how, "eye") == 0 ? " by " : " with a ");
  text_add(text, how);
}

static void word_measured(struct text *text, const struct wording *wording, int entity, enum row_id row) {
  const struct store *design = evaluation_design(wording->ev);
  const struct measurement *measured = store_measured(design, store_slot(design, entity, row));
  text_add(text, "measured");
  word_means(text, measured ? measured->how : NULL);
  double worked_out = evaluation_unmeasured(wording->ev, entity, row);
  if (isnan(worked_out)) return;
  text_add(text, "; ");
  word_number(text, wording, row, worked_out);
  text_add(text, " is worked out");
}

static void word_tolerance(struct text *text, const struct wording *wording, int entity, enum row_id row) {
  double tolerance = store_at(evaluation_design(wording->ev), entity, row)->tolerance;
  if (catalogue_row(row)->sort != SORT_NUMBER || isnan(tolerance)) return;
  text_add(text, " +/- ");
  write_difference(text, wording, row, catalogue_row(row)->dimension, tolerance);
}

void word_origin(struct text *text, const struct wording *wording, int entity, enum row_id row) {
  static const char *const origins[] = {
      [CONDITION_UNSET] = "",
      [CONDITION_GIVEN] = "given",
      [CONDITION_DEFAULT] = "a default",
      [CONDITION_COMPUTED] = "worked out",
      [CONDITION_MEASURED] = "measured",
      [CONDITION_MISSING] = "",
      [CONDITION_IMPOSSIBLE] = "",
      [CONDITION_OUTSIDE] = "worked out, outside the tested range of its formula",
  };
  enum condition condition = evaluation_condition(wording->ev, entity, row);
  if (catalogue_row(row)->sort == SORT_BACK) return;
  if (condition == CONDITION_MEASURED) {
    word_measured(text, wording, entity, row);
    return;
  }
  text_add(text, origins[condition]);
  if (condition != CONDITION_GIVEN) return;
  word_tolerance(text, wording, entity, row);
  int line = store_at(evaluation_design(wording->ev), entity, row)->line;
  if (line > 0) text_printf(text, ", line %d", line);
}

// --- rows

void word_choice_list(struct text *text, enum row_id row) {
  if (catalogue_row(row)->sort != SORT_CHOICE) return;
  const char *held_back = NULL;
  bool first = true;
  for (int w = 0; w < WORD_COUNT; w++) {
    const struct word_row *word = catalogue_word((enum word)w);
    if (word->set != catalogue_row(row)->words) continue;
    if (held_back) text_printf(text, first ? "%s" : ", %s", held_back);
    first = first && !held_back;
    held_back = word->word;
  }
  if (held_back) text_printf(text, first ? "%s" : " or %s", held_back);
}

void word_formula(struct text *text, const char *formula) {
  for (; *formula; formula++) {
    if (*formula != '{' && *formula != '}') text_add_char(text, *formula);
  }
}

void word_source(struct text *text, enum source source) {
  const struct source_row *row = catalogue_source(source);
  text_add(text, row->title);
  const char *mark = catalogue_mark(row->mark);
  if (*mark && strcmp(mark, row->title) != 0) text_printf(text, " (%s)", mark);
}

void word_slot(struct text *text, const struct wording *wording, int slot, int seen_from) {
  const struct store *design = evaluation_design(wording->ev);
  int entity;
  enum row_id row = store_row_of_slot(design, slot, &entity);
  const char *says = catalogue_row(row)->says;
  if (says) text_printf(text, "%s (", says);
  if (entity == seen_from) {
    text_add(text, catalogue_row(row)->name);
  } else {
    store_describe(text, design, entity, row);
  }
  if (says) text_add_char(text, ')');
}

void word_slot_because(struct text *text, const struct wording *wording, int slot) {
  const char *because = evaluation_because(wording->ev, slot);
  if (because) text_printf(text, ": %s", because);
}

// --- outcomes

void word_missing(struct text *text, const struct wording *wording, const int *slots, size_t count, int seen_from) {
  text_add(text, "missing: ");
  size_t shown = count < MOST_ROOTS ? count : MOST_ROOTS;
  for (size_t i = 0; i < shown; i++) {
    if (i) text_add(text, "; ");
    word_slot(text, wording, slots[i], seen_from);
  }
  if (shown < count) text_printf(text, "; and %zu more", count - shown);
}

void word_unanswered(struct text *text, const struct wording *wording, const struct outcome *outcome) {
  text_add(text, "unanswered; ");
  if (outcome->root_count) {
    word_missing(text, wording, outcome->roots, outcome->root_count, outcome->entity);
  } else {
    text_add(text, outcome->because ? outcome->because : "it could not be worked out, see the problems found");
  }
}

static void word_judged(struct text *text, const struct wording *wording, int entity,
                        const struct comparison *comparison) {
  const char *says = comparison->row == ROW_COUNT ? NULL : catalogue_row(comparison->row)->says;
  bool of_another = comparison->entity >= 0 && comparison->entity != entity;
  if (of_another) {
    word_entity(text, wording, comparison->entity);
    text_add(text, ": ");
  }
  // A remark that says more of the value follows a semicolon, and is left out.
  if (says) text_add_bytes(text, says, strcspn(says, ";"));
  if (!says) text_add(text, "what the rule reckons");
}

static bool is_measured(const struct wording *wording, const struct comparison *comparison) {
  return comparison->entity >= 0 && comparison->row != ROW_COUNT &&
         evaluation_condition(wording->ev, comparison->entity, comparison->row) == CONDITION_MEASURED;
}

static void write_pair(struct text *value, struct text *limit, const struct wording *wording,
                       const struct comparison *comparison) {
  if (comparison->dimension == DIMENSION_COUNT || isinf(comparison->value) || isinf(comparison->limit)) {
    write_number(value, wording, comparison->row, comparison->dimension, comparison->value);
    write_number(limit, wording, comparison->row, comparison->dimension, comparison->limit);
  } else {
    unit_write_pair(value, limit, comparison->value, comparison->limit, comparison->dimension,
                    style_of(wording, comparison->row));
  }
}

static const struct {
  const char *before, *after, *amiss;
} senses[] = {
    [SENSE_AT_LEAST] = {"at least ", " is asked", "short"},
    [SENSE_AT_MOST] = {"at most ", " is allowed", "over"},
};

static void word_numbers(struct text *text, const struct wording *wording, int entity,
                         const struct comparison *comparison) {
  struct text value = text_in(text->arena), limit = text_in(text->arena);
  write_pair(&value, &limit, wording, comparison);
  struct text judged = text_in(text->arena);
  word_judged(&judged, wording, entity, comparison);
  // "weight of one piece, high, is 98 lb": a remark set off by a comma is closed by one.
  text_printf(text, "%s%s is %s", text_end(&judged), strchr(text_end(&judged), ',') ? "," : "", text_end(&value));
  if (is_measured(wording, comparison)) {
    text_add(text, " (");
    word_measured(text, wording, comparison->entity, comparison->row);
    text_add_char(text, ')');
  }
  text_printf(text, ", %s%s%s", senses[comparison->sense].before, text_end(&limit), senses[comparison->sense].after);
  if (comparison->satisfied || !isfinite(comparison->margin)) return;
  text_add(text, " (");
  write_difference(text, wording, comparison->row, comparison->dimension, fabs(comparison->margin));
  text_printf(text, " %s)", senses[comparison->sense].amiss);
}

// A rule's words say what must be so, which reads as a reproach where it is.
static void word_must(struct text *text, const struct wording *wording, int entity,
                      const struct comparison *comparison) {
  (void)wording, (void)entity;
  if (comparison->satisfied) {
    text_add(text, "what the rule asks holds");
    return;
  }
  text_add(text, comparison->words ? comparison->words : "the rule's condition does not hold");
}

static void word_is(struct text *text, const struct wording *wording, int entity, const struct comparison *comparison) {
  word_judged(text, wording, entity, comparison);
  text_printf(text, ": %s", comparison->words ? comparison->words : "something else");
  if (comparison->asked) text_printf(text, "; %s is asked", comparison->asked);
}

void word_comparison(struct text *text, const struct wording *wording, int entity,
                     const struct comparison *comparison) {
  static void (*const words[])(struct text *, const struct wording *, int, const struct comparison *) = {
      [SENSE_AT_LEAST] = word_numbers,
      [SENSE_AT_MOST] = word_numbers,
      [SENSE_MUST] = word_must,
      [SENSE_IS] = word_is,
  };
  words[comparison->sense](text, wording, entity, comparison);
}

void word_outcome(struct text *text, const struct wording *wording, const struct outcome *outcome) {
  if (outcome->sort == OUTCOME_UNANSWERED) {
    word_unanswered(text, wording, outcome);
  } else if (outcome->judged >= 0) {
    word_comparison(text, wording, outcome->entity, &outcome->comparisons[outcome->judged]);
  } else {
    text_add(text, outcome->because ? outcome->because : "as the rule judges it");
  }
  if (outcome->in_doubt) word_doubt(text);
}
