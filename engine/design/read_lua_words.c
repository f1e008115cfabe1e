// SPDX-License-Identifier: MIT
// The words of a design: one a kind, and the shapes. They record and return; nothing is judged before the text has run.
#include <lua.h>
#include <stdio.h>

#include "design/read_lua.h"

enum { SAID_ROOM = 160 };

static struct lua_reader *reader_of(lua_State *L) { return lua_touserdata(L, lua_upvalueindex(1)); }

static void push_tables(lua_State *L, const struct lua_reader *reader) { lua_rawgetp(L, LUA_REGISTRYINDEX, reader); }

void lua_push_recorded(lua_State *L, const struct lua_reader *reader, size_t index) {
  push_tables(L, reader);
  lua_rawgeti(L, -1, (lua_Integer)index + 1);
  lua_remove(L, -2);
}

// What is left of a word that was used wrongly: takes whatever comes and gives itself.
static int swallow(lua_State *L) {
  lua_pushcfunction(L, swallow);
  return 1;
}

struct adding {
  struct lua_reader *reader;
  struct record record;
};

static void add_record(void *with) {
  struct adding *adding = with;
  struct lua_reader *reader = adding->reader;
  if (adding->record.name) adding->record.name = arena_copy(reader->arena, adding->record.name, adding->record.length);
  reader->records = arena_grow(reader->arena, reader->records, reader->count, &reader->room, sizeof *reader->records);
  reader->records[reader->count++] = adding->record;
}

static size_t record(lua_State *L, struct lua_reader *reader, struct record record) {
  if (reader->count >= MOST_ENTITIES)
    script_misuse(L, "a smaller design", "holds more than %d entities", MOST_ENTITIES);
  record.line = script_place(L).line;
  struct adding adding = {reader, record};
  script_in_arena(L, reader->arena, add_record, &adding);
  return reader->count - 1;
}

static void keep_table(lua_State *L, struct lua_reader *reader, size_t index, int table) {
  struct record *it = &reader->records[index];
  it->has_table = true;
  it->spoilt = !lua_istable(L, table);
  if (it->spoilt) return;
  push_tables(L, reader);
  lua_pushvalue(L, table);
  lua_rawseti(L, -2, (lua_Integer)index + 1);
  lua_pop(L, 1);
}

static void slip(lua_State *L, const char *said, const char *right) { script_slip(L, said, NULL, right); }

// The function that `basin "lower"` gives: upvalue 2 is the record.
static int take_table(lua_State *L) {
  struct lua_reader *reader = reader_of(L);
  size_t index = (size_t)lua_tointeger(L, lua_upvalueindex(2));
  struct record *it = &reader->records[index];
  char said[SAID_ROOM];
  bool fits = lua_istable(L, 1) || script_is_stand_in(L, 1);
  const char *kind = catalogue_kind(it->kind)->name;
  if (fits && !it->has_table) {
    keep_table(L, reader, index, 1);
  } else if (fits) {
    snprintf(said, sizeof said, "%s \"%.80s\" has two tables", kind, it->name);
    slip(L, said, "all of its givens in one { }");
  } else {
    snprintf(said, sizeof said, "%s \"%.80s\" is followed by no table", kind, it->name);
    it->has_table = it->spoilt = true;
    slip(L, said, "its givens in { }");
  }
  lua_pushvalue(L, lua_upvalueindex(1));
  lua_pushvalue(L, lua_upvalueindex(2));
  lua_pushcclosure(L, take_table, 2);
  return 1;
}

static int named_word(lua_State *L) {
  struct lua_reader *reader = reader_of(L);
  enum kind kind = (enum kind)lua_tointeger(L, lua_upvalueindex(2));
  const char *name = catalogue_kind(kind)->name;
  char said[SAID_ROOM], right[SAID_ROOM];
  if (script_is_stand_in(L, 1)) return swallow(L);
  if (lua_type(L, 1) != LUA_TSTRING) {
    snprintf(said, sizeof said, "`%s` stands without a name", name);
    snprintf(right, sizeof right, "%s \"its name\" { ... }", name);
    slip(L, said, right);
    return swallow(L);
  }
  struct record it = {.kind = kind};
  it.name = lua_tolstring(L, 1, &it.length);
  size_t index = record(L, reader, it);
  lua_pushvalue(L, lua_upvalueindex(1));
  lua_pushinteger(L, (lua_Integer)index);
  lua_pushcclosure(L, take_table, 2);
  return 1;
}

static int single_word(lua_State *L) {
  struct lua_reader *reader = reader_of(L);
  enum kind kind = (enum kind)lua_tointeger(L, lua_upvalueindex(2));
  const char *name = catalogue_kind(kind)->name;
  char said[SAID_ROOM], right[SAID_ROOM];
  if (lua_istable(L, 1) || script_is_stand_in(L, 1)) {
    keep_table(L, reader, record(L, reader, (struct record){.kind = kind}), 1);
    return swallow(L);
  }
  size_t index = record(L, reader, (struct record){.kind = kind, .has_table = true, .spoilt = true});
  (void)index;
  snprintf(said, sizeof said, "`%s` takes no name, and one table", name);
  snprintf(right, sizeof right, "%s { ... }", name);
  slip(L, said, right);
  return swallow(L);
}

// polygon { ... }; circle "6 ft" is taken as circle { "6 ft" }.
static int shape_word(lua_State *L) {
  lua_settop(L, 1);
  if (!lua_istable(L, 1)) {
    lua_createtable(L, 1, 0);
    lua_insert(L, 1);
    lua_rawseti(L, 1, 1);
  }
  struct lua_shape *shape = lua_newuserdatauv(L, sizeof *shape, 1);
  *shape = (struct lua_shape){LUA_TAG_SHAPE, (enum word)lua_tointeger(L, lua_upvalueindex(2))};
  lua_insert(L, 1);
  lua_setiuservalue(L, 1, 1);
  return 1;
}

static void add_word(lua_State *L, struct lua_reader *reader, int meaning, lua_CFunction work, const char *name) {
  lua_pushlightuserdata(L, reader);
  lua_pushinteger(L, meaning);
  lua_pushcclosure(L, work, 2);
  script_set_word(L, 2, name);
}

int lua_design_words(lua_State *L) {
  struct lua_reader *reader = lua_touserdata(L, 1);
  lua_newtable(L);
  lua_rawsetp(L, LUA_REGISTRYINDEX, reader);
  script_push_environment(L);
  for (int k = 0; k < KIND_COUNT; k++) {
    const struct kind_row *kind = catalogue_kind((enum kind)k);
    if (!kind->part) add_word(L, reader, k, kind_is_named(kind) ? named_word : single_word, kind->name);
  }
  for (int w = 0; w < WORD_COUNT; w++) {
    const struct word_row *word = catalogue_word((enum word)w);
    if (word->set == WORDS_shape) add_word(L, reader, w, shape_word, word->word);
  }
  script_freeze_environment(L, 2);
  return 1;
}
