// SPDX-License-Identifier: MIT
// What stands behind the opaque handles, and the two guards that every public function works under.
#ifndef FOREBAY_API_HANDLES_H
#define FOREBAY_API_HANDLES_H

#include "base/problem.h"
#include "design/store.h"
#include "forebay/forebay.h"
#include "mend/mend.h"
#include "report/text.h"
#include "review/review.h"
#include "rulebook/rulebook.h"

// Each handle lives in its own arena and ends with it.
struct fb_problems {
  struct arena *arena;
  struct fb_problem *list;
  size_t count, room;
  bool out_of_memory;
};

struct fb_text {
  struct arena *arena;
  struct text text;
};

struct fb_design {
  struct arena *arena;
  struct store *store;
  const char *digest;
  struct mend_source source;  // what it was read from
};

struct fb_rulebook {
  struct arena *arena;
  struct rulebook *rulebook;
  struct report_layer *layers;
  size_t layer_count;
};

struct fb_review {
  struct arena *arena;
  struct review review;
  const struct fb_design *design;
  const struct fb_rulebook *rulebook;
  const struct mends *mends;  // NULL: nobody looked for fixes
  bool spent;                 // memory ran out in the middle of its evaluation, which cannot be used any more
};

// Copies what was found to the caller's problems, which may be NULL; memory running out there is noted there.
void problems_hand_over(fb_problems *to, const struct problems *found);
void problems_note_no_memory(fb_problems *to);

// An arena that work allocates from too.
struct beside {
  struct arena *arena;
  bool gave_up;  // set when it ran out, perhaps in the middle of something it holds
};

// Runs work(with) with memory from a new arena, and `beside` (NULL: none) guarded too. NULL: memory ran out, and what
// the new arena held is gone.
struct arena *arena_filled(struct beside *beside, void (*work)(struct arena *arena, void *with), void *with,
                           fb_problems *problems);

// A text that write fills; NULL when memory ran out or write returned false.
fb_text *text_filled(struct beside *beside, bool (*write)(struct text *text, void *with), void *with,
                     fb_problems *problems);

struct file_bytes file_kept(struct arena *arena, const struct fb_file *file);
// For reports on a review; what they point to is the review's.
struct report_about about_review(const fb_review *review, const char *seal);
struct report_style style_for(const fb_review *review, const struct fb_report_style *style);
enum unit_system units_for(const struct fb_design *design, enum fb_units units);

#endif
