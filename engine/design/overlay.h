// SPDX-License-Identifier: MIT
// Values said from outside of the design's file, put in between reading and settling: a trial from the command line,
// a firm's figures. A slot so set has no line in the file; slot.said leads to who says it.
#ifndef FOREBAY_DESIGN_OVERLAY_H
#define FOREBAY_DESIGN_OVERLAY_H

#include "design/store.h"

struct overlay {
  const char *where;  // `pump "main".speed`, `main.speed`, `pump main.speed`, `prices.gravel`, `lower.shelves[2].width`
  const char *text;   // as it would stand between quotes: "80 %"
  bool unless_written;  // a firm's figure: what the design itself says holds; becomes CONDITION_DEFAULT
  struct place at;      // for messages: "--try 1", or a rule file and its line
  const char *by;       // who says so: "--try", "house"
};

struct overlays {
  const struct overlay *list;
  size_t count;
};

// What an overlay changed, in the order given; store.overlaid.
struct overlaid {
  const struct overlay *by;  // lives in the store's arena
  int slot;
  struct slot before;  // as read from the file; its text is NULL where nothing was written
};

// Before store_settle. The only one of its kind (prices, crew, site) is added where the design lacks it. What was
// measured stays. False: problems, at overlay.at, say which are unknown (did you mean), cannot be set (worked out; a
// list; a shape), are tried twice, or what is wrong with the value; those slots stay as they were.
bool overlay_apply(struct store *store, const struct overlay *overlays, size_t count, struct problems *problems);

// How well a thing can be built does not change with its size: the tolerance in what was written before, where the new
// text states none. "44 in" in the place of "40 in +/- 1 in" is "44 in +/- 1 in".
const char *overlay_keep_tolerance(struct arena *arena, enum row_id id, const char *before, const char *text);

// The slot that such a path leads to. False: a problem at `at`.
bool overlay_find(struct store *store, const char *where, struct place at, int *entity, enum row_id *row,
                  struct problems *problems);

// Givens that a quantity is worked out from, nearest first, by its row's formula: "pump.speed or pipe.length". Nothing
// is added where there are none.
void overlay_write_origins(struct text *text, enum row_id quantity);

#endif
