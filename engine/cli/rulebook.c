// SPDX-License-Identifier: MIT
#include "cli/errand.h"

static int show(struct child *child, const struct errand *errand, fb_rulebook *rulebook, fb_problems *problems) {
  const struct words *operands = &errand->settings->operands;
  const char *id = operands->count > 0 ? operands->at[0] : NULL;
  fb_text *text = fb_rulebook_text_new(rulebook, id, problems);  // limits are shown as they were written
  if (!text && fb_problems_count(problems) > 0) return STATUS_UNUSABLE;
  return errand_answer(child, text, fb_rulebook_whole(rulebook) ? STATUS_CLEAR : STATUS_UNUSABLE);
}

static int work(struct child *child, const struct errand *errand, fb_problems *problems) {
  fb_rulebook *rulebook = errand_rulebook(child, errand, problems);
  if (!rulebook) return errand_answer(child, NULL, STATUS_FAULT);
  int status = show(child, errand, rulebook, problems);
  fb_rulebook_free(rulebook);
  return status;
}

int command_rulebook(struct arena *arena, const struct settings *settings) {
  struct errand errand = errand_new(arena, settings, work);
  return errand_finish(&errand, inputs_read_rules(&errand.inputs, &errand.problems, settings));
}
