// SPDX-License-Identifier: MIT
// Which words a script has: tables of names. What is not named here does not exist in the state.
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/number.h"
#include "script/freeze.h"
#include "script/inside.h"
#include "script/quantity.h"

enum { VALUE_ROOM = 256 };

static int word_ipairs_step(lua_State *L) {
  lua_Integer i = luaL_checkinteger(L, 2) + 1;
  lua_pushinteger(L, i);
  return lua_geti(L, 1, i) == LUA_TNIL ? 1 : 2;
}

static int give_end(lua_State *L) {
  lua_pushnil(L);
  return 1;
}

static void check_walkable(lua_State *L, const char *word) {
  if (lua_type(L, 1) == LUA_TTABLE || lua_type(L, 1) == LUA_TUSERDATA) return;
  script_misuse(L, "a table in { }", "%s walks a table and was given %s", word,
                lua_isnoneornil(L, 1) ? "nothing (nil)" : luaL_typename(L, 1));
}

static int word_ipairs(lua_State *L) {
  check_walkable(L, "ipairs");
  lua_pushcfunction(L, script_is_stand_in(L, 1) ? give_end : word_ipairs_step);
  lua_pushvalue(L, 1);
  lua_pushinteger(L, 0);
  return 3;
}

// Upvalues: sorted keys, how many were walked.
static int word_pairs_step(lua_State *L) {
  while (true) {
    lua_Integer i = lua_tointeger(L, lua_upvalueindex(2)) + 1;
    lua_pushinteger(L, i);
    lua_replace(L, lua_upvalueindex(2));
    if (lua_rawgeti(L, lua_upvalueindex(1), i) == LUA_TNIL) return 1;
    lua_pushvalue(L, -1);
    if (lua_gettable(L, 1) != LUA_TNIL) return 2;
    lua_pop(L, 2);  // set to nil meanwhile
  }
}

int word_pairs(lua_State *L) {
  check_walkable(L, "pairs");
  if (luaL_getmetafield(L, 1, "__pairs") != LUA_TNIL) {
    lua_pushvalue(L, 1);
    lua_call(L, 1, 3);
    return 3;
  }
  if (script_is_stand_in(L, 1)) {
    lua_pushcfunction(L, give_end);
    return 1;
  }
  luaL_checktype(L, 1, LUA_TTABLE);
  push_sorted_keys(L, 1);
  lua_pushinteger(L, 0);
  lua_pushcclosure(L, word_pairs_step, 2);
  lua_pushvalue(L, 1);
  return 2;
}

static int word_type(lua_State *L) {
  luaL_checkany(L, 1);
  if (script_to_quantity(L, 1))
    lua_pushliteral(L, "quantity");
  else if (luaL_getmetafield(L, 1, "__name") != LUA_TSTRING)
    lua_pushstring(L, luaL_typename(L, 1));
  return 1;
}

static void write_number(struct text *text, const void *with) {
  double value = *(const double *)with;
  if (isnan(value))
    text_add(text, "not a number");
  else if (isinf(value))
    text_add(text, value < 0 ? "-infinite" : "infinite");
  else if (fabs(value) >= 1e15)
    number_write_exact(text, value);
  else
    number_write_short(text, value, 10, false);
}

struct shown {
  const struct script_quantity *quantity;
  enum unit_system units;
};

static void write_quantity(struct text *text, const void *with) {
  const struct shown *shown = with;
  script_quantity_words(text, shown->quantity, shown->units);
}

static const char *words_of_userdata(lua_State *L, int index, char *buffer, size_t room) {
  struct shown shown = {script_to_quantity(L, index), script_of(L)->owner.units};
  if (shown.quantity)
    write_words(L, buffer, room, write_quantity, &shown);
  else if (script_is_stand_in(L, index))
    copy_words(buffer, room, "?");
  else if (luaL_getmetafield(L, index, "__tostring") != LUA_TNIL) {
    lua_pushvalue(L, index);
    lua_call(L, 1, 1);
    copy_words(buffer, room, lua_type(L, -1) == LUA_TSTRING ? lua_tostring(L, -1) : "?");
    lua_pop(L, 1);
  } else
    copy_words(buffer, room, luaL_typename(L, index));
  return buffer;
}

// No address in any of them: the same text in every run.
const char *words_of_value(lua_State *L, int index, char *buffer, size_t room, size_t *length) {
  const char *words = buffer;
  index = lua_absindex(L, index);
  if (lua_type(L, index) == LUA_TSTRING) return lua_tolstring(L, index, length);
  if (lua_isinteger(L, index))
    snprintf(buffer, room, "%lld", (long long)lua_tointeger(L, index));
  else if (lua_type(L, index) == LUA_TNUMBER)
    write_words(L, buffer, room, write_number, &(double){lua_tonumber(L, index)});
  else if (lua_type(L, index) == LUA_TBOOLEAN)
    copy_words(buffer, room, lua_toboolean(L, index) ? "true" : "false");
  else if (lua_type(L, index) == LUA_TUSERDATA)
    words = words_of_userdata(L, index, buffer, room);
  else
    copy_words(buffer, room, luaL_typename(L, index));
  *length = strlen(words);
  return words;
}

static int word_tostring(lua_State *L) {
  char buffer[VALUE_ROOM];
  size_t length;
  luaL_checkany(L, 1);
  const char *words = words_of_value(L, 1, buffer, sizeof buffer, &length);
  lua_pushlstring(L, words, length);
  return 1;
}

void push_number(lua_State *L, double value, bool whole) {
  lua_Integer integer;
  if (whole && lua_numbertointeger(value, &integer))
    lua_pushinteger(L, integer);
  else
    lua_pushnumber(L, value);
}

static int number_of_text(lua_State *L) {
  size_t length;
  double value;
  const char *text = lua_tolstring(L, 1, &length);
  while (length && *text == ' ') text++, length--;
  while (length && text[length - 1] == ' ') length--;
  if (length == 0 || number_read(text, length, &value) != length)
    lua_pushnil(L);
  else
    push_number(L, value, !memchr(text, '.', length));
  return 1;
}

static int word_tonumber(lua_State *L) {
  luaL_checkany(L, 1);
  if (lua_type(L, 1) == LUA_TSTRING) return number_of_text(L);
  if (script_to_quantity(L, 1))
    lua_pushnumber(L, bare_number(L, 1, "used as a bare number"));
  else if (lua_type(L, 1) == LUA_TNUMBER)
    lua_settop(L, 1);
  else
    lua_pushnil(L);
  return 1;
}

static const struct word base_words[] = {{"q", word_q, true},
                                         {"ipairs", word_ipairs, true},
                                         {"pairs", word_pairs, true},
                                         {"type", word_type, false},
                                         {"tostring", word_tostring, true},
                                         {"tonumber", word_tonumber, false},
                                         {"select", NULL, false},
                                         {NULL, NULL, false}};

static const struct library {
  const char *name, *before;
  lua_CFunction open;
  const struct word *words;
} libraries[] = {{"_G", "", luaopen_base, base_words},
                 {"string", "string.", luaopen_string, string_words},
                 {"table", "table.", luaopen_table, table_words},
                 {"math", "math.", luaopen_math, math_words}};

// From the full library at index to the table on top: the words of the profile alone. Returns how many.
static int take_words(lua_State *L, int full, const struct word *words) {
  bool data = script_of(L)->owner.profile == SCRIPT_DATA;
  int taken = 0;
  for (; words->name; words++) {
    if (data && !words->in_data) continue;
    if (words->work)
      lua_pushcfunction(L, words->work);
    else
      lua_getfield(L, full, words->name);
    lua_setfield(L, -2, words->name);
    taken++;
  }
  return taken;
}

static void open_library(lua_State *L, const struct library *library, int all) {
  luaL_requiref(L, library->name, library->open, false);
  int full = lua_gettop(L);
  bool is_base = library->words == base_words;
  if (is_base)
    lua_pushvalue(L, all);  // its words stand by themselves
  else
    lua_newtable(L);
  int taken = take_words(L, full, library->words);
  if (!is_base && taken) {
    guard_words(L, -1, library->before);
    script_push_read_only(L, -1, library->name);
    lua_setfield(L, all, library->name);
  }
  lua_settop(L, full - 1);
}

static int refuse_text(lua_State *L) {
  return script_misuse(L, "q before it, as in q\"2 ft 6 in\"", "a text in quotes is not a value to reckon with");
}

// ("x"):rep(9) goes through the metatable of texts, whatever the environment holds.
static void replace_text_methods(lua_State *L, int all) {
  static const char *const events[] = {"__add", "__sub", "__mul", "__div", "__mod", "__pow", "__idiv", "__unm"};
  lua_pushliteral(L, "");
  lua_newtable(L);
  for (size_t i = 0; i < sizeof events / sizeof *events; i++) {
    lua_pushcfunction(L, refuse_text);
    lua_setfield(L, -2, events[i]);
  }
  lua_getfield(L, all, "string");
  lua_setfield(L, -2, "__index");
  lua_setmetatable(L, -2);
  lua_pop(L, 1);
}

// What luaL_requiref left behind: the loaded libraries, and the globals, which no chunk is given anyway.
static void forget_full_libraries(lua_State *L) {
  lua_pushnil(L);
  lua_setfield(L, LUA_REGISTRYINDEX, LUA_LOADED_TABLE);
  lua_newtable(L);
  lua_rawseti(L, LUA_REGISTRYINDEX, LUA_RIDX_GLOBALS);
}

static void open_failures(lua_State *L) {
  struct script *script = script_of(L);
  struct failure_object *object = lua_newuserdatauv(L, sizeof *object, 0);
  *object = (struct failure_object){.header = {SCRIPT_TAG_FAILURE}};
  script->failing_ref = luaL_ref(L, LUA_REGISTRYINDEX);
  script->failing = object;
}

int open_words(lua_State *L) {
  open_failures(L);
  open_stand_in(L);
  open_quantities(L);
  lua_newtable(L);
  int all = lua_gettop(L);
  for (size_t i = 0; i < sizeof libraries / sizeof *libraries; i++) open_library(L, &libraries[i], all);
  replace_text_methods(L, all);
  forget_full_libraries(L);
  script_of(L)->words_ref = luaL_ref(L, LUA_REGISTRYINDEX);
  return 0;
}
