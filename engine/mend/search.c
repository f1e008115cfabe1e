// SPDX-License-Identifier: MIT
// The least step that clears a finding: doubled until it does or goes too far, then halved between; things to buy one
// by one. Bounded by counts, never by time.
#include <math.h>

#include "mend/mend_inside.h"
#include "units/compare.h"

enum { MOST_WITHOUT_GAIN = 4 };

enum side {
  SIDE_SAME,     // still short, as before
  SIDE_CLEARED,  // neither flagged nor unanswered
  SIDE_BEYOND,   // something else is wrong now: it went too far
  SIDE_NONE      // there is no such step
};

struct searching {
  struct mending *m;
  const struct mend_base *base;
  const struct candidate *candidate;
  const struct outcome *finding;
  struct answer start, last;
  struct search found;
  double best;  // merit of found.at_best
  size_t trials;
};

// A size that slips under the threshold of the rule's `when` mends nothing: the rule just looks away. With another word
// or thing the rule may well have no business any more.
bool answer_clears(const struct answer *answer, const struct candidate *candidate) {
  if (answer->sort == OUTCOME_NOT_APPLICABLE) return !candidate_is_ladder(candidate);
  return answer->sort == OUTCOME_CLEAR;
}

bool answer_is_at_limit(const struct answer *answer) {
  bool bound = answer->sense == SENSE_AT_LEAST || answer->sense == SENSE_AT_MOST;
  return bound && compare(answer->value, answer->limit, 0) == STANDS_AT;
}

static enum side side_of(const struct searching *s, const struct answer *v) {
  if (answer_clears(v, s->candidate)) return SIDE_CLEARED;
  bool same = v->sort == OUTCOME_FLAGGED && v->severity <= s->start.severity && v->sense == s->start.sense;
  return same ? SIDE_SAME : SIDE_BEYOND;
}

// How good a value is, whatever limit it was held against; NaN where no value was judged.
static double merit_of(const struct answer *v) { return v->sense == SENSE_AT_MOST ? -v->value : v->value; }

static bool is_of_one_value(const struct answer *a, const struct answer *b) {
  return a->entity == b->entity && a->row == b->row && a->sense == b->sense;
}

static void note_best(struct searching *s, long step, const struct answer *v) {
  double merit = merit_of(v);
  if (!isfinite(merit) || !is_of_one_value(v, &s->start) || merit <= s->best) return;
  s->best = merit;
  s->found.best = step;
  s->found.at_best = *v;
}

static bool is_spent(const struct searching *s) { return s->trials >= MOST_TRIALS || mending_is_spent(s->m); }

static enum side look(struct searching *s, long step) {
  struct mend_change changes[MOST_CHANGES];
  size_t count = candidate_at(s->m, s->base, s->candidate, step, changes);
  if (count == 0 || is_spent(s)) return SIDE_NONE;
  s->trials++;
  if (!mend_try_outcome(s->m, s->base, (struct changes){changes, count}, s->finding, &s->last)) return SIDE_BEYOND;
  enum side side = side_of(s, &s->last);
  if (side == SIDE_SAME) note_best(s, step, &s->last);
  return side;
}

// Between a step that falls short and one that clears it or goes too far. Where what clears lies between two that do
// not, the least that was seen to clear holds.
static void halve(struct searching *s, long low, long high, bool high_clears) {
  if (high_clears) s->found.cleared = high;
  while (high - low > 1) {
    long middle = low + (high - low) / 2;
    enum side side = look(s, middle);
    if (side == SIDE_NONE) break;
    if (side == SIDE_SAME) {
      low = middle;
    } else {
      high = middle;
      if (side == SIDE_CLEARED) s->found.cleared = middle;
    }
  }
}

// 1: nearer, or another value is short now; -1: farther off; 0: as before, or nobody can tell.
static int gain_of(const struct answer *before, const struct answer *now) {
  if (!is_of_one_value(before, now)) return 1;
  double gain = merit_of(now) - merit_of(before);
  return gain > 0 ? 1 : gain < 0 ? -1 : 0;
}

// A rule's own change may do nothing at first; any other must come nearer with each step.
static void climb(struct searching *s, long last) {
  struct answer before = s->start;
  long low = 0, step = 1;
  for (int without = 0;; step = step * 2 < last ? step * 2 : last) {
    enum side side = look(s, step);
    if (side == SIDE_NONE) return;
    if (side != SIDE_SAME) {
      halve(s, low, step, side == SIDE_CLEARED);
      return;
    }
    int gain = gain_of(&before, &s->last);
    without = gain > 0 ? 0 : without + 1;
    if (gain < 0 || (gain == 0 && !s->candidate->own && isfinite(before.value))) return;
    if (without >= MOST_WITHOUT_GAIN || step == last) return;
    before = s->last;
    low = step;
  }
}

static void try_each(struct searching *s, long last) {
  int without = 0;
  struct answer before = s->start;
  for (long step = 1; step <= last; step++) {
    enum side side = look(s, step);
    if (side == SIDE_NONE) return;
    if (side == SIDE_CLEARED) {
      s->found.cleared = step;
      return;
    }
    without = gain_of(&before, &s->last) > 0 ? 0 : without + 1;
    if (without >= MOST_WITHOUT_GAIN) return;
    before = s->last;
  }
}

struct search mend_search(struct mending *m, const struct mend_base *base, const struct candidate *candidate,
                          const struct outcome *finding) {
  struct searching s = {.m = m, .base = base, .candidate = candidate, .finding = finding};
  s.start = answer_of(finding);
  s.best = isfinite(merit_of(&s.start)) ? merit_of(&s.start) : -INFINITY;
  long last = candidate_steps(candidate);
  if (last == 0) return s.found;
  if (candidate_is_ladder(candidate)) {
    climb(&s, last);
  } else {
    try_each(&s, last);
  }
  return s.found;
}
