// SPDX-License-Identifier: MIT
// How sure a review's outcomes are. Two steps of work, each of which can be parted among processes that were begun with
// the same design, rules, number of draws and seed: every draw, then what drives the outcomes that are not firm. What a
// part found is packed into bytes, and added in any order.
#ifndef FOREBAY_CHANCE_TOLERANCE_H
#define FOREBAY_CHANCE_TOLERANCE_H

#include "chance/drive.h"
#include "chance/share.h"

enum tolerance_step { TOLERANCE_DRAWS, TOLERANCE_DRIVES };

// Firm: at least 99 of 100 draws are not flagged, by the lower end of the band. Failing: flagged in half of the draws
// or more. Fragile: what is in between. Open: the base has no answer to it. Apart: it does not count, as the design
// accepts it or the work is past it.
enum sureness { SURE_FIRM, SURE_FRAGILE, SURE_FAILING, SURE_OPEN, SURE_APART, SURE_COUNT };
#define FIRM_SHARE 0.99
#define FAILING_SHARE 0.5
enum { TOLERANCE_FIRMING = 381, TOLERANCE_DRIVEN = 20 };  // draws that can call anything firm; outcomes driven, at most

struct tolerance {
  struct sampling *sampling;
  size_t samples;
  uint32_t drawn, contradicting;  // so far
  uint64_t first_contradicting;   // of the draws; and what it said
  char contradiction[SAID_MOST];
  struct tally *tallies;  // by outcome
  size_t *asked;          // after tolerance_ask: outcomes that are not firm, those of lives and holds first
  size_t asked_count;
  size_t unsettled_count;  // the first of them; those behind are flagged in nearly every draw
  struct drive *drives;    // of the first of them; `outcome` says whose
  size_t drive_count;
};

struct tolerance *tolerance_in(struct rulebook *book, struct review *review, size_t samples, uint64_t seed);

void tolerance_work(struct tolerance *tolerance, enum tolerance_step step, unsigned share, unsigned of);
void tolerance_ask(struct tolerance *tolerance);  // when all draws are in: which outcomes are not firm
void tolerance_pack(const struct tolerance *tolerance, enum tolerance_step step, struct text *bytes);
bool tolerance_add(struct tolerance *tolerance, enum tolerance_step step, const char *bytes, size_t length);

enum sureness tolerance_sureness(const struct tolerance *tolerance, size_t outcome);
enum sureness tally_sureness(const struct tally *tally, uint32_t of);
// Flagged in 99 of 100 draws or more: no measuring changes that.
bool tolerance_settled(const struct tolerance *tolerance, size_t outcome);
// Whether it could stop the dig: a rule of life safety, or it held in some draw.
bool tolerance_grave(const struct tolerance *tolerance, size_t outcome);
struct tolerance_counts {
  size_t sure[SURE_COUNT];
  size_t grave, held_open;  // not firm, and could stop the dig; open, and counts as held
};
struct tolerance_counts tolerance_count(const struct tolerance *tolerance);
const struct drive *tolerance_drive(const struct tolerance *tolerance, size_t outcome);  // NULL: not looked for

#endif
