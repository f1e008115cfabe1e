// SPDX-License-Identifier: MIT
// Numbers and values with units. No random: the same file gives the same outcome.
#include <math.h>

#include "script/inside.h"
#include "script/quantity.h"

// Of values of one dimension the first that none passes; what is pushed is the value itself, with all it carries.
static int pick(lua_State *L, bool greatest) {
  int count = lua_gettop(L), best = 1;
  struct script_quantity pair[2];
  luaL_checkany(L, 1);
  if (count == 1) script_quantity_pair(L, 1, 1, "compared with", pair);
  for (int i = 2; i <= count; i++) {
    script_quantity_pair(L, i, best, "compared with", pair);
    if (pair[1].flags & SCRIPT_POISONED) break;
    bool poisoned = pair[0].flags & SCRIPT_POISONED;
    if (poisoned || (greatest ? pair[0].value > pair[1].value : pair[0].value < pair[1].value)) best = i;
  }
  lua_pushvalue(L, best);
  return 1;
}

static int word_max(lua_State *L) { return pick(L, true); }

static int word_min(lua_State *L) { return pick(L, false); }

static int word_abs(lua_State *L) {
  const struct script_quantity *quantity = script_to_quantity(L, 1);
  if (!quantity) {
    double value = bare_number(L, 1, "taken without its sign");
    push_number(L, fabs(value), lua_isinteger(L, 1));
    return 1;
  }
  if (quantity->powers.point)
    return script_misuse(L, "the difference of two of them", "a height or a temperature has no size without its sign");
  struct script_quantity *size = script_push_quantity(L, fabs(quantity->value), quantity->powers);
  size->scale = quantity->scale;
  size->flags = quantity->flags & ~(uint32_t)SCRIPT_STALE;
  return 1;
}

static int word_floor(lua_State *L) {
  push_number(L, floor(bare_number(L, 1, "rounded down")), true);
  return 1;
}

static int word_ceil(lua_State *L) {
  push_number(L, ceil(bare_number(L, 1, "rounded up")), true);
  return 1;
}

static int word_sqrt(lua_State *L) {
  double value = bare_number(L, 1, "taken the square root of");
  if (value < 0) return script_misuse(L, "a number that is not below 0", "a negative number has no square root");
  lua_pushnumber(L, sqrt(value));
  return 1;
}

const struct word math_words[] = {{"abs", word_abs, false},     {"max", word_max, false},   {"min", word_min, false},
                                  {"floor", word_floor, false}, {"ceil", word_ceil, false}, {"sqrt", word_sqrt, false},
                                  {"fmod", NULL, false},        {"tointeger", NULL, false}, {"pi", NULL, false},
                                  {"huge", NULL, false},        {NULL, NULL, false}};
