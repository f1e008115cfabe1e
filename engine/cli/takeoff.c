// SPDX-License-Identifier: MIT
#include "cli/run.h"

static int work(struct child *child, const struct run *run, fb_problems *problems) {
  fb_design *design = run_design(child, run, problems);
  if (!design) return STATUS_UNUSABLE;
  fb_text *text = fb_takeoff_new(design, (enum fb_units)run->settings->units, run->settings->working, problems);
  int status = run_answer(child, text, STATUS_CLEAR);
  fb_design_free(design);
  return status;
}

int command_takeoff(struct arena *arena, const struct settings *settings) {
  struct run run = run_new(arena, settings, work);
  return run_finish(&run, inputs_read_design(&run.inputs, &run.problems, settings->operands.at[0]));
}
