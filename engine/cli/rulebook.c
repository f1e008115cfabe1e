// SPDX-License-Identifier: MIT
#include "cli/errand.h"

static int show(struct child *child, const struct errand *errand, fb_rulebook *rulebook, fb_problems *problems) {
  const struct words *operands = &errand->settings->operands;
  const char *id = operands->count > 0 ? operands->at[0] : NULL;
  fb_text *text = fb_rulebook_text_new(rulebook, id, problems);  // limits are shown as they were written
  if (!text && fb_problems_count(problems) > 0) return STATUS_UNUSABLE;
  return errand_answer(child, text, STATUS_CLEAR);
}

static void note_rule(void *with, const char *rule) {
  const struct child *child = with;
  whereabouts_set(child->page, AT_RULE, rule, NULL);
}

static int check(struct child *child, const struct errand *errand, fb_rulebook *rulebook, fb_problems *problems) {
  const struct words *files = &errand->inputs.checked;
  size_t wrong = 0;
  fb_text *text = fb_rulebook_check_new(rulebook, files->at, files->count, note_rule, child, &wrong, problems);
  whereabouts_set(child->page, AT_REST, NULL, NULL);
  return errand_answer(child, text, wrong > 0 ? STATUS_UNUSABLE : STATUS_CLEAR);
}

static int work(struct child *child, const struct errand *errand, fb_problems *problems) {
  fb_rulebook *rulebook = errand_rulebook(child, errand, problems);
  if (!rulebook) return errand_answer(child, NULL, STATUS_FAULT);
  int status =
      errand->settings->check ? check(child, errand, rulebook, problems) : show(child, errand, rulebook, problems);
  status = errand_worse(status, fb_rulebook_whole(rulebook) ? STATUS_CLEAR : STATUS_UNUSABLE);
  fb_rulebook_free(rulebook);
  return status;
}

int command_rulebook(struct arena *arena, const struct settings *settings) {
  struct errand errand = errand_new(arena, settings, work);
  bool read = inputs_read_rules(&errand.inputs, &errand.problems, settings) &&
              (!settings->check || inputs_read_checked(&errand.inputs, &errand.problems, settings));
  return errand_finish(&errand, read);
}
