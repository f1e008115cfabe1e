// SPDX-License-Identifier: MIT
// A design as written, whatever it was written in: readers make this tree, fill_entity puts it into the store by the
// rows.
#ifndef FOREBAY_DESIGN_WRITTEN_H
#define FOREBAY_DESIGN_WRITTEN_H

#include "base/file.h"
#include "design/overlay.h"
#include "design/places.h"
#include "design/store.h"

enum written_sort {
  WRITTEN_TEXT,
  WRITTEN_NUMBER,  // without quotes and unit; `text` holds its digits
  WRITTEN_TABLE,   // named fields, positions, or both
  WRITTEN_SHAPE,   // a table with the word before it
  WRITTEN_OTHER,   // nothing a design holds: `text` says what it is
  WRITTEN_SPOILT,  // a problem was recorded for it already
};

struct written {
  enum written_sort sort;
  const char *key;  // NULL: by position
  size_t key_length;
  int index;  // by position, from 1
  const char *text;
  size_t length;
  enum word shape;
  struct value_place at;         // the line is always known, the bytes not (both 0)
  struct written *first, *next;  // in the order of the file
};

struct filling {
  struct store *store;
  struct problems *problems;
};

enum { MOST_ENTITIES = 5000, MOST_VALUES = 100000, MOST_PROBLEMS_READ = 1000 };

// entity: a table; its key is the name (NULL for singles), its place the constructor's.
void fill_entity(struct filling *filling, enum kind kind, const struct written *entity);

bool written_is_clean(const char *text, size_t length);  // UTF-8 on one line, without control characters

bool read_is_text(const struct file_bytes *file, struct problems *problems);  // false: empty, or no text
// What is said from outside, what a design must have, then store_settle. NULL when problems were added since `before`.
struct store *read_finish(struct filling *filling, struct overlays overlays, size_t before);
const char *read_nearest_kind(struct arena *arena, const char *written);

#endif
