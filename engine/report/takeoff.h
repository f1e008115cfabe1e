// SPDX-License-Identifier: MIT
// The takeoff in words: plain text of 80 columns, in groups.
#ifndef FOREBAY_REPORT_TAKEOFF_H
#define FOREBAY_REPORT_TAKEOFF_H

#include "base/text.h"
#include "quantities/evaluate.h"
#include "units/unit.h"

// working: each line with the formula behind it and where that is from.
void takeoff_write(struct text *text, struct evaluation *ev, enum unit_system units, bool working);

#endif
