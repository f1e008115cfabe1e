// SPDX-License-Identifier: MIT
// Two or three designs, or one and what is tried of it, each reviewed and then held side by side.
#include <stdbool.h>

#include "cli/errand.h"

enum { MOST = INPUT_MOST_OTHERS + 1 };

struct variants {
  fb_rulebook *rulebook;
  fb_design *designs[MOST];
  fb_review *reviews[MOST];
  size_t count;
};

static void note_rule(void *with, const char *rule, const char *entity) {
  const struct child *child = with;
  whereabouts_set(child->page, AT_RULE, rule, entity);
}

static struct fb_file as_public(const struct file_bytes *file) {
  return (struct fb_file){file->name, file->bytes, file->length};
}

// The first design, and the others behind it; where there are none, the first again. The last is read with the trials.
static fb_design *read_variant(struct child *child, const struct errand *errand, const struct variants *variants,
                               size_t index, fb_problems *problems) {
  const struct inputs *inputs = &errand->inputs;
  struct input_other from = {inputs->design, inputs->beside, inputs->beside_count};
  if (index > 0 && inputs->other_count > 0) from = inputs->others[index - 1];
  struct fb_file file = as_public(&from.design), beside[INPUT_MOST_BESIDE];
  for (size_t i = 0; i < from.beside_count; i++) beside[i] = as_public(&from.beside[i]);
  struct fb_reading with = {.beside = beside, .beside_count = from.beside_count, .stock_of = variants->rulebook};
  if (index + 1 == variants->count) {
    with.trials = errand->trials.list;
    with.trial_count = errand->trials.count;
  }
  whereabouts_set(child->page, AT_DESIGN, file.name, NULL);
  fb_design *design = fb_design_with_new(&file, &with, problems);
  whereabouts_set(child->page, AT_REST, NULL, NULL);
  return design;
}

// All designs are read before the first is reviewed, so that every slip in them is told at once.
static bool read_all(struct child *child, const struct errand *errand, struct variants *variants,
                     fb_problems *problems) {
  bool good = true;
  for (size_t i = 0; i < variants->count; i++) {
    variants->designs[i] = read_variant(child, errand, variants, i, problems);
    good = good && variants->designs[i];
  }
  return good;
}

static bool review_all(struct child *child, const struct errand *errand, struct variants *variants,
                       fb_problems *problems) {
  for (size_t i = 0; i < variants->count; i++) {
    variants->reviews[i] =
        fb_review_new(variants->designs[i], variants->rulebook, errand_stage(errand), note_rule, child, problems);
    whereabouts_set(child->page, AT_REST, NULL, NULL);
    if (!variants->reviews[i]) return false;
  }
  return true;
}

// How grave what is found is, is for forebay review to say: here it matters whether all could be compared.
static int status_of(const struct variants *variants) {
  bool whole = fb_rulebook_whole(variants->rulebook);
  for (size_t i = 0; i < variants->count; i++) {
    struct fb_counts counts = fb_review_counts(variants->reviews[i]);
    whole = whole && counts.broken == 0 && counts.rules > 0;
  }
  return whole ? STATUS_CLEAR : STATUS_UNUSABLE;
}

static int compare(struct child *child, const struct errand *errand, struct variants *variants, fb_problems *problems) {
  if (!read_all(child, errand, variants, problems)) return STATUS_UNUSABLE;
  if (!review_all(child, errand, variants, problems)) return errand_answer(child, NULL, STATUS_FAULT);
  const fb_review *reviews[MOST];
  for (size_t i = 0; i < variants->count; i++) reviews[i] = variants->reviews[i];
  fb_text *text = fb_compare_new(reviews, variants->count, (enum fb_units)errand->settings->units);
  return errand_answer(child, text, status_of(variants));
}

static int work(struct child *child, const struct errand *errand, fb_problems *problems) {
  struct variants variants = {.count = errand->inputs.other_count ? errand->inputs.other_count + 1 : 2};
  variants.rulebook = errand_rulebook(child, errand, problems);
  if (!variants.rulebook) return errand_answer(child, NULL, STATUS_FAULT);
  int status = compare(child, errand, &variants, problems);
  for (size_t i = 0; i < variants.count; i++) {
    fb_review_free(variants.reviews[i]);
    fb_design_free(variants.designs[i]);
  }
  fb_rulebook_free(variants.rulebook);
  return status;
}

static bool has_two(struct errand *errand, const struct settings *settings) {
  if (settings->operands.count > 1 || settings->try_.count > 0) return true;
  problem_add(&errand->problems, (struct problem){.said = "there is one design and nothing to compare it with",
                                                  .read = settings->operands.at[0],
                                                  .right = "a second DESIGN behind it, or --try ENTITY.GIVEN=VALUE"});
  return false;
}

int command_compare(struct arena *arena, const struct settings *settings) {
  struct errand errand = errand_new(arena, settings, work);
  bool read =
      has_two(&errand, settings) && inputs_read_design(&errand.inputs, &errand.problems, settings->operands.at[0]);
  for (size_t i = 1; i < settings->operands.count; i++)
    read = inputs_read_other(&errand.inputs, &errand.problems, settings->operands.at[i]) && read;
  return errand_finish(&errand, read && inputs_read_rules(&errand.inputs, &errand.problems, settings));
}
