// SPDX-License-Identifier: MIT
// What the designs say differently: things that only some have, and givens one by one. A list of which much differs is
// one line.
#include <math.h>
#include <string.h>

#include "report/compare_inside.h"

enum { MOST_OF_A_LIST = 3 };

struct members {
  int of[COMPARE_MOST];  // entities; -1: none
};

// --- one given

static const struct slot *slot_of(const struct comparing *c, const struct members *m, size_t side, enum row_id row) {
  return m->of[side] < 0 ? NULL : store_at(c->sides[side].design, m->of[side], row);
}

static bool is_set(const struct slot *slot) { return slot && slot->condition != CONDITION_UNSET; }
static bool same_text(const char *a, const char *b) { return a && b ? strcmp(a, b) == 0 : !a && !b; }

// By the last digit that both systems of units keep: 2 ft is 24 in.
static bool same_number(double a, double b) {
  if (isnan(a) || isnan(b)) return isnan(a) && isnan(b);
  return a == b || fabs(a - b) <= 1e-12 * (fabs(a) + fabs(b));
}

static bool same_slot(const struct slot *a, const struct slot *b, const struct row *row) {
  if (!is_set(a) || !is_set(b)) return is_set(a) == is_set(b);
  if (row->sort == SORT_TEXT || row->sort == SORT_REFERENCE) return same_text(a->text, b->text);
  return same_number(a->value, b->value) && same_number(a->tolerance, b->tolerance);
}

static bool differs(const struct comparing *c, const struct members *m, enum row_id id) {
  for (size_t i = 1; i < c->count; i++) {
    if (!same_slot(slot_of(c, m, 0, id), slot_of(c, m, i, id), catalogue_row(id))) return true;
  }
  return false;
}

static const char *value_of(struct comparing *c, const struct members *m, size_t side, enum row_id id) {
  const struct slot *slot = slot_of(c, m, side, id);
  const struct row *row = catalogue_row(id);
  struct text words = text_in(c->arena);
  if (!slot) return NULL;
  if (!is_set(slot)) return row->derived ? "worked out" : NULL;
  if (row->sort == SORT_NUMBER) {
    word_number(&words, &c->sides[side].wording, id, slot->value);
    if (!isnan(slot->tolerance)) {
      const char *as_written = slot->text ? strstr(slot->text, "+/-") : NULL;
      text_printf(&words, " %s", as_written ? as_written : "with a tolerance");
    }
  } else if (row->sort == SORT_REFERENCE || row->sort == SORT_TEXT) {
    text_add(&words, slot->text ? slot->text : "");
  } else {
    text_add(&words, catalogue_word((enum word)slot->value)->word);
  }
  if (slot->condition == CONDITION_DEFAULT) text_add(&words, " (default)");
  return text_end(&words);
}

// Where the units' own rounding hides a difference, what was written shows it.
static void write_given(struct comparing *c, const char *owner, const struct members *m, enum row_id id) {
  const char *values[COMPARE_MOST];
  struct text label = text_in(c->arena);
  text_printf(&label, "%s.%s", owner, catalogue_row(id)->name);
  for (size_t i = 0; i < c->count; i++) values[i] = value_of(c, m, i, id);
  for (size_t i = 0; !compare_differ(values, c->count) && i < c->count; i++) {
    const struct slot *slot = slot_of(c, m, i, id);
    if (slot && slot->text) values[i] = slot->text;
  }
  compare_row(c, text_end(&label), values);
}

// --- lists

static size_t length_of(const struct comparing *c, const struct members *m, size_t side, enum row_id list) {
  return m->of[side] < 0 ? 0 : store_members(c->sides[side].design, m->of[side], list);
}

static size_t longest(const struct comparing *c, const struct members *m, enum row_id list) {
  size_t most = 0;
  for (size_t i = 0; i < c->count; i++) most = length_of(c, m, i, list) > most ? length_of(c, m, i, list) : most;
  return most;
}

static struct members member(const struct comparing *c, const struct members *m, enum row_id list, size_t index) {
  struct members found;
  for (size_t i = 0; i < COMPARE_MOST; i++) {
    bool there = i < c->count && index < length_of(c, m, i, list);
    found.of[i] = there ? store_member(c->sides[i].design, m->of[i], list, index) : -1;
  }
  return found;
}

static enum kind kind_of_part(const struct row *row) { return row->sort == SORT_REFERENCES ? KIND_link : row->part; }

static size_t count_different(const struct comparing *c, const struct members *m, enum row_id list) {
  size_t count = 0, most = longest(c, m, list);
  for (size_t i = 0; i < most; i++) {
    struct members part = member(c, m, list, i);
    for (int r = 0; r < ROW_COUNT; r++) {
      const struct row *row = catalogue_row((enum row_id)r);
      if (row->kind != kind_of_part(catalogue_row(list)) || !row_is_given(row) || row_is_list(row)) continue;
      count += differs(c, &part, (enum row_id)r);
    }
  }
  return count;
}

static void write_members(struct comparing *c, const char *owner, const struct members *m, enum row_id list) {
  size_t most = longest(c, m, list);
  for (size_t i = 0; i < most; i++) {
    struct members part = member(c, m, list, i);
    struct text name = text_in(c->arena);
    text_printf(&name, "%s.%s[%zu]", owner, catalogue_row(list)->name, i + 1);
    for (int r = 0; r < ROW_COUNT; r++) {
      const struct row *row = catalogue_row((enum row_id)r);
      if (row->kind != kind_of_part(catalogue_row(list)) || !row_is_given(row) || row_is_list(row)) continue;
      if (differs(c, &part, (enum row_id)r)) write_given(c, text_end(&name), &part, (enum row_id)r);
    }
  }
}

static bool same_lengths(const struct comparing *c, const struct members *m, enum row_id list) {
  for (size_t i = 1; i < c->count; i++) {
    if (length_of(c, m, i, list) != length_of(c, m, 0, list)) return false;
  }
  return true;
}

static bool same_as_first(const struct comparing *c, const struct members *m, size_t side, enum row_id list) {
  struct comparing two = *c;
  two.count = 2;
  two.sides[1] = c->sides[side];
  struct members both = {{m->of[0], m->of[side], -1}};
  return same_lengths(&two, &both, list) && count_different(&two, &both, list) == 0;
}

// "rectangle 6 ft x 4 ft", "polygon".
static void word_shape(struct comparing *c, struct text *words, const struct members *m, size_t side,
                       enum row_id list) {
  static const enum row_id widths[] = {ROW_point_x, ROW_point_y};
  const struct wording *wording = &c->sides[side].wording;
  enum word shape = (enum word)slot_of(c, m, side, list)->value;
  struct members part = member(c, m, list, 0);
  text_add(words, catalogue_word(shape)->word);
  for (size_t i = 0; shape != WORD_shape_polygon && i < 2; i++) {
    const struct slot *slot = slot_of(c, &part, side, widths[i]);
    if (!is_set(slot)) continue;
    text_add(words, i ? " x " : " ");
    word_number(words, wording, widths[i], slot->value);
  }
}

// "5 of them | 5 others"; "circle 6 ft | polygon, 6 of them".
static const char *list_of(struct comparing *c, const struct members *m, size_t side, enum row_id list) {
  struct text words = text_in(c->arena);
  size_t length = length_of(c, m, side, list);
  bool shape = catalogue_row(list)->sort == SORT_SHAPE && length > 0;
  if (m->of[side] < 0) return NULL;
  if (shape) word_shape(c, &words, m, side, list);
  if (shape && slot_of(c, m, side, list)->value != (double)WORD_shape_polygon) return text_end(&words);
  bool other = side > 0 && same_lengths(c, m, list) && !same_as_first(c, m, side, list);
  text_printf(&words, "%s%zu %s", shape ? ", " : "", length, other ? "others" : "of them");
  return text_end(&words);
}

static void write_list(struct comparing *c, const char *owner, const struct members *m, enum row_id list) {
  const char *values[COMPARE_MOST];
  for (size_t i = 0; i < c->count; i++) values[i] = list_of(c, m, i, list);
  compare_row(c, text_phrase(c->arena, "%s.%s", owner, catalogue_row(list)->name), values);
}

static void compare_list(struct comparing *c, const char *owner, const struct members *m, enum row_id list) {
  bool shape = catalogue_row(list)->sort == SORT_SHAPE && differs(c, m, list);
  size_t count = count_different(c, m, list);
  if (shape || !same_lengths(c, m, list) || count > MOST_OF_A_LIST) {
    write_list(c, owner, m, list);
  } else if (count > 0) {
    write_members(c, owner, m, list);
  }
}

// --- what was measured

static const struct measurement *measured(const struct comparing *c, const struct members *m, size_t side,
                                          enum row_id id) {
  if (m->of[side] < 0) return NULL;
  return store_measured(c->sides[side].design, store_slot(c->sides[side].design, m->of[side], id));
}

static void compare_measured(struct comparing *c, const char *owner, const struct members *m, enum row_id id) {
  const char *values[COMPARE_MOST] = {NULL};
  for (size_t i = 0; i < c->count; i++) {
    const struct measurement *it = measured(c, m, i, id);
    struct text words = text_in(c->arena);
    if (it) word_number(&words, &c->sides[i].wording, id, it->value);
    if (it) values[i] = text_end(&words);
  }
  if (compare_differ(values, c->count))
    compare_row(c, text_phrase(c->arena, "%s.%s, measured", owner, catalogue_row(id)->name), values);
}

// --- all of it

static bool is_everywhere(const struct comparing *c, const struct subject *subject) {
  for (size_t i = 0; i < c->count; i++)
    if (subject->of[i] < 0) return false;
  return true;
}

static void compare_subject(struct comparing *c, const struct subject *subject) {
  struct members m;
  memcpy(m.of, subject->of, sizeof m.of);
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->kind != subject->kind) continue;
    if (row_is_number(row)) compare_measured(c, subject->name, &m, (enum row_id)r);
    if (!row_is_given(row)) continue;
    if (row_is_list(row)) {
      compare_list(c, subject->name, &m, (enum row_id)r);
    } else if (differs(c, &m, (enum row_id)r)) {
      write_given(c, subject->name, &m, (enum row_id)r);
    }
  }
}

// "only in A: pump "old"; only in B and C: pump "new"".
static void write_only(struct comparing *c, const struct subject *subject) {
  const char *values[COMPARE_MOST];
  for (size_t i = 0; i < c->count; i++) values[i] = subject->of[i] < 0 ? NULL : "there";
  compare_row(c, subject->name, values);
}

void compare_givens(struct comparing *c) {
  page_heading(&c->page, c->count == 2 ? "WHAT THE DESIGNS SAY   A | B" : "WHAT THE DESIGNS SAY   A | B | C");
  size_t before = c->page.text.length;
  for (size_t i = 0; i < c->subject_count; i++) {
    if (is_everywhere(c, &c->subjects[i])) {
      compare_subject(c, &c->subjects[i]);
    } else if (c->subjects[i].written) {
      write_only(c, &c->subjects[i]);
    }
  }
  if (c->page.text.length == before) page_wrap(&c->page, COMPARE_STEP, 0, "The same in all of them.");
}
