// SPDX-License-Identifier: MIT
// A review under chance: its outcomes judged again in many draws of the values that are not known exactly, each draw a
// trial. The n-th draw is the same whoever makes it and in whatever order, so the draws can be parted among processes.
#ifndef FOREBAY_CHANCE_SAMPLING_H
#define FOREBAY_CHANCE_SAMPLING_H

#include "chance/spread.h"
#include "rulebook/rejudge.h"

// How often an outcome came out how, of the draws that do not contradict themselves.
struct tally {
  uint32_t clear, flagged, held,
      open;  // held: flagged, and as a hold; open: no answer, or broken; the rest: does not apply
};

void tally_add(struct tally *tally, const struct outcome *outcome);

enum stream { STREAM_DRAWS, STREAM_OTHERS, STREAM_COUNT };  // of each value, knowing nothing of each other

enum { SAID_MOST = 200 };

struct sampling {
  struct arena *arena;  // the review's
  struct review *review;
  struct rejudging *rejudging;
  struct spread *spread;
  uint64_t seed;
  uint64_t *keys[STREAM_COUNT];   // of each value
  double *u;                      // of one draw
  unsigned char *hangs;           // by outcome and value: whether the outcome, as judged, hangs on it
  char contradiction[SAID_MOST];  // of the last draw that contradicted itself: where and what
};

// Everything belongs to the review's arena.
struct sampling *sampling_in(struct rulebook *book, struct review *review, uint64_t seed);

double sampling_u(const struct sampling *sampling, enum stream stream, size_t value, uint64_t n);  // -1 to 1
bool sampling_hangs(const struct sampling *sampling, size_t outcome, size_t value);
bool sampling_varies(const struct sampling *sampling, size_t outcome);  // it hangs on any of them

// A trial with sampling->u. False: the values contradict one another, and there is no trial. Else close it.
bool sampling_open(struct sampling *sampling);
void sampling_close(struct sampling *sampling);

// One draw: u is the n-th of STREAM_DRAWS. False: it contradicts itself, and nothing was counted.
bool sampling_count(struct sampling *sampling, uint64_t n, struct tally *tallies);

#endif
