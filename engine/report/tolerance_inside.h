// SPDX-License-Identifier: MIT
// What the files of the report on tolerance share and nobody else includes.
#ifndef FOREBAY_REPORT_TOLERANCE_INSIDE_H
#define FOREBAY_REPORT_TOLERANCE_INSIDE_H

#include "report/text_inside.h"
#include "report/tolerance.h"

struct toleranced {
  struct report report;
  const struct tolerance *tolerance;
  size_t last_rule;  // whose title stands above
};

void tolerance_outcome(struct toleranced *r, size_t outcome);  // one that is not firm, with what drives and settles it
void tolerance_line(struct toleranced *r, size_t outcome);     // in a line
void tolerance_share(struct text *words, uint32_t count, uint32_t of);  // "in 31 of 100 draws"
void tolerance_half(struct text *words, const struct toleranced *r, const struct spread_value *value);  // "+/- 1/2 in"

#endif
