// SPDX-License-Identifier: MIT
// All outcomes of one rulebook on one design: a finished snapshot.
#ifndef FOREBAY_REVIEW_H
#define FOREBAY_REVIEW_H

#include "forebay/design.h"
#include "forebay/rulebook.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef struct fb_review fb_review;

enum fb_severity { FB_ADVISE, FB_REVISE, FB_HOLD };

struct fb_counts {
  size_t rules, entities;
  size_t clear, flagged, unanswered, not_applicable, broken;  // outcomes
  size_t hold, revise, advise;  // findings by severity (unanswered that count as held: hold)
  size_t unanswered_held;       // unanswered outcomes that count as held
  size_t unanswered_behind;     // unanswered ones of a stage that the work has passed
  size_t accepted, behind;      // found and not counted: accepted in the design; of a stage that the work has passed
  size_t wrong_accepts;         // accepts of the design that cannot be used
};

// How far the work has come. Rules of earlier stages are behind us: what they find is listed and does not count, but
// where lives depend on it.
enum fb_stage { FB_LAYOUT, FB_DIG, FB_LINER, FB_STONE, FB_PLUMBING, FB_POWER, FB_FINISH, FB_WATER_UP, FB_HANDED_OVER };

// watch (may be NULL) is told which rule runs on which entity before each. The design and rulebook must outlive the
// review, and belong to its thread as long as it lives. What an `accept` of the design gets wrong is in problems.
fb_review *fb_review_new(fb_design *design, fb_rulebook *rulebook, enum fb_stage come_to,
                         void (*watch)(void *with, const char *rule, const char *entity), void *with,
                         fb_problems *problems);
void fb_review_free(fb_review *review);
struct fb_counts fb_review_counts(const fb_review *review);

struct fb_report_style {
  enum fb_units units;
  size_t width;      // columns; 0: 80
  bool colour;       // ANSI colours
  bool brief;        // the verdict, a line for each group of findings, and what was checked
  const char *seal;  // what held while it ran, for the foot; NULL: nothing is said
};

// The design-review report as text. Works out in the review what no rule has asked for yet. NULL: memory ran out.
fb_text *fb_report_text_new(fb_review *review, const struct fb_report_style *style);

// Reviews of 2 or 3 designs side by side, as text of 80 columns: what differs in the givens, in what follows, in
// findings against the first, and in the order list. NULL: no memory, or another count.
fb_text *fb_compare_new(const fb_review *const *reviews, size_t count, enum fb_units units);

#ifdef __cplusplus
}
#endif
#endif
