// SPDX-License-Identifier: MIT
// What went wrong with something a person wrote: where, what was read, what would be right.
#ifndef FOREBAY_BASE_PROBLEM_H
#define FOREBAY_BASE_PROBLEM_H

#include <stddef.h>

#include "base/arena.h"
#include "base/text.h"

struct place {
  const char *file;  // as the user named it; NULL: no file
  int line;          // from 1; 0: the file as a whole
};

struct problem {
  struct place at;
  const char *where;  // `basin "lower".depth`, a rule's name, or NULL
  const char *said;   // what is wrong, a plain sentence without full stop
  const char *read;   // what was written there, or NULL
  const char *right;  // what would be right, or NULL
  const char *cause;  // the library's own words underneath, or NULL
};

struct problems {
  struct arena *arena;
  struct problem *list;
  size_t count, room;
};

struct problems problems_in(struct arena *arena);
void problem_add(struct problems *problems, struct problem problem);  // copies the texts
void problems_sort(struct problems *problems);  // by file (in order of first mention), line, order of arrival; stable

// One line: `file:line: where: said; read "..."; write ...`. No newline at the end; cause follows on an indented line.
void problem_write(struct text *text, const struct problem *problem);
// All of them, at most `most`, then "and N more".
void problems_write(struct text *text, const struct problems *problems, size_t most);

#endif
