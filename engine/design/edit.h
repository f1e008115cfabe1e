// SPDX-License-Identifier: MIT
// A design's text with other givens in it: comments, layout and quotes are kept, and nothing is made that does not read
// back as exactly what was asked.
#ifndef FOREBAY_DESIGN_EDIT_H
#define FOREBAY_DESIGN_EDIT_H

#include "base/file.h"
#include "design/store.h"

// A given gets another text, or is written where it was not.
struct edit {
  int entity;  // of the settled store
  enum row_id row;
  const char *text;  // as between quotes ("12 in"); a tolerance that is written stays where this says none
  bool is_table;     // a whole list or shape: text is its table, ready in the file's language ("{ { ... }, ... }")
};

// The new bytes of `file`, in the arena. store: read from those bytes, perhaps with overlays, which are not written.
// False: problems say at which line it cannot be done and why, and nothing is made: the file is not what the store was
// read from; a value that is worked out there, or written in a loop or function; nothing to write it into; text that
// the given does not take. All is read again before it is handed out: exactly those givens differ.
bool edit_design(struct arena *arena, const struct file_bytes *file, const struct store *store,
                 const struct edit *edits, size_t count, struct file_bytes *made, struct problems *problems);

#endif
