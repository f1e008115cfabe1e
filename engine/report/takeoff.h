// SPDX-License-Identifier: MIT
// The takeoff in words: plain text of 80 columns, in groups.
#ifndef FOREBAY_REPORT_TAKEOFF_H
#define FOREBAY_REPORT_TAKEOFF_H

#include "base/text.h"
#include "quantities/evaluate.h"
#include "report/wording.h"
#include "review/takeoff.h"
#include "units/unit.h"

// working: each line with the formula behind it and where that is from.
void takeoff_write(struct text *text, struct evaluation *ev, enum unit_system units, bool working);

// One line of it: "gravel to order", "12 yd3" or what is missing. in_doubt becomes true where its value is.
const char *takeoff_label(struct arena *arena, const struct wording *wording, const struct takeoff_line *line);
const char *takeoff_value(struct arena *arena, const struct wording *wording, const struct takeoff_line *line,
                          bool *in_doubt);

#endif
