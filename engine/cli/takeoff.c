// SPDX-License-Identifier: MIT
#include "cli/errand.h"

static int work(struct child *child, const struct errand *errand, fb_problems *problems) {
  bool whole;
  fb_design *design = errand_priced(child, errand, &whole, problems);
  if (!design) return STATUS_UNUSABLE;
  fb_text *text = fb_takeoff_new(design, (enum fb_units)errand->settings->units, errand->settings->working, problems);
  int status = errand_answer(child, text, whole ? STATUS_CLEAR : STATUS_UNUSABLE);
  fb_design_free(design);
  return status;
}

int command_takeoff(struct arena *arena, const struct settings *settings) {
  struct errand errand = errand_new(arena, settings, work);
  return errand_finish(&errand, errand_read_priced(&errand));
}
