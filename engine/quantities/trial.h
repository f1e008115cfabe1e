// SPDX-License-Identifier: MIT
// A trial: the same evaluation with some givens changed. One at a time, undone before the next. Everything of interest
// must have been read once before (a review has run). What hangs on a change is worked out again when it is read, and
// only where something that it read in the base has really become another; all the rest keeps the base's answer.
//
// Between trial_begin and trial_end the evaluation reads as that of the changed design, through all of evaluate.h; no
// frame or reader is open at either. What a trial allocates in the evaluation's arena goes with trial_end, whoever
// asked for it. Problems that it finds are not added to the base's. Neither bounds nor contradictions of givens are
// looked at: that is the reading's business, and so a change that stands is proven by reading the changed design.
#ifndef FOREBAY_QUANTITIES_TRIAL_H
#define FOREBAY_QUANTITIES_TRIAL_H

#include "quantities/evaluate.h"

// A number or word given, SI; becomes CONDITION_GIVEN. Where a measured value stands, that stays. The last of several
// for one slot counts.
struct trial_change {
  int slot;
  double value;
};

void trial_begin(struct evaluation *ev, const struct trial_change *changes, size_t count);
void trial_end(struct evaluation *ev);  // the base's answers stand again

// Whether it differs from the base in value, condition or doubt: worked out if need be. A bundle or a missing value
// that was worked out again counts as changed, and so does what the base never read.
bool trial_changed(struct evaluation *ev, int slot);
size_t trial_worked_out(const struct evaluation *ev);  // quantities worked out again so far in this trial

// For a formula whose solve may start from the base's: what the bundle that is being worked out was in the base. NULL:
// there is none, or this is no trial.
const void *trial_base_bundle(const struct evaluation *ev);

#endif
