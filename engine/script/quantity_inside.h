// SPDX-License-Identifier: MIT
// Reading the operands of a quantity's metamethods.
#ifndef FOREBAY_SCRIPT_QUANTITY_INSIDE_H
#define FOREBAY_SCRIPT_QUANTITY_INSIDE_H

#include "script/inside.h"
#include "script/quantity.h"

enum { DIMENSION_ROOM = 80 };

// What the value at index is, with its article: "a length", "a bare number", "nothing (nil)".
void describe_value(lua_State *L, int index, char *words, size_t room);
int raise_pair(lua_State *L, int a, int b, const char *doing);  // "a flow cannot be added to a length"
void read_two(lua_State *L, int a, int b, const char *doing, struct script_quantity pair[2]);
// A bare number beside a ratio or a count is one.
void adopt_powers(lua_State *L, int a, int b, struct script_quantity pair[2]);
bool is_poisoned(const struct script_quantity pair[2]);

#endif
