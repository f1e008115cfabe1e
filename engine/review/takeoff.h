// SPDX-License-Identifier: MIT
// The takeoff: what a design asks to be ordered, hauled, booked and handed over, as plain data in groups. Lines that
// the design brings nothing for are left out; a line whose value is missing says which slots to fill.
#ifndef FOREBAY_REVIEW_TAKEOFF_H
#define FOREBAY_REVIEW_TAKEOFF_H

#include "quantities/evaluate.h"

enum { TAKEOFF_AMOUNTS = 3 };

struct takeoff_amount {
  const char *before;  // "low", or ""
  enum row_id row;     // it is shown as values of this row are
  double value;
};

struct takeoff_line {
  const char *what;  // "pipe 2 in, PVC schedule 40"; NULL: what its row says
  int entity;        // -1: gathered from several
  enum row_id row;   // of a value of one entity; ROW_COUNT: see amounts
  struct takeoff_amount amounts[TAKEOFF_AMOUNTS];
  size_t amount_count;
  const char *formula;  // of gathered amounts
  const int *roots;     // where something is missing: slots to fill
  size_t root_count;
  bool is_price;
};

struct takeoff_group {
  const char *title;
  struct takeoff_line *lines;
  size_t count, room;
};

struct takeoff {
  struct takeoff_group *groups;  // those with lines
  size_t count;
  double price;  // sum of the lines that have one
  size_t priced, unpriced;
};

struct takeoff takeoff_of(struct arena *arena, struct evaluation *ev);

#endif
