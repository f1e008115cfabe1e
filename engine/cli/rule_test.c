// SPDX-License-Identifier: MIT
#include "cli/errand.h"

static void note_rule(void *with, const char *rule) {
  const struct child *child = with;
  whereabouts_set(child->page, AT_RULE, rule, NULL);
}

static int test(struct child *child, const struct errand *errand, fb_rulebook *rulebook, fb_problems *problems) {
  size_t passed = 0, failed = 0;
  bool tap = errand->settings->format_ == TEST_FORMAT_TAP;
  fb_text *text =
      tap ? fb_rule_test_tap_new(rulebook, !errand->inputs.whole, note_rule, child, &passed, &failed, problems)
          : fb_rule_test_new(rulebook, note_rule, child, &passed, &failed, problems);
  whereabouts_set(child->page, AT_REST, NULL, NULL);
  // With nothing tried nothing is known, which is not the same as all well.
  int result = failed > 0 ? STATUS_HELD : passed > 0 ? STATUS_CLEAR : STATUS_UNUSABLE;
  int status = errand_answer(child, text, result);
  return errand_worse(status, fb_rulebook_whole(rulebook) ? STATUS_CLEAR : STATUS_UNUSABLE);
}

static int work(struct child *child, const struct errand *errand, fb_problems *problems) {
  fb_rulebook *rulebook = errand_rulebook(child, errand, problems);
  if (!rulebook) return errand_answer(child, NULL, STATUS_FAULT);
  int status = test(child, errand, rulebook, problems);
  fb_rulebook_free(rulebook);
  return status;
}

int command_rule_test(struct arena *arena, const struct settings *settings) {
  struct errand errand = errand_new(arena, settings, work);
  return errand_finish(&errand, inputs_read_rules(&errand.inputs, &errand.problems, settings));
}
