// SPDX-License-Identifier: MIT
// The outcome of one rule on one entity inside a trial (quantities/trial.h), for a review that this rulebook has
// judged. What an outcome holds ends with trial_end.
#ifndef FOREBAY_RULEBOOK_REJUDGE_H
#define FOREBAY_RULEBOOK_REJUDGE_H

#include "quantities/trial.h"
#include "rulebook/rulebook.h"

struct rejudging;

// In the review's arena; for as many trials as are wanted, each between trial_begin and trial_end.
struct rejudging *rejudging_in(struct rulebook *book, struct review *review);

// outcome: an index into review->outcomes. Whether anything that it read in the base has changed.
bool rejudge_touched(struct rejudging *rejudging, size_t outcome);
// Judged again when touched, else the base's.
void rejudge(struct rejudging *rejudging, size_t outcome, struct outcome *now);
size_t rejudge_count(const struct rejudging *rejudging);  // how many were judged again so far, in all trials

#endif
