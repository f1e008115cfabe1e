// SPDX-License-Identifier: MIT
// Inside of edit: where in the bytes a change goes, for Lua and JSON, and whether the new bytes say what was asked.
#ifndef FOREBAY_DESIGN_EDIT_INSIDE_H
#define FOREBAY_DESIGN_EDIT_INSIDE_H

#include "design/edit.h"
#include "design/lua_tokens.h"
#include "design/places_tree.h"

// Bytes to be put in the place of others; from = to: put in between.
struct splice {
  size_t from, to;
  const char *text;
};

struct editing {
  struct arena *arena;
  const struct file_bytes *file;
  bool json;
  struct store *base;    // the file alone
  struct tokens tokens;  // Lua
  const struct places *places;
  const struct edit *edits;
  size_t count;
  struct splice *splices;  // one for each edit
  struct problems *problems;
};

// Adds a problem at this line (0: the given's, or its entity's) of the file; returns false.
bool edit_refuse(const struct editing *e, const struct edit *edit, int line, const char *said, const char *right);

// One value in the place of another; a given behind the brace that opens its table. False: a problem was added.
bool edit_replace(struct editing *e, const struct edit *edit, struct splice *splice);
bool edit_insert(struct editing *e, const struct edit *edit, struct splice *splice);

// The text as it stands in the file: in quotes, escaped.
const char *edit_quoted(struct arena *arena, const char *text, char quote);

// Whether the file says these bytes, and whether the new ones differ by the edits alone. The words of a problem; NULL:
// they do.
const char *edit_same_design(const struct store *reviewed, const struct store *read);
const char *edit_proven(const struct editing *e, const struct file_bytes *made, const struct store *read);

#endif
