// SPDX-License-Identifier: MIT
// Tables of Lua into what was written, each value with its place. Runs in the arena, so nothing here may raise a Lua
// error: raw access alone, and room on the stack asked for first.
#include <limits.h>
#include <lua.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/number.h"
#include "design/read_lua.h"
#include "script/quantity.h"
#include "units/write.h"

enum { DEEPEST = 8, DIGITS_READ = 15 };

struct conversion {
  struct lua_reader *reader;
  lua_State *L;
};

static void convert(struct conversion *c, struct written *value, int node, int depth);

// ---- values that are one ----

static void set_text(struct conversion *c, struct written *value, enum written_sort sort, const char *text,
                     size_t length) {
  value->sort = sort;
  value->text = arena_copy(c->reader->arena, text, length);
  value->length = length;
}

static void set_other(struct conversion *c, struct written *value, const char *what) {
  set_text(c, value, WRITTEN_OTHER, what, strlen(what));
}

static void convert_number(struct conversion *c, struct written *value, int node, int depth) {
  (void)node, (void)depth;
  struct text text = text_in(c->reader->arena);
  if (lua_isinteger(c->L, -1)) {
    text_printf(&text, "%lld", (long long)lua_tointeger(c->L, -1));
  } else {
    number_write_exact(&text, number_round(lua_tonumber(c->L, -1), DIGITS_READ));
  }
  set_text(c, value, WRITTEN_NUMBER, text_end(&text), text.length);
}

static void convert_quantity(struct conversion *c, struct written *value, const struct script_quantity *quantity) {
  enum dimension dimension = dimension_of_powers(quantity->powers);
  struct text text = text_in(c->reader->arena);
  if (quantity->flags & SCRIPT_POISONED) {
    value->sort = WRITTEN_SPOILT;
    return;
  }
  if (dimension == DIMENSION_COUNT) {
    unit_write_powers(&text, quantity->value, quantity->powers);
  } else {
    unit_write_exact(&text, quantity->value, dimension, UNITS_SI);
  }
  if (!isnan(quantity->tolerance) && dimension != DIMENSION_COUNT) {
    text_add(&text, " +/- ");
    unit_write_exact(&text, quantity->tolerance, dimension, UNITS_SI);
  }
  set_text(c, value, WRITTEN_TEXT, text_end(&text), text.length);
}

// ---- tables ----

static void convert_table(struct conversion *c, struct written *value, int node, int depth);

static void convert_userdata(struct conversion *c, struct written *value, int node, int depth) {
  const struct script_quantity *quantity = script_to_quantity(c->L, -1);
  const struct lua_shape *shape = script_tagged(c->L, -1, LUA_TAG_SHAPE);
  if (quantity) {
    convert_quantity(c, value, quantity);
  } else if (shape) {
    value->shape = shape->word;
    lua_getiuservalue(c->L, -1, 1);
    convert_table(c, value, node, depth);
    if (value->sort == WRITTEN_TABLE) value->sort = WRITTEN_SHAPE;
    lua_pop(c->L, 1);
  } else if (script_is_stand_in(c->L, -1)) {
    value->sort = WRITTEN_SPOILT;
  } else {
    set_other(c, value, "nothing a design holds");
  }
}

struct sortable {
  struct written *value;
};

// By position first, then as they stand in the file, then by name: no table's own order comes through.
static int compare_written(const void *a, const void *b) {
  const struct written *first = ((const struct sortable *)a)->value, *second = ((const struct sortable *)b)->value;
  if (!first->key != !second->key) return first->key ? 1 : -1;
  if (!first->key) return first->index < second->index ? -1 : first->index > second->index;
  bool known = first->at.to > 0, known_too = second->at.to > 0;
  if (known != known_too) return known ? -1 : 1;
  if (known && first->at.from != second->at.from) return first->at.from < second->at.from ? -1 : 1;
  return strcmp(first->key, second->key);
}

static void put_in_order(struct conversion *c, struct written *table, size_t count) {
  struct sortable *list = arena_array(c->reader->arena, count + 1, sizeof *list);
  size_t taken = 0;
  for (struct written *child = table->first; child; child = child->next) list[taken++].value = child;
  qsort(list, count, sizeof *list, compare_written);
  table->first = list[0].value;
  for (size_t i = 0; i < count; i++) list[i].value->next = list[i + 1].value;
}

// The key at -2. False: it is neither a name nor a position.
static bool take_key(struct conversion *c, struct written *child) {
  if (lua_type(c->L, -2) == LUA_TSTRING) {
    const char *key = lua_tolstring(c->L, -2, &child->key_length);
    child->key = arena_copy(c->reader->arena, key, child->key_length);
    return true;
  }
  lua_Integer index = lua_isinteger(c->L, -2) ? lua_tointeger(c->L, -2) : 0;
  child->index = index > 0 && index < INT_MAX ? (int)index : 0;
  return child->index > 0;
}

static void convert_field(struct conversion *c, struct written *table, int node, int depth) {
  struct written *child = arena_alloc(c->reader->arena, sizeof *child);
  child->at = (struct value_place){.line = table->at.line};
  child->next = table->first;
  table->first = child;
  if (!take_key(c, child)) {
    child->key = "[?]";  // told as a name that nobody knows
    child->key_length = strlen(child->key);
    set_other(c, child, "a value under a key that is no name");
    return;
  }
  const struct places *places = c->reader->places;
  int under =
      child->key ? places_field(places, node, child->key, child->key_length) : places_item(places, node, child->index);
  places_at(places, under, &child->at);
  convert(c, child, under, depth + 1);
}

static void convert_table(struct conversion *c, struct written *value, int node, int depth) {
  size_t count = 0;
  if (depth >= DEEPEST || !lua_checkstack(c->L, 8)) {
    set_other(c, value, "a table within too many tables");
    return;
  }
  value->sort = WRITTEN_TABLE;
  lua_pushnil(c->L);
  while (lua_next(c->L, -2)) {
    if (c->reader->values++ < MOST_VALUES) {
      convert_field(c, value, node, depth);
      count++;
    }
    lua_pop(c->L, 1);
  }
  put_in_order(c, value, count);
}

static void convert_text(struct conversion *c, struct written *value, int node, int depth) {
  (void)node, (void)depth;
  size_t length;
  const char *text = lua_tolstring(c->L, -1, &length);
  set_text(c, value, WRITTEN_TEXT, text, length);
}

static void convert_boolean(struct conversion *c, struct written *value, int node, int depth) {
  (void)node, (void)depth;
  set_other(c, value, lua_toboolean(c->L, -1) ? "true without quotes" : "false without quotes");
}

static void convert_function(struct conversion *c, struct written *value, int node, int depth) {
  (void)node, (void)depth;
  set_other(c, value, "a function or a design's word");
}

// The value on top, which stays there.
static void convert(struct conversion *c, struct written *value, int node, int depth) {
  static void (*const by_type[LUA_NUMTYPES])(struct conversion *, struct written *, int, int) = {
      [LUA_TSTRING] = convert_text,       [LUA_TNUMBER] = convert_number,   [LUA_TTABLE] = convert_table,
      [LUA_TUSERDATA] = convert_userdata, [LUA_TBOOLEAN] = convert_boolean, [LUA_TFUNCTION] = convert_function,
  };
  int type = lua_type(c->L, -1);
  if (type >= 0 && type < LUA_NUMTYPES && by_type[type]) {
    by_type[type](c, value, node, depth);
  } else {
    set_other(c, value, "nothing a design holds");
  }
}

static void convert_record(struct conversion *c, size_t index) {
  struct lua_reader *reader = c->reader;
  const struct record *record = &reader->records[index];
  struct written *value = &reader->written[index];
  int node = places_entity(reader->places, record->kind, record->name, record->length, record->line);
  *value = (struct written){.key = record->name, .key_length = record->length, .at = {.line = record->line}};
  if (record->spoilt || !record->has_table) {
    value->sort = WRITTEN_SPOILT;
    return;
  }
  lua_push_recorded(c->L, reader, index);
  convert(c, value, node, 0);
  lua_pop(c->L, 1);
}

static void convert_all(void *with) {
  struct conversion *c = with;
  struct lua_reader *reader = c->reader;
  reader->written = arena_array(reader->arena, reader->count + 1, sizeof *reader->written);
  for (size_t i = 0; i < reader->count; i++) convert_record(c, i);
}

int lua_design_tables(lua_State *L) {
  struct lua_reader *reader = lua_touserdata(L, 1);
  struct conversion conversion = {reader, L};
  script_in_arena(L, reader->arena, convert_all, &conversion);
  return 0;
}
