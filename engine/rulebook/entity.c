// SPDX-License-Identifier: MIT
// An entity as rules see it: a handle without a pointer, whose names read the design.
#include <lauxlib.h>
#include <lua.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "rulebook/run.h"
#include "script/quantity.h"

enum { TAG_ENTITY = SCRIPT_TAG_OWNER };

struct handle {
  struct script_header header;
  uint32_t generation;
  int entity;
};

void entity_push(lua_State *L, struct rulebook *book, int entity) {
  struct handle *handle = lua_newuserdatauv(L, sizeof *handle, 0);
  *handle = (struct handle){{TAG_ENTITY}, book->generation, entity};
  lua_rawgeti(L, LUA_REGISTRYINDEX, book->entity_meta);
  lua_setmetatable(L, -2);
}

static struct rulebook *book_of(lua_State *L) { return lua_touserdata(L, lua_upvalueindex(1)); }

static struct run *run_of(lua_State *L) {
  struct run *run = book_of(L)->run;
  if (!run) script_misuse(L, NULL, "an entity is read while no rule runs");
  return run;
}

static int entity_at(lua_State *L, int index) {
  const struct handle *handle = script_tagged(L, index, TAG_ENTITY);
  if (!handle) return script_misuse(L, NULL, "this is no entity of the design");
  if (handle->generation != book_of(L)->generation) script_misuse(L, NULL, "this entity is of an earlier review");
  return handle->entity;
}

// ---- reading, with arenas on this side of Lua ----------------------------------------------------------------------

struct reading_slot {
  struct run *run;
  int entity;
  enum row_id row;
  size_t index;
  double value, scale;
  enum word word;
  int found, link;  // of a list of references: the part that names the entity
  const char *text;
  bool missing;
};

static bool reads_choice(enum row_sort sort) { return sort == SORT_CHOICE || sort == SORT_SHAPE; }

static void read_row(struct reading_slot *at) {
  struct evaluation *ev = at->run->ev;
  enum row_sort sort = catalogue_row(at->row)->sort;
  if (row_is_number(catalogue_row(at->row))) {
    at->value = run_read(at->run, at->entity, at->row, &at->scale);
    at->missing = isnan(at->value);
  } else if (reads_choice(sort)) {
    at->word = evaluation_choice(ev, at->entity, at->row);
    at->missing = at->word == WORD_COUNT;
  } else if (sort == SORT_REFERENCE) {
    at->found = evaluation_reference(ev, at->entity, at->row);
    at->missing = at->found < 0;
  } else if (sort == SORT_TEXT) {
    at->text = evaluation_text(ev, at->entity, at->row);
    at->missing = !*at->text;
  } else {
    at->index = evaluation_members(ev, at->entity, at->row);
  }
}

static void do_read(void *with) { read_row(with); }

static void do_member(void *with) {
  struct reading_slot *at = with;
  struct evaluation *ev = at->run->ev;
  at->found = evaluation_member(ev, at->entity, at->row, at->index);
  if (catalogue_row(at->row)->sort != SORT_REFERENCES) return;
  at->link = at->found;
  at->found = evaluation_reference(ev, at->link, ROW_link_to);
}

// ---- what a name gives ---------------------------------------------------------------------------------------------

static int push_list(lua_State *L, struct reading_slot *at) {
  size_t count = at->index;
  lua_createtable(L, (int)count, 0);
  for (at->index = 0; at->index < count; at->index++) {
    script_in_arena(L, at->run->arena, do_member, at);
    if (at->found < 0)
      return script_raise_missing(L, store_slot(evaluation_design(at->run->ev), at->link, ROW_link_to));
    entity_push(L, at->run->book, at->found);
    lua_rawseti(L, -2, (lua_Integer)at->index + 1);
  }
  return 1;
}

static int push_number(lua_State *L, const struct reading_slot *at) {
  struct script_quantity *quantity =
      script_push_quantity(L, at->value, dimension_row(catalogue_row(at->row)->dimension)->powers);
  quantity->scale = at->scale;
  quantity->entity = at->entity;
  quantity->row = (int)at->row;
  return 1;
}

static int push_word(lua_State *L, const struct reading_slot *at) {
  struct run *run = at->run;
  run->word = catalogue_word(at->word)->word;
  run->word_entity = at->entity;
  run->word_row = at->row;
  lua_pushstring(L, run->word);
  return 1;
}

static int push_row(lua_State *L, struct run *run, int entity, enum row_id row) {
  const struct row *about = catalogue_row(row);
  struct reading_slot at = {.run = run, .entity = entity, .row = row};
  if (about->sort == SORT_BUNDLE)
    return script_misuse(L, "the quantities that read it", "`%s` is worked out as a whole and is no single value",
                         about->name);
  script_in_arena(L, run->arena, do_read, &at);
  if (at.missing) return script_raise_missing(L, store_slot(evaluation_design(run->ev), entity, row));
  if (row_is_number(about)) return push_number(L, &at);
  if (reads_choice(about->sort)) return push_word(L, &at);
  if (about->sort == SORT_TEXT) return lua_pushstring(L, at.text), 1;
  if (about->sort != SORT_REFERENCE) return push_list(L, &at);
  entity_push(L, run->book, at.found);
  return 1;
}

struct naming {
  struct arena *arena;
  enum kind kind;
  const char *written, *nearest;
};

static void find_nearest(void *with) {
  struct naming *naming = with;
  naming->nearest = catalogue_nearest_row(naming->arena, kind_bit(naming->kind), naming->written, true);
}

static int unknown_name(lua_State *L, struct run *run, enum kind kind, const char *name) {
  struct naming naming = {run->arena, kind, name, NULL};
  char right[80] = "";
  script_in_arena(L, run->arena, find_nearest, &naming);
  if (naming.nearest) snprintf(right, sizeof right, "`%s`, if that is meant", naming.nearest);
  return script_misuse(L, naming.nearest ? right : NULL, "a %s has no `%.60s`", catalogue_kind(kind)->name, name);
}

struct lacking {
  struct run *run;
  enum kind kind;
};

static void say_lacking(void *with) {
  const struct lacking *lacking = with;
  lacking->run->because = text_phrase(lacking->run->arena, "the design has no %s", catalogue_kind(lacking->kind)->name);
}

// entity.site and entity.project, from any entity.
static int push_single(lua_State *L, struct run *run, enum kind kind) {
  const struct store *store = evaluation_design(run->ev);
  struct lacking lacking = {run, kind};
  if (store_count(store, kind) > 0) {
    entity_push(L, run->book, store_of_kind(store, kind, 0));
    return 1;
  }
  script_in_arena(L, run->arena, say_lacking, &lacking);
  return script_raise_missing(L, -1);
}

// Among the rows of its kind alone: rules read by name all the time.
static enum row_id row_named(const struct store *design, enum kind kind, const char *name, size_t length) {
  const unsigned short *rows = &design->row_list[design->kind_rows[kind]];
  for (int i = 0; i < design->kind_slots[kind]; i++) {
    const char *known = catalogue_row((enum row_id)rows[i])->name;
    if (known[0] == name[0] && strcmp(known, name) == 0 && strlen(known) == length) return (enum row_id)rows[i];
  }
  return ROW_COUNT;
}

static int read_name(lua_State *L) {
  struct run *run = run_of(L);
  int entity = entity_at(L, 1);
  size_t length;
  if (lua_type(L, 2) != LUA_TSTRING) return script_misuse(L, "a name, as in spill.flow", "an entity is read by a name");
  const char *name = lua_tolstring(L, 2, &length);
  const struct entity *about = &evaluation_design(run->ev)->entities[entity];
  enum row_id row = row_named(evaluation_design(run->ev), about->kind, name, length);
  if (row != ROW_COUNT) return push_row(L, run, entity, row);
  enum kind single = catalogue_kind_named(name, length);
  if (single != KIND_COUNT && catalogue_kind(single)->single) return push_single(L, run, single);
  if (strcmp(name, "kind") == 0) return lua_pushstring(L, catalogue_kind(about->kind)->name), 1;
  if (strcmp(name, "name") == 0) return lua_pushstring(L, about->name ? about->name : ""), 1;
  return unknown_name(L, run, about->kind, name);
}

static int refuse_write(lua_State *L) {
  return script_misuse(L, "a `local` of your own", "a rule reads the design and changes nothing in it");
}

static int refuse_walk(lua_State *L) {
  return script_misuse(L, "one of its lists, as in ipairs(basin.spills_out)", "an entity cannot be walked");
}

static int same_entity(lua_State *L) {
  lua_pushboolean(L, entity_at(L, 1) == entity_at(L, 2));
  return 1;
}

struct describing {
  const struct store *store;
  struct text text;
  int entity;
};

static void describe(void *with) {
  struct describing *describing = with;
  store_describe_entity(&describing->text, describing->store, describing->entity);
  text_end(&describing->text);
}

static int entity_words(lua_State *L) {
  struct run *run = run_of(L);
  struct describing describing = {evaluation_design(run->ev), text_in(run->arena), entity_at(L, 1)};
  script_in_arena(L, run->arena, describe, &describing);
  lua_pushstring(L, describing.text.at);
  return 1;
}

static const luaL_Reg answers[] = {{"__index", read_name}, {"__newindex", refuse_write}, {"__pairs", refuse_walk},
                                   {"__len", refuse_walk}, {"__eq", same_entity},        {"__tostring", entity_words}};

void entity_open(lua_State *L, struct rulebook *book) {
  lua_newtable(L);
  for (size_t i = 0; i < sizeof answers / sizeof *answers; i++) {
    lua_pushlightuserdata(L, book);
    lua_pushcclosure(L, answers[i].func, 1);
    lua_setfield(L, -2, answers[i].name);
  }
  lua_pushliteral(L, "entity");
  lua_setfield(L, -2, "__name");
  book->entity_meta = luaL_ref(L, LUA_REGISTRYINDEX);
}
