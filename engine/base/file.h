// SPDX-License-Identifier: MIT
// Whole files in, whole files out.
#ifndef FOREBAY_BASE_FILE_H
#define FOREBAY_BASE_FILE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/problem.h"

struct file_bytes {
  const char *name;   // as the user named it
  const char *bytes;  // NUL-ended for convenience; may hold NULs of its own
  size_t length;
};

// Reads a file of at most `most` bytes. False: a problem was added (cannot be opened and why, a folder, not a plain
// file, too large: "10.0 MB, at most 1 MB is read").
bool file_read(struct problems *problems, const char *path, size_t most, struct file_bytes *file);

// Writes beside the target and renames over it: the old file stays whole when anything fails. A target that is not a
// plain file (a pipe, /dev/stdout) is written to directly.
bool file_write(struct problems *problems, const char *path, const char *bytes, size_t length);

// Names of the plain files in a folder that end in `ending`, sorted bytewise, hidden ones left out, folder prefixed.
// Other things with that ending (a link to nowhere, a pipe) are problems, and `whole` (may be NULL) is false.
bool file_list(struct problems *problems, const char *folder, const char *ending, const char ***names, size_t *count,
               bool *whole);

bool file_is_folder(const char *path);

#endif
