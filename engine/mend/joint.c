// SPDX-License-Identifier: MIT
// Changes that go together: the best fixes of all findings at once, then those of what is still wrong, round by round;
// then every change is left out again that nothing needs. Bounded by counts.
#include <math.h>
#include <string.h>

#include "mend/mend_inside.h"

enum { MOST_ROUNDS = 6, MOST_JOINT = 400, MOST_SWAPS = 30 };

struct tally {
  size_t held, revise, advise, unanswered;
};

struct joining {
  struct mending *m;
  const struct mend_base *file;  // the design as it stands
  struct changes best;
  struct tally least;
  struct answer *answers;  // of the best
  double price;
};

static struct tally tally_of(const struct answer *answers, size_t count) {
  struct tally tally = {0};
  for (size_t i = 0; i < count; i++) {
    const struct answer *a = &answers[i];
    bool flagged = a->sort == OUTCOME_FLAGGED;
    tally.held += (flagged && a->severity == SEVERITY_HOLD) || (a->sort == OUTCOME_UNANSWERED && a->held);
    tally.revise += flagged && a->severity == SEVERITY_REVISE;
    tally.advise += flagged && a->severity == SEVERITY_ADVISE;
    tally.unanswered += a->sort == OUTCOME_UNANSWERED || a->sort == OUTCOME_BROKEN;
  }
  return tally;
}

// Below 0: a is better. What nobody can answer any more counts before what is to be revised.
static int compare_tallies(const struct tally *a, const struct tally *b) {
  const size_t first[] = {a->held, a->unanswered, a->revise}, other[] = {b->held, b->unanswered, b->revise};
  for (size_t i = 0; i < sizeof first / sizeof *first; i++) {
    if (first[i] != other[i]) return first[i] < other[i] ? -1 : 1;
  }
  return 0;
}

// True: it was tried and is kept, being better than what was best, or as good with the price not higher.
static bool try_set(struct joining *j, struct changes changes, bool as_good_will_do) {
  size_t count = j->file->review->outcome_count;
  struct answer *answers = arena_array(j->m->arena, count + 1, sizeof *answers);
  double price = NAN;
  if (changes.count > MOST_JOINT || !mend_try_all(j->m, j->file, changes, answers, &price)) return false;
  struct tally tally = tally_of(answers, count);
  int order = compare_tallies(&tally, &j->least);
  if (order > 0 || (order == 0 && !as_good_will_do)) return false;
  j->best = changes;
  j->least = tally;
  j->answers = answers;
  j->price = price;
  return true;
}

static bool wants_other(const struct changes *changes, const struct mend *mend) {
  for (size_t i = 0; i < mend->count; i++) {
    for (size_t k = 0; k < changes->count; k++) {
      const struct mend_change *a = &changes->list[k], *b = &mend->changes[i];
      if (a->entity == b->entity && a->row == b->row && strcmp(a->text, b->text) != 0) return true;
    }
  }
  return false;
}

static bool counts(const struct mend_finding *found, enum severity least) {
  const struct outcome *finding = found->finding;
  bool usable = found->best.standing <= MEND_CHOICE && found->best.count > 0;
  return usable && finding->sort == OUTCOME_FLAGGED && finding->severity >= least;
}

// Best fixes of the findings of a base, worst first; one given is changed once in a round.
static struct changes gathered(struct joining *j, const struct mend_finding *list, size_t count, enum severity least) {
  struct changes changes = {0};
  for (int severity = SEVERITY_HOLD; severity >= (int)least; severity--) {
    for (size_t i = 0; i < count; i++) {
      const struct mend *mend = &list[i].best;
      if (!counts(&list[i], least) || (int)list[i].finding->severity != severity) continue;
      if (!wants_other(&changes, mend))
        changes = changes_joined(j->m->arena, changes, (struct changes){mend->changes, mend->count});
    }
  }
  return changes;
}

// Findings of the design with the best set in it, each with its best fix from there. NULL: it contradicts itself.
static struct mend_finding *look_again(struct joining *j, struct arena *arena, size_t *count) {
  struct mend_base *base = arena_alloc(arena, sizeof *base);
  if (!mend_go_on_from(j->m, j->file, j->best, arena, base)) return NULL;
  const struct review *review = base->review;
  struct mend_finding *list = arena_array(j->m->arena, review->outcome_count + 1, sizeof *list);
  *count = 0;
  for (size_t i = 0; i < review->outcome_count; i++) {
    const struct outcome *outcome = &review->outcomes[i];
    bool counted = outcome->sort == OUTCOME_FLAGGED && outcome->counting == COUNTS;
    if (!counted || outcome->severity == SEVERITY_ADVISE) continue;
    list[*count].finding = outcome;
    mend_find(j->m, base, &list[(*count)++]);
  }
  return list;
}

struct round {
  struct joining *j;
  struct arena *arena;
  bool better;
};

static void go_round(void *with) {
  struct round *round = with;
  struct joining *j = round->j;
  size_t count;
  const struct mend_finding *list = look_again(j, round->arena, &count);
  if (!list || count == 0) return;
  struct changes more = gathered(j, list, count, SEVERITY_REVISE);
  round->better = more.count && try_set(j, changes_joined(j->m->arena, j->best, more), false);
  // Together they may be in one another's way: then one by one.
  for (size_t i = 0; i < count && !round->better; i++) {
    const struct mend *mend = &list[i].best;
    if (!counts(&list[i], SEVERITY_REVISE)) continue;
    struct changes one = {mend->changes, mend->count};
    round->better = try_set(j, changes_joined(j->m->arena, j->best, one), false);
  }
}

static bool one_round(struct joining *j) {
  struct round round = {.j = j};
  mending_aside(j->m, go_round, &round, &round.arena);
  return round.better;
}

static struct changes without(struct joining *j, const struct changes *all, size_t left_out) {
  struct mend_change *list = arena_array(j->m->arena, all->count + 1, sizeof *list);
  struct changes kept = {list, 0};
  for (size_t i = 0; i < all->count; i++) {
    if (i != left_out) list[kept.count++] = all->list[i];
  }
  return kept;
}

// What nothing needs any more goes. A pump's data stay together.
static void prune_in_order(struct joining *j, bool last_first) {
  size_t count = j->best.count;
  for (size_t i = 0, at = last_first ? count : 0; i < count && j->best.count > 1; i++) {
    if (last_first) at--;
    const struct mend_change *change = &j->best.list[at];
    bool of_a_set = change->beside || change->row == ROW_pump_model;
    bool left_out = !of_a_set && try_set(j, without(j, &j->best, at), true);
    if (!last_first && !left_out) at++;
  }
}

// Which is left depends on where one begins: the shorter set is taken, of two as long the cheaper.
static void prune(struct joining *j) {
  struct joining other = *j;
  prune_in_order(j, true);
  prune_in_order(&other, false);
  bool shorter = other.best.count < j->best.count;
  bool cheaper = other.best.count == j->best.count && other.price < j->price;
  if (compare_tallies(&other.least, &j->least) <= 0 && (shorter || cheaper)) *j = other;
}

static bool holds_all(const struct changes *changes, const struct mend *mend) {
  for (size_t i = 0; i < mend->count; i++) {
    bool there = false;
    for (size_t k = 0; k < changes->count; k++) {
      const struct mend_change *a = &changes->list[k], *b = &mend->changes[i];
      there = there || (a->entity == b->entity && a->row == b->row && strcmp(a->text, b->text) == 0);
    }
    if (!there) return false;
  }
  return mend->count > 0;
}

static struct changes with_other(struct joining *j, const struct mend *out, const struct mend *in) {
  struct mend_change *list = arena_array(j->m->arena, j->best.count + 1, sizeof *list);
  struct changes kept = {list, 0};
  for (size_t i = 0; i < j->best.count; i++) {
    const struct changes one = {&j->best.list[i], 1};
    if (!holds_all(&(struct changes){out->changes, out->count}, &(struct mend){.changes = one.list, .count = 1}))
      list[kept.count++] = j->best.list[i];
  }
  return changes_joined(j->m->arena, kept, (struct changes){in->changes, in->count});
}

// Another way of a finding that costs less and leaves no more behind, where prices are stated.
static void cheapen(struct joining *j, const struct mends *mends) {
  for (size_t i = 0, tries = 0; i < mends->count && tries < MOST_SWAPS; i++) {
    const struct mend_finding *found = &mends->list[i];
    if (!holds_all(&j->best, &found->best)) continue;
    for (size_t k = 0; k < found->other_count; k++, tries++) {
      struct joining before = *j;
      if (found->others[k].standing != MEND_PROVEN) continue;
      struct changes swapped = with_other(j, &found->best, &found->others[k]);
      bool cheaper = try_set(j, swapped, true) && j->price < before.price - 0.005 && j->best.count <= before.best.count;
      if (!cheaper) *j = before;
    }
  }
}

static bool is_left(const struct answer *a) {
  return (a->sort == OUTCOME_FLAGGED && a->severity != SEVERITY_ADVISE) || (a->sort == OUTCOME_UNANSWERED && a->held);
}

static void list_left(struct joining *j, struct mend_joint *joint) {
  const struct review *review = j->file->review;
  struct mend_raised *left = arena_array(j->m->arena, review->outcome_count + 1, sizeof *left);
  for (size_t i = 0; i < review->outcome_count; i++) {
    const struct answer *a = &j->answers[i];
    if (!is_left(a)) continue;
    left[joint->left_count++] = (struct mend_raised){.rule = review->outcomes[i].rule,
                                                     .entity = review->outcomes[i].entity,
                                                     .severity = a->held ? SEVERITY_HOLD : a->severity,
                                                     .unanswered = a->sort == OUTCOME_UNANSWERED};
  }
  joint->left = left;
}

static void finish(struct joining *j, const struct tally *before, double price_before, struct mend_joint *joint) {
  joint->mend = (struct mend){.standing = MEND_PROVEN, .changes = j->best.list, .count = j->best.count, .price = NAN};
  joint->mend.raised_count = mend_compare(j->m, j->file->review, j->file->answers, j->answers, &joint->mend.raised);
  if (joint->mend.raised_count) joint->mend.standing = MEND_RAISES;
  joint->held_before = before->held;
  joint->held_after = j->least.held;
  joint->revise_before = before->revise;
  joint->revise_after = j->least.revise;
  joint->price = price_before > 0 ? j->price - price_before : (double)NAN;
  list_left(j, joint);
  mend_prove(j->m, j->file, j->answers, &joint->mend);
}

void mend_find_joint(struct mending *m, const struct mend_base *base, const struct mends *mends,
                     struct mend_joint *joint) {
  struct joining j = {.m = m, .file = base};
  size_t count = base->review->outcome_count;
  struct tally before = tally_of(base->answers, count);
  struct answer *answers = arena_array(m->arena, count + 1, sizeof *answers);
  double price = NAN;
  if (before.held + before.revise == 0 || mends->count < 2) return;
  j.least = before;
  mend_try_all(m, base, (struct changes){0}, answers, &price);
  struct changes all = gathered(&j, mends->list, mends->count, SEVERITY_REVISE);
  bool begun = all.count && try_set(&j, all, false);
  for (size_t i = 0; i < mends->count && !begun; i++) {
    if (!counts(&mends->list[i], SEVERITY_REVISE)) continue;
    begun = try_set(&j, (struct changes){mends->list[i].best.changes, mends->list[i].best.count}, false);
  }
  for (int round = 0; begun && round < MOST_ROUNDS && j.least.held + j.least.revise > 0; round++) {
    if (m->work >= MOST_WORK || !one_round(&j)) break;
  }
  if (!begun) return;
  prune(&j);
  if (price > 0) cheapen(&j, mends);
  finish(&j, &before, price, joint);
}
