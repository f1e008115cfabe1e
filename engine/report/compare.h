// SPDX-License-Identifier: MIT
// Reviews of a few designs side by side, as plain text of 80 columns: what differs in their givens, in what follows,
// in findings and in the order list. The first is the one that the others are held against.
#ifndef FOREBAY_REPORT_COMPARE_H
#define FOREBAY_REPORT_COMPARE_H

#include "review/review.h"
#include "units/unit.h"

enum { COMPARE_MOST = 3 };

struct compare_side {
  const struct review *review;  // its rules and outcomes; values are worked out anew
  const char *file, *digest;
};

// count: 2 to COMPARE_MOST. All memory comes from the text's arena.
void compare_text(struct text *text, const struct compare_side *sides, size_t count, enum unit_system units);

#endif
