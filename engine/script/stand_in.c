// SPDX-License-Identifier: MIT
// What an unknown name gives after a slip: whatever is done with it gives itself again, so that reading goes on.
#include "script/inside.h"

void push_stand_in(lua_State *L) { lua_rawgeti(L, LUA_REGISTRYINDEX, script_of(L)->stand_in_ref); }

bool script_is_stand_in(lua_State *L, int index) { return script_tagged(L, index, SCRIPT_TAG_STAND_IN) != NULL; }

static int give_itself(lua_State *L) {
  push_stand_in(L);
  return 1;
}

// A `for` over it calls it with two nils, and must come to an end.
static int give_itself_or_end(lua_State *L) {
  if (lua_gettop(L) == 3 && lua_isnil(L, 2) && lua_isnil(L, 3))
    lua_pushnil(L);
  else
    push_stand_in(L);
  return 1;
}

static int do_nothing(lua_State *L) {
  (void)L;
  return 0;
}

static int give_zero(lua_State *L) {
  lua_pushinteger(L, 0);
  return 1;
}

static int give_false(lua_State *L) {
  lua_pushboolean(L, false);
  return 1;
}

static const luaL_Reg answers[] = {{"__index", give_itself},
                                   {"__newindex", do_nothing},
                                   {"__call", give_itself_or_end},
                                   {"__len", give_zero},
                                   {"__add", give_itself},
                                   {"__sub", give_itself},
                                   {"__mul", give_itself},
                                   {"__div", give_itself},
                                   {"__mod", give_itself},
                                   {"__pow", give_itself},
                                   {"__idiv", give_itself},
                                   {"__unm", give_itself},
                                   {"__concat", give_itself},
                                   {"__eq", give_false},
                                   {"__lt", give_false},
                                   {"__le", give_false},
                                   {NULL, NULL}};

void open_stand_in(lua_State *L) {
  struct script_header *header = lua_newuserdatauv(L, sizeof *header, 0);
  header->tag = SCRIPT_TAG_STAND_IN;
  lua_newtable(L);
  luaL_setfuncs(L, answers, 0);
  lua_pushliteral(L, "unknown");
  lua_setfield(L, -2, "__name");
  lua_setmetatable(L, -2);
  script_of(L)->stand_in_ref = luaL_ref(L, LUA_REGISTRYINDEX);
}
