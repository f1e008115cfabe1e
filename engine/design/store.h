// SPDX-License-Identifier: MIT
// A design as flat arrays: entities, and one slot for each given and quantity of each. Readers fill it, then
// store_settle checks and links it; from then on it is only read.
#ifndef FOREBAY_DESIGN_STORE_H
#define FOREBAY_DESIGN_STORE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/file.h"
#include "base/problem.h"
#include "catalogue/catalogue.h"
#include "design/places.h"
#include "physics/polygon_surface.h"

enum condition {
  CONDITION_UNSET,  // a given that nobody wrote and that has no default
  CONDITION_GIVEN,
  CONDITION_DEFAULT,
  CONDITION_COMPUTED,
  CONDITION_MEASURED,    // taken on site; stands in for what would be worked out
  CONDITION_MISSING,     // could not be worked out: something it needs is unset
  CONDITION_IMPOSSIBLE,  // could not be worked out: what was given contradicts itself
  CONDITION_OUTSIDE,     // worked out, beyond the formula's tested range
};

struct entity {
  enum kind kind;
  const char *name;  // NULL: a part, or the only one of its kind
  struct place at;
  int owner;         // parts: the entity whose list it is in; else -1
  enum row_id list;  // parts: which list
  int index;         // parts: position in it, from 1
  int first_slot;
};

struct overlay;
struct overlaid;

struct slot {
  double value;       // SI; an enum word; an entity (references, after settling); count of parts
  double tolerance;   // SI, NaN: none stated
  const char *text;   // texts; references as written; what was written for numbers
  int line;           // of the value itself; 0: not written
  uint32_t from, to;  // bytes of the value in the file; both 0: not known
  int first;          // lists and shapes: first part; back references: place in the store's list of entities
  enum condition condition;
  const struct overlay *said;  // from outside of the file, see overlay.h; NULL: by the file, a row, or nobody
};

struct measurement {
  int slot;
  double value, tolerance;
  const char *how;
  int line;
};

struct store {
  struct arena *arena;
  const char *file;
  struct entity *entities;
  size_t entity_count, entity_room;
  struct slot *slots;
  size_t slot_count, slot_room;
  struct measurement *measurements;
  size_t measurement_count, measurement_room;
  struct overlaid *overlaid;  // see overlay.h
  size_t overlaid_count, overlaid_room;
  const struct polygon_surface_point *survey;  // points of site.survey, m; NULL: none
  size_t survey_count;
  bool example;                          // of a rule, and not a design
  const struct file_bytes *survey_file;  // that they were read from
  int *back;                             // members of all back references
  size_t back_count, back_room;
  int kind_first[KIND_COUNT + 1];    // after settling: bounds in by_kind
  int *by_kind;                      // entities ordered by kind, then as written
  unsigned short row_at[ROW_COUNT];  // position of a row among the slots of its kind
  unsigned short kind_slots[KIND_COUNT];
  unsigned short kind_rows[KIND_COUNT];  // where a kind's rows begin in row_list
  unsigned short row_list[ROW_COUNT];    // rows by kind, each at its position
};

struct store *store_in(struct arena *arena, const char *file);

// Adding, in the order written. Parts of one list are added one after another with nothing between them.
int store_add(struct store *store, enum kind kind, const char *name, int line);
int store_add_part(struct store *store, int owner, enum row_id list, int line);

int store_slot(const struct store *store, int entity, enum row_id row);  // index into slots
struct slot *store_at(const struct store *store, int entity, enum row_id row);
enum row_id store_row_of_slot(const struct store *store, int slot, int *entity);  // the way back

struct store_text {
  const char *text;
  bool bare;  // a number without quotes in the file: an error that says which unit to add, but for shares and counts
  struct value_place at;
};
// Reads one written value into its slot by the row's sort: number text with unit, word, text, name of an entity.
// False: a problem was added at that line.
bool store_write(struct store *store, struct problems *problems, int entity, enum row_id row,
                 struct store_text written);
// A shape is written as its word ("polygon"), then its points as parts: one `point` part for each point of a polygon;
// for circle, ellipse and rectangle one `point` part that holds the full widths (x, y; a circle has x alone).
// References of a list are one `link` part each, whose `to` is written.
// A reference to an entity that has no name (in a rule's example):
void store_refer(struct store *store, int entity, enum row_id row, int target);
// measured = { <quantity> = "..." , with = "bucket" } on an entity.
bool store_measure(struct store *store, struct problems *problems, int entity, const char *quantity,
                   struct store_text written, const char *how);

// Defaults, required givens, bounds, references by name, back references, circles of place, doubled names, levels that
// contradict each other. Problems at the line of the given. True: nothing was wrong.
bool store_settle(struct store *store, struct problems *problems);
// The same for a rule's example: a small design that need not say what no rule under test reads.
bool store_settle_example(struct store *store, struct problems *problems);

int store_named(const struct store *store, const char *name, size_t length);  // -1: none
size_t store_count(const struct store *store, enum kind kind);                // after settling
int store_of_kind(const struct store *store, enum kind kind, size_t index);
size_t store_members(const struct store *store, int entity, enum row_id list);            // parts, references, back
int store_member(const struct store *store, int entity, enum row_id list, size_t index);  // an entity
const struct measurement *store_measured(const struct store *store, int slot);            // NULL: none

// `basin "lower"`, `basin "lower".shelves[2].width`.
void store_describe_entity(struct text *text, const struct store *store, int entity);
void store_describe(struct text *text, const struct store *store, int entity, enum row_id row);

#endif
