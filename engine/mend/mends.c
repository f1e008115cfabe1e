// SPDX-License-Identifier: MIT
// All findings of a review, each with its fixes, and the changes that go together.
#include "mend/mend_inside.h"
#include "review/arrange.h"

static enum unit_system units_of(const struct store *design) {
  if (store_count(design, KIND_project) == 0) return UNITS_US;
  const struct slot *units = store_at(design, store_of_kind(design, KIND_project, 0), ROW_project_units);
  return units->condition != CONDITION_UNSET && units->value == (double)WORD_units_si ? UNITS_SI : UNITS_US;
}

static struct mend_base base_of(const struct review *review) {
  struct answer *answers = arena_array(review->arena, review->outcome_count + 1, sizeof *answers);
  for (size_t i = 0; i < review->outcome_count; i++) answers[i] = answer_of(&review->outcomes[i]);
  return (struct mend_base){.store = review->design, .review = review, .answers = answers};
}

const struct mends *mends_of(struct rulebook *rulebook, const struct review *review, const struct mend_source *source,
                             struct rulebook_watch watch) {
  struct mending m = {.arena = review->arena, .rulebook = rulebook, .source = source, .watch = watch};
  struct mends *mends = arena_alloc(m.arena, sizeof *mends);
  struct mend_base base = base_of(review);
  const struct outcome **findings = review_findings(review, &mends->count);
  struct mend_finding *list = arena_array(m.arena, mends->count + 1, sizeof *list);
  m.units = units_of(review->design);
  for (size_t i = 0; i < mends->count; i++) {
    list[i].finding = findings[i];
    mend_find(&m, &base, &list[i]);
  }
  mends->list = list;
  mends->cut_short = m.work >= MOST_WORK;
  mend_find_joint(&m, &base, mends, &mends->joint);
  return mends;
}
