// SPDX-License-Identifier: MIT
// Which values of a design are not known exactly, and how far each may be off: what it states ("18 in +/- 2 in"), else
// what the way leaves open by which such a value is usually got (catalogue/taking.def, or the firm's own figures).
// A half-width is taken as an even spread over its whole width, as JCGM 100:2008, 4.3.7 (from memory) does where
// nothing else is known.
//
// One number u from -1 to 1 moves one of them: a pump's whole curve, the whole of an outline, all that was read with
// one measurement of one thing move together. Heights of still water follow the lip that sets them.
#ifndef FOREBAY_CHANCE_SPREAD_H
#define FOREBAY_CHANCE_SPREAD_H

#include "catalogue/taking.h"
#include "quantities/trial.h"
#include "rulebook/stock.h"

struct spread_slot {
  int slot;
  double nominal, by, least, most;  // nominal + by * u, kept from least to most
  bool measured, whole;
};

struct spread_value {
  const char *name;  // `basin "lower".depth`: of its first slot, or of the outline or curve
  int entity;
  enum row_id row;
  enum way way;
  bool stated;          // by the design
  bool is_share;        // half is a share of the value
  double half;          // of the width; SI
  size_t first, count;  // in slots
};

// Still water that is written down in a basin which nothing draws from: at the lowest lip that leaves it.
struct spread_level {
  int slot, basin;
  double over_lip;
};

struct spread {
  const struct store *store;
  struct store *drawn;  // with the slots of the last draw, for what contradicts itself
  struct spread_value *values;
  struct spread_slot *slots;
  struct spread_level *levels;
  size_t count, room, slot_count, slot_room, level_count, level_room;
  struct trial_change *changes, *readings;  // of the last draw
  size_t change_count, reading_count;
};

// stock may be NULL: the usual figures.
struct spread *spread_of(struct arena *arena, const struct store *store, const struct stock *stock);

// Puts values by u[0..count-1] into changes, readings and drawn.
void spread_draw(struct spread *spread, const double *u);

#endif
