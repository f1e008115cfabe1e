// SPDX-License-Identifier: MIT
// Rules remember nothing: what they share cannot be written, and their functions keep nothing from outside.
#ifndef FOREBAY_SCRIPT_FREEZE_H
#define FOREBAY_SCRIPT_FREEZE_H

#include "script/state.h"

// Pushes a table that reads as the one at index and refuses every assignment: "`name` cannot be changed here".
// Shallow: tables inside it need their own. name lives as long as the script.
void script_push_read_only(lua_State *L, int index, const char *name);

// The name of something that a function keeps from outside it, or NULL: _ENV alone is right, and that a frozen one.
const char *script_stray_upvalue(lua_State *L, int index);

#endif
