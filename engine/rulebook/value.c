// SPDX-License-Identifier: MIT
#include "rulebook/value.h"

#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "base/number.h"
#include "base/text.h"
#include "design/places_tree.h"
#include "script/call.h"
#include "script/freeze.h"
#include "script/quantity.h"

enum { DEPTH_MOST = 12, MEMBERS_MOST = 4000, COST = 100 };

struct taking {
  struct arena *arena;
  const char *later;
  size_t members;
  // One allocation at a time, in the arena and outside Lua's reach.
  const char *bytes;
  size_t length;
  void *made;
};

static void make_value(void *with) {
  struct taking *taking = with;
  taking->made = arena_alloc(taking->arena, sizeof(struct value));
}

static void make_copy(void *with) {
  struct taking *taking = with;
  taking->made = arena_copy(taking->arena, taking->bytes, taking->length);
}

static struct value *new_value(lua_State *L, struct taking *taking) {
  script_in_arena(L, taking->arena, make_value, taking);
  struct value *value = taking->made;
  value->function = LUA_NOREF;
  return value;
}

// NULL: holds a NUL or is no UTF-8.
static const char *copy_text(lua_State *L, struct taking *taking, int index) {
  taking->bytes = lua_tolstring(L, index, &taking->length);
  if (strlen(taking->bytes) != taking->length || !text_is_utf8(taking->bytes, taking->length)) return NULL;
  script_in_arena(L, taking->arena, make_copy, taking);
  return taking->made;
}

static bool comes_before(const struct value *a, const struct value *b) {
  if (a->key && b->key) return strcmp(a->key, b->key) < 0;
  if (!a->key && !b->key) return a->index < b->index;
  return !a->key;
}

static void insert_member(struct value *table, struct value *member) {
  struct value **at = &table->first;
  while (*at && comes_before(*at, member)) at = &(*at)->next;
  member->next = *at;
  *at = member;
  table->count++;
}

static void take_into(lua_State *L, struct taking *taking, struct value *value, int depth);

// Pops it.
static void keep_for_later(lua_State *L, struct value *value) {
  value->sort = VALUE_LATER;
  value->function = luaL_ref(L, LUA_REGISTRYINDEX);
}

// key and member are on the stack; both stay.
static void take_member(lua_State *L, struct taking *taking, struct value *table, int depth) {
  if (++taking->members > MEMBERS_MOST) script_misuse(L, "fewer", "a rule holds more than 4,000 values");
  struct value *member = new_value(L, taking);
  if (lua_type(L, -2) == LUA_TSTRING) {
    member->key = copy_text(L, taking, -2);
    if (!member->key) script_misuse(L, NULL, "a key is no readable text");
  } else if (lua_isinteger(L, -2)) {
    member->index = (long)lua_tointeger(L, -2);
  } else {
    script_misuse(L, "a name", "a key is neither a name nor a place in a list");
  }
  lua_pushvalue(L, -1);
  if (depth == 0 && taking->later && member->key && lua_istable(L, -1) && strcmp(member->key, taking->later) == 0)
    keep_for_later(L, member);
  else
    take_into(L, taking, member, depth + 1);
  insert_member(table, member);
}

static void take_table(lua_State *L, struct taking *taking, struct value *value, int depth) {
  value->sort = VALUE_TABLE;
  if (depth > DEPTH_MOST) script_misuse(L, "fewer", "tables stand in tables more than %d deep", DEPTH_MOST);
  luaL_checkstack(L, 8, NULL);
  lua_pushnil(L);
  while (lua_next(L, -2)) {
    take_member(L, taking, value, depth);
    lua_pop(L, 1);
  }
}

static void take_text(lua_State *L, struct taking *taking, struct value *value) {
  value->text = copy_text(L, taking, -1);
  value->sort = value->text ? VALUE_TEXT : VALUE_OTHER;
}

static void take_function(lua_State *L, struct taking *taking, struct value *value) {
  value->sort = VALUE_FUNCTION;
  taking->bytes = script_stray_upvalue(L, -1);
  if (taking->bytes) {
    taking->length = strlen(taking->bytes);
    script_in_arena(L, taking->arena, make_copy, taking);
    value->stray = taking->made;
  }
  lua_pushvalue(L, -1);
  value->function = luaL_ref(L, LUA_REGISTRYINDEX);
}

static void take_userdata(lua_State *L, struct value *value) {
  const struct script_quantity *quantity = script_to_quantity(L, -1);
  value->sort = script_is_stand_in(L, -1) ? VALUE_UNKNOWN : VALUE_OTHER;
  if (!quantity) return;
  value->sort = quantity->flags & SCRIPT_POISONED ? VALUE_UNKNOWN : VALUE_QUANTITY;
  value->number = quantity->value;
  value->powers = quantity->powers;
}

static void take_into(lua_State *L, struct taking *taking, struct value *value, int depth) {
  script_charge(L, COST);
  switch (lua_type(L, -1)) {
    case LUA_TSTRING:
      take_text(L, taking, value);
      break;
    case LUA_TTABLE:
      take_table(L, taking, value, depth);
      break;
    case LUA_TFUNCTION:
      take_function(L, taking, value);
      break;
    case LUA_TNUMBER:
      value->sort = VALUE_NUMBER;
      value->number = lua_tonumber(L, -1);
      break;
    case LUA_TBOOLEAN:
      value->sort = VALUE_TRUTH;
      value->truth = lua_toboolean(L, -1);
      break;
    default:
      take_userdata(L, value);
  }
  lua_pop(L, 1);
}

struct value *value_take(lua_State *L, struct arena *arena, const char *later) {
  struct taking taking = {.arena = arena, .later = later};
  struct value *value = new_value(L, &taking);
  take_into(L, &taking, value, 0);
  return value;
}

static void place_members(struct value *table, const struct places *places, int node) {
  for (struct value *member = table->first; member; member = member->next) {
    struct value_place place;
    int to = member->key ? places_field(places, node, member->key, strlen(member->key))
                         : places_item(places, node, (int)member->index);
    member->line = places_at(places, to, &place) ? place.line : table->line;
    place_members(member, places, to);
  }
}

void value_place(struct value *value, const struct places *places, const char *verb, const char *name, int line) {
  enum kind constructed = (enum kind)places_constructed(verb, strlen(verb));
  value->line = line;
  place_members(value, places, places_entity(places, constructed, name, name ? strlen(name) : 0, line));
}

void value_place_member(struct value *member, const struct places *places, const char *verb, const char *name, int line,
                        const char *key) {
  enum kind constructed = (enum kind)places_constructed(verb, strlen(verb));
  int node = places_entity(places, constructed, name, strlen(name), line);
  place_members(member, places, places_field(places, node, key, strlen(key)));
}

const struct value *value_member(const struct value *table, const char *key) {
  for (const struct value *member = table->first; member; member = member->next) {
    if (member->key && strcmp(member->key, key) == 0) return member;
  }
  return NULL;
}

const char *value_shown(struct arena *arena, const struct value *value) {
  static const char *const sorts[] = {
      [VALUE_TABLE] = "{ ... }",     [VALUE_LATER] = "{ ... }", [VALUE_FUNCTION] = "function",
      [VALUE_QUANTITY] = "q\"...\"", [VALUE_UNKNOWN] = "?",     [VALUE_OTHER] = "?"};
  struct text text = text_in(arena);
  if (value->sort == VALUE_TEXT) return value->text;
  if (value->sort == VALUE_TABLE && !value->first) return "{ }";
  if (value->sort == VALUE_TRUTH) return value->truth ? "true" : "false";
  if (value->sort != VALUE_NUMBER) return sorts[value->sort];
  number_write_short(&text, value->number, 10, false);
  return text_end(&text);
}
