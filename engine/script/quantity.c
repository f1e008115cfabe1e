// SPDX-License-Identifier: MIT
#include "script/quantity.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "script/inside.h"
#include "script/quantity_inside.h"
#include "units/compare.h"
#include "units/write.h"

enum { RIGHT_ROOM = 160 };

struct script_quantity *script_push_quantity(lua_State *L, double value, struct powers powers) {
  struct script_quantity *quantity = lua_newuserdatauv(L, sizeof *quantity, 0);
  *quantity = (struct script_quantity){
      .tag = SCRIPT_TAG_QUANTITY, .powers = powers, .value = value, .tolerance = NAN, .entity = -1, .row = -1};
  lua_rawgeti(L, LUA_REGISTRYINDEX, script_of(L)->quantity_meta);
  lua_setmetatable(L, -2);
  return quantity;
}

struct script_quantity *script_to_quantity(lua_State *L, int index) {
  return script_tagged(L, index, SCRIPT_TAG_QUANTITY);
}

bool script_read_quantity(lua_State *L, int index, struct script_quantity *quantity) {
  const struct script_quantity *found = script_to_quantity(L, index);
  if (found) {
    *quantity = *found;
    return true;
  }
  *quantity = (struct script_quantity){.tag = SCRIPT_TAG_QUANTITY, .tolerance = NAN, .entity = -1, .row = -1};
  if (script_is_stand_in(L, index)) {
    quantity->flags = SCRIPT_POISONED;
    return true;
  }
  if (lua_type(L, index) != LUA_TNUMBER) return false;  // a text that looks like a number is none
  quantity->value = lua_tonumber(L, index);
  return true;
}

static bool is_bare(struct powers powers) {
  return powers_equal(powers, dimension_row(DIM_RATIO)->powers) ||
         powers_equal(powers, dimension_row(DIM_COUNT)->powers);
}

void script_dimension_words(struct text *text, struct powers powers) {
  enum dimension dimension = dimension_of_powers(powers);
  if (dimension != DIMENSION_COUNT) {
    text_add(text, dimension_row(dimension)->says);
    return;
  }
  text_add(text, "a value such as ");
  unit_write_powers(text, 1, powers);
}

void script_quantity_words(struct text *text, const struct script_quantity *quantity, enum unit_system units) {
  enum dimension dimension = dimension_of_powers(quantity->powers);
  if (quantity->flags & SCRIPT_POISONED)
    text_add(text, "?");
  else if (dimension == DIMENSION_COUNT)
    unit_write_powers(text, quantity->value, quantity->powers);
  else
    unit_write(text, quantity->value, dimension, (struct write_style){.system = units});
}

static void write_dimension(struct text *text, const void *with) {
  script_dimension_words(text, *(const struct powers *)with);
}

// What the value at index is, with its article.
void describe_value(lua_State *L, int index, char *words, size_t room) {
  const struct script_quantity *quantity = script_to_quantity(L, index);
  if (quantity)
    write_words(L, words, room, write_dimension, &quantity->powers);
  else if (lua_isnoneornil(L, index))
    copy_words(words, room, "nothing (nil)");
  else if (lua_type(L, index) == LUA_TNUMBER)
    copy_words(words, room, "a bare number");
  else if (lua_type(L, index) == LUA_TSTRING)
    copy_words(words, room, "a text in quotes");
  else
    snprintf(words, room, "a %s", luaL_typename(L, index));
}

// A number or a text beside a quantity: how that one is written.
static bool example_beside(lua_State *L, int index, int other, char *right, size_t room) {
  const struct script_quantity *quantity = script_to_quantity(L, other);
  int type = lua_type(L, index);
  if (!quantity || (type != LUA_TNUMBER && type != LUA_TSTRING)) return false;
  enum dimension dimension = dimension_of_powers(quantity->powers);
  if (dimension == DIMENSION_COUNT) return false;
  snprintf(right, room, "the value with its unit, as in q\"%s\"", dimension_row(dimension)->example);
  return true;
}

int raise_pair(lua_State *L, int a, int b, const char *doing) {
  char first[DIMENSION_ROOM], second[DIMENSION_ROOM], right[RIGHT_ROOM];
  describe_value(L, a, first, sizeof first);
  describe_value(L, b, second, sizeof second);
  if (!example_beside(L, a, b, right, sizeof right) && !example_beside(L, b, a, right, sizeof right))
    copy_words(right, sizeof right, "two values of one sort");
  return script_misuse(L, right, "%s cannot be %s %s", first, doing, second);
}

void read_two(lua_State *L, int a, int b, const char *doing, struct script_quantity pair[2]) {
  bool first = script_read_quantity(L, a, &pair[0]), second = script_read_quantity(L, b, &pair[1]);
  if (!first || !second) raise_pair(L, a, b, doing);
}

// A bare number beside a ratio or a count is one.
void adopt_powers(lua_State *L, int a, int b, struct script_quantity pair[2]) {
  if (lua_type(L, a) == LUA_TNUMBER && is_bare(pair[1].powers)) pair[0].powers = pair[1].powers;
  if (lua_type(L, b) == LUA_TNUMBER && is_bare(pair[0].powers)) pair[1].powers = pair[0].powers;
}

bool is_poisoned(const struct script_quantity pair[2]) { return (pair[0].flags | pair[1].flags) & SCRIPT_POISONED; }

void script_quantity_pair(lua_State *L, int a, int b, const char *doing, struct script_quantity pair[2]) {
  read_two(L, a, b, doing, pair);
  if (is_poisoned(pair)) return;
  adopt_powers(L, a, b, pair);
  if (!powers_equal(pair[0].powers, pair[1].powers)) raise_pair(L, a, b, doing);
}

int script_compare(const struct script_quantity *a, const struct script_quantity *b) {
  return (int)compare(a->value, b->value, a->scale > b->scale ? a->scale : b->scale);
}

double bare_number(lua_State *L, int index, const char *doing) {
  char words[DIMENSION_ROOM];
  struct script_quantity quantity;
  if (script_read_quantity(L, index, &quantity) && (is_bare(quantity.powers) || quantity.flags & SCRIPT_POISONED))
    return quantity.value;
  describe_value(L, index, words, sizeof words);
  script_misuse(L, "a plain number", "%s cannot be %s", words, doing);
  return 0;
}
