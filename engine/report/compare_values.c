// SPDX-License-Identifier: MIT
// What follows differently: quantities that a rule judged, in the order of the disciplines, and lines of the order
// list.
#include <string.h>

#include "report/compare_inside.h"
#include "report/takeoff.h"

enum { MOST_QUANTITIES = 25, MOST_LINES = 400 };

// --- quantities

// Rows that some rule judged, in whichever design.
static void mark_judged(const struct review *review, bool *judged) {
  for (size_t i = 0; i < review->outcome_count; i++) {
    const struct outcome *outcome = &review->outcomes[i];
    for (size_t k = 0; k < outcome->comparison_count; k++) {
      const struct comparison *comparison = &outcome->comparisons[k];
      if (comparison->entity >= 0 && comparison->row != ROW_COUNT) judged[comparison->row] = true;
    }
  }
}

static const char *value_of(struct comparing *c, const struct subject *subject, size_t side, enum row_id row) {
  struct text words = text_in(c->arena);
  if (subject->of[side] < 0) return NULL;
  const struct wording *wording = &c->sides[side].wording;
  if (!word_has_value(wording, subject->of[side], row)) return "no answer";
  word_value(&words, wording, subject->of[side], row);
  if (evaluation_in_doubt(wording->ev, subject->of[side], row)) word_doubt(&words);
  return text_end(&words);
}

// True: they print differently.
static bool compare_quantity(struct comparing *c, const struct subject *subject, enum row_id row, bool shown) {
  const char *values[COMPARE_MOST], *there[COMPARE_MOST] = {NULL};
  size_t count = 0;
  for (size_t i = 0; i < c->count; i++) {
    values[i] = value_of(c, subject, i, row);
    if (values[i]) there[count++] = values[i];
  }
  if (!compare_differ(there, count)) return false;
  if (shown) compare_row(c, text_phrase(c->arena, "%s.%s", subject->name, catalogue_row(row)->name), values);
  return true;
}

void compare_quantities(struct comparing *c) {
  bool *judged = arena_array(c->arena, ROW_COUNT, sizeof *judged);
  size_t count = 0;
  for (size_t i = 0; i < c->count; i++) mark_judged(c->sides[i].review, judged);
  page_heading(&c->page, "WHAT FOLLOWS, of what rules judge");
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (!judged[r] || row->sort != SORT_QUANTITY) continue;
    for (size_t i = 0; i < c->subject_count; i++) {
      const struct subject *subject = &c->subjects[i];
      if (subject->kind == row->kind) count += compare_quantity(c, subject, (enum row_id)r, count < MOST_QUANTITIES);
    }
  }
  if (count == 0) page_wrap(&c->page, COMPARE_STEP, 0, "Nothing that prints differently.");
  if (count > MOST_QUANTITIES)
    page_wrap(&c->page, COMPARE_STEP, COMPARE_STEP,
              text_phrase(c->arena, "and %zu more: forebay explain DESIGN THING shows all values of a thing",
                          count - MOST_QUANTITIES));
}

// --- the order list

struct ordered {
  const char *group, *label;
  bool is_price;
  const char *values[COMPARE_MOST];
};

struct ordering {
  struct takeoff takeoff[COMPARE_MOST];
  struct ordered *lines;
  size_t count, room;
};

static struct ordered *line_like(struct comparing *c, struct ordering *o, const char *group, const char *label) {
  for (size_t i = 0; i < o->count; i++) {
    if (strcmp(o->lines[i].group, group) == 0 && strcmp(o->lines[i].label, label) == 0) return &o->lines[i];
  }
  o->lines = arena_grow(c->arena, o->lines, o->count, &o->room, sizeof *o->lines);
  o->lines[o->count] = (struct ordered){.group = group, .label = label};
  return &o->lines[o->count++];
}

static void gather(struct comparing *c, struct ordering *o, size_t side) {
  const struct wording *wording = &c->sides[side].wording;
  bool doubt = false;
  o->takeoff[side] = takeoff_of(c->arena, wording->ev);
  for (size_t g = 0; g < o->takeoff[side].count; g++) {
    const struct takeoff_group *group = &o->takeoff[side].groups[g];
    for (size_t i = 0; i < group->count && o->count < MOST_LINES; i++) {
      const struct takeoff_line *line = &group->lines[i];
      struct ordered *ordered = line_like(c, o, group->title, takeoff_label(c->arena, wording, line));
      ordered->is_price = line->is_price;
      ordered->values[side] = takeoff_value(c->arena, wording, line, &doubt);
    }
  }
}

static bool has_price(const char *value) { return value && strncmp(value, "no price", 8) != 0; }

// Whether both sums are made of the same lines: only then is their difference one of price.
static bool same_lines_priced(const struct ordering *o, size_t side) {
  for (size_t i = 0; i < o->count; i++) {
    const char *const *values = o->lines[i].values;
    if (o->lines[i].is_price && has_price(values[0]) != has_price(values[side])) return false;
  }
  return true;
}

static void write_difference(struct text *words, const struct wording *wording, double more) {
  text_add(words, more > 0 ? " (+" : " (-");
  word_number(words, wording, ROW_project_stone_price, more > 0 ? more : -more);
  text_add_char(words, ')');
}

static const char *total_of(struct comparing *c, const struct ordering *o, size_t side) {
  const struct takeoff *takeoff = &o->takeoff[side];
  struct text words = text_in(c->arena);
  if (takeoff->priced == 0) return "no price";
  double more = takeoff->price - o->takeoff[0].price;
  word_number(&words, &c->sides[side].wording, ROW_project_stone_price, takeoff->price);
  if (more != 0 && same_lines_priced(o, side)) write_difference(&words, &c->sides[side].wording, more);
  if (takeoff->unpriced) text_printf(&words, " for %zu of %zu", takeoff->priced, takeoff->priced + takeoff->unpriced);
  return text_end(&words);
}

// "total of the lines with a price ..... $410.00 | $530.00 (+$120.00)"
static void write_totals(struct comparing *c, const struct ordering *o) {
  const char *values[COMPARE_MOST];
  for (size_t i = 0; i < c->count; i++) values[i] = total_of(c, o, i);
  if (compare_differ(values, c->count)) compare_row(c, "price, total of its lines", values);
}

void compare_takeoff(struct comparing *c) {
  struct ordering o = {.count = 0};
  const char *group = NULL;
  for (size_t i = 0; i < c->count; i++) gather(c, &o, i);
  page_heading(&c->page, "TO ORDER, HAUL AND BOOK");
  size_t before = c->page.text.length;
  for (size_t i = 0; i < o.count; i++) {
    const struct ordered *line = &o.lines[i];
    if (!compare_differ(line->values, c->count)) continue;
    if (!group || strcmp(group, line->group) != 0) page_wrap(&c->page, COMPARE_STEP, 0, line->group);
    group = line->group;
    compare_row(c, text_phrase(c->arena, "  %s", line->label), line->values);
  }
  write_totals(c, &o);
  if (c->page.text.length == before) page_wrap(&c->page, COMPARE_STEP, 0, "The same.");
}
