// SPDX-License-Identifier: MIT
// What to change so that a finding is gone, found by trying. A fix is called proven after its edited file was read and
// reviewed like any other: the finding is gone, nothing new is flagged, nothing got worse, nothing lost its answer.
#ifndef FOREBAY_MEND_MEND_H
#define FOREBAY_MEND_MEND_H

#include "design/overlay.h"
#include "rulebook/rulebook.h"
#include "rulebook/stock.h"

enum mend_standing {
  MEND_PROVEN,
  MEND_RAISES,      // proven, but raises what `raised` lists
  MEND_BY_HAND,     // holds in a trial; its place in the file cannot be rewritten: `line` and `why`
  MEND_CHOICE,      // more than one way is as good: it and the alternatives
  MEND_NOT_ENOUGH,  // `reached` is the best that could be had
  MEND_MEASURE,     // the judged value stands on a measurement: after a change it is to be taken again
  MEND_ADVICE,      // words alone can help, or nothing is known to
  MEND_STANDING_COUNT
};
const char *mend_standing_words(enum mend_standing standing);  // "proven", "not enough" ...

struct mend_change {
  int entity;  // of the reviewed design
  enum row_id row;
  double value;                     // SI, a word; of texts nothing
  const char *text;                 // as it would stand between quotes; of a pump's curve: its table
  const char *was;                  // the same as it stands now; NULL: nothing does
  const struct stock_point *curve;  // of a pump's curve: its points; NULL: it is no curve
  size_t curve_count;
  bool beside;  // goes without saying: what comes with a pump that is chosen by its model
};

struct mend_raised {  // flagged, worse or unanswered after the change, and not so before
  size_t rule;
  int entity;
  enum severity severity;
  bool unanswered;
};

struct mend {
  enum mend_standing standing;
  const struct mend_change *changes;
  size_t count;
  const struct mend_raised *raised;
  size_t raised_count;
  struct comparison reached;  // MEND_NOT_ENOUGH
  int measured;               // MEND_MEASURE: the slot that was taken on site
  bool at_limit;              // what it was changed for stands exactly at its limit then
  double price;               // of what is bought, where the firm's stock says it; NaN
  int line;                   // MEND_BY_HAND
  const char *why;
};

enum { MEND_OTHERS = 2 };

struct mend_finding {
  const struct outcome *finding;
  struct mend best;
  struct mend others[MEND_OTHERS];
  size_t other_count;
  size_t trials;
};

// Changes that go together, after which nothing is held, or as little as could be had.
struct mend_joint {
  struct mend mend;
  size_t held_before, held_after, revise_before, revise_after;
  const struct mend_raised *left;  // what is still held, or to be revised
  size_t left_count;
  double price;  // by which the takeoff's sum grows; NaN: prices are not stated
};

struct mends {
  const struct mend_finding *list;  // by the number of the finding in the report, from 0
  size_t count;
  bool cut_short;  // the work was ended by its bound: not all findings were looked at to the end
  struct mend_joint joint;
};

struct mend_source {  // what the design was read from
  struct file_bytes file;
  const struct file_bytes *beside;
  size_t beside_count;
  struct overlays overlays;
};

// review: as rulebook_judge left it. Memory comes from review->arena, which is guarded by an arena_try.
const struct mends *mends_of(struct rulebook *rulebook, const struct review *review, const struct mend_source *source,
                             struct rulebook_watch watch);

// What to write into a design: fixes by the numbers of their findings, from 1, and the changes that go together.
struct mend_order {
  const struct review *review;
  const struct mends *mends;
  const struct mend_source *source;
  const size_t *numbers;
  size_t count;
  bool joint;
};

// The design's file with all these in it. False: problems say which number there is not, which finding has no fix that
// is proven, which two want different things.
bool mend_apply(struct arena *arena, const struct mend_order *order, struct file_bytes *made,
                struct problems *problems);

#endif
