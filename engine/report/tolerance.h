// SPDX-License-Identifier: MIT
// How sure the verdict is, as plain text: what was found by chance in, lines out.
#ifndef FOREBAY_REPORT_TOLERANCE_H
#define FOREBAY_REPORT_TOLERANCE_H

#include "chance/tolerance.h"
#include "report/text.h"

void report_tolerance(struct text *text, const struct tolerance *tolerance, const struct report_about *about,
                      struct report_style style);

#endif
