// SPDX-License-Identifier: MIT
#include <stdbool.h>

#include "cli/errand.h"

static void note_rule(void *with, const char *rule, const char *entity) {
  const struct child *child = with;
  whereabouts_set(child->page, AT_RULE, rule, entity);
}

static bool is_held(const struct fb_counts *counts, enum fail_at fail_at) {
  const size_t also[] = {
      [FAIL_AT_HOLD] = 0,
      [FAIL_AT_REVISE] = counts->revise,
      [FAIL_AT_ADVISE] = counts->revise + counts->advise,
      [FAIL_AT_UNANSWERED] = counts->unanswered - counts->unanswered_behind,
  };
  return counts->hold + counts->unanswered_held + also[fail_at] > 0;
}

static int status_of(const struct errand *errand, const fb_rulebook *rulebook, const fb_review *review) {
  struct fb_counts counts = fb_review_counts(review);
  int fail_at = errand->settings->fail_at;
  // With no rule in force nothing was checked, which is not the same as nothing held.
  if (counts.broken > 0 || counts.rules == 0 || counts.wrong_accepts > 0 || !fb_rulebook_whole(rulebook)) return STATUS_UNUSABLE;
  return is_held(&counts, fail_at > 0 ? (enum fail_at)fail_at : FAIL_AT_HOLD) ? STATUS_HELD : STATUS_CLEAR;
}

static enum fb_stage stage_of(const struct errand *errand) {
  return errand->settings->stage > 0 ? (enum fb_stage)(errand->settings->stage - 1) : FB_LAYOUT;
}

static int report(struct child *child, const struct errand *errand, fb_design *design, fb_rulebook *rulebook,
                  fb_problems *problems) {
  fb_review *review = fb_review_new(design, rulebook, stage_of(errand), note_rule, child, problems);
  whereabouts_set(child->page, AT_REST, NULL, NULL);
  if (!review) return fb_problems_count(problems) > 0 ? STATUS_UNUSABLE : errand_answer(child, NULL, STATUS_FAULT);
  const struct fb_report_style style = {
      .units = (enum fb_units)errand->settings->units,
      .width = 80,
      .colour = errand->colour,
      .brief = errand->settings->short_,
      .seal = seal_words(&child->seal),
  };
  int status = errand_answer(child, fb_report_text_new(review, &style), status_of(errand, rulebook, review));
  fb_review_free(review);
  return status;
}

static int work(struct child *child, const struct errand *errand, fb_problems *problems) {
  fb_rulebook *rulebook = errand_rulebook(child, errand, problems);
  if (!rulebook) return errand_answer(child, NULL, STATUS_FAULT);
  fb_design *design = errand_design(child, errand, rulebook, problems);
  int status = design ? report(child, errand, design, rulebook, problems) : STATUS_UNUSABLE;
  fb_design_free(design);
  fb_rulebook_free(rulebook);
  return status;
}

int command_review(struct arena *arena, const struct settings *settings) {
  struct errand errand = errand_new(arena, settings, work);
  bool read = inputs_read_design(&errand.inputs, &errand.problems, settings->operands.at[0]) &&
              inputs_read_rules(&errand.inputs, &errand.problems, settings);
  return errand_finish(&errand, read);
}
