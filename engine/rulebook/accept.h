// SPDX-License-Identifier: MIT
// What counts of what was judged: stages that the work has passed, and findings that the design says are accepted.
#ifndef FOREBAY_RULEBOOK_ACCEPT_H
#define FOREBAY_RULEBOOK_ACCEPT_H

#include "rulebook/rulebook.h"

// Sets `counting` of the outcomes and fills in the review's decisions; review->come_to says how far the work is. What
// an `accept` gets wrong is in review->acceptance_problems, at the line of the accept.
void rulebook_accept(const struct rulebook *book, struct review *review, struct outcome *outcomes);

#endif
