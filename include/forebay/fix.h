// SPDX-License-Identifier: MIT
// What to change so that findings are gone, found by trying.
#ifndef FOREBAY_FIX_H
#define FOREBAY_FIX_H

#include "forebay/review.h"

#ifdef __cplusplus
extern "C" {
#endif

// Looks for fixes of all findings; the review's reports show them from then on. Takes a few hundred trials: bounded by
// counts, so the same review always gets the same fixes. watch as in fb_review_new. False: memory ran out.
bool fb_review_mend(fb_review *review, void (*watch)(void *with, const char *rule, const char *entity), void *with,
                    fb_problems *problems);

enum fb_standing {
  FB_PROVEN,      // the edited design was read and reviewed: the finding is gone, nothing new came up
  FB_RAISES,      // proven, but something else is flagged then
  FB_BY_HAND,     // holds in a trial; the file cannot be rewritten there
  FB_CHOICE,      // more than one way is as good
  FB_NOT_ENOUGH,  // no change that was tried goes far enough
  FB_MEASURE,     // the value was measured: take it anew after a change
  FB_ADVICE       // words alone can help
};

struct fb_fix {
  enum fb_standing standing;
  const char *rule;  // its id
  size_t changes;    // givens that change
  size_t raised;     // findings that it raises
  size_t trials;     // that it took
};

size_t fb_fix_count(const fb_review *review);  // of findings; 0 before fb_review_mend
// By the number of the finding in the report, from 1. False: there is no such finding.
bool fb_fix_of(const fb_review *review, size_t finding, struct fb_fix *fix);

struct fb_applied {
  const size_t *findings;  // numbers from 1
  size_t count;
  bool joint;      // the changes that go together
  const char *of;  // the digest of the design whose report gave the numbers; NULL: not asked
};

// The design's file with these fixes in it. NULL: nothing is made, and problems say why: no such finding, no fix that
// is proven, two that want different things, a place that cannot be rewritten, a file that changed since the report.
fb_text *fb_apply_new(fb_review *review, const struct fb_applied *applied, fb_problems *problems);

#ifdef __cplusplus
}
#endif
#endif
