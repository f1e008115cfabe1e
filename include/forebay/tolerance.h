// SPDX-License-Identifier: MIT
// How sure a review is: its outcomes judged again in many draws, in which every value that is not known exactly lies
// somewhere within its tolerance.
//
// The work has two steps, and each of them can be parted: `share` of `of` processes that were begun with the same
// design, rules and order work at the same time, and what they found is put together, with the same result whatever
// `of` is. By oneself: both steps with share 0 of 1, then the report.
#ifndef FOREBAY_TOLERANCE_H
#define FOREBAY_TOLERANCE_H

#include <stdint.h>

#include "forebay/review.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef struct fb_tolerance fb_tolerance;

enum { FB_TOLERANCE_FEWEST = 1000, FB_TOLERANCE_MOST = 1000000 };  // draws: far fewer could call nothing firm
struct fb_tolerance_order {
  size_t samples;
  uint64_t seed;
};

// Lives in the review, and ends with it. The rulebook is used too, as long as there is work. NULL: memory ran out, or
// the number of draws is out of range.
fb_tolerance *fb_tolerance_of(fb_review *review, fb_rulebook *rulebook, const struct fb_tolerance_order *order);

enum fb_tolerance_step { FB_TOLERANCE_DRAWS, FB_TOLERANCE_DRIVERS };
bool fb_tolerance_work(fb_tolerance *tolerance, enum fb_tolerance_step step, unsigned share, unsigned of);

// What the work of one step found, for another process of the same program. Before the second step, what all have
// found in the first has to be added. False: no memory, or not the bytes of such work.
fb_text *fb_tolerance_found_new(const fb_tolerance *tolerance, enum fb_tolerance_step step);
bool fb_tolerance_add(fb_tolerance *tolerance, enum fb_tolerance_step step, const char *bytes, size_t length);

struct fb_sureness {
  size_t firm, fragile, failing, unanswered;  // outcomes
  size_t grave;                               // of fragile and failing: holds, and rules of life safety
  size_t unanswered_held;
  size_t draws, contradicting;  // draws in which the design contradicts itself
};
struct fb_sureness fb_tolerance_sureness(const fb_tolerance *tolerance);

fb_text *fb_report_tolerance_new(fb_tolerance *tolerance, const struct fb_report_style *style);

#ifdef __cplusplus
}
#endif
#endif
