// SPDX-License-Identifier: MIT
#include "report/compare.h"

#include "api/handles.h"

struct comparing_order {
  const fb_review *const *reviews;
  size_t count;
  enum unit_system units;
};

static bool compare_all(struct text *text, void *with) {
  const struct comparing_order *order = with;
  struct compare_side sides[COMPARE_MOST];
  for (size_t i = 0; i < order->count; i++) {
    const fb_design *design = order->reviews[i]->design;
    sides[i] = (struct compare_side){&order->reviews[i]->review, design->store->file, design->digest};
  }
  compare_text(text, sides, order->count, order->units);
  return true;
}

fb_text *fb_compare_new(const fb_review *const *reviews, size_t count, enum fb_units units) {
  if (count < 2 || count > COMPARE_MOST) return NULL;
  struct comparing_order order = {reviews, count, units_for(reviews[0]->design, units)};
  return text_filled(NULL, compare_all, &order, NULL);
}
