// SPDX-License-Identifier: MIT
// jansson's tree and the places of its values, walked in lock step into what was written.
#include <jansson.h>
#include <stdio.h>
#include <string.h>

#include "base/number.h"
#include "design/places_tree.h"
#include "design/read.h"
#include "design/written.h"

enum { DEEPEST = 8, DIGITS_READ = 15, BYTE_ORDER_MARK = 3 };

struct json_reader {
  struct arena *arena;
  struct problems *problems;
  const struct file_bytes *file;
  const struct places *places;
  struct filling filling;
  json_t *root;
  size_t values, entities;
};

static void release(void *what) {
  struct json_reader *reader = what;
  json_decref(reader->root);
  reader->root = NULL;
}

static void tell(struct json_reader *r, int line, const char *said, const char *read, const char *right) {
  problem_add(r->problems, (struct problem){.at = {r->file->name, line}, .said = said, .read = read, .right = right});
}

// ---- the text ----

static const char *plain_words(const json_error_t *error) {
  static const struct {
    enum json_error_code code;
    const char *said;
  } words[] = {
      {json_error_stack_overflow, "lists and objects stand in each other too deep"},
      {json_error_null_character, "a text holds a zero character"},
      {json_error_null_byte_in_key, "a name holds a zero character"},
      {json_error_numeric_overflow, "a number is too large to be read"},
      {json_error_premature_end_of_input, "the file ends before its lists and objects are closed"},
      {json_error_end_of_input_expected, "something stands behind the end of the design"},
  };
  for (size_t i = 0; i < sizeof words / sizeof *words; i++)
    if (json_error_code(error) == words[i].code) return words[i].said;
  return "this is no JSON";
}

static void tell_fault(struct json_reader *r, const struct json_fault *fault, const json_error_t *error) {
  problem_add(r->problems, (struct problem){.at = {r->file->name, fault->said ? fault->line : error->line},
                                            .said = fault->said ? fault->said : plain_words(error),
                                            .right = fault->right,
                                            .cause = error->text});
}

// The first fault of the text and nothing else where it is no JSON.
static bool load(struct json_reader *r) {
  const struct file_bytes *file = r->file;
  bool marked = file->length >= BYTE_ORDER_MARK && memcmp(file->bytes, "\xEF\xBB\xBF", BYTE_ORDER_MARK) == 0;
  size_t skip = marked ? BYTE_ORDER_MARK : 0;
  json_error_t error;
  struct json_fault fault = {0};
  r->root = json_loadb(file->bytes + skip, file->length - skip, JSON_DECODE_ANY, &error);
  if (!r->root && json_error_code(&error) == json_error_out_of_memory) arena_give_up(r->arena);
  struct problems unheard = problems_in(r->arena);
  r->places =
      places_scan_json(r->arena, file->name, file->bytes, file->length, r->root ? r->problems : &unheard, &fault);
  if (!r->root) tell_fault(r, &fault, &error);
  return r->root != NULL;
}

// ---- values ----

static void convert(struct json_reader *r, struct written *value, json_t *json, int node, int depth);

static void set_text(struct json_reader *r, struct written *value, enum written_sort sort, const char *text,
                     size_t length) {
  value->sort = sort;
  value->text = arena_copy(r->arena, text, length);
  value->length = length;
}

static void convert_number(struct json_reader *r, struct written *value, const json_t *json) {
  struct text text = text_in(r->arena);
  if (json_is_integer(json)) {
    text_printf(&text, "%lld", (long long)json_integer_value(json));
  } else {
    number_write_exact(&text, number_round(json_real_value(json), DIGITS_READ));
  }
  set_text(r, value, WRITTEN_NUMBER, text_end(&text), text.length);
}

// A child, added behind *last; NULL when the design holds too many.
static struct written *add_child(struct json_reader *r, struct written *table, struct written **last) {
  if (r->values++ >= MOST_VALUES) return NULL;
  struct written *child = arena_alloc(r->arena, sizeof *child);
  child->at.line = table->at.line;
  if (*last) {
    (*last)->next = child;
  } else {
    table->first = child;
  }
  *last = child;
  return child;
}

static void convert_array(struct json_reader *r, struct written *value, json_t *json, int node, int depth) {
  struct written *last = NULL;
  value->sort = WRITTEN_TABLE;
  for (size_t i = 0; i < json_array_size(json); i++) {
    struct written *child = add_child(r, value, &last);
    if (!child) return;
    child->index = (int)i + 1;
    int under = places_item(r->places, node, child->index);
    places_at(r->places, under, &child->at);
    convert(r, child, json_array_get(json, i), under, depth + 1);
  }
}

static void convert_members(struct json_reader *r, struct written *value, json_t *json, int node, int depth) {
  struct written *last = NULL;
  value->sort = WRITTEN_TABLE;
  for (void *at = json_object_iter(json); at; at = json_object_iter_next(json, at)) {
    struct written *child = add_child(r, value, &last);
    if (!child) return;
    child->key_length = json_object_iter_key_len(at);
    child->key = arena_copy(r->arena, json_object_iter_key(at), child->key_length);
    int under = places_field(r->places, node, child->key, child->key_length);
    places_at(r->places, under, &child->at);
    convert(r, child, json_object_iter_value(at), under, depth + 1);
  }
}

// {"polygon": [...]}; {"circle": "6 ft"} is taken as {"circle": ["6 ft"]}.
static bool convert_shape(struct json_reader *r, struct written *value, json_t *json, int node, int depth) {
  void *only = json_object_size(json) == 1 ? json_object_iter(json) : NULL;
  const char *key = only ? json_object_iter_key(only) : "";
  value->shape = places_shape(key, strlen(key));
  if (value->shape == WORD_COUNT) return false;
  json_t *list = json_object_iter_value(only);
  if (json_is_array(list)) {
    convert_array(r, value, list, node, depth);
  } else {
    struct written *last = NULL, *child = add_child(r, value, &last);
    if (child) child->index = 1;
    if (child) convert(r, child, list, node, depth + 1);
  }
  value->sort = WRITTEN_SHAPE;
  return true;
}

static void convert(struct json_reader *r, struct written *value, json_t *json, int node, int depth) {
  const char *other = NULL;
  if (json_is_string(json)) {
    set_text(r, value, WRITTEN_TEXT, json_string_value(json), json_string_length(json));
  } else if (json_is_number(json)) {
    convert_number(r, value, json);
  } else if (json_is_boolean(json)) {
    other = json_is_true(json) ? "true without quotes" : "false without quotes";
  } else if (json_is_null(json)) {
    other = "null";
  } else if (depth >= DEEPEST) {
    other = "a list within too many lists";
  } else if (json_is_array(json)) {
    convert_array(r, value, json, node, depth);
  } else if (!convert_shape(r, value, json, node, depth)) {
    convert_members(r, value, json, node, depth);
  }
  if (other) set_text(r, value, WRITTEN_OTHER, other, strlen(other));
}

// ---- entities ----

static void read_at(struct json_reader *r, enum kind kind, int node, const char *name, size_t length, json_t *json) {
  struct written entity = {.key = name ? arena_copy(r->arena, name, length) : NULL, .key_length = length};
  places_at(r->places, node, &entity.at);
  if (++r->entities > MOST_ENTITIES) return;
  if (json_is_object(json)) {
    convert_members(r, &entity, json, node, 0);
  } else {
    struct text said = text_in(r->arena);
    text_printf(&said, name ? "%s \"%s\" is not followed by an object" : "%s is not followed by an object",
                catalogue_kind(kind)->name, name);
    tell(r, entity.at.line, text_end(&said), NULL, "its givens in { }");
    entity.sort = WRITTEN_SPOILT;
  }
  fill_entity(&r->filling, kind, &entity);
}

static void read_entity(struct json_reader *r, enum kind kind, const char *name, size_t length, json_t *json) {
  read_at(r, kind, places_entity(r->places, kind, name, length, 0), name, length, json);
}

// "accept": [ { ... }, { ... } ]
static void read_unnamed(struct json_reader *r, enum kind kind, int node, int line, json_t *json) {
  if (json_is_array(json)) {
    for (size_t i = 0; i < json_array_size(json); i++)
      read_at(r, kind, places_item(r->places, node, (int)i + 1), NULL, 0, json_array_get(json, i));
    return;
  }
  struct text right = text_in(r->arena);
  text_printf(&right, "\"%s\": [ { ... }, { ... } ]", catalogue_kind(kind)->name);
  tell(r, line, "is no list", catalogue_kind(kind)->name, text_end(&right));
}

static void refuse_kind(struct json_reader *r, const char *name, int line) {
  struct text right = text_in(r->arena);
  const char *near = read_nearest_kind(r->arena, name);
  if (near) text_printf(&right, "`%s`, if that is meant", near);
  tell(r, line, "this name is not known here", name, near ? text_end(&right) : NULL);
}

static void read_kind(struct json_reader *r, const char *name, json_t *json) {
  struct value_place at = {.line = 0};
  enum kind kind = catalogue_kind_named(name, strlen(name));
  int node = places_field(r->places, PLACES_TOP, name, strlen(name));
  places_at(r->places, node, &at);
  if (kind == KIND_COUNT || catalogue_kind(kind)->part) {
    refuse_kind(r, name, at.line);
  } else if (catalogue_kind(kind)->single) {
    read_entity(r, kind, NULL, 0, json);
  } else if (catalogue_kind(kind)->unnamed) {
    read_unnamed(r, kind, node, at.line, json);
  } else if (!json_is_object(json)) {
    struct text right = text_in(r->arena);
    text_printf(&right, "\"%s\": { \"its name\": { ... } }", name);
    tell(r, at.line, "names no entities", name, text_end(&right));
  } else {
    for (void *it = json_object_iter(json); it; it = json_object_iter_next(json, it))
      read_entity(r, kind, json_object_iter_key(it), json_object_iter_key_len(it), json_object_iter_value(it));
  }
}

static void read_all(struct json_reader *r) {
  if (!json_is_object(r->root))
    tell(r, 1, "a design is an object of kinds", NULL, "{ \"project\": { ... }, \"basin\": { ... } }");
  for (void *at = json_object_iter(r->root); at; at = json_object_iter_next(r->root, at))
    read_kind(r, json_object_iter_key(at), json_object_iter_value(at));
  if (r->entities > MOST_ENTITIES) tell(r, 0, "holds more entities than are read", NULL, "at most 5,000");
  if (r->values > MOST_VALUES) tell(r, 0, "holds more values than are read", NULL, "at most 100,000");
}

void design_fix_hash_seed(void) { json_object_seed(1); }

struct store *design_read_json(struct arena *arena, const struct file_bytes *file, struct overlays overlays,
                               struct problems *problems) {
  size_t before = problems->count;
  if (!read_is_text(file, problems)) return NULL;
  struct json_reader *reader = arena_alloc(arena, sizeof *reader);
  *reader = (struct json_reader){
      .arena = arena, .problems = problems, .file = file, .filling = {store_in(arena, file->name), problems}};
  arena_at_free(arena, release, reader);
  if (!load(reader)) return NULL;
  read_all(reader);
  release(reader);
  if (problems->count > before && reader->filling.store->entity_count == 0) return NULL;
  return read_finish(&reader->filling, overlays, before);
}
