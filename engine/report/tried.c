// SPDX-License-Identifier: MIT
#include "report/tried.h"

#include "design/overlay.h"

bool tried_is(const struct store *design, size_t overlaid) { return !design->overlaid[overlaid].by->unless_written; }

// What the design itself says: as written, or what holds where nothing is.
static void write_before(struct text *text, const struct overlaid *overlaid, const struct row *row) {
  const struct slot *before = &overlaid->before;
  if (before->text) {
    text_printf(text, "is %s%s", before->text, before->condition == CONDITION_DEFAULT ? ", a default" : "");
  } else if (row->standard) {
    text_printf(text, "is %s, a default", row->standard);
  } else {
    text_add(text, row->derived ? "is worked out where it is not written" : "is not written");
  }
}

static void write_measured(struct text *text, const struct wording *wording, const struct overlaid *overlaid,
                           enum row_id row) {
  const struct measurement *measured = store_measured(evaluation_design(wording->ev), overlaid->slot);
  if (!measured) return;
  text_add(text, "; ");
  word_number(text, wording, row, measured->value);
  text_add(text, " was measured, and that still holds");
}

void tried_words(struct text *text, const struct wording *wording, size_t i) {
  const struct store *design = evaluation_design(wording->ev);
  const struct overlaid *overlaid = &design->overlaid[i];
  int entity;
  enum row_id row = store_row_of_slot(design, overlaid->slot, &entity);
  store_describe(text, design, entity, row);
  text_printf(text, " = %s (", overlaid->by->text);
  write_before(text, overlaid, catalogue_row(row));
  write_measured(text, wording, overlaid, row);
  text_add(text, ")");
}

void tried_write(struct page *page, const struct wording *wording) {
  const struct store *design = evaluation_design(wording->ev);
  for (size_t i = 0; i < design->overlaid_count; i++) {
    if (!tried_is(design, i)) continue;
    struct text words = text_in(page->text.arena);
    tried_words(&words, wording, i);
    page_labelled(page, 0, 7, PAINT_BOLD, "TRIED: ", text_end(&words));
  }
}
