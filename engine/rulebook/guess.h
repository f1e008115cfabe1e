// SPDX-License-Identifier: MIT
// Values taken by eye, or nobody says with what: good enough to work with, and not to stake a life on. Rules on which
// lives depend go by what is worked out in their place, and have no answer where they rest on one further down.
#ifndef FOREBAY_RULEBOOK_GUESS_H
#define FOREBAY_RULEBOOK_GUESS_H

#include "rulebook/run.h"

bool guess_is(const struct run *run, int entity, enum row_id row);    // of such a rule
double guess_replaced(struct run *run, int entity, enum row_id row);  // NaN: missing, with run->because
// Whether something that the rule read was worked out from one; run->because says from which.
bool guess_underlies(struct run *run);

#endif
