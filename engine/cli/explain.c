// SPDX-License-Identifier: MIT
#include "cli/run.h"

static int work(struct child *child, const struct run *run, fb_problems *problems) {
  fb_design *design = run_design(child, run, problems);
  if (!design) return STATUS_UNUSABLE;
  const char *what = run->settings->operands.at[1];
  fb_text *text = fb_explain_new(design, what, (enum fb_units)run->settings->units, run->settings->full, problems);
  int status = text || fb_problems_count(problems) == 0 ? run_answer(child, text, STATUS_CLEAR) : STATUS_UNUSABLE;
  fb_design_free(design);
  return status;
}

static int work_list(struct child *child, const struct run *run, fb_problems *problems) {
  const struct words *operands = &run->settings->operands;
  fb_text *text = fb_list_new(operands->count > 0 ? operands->at[0] : NULL, problems);
  return text || fb_problems_count(problems) == 0 ? run_answer(child, text, STATUS_CLEAR) : STATUS_UNUSABLE;
}

int command_explain(struct arena *arena, const struct settings *settings) {
  struct run run = run_new(arena, settings, settings->list ? work_list : work);
  if (settings->list) return run_finish(&run, true);
  return run_finish(&run, inputs_read_design(&run.inputs, &run.problems, settings->operands.at[0]));
}
