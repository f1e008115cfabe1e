// SPDX-License-Identifier: MIT
// A rule's example as a small design: tables become entities without a name, any given or quantity may be stated.
#include "rulebook/example.h"

#include <lauxlib.h>
#include <lua.h>
#include <string.h>

static void refuse(struct example *example, const struct value *value, const char *said, const char *right) {
  problem_add(&example->problems,
              (struct problem){.at = {example->store->file, value->line}, .said = said, .right = right});
}

// ---- out of Lua ----------------------------------------------------------------------------------------------------

struct taking_out {
  struct arena *arena;
  int function;
  struct value *taken;
};

static int take_out(lua_State *L) {
  struct taking_out *taking = lua_touserdata(L, 1);
  lua_rawgeti(L, LUA_REGISTRYINDEX, taking->function);
  taking->taken = value_take(L, taking->arena, NULL);
  luaL_unref(L, LUA_REGISTRYINDEX, taking->function);
  return 0;
}

const char *examples_take(struct rulebook *book, struct rule *rule) {
  const struct value *later = rule->examples_later;
  if (!later) return NULL;
  struct taking_out taking = {.arena = book->arena, .function = later->function};
  struct script_failure failure;
  rule->examples_later = NULL;
  if (!script_protect(book->script, take_out, &taking, 0, 0, &failure)) {
    if (script_starved(book->script)) arena_give_up(book->arena);
    return text_phrase(book->arena, "its examples cannot be used: %s", failure.said);
  }
  taking.taken->key = later->key;
  taking.taken->line = later->line;
  value_place_member(taking.taken, rule->file->places, "rule", rule->facts.id, rule->facts.at.line, later->key);
  rule->examples = taking.taken;
  return NULL;
}

// ---- into a store --------------------------------------------------------------------------------------------------

static bool fill(struct example *example, int entity, const struct value *fields);

static enum kind kind_of(const struct example *example, int entity) { return example->store->entities[entity].kind; }

static bool has_all(enum kind kind, const struct value *fields) {
  for (const struct value *field = fields->first; field; field = field->next) {
    if (!field->key || catalogue_row_named(kind, field->key, strlen(field->key)) == ROW_COUNT) return false;
  }
  return true;
}

// The first kind allowed that has all that is stated; else the first allowed.
enum kind example_kind_for(uint64_t targets, const struct value *fields) {
  enum kind first = KIND_COUNT;
  for (int kind = 0; kind < KIND_COUNT; kind++) {
    if (!kinds_hold(targets, (enum kind)kind)) continue;
    if (has_all((enum kind)kind, fields)) return (enum kind)kind;
    if (first == KIND_COUNT) first = (enum kind)kind;
  }
  return first;
}

// What a text refers to: the thing that the example states under that kind.
static int stated_as(const struct example *example, const char *kind) {
  for (size_t i = 0; i < example->store->entity_count; i++) {
    const struct entity *entity = &example->store->entities[i];
    if (entity->owner < 0 && strcmp(catalogue_kind(entity->kind)->name, kind) == 0) return (int)i;
  }
  return -1;
}

static bool refer(struct example *example, int entity, enum row_id row, uint64_t targets, const struct value *value) {
  int target = -1;
  if (value->sort == VALUE_TEXT) {
    target = stated_as(example, value->text);
  } else if (value->sort == VALUE_TABLE) {
    target = store_add(example->store, example_kind_for(targets, value), NULL, value->line);
  }
  if (target < 0) {
    refuse(example, value,
           text_phrase(example->arena, "`%s` refers to nothing here", value->key ? value->key : "a member of the list"),
           "a table in { } with what it states");
    return false;
  }
  store_refer(example->store, entity, row, target);
  return value->sort == VALUE_TEXT || fill(example, target, value);
}

static bool all_tables(struct example *example, const struct value *list) {
  bool good = list->sort == VALUE_TABLE;
  for (const struct value *member = list->first; good && member; member = member->next)
    good = !member->key && member->sort == VALUE_TABLE;
  if (!good) refuse(example, list, text_phrase(example->arena, "`%s` is a list", list->key), "{ { ... }, { ... } }");
  return good;
}

static int add_parts(struct example *example, int entity, enum row_id row, const struct value *list) {
  int first = -1;
  for (const struct value *member = list->first; member; member = member->next) {
    int part = store_add_part(example->store, entity, row, member->line);
    if (first < 0) first = part;
  }
  return first;
}

// All parts first: nothing may stand between them.
static bool fill_parts(struct example *example, int entity, enum row_id row, const struct value *list) {
  if (!all_tables(example, list)) return false;
  int part = add_parts(example, entity, row, list);
  bool good = true;
  for (const struct value *member = list->first; member; member = member->next)
    good = fill(example, part++, member) && good;
  return good;
}

static bool fill_references(struct example *example, int entity, enum row_id row, const struct value *list) {
  if (list->sort != VALUE_TABLE) return all_tables(example, list);
  int part = add_parts(example, entity, row, list);
  bool good = true;
  for (const struct value *member = list->first; member; member = member->next)
    good = refer(example, part++, ROW_link_to, catalogue_row(row)->targets, member) && good;
  return good;
}

static bool fill_back(struct example *example, int referred, enum row_id row, const struct value *list) {
  if (!all_tables(example, list)) return false;
  bool good = true;
  for (const struct value *member = list->first; member; member = member->next) {
    int referring = store_add(example->store, catalogue_row(row)->part, NULL, member->line);
    store_refer(example->store, referring, catalogue_row(row)->via, referred);
    good = fill(example, referring, member) && good;
  }
  return good;
}

static bool is_plain(const struct value *value) { return value->sort == VALUE_TEXT || value->sort == VALUE_NUMBER; }

static bool write_plain(struct example *example, int entity, enum row_id row, const struct value *value) {
  if (!is_plain(value)) {
    refuse(example, value, text_phrase(example->arena, "`%s` is one value", value->key), "a text in quotes");
    return false;
  }
  struct store_text written = {value_shown(example->arena, value), value->sort == VALUE_NUMBER, {.line = value->line}};
  if (catalogue_row(row)->sort == SORT_QUANTITY)
    return store_measure(example->store, &example->problems, entity, value->key, written, NULL);
  return store_write(example->store, &example->problems, entity, row, written);
}

static bool cannot_state(struct example *example, int entity, enum row_id row, const struct value *value) {
  (void)entity, (void)row;
  refuse(example, value, text_phrase(example->arena, "`%s` cannot be stated in an example", value->key),
         "the quantities that are worked out from it");
  return false;
}

static bool refer_to(struct example *example, int entity, enum row_id row, const struct value *value) {
  return refer(example, entity, row, catalogue_row(row)->targets, value);
}

static bool fill_field(struct example *example, int entity, const struct value *field) {
  static bool (*const by_sort[])(struct example *, int, enum row_id, const struct value *) = {
      [SORT_NUMBER] = write_plain, [SORT_CHOICE] = write_plain, [SORT_TEXT] = write_plain,
      [SORT_REFERENCE] = refer_to, [SORT_PARTS] = fill_parts,   [SORT_REFERENCES] = fill_references,
      [SORT_SHAPE] = cannot_state, [SORT_BACK] = fill_back,     [SORT_QUANTITY] = write_plain,
      [SORT_BUNDLE] = cannot_state};
  enum kind kind = kind_of(example, entity);
  enum row_id row = field->key ? catalogue_row_named(kind, field->key, strlen(field->key)) : ROW_COUNT;
  if (row != ROW_COUNT) return by_sort[catalogue_row(row)->sort](example, entity, row, field);
  const char *nearest = field->key ? catalogue_nearest_row(example->arena, kind_bit(kind), field->key, true) : NULL;
  refuse(example, field,
         text_phrase(example->arena, "a %s has no `%s`", catalogue_kind(kind)->name,
                     field->key ? field->key : value_shown(example->arena, field)),
         nearest ? text_phrase(example->arena, "`%s`, if that is meant", nearest) : NULL);
  return false;
}

static bool fill(struct example *example, int entity, const struct value *fields) {
  bool good = true;
  for (const struct value *field = fields->first; field; field = field->next)
    good = fill_field(example, entity, field) && good;
  return good;
}

static bool add_top(struct example *example, const struct rule *rule, const struct value *member) {
  enum kind kind = catalogue_kind_named(member->key, strlen(member->key));
  if (kind == KIND_COUNT || member->sort != VALUE_TABLE) {
    refuse(example, member, text_phrase(example->arena, "`%s` is no thing with its values", member->key),
           "a kind with a table, as in spill = { ... }");
    return false;
  }
  int entity = store_add(example->store, kind, NULL, member->line);
  if (!kinds_hold(rule->kinds, kind)) return true;
  if (example->entity >= 0) {
    refuse(example, member, "more than one thing is stated that the rule could judge", "one of them");
    return false;
  }
  example->entity = entity;
  return true;
}

static bool is_about_itself(const struct value *member) { return !member->key || strcmp(member->key, "outcome") == 0; }

// All of the things first, so that one can name another by its kind.
bool example_build(struct example *example, const struct rule *rule, const struct value *table, const char *file) {
  example->store = store_in(example->arena, file);
  example->problems = problems_in(example->arena);
  example->entity = -1;
  bool good = true;
  int entity = 0;
  for (const struct value *member = table->first; member; member = member->next) {
    if (!is_about_itself(member)) good = add_top(example, rule, member) && good;
  }
  for (const struct value *member = table->first; good && member; member = member->next) {
    if (!is_about_itself(member)) good = fill(example, entity++, member) && good;
  }
  if (good && example->entity < 0)
    refuse(example, table, "states nothing that the rule judges", "a thing of the rule's kind, as in spill = { ... }");
  return good && example->entity >= 0 && store_settle_example(example->store, &example->problems);
}
