// SPDX-License-Identifier: MIT
// What forebay knows about: kinds, what may be given, what is worked out, words, sources. Rows, no behaviour.
// The rows stand in the .def files beside this one; everything that needs them includes those or asks here.
#ifndef FOREBAY_CATALOGUE_CATALOGUE_H
#define FOREBAY_CATALOGUE_CATALOGUE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/text.h"
#include "catalogue/ids.h"
#include "units/dimension.h"

enum row_sort {
  SORT_NUMBER,      // G, GD (derived is set)
  SORT_CHOICE,      // C: the value is an enum word
  SORT_TEXT,        // T
  SORT_REFERENCE,   // R, RN: the value is an entity
  SORT_REFERENCES,  // RL: `link` parts
  SORT_PARTS,       // P
  SORT_SHAPE,       // S: the value is WORD_shape_..., its points are `point` parts
  SORT_BACK,        // B: entities whose given `via` names this one
  SORT_QUANTITY,    // Q
  SORT_BUNDLE,      // U
};

enum mark { MARK_NONE, MARK_SEEN, MARK_SECOND, MARK_COMPUTED, MARK_MEMORY, MARK_PRACTICE };

struct kind_row {
  const char *name, *says;
  bool single, unnamed, part;  // at most one, without a name; any number, without names; in a list of another
};

struct row {
  enum kind kind;
  const char *name;
  enum row_sort sort;
  enum dimension dimension;  // numbers and quantities
  enum word_set words;       // choices
  uint64_t targets;          // references: KIND_BIT of each kind allowed
  enum kind part;            // parts, shapes, back references: the kind of the members
  enum row_id via;           // back references
  bool required, derived, whole, place;
  int few, many;                                            // lists; 0: no bound
  const char *standard, *least, *most, *above, *unbounded;  // as text with units; NULL: none
  const char *us, *si;                                      // units to show it in; NULL: the dimension's own
  bool decimal;  // inches with decimals and not in fractions, as pipe bores are written
  const char *says, *formula, *check, *also;
  enum source source;
};

struct word_row {
  enum word_set set;
  const char *word, *says;
};

struct source_row {
  const char *title;
  enum mark mark;
};

const struct kind_row *catalogue_kind(enum kind kind);
const struct row *catalogue_row(enum row_id row);
const struct word_row *catalogue_word(enum word word);
const struct source_row *catalogue_source(enum source source);
const char *catalogue_mark(enum mark mark);

// By name; KIND_COUNT, ROW_COUNT, WORD_COUNT when there is none.
enum kind catalogue_kind_named(const char *name, size_t length);
enum row_id catalogue_row_named(enum kind kind, const char *name, size_t length);
enum word catalogue_word_named(enum word_set set, const char *word, size_t length);

// "spill or basin", with " or " between; and the nearest name of a given (or also of a quantity) of these kinds, NULL.
void catalogue_write_kinds(struct text *text, uint64_t of, const char *between);
const char *catalogue_nearest_row(struct arena *arena, uint64_t of, const char *written, bool quantities);

static inline bool kind_is_named(const struct kind_row *kind) { return !kind->single && !kind->unnamed && !kind->part; }

static inline bool row_is_given(const struct row *row) { return row->sort < SORT_BACK; }
static inline bool row_is_number(const struct row *row) {
  return row->sort == SORT_NUMBER || row->sort == SORT_QUANTITY;
}

static inline bool row_is_list(const struct row *row) {
  return row->sort == SORT_PARTS || row->sort == SORT_BACK || row->sort == SORT_REFERENCES || row->sort == SORT_SHAPE;
}

#endif
