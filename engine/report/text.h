// SPDX-License-Identifier: MIT
// The design-review report as plain text: a review in, lines out. Nothing is worked out here.
#ifndef FOREBAY_REPORT_TEXT_H
#define FOREBAY_REPORT_TEXT_H

#include "base/text.h"
#include "mend/mend.h"
#include "review/arrange.h"
#include "rulebook/decision.h"
#include "rulebook/rulebook.h"

struct report_layer {
  const char *name, *digest;
  size_t rules;
};

// What the report is about, for its head and foot. Texts may be a stranger's: control characters are shown as "?".
struct report_about {
  const char *project, *file, *digest;
  const struct report_layer *layers;
  size_t layer_count;
  size_t retired_count;
  const struct decision *decisions;
  size_t decision_count;
  const char *version, *seal;  // seal NULL: nothing is said of it
  const struct mends *mends;   // fixes found by trying; NULL: nobody looked for any
};

struct report_style {
  enum unit_system units;
  size_t width;  // columns
  bool colour;   // ANSI colours
  bool brief;    // the verdict, a line for each group of findings, and what was checked
};

void report_text(struct text *text, const struct review *review, const struct report_about *about,
                 struct report_style style);

#endif
