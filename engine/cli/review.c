// SPDX-License-Identifier: MIT
#include <stdbool.h>

#include "cli/run.h"

static void note_rule(void *with, const char *rule, const char *entity) {
  const struct child *child = with;
  whereabouts_set(child->page, AT_RULE, rule, entity);
}

enum fail_at { AT_HOLD, AT_REVISE, AT_ADVISE, AT_UNANSWERED };  // in the order of --fail-at's words

static bool is_held(const struct fb_counts *counts, enum fail_at fail_at) {
  const size_t also[] = {
      [AT_HOLD] = 0,
      [AT_REVISE] = counts->revise,
      [AT_ADVISE] = counts->revise + counts->advise,
      [AT_UNANSWERED] = counts->unanswered,
  };
  return counts->hold + counts->unanswered_held + also[fail_at] > 0;
}

static int status_of(const struct run *run, const fb_rulebook *rulebook, const fb_review *review) {
  struct fb_counts counts = fb_review_counts(review);
  int fail_at = run->settings->fail_at;
  if (counts.broken > 0 || !fb_rulebook_whole(rulebook)) return STATUS_UNUSABLE;
  return is_held(&counts, fail_at > 0 ? (enum fail_at)(fail_at - 1) : AT_HOLD) ? STATUS_HELD : STATUS_CLEAR;
}

static int report(struct child *child, const struct run *run, fb_design *design, fb_rulebook *rulebook,
                  fb_problems *problems) {
  fb_review *review = fb_review_new(design, rulebook, note_rule, child, problems);
  whereabouts_set(child->page, AT_REST, NULL, NULL);
  if (!review) return fb_problems_count(problems) > 0 ? STATUS_UNUSABLE : run_answer(child, NULL, STATUS_FAULT);
  const struct fb_report_style style = {
      .units = (enum fb_units)run->settings->units,
      .width = 80,
      .colour = run->colour,
      .seal = seal_words(&child->seal),
  };
  int status = run_answer(child, fb_report_text_new(review, &style), status_of(run, rulebook, review));
  fb_review_free(review);
  return status;
}

static int work(struct child *child, const struct run *run, fb_problems *problems) {
  fb_design *design = run_design(child, run, problems);
  if (!design) return STATUS_UNUSABLE;
  fb_rulebook *rulebook = run_rulebook(child, run, problems);
  int status = rulebook ? report(child, run, design, rulebook, problems) : run_answer(child, NULL, STATUS_FAULT);
  if (rulebook) fb_rulebook_free(rulebook);
  fb_design_free(design);
  return status;
}

int command_review(struct arena *arena, const struct settings *settings) {
  struct run run = run_new(arena, settings, work);
  bool read = inputs_read_design(&run.inputs, &run.problems, settings->operands.at[0]) &&
              inputs_read_rules(&run.inputs, &run.problems, settings);
  return run_finish(&run, read);
}
