// SPDX-License-Identifier: MIT
// What the files of the comparison share and nobody else includes.
#ifndef FOREBAY_REPORT_COMPARE_INSIDE_H
#define FOREBAY_REPORT_COMPARE_INSIDE_H

#include "report/compare.h"
#include "report/page.h"
#include "report/wording.h"

enum { COMPARE_STEP = 2, COMPARE_VALUES = 40 };  // the column where values begin

// One thing of one kind and name; -1: that design has none.
struct subject {
  const char *name;  // as reports call it
  enum kind kind;
  bool written;  // in one of them, and not only added
  int of[COMPARE_MOST];
};

struct side {
  const struct review *review;
  const struct store *design;
  const char *file, *digest;
  struct wording wording;
};

struct comparing {
  struct page page;
  struct arena *arena;
  struct side sides[COMPARE_MOST];
  size_t count;
  struct subject *subjects;  // parts left out; in the order of the first design, then what only later ones have
  size_t subject_count, subject_room;
};

static inline char compare_letter(size_t side) { return (char)('A' + side); }

// A line of values beside one another, "label ..... 100 % | 80 %"; NULL reads as "-". False, and no line: all are
// alike.
bool compare_differ(const char *const *values, size_t count);
void compare_row(struct comparing *c, const char *label, const char *const *values);

void compare_givens(struct comparing *c);
void compare_quantities(struct comparing *c);
void compare_findings(struct comparing *c);
void compare_takeoff(struct comparing *c);

#endif
