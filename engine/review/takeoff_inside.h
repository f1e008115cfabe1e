// SPDX-License-Identifier: MIT
// What the files of the takeoff share and nobody else includes.
#ifndef FOREBAY_REVIEW_TAKEOFF_INSIDE_H
#define FOREBAY_REVIEW_TAKEOFF_INSIDE_H

#include "review/takeoff.h"

struct taking {
  struct arena *arena;
  struct evaluation *ev;
  const struct store *design;
};

struct takeoff_line *takeoff_add(struct taking *taking, struct takeoff_group *group);  // cleared, of no entity
// Notes the slots that stand in the way of a value, if it is missing.
void takeoff_note_missing(struct taking *taking, struct takeoff_line *line, int entity, enum row_id row);

// Lines put together from several entities: stone by sort, pipe, fittings and valves by size, cable by sort.
void takeoff_gather_stone(struct taking *taking, struct takeoff_group *group);
void takeoff_gather_liner(struct taking *taking, struct takeoff_group *group);
void takeoff_gather_pipe(struct taking *taking, struct takeoff_group *group);
void takeoff_gather_wire(struct taking *taking, struct takeoff_group *group);

#endif
