// SPDX-License-Identifier: MIT
#include "report/tolerance.h"

#include "api/handles.h"
#include "forebay/tolerance.h"

struct fb_tolerance {
  fb_review *review;
  struct rulebook *rulebook;
  struct arena *rules;
  struct tolerance *tolerance;
};

// Draws are worked out in the review's arena and in the rulebook's script: both are guarded, and what ran out of memory
// in the middle cannot be used any more.
struct order {
  struct arena *arena;
  void (*work)(struct order *order);
  fb_tolerance *tolerance;
  const struct fb_tolerance_order *wanted;
  enum tolerance_step step;
  unsigned share, of;
  const char *bytes;
  size_t length;
  bool done;
};

static void run(void *with) {
  struct order *order = with;
  order->work(order);
}

static void run_in_review(void *with) {
  struct order *order = with;
  if (!arena_try(order->arena, run, order)) order->done = false;
}

static bool guarded(fb_review *review, struct arena *rules, struct order *order) {
  if (review->spent) return false;
  order->arena = review->arena;
  order->done = true;
  if (!arena_try(rules, run_in_review, order)) order->done = false;
  if (!order->done) review->spent = true;
  return order->done;
}

static void begin(struct order *order) {
  fb_tolerance *t = order->tolerance;
  fb_tolerance *made = arena_alloc(order->arena, sizeof *made);
  *made = *t;
  made->tolerance = tolerance_in(t->rulebook, &t->review->review, order->wanted->samples, order->wanted->seed);
  order->tolerance = made;
}

fb_tolerance *fb_tolerance_of(fb_review *review, fb_rulebook *rulebook, const struct fb_tolerance_order *order) {
  if (order->samples < FB_TOLERANCE_FEWEST || order->samples > FB_TOLERANCE_MOST) return NULL;
  fb_tolerance first = {.review = review, .rulebook = rulebook->rulebook, .rules = rulebook->arena};
  struct order begun = {.work = begin, .tolerance = &first, .wanted = order};
  return guarded(review, rulebook->arena, &begun) ? begun.tolerance : NULL;
}

static void work(struct order *order) {
  tolerance_work(order->tolerance->tolerance, order->step, order->share, order->of);
}

bool fb_tolerance_work(fb_tolerance *tolerance, enum fb_tolerance_step step, unsigned share, unsigned of) {
  struct order order = {
      .work = work, .tolerance = tolerance, .step = (enum tolerance_step)step, .share = share, .of = of};
  return share < of && guarded(tolerance->review, tolerance->rules, &order);
}

struct packing {
  const struct tolerance *tolerance;
  enum tolerance_step step;
};

static bool pack(struct text *text, void *with) {
  const struct packing *packing = with;
  tolerance_pack(packing->tolerance, packing->step, text);
  return true;
}

fb_text *fb_tolerance_found_new(const fb_tolerance *tolerance, enum fb_tolerance_step step) {
  struct packing packing = {tolerance->tolerance, (enum tolerance_step)step};
  return text_filled(NULL, pack, &packing, NULL);
}

bool fb_tolerance_add(fb_tolerance *tolerance, enum fb_tolerance_step step, const char *bytes, size_t length) {
  return tolerance_add(tolerance->tolerance, (enum tolerance_step)step, bytes, length);
}

struct fb_sureness fb_tolerance_sureness(const fb_tolerance *tolerance) {
  const struct tolerance *t = tolerance->tolerance;
  struct tolerance_counts counts = tolerance_count(t);
  return (struct fb_sureness){.firm = counts.sure[SURE_FIRM],
                              .fragile = counts.sure[SURE_FRAGILE],
                              .failing = counts.sure[SURE_FAILING],
                              .unanswered = counts.sure[SURE_OPEN],
                              .grave = counts.grave,
                              .unanswered_held = counts.held_open,
                              .draws = t->drawn,
                              .contradicting = t->contradicting};
}

struct reporting {
  fb_tolerance *tolerance;
  const struct fb_report_style *style;
};

static bool report(struct text *text, void *with) {
  const struct reporting *order = with;
  fb_tolerance *t = order->tolerance;
  struct report_about about = about_review(t->review, order->style->seal);
  tolerance_ask(t->tolerance);
  report_tolerance(text, t->tolerance, &about, style_for(t->review, order->style));
  return true;
}

fb_text *fb_report_tolerance_new(fb_tolerance *tolerance, const struct fb_report_style *style) {
  static const struct fb_report_style plain = {.units = FB_UNITS_AS_DESIGNED};
  if (tolerance->review->spent) return NULL;
  struct reporting order = {tolerance, style ? style : &plain};
  struct beside beside = {.arena = tolerance->review->arena};
  fb_text *text = text_filled(&beside, report, &order, NULL);
  tolerance->review->spent = beside.gave_up;
  return text;
}
