// SPDX-License-Identifier: MIT
// The least step that clears a finding: doubled until it does or goes too far, then halved between; things to buy one
// by one. Bounded by counts, never by time.
#include <math.h>

#include "mend/mend_inside.h"

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
  struct verdict start, last;
  struct search found;
  double best_margin;
  size_t trials;
};

static enum side side_of(const struct searching *s, const struct verdict *v) {
  if (v->sort == OUTCOME_CLEAR || v->sort == OUTCOME_NOT_APPLICABLE) return SIDE_CLEARED;
  bool same = v->sort == OUTCOME_FLAGGED && v->severity <= s->start.severity && v->sense == s->start.sense;
  return same ? SIDE_SAME : SIDE_BEYOND;
}

static void note_best(struct searching *s, long step, const struct verdict *v) {
  if (!isfinite(v->margin) || v->margin <= s->best_margin) return;
  s->best_margin = v->margin;
  s->found.best = step;
  s->found.at_best = *v;
}

static bool is_spent(const struct searching *s) {
  return s->trials >= MOST_TRIALS || s->m->trials >= MOST_TRIALS_OF_FINDING;
}

static enum side look(struct searching *s, long step) {
  struct mend_change changes[MOST_CHANGES];
  size_t count = candidate_at(s->m, s->base, s->candidate, step, changes);
  if (count == 0 || is_spent(s)) return SIDE_NONE;
  s->trials++;
  if (!trial_of_outcome(s->m, s->base, (struct changes){changes, count}, s->finding, &s->last)) return SIDE_BEYOND;
  enum side side = side_of(s, &s->last);
  if (side == SIDE_SAME) note_best(s, step, &s->last);
  return side;
}

// Between a step that falls short and one that clears it or goes too far.
static void halve(struct searching *s, long low, long high, bool high_clears) {
  while (high - low > 1) {
    long middle = low + (high - low) / 2;
    enum side side = look(s, middle);
    if (side == SIDE_NONE) break;
    if (side == SIDE_SAME) {
      low = middle;
    } else {
      high = middle;
      high_clears = side == SIDE_CLEARED;
    }
  }
  if (high_clears) s->found.cleared = high;
}

// A rule's own change may do nothing at first; any other must come nearer with each step.
static void climb(struct searching *s, long last) {
  double before = s->start.margin;
  long low = 0, step = 1;
  for (int without = 0;; step = step * 2 < last ? step * 2 : last) {
    enum side side = look(s, step);
    if (side == SIDE_NONE) return;
    if (side != SIDE_SAME) {
      halve(s, low, step, side == SIDE_CLEARED);
      return;
    }
    bool gains = s->last.margin > before;
    without = gains ? 0 : without + 1;
    if (!gains && isfinite(before) && (!s->candidate->own || s->last.margin < before)) return;
    if (without >= MOST_WITHOUT_GAIN || step == last) return;
    before = s->last.margin;
    low = step;
  }
}

static void try_each(struct searching *s, long last) {
  int without = 0;
  double before = s->start.margin;
  for (long step = 1; step <= last; step++) {
    enum side side = look(s, step);
    if (side == SIDE_NONE) return;
    if (side == SIDE_CLEARED) {
      s->found.cleared = step;
      return;
    }
    without = s->last.margin > before ? 0 : without + 1;
    if (without >= MOST_WITHOUT_GAIN) return;
    before = s->last.margin;
  }
}

struct search mend_search(struct mending *m, const struct mend_base *base, const struct candidate *candidate,
                          const struct outcome *finding) {
  struct searching s = {.m = m, .base = base, .candidate = candidate, .finding = finding};
  s.start = verdict_of(finding);
  s.best_margin = isfinite(s.start.margin) ? s.start.margin : -INFINITY;
  long last = candidate_steps(candidate);
  if (last == 0) return s.found;
  if (candidate_is_ladder(candidate)) {
    climb(&s, last);
  } else {
    try_each(&s, last);
  }
  return s.found;
}
