// SPDX-License-Identifier: MIT
// Givens that contradict one another, each told at the line of the later one.
#ifndef FOREBAY_DESIGN_CONTRADICTIONS_H
#define FOREBAY_DESIGN_CONTRADICTIONS_H

#include "design/store.h"

// After settling: references, lists and kinds can be walked.
void check_contradictions(struct store *store, struct problems *problems);

#endif
