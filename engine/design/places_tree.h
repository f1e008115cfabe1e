// SPDX-License-Identifier: MIT
// Inside of places: one node for each value, found by what leads to it. Built by the two scanners, walked by the
// readers step by step, so that a value costs one look-up whatever its depth.
#ifndef FOREBAY_DESIGN_PLACES_TREE_H
#define FOREBAY_DESIGN_PLACES_TREE_H

#include "catalogue/ids.h"
#include "design/places.h"

enum { PLACES_NONE = -1, PLACES_TOP = -1000 };  // PLACES_TOP: parent of what stands for kinds themselves (JSON)

struct place_node {
  int parent;        // a node; PLACES_TOP; or what places_parent_of says: an entity
  const char *name;  // decoded; NULL: by position
  size_t length;
  int index;    // by position, from 1; an entity without a name: 0 for singles, 1 where the name is worked out
  int twin;     // the one before with the same parent, name and index, or PLACES_NONE
  int line_to;  // entities: the last line on which the constructor may be called
  bool hidden;  // in a loop or function: its place says little
  struct value_place at;
};

struct places {
  struct arena *arena;
  struct place_node *nodes;
  size_t count, room;
  int *table;  // open addressing: node + 1, or 0
  size_t table_size;
};

struct places *places_in(struct arena *arena);
int places_add(struct places *places, struct place_node node);  // fills in `twin`; returns the node
int places_parent_of(enum kind kind);

// What is constructed: a kind; or, counted on from KIND_COUNT, one of the words of a rule file. -1: neither.
enum { PLACES_RULE_WORDS = 4 };
int places_constructed(const char *word, size_t length);
const char *places_word(int constructed);
bool places_is_named(int constructed);  // of a rule file's words: stands before a name

int places_entity(const struct places *places, enum kind kind, const char *name, size_t length, int line);
int places_field(const struct places *places, int node, const char *name, size_t length);
int places_item(const struct places *places, int node, int index);
bool places_at(const struct places *places, int node, struct value_place *place);  // false: NONE, or hidden

// The words that stand before a shape's list and lead to no step of their own: WORD_COUNT for any other word.
enum word places_shape(const char *word, size_t length);

// The scan of a JSON text, and the first thing in it that is no JSON (said NULL: all of it is).
struct json_fault {
  int line;
  const char *said, *read, *right;
};
struct places *places_scan_json(struct arena *arena, const char *file, const char *bytes, size_t length,
                                struct problems *problems, struct json_fault *fault);

#endif
