// SPDX-License-Identifier: MIT
#include "report/explain.h"

#include <string.h>

#include "report/page.h"
#include "report/tried.h"
#include "report/wording.h"

// In short, so many levels and so many reads of one value are shown; NAMED: values named for a look by themselves.
enum { WIDTH = 80, STEP = 2, DEEPEST = 16, DEEPEST_IN_SHORT = 2, MOST_READS = 12, MOST_NAMED = 3 };

struct working {
  struct page page;
  struct wording wording;
  const struct store *design;
  bool *shown;  // by slot
  bool full;
  int cut[MOST_NAMED];  // slots whose own working was left out
  size_t cut_count;
};

static struct text words_in(struct working *working) { return text_in(working->page.text.arena); }

// What says nothing in a number: commas between thousands, a closing ".0".
static size_t idle_bytes(const char *at) {
  if (*at == ',') return 1;
  return at[0] == '.' && at[1] == '0' && !(at[2] >= '0' && at[2] <= '9') ? 2 : 0;
}

static bool reads_alike(const char *a, const char *b) {
  while (true) {
    a += idle_bytes(a);
    b += idle_bytes(b);
    if (*a != *b) return false;
    if (!*a) return true;
    a++, b++;
  }
}

// A given as it was written, where that reads otherwise than the value shown: `given as "1 ft 6 in", line 12`.
static void write_origin(struct working *working, struct text *origin, const char *shown, int entity, enum row_id row) {
  const struct slot *slot = store_at(working->design, entity, row);
  bool is_given = evaluation_condition(working->wording.ev, entity, row) == CONDITION_GIVEN;
  bool as_shown = !slot->text || reads_alike(slot->text, shown);
  if (!is_given || as_shown || catalogue_row(row)->sort != SORT_NUMBER) {
    word_origin(origin, &working->wording, entity, row);
    return;
  }
  text_printf(origin, "%s as \"%s\"", slot->said ? "tried" : "given", slot->text);
  if (slot->line > 0) text_printf(origin, ", line %d", slot->line);
}

// `spill "left lip".flow = 1,530 gal/h (worked out)`
static void write_value(struct working *working, size_t indent, int entity, enum row_id row, const char *after) {
  struct text words = words_in(working), value = words_in(working), origin = words_in(working);
  store_describe(&words, working->design, entity, row);
  word_value(&value, &working->wording, entity, row);
  text_printf(&words, " = %s", text_end(&value));
  write_origin(working, &origin, text_end(&value), entity, row);
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

// References and lists say where values were found, not what they are.
static bool leads_elsewhere(enum row_id row) {
  enum row_sort sort = catalogue_row(row)->sort;
  return sort == SORT_REFERENCE || sort == SORT_REFERENCES || sort == SORT_PARTS || sort == SORT_BACK;
}

// Whether a formula is about the row itself, not about values behind it: {spills_out}, not {spills_out.lip}.
static bool is_about(const char *formula, enum row_id row) {
  const char *name = catalogue_row(row)->name;
  size_t length = strlen(name);
  for (const char *at = formula; at && (at = strchr(at, '{')) != NULL; at++) {
    if (strncmp(at + 1, name, length) == 0 && at[1 + length] == '}') return true;
  }
  return false;
}

// What a reader went by without: a given that may be left unsaid.
static bool is_done_without(const struct working *working, int reader, int entity, enum row_id row) {
  int of;
  enum row_id read_by = store_row_of_slot(working->design, reader, &of);
  return !word_has_value(&working->wording, entity, row) && word_has_value(&working->wording, of, read_by);
}

static bool is_left_out(const struct working *working, int reader, int entity, enum row_id row, int slot) {
  if (is_empty_list(working, entity, row)) return true;
  if (working->full) return false;
  if (working->shown[slot] || is_done_without(working, reader, entity, row)) return true;
  int of;
  enum row_id read_by = store_row_of_slot(working->design, reader, &of);
  return leads_elsewhere(row) && !is_about(catalogue_row(read_by)->formula, row);
}

static void note_cut(struct working *working, int slot) {
  if (working->cut_count < MOST_NAMED) working->cut[working->cut_count] = slot;
  working->cut_count++;
}

static void write_reads(struct working *working, size_t depth, int slot);

static void write_read(struct working *working, size_t depth, int slot) {
  int entity;
  enum row_id row = store_row_of_slot(working->design, slot, &entity);
  const int *reads;
  size_t count = evaluation_reads(working->wording.ev, slot, &reads);
  size_t indent = depth * STEP;
  if (working->shown[slot]) {
    write_value(working, indent, entity, row, count ? "; its working is shown above" : "");
    return;
  }
  working->shown[slot] = true;
  write_value(working, indent, entity, row, "");
  if (count == 0) return;
  if (!working->full && depth >= DEEPEST_IN_SHORT) {
    note_cut(working, slot);
    return;
  }
  write_formula(working, indent + 2 * STEP, "= ", catalogue_row(row)->formula);
  write_reads(working, depth + 1, slot);
}

static void write_more(struct working *working, size_t depth, size_t left_out) {
  if (left_out == 0) return;
  struct text words = words_in(working);
  text_printf(&words, "and %zu more", left_out);
  page_wrap(&working->page, depth * STEP, 0, text_end(&words));
}

static void write_reads(struct working *working, size_t depth, int slot) {
  const int *reads;
  size_t count = evaluation_reads(working->wording.ev, slot, &reads), shown = 0, left_out = 0;
  if (count && depth > DEEPEST) {
    page_wrap(&working->page, depth * STEP, 0, "deeper working is left out here: explain the value above by itself");
    return;
  }
  for (size_t i = 0; i < count; i++) {
    int entity;
    enum row_id row = store_row_of_slot(working->design, reads[i], &entity);
    if (is_left_out(working, slot, entity, row, reads[i])) continue;
    if (!working->full && shown == MOST_READS) {
      left_out++;
      continue;
    }
    shown++;
    write_read(working, depth, reads[i]);
  }
  write_more(working, depth, left_out);
}

// "... explain basin "pool".water_in_flight for more".
static void write_cut(struct working *working) {
  if (working->cut_count == 0) return;
  struct text words = words_in(working);
  size_t named = working->cut_count < MOST_NAMED ? working->cut_count : MOST_NAMED;
  text_add(&words, "\xe2\x80\xa6 explain ");
  for (size_t i = 0; i < named; i++) {
    int entity;
    enum row_id row = store_row_of_slot(working->design, working->cut[i], &entity);
    if (i) text_add(&words, i + 1 == named && named == working->cut_count ? " or " : ", ");
    store_describe(&words, working->design, entity, row);
  }
  if (working->cut_count > named) text_add(&words, " or another of these");
  text_add(&words, " for more; --full shows all of the working");
  page_blank(&working->page);
  page_wrap(&working->page, 0, STEP, text_end(&words));
}

// --- where doubt comes from

struct doubts {
  bool *seen;  // by slot
  int found[MOST_NAMED];
  size_t count;
};

static void find_doubts(struct working *working, struct doubts *doubts, int slot) {
  if (doubts->seen[slot] || doubts->count == MOST_NAMED) return;
  doubts->seen[slot] = true;
  int entity;
  enum row_id row = store_row_of_slot(working->design, slot, &entity);
  if (!evaluation_in_doubt(working->wording.ev, entity, row)) return;
  if (evaluation_condition(working->wording.ev, entity, row) == CONDITION_OUTSIDE) {
    doubts->found[doubts->count++] = slot;
    return;
  }
  const int *reads;
  size_t count = evaluation_reads(working->wording.ev, slot, &reads);
  for (size_t i = 0; i < count; i++) find_doubts(working, doubts, reads[i]);
}

static void write_doubts(struct working *working, int slot) {
  struct doubts doubts = {.seen = arena_array(working->page.text.arena, working->design->slot_count, sizeof(bool))};
  find_doubts(working, &doubts, slot);
  struct text words = words_in(working);
  for (size_t i = 0; i < doubts.count; i++) {
    int entity;
    enum row_id row = store_row_of_slot(working->design, doubts.found[i], &entity);
    if (i) text_add(&words, ", ");
    store_describe(&words, working->design, entity, row);
  }
  text_add(&words, doubts.count ? ", outside the tested range of its formula" : "a value outside its tested range");
  page_labelled(&working->page, STEP, 2 * STEP, PAINT_PLAIN, "In doubt: built on ", text_end(&words));
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
  if (lent_doubt) write_doubts(working, slot);
  working->shown[slot] = true;
  const int *reads;
  if (evaluation_reads(working->wording.ev, slot, &reads)) {
    page_heading(&working->page, "Working");
    write_reads(working, 1, slot);
    write_cut(working);
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

void explain_write(struct text *text, struct evaluation *ev, struct explained what, enum unit_system units, bool full) {
  const struct store *design = evaluation_design(ev);
  struct working working = {
      .page = page_in(text->arena, WIDTH), .wording = {ev, units}, .design = design, .full = full};
  tried_write(&working.page, &working.wording);
  if (working.page.text.length > 0) page_blank(&working.page);
  working.shown = arena_array(text->arena, design->slot_count + 1, sizeof *working.shown);
  if (what.row == ROW_COUNT) {
    explain_entity(&working, what.entity);
  } else {
    explain_value(&working, what.entity, what.row);
  }
  page_finish(&working.page, false, text);
}
