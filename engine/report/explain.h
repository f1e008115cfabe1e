// SPDX-License-Identifier: MIT
// The working behind a value: what it is, how it was found, and everything it was found from, back to what was written.
#ifndef FOREBAY_REPORT_EXPLAIN_H
#define FOREBAY_REPORT_EXPLAIN_H

#include "base/text.h"
#include "quantities/evaluate.h"
#include "units/unit.h"

// What a path names: a value, or with ROW_COUNT an entity as a whole.
struct explained {
  int entity;
  enum row_id row;
};

// Reads `spill "left lip".flow`, `left lip.flow`, `site.ground`, `basin "lower".shelves[2].width`, `left
// lip.from.depth`, `lower`. False: there is no such thing; the problem names the nearest.
bool explain_find(struct evaluation *ev, const char *path, struct explained *found, struct problems *problems);

// A value with its working, or all values of an entity. Not full: what was read for it and one level below that,
// without references and lists that its formula is not about; else all of it back to what was written.
void explain_write(struct text *text, struct evaluation *ev, struct explained what, enum unit_system units, bool full);

#endif
