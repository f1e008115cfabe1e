// SPDX-License-Identifier: MIT
// Lists: what scripts do with them costs instructions by their length, and never depends on a table's own order.
#include <stdlib.h>
#include <string.h>

#include "script/inside.h"
#include "script/quantity.h"

enum { UNPACK_MOST = 200, SORT_MOST = 10000, CONCAT_MOST = 64 * 1024, VALUE_ROOM = 256, COMPARISON_COST = 4 };

enum key_rank { KEY_NUMBER, KEY_TEXT, KEY_TRUTH };

struct key {
  enum key_rank rank;
  double number;
  lua_Integer integer;  // tells apart whole numbers that a double holds alike; a truth's value
  const char *text;
  size_t length;
  int place;  // in the unsorted list
};

int compare_bytes(const char *a, size_t a_length, const char *b, size_t b_length) {
  int order = memcmp(a, b, a_length < b_length ? a_length : b_length);
  if (order != 0) return order;
  return (a_length > b_length) - (a_length < b_length);
}

static int compare_keys(const void *left, const void *right) {
  const struct key *a = left, *b = right;
  if (a->rank != b->rank) return a->rank < b->rank ? -1 : 1;
  if (a->rank == KEY_TEXT) return compare_bytes(a->text, a->length, b->text, b->length);
  if (a->number < b->number || a->number > b->number) return a->number < b->number ? -1 : 1;
  return (a->integer > b->integer) - (a->integer < b->integer);
}

static struct key key_on_top(lua_State *L, int place) {
  struct key key = {.place = place};
  int type = lua_type(L, -1);
  if (type == LUA_TSTRING) {
    key.rank = KEY_TEXT;
    key.text = lua_tolstring(L, -1, &key.length);
  } else if (type == LUA_TNUMBER) {
    key.number = lua_tonumber(L, -1);
    key.integer = lua_isinteger(L, -1) ? lua_tointeger(L, -1) : 0;
  } else if (type == LUA_TBOOLEAN) {
    key.rank = KEY_TRUTH;
    key.integer = lua_toboolean(L, -1);
  } else
    script_misuse(L, "keys that are words or numbers", "a table that has a %s for a key has no fixed order",
                  luaL_typename(L, -1));
  return key;
}

// Pushes a list of the keys as the table has them.
static int push_keys(lua_State *L, int index) {
  int count = 0;
  lua_newtable(L);
  lua_pushnil(L);
  while (lua_next(L, index)) {
    lua_pop(L, 1);
    lua_pushvalue(L, -1);
    lua_rawseti(L, -3, ++count);
  }
  return count;
}

void push_sorted_keys(lua_State *L, int index) {
  index = lua_absindex(L, index);
  luaL_checkstack(L, 6, NULL);
  int count = push_keys(L, index);
  script_charge(L, (size_t)count * COMPARISON_COST);
  struct key *keys = lua_newuserdatauv(L, sizeof *keys * (size_t)(count ? count : 1), 0);
  keys->rank =
      KEY_NUMBER;  // of an empty table the one element is no key; it is set, so that nothing unset is passed on
  for (int i = 0; i < count; i++) {
    lua_rawgeti(L, -2, i + 1);
    keys[i] = key_on_top(L, i + 1);
    lua_pop(L, 1);
  }
  qsort(keys, (size_t)count, sizeof *keys, compare_keys);  // no two keys are equal: stable or not is one
  lua_createtable(L, count, 0);
  for (int i = 0; i < count; i++) {
    lua_rawgeti(L, -3, keys[i].place);
    lua_rawseti(L, -2, i + 1);
  }
  lua_replace(L, -3);
  lua_pop(L, 1);
}

// False: a stand-in, on which nothing is done.
static bool check_list(lua_State *L, const char *word) {
  if (script_is_stand_in(L, 1)) return false;
  if (!lua_istable(L, 1))
    script_misuse(L, "a list in { }", "table.%s works on a list and was given %s", word,
                  lua_isnoneornil(L, 1) ? "nothing (nil)" : luaL_typename(L, 1));
  return true;
}

static lua_Integer place_within(lua_State *L, lua_Integer place, lua_Integer most, const char *word) {
  if (place < 1 || place > most)
    script_misuse(L, NULL, "table.%s has no place %lld in a list of places 1 to %lld", word, (long long)place,
                  (long long)most);
  return place;
}

static int word_insert(lua_State *L) {
  if (!check_list(L, "insert")) return 0;
  lua_Integer count = luaL_len(L, 1), place = count + 1;
  if (lua_gettop(L) != 2 && lua_gettop(L) != 3)
    return script_misuse(L, "table.insert(list, value)", "table.insert has too few or too many values");
  if (lua_gettop(L) == 3) place = place_within(L, luaL_checkinteger(L, 2), count + 1, "insert");
  script_charge(L, (size_t)(count + 1 - place));
  for (lua_Integer i = count; i >= place; i--) {
    lua_geti(L, 1, i);
    lua_seti(L, 1, i + 1);
  }
  lua_seti(L, 1, place);  // the last argument
  return 0;
}

static int word_remove(lua_State *L) {
  if (!check_list(L, "remove")) return 0;
  lua_Integer count = luaL_len(L, 1);
  lua_Integer place = luaL_optinteger(L, 2, count);
  if (count == 0) return 0;
  place = place_within(L, place, count, "remove");
  script_charge(L, (size_t)(count - place));
  lua_geti(L, 1, place);
  for (lua_Integer i = place; i < count; i++) {
    lua_geti(L, 1, i + 1);
    lua_seti(L, 1, i);
  }
  lua_pushnil(L);
  lua_seti(L, 1, count);
  return 1;
}

static int word_unpack(lua_State *L) {
  if (!check_list(L, "unpack")) return 0;
  lua_Integer first = luaL_optinteger(L, 2, 1);
  lua_Integer last = lua_isnoneornil(L, 3) ? luaL_len(L, 1) : luaL_checkinteger(L, 3);
  if (first > last) return 0;
  lua_Unsigned count = (lua_Unsigned)last - (lua_Unsigned)first;
  if (count >= UNPACK_MOST) return script_misuse(L, NULL, "table.unpack gives at most %d values", UNPACK_MOST);
  luaL_checkstack(L, (int)count + 1, NULL);
  for (lua_Unsigned i = 0; i <= count; i++) lua_geti(L, 1, first + (lua_Integer)i);
  return (int)count + 1;
}

// Makes the value on top a text.
static void to_text(lua_State *L, lua_Integer place) {
  char buffer[VALUE_ROOM];
  size_t length;
  int type = lua_type(L, -1);
  if (type == LUA_TSTRING) return;
  if (type != LUA_TNUMBER && type != LUA_TUSERDATA)
    script_misuse(L, "texts and values", "table.concat joins texts and values; place %lld holds %s", (long long)place,
                  type == LUA_TNIL ? "nothing (nil)" : luaL_typename(L, -1));
  const char *words = words_of_value(L, -1, buffer, sizeof buffer, &length);
  lua_pushlstring(L, words, length);
  lua_remove(L, -2);
}

static size_t add_place_text(lua_State *L, luaL_Buffer *buffer, lua_Integer place, size_t so_far) {
  lua_geti(L, 1, place);
  to_text(L, place);
  so_far += lua_rawlen(L, -1);
  if (so_far > CONCAT_MOST) script_misuse(L, NULL, "table.concat makes at most %d bytes", CONCAT_MOST);
  luaL_addvalue(buffer);
  script_charge(L, 1);
  return so_far;
}

static int word_concat(lua_State *L) {
  if (!check_list(L, "concat")) {
    lua_settop(L, 1);
    return 1;
  }
  size_t between, total = 0;
  const char *separator = luaL_optlstring(L, 2, "", &between);
  lua_Integer first = luaL_optinteger(L, 3, 1);
  lua_Integer last = lua_isnoneornil(L, 4) ? luaL_len(L, 1) : luaL_checkinteger(L, 4);
  luaL_Buffer buffer;
  luaL_buffinit(L, &buffer);
  for (lua_Integer i = first; i <= last; i++) {
    total = add_place_text(L, &buffer, i, total + between);
    if (i == last) break;  // before i + 1 can overflow
    luaL_addlstring(&buffer, separator, between);
  }
  luaL_pushresult(&buffer);
  return 1;
}

static bool less_by_value(lua_State *L, int a, int b) {
  struct script_quantity pair[2];
  if (lua_type(L, a) == LUA_TSTRING && lua_type(L, b) == LUA_TSTRING) {
    size_t a_length, b_length;
    const char *a_text = lua_tolstring(L, a, &a_length), *b_text = lua_tolstring(L, b, &b_length);
    return compare_bytes(a_text, a_length, b_text, b_length) < 0;
  }
  script_quantity_pair(L, a, b, "compared with", pair);
  return pair[0].value < pair[1].value;
}

static bool is_less(lua_State *L, int a, int b) {
  script_charge(L, COMPARISON_COST);
  if (lua_isnoneornil(L, 2)) return less_by_value(L, a, b);
  lua_pushvalue(L, 2);
  lua_pushvalue(L, a);
  lua_pushvalue(L, b);
  lua_call(L, 2, 1);
  bool less = lua_toboolean(L, -1);
  lua_pop(L, 1);
  return less;
}

struct stretch {
  lua_Integer at, end;
};

// The later value goes first only when it is less: equal ones keep their order, and a comparison that contradicts
// itself gives some order, never a read outside the list.
static void merge(lua_State *L, int from, int to, struct stretch left, struct stretch right) {
  lua_Integer out = left.at;
  while (left.at < left.end || right.at < right.end) {
    bool take_right = left.at >= left.end;
    if (!take_right && right.at < right.end) {
      lua_rawgeti(L, from, right.at);
      lua_rawgeti(L, from, left.at);
      int top = lua_gettop(L);
      take_right = is_less(L, top - 1, top);
      lua_pop(L, 2);
    }
    lua_rawgeti(L, from, take_right ? right.at++ : left.at++);
    lua_rawseti(L, to, out++);
  }
}

static lua_Integer least(lua_Integer a, lua_Integer b) { return a < b ? a : b; }

// Sorts the list at index `list` with the one at `other` for room; the sorted one is on top at the end.
static void merge_sort(lua_State *L, lua_Integer count, int list, int other) {
  for (lua_Integer width = 1; width < count; width *= 2) {
    for (lua_Integer i = 1; i <= count; i += 2 * width) {
      lua_Integer middle = least(i + width, count + 1), end = least(i + 2 * width, count + 1);
      merge(L, list, other, (struct stretch){i, middle}, (struct stretch){middle, end});
    }
    int swapped = list;
    list = other;
    other = swapped;
  }
  lua_pushvalue(L, list);
}

static int word_sort(lua_State *L) {
  if (!check_list(L, "sort")) return 0;
  lua_settop(L, 2);
  lua_Integer count = luaL_len(L, 1);
  if (count > SORT_MOST) return script_misuse(L, NULL, "table.sort sorts at most %d values", SORT_MOST);
  lua_createtable(L, (int)count, 0);  // 3
  lua_createtable(L, (int)count, 0);  // 4
  for (lua_Integer i = 1; i <= count; i++) {
    lua_geti(L, 1, i);
    lua_rawseti(L, 3, i);
  }
  merge_sort(L, count, 3, 4);
  for (lua_Integer i = 1; i <= count; i++) {
    lua_rawgeti(L, -1, i);
    lua_seti(L, 1, i);
  }
  return 0;
}

const struct word table_words[] = {{"insert", word_insert, true},  {"concat", word_concat, true},
                                   {"remove", word_remove, false}, {"unpack", word_unpack, false},
                                   {"sort", word_sort, false},     {NULL, NULL, false}};
