// SPDX-License-Identifier: MIT
// A table of a rule file as plain data, so that nothing but this module walks Lua tables while a rule is read.
#ifndef FOREBAY_RULEBOOK_VALUE_H
#define FOREBAY_RULEBOOK_VALUE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "design/places.h"
#include "units/dimension.h"

typedef struct lua_State lua_State;

enum value_sort {
  VALUE_TEXT,
  VALUE_NUMBER,
  VALUE_TRUTH,
  VALUE_TABLE,
  VALUE_FUNCTION,
  VALUE_QUANTITY,  // q"...", or worked out: `number` and `powers`
  VALUE_LATER,     // a table that is still Lua's: `function` keeps it, see value_take
  VALUE_UNKNOWN,   // stands for an unknown name, which was complained about already
  VALUE_OTHER
};

struct value {
  enum value_sort sort;
  const char *key;  // NULL: a member of a list
  long index;       // of a member of a list, from 1
  const char *text;
  double number;
  struct powers powers;
  bool truth;
  struct value *first, *next;  // members of a table: those of the list ascending, then keys bytewise
  size_t count;
  int function;       // registry reference
  const char *stray;  // what the function keeps from outside; NULL: nothing
  int line;
};

// The value on top of the stack, popped. Runs inside the script; memory comes from the arena. later: the key of a
// member whose table is left to be taken when somebody asks for it (VALUE_LATER); NULL: none.
struct value *value_take(lua_State *L, struct arena *arena, const char *later);
// Lines of the value and all in it; where a place is not known, that of what it is in. name NULL: it has none.
void value_place(struct value *value, const struct places *places, const char *verb, const char *name, int line);
// The same for a member that was taken later.
void value_place_member(struct value *member, const struct places *places, const char *verb, const char *name, int line,
                        const char *key);

const struct value *value_member(const struct value *table, const char *key);  // NULL: none
const char *value_shown(struct arena *arena, const struct value *value);       // as written, for messages

#endif
