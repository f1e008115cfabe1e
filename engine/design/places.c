// SPDX-License-Identifier: MIT
#include <limits.h>
#include <string.h>

#include "catalogue/catalogue.h"
#include "design/places_tree.h"

enum { FIRST_TABLE = 256 };

struct places *places_in(struct arena *arena) {
  struct places *places = arena_alloc(arena, sizeof *places);
  *places = (struct places){
      .arena = arena, .table = arena_array(arena, FIRST_TABLE, sizeof *places->table), .table_size = FIRST_TABLE};
  return places;
}

int places_parent_of(enum kind kind) { return PLACES_TOP - 1 - (int)kind; }

static const char *const rule_words[PLACES_RULE_WORDS] = {"rule", "adjust", "retire", "stock"};

int places_constructed(const char *word, size_t length) {
  enum kind kind = catalogue_kind_named(word, length);
  if (kind != KIND_COUNT) return (int)kind;
  for (int i = 0; i < PLACES_RULE_WORDS; i++) {
    if (strncmp(rule_words[i], word, length) == 0 && rule_words[i][length] == '\0') return KIND_COUNT + i;
  }
  return -1;
}

const char *places_word(int constructed) {
  return constructed < KIND_COUNT ? catalogue_kind((enum kind)constructed)->name : rule_words[constructed - KIND_COUNT];
}

bool places_is_named(int constructed) { return strcmp(places_word(constructed), "stock") != 0; }

enum word places_shape(const char *word, size_t length) { return catalogue_word_named(WORDS_shape, word, length); }

// What leads to the node: two numbers spread out, then FNV-1a over the name.
static uint32_t hash_bytes(uint32_t hash, const void *bytes, size_t length) {
  for (const unsigned char *at = bytes; length > 0; at++, length--) hash = (hash ^ *at) * 16777619u;
  return hash;
}

static uint32_t hash_of(const struct place_node *node) {
  uint32_t hash = (uint32_t)node->parent * 0x9E3779B1u ^ (uint32_t)node->index * 0x85EBCA6Bu;
  hash = hash_bytes(hash, node->name, node->name ? node->length : 0);
  return hash ^ hash >> 16;
}

static bool same_way(const struct place_node *a, const struct place_node *b) {
  if (a->parent != b->parent || a->index != b->index || !a->name != !b->name) return false;
  return !a->name || (a->length == b->length && memcmp(a->name, b->name, a->length) == 0);
}

// Where the node's like stands in the table, or the empty place where it would.
static int *table_place(const struct places *places, const struct place_node *node) {
  size_t at = hash_of(node) & (places->table_size - 1);
  while (places->table[at] && !same_way(&places->nodes[places->table[at] - 1], node)) {
    at = (at + 1) & (places->table_size - 1);
  }
  return &places->table[at];
}

static void make_room(struct places *places) {
  if (places->count * 2 < places->table_size) return;
  places->table_size *= 2;
  places->table = arena_array(places->arena, places->table_size, sizeof *places->table);
  for (size_t i = 0; i < places->count; i++) *table_place(places, &places->nodes[i]) = (int)i + 1;
}

int places_add(struct places *places, struct place_node node) {
  make_room(places);
  int *place = table_place(places, &node);
  node.twin = *place - 1;
  places->nodes = arena_grow(places->arena, places->nodes, places->count, &places->room, sizeof node);
  places->nodes[places->count++] = node;
  *place = (int)places->count;
  return *place - 1;
}

static int find(const struct places *places, struct place_node wanted) { return *table_place(places, &wanted) - 1; }

static int at_line(const struct places *places, int node, int line) {
  while (node != PLACES_NONE) {
    const struct place_node *it = &places->nodes[node];
    if (line == 0 || (it->at.line <= line && line <= it->line_to)) return node;
    node = it->twin;
  }
  return PLACES_NONE;
}

int places_entity(const struct places *places, enum kind kind, const char *name, size_t length, int line) {
  struct place_node wanted = {.parent = places_parent_of(kind), .name = name, .length = length};
  int node = at_line(places, find(places, wanted), line);
  if (node != PLACES_NONE || !name || line == 0) return node;
  return at_line(places, find(places, (struct place_node){.parent = wanted.parent, .index = 1}), line);
}

int places_field(const struct places *places, int node, const char *name, size_t length) {
  if (node == PLACES_NONE) return PLACES_NONE;
  return find(places, (struct place_node){.parent = node, .name = name, .length = length});
}

int places_item(const struct places *places, int node, int index) {
  if (node == PLACES_NONE) return PLACES_NONE;
  return find(places, (struct place_node){.parent = node, .index = index});
}

bool places_at(const struct places *places, int node, struct value_place *place) {
  if (node == PLACES_NONE || places->nodes[node].hidden) return false;
  *place = places->nodes[node].at;
  return true;
}

// "[12]" at *path: past it.
static int step_item(const struct places *places, int node, const char **path) {
  int index = 0;
  for ((*path)++; **path >= '0' && **path <= '9'; (*path)++) {
    if (index > INT_MAX / 10 - 1) return PLACES_NONE;
    index = index * 10 + (**path - '0');
  }
  if (**path != ']') return PLACES_NONE;
  (*path)++;
  return places_item(places, node, index);
}

static int step(const struct places *places, int node, const char **path) {
  if (**path == '[') return step_item(places, node, path);
  if (**path == '.') (*path)++;
  size_t length = strcspn(*path, ".[");
  const char *name = *path;
  *path += length;
  return length ? places_field(places, node, name, length) : PLACES_NONE;
}

bool places_find(const struct places *places, const char *kind, const char *name, int line, const char *path,
                 struct value_place *place) {
  int which = places_constructed(kind, strlen(kind));
  if (which < 0) return false;
  int node = places_entity(places, (enum kind)which, name, name ? strlen(name) : 0, line);
  while (node != PLACES_NONE && *path) node = step(places, node, &path);
  return places_at(places, node, place);
}
