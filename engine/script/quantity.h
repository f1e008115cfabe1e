// SPDX-License-Identifier: MIT
// A value with its dimension, as scripts see it: reckoned with + - * / ^, compared by the band of units/compare,
// read from text by q"2 ft 6 in", shown by tostring and .. in the units of the owner.
#ifndef FOREBAY_SCRIPT_QUANTITY_H
#define FOREBAY_SCRIPT_QUANTITY_H

#include "base/text.h"
#include "script/state.h"
#include "units/dimension.h"

enum script_quantity_flags {
  SCRIPT_STALE = 1,     // for the owner's cache; reckoning takes no notice
  SCRIPT_OUTSIDE = 2,   // beyond a formula's tested range; results inherit it
  SCRIPT_POISONED = 4,  // q could not read it and the owner wanted to go on; results inherit it, never compares true
};

struct script_quantity {
  uint32_t tag;  // SCRIPT_TAG_QUANTITY
  uint32_t flags;
  struct powers powers;
  double value;      // SI
  double scale;      // for the band: largest magnitude that went into it; 0: the value's own
  double tolerance;  // as read by q; NaN when none
  int entity, row;   // the slot it was read from; -1 when it was reckoned or read by q
};

// Pushes a quantity with scale 0, no tolerance, no slot, no flags; the caller may fill these in.
struct script_quantity *script_push_quantity(lua_State *L, double value, struct powers powers);
struct script_quantity *script_to_quantity(lua_State *L, int index);  // NULL when it is anything else

// A number or a quantity as one struct (a bare number is a ratio; a stand-in is poisoned); false for anything else.
bool script_read_quantity(lua_State *L, int index, struct script_quantity *quantity);
// Both read, of one dimension (a bare number goes with a ratio or a count), else SCRIPT_MISUSE: doing is "compared
// with".
void script_quantity_pair(lua_State *L, int a, int b, const char *doing, struct script_quantity pair[2]);
int script_compare(const struct script_quantity *a, const struct script_quantity *b);  // -1 below, 0 at, 1 above

// "a length", "a value in m4/s": for messages.
void script_dimension_words(struct text *text, struct powers powers);
void script_quantity_words(struct text *text, const struct script_quantity *quantity, enum unit_system units);

#endif
