// SPDX-License-Identifier: MIT
#include <string.h>

#include "api/handles.h"
#include "design/read.h"

struct mending {
  fb_review *review;
  struct rulebook_watch watch;
  bool done;
};

static void look(void *with) {
  struct mending *order = with;
  fb_review *review = order->review;
  review->mends = mends_of(review->rulebook->rulebook, &review->review, &review->design->source, order->watch);
}

static void look_in_review(void *with) {
  struct mending *order = with;
  order->done = arena_try(order->review->arena, look, order);
}

bool fb_review_mend(fb_review *review, void (*watch)(void *with, const char *rule, const char *entity), void *with,
                    fb_problems *problems) {
  struct mending order = {review, {watch, with}, false};
  if (review->spent) return false;
  bool done = arena_try(review->rulebook->arena, look_in_review, &order) && order.done;
  review->spent = !done;
  if (!done) problems_note_no_memory(problems);
  return done;
}

size_t fb_fix_count(const fb_review *review) { return review->mends ? review->mends->count : 0; }

bool fb_fix_of(const fb_review *review, size_t finding, struct fb_fix *fix) {
  static const enum fb_standing standings[MEND_STANDING_COUNT] = {
      [MEND_PROVEN] = FB_PROVEN, [MEND_RAISES] = FB_RAISES,         [MEND_BY_HAND] = FB_BY_HAND,
      [MEND_CHOICE] = FB_CHOICE, [MEND_NOT_ENOUGH] = FB_NOT_ENOUGH, [MEND_MEASURE] = FB_MEASURE,
      [MEND_ADVICE] = FB_ADVICE};
  if (finding < 1 || finding > fb_fix_count(review)) return false;
  const struct mend_finding *found = &review->mends->list[finding - 1];
  *fix = (struct fb_fix){.standing = standings[found->best.standing],
                         .rule = review->review.rules[found->finding->rule].id,
                         .changes = found->best.count,
                         .raised = found->best.raised_count,
                         .trials = found->trials};
  return true;
}

struct applying {
  const fb_review *review;
  const struct fb_applied *applied;
  fb_problems *problems;
};

// Numbers hold for the report that showed them, and so for the bytes that it was made of.
static bool is_as_reported(const struct applying *order, struct problems *found) {
  const fb_design *design = order->review->design;
  const char *of = order->applied->of;
  if (!of || strcmp(of, design->digest) == 0) return true;
  problem_add(found,
              (struct problem){.at = {.file = design->store->file},
                               .said = "is not what that report was made of, so its numbers may mean other findings",
                               .read = design->digest,
                               .right = of});
  return false;
}

static bool counts_as_found(const struct outcome *outcome) {
  bool open = outcome->sort == OUTCOME_UNANSWERED && outcome->counts_as_held;
  return outcome->counting == COUNTS && (outcome->sort == OUTCOME_FLAGGED || open);
}

static bool is_held(const struct outcome *outcome) {
  return outcome->sort == OUTCOME_UNANSWERED || outcome->severity == SEVERITY_HOLD;
}

static const char *name_outcome(struct arena *arena, const struct review *review, const struct outcome *outcome) {
  struct text words = text_in(arena);
  text_printf(&words, "%s on ", review->rules[outcome->rule].id);
  store_describe_entity(&words, review->design, outcome->entity);
  return text_end(&words);
}

// Each fix was proven by itself; what was made of them all is reviewed once more. What holds in it and did not before
// stands in the way; what is milder is told.
static bool holds_together(const struct applying *order, struct arena *arena, const struct file_bytes *made,
                           struct problems *found) {
  const fb_review *before = order->review;
  const struct mend_source *source = &before->design->source;
  struct problems working = problems_in(arena);
  struct store *store = design_read_with(arena, made, source->beside, source->beside_count, source->overlays.list,
                                         source->overlays.count, found);
  if (!store) return false;
  struct review now = {.arena = arena, .problems = &working, .come_to = before->review.come_to};
  rulebook_judge(before->rulebook->rulebook, evaluation_in(arena, store, &working), &now, (struct rulebook_watch){0});
  bool good = now.outcome_count == before->review.outcome_count;
  for (size_t i = 0; good && i < now.outcome_count; i++) {
    const struct outcome *outcome = &now.outcomes[i], *was = &before->review.outcomes[i];
    if (!counts_as_found(outcome) || (counts_as_found(was) && (is_held(was) || !is_held(outcome)))) continue;
    good = !is_held(outcome);
    problem_add(found, (struct problem){.at = {.file = before->design->store->file},
                                        .said = text_phrase(arena, "with these fixes in it the design raises %s%s",
                                                            name_outcome(arena, &now, outcome),
                                                            good ? "" : ", a hold: nothing is written"),
                                        .right = good ? NULL : "one of the fixes, then a review"});
  }
  return good;
}

static bool apply(struct text *text, void *with) {
  const struct applying *order = with;
  const fb_review *review = order->review;
  struct problems found = problems_in(text->arena);
  struct file_bytes made;
  const struct mend_order what = {.review = &review->review,
                                  .mends = review->mends,
                                  .source = &review->design->source,
                                  .numbers = order->applied->findings,
                                  .count = order->applied->count,
                                  .joint = order->applied->joint};
  bool done = is_as_reported(order, &found) && mend_apply(text->arena, &what, &made, &found) &&
              holds_together(order, text->arena, &made, &found);
  if (done) text_add_bytes(text, made.bytes, made.length);
  problems_hand_over(order->problems, &found);
  return done;
}

fb_text *fb_apply_new(fb_review *review, const struct fb_applied *applied, fb_problems *problems) {
  struct applying order = {review, applied, problems};
  if (review->spent || !review->mends) return NULL;
  struct beside beside = {.arena = review->rulebook->arena};
  return text_filled(&beside, apply, &order, problems);
}
