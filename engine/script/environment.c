// SPDX-License-Identifier: MIT
// An environment is an empty table, so that every assignment is seen: its metatable's __index holds the words, whose
// own metatable answers for the unknown ones. A frozen one refuses assignments; otherwise they go among the words.
#include <stdio.h>
#include <string.h>

#include "script/freeze.h"
#include "script/inside.h"

enum { NAME_ROOM = 64, READ_ROOM = 96, SAID_ROOM = 200 };

struct near_job {
  const char *written;
  const char *const *words;
  size_t count;
  const char *nearest;
};

static void find_nearest(void *with) {
  struct near_job *job = with;
  job->nearest = text_nearest(job->written, job->words, job->count);
}

// The nearest of the text keys of the table at index 1, lists walked in a fixed order; NULL when none is near.
static const char *nearest_key(lua_State *L, const char *written) {
  push_sorted_keys(L, 1);
  lua_Integer count = (lua_Integer)lua_rawlen(L, -1);
  const char **words = lua_newuserdatauv(L, sizeof *words * (size_t)(count ? count : 1), 0);
  struct near_job job = {.written = written, .words = words};
  for (lua_Integer i = 1; i <= count; i++) {
    if (lua_rawgeti(L, -2, i) == LUA_TSTRING) words[job.count++] = lua_tostring(L, -1);
    lua_pop(L, 1);  // the table at 1 keeps the text alive
  }
  script_in_arena(L, scratch_arena(L), find_nearest, &job);
  return job.nearest;
}

static const char *name_of_key(lua_State *L, int index, char *buffer, size_t room) {
  if (lua_type(L, index) != LUA_TSTRING) return luaL_typename(L, index);
  copy_words(buffer, room, lua_tostring(L, index));
  return buffer;
}

// (words, key): upvalue 1 is what stands before the key, "math." or "".
static int unknown_word(lua_State *L) {
  char name[NAME_ROOM], right[SAID_ROOM], read[READ_ROOM];
  const char *before = lua_tostring(L, lua_upvalueindex(1));
  snprintf(read, sizeof read, "%s%s", before, name_of_key(L, 2, name, sizeof name));
  const char *nearest = lua_type(L, 2) == LUA_TSTRING ? nearest_key(L, name) : NULL;
  bool bare = lua_type(L, 2) == LUA_TSTRING && !*before;  // quotes may have been left out
  if (nearest)
    snprintf(right, sizeof right, "`%s%.60s`, if that is meant", before, nearest);
  else if (bare)
    snprintf(right, sizeof right, "\"%s\" in quotes, if it is a name", name);
  script_slip(L, "this name is not known here", read, nearest || bare ? right : NULL);
  push_stand_in(L);
  return 1;
}

void guard_words(lua_State *L, int index, const char *before) {
  index = lua_absindex(L, index);
  lua_createtable(L, 0, 1);
  lua_pushstring(L, before);
  lua_pushcclosure(L, unknown_word, 1);
  lua_setfield(L, -2, "__index");
  lua_setmetatable(L, index);
}

// Pushes the words of the environment at index.
static void push_words(lua_State *L, int index) { luaL_getmetafield(L, index, "__index"); }

// (environment, key, value): a frozen environment is assigned to.
static int refuse_global(lua_State *L) {
  char name[NAME_ROOM], said[SAID_ROOM];
  name_of_key(L, 2, name, sizeof name);
  push_words(L, 1);
  lua_pushvalue(L, 2);
  bool has_meaning = lua_rawget(L, -2) != LUA_TNIL;
  snprintf(said, sizeof said, has_meaning ? "`%s` has a meaning here and keeps it" : "`%s` is set for the whole file",
           lua_type(L, 2) == LUA_TSTRING ? name : "a value");
  script_slip(L, said, NULL, has_meaning ? "another name" : "`local` before it");
  if (has_meaning || lua_isnil(L, 2)) return 0;
  lua_settop(L, 4);     // environment key value words
  lua_pushvalue(L, 2);  // recorded: reading goes on as if it were right
  lua_pushvalue(L, 3);
  lua_rawset(L, 4);
  return 0;
}

void script_push_environment(lua_State *L) {
  luaL_checkstack(L, 8, NULL);
  lua_newtable(L);           // environment
  lua_createtable(L, 0, 2);  // environment meta
  lua_newtable(L);           // environment meta words
  lua_rawgeti(L, LUA_REGISTRYINDEX, script_of(L)->words_ref);
  lua_pushnil(L);
  while (lua_next(L, -2)) {  // environment meta words all key value
    lua_pushvalue(L, -2);
    lua_insert(L, -2);
    lua_rawset(L, -5);
  }
  lua_pop(L, 1);
  guard_words(L, -1, "");
  lua_pushvalue(L, -1);
  lua_setfield(L, -3, "__index");
  lua_setfield(L, -2, "__newindex");
  lua_setmetatable(L, -2);
}

void script_freeze_environment(lua_State *L, int index) {
  lua_getmetatable(L, index);
  lua_pushcfunction(L, refuse_global);
  lua_setfield(L, -2, "__newindex");
  lua_pop(L, 1);
}

void script_set_word(lua_State *L, int environment, const char *name) {
  environment = lua_absindex(L, environment);
  push_words(L, environment);
  lua_insert(L, -2);  // words value
  lua_pushstring(L, name);
  lua_insert(L, -2);
  lua_rawset(L, -3);
  lua_pop(L, 1);
}

// (table, key, value): upvalue 1 is the table's name.
static int refuse_change(lua_State *L) {
  return script_misuse(L, "a `local` of your own", "`%s` cannot be changed here", lua_tostring(L, lua_upvalueindex(1)));
}

// Upvalue 1 is the table behind: pairs and # see it.
static int pairs_behind(lua_State *L) {
  lua_settop(L, 0);
  lua_pushvalue(L, lua_upvalueindex(1));
  return word_pairs(L);
}

static int length_behind(lua_State *L) {
  lua_pushinteger(L, (lua_Integer)lua_rawlen(L, lua_upvalueindex(1)));
  return 1;
}

void script_push_read_only(lua_State *L, int index, const char *name) {
  index = lua_absindex(L, index);
  luaL_checkstack(L, 4, NULL);
  lua_newtable(L);
  lua_createtable(L, 0, 4);
  lua_pushvalue(L, index);
  lua_setfield(L, -2, "__index");
  lua_pushstring(L, name);
  lua_pushcclosure(L, refuse_change, 1);
  lua_setfield(L, -2, "__newindex");
  lua_pushvalue(L, index);
  lua_pushcclosure(L, pairs_behind, 1);
  lua_setfield(L, -2, "__pairs");
  lua_pushvalue(L, index);
  lua_pushcclosure(L, length_behind, 1);
  lua_setfield(L, -2, "__len");
  lua_setmetatable(L, -2);
}

// Scripts make no metatables, so a table that refuses assignments is one of ours.
static bool refuses(lua_State *L, int index) {
  if (!lua_istable(L, index) || luaL_getmetafield(L, index, "__newindex") == LUA_TNIL) return false;
  lua_CFunction answer = lua_tocfunction(L, -1);
  lua_pop(L, 1);
  return answer == refuse_global || answer == refuse_change;
}

const char *script_stray_upvalue(lua_State *L, int index) {
  if (lua_type(L, index) != LUA_TFUNCTION || lua_iscfunction(L, index)) return NULL;
  index = lua_absindex(L, index);
  const char *name;
  for (int n = 1; (name = lua_getupvalue(L, index, n)); n++) {
    bool right = strcmp(name, "_ENV") == 0 && refuses(L, -1);
    lua_pop(L, 1);
    if (!right) return name;
  }
  return NULL;
}
