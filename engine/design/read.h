// SPDX-License-Identifier: MIT
// Design files in, a settled store out.
#ifndef FOREBAY_DESIGN_READ_H
#define FOREBAY_DESIGN_READ_H

#include "base/file.h"
#include "design/overlay.h"
#include "design/store.h"

// Reads Lua, or JSON where the name ends in ".json". NULL: it cannot be used; every problem found is in `problems`,
// each at the line of the given itself.
struct store *design_read(struct arena *arena, const struct file_bytes *file, struct problems *problems);

// The same, with the files that lie beside the design, for what it names of them. They must outlive the store.
struct store *design_read_beside(struct arena *arena, const struct file_bytes *file, const struct file_bytes *beside,
                                 size_t count, struct problems *problems);

// The same, with what is said from outside of the file.
struct store *design_read_with(struct arena *arena, const struct file_bytes *file, const struct file_bytes *beside,
                               size_t count, const struct overlay *overlays, size_t overlay_count,
                               struct problems *problems);

bool design_is_json(const char *name);  // by the ending of the file's name

// For the whole process: jansson takes one fixed seed and asks the system for none.
void design_fix_hash_seed(void);

struct store *design_read_lua(struct arena *arena, const struct file_bytes *file, struct overlays overlays,
                              struct problems *problems);
struct store *design_read_json(struct arena *arena, const struct file_bytes *file, struct overlays overlays,
                               struct problems *problems);

#endif
