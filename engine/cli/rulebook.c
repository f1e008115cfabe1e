// SPDX-License-Identifier: MIT
#include "cli/run.h"

static int show(struct child *child, const struct run *run, fb_rulebook *rulebook, fb_problems *problems) {
  const struct words *operands = &run->settings->operands;
  const char *id = operands->count > 0 ? operands->at[0] : NULL;
  fb_text *text = fb_rulebook_text_new(rulebook, id, problems);  // limits are shown as they were written
  if (!text && fb_problems_count(problems) > 0) return STATUS_UNUSABLE;
  return run_answer(child, text, fb_rulebook_whole(rulebook) ? STATUS_CLEAR : STATUS_UNUSABLE);
}

static int work(struct child *child, const struct run *run, fb_problems *problems) {
  fb_rulebook *rulebook = run_rulebook(child, run, problems);
  if (!rulebook) return run_answer(child, NULL, STATUS_FAULT);
  int status = show(child, run, rulebook, problems);
  fb_rulebook_free(rulebook);
  return status;
}

int command_rulebook(struct arena *arena, const struct settings *settings) {
  struct run run = run_new(arena, settings, work);
  return run_finish(&run, inputs_read_rules(&run.inputs, &run.problems, settings));
}
