// SPDX-License-Identifier: MIT
// A candidate step by step: sizes on the grid in which they can be built, words and things to buy one by one.
#include <math.h>

#include "mend/mend_inside.h"

enum { MOST_STEPS = 4096 };

bool candidate_is_ladder(const struct candidate *candidate) {
  for (size_t i = 0; i < candidate->count; i++) {
    if (candidate->moves[i].option_count == 0) return true;
  }
  return false;
}

// The k-th place of the grid past where it stands: 10 1/4 in goes up to 10 1/2 in and not to 10 3/4 in.
static double on_grid(const struct move *move, long step) {
  double at = move->from / move->step;
  double first = move->way > 0 ? floor(at + 1e-6) + 1 : ceil(at - 1e-6) - 1;
  return (first + (double)(move->way * (step - 1))) * move->step;
}

static bool is_past(const struct move *move, double value) {
  const double hair = 1e-9 * fmax(fabs(value), move->step);
  return value > move->most + hair || value < move->least - hair;
}

// The bound itself is the last place, where it lies between two of the grid.
static bool value_at(const struct move *move, long step, double *value) {
  *value = on_grid(move, step);
  if (!is_past(move, *value)) return true;
  double before = step > 1 ? on_grid(move, step - 1) : move->from, bound = move->way > 0 ? move->most : move->least;
  *value = bound;
  return isfinite(bound) && !is_past(move, before) && fabs(before - bound) > 1e-6 * move->step &&
         (bound - move->from) * move->way > 0;
}

static long steps_of(const struct move *move) {
  double value;
  if (move->option_count) return (long)move->option_count;
  long low = 0, high = MOST_STEPS;  // low can be had, high cannot
  if (!value_at(move, 1, &value)) return 0;
  while (high - low > 1) {
    long middle = low + (high - low) / 2;
    if (value_at(move, middle, &value)) {
      low = middle;
    } else {
      high = middle;
    }
  }
  return low;
}

// Words that go with sizes are set from the first step on.
long candidate_steps(const struct candidate *candidate) {
  bool ladder = candidate_is_ladder(candidate);
  long most = 0;
  for (size_t i = 0; i < candidate->count; i++) {
    if (ladder && candidate->moves[i].option_count) continue;
    long steps = steps_of(&candidate->moves[i]);
    if (steps > most) most = steps;
  }
  return most;
}

static size_t option_of(const struct move *move, long step) {
  return (size_t)step > move->option_count ? move->option_count - 1 : (size_t)step - 1;
}

// How many givens this step of the move changes.
static size_t width_at(const struct move *move, long step) {
  return move->sets ? move->sets[option_of(move, step)].count : 1;
}

static size_t option_at(struct mending *m, const struct mend_base *base, const struct move *move, long step,
                        struct mend_change *changes) {
  size_t index = option_of(move, step);
  if (!move->sets) {
    changes[0] = mend_change_to(m, base, move->entity, move->row, move->options[index]);
    return 1;
  }
  for (size_t i = 0; i < move->sets[index].count; i++) changes[i] = move->sets[index].list[i];
  return move->sets[index].count;
}

static size_t size_at(struct mending *m, const struct mend_base *base, const struct move *move, long step,
                      struct mend_change *change) {
  double value, reads_as;
  long last = steps_of(move);
  if (last == 0) return 0;
  if (!value_at(move, step < last ? step : last, &value)) return 0;
  const char *was = store_at(base->store, move->entity, move->row)->text;
  const char *text = mend_value_text(m, move->row, value, was, &reads_as);
  if (!text) return 0;
  *change = mend_change_to(m, base, move->entity, move->row, text);
  return 1;
}

size_t candidate_at(struct mending *m, const struct mend_base *base, const struct candidate *candidate, long step,
                    struct mend_change changes[MOST_CHANGES]) {
  size_t count = 0;
  if (step < 1 || step > candidate_steps(candidate)) return 0;
  for (size_t i = 0; i < candidate->count; i++) {
    const struct move *move = &candidate->moves[i];
    long at = candidate_is_ladder(candidate) && move->option_count ? 1 : step;
    if (count + width_at(move, at) > MOST_CHANGES) return 0;  // half a candidate is none
    count += move->option_count ? option_at(m, base, move, at, &changes[count])
                                : size_at(m, base, move, at, &changes[count]);
  }
  return count;
}
