// SPDX-License-Identifier: MIT
#include <stdbool.h>
#include <string.h>

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
  if (counts.broken > 0 || counts.rules == 0 || counts.wrong_accepts > 0 || !fb_rulebook_whole(rulebook))
    return STATUS_UNUSABLE;
  return is_held(&counts, fail_at > 0 ? (enum fail_at)fail_at : FAIL_AT_HOLD) ? STATUS_HELD : STATUS_CLEAR;
}

// The rest is done without fixes where there is no memory to look for them.
static bool mend(struct child *child, fb_review *review, fb_problems *problems) {
  bool done = fb_review_mend(review, note_rule, child, problems);
  whereabouts_set(child->page, AT_REST, NULL, NULL);
  return done;
}

// ---- --apply -------------------------------------------------------------------------------------------------------

enum { MOST_APPLIED = 100 };

struct asked_for {
  size_t numbers[MOST_APPLIED], count;
  bool joint;
};

static bool read_asked_for(const char *words, struct asked_for *asked) {
  *asked = (struct asked_for){.count = 0};
  if (strcmp(words, "joint") == 0) {
    asked->joint = true;
    return true;
  }
  size_t number = 0, digits = 0;
  for (const char *c = words;; c++) {
    if (*c >= '0' && *c <= '9' && digits < 6) {
      number = number * 10 + (size_t)(*c - '0');
      digits++;
    } else if ((*c == ',' || *c == '\0') && digits && asked->count < MOST_APPLIED) {
      asked->numbers[asked->count++] = number;
      number = digits = 0;
      if (*c == '\0') return true;
    } else {
      return false;
    }
  }
}

static int apply(struct child *child, const struct errand *errand, bool whole, fb_review *review,
                 fb_problems *problems) {
  struct asked_for asked;
  if (!read_asked_for(errand->settings->apply, &asked) || !mend(child, review, problems)) return STATUS_UNUSABLE;
  const struct fb_applied applied = {asked.numbers, asked.count, asked.joint, errand->settings->of};
  fb_text *text = fb_apply_new(review, &applied, problems);
  return text ? errand_answer(child, text, whole ? STATUS_CLEAR : STATUS_UNUSABLE) : STATUS_UNUSABLE;
}

static int report(struct child *child, const struct errand *errand, fb_design *design, fb_rulebook *rulebook,
                  fb_problems *problems) {
  fb_review *review = fb_review_new(design, rulebook, errand_stage(errand), note_rule, child, problems);
  whereabouts_set(child->page, AT_REST, NULL, NULL);
  if (!review) return fb_problems_count(problems) > 0 ? STATUS_UNUSABLE : errand_answer(child, NULL, STATUS_FAULT);
  if (errand->settings->apply) {
    int applied = apply(child, errand, fb_rulebook_whole(rulebook), review, problems);
    fb_review_free(review);
    return applied;
  }
  if (!errand->settings->without_fixes && !mend(child, review, problems)) {
    fb_review_free(review);
    return STATUS_FAULT;
  }
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
  return errand_on_design(child, errand, problems, report);
}

// What is tried stands in no file: a fix that is proven with it may not hold without.
static bool goes_with_the_rest(struct errand *errand) {
  if (errand->settings->try_.count == 0) return true;
  problem_add(&errand->problems, (struct problem){.where = "--apply",
                                                  .said = "does not go with --try, which no file says",
                                                  .right = "what is tried into the design first"});
  return false;
}

static bool apply_is_read(struct errand *errand) {
  struct asked_for asked;
  const char *apply_words = errand->settings->apply;
  if (!apply_words) return true;
  if (read_asked_for(apply_words, &asked)) return goes_with_the_rest(errand);
  problem_add(&errand->problems, (struct problem){.where = "--apply",
                                                  .said = "is neither numbers of findings nor joint",
                                                  .read = apply_words,
                                                  .right = "--apply 3, --apply 3,7 or --apply joint"});
  return false;
}

int command_review(struct arena *arena, const struct settings *settings) {
  struct errand errand = errand_new(arena, settings, work);
  errand.verbatim = settings->apply != NULL;
  bool read = apply_is_read(&errand) &&
              inputs_read_design(&errand.inputs, &errand.problems, settings->operands.at[0]) &&
              inputs_read_rules(&errand.inputs, &errand.problems, settings);
  return errand_finish(&errand, read);
}
