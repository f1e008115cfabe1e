// SPDX-License-Identifier: MIT
// What the files that gather candidates share and nobody else includes.
#ifndef FOREBAY_MEND_CANDIDATES_INSIDE_H
#define FOREBAY_MEND_CANDIDATES_INSIDE_H

#include "mend/mend_inside.h"
#include "mend/rows.h"
#include "rulebook/fix.h"

struct gathering {
  struct mending *m;
  const struct mend_base *base;
  const struct outcome *finding;
  struct candidate *list;
  size_t count, room;
  int measured;  // slot; -1: none yet
};

struct candidate *gathering_add(struct gathering *g);  // cleared
// The next larger and the next smaller of what is sold: pipe, wire, pumps of the firm's stock.
void gather_purchases(struct gathering *g, int entity, enum row_id id, bool own);

#endif
