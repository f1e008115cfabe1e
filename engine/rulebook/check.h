// SPDX-License-Identifier: MIT
// Checking how a rule is written: what the files of the check share.
#ifndef FOREBAY_RULEBOOK_CHECK_H
#define FOREBAY_RULEBOOK_CHECK_H

#include "rulebook/example_run.h"

struct checking {
  struct rulebook *book;
  struct arena *arena;
  struct problems *wrong;
  struct text *notes;
  struct example_runs runs;
  struct rulebook_check_counts counts;
  // of the rule at hand:
  const struct rule *rule;
  bool has_flagged, has_clear, has_limit;  // examples that say so
  bool worked_out;                         // an example in which what is judged follows from other values
  bool flagged, clear;                     // seen in one such, or in a variation of one
  bool out_of_reach;                       // what is judged can only be stated itself
  bool settled;                            // that it can come out one way alone is certain, and told
  size_t variations;
  int broken_line;  // where it broke last
};

void check_complain(struct checking *checking, int line, const char *example, const char *said, const char *read,
                    const char *right);
void check_complain_at(struct checking *checking, struct place at, struct problem problem);  // where NULL: the rule
void check_note(struct checking *checking, int line, const char *said);

// Takes in what an example of the rule at hand came to; a broken one is complained about.
void check_take_outcome(struct checking *checking, struct example_run *tried, const char *example);

// check_reach.c: no example can state what this quantity is worked out from.
bool check_out_of_reach(enum row_id row);
// check_names.c: what the rule's functions read of their entity and of their limits, by the text of the file.
void check_names(struct checking *checking);
// check_range.c: whether limits and `when` leave room for each outcome within the bounds of what is judged.
void check_range(struct checking *checking);
// check_vary.c: its examples again with other values; goes on until both outcomes were seen, a check to the end.
void check_variations(struct checking *checking);

#endif
