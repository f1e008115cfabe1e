// SPDX-License-Identifier: MIT
#include "report/wording_inside.h"

#include <math.h>
#include <string.h>

#include "base/number.h"
#include "design/overlay.h"
#include "units/write.h"

enum { FINEST = 6, MOST_NAMES = 3 };

void word_doubt(struct text *text) { text_add(text, " (in doubt)"); }

void word_count(struct text *text, size_t count, const char *one, const char *many) {
  number_write(text, (double)count, 0, true);
  text_add_char(text, ' ');
  text_add(text, count == 1 ? one : many);
}

void word_name(struct text *text, const struct wording *wording, int entity) {
  const char *name = entity < 0 ? NULL : evaluation_design(wording->ev)->entities[entity].name;
  if (name) {
    text_add(text, name);
  } else {
    word_entity(text, wording, entity);
  }
}

void word_entity(struct text *text, const struct wording *wording, int entity) {
  if (entity < 0) {
    text_add(text, "the design");
  } else {
    store_describe_entity(text, evaluation_design(wording->ev), entity);
  }
}

// --- numbers

struct write_style word_style(const struct wording *wording, enum row_id row) {
  struct write_style style = {.system = wording->units};
  if (row == ROW_COUNT) return style;
  const struct row *facts = catalogue_row(row);
  style.decimal = facts->decimal;
  const char *unit = wording->units == UNITS_US ? facts->us : facts->si;
  if (unit) style.unit = unit_named(unit, strlen(unit));
  return style;
}

static const char *unbounded_word(enum row_id row) {
  const char *word = row == ROW_COUNT ? NULL : catalogue_row(row)->unbounded;
  return word ? word : "without bound";
}

void word_size(struct text *text, const struct wording *wording, enum row_id row, enum dimension dimension,
               double value) {
  if (isinf(value)) {
    text_add(text, unbounded_word(row));
  } else if (dimension == DIMENSION_COUNT) {
    number_write_short(text, value, 3, true);
  } else {
    unit_write(text, value, dimension, word_style(wording, row));
  }
}

void word_number(struct text *text, const struct wording *wording, enum row_id row, double value) {
  word_size(text, wording, row, catalogue_row(row)->dimension, value);
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
  struct write_style style = word_style(wording, row);
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

void word_measured(struct text *text, const struct wording *wording, int entity, enum row_id row) {
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

void word_said_by(struct text *text, const struct wording *wording, int entity, enum row_id row) {
  const struct overlay *said = store_at(evaluation_design(wording->ev), entity, row)->said;
  if (said) text_printf(text, " by %s (%s:%d)", said->by, said->at.file ? said->at.file : "?", said->at.line);
}

static bool is_tried(const struct wording *wording, int entity, enum row_id row) {
  const struct overlay *said = store_at(evaluation_design(wording->ev), entity, row)->said;
  return said && !said->unless_written;
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
  text_add(text, is_tried(wording, entity, row) ? "tried" : origins[condition]);
  if (condition == CONDITION_DEFAULT) word_said_by(text, wording, entity, row);
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
