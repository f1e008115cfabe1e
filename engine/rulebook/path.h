// SPDX-License-Identifier: MIT
// `flow_per_width`, `into.rim`, `site.soil`: from an entity over its references to a value. Checked when a rule is
// read, for every kind it can lead through; followed without a look-up when it is judged.
#ifndef FOREBAY_RULEBOOK_PATH_H
#define FOREBAY_RULEBOOK_PATH_H

#include "base/text.h"
#include "quantities/evaluate.h"

enum { PATH_MOST = 6 };

struct path_step {
  const char *name;
  enum kind single;                 // the step goes to the only one of this kind; KIND_COUNT: it reads a row
  unsigned short rows[KIND_COUNT];  // of each kind that it can start from; ROW_COUNT: has none of this name
};

struct path {
  const char *text;
  size_t count;
  struct path_step steps[PATH_MOST];
  enum row_sort sort;        // of what it ends at: SORT_NUMBER for all numbers, else that of the row
  enum dimension dimension;  // numbers
  uint64_t ends;             // kinds that it can end at
  uint64_t last_rows_of;     // those of them that have the last name
  const char *says;          // of the first row it can end at
  bool given;                // every row it can end at is a given
};

// False: `said` and `right` tell why (in the arena). lists: a step may go over a list, to each of it (fixes).
bool path_read(struct path *path, struct arena *arena, const char *text, uint64_t kinds, bool lists, const char **said,
               const char **right);

enum arrival {
  PATH_ARRIVED,
  PATH_ABSENT,  // this entity, or what it refers to, has nothing of this name
  PATH_UNSET    // a reference on the way is unset (marked as missing), or the design has no such single
};
struct spot {
  int entity;
  enum row_id row;
  enum kind lacks;  // PATH_UNSET: the single that the design lacks, or KIND_COUNT
};
enum arrival path_follow(const struct path *path, struct evaluation *ev, int entity, struct spot *spot);

#endif
