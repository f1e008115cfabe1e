// SPDX-License-Identifier: MIT
#include "review/review.h"

#include "api/handles.h"
#include "report/text.h"
#include "review/arrange.h"

enum { COLUMNS = 80 };

struct judging {
  fb_design *design;
  fb_rulebook *rulebook;
  struct rulebook_watch watch;
  enum stage come_to;
  fb_problems *problems;
  fb_review *made;
};

static void judge(struct arena *arena, void *with) {
  struct judging *order = with;
  fb_review *made = order->made = arena_alloc(arena, sizeof *made);
  struct problems *found = arena_alloc(arena, sizeof *found);
  *found = problems_in(arena);
  *made = (fb_review){.arena = arena, .design = order->design, .rulebook = order->rulebook};
  made->review = (struct review){.arena = arena, .problems = found, .come_to = order->come_to};
  rulebook_judge(order->rulebook->rulebook, evaluation_in(arena, order->design->store, found), &made->review,
                 order->watch);
  size_t orders;
  review_takeoff(&made->review, &orders);  // now, so that what it finds impossible is among the problems
  problems_sort(found);
  problems_hand_over(order->problems, made->review.acceptance_problems);
}

fb_review *fb_review_new(fb_design *design, fb_rulebook *rulebook, enum fb_stage come_to,
                         void (*watch)(void *with, const char *rule, const char *entity), void *with,
                         fb_problems *problems) {
  _Static_assert((int)FB_WATER_UP == (int)STAGE_WATER_UP && (int)FB_HANDED_OVER == (int)STAGE_COUNT, "the same stages");
  struct judging order = {design, rulebook, {watch, with}, (enum stage)come_to, problems, NULL};
  struct beside beside = {.arena = rulebook->arena};
  return arena_filled(&beside, judge, &order, problems) ? order.made : NULL;
}

void fb_review_free(fb_review *review) {
  if (review) arena_free(review->arena);
}

struct fb_counts fb_review_counts(const fb_review *review) {
  struct review_counts counts = review_count(&review->review);
  return (struct fb_counts){
      .rules = counts.rules,
      .entities = counts.entities,
      .clear = counts.sorts[OUTCOME_CLEAR],
      .flagged = counts.sorts[OUTCOME_FLAGGED],
      .unanswered = counts.sorts[OUTCOME_UNANSWERED],
      .not_applicable = counts.sorts[OUTCOME_NOT_APPLICABLE],
      .broken = counts.sorts[OUTCOME_BROKEN] + counts.broken_rules,
      .hold = counts.severities[SEVERITY_HOLD],
      .revise = counts.severities[SEVERITY_REVISE],
      .advise = counts.severities[SEVERITY_ADVISE],
      .unanswered_held = counts.unanswered_held,
      .unanswered_behind = counts.unanswered_behind,
      .accepted = counts.accepted,
      .behind = counts.behind,
      .wrong_accepts = review->review.acceptances_wrong,
  };
}

struct reporting {
  fb_review *review;
  const struct fb_report_style *style;
};

static const char *project_name(const struct store *store) {
  if (store_count(store, KIND_project) == 0) return "A design without a name";
  const struct slot *slot = store_at(store, store_of_kind(store, KIND_project, 0), ROW_project_name);
  return slot->text ? slot->text : "A design without a name";
}

struct report_about about_review(const fb_review *review, const char *seal) {
  const fb_design *design = review->design;
  struct report_about about = {
      .project = project_name(design->store),
      .file = design->store->file,
      .digest = design->digest,
      .layers = review->rulebook->layers,
      .layer_count = review->rulebook->layer_count,
      .version = fb_version(),
      .seal = seal,
  };
  about.mends = review->mends;
  about.decisions = rulebook_decisions(review->rulebook->rulebook, &about.decision_count);
  rulebook_retired(review->rulebook->rulebook, &about.retired_count);
  return about;
}

struct report_style style_for(const fb_review *review, const struct fb_report_style *style) {
  return (struct report_style){.units = units_for(review->design, style->units),
                               .width = style->width ? style->width : COLUMNS,
                               .colour = style->colour,
                               .brief = style->brief};
}

static bool report(struct text *text, void *with) {
  const struct reporting *order = with;
  struct report_about about = about_review(order->review, order->style->seal);
  report_text(text, &order->review->review, &about, style_for(order->review, order->style));
  return true;
}

fb_text *fb_report_text_new(fb_review *review, const struct fb_report_style *style) {
  static const struct fb_report_style plain = {.units = FB_UNITS_AS_DESIGNED};
  if (review->spent) return NULL;
  struct reporting order = {review, style ? style : &plain};
  struct beside beside = {.arena = review->arena};
  fb_text *text = text_filled(&beside, report, &order, NULL);
  review->spent = beside.gave_up;
  return text;
}
