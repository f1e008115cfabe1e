// SPDX-License-Identifier: MIT
// Working out quantities: each once, on first read, keeping what was read on the way.
//
// Missing is sticky. A read of something unset returns NaN (a word: WORD_COUNT, a reference: -1) and marks the value
// being worked out; whatever the formula then returns is dropped. Formulas are written without checks; solvers and GEOS
// ask evaluation_marked first.
#ifndef FOREBAY_QUANTITIES_EVALUATE_H
#define FOREBAY_QUANTITIES_EVALUATE_H

#include <stdbool.h>
#include <stddef.h>

#include "design/store.h"

struct evaluation;

// problems: what is found impossible while working (at the line of the given at fault), each said once.
struct evaluation *evaluation_in(struct arena *arena, const struct store *store, struct problems *problems);
const struct store *evaluation_design(const struct evaluation *ev);

// Reading, from formulas, rules and reports alike. entity -1 (an unset reference) reads as missing.
double evaluation_number(struct evaluation *ev, int entity, enum row_id row);
enum word evaluation_choice(struct evaluation *ev, int entity, enum row_id row);
int evaluation_reference(struct evaluation *ev, int entity, enum row_id row);
const char *evaluation_text(struct evaluation *ev, int entity, enum row_id row);  // "" when unset
const void *evaluation_bundle(struct evaluation *ev, int entity, enum row_id row);
size_t evaluation_members(struct evaluation *ev, int entity, enum row_id list);
int evaluation_member(struct evaluation *ev, int entity, enum row_id list, size_t index);
bool evaluation_stated(struct evaluation *ev, int entity, enum row_id row);  // written or measured; never marks

// What would be worked out were it not measured; NaN, and no mark, when it cannot be. What that takes is read as ever.
double evaluation_worked_out(struct evaluation *ev, int entity, enum row_id row);

// For formulas.
bool evaluation_marked(const struct evaluation *ev);
void evaluation_missing(struct evaluation *ev, const char *because);  // cannot be worked out here: measure it instead
void evaluation_impossible(struct evaluation *ev, int entity, enum row_id given, const char *said, const char *right);
void evaluation_outside(struct evaluation *ev);  // beyond the tested range: the value stands, the doubt travels
struct arena *evaluation_arena(struct evaluation *ev);

// About a slot, worked out first where need be.
enum condition evaluation_condition(struct evaluation *ev, int entity, enum row_id row);
bool evaluation_in_doubt(struct evaluation *ev, int entity, enum row_id row);  // outside, or built on such a value
double evaluation_unmeasured(struct evaluation *ev, int entity,
                             enum row_id row);                          // what would be worked out; NaN: nothing
const char *evaluation_because(const struct evaluation *ev, int slot);  // of evaluation_missing, or NULL
size_t evaluation_reads(const struct evaluation *ev, int slot, const int **slots);  // in order of first read
// For units/compare: the largest magnitude of its own dimension that went into a value (the terms of a difference).
double evaluation_scale(struct evaluation *ev, int entity, enum row_id row);

// A reader outside the design (a rule on an entity): reads between begin and end are kept in it.
struct reader {
  int *reads;
  size_t count, room;
  bool missing, impossible, outside;
  double scale;  // largest elevation read, for the comparison band
};
void evaluation_begin(struct evaluation *ev, struct reader *reader);
void evaluation_end(struct evaluation *ev);

// The slots to blame for reads that came out missing: unset givens, or quantities that say what to measure instead.
// Each once, in order of discovery.
size_t evaluation_roots(struct evaluation *ev, const int *reads, size_t count, int **roots);

#endif
