// SPDX-License-Identifier: MIT
#include "cli/errand.h"

static int work(struct child *child, const struct errand *errand, fb_problems *problems) {
  bool whole;
  fb_design *design = errand_priced(child, errand, &whole, problems);
  if (!design) return STATUS_UNUSABLE;
  const char *what = errand->settings->operands.at[1];
  fb_text *text =
      fb_explain_new(design, what, (enum fb_units)errand->settings->units, errand->settings->full, problems);
  int status = text || fb_problems_count(problems) == 0
                   ? errand_answer(child, text, whole ? STATUS_CLEAR : STATUS_UNUSABLE)
                   : STATUS_UNUSABLE;
  fb_design_free(design);
  return status;
}

static int work_list(struct child *child, const struct errand *errand, fb_problems *problems) {
  const struct words *operands = &errand->settings->operands;
  fb_text *text = fb_list_new(operands->count > 0 ? operands->at[0] : NULL, problems);
  return text || fb_problems_count(problems) == 0 ? errand_answer(child, text, STATUS_CLEAR) : STATUS_UNUSABLE;
}

int command_explain(struct arena *arena, const struct settings *settings) {
  struct errand errand = errand_new(arena, settings, settings->list ? work_list : work);
  if (settings->list) return errand_finish(&errand, true);
  return errand_finish(&errand, errand_read_priced(&errand));
}
