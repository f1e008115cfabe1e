// SPDX-License-Identifier: MIT
#include "report/list.h"

#include <string.h>

#include "report/page.h"
#include "report/wording.h"
#include "units/dimension.h"

enum { WIDTH = 80, INDENT = 2, HANG = 4 };

// --- one row's facts: "a length in ft or m; required; over 0 in"

static void add_fact(struct text *facts, const char *label, const char *words) {
  if (!words) return;
  text_printf(facts, "%s%s%s", facts->length ? "; " : "", label, words);
}

static void add_units(struct text *facts, const struct row *row) {
  const struct dimension_row *dimension = dimension_row(row->dimension);
  const char *us = row->us ? row->us : dimension->us, *si = row->si ? row->si : dimension->si;
  text_add(facts, row->whole ? "a whole number" : dimension->says);
  if (us[0]) text_printf(facts, " in %s", us);
  if (us[0] && strcmp(us, si) != 0) text_printf(facts, " or %s", si);
}

static void add_targets(struct text *facts, const struct row *row) {
  if (row->targets == KIND_ANY) {
    text_add(facts, "anything");
    return;
  }
  const char *join = "";
  for (int k = 0; k < KIND_COUNT; k++) {
    if ((row->targets >> k & 1u) == 0) continue;
    text_printf(facts, "%s%s", join, catalogue_kind((enum kind)k)->name);
    join = " or ";
  }
}

static void add_sort(struct text *facts, enum row_id id) {
  const struct row *row = catalogue_row(id);
  if (row_is_number(row)) add_units(facts, row);
  if (row->sort == SORT_CHOICE) word_choice_list(facts, id);
  if (row->sort == SORT_TEXT) text_add(facts, "text");
  if (row->sort == SORT_REFERENCE) text_add(facts, "the name of a ");
  if (row->sort == SORT_REFERENCES) text_add(facts, "a list of names: ");
  if (row->sort == SORT_REFERENCE || row->sort == SORT_REFERENCES) add_targets(facts, row);
  if (row->sort == SORT_PARTS) text_printf(facts, "a list of %s", catalogue_kind(row->part)->name);
  if (row->sort == SORT_SHAPE) text_add(facts, "circle, ellipse, rectangle or polygon, with its widths or points");
  if (row->sort == SORT_BUNDLE) text_add(facts, "kept whole for other values");
}

static void add_bounds(struct text *facts, const struct row *row) {
  if (row->required) add_fact(facts, "", "required");
  if (row->derived) add_fact(facts, "", "worked out where it is not written");
  add_fact(facts, "without it: ", row->standard);
  add_fact(facts, "over ", row->above);
  add_fact(facts, "at least ", row->least);
  add_fact(facts, "at most ", row->most);
  add_fact(facts, "or the word ", row->unbounded);
  if (row->few > 0) text_printf(facts, "; %d or more", row->few);
  if (row->many > 0) text_printf(facts, "; not more than %d", row->many);
}

// --- pages

static void write_line(struct page *page, const char *label, const char *words) {
  if (words) page_labelled(page, INDENT + HANG, HANG, PAINT_PLAIN, label, words);
}

static void write_formula(struct page *page, const char *label, const char *formula) {
  if (!formula) return;
  struct text words = text_in(page->text.arena);
  word_formula(&words, formula);
  write_line(page, label, text_end(&words));
}

static void write_row(struct page *page, enum row_id id) {
  const struct row *row = catalogue_row(id);
  struct text head = text_in(page->text.arena), facts = text_in(page->text.arena);
  text_printf(&head, "%s: %s", row->name, row->says);
  page_wrap(page, INDENT, HANG, text_end(&head));
  add_sort(&facts, id);
  add_bounds(&facts, row);
  write_line(page, "", text_end(&facts));
  write_formula(page, "= ", row->formula);
  write_formula(page, "Check: ", row->check);
  if (row->source == SOURCE_NONE) return;
  struct text source = text_in(page->text.arena);
  word_source(&source, row->source);
  write_line(page, "Source: ", text_end(&source));
}

static void write_rows(struct page *page, enum kind kind, bool givens, const char *heading) {
  bool begun = false;
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->kind != kind || row->sort == SORT_BACK || row_is_given(row) != givens) continue;
    if (!begun) page_heading(page, heading);
    begun = true;
    write_row(page, (enum row_id)r);
  }
}

// Names under which other things that refer to it are read.
static void write_back(struct page *page, enum kind kind) {
  bool begun = false;
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->kind != kind || row->sort != SORT_BACK) continue;
    struct text words = text_in(page->text.arena);
    text_printf(&words, "%s: each %s whose `%s` is this", row->name, catalogue_kind(row->part)->name,
                catalogue_row(row->via)->name);
    if (!begun) page_heading(page, "What refers to it");
    begun = true;
    page_wrap(page, INDENT, HANG, text_end(&words));
  }
}

static void write_kind(struct page *page, enum kind kind) {
  const struct kind_row *facts = catalogue_kind(kind);
  struct text head = text_in(page->text.arena);
  text_printf(&head, "%s: %s", facts->name, facts->says);
  if (facts->single) text_add(&head, " (at most one, without a name)");
  if (facts->unnamed) text_add(&head, " (any number, without names)");
  if (facts->part) text_add(&head, " (written inside a list of another thing)");
  page_wrap(page, 0, INDENT, text_end(&head));
  write_rows(page, kind, true, "Given");
  write_rows(page, kind, false, "Worked out");
  write_back(page, kind);
}

static size_t count_rows(enum kind kind, bool givens) {
  size_t count = 0;
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    count += row->kind == kind && row->sort != SORT_BACK && row_is_given(row) == givens;
  }
  return count;
}

static void write_kinds(struct page *page) {
  for (int k = 0; k < KIND_COUNT; k++) {
    const struct kind_row *facts = catalogue_kind((enum kind)k);
    struct text words = text_in(page->text.arena);
    text_printf(&words, "%s: %s; ", facts->name, facts->says);
    word_count(&words, count_rows((enum kind)k, true), "given", "givens");
    text_printf(&words, ", %zu worked out", count_rows((enum kind)k, false));
    page_wrap(page, 0, HANG, text_end(&words));
  }
}

static void tell_unknown(struct problems *problems, const char *kind) {
  const char *names[KIND_COUNT];
  for (int k = 0; k < KIND_COUNT; k++) names[k] = catalogue_kind((enum kind)k)->name;
  const char *near = text_nearest(kind, names, KIND_COUNT);
  problem_add(problems, (struct problem){.said = "there is no such kind of thing",
                                         .read = kind,
                                         .right = near ? near : "a kind that forebay explain --list names"});
}

bool list_write(struct text *text, const char *kind, struct problems *problems) {
  enum kind found = kind ? catalogue_kind_named(kind, strlen(kind)) : KIND_COUNT;
  struct page page = page_in(text->arena, WIDTH);
  if (kind && found == KIND_COUNT) {
    tell_unknown(problems, kind);
    return false;
  }
  if (kind) write_kind(&page, found);
  if (!kind) write_kinds(&page);
  page_finish(&page, false, text);
  return true;
}
