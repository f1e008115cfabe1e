// SPDX-License-Identifier: MIT
// Outcomes in words: what was judged against what, and what is missing.
#include <math.h>
#include <string.h>

#include "base/number.h"
#include "report/wording_inside.h"

enum { MOST_ROOTS = 3 };

// --- unanswered

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

// --- what would answer it

static void find_size(struct text *text, const struct wording *wording, enum row_id row) {
  const struct row *facts = catalogue_row(row);
  const struct dimension_row *dimension = dimension_row(facts->dimension);
  const char *unit = facts->si ? facts->si : dimension->si;
  if (wording->units == UNITS_SI && *unit) {
    text_printf(text, "%s, in %s", dimension->says, unit);
  } else {
    text_printf(text, "%s, with its unit", dimension->says);  // no number that somebody could copy
  }
}

static void find_choice(struct text *text, const struct wording *wording, enum row_id row) {
  (void)wording;
  word_choice_list(text, row);
}

static void find_reference(struct text *text, const struct wording *wording, enum row_id row) {
  (void)wording;
  const char *before = "the name of a ";
  for (int kind = 0; kind < KIND_COUNT; kind++) {
    if (!(catalogue_row(row)->targets >> kind & 1)) continue;
    text_printf(text, "%s%s", before, catalogue_kind((enum kind)kind)->name);
    before = " or ";
  }
}

static void find_measured(struct text *text, const struct wording *wording, enum row_id row) {
  text_add(text, "measure it on site, ");
  find_size(text, wording, row);
}

void word_find_out(struct text *text, const struct wording *wording, int slot) {
  static void (*const finds[])(struct text *, const struct wording *, enum row_id) = {
      [SORT_NUMBER] = find_size,          [SORT_CHOICE] = find_choice,     [SORT_REFERENCE] = find_reference,
      [SORT_REFERENCES] = find_reference, [SORT_QUANTITY] = find_measured, [SORT_BUNDLE] = NULL,
  };
  const struct store *design = evaluation_design(wording->ev);
  int entity;
  enum row_id row = store_row_of_slot(design, slot, &entity);
  store_describe(text, design, entity, row);
  enum row_sort sort = catalogue_row(row)->sort;
  if (finds[sort]) {
    text_add(text, ": ");
    finds[sort](text, wording, row);
  } else {
    word_slot_because(text, wording, slot);
  }
}

// --- comparisons

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

struct figures {
  struct text value, limit, margin;
};

static bool have_unit(const struct comparison *comparison) {
  return comparison->dimension != DIMENSION_COUNT && isfinite(comparison->value) && isfinite(comparison->limit);
}

static struct figures figures_of(struct arena *arena, const struct wording *wording,
                                 const struct comparison *comparison) {
  struct figures figures = {text_in(arena), text_in(arena), text_in(arena)};
  enum row_id row = comparison->row;
  enum dimension dimension = comparison->dimension;
  if (!have_unit(comparison)) {
    word_size(&figures.value, wording, row, dimension, comparison->value);
    word_size(&figures.limit, wording, row, dimension, comparison->limit);
    number_write_short(&figures.margin, fabs(comparison->margin), 3, true);
  } else if (comparison->satisfied) {
    unit_write_pair(&figures.value, &figures.limit, comparison->value, comparison->limit, dimension,
                    word_style(wording, row));
  } else {
    unit_write_apart(&figures.value, &figures.limit, &figures.margin, comparison->value, comparison->limit, dimension,
                     word_style(wording, row));
  }
  return figures;
}

static const struct {
  const char *before, *after, *after_short, *amiss;
} senses[] = {
    [SENSE_AT_LEAST] = {"at least ", " is asked", " asked", "short"},
    [SENSE_AT_MOST] = {"at most ", " is allowed", " allowed", "over"},
};

// What is left of something, and there is not even that: amounts below 0; levels and temperatures lie below theirs.
static bool is_less_than_none(const struct comparison *comparison) {
  bool is_amount = have_unit(comparison) && dimension_row(comparison->dimension)->powers.point == 0;
  return is_amount && comparison->sense == SENSE_AT_LEAST && comparison->value < 0 && comparison->limit >= 0;
}

static void word_value_judged(struct text *text, const struct wording *wording, const struct comparison *comparison,
                              struct figures *figures, bool doubt) {
  const char *value = text_end(&figures->value);
  bool none = is_less_than_none(comparison) && value[0] == '-';
  text_printf(text, none ? "none, and %s too little" : "%s", none ? value + 1 : value);
  if (doubt) word_doubt(text);
  if (!is_measured(wording, comparison)) return;
  text_add(text, " (");
  word_measured(text, wording, comparison->entity, comparison->row);
  text_add_char(text, ')');
}

// "weight of one piece, high, is 98 lb": a remark set off by a comma is closed by one.
static void word_subject(struct text *text, const struct wording *wording, int entity,
                         const struct comparison *comparison) {
  struct text judged = text_in(text->arena);
  word_judged(&judged, wording, entity, comparison);
  text_printf(text, "%s%s ", text_end(&judged), strchr(text_end(&judged), ',') ? "," : "");
}

static void word_numbers(struct text *text, const struct wording *wording, int entity,
                         const struct comparison *comparison, bool doubt) {
  struct figures figures = figures_of(text->arena, wording, comparison);
  word_subject(text, wording, entity, comparison);
  text_add(text, "is ");
  word_value_judged(text, wording, comparison, &figures, doubt);
  text_printf(text, ", %s%s%s", senses[comparison->sense].before, text_end(&figures.limit),
              senses[comparison->sense].after);
  if (comparison->satisfied || !isfinite(comparison->margin)) return;
  text_printf(text, " (%s %s)", text_end(&figures.margin), senses[comparison->sense].amiss);
}

// A rule's words say what must be so, which reads as a reproach where it is.
static void word_must(struct text *text, const struct wording *wording, int entity, const struct comparison *comparison,
                      bool doubt) {
  (void)wording, (void)entity;
  const char *amiss = comparison->words ? comparison->words : "the rule's condition does not hold";
  text_add(text, comparison->satisfied ? "what the rule asks holds" : amiss);
  if (doubt) word_doubt(text);
}

static void word_is(struct text *text, const struct wording *wording, int entity, const struct comparison *comparison,
                    bool doubt) {
  word_judged(text, wording, entity, comparison);
  text_printf(text, ": %s", comparison->words ? comparison->words : "something else");
  if (doubt) word_doubt(text);
  if (comparison->asked) text_printf(text, "; %s is asked", comparison->asked);
}

static void word_judgement(struct text *text, const struct wording *wording, int entity,
                           const struct comparison *comparison, bool doubt) {
  static void (*const words[])(struct text *, const struct wording *, int, const struct comparison *, bool) = {
      [SENSE_AT_LEAST] = word_numbers,
      [SENSE_AT_MOST] = word_numbers,
      [SENSE_MUST] = word_must,
      [SENSE_IS] = word_is,
  };
  words[comparison->sense](text, wording, entity, comparison, doubt);
}

void word_comparison(struct text *text, const struct wording *wording, int entity,
                     const struct comparison *comparison) {
  word_judgement(text, wording, entity, comparison, false);
}

void word_outcome(struct text *text, const struct wording *wording, const struct outcome *outcome) {
  if (outcome->sort == OUTCOME_UNANSWERED) {
    word_unanswered(text, wording, outcome);
  } else if (outcome->judged >= 0) {
    word_judgement(text, wording, outcome->entity, &outcome->comparisons[outcome->judged], outcome->in_doubt);
  } else {
    text_add(text, outcome->because ? outcome->because : "as the rule judges it");
    if (outcome->in_doubt) word_doubt(text);
  }
}

void word_outcome_short(struct text *text, const struct wording *wording, const struct outcome *outcome) {
  const struct comparison *one = outcome->judged < 0 ? NULL : &outcome->comparisons[outcome->judged];
  if (!one) {
    text_add(text, outcome->because ? outcome->because : "as the rule judges it");
  } else if (one->sense == SENSE_MUST || one->sense == SENSE_IS) {
    word_comparison(text, wording, outcome->entity, one);
  } else {
    struct figures figures = figures_of(text->arena, wording, one);
    word_subject(text, wording, outcome->entity, one);
    word_value_judged(text, wording, one, &figures, false);
    text_printf(text, ", %s%s%s", senses[one->sense].before, text_end(&figures.limit), senses[one->sense].after_short);
  }
}
