// SPDX-License-Identifier: MIT
// What drives one outcome: which of the values that are not known exactly its margin hangs on most, and whether
// knowing one of them better would settle it, which is tried.
#ifndef FOREBAY_CHANCE_DRIVE_H
#define FOREBAY_CHANCE_DRIVE_H

#include "chance/sampling.h"
#include "chance/sensitivity.h"

enum { DRIVE_SINGLES = 12, DRIVE_TRIED = 3, DRIVE_ROWS = 768, DRIVE_DRAWS = 1000 };

struct driver {
  int32_t value;  // index into the spread; -1: all the others together
  struct sensitivity share;
};

// The outcome with one value known better, in as many draws: to half its width, and exactly as the design has it.
struct better {
  int32_t value;
  struct tally half, exact;
  uint32_t half_of, exact_of;  // draws that did not contradict themselves
};

struct drive {
  uint32_t outcome;
  bool by_margin;  // of the margin's variance; else of whether it is flagged
  uint32_t driver_count, better_count;
  struct driver drivers[DRIVE_SINGLES + 1];  // by total, the largest first; the others together are the last
  struct better better[DRIVE_TRIED];
};

// samples: of the whole run; the trials of `better` are the first of its draws, at most DRIVE_DRAWS.
void drive_find(struct sampling *sampling, size_t outcome, size_t samples, struct drive *found);

#endif
