// SPDX-License-Identifier: MIT
#include "report/explain.h"

#include "report/page.h"
#include "report/wording.h"

enum { WIDTH = 80, STEP = 2, DEEPEST = 16 };

struct working {
  struct page page;
  struct wording wording;
  const struct store *design;
  bool *shown;  // by slot
};

static struct text words_in(struct working *working) { return text_in(working->page.text.arena); }

// `spill "left lip".flow = 1,530 gal/h   worked out`
static void write_value(struct working *working, size_t indent, int entity, enum row_id row, const char *after) {
  struct text words = words_in(working);
  store_describe(&words, working->design, entity, row);
  text_add(&words, " = ");
  word_value(&words, &working->wording, entity, row);
  struct text origin = words_in(working);
  word_origin(&origin, &working->wording, entity, row);
  if (origin.length) text_printf(&words, " (%s)", text_end(&origin));
  text_add(&words, after);
  page_wrap(&working->page, indent, 2 * STEP, text_end(&words));
}

static void write_formula(struct working *working, size_t indent, const char *label, const char *formula) {
  if (!formula) return;
  struct text words = words_in(working);
  word_formula(&words, formula);
  page_labelled(&working->page, indent, 2 * STEP, PAINT_PLAIN, label, text_end(&words));
}

static void write_row(struct working *working, size_t indent, enum row_id row) {
  const struct row *facts = catalogue_row(row);
  if (facts->says) page_wrap(&working->page, indent, 2 * STEP, facts->says);
  write_formula(working, indent, "Formula: ", facts->formula);
  write_formula(working, indent, "Check: ", facts->check);
  if (facts->source == SOURCE_NONE) return;
  struct text source = words_in(working);
  word_source(&source, facts->source);
  page_labelled(&working->page, indent, 2 * STEP, PAINT_PLAIN, "Source: ", text_end(&source));
}

// --- the tree

// Lists of what refers to an entity, when nothing does: every solve looks through many of them.
static bool is_empty_list(const struct working *working, int entity, enum row_id row) {
  return catalogue_row(row)->sort == SORT_BACK && store_members(working->design, entity, row) == 0;
}

static void write_reads(struct working *working, size_t depth, int slot);

static void write_read(struct working *working, size_t depth, int slot) {
  int entity;
  enum row_id row = store_row_of_slot(working->design, slot, &entity);
  const int *reads;
  size_t count = evaluation_reads(working->wording.ev, slot, &reads);
  size_t indent = depth * STEP;
  if (is_empty_list(working, entity, row)) return;
  if (working->shown[slot]) {
    write_value(working, indent, entity, row, count ? "; its working is shown above" : "");
    return;
  }
  working->shown[slot] = true;
  write_value(working, indent, entity, row, "");
  if (count == 0) return;
  const struct row *facts = catalogue_row(row);
  write_formula(working, indent + 2 * STEP, "= ", facts->formula);
  write_reads(working, depth + 1, slot);
}

static void write_reads(struct working *working, size_t depth, int slot) {
  const int *reads;
  size_t count = evaluation_reads(working->wording.ev, slot, &reads);
  if (count && depth > DEEPEST) {
    page_wrap(&working->page, depth * STEP, 0, "deeper working is left out here: explain the value above by itself");
    return;
  }
  for (size_t i = 0; i < count; i++) write_read(working, depth, reads[i]);
}

static void write_missing(struct working *working, int slot) {
  int *roots;
  size_t count = evaluation_roots(working->wording.ev, &slot, 1, &roots);
  if (count == 0) return;
  page_heading(&working->page, "Missing");
  for (size_t i = 0; i < count; i++) {
    struct text words = words_in(working);
    word_slot(&words, &working->wording, roots[i], -1);
    word_slot_because(&words, &working->wording, roots[i]);
    page_wrap(&working->page, STEP, STEP, text_end(&words));
  }
}

static void explain_value(struct working *working, int entity, enum row_id row) {
  enum condition condition = evaluation_condition(working->wording.ev, entity, row);
  int slot = store_slot(working->design, entity, row);
  write_value(working, 0, entity, row, "");
  write_row(working, STEP, row);
  bool lent_doubt = condition != CONDITION_OUTSIDE && evaluation_in_doubt(working->wording.ev, entity, row);
  if (lent_doubt)
    page_wrap(&working->page, STEP, 0, "In doubt: built on a value outside the tested range of its formula.");
  working->shown[slot] = true;
  const int *reads;
  if (evaluation_reads(working->wording.ev, slot, &reads)) {
    page_heading(&working->page, "Working");
    write_reads(working, 1, slot);
  }
  if (condition == CONDITION_MISSING) write_missing(working, slot);
}

// --- an entity

static bool is_shown(const struct working *working, int entity, enum row_id row) {
  return word_has_value(&working->wording, entity, row) && catalogue_row(row)->sort != SORT_BUNDLE &&
         !is_empty_list(working, entity, row);
}

static bool is_not_given(const struct working *working, int entity, enum row_id row) {
  return !word_has_value(&working->wording, entity, row) && row_is_given(catalogue_row(row)) &&
         !catalogue_row(row)->derived;
}

static bool is_not_worked_out(const struct working *working, int entity, enum row_id row) {
  return !word_has_value(&working->wording, entity, row) && catalogue_row(row)->sort != SORT_BUNDLE &&
         !is_not_given(working, entity, row);
}

// The names of those rows of the entity's kind that are wanted, behind a label.
static void write_names(struct working *working, int entity, const char *label,
                        bool (*wanted)(const struct working *, int, enum row_id)) {
  struct text names = words_in(working);
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *facts = catalogue_row((enum row_id)r);
    if (facts->kind != working->design->entities[entity].kind || !wanted(working, entity, (enum row_id)r)) continue;
    text_printf(&names, "%s%s", names.length ? ", " : "", facts->name);
  }
  if (names.length) page_labelled(&working->page, STEP, STEP, PAINT_PLAIN, label, text_end(&names));
}

static void explain_entity(struct working *working, int entity) {
  struct text words = words_in(working);
  enum kind kind = working->design->entities[entity].kind;
  word_entity(&words, &working->wording, entity);
  text_printf(&words, ": %s", catalogue_kind(kind)->says);
  page_wrap(&working->page, 0, STEP, text_end(&words));
  for (int r = 0; r < ROW_COUNT; r++) {
    bool shown = catalogue_row((enum row_id)r)->kind == kind && is_shown(working, entity, (enum row_id)r);
    if (shown) write_value(working, STEP, entity, (enum row_id)r, "");
  }
  write_names(working, entity, "Not given: ", is_not_given);
  write_names(working, entity, "Could not be worked out: ", is_not_worked_out);
}

void explain_write(struct text *text, struct evaluation *ev, struct explained what, enum unit_system units) {
  const struct store *design = evaluation_design(ev);
  struct working working = {page_in(text->arena, WIDTH), {ev, units}, design, NULL};
  working.shown = arena_array(text->arena, design->slot_count + 1, sizeof *working.shown);
  if (what.row == ROW_COUNT) {
    explain_entity(&working, what.entity);
  } else {
    explain_value(&working, what.entity, what.row);
  }
  page_finish(&working.page, false, text);
}
