// SPDX-License-Identifier: MIT
#include "report/takeoff.h"

#include <string.h>

#include "design/overlay.h"
#include "report/page.h"
#include "report/tried.h"
#include "report/wording.h"
#include "review/takeoff.h"
#include "units/write.h"

enum { WIDTH = 80, STEP = 2, VALUES = 36, MOST_MISSING = 2 };  // the column where values begin

struct listing {
  struct page page;
  struct wording wording;
  const struct takeoff *takeoff;
  bool working, doubt;
};

static struct text words_in(struct listing *listing) { return text_in(listing->page.text.arena); }

// "  gravel to order ....... 12 yd3": a label that is too long has its value on the next line.
static void write_pair(struct listing *listing, const char *label, const char *value) {
  struct text words = words_in(listing);
  size_t length = strlen(label) + STEP;
  text_add(&words, label);
  if (length + 2 > VALUES) {
    page_wrap(&listing->page, STEP, STEP, text_end(&words));
    page_wrap(&listing->page, VALUES, 0, value);
    return;
  }
  text_add_char(&words, ' ');
  text_add_many(&words, '.', VALUES - length - 2);
  text_add_char(&words, ' ');
  page_labelled(&listing->page, STEP, VALUES - STEP, PAINT_PLAIN, text_end(&words), value);
}

const char *takeoff_label(struct arena *arena, const struct wording *wording, const struct takeoff_line *line) {
  if (line->row == ROW_COUNT) return line->what;
  const struct row *row = catalogue_row(line->row);
  struct text words = text_in(arena);
  if (row->kind != KIND_project) {
    word_name(&words, wording, line->entity);
    text_add(&words, ": ");
  }
  text_add(&words, line->what ? line->what : row->says);
  return text_end(&words);
}

static void write_amounts(const struct wording *wording, struct text *words, const struct takeoff_line *line) {
  for (size_t i = 0; i < line->amount_count; i++) {
    const struct takeoff_amount *amount = &line->amounts[i];
    bool named = amount->before[0] != '\0', by = strcmp(amount->before, "by") == 0;
    if (i) text_add(words, by ? " " : ", ");
    if (named) text_printf(words, "%s ", amount->before);
    word_number(words, wording, amount->row, amount->value);
  }
}

// The names to write in the design: "missing: crew.stones_per_day".
static void write_missing(const struct wording *wording, struct text *words, const struct takeoff_line *line) {
  const struct store *design = evaluation_design(wording->ev);
  text_add(words, "missing: ");
  for (size_t i = 0; i < line->root_count && i < MOST_MISSING; i++) {
    int entity;
    enum row_id row = store_row_of_slot(design, line->roots[i], &entity);
    if (i) text_add(words, "; ");
    store_describe(words, design, entity, row);
    word_slot_because(words, wording, line->roots[i]);
  }
  if (line->root_count > MOST_MISSING) text_printf(words, "; and %zu more", line->root_count - MOST_MISSING);
}

const char *takeoff_value(struct arena *arena, const struct wording *wording, const struct takeoff_line *line,
                          bool *in_doubt) {
  struct text words = text_in(arena);
  if (line->root_count) {
    if (line->is_price) text_add(&words, "no price; ");
    write_missing(wording, &words, line);
  } else if (line->row == ROW_COUNT) {
    write_amounts(wording, &words, line);
  } else {
    word_value(&words, wording, line->entity, line->row);
    if (evaluation_in_doubt(wording->ev, line->entity, line->row)) {
      word_doubt(&words);
      *in_doubt = true;
    }
  }
  return text_end(&words);
}

static void write_working(struct listing *listing, const struct takeoff_line *line) {
  struct text words = words_in(listing);
  const char *formula = line->row == ROW_COUNT ? line->formula : catalogue_row(line->row)->formula;
  if (!formula) return;
  word_formula(&words, formula);
  if (line->row != ROW_COUNT) {
    text_add(&words, " [");
    word_source(&words, catalogue_row(line->row)->source);
    text_add_char(&words, ']');
  }
  page_labelled(&listing->page, 2 * STEP, STEP, PAINT_PLAIN, "= ", text_end(&words));
}

static void write_total(struct listing *listing) {
  const struct takeoff *takeoff = listing->takeoff;
  struct text words = words_in(listing);
  size_t lines = takeoff->priced + takeoff->unpriced;
  word_number(&words, &listing->wording, ROW_project_stone_price, takeoff->price);
  if (takeoff->unpriced) text_printf(&words, " for %zu of %zu lines; the others have no price", takeoff->priced, lines);
  write_pair(listing, "total", text_end(&words));
}

static void write_group(struct listing *listing, const struct takeoff_group *group) {
  page_heading(&listing->page, group->title);
  if (group->lines[0].is_price && listing->takeoff->priced == 0) {
    page_wrap(&listing->page, STEP, STEP,
              "None: neither the design (prices) nor a firm's layer gives one that a line could be worked out with.");
    return;
  }
  for (size_t i = 0; i < group->count; i++) {
    struct arena *arena = listing->page.text.arena;
    write_pair(listing, takeoff_label(arena, &listing->wording, &group->lines[i]),
               takeoff_value(arena, &listing->wording, &group->lines[i], &listing->doubt));
    if (listing->working) write_working(listing, &group->lines[i]);
  }
  if (group->lines[0].is_price) write_total(listing);
}

static void write_head(struct listing *listing) {
  const struct store *design = evaluation_design(listing->wording.ev);
  const char *name = NULL;
  if (store_count(design, KIND_project)) {
    name = store_at(design, store_of_kind(design, KIND_project, 0), ROW_project_name)->text;
  }
  struct text words = words_in(listing);
  text_printf(&words, "TAKEOFF  %s", name ? name : "a design without a name");
  page_wrap(&listing->page, 0, STEP, text_end(&words));
  tried_write(&listing->page, &listing->wording);
  page_wrap(&listing->page, 0, 0,
            "What follows from the design as it is written. Nothing is added for waste; stone is estimated by its box, "
            "and a lift is never planned on the likely weight.");
}

// A price or rate of a layer's that stands in where the design gives none; NULL: it is something else, or was tried.
static const struct overlay *figure_at(const struct store *design, size_t index) {
  const struct overlaid *it = &design->overlaid[index];
  bool holds = it->by->unless_written && design->slots[it->slot].said == it->by;
  return holds ? it->by : NULL;
}

static void write_figures_by(struct listing *listing, const char *by) {
  const struct store *design = evaluation_design(listing->wording.ev);
  struct text words = words_in(listing);
  for (size_t i = 0; i < design->overlaid_count; i++) {
    const struct overlay *figure = figure_at(design, i);
    int entity;
    enum row_id row = store_row_of_slot(design, design->overlaid[i].slot, &entity);
    if (!figure || strcmp(figure->by, by) != 0) continue;
    text_printf(&words, "%s%s ", words.length ? "; " : "", catalogue_row(row)->says);
    word_value(&words, &listing->wording, entity, row);
  }
  text_add_char(&words, '.');
  page_blank(&listing->page);
  page_labelled(&listing->page, 0, STEP, PAINT_PLAIN,
                text_phrase(listing->page.text.arena, "Not in the design, by %s: ", by), text_end(&words));
}

// All figures of one layer together.
static void write_figures(struct listing *listing) {
  const struct store *design = evaluation_design(listing->wording.ev);
  for (size_t i = 0; i < design->overlaid_count; i++) {
    const struct overlay *figure = figure_at(design, i);
    bool first = figure != NULL;
    for (size_t k = 0; first && k < i; k++)
      first = !figure_at(design, k) || strcmp(figure_at(design, k)->by, figure->by) != 0;
    if (first) write_figures_by(listing, figure->by);
  }
}

void takeoff_write(struct text *text, struct evaluation *ev, enum unit_system units, bool working) {
  struct takeoff takeoff = takeoff_of(text->arena, ev);
  struct listing listing = {
      .page = page_in(text->arena, WIDTH), .wording = {ev, units}, .takeoff = &takeoff, .working = working};
  write_head(&listing);
  for (size_t i = 0; i < takeoff.count; i++) write_group(&listing, &takeoff.groups[i]);
  write_figures(&listing);
  if (listing.doubt) {
    page_blank(&listing.page);
    page_wrap(&listing.page, 0, 0,
              "In doubt: built on a value outside the tested range of its formula; forebay explain names that value.");
  }
  page_finish(&listing.page, false, text);
}
