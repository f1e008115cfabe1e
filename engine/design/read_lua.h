// SPDX-License-Identifier: MIT
// Inside of read_lua: the words that record what a design's text calls, and the tables turned into what was written.
#ifndef FOREBAY_DESIGN_READ_LUA_H
#define FOREBAY_DESIGN_READ_LUA_H

#include "design/places_tree.h"
#include "design/written.h"
#include "script/call.h"

struct record {
  enum kind kind;
  const char *name;  // NULL: singles
  size_t length;
  int line;
  bool has_table, spoilt;
};

struct lua_reader {
  struct arena *arena;
  struct problems *problems;
  const char *file;
  struct script *script;
  struct record *records;
  size_t count, room;
  size_t problems_before;
  const struct places *places;
  struct written *written;  // one for each record that has a table
  size_t values;
};

// For script_protect: the reader by lua_touserdata(L, 1). Pushes the environment of a design.
int lua_design_words(lua_State *L);
// The same, after the text has run: fills in reader->written.
int lua_design_tables(lua_State *L);

// Pushes the table of record `index`, from 0.
void lua_push_recorded(lua_State *L, const struct lua_reader *reader, size_t index);

struct lua_shape {
  uint32_t tag;  // LUA_TAG_SHAPE; its list is user value 1
  enum word word;
};
enum { LUA_TAG_SHAPE = SCRIPT_TAG_OWNER };

#endif
