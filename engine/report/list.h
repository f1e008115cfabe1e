// SPDX-License-Identifier: MIT
// What forebay knows about, from the rows: all kinds in short, or one kind with its givens and what is worked out of
// them.
#ifndef FOREBAY_REPORT_LIST_H
#define FOREBAY_REPORT_LIST_H

#include "base/problem.h"
#include "base/text.h"

// kind NULL: all kinds. False: there is no such kind; the problem names the nearest.
bool list_write(struct text *text, const char *kind, struct problems *problems);

#endif
