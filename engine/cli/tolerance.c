// SPDX-License-Identifier: MIT
// Three rounds of children where there are several: all draws; what drives the outcomes that are not firm; the report.
// The parent hands the bytes of each round on to the next without a look. One child does all three by itself.
#include <string.h>

#include "base/number.h"
#include "cli/errand.h"

enum { MOST_JOBS = 64 };

struct tolerating {
  struct errand errand;  // the first, so that the work finds the rest
  struct fb_tolerance_order order;
  unsigned jobs, round;
  struct text *found[2];  // by the jobs, in rounds 0 and 1
};

static const struct tolerating *of_errand(const struct errand *errand) { return (const struct tolerating *)errand; }

// ---- in the child --------------------------------------------------------------------------------------------------

static void note_rule(void *with, const char *rule, const char *entity) {
  const struct child *child = with;
  whereabouts_set(child->page, AT_RULE, rule, entity);
}

// More draws that contradict themselves than this are held: the drawing does not go together.
static const double MOST_CONTRADICTING = 0.01;

static int status_of(const fb_rulebook *rulebook, const fb_review *review, const fb_tolerance *tolerance) {
  struct fb_counts counts = fb_review_counts(review);
  struct fb_sureness sure = fb_tolerance_sureness(tolerance);
  if (counts.broken > 0 || counts.rules == 0 || !fb_rulebook_whole(rulebook)) return STATUS_UNUSABLE;
  bool apart = (double)sure.contradicting > MOST_CONTRADICTING * (double)sure.draws;
  return sure.grave + sure.unanswered_held > 0 || apart ? STATUS_HELD : STATUS_CLEAR;
}

static bool take_found(const struct tolerating *t, unsigned round, fb_tolerance *tolerance) {
  for (unsigned i = 0; i < t->jobs; i++) {
    const struct text *found = &t->found[round][i];
    if (!fb_tolerance_add(tolerance, (enum fb_tolerance_step)round, found->at, found->length)) return false;
  }
  return true;
}

static fb_text *write_report(struct child *child, const struct errand *errand, fb_tolerance *tolerance) {
  const struct fb_report_style style = {.units = (enum fb_units)errand->settings->units,
                                        .width = 80,
                                        .colour = errand->colour,
                                        .seal = seal_words(&child->seal)};
  return fb_report_tolerance_new(tolerance, &style);
}

static fb_text *alone(struct child *child, const struct errand *errand, fb_tolerance *tolerance) {
  for (int step = FB_TOLERANCE_DRAWS; step <= FB_TOLERANCE_DRIVERS; step++) {
    if (!fb_tolerance_work(tolerance, (enum fb_tolerance_step)step, 0, 1)) return NULL;
  }
  return write_report(child, errand, tolerance);
}

static fb_text *parted(struct child *child, const struct errand *errand, fb_tolerance *tolerance) {
  const struct tolerating *t = of_errand(errand);
  for (unsigned round = 0; round < t->round; round++) {
    if (!take_found(t, round, tolerance)) return NULL;
  }
  if (t->round == 2) return write_report(child, errand, tolerance);
  enum fb_tolerance_step step = (enum fb_tolerance_step)t->round;
  return fb_tolerance_work(tolerance, step, child->share, child->of) ? fb_tolerance_found_new(tolerance, step) : NULL;
}

static int tolerate(struct child *child, const struct errand *errand, fb_review *review, fb_rulebook *rulebook) {
  const struct tolerating *t = of_errand(errand);
  fb_tolerance *tolerance = fb_tolerance_of(review, rulebook, &t->order);
  if (!tolerance) return errand_answer(child, NULL, STATUS_FAULT);
  fb_text *text = t->jobs == 1 ? alone(child, errand, tolerance) : parted(child, errand, tolerance);
  bool last = t->jobs == 1 || t->round == 2;
  return errand_answer(child, text, last ? status_of(rulebook, review, tolerance) : STATUS_CLEAR);
}

static int judge(struct child *child, const struct errand *errand, fb_design *design, fb_rulebook *rulebook,
                 fb_problems *problems) {
  fb_review *review = fb_review_new(design, rulebook, errand_stage(errand), note_rule, child, problems);
  whereabouts_set(child->page, AT_REST, NULL, NULL);
  if (!review) return fb_problems_count(problems) > 0 ? STATUS_UNUSABLE : errand_answer(child, NULL, STATUS_FAULT);
  int status = tolerate(child, errand, review, rulebook);
  fb_review_free(review);
  return status;
}

static int work(struct child *child, const struct errand *errand, fb_problems *problems) {
  return errand_on_design(child, errand, problems, judge);
}

// ---- the rounds ----------------------------------------------------------------------------------------------------

static int run(struct errand *errand, struct text *result, struct text *diagnostics) {
  struct tolerating *t = (struct tolerating *)errand;
  if (t->jobs == 1) return errand_attempts(errand, result, diagnostics);
  for (t->round = 0; t->round < 2; t->round++) {
    t->found[t->round] = arena_array(errand->arena, t->jobs, sizeof *t->found[0]);
    int status = errand_attempts_parted(errand, t->jobs, t->found[t->round], diagnostics);
    if (status != STATUS_CLEAR) return status;
  }
  return errand_attempts(errand, result, diagnostics);
}

// ---- the options ---------------------------------------------------------------------------------------------------

// False: it is no whole number from least to most, which is said. text NULL: `usual` stays.
static bool read_count(struct errand *errand, const char *option, const char *text, uint64_t least, uint64_t most,
                       uint64_t *value) {
  double read = 0;
  if (!text) return true;
  size_t length = strlen(text);
  bool whole = length > 0 && text[0] != '-' && text[0] != '+' && number_read(text, length, &read) == length &&
               read >= 0 && read <= 9007199254740992.0 && read == (double)(uint64_t)read;
  if (whole && read >= (double)least && read <= (double)most) {
    *value = (uint64_t)read;
    return true;
  }
  struct text right = text_in(errand->arena);
  text_add(&right, "a whole number from ");
  number_write(&right, (double)least, 0, true);
  text_add(&right, " to ");
  number_write(&right, (double)most, 0, true);
  problem_add(&errand->problems,
              (struct problem){.where = option, .said = "is no such number", .read = text, .right = text_end(&right)});
  return false;
}

static bool read_order(struct tolerating *t, const struct settings *settings) {
  uint64_t samples = 10000, seed = 1, jobs = 1;
  bool read = read_count(&t->errand, "--samples", settings->samples, FB_TOLERANCE_FEWEST, FB_TOLERANCE_MOST, &samples);
  read = read_count(&t->errand, "--seed", settings->seed, 0, UINT64_C(1) << 53, &seed) && read;
  read = read_count(&t->errand, "--jobs", settings->jobs, 1, MOST_JOBS, &jobs) && read;
  t->order = (struct fb_tolerance_order){.samples = (size_t)samples, .seed = seed};
  t->jobs = (unsigned)jobs;
  return read;
}

// Beside the usual time a minute for what drives the outcomes, and 20 ms for a draw: a slow machine needs that much for
// a large garden.
static void allow_time(struct tolerating *t) {
  t->errand.clock.run_ms += 3 * t->errand.clock.run_ms + 20 * (unsigned)t->order.samples;
}

int command_tolerance(struct arena *arena, const struct settings *settings) {
  struct tolerating *t = arena_alloc(arena, sizeof *t);
  *t = (struct tolerating){.errand = errand_new(arena, settings, work)};
  t->errand.attempts = run;
  bool read = read_order(t, settings);
  allow_time(t);
  read = read && inputs_read_design(&t->errand.inputs, &t->errand.problems, settings->operands.at[0]) &&
         inputs_read_rules(&t->errand.inputs, &t->errand.problems, settings);
  return errand_finish(&t->errand, read);
}
