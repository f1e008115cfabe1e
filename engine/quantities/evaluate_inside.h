// SPDX-License-Identifier: MIT
// What the files of the evaluation share. Nobody else includes this.
#ifndef FOREBAY_QUANTITIES_EVALUATE_INSIDE_H
#define FOREBAY_QUANTITIES_EVALUATE_INSIDE_H

#include "quantities/evaluate.h"

enum progress {
  FRESH,
  WORKING,
  DONE,
  SUSPECT,   // in a trial: hangs on something changed; the base's result still stands here
  VERIFYING  // in a trial: its reads are being looked at
};

struct result {
  double value, scale;
  const void *bundle;
  const char *because;
  int *reads;
  const bool *merely_asked;  // by read: whether it is stated was asked, and no more; NULL: none was
  size_t read_count;
  unsigned long stamp;   // the frame that read it last
  unsigned long blamed;  // the search for blame that saw it last
  unsigned short row;
  enum condition condition;
  enum progress progress;
  bool doubt;
  bool said, changed;  // in a trial: given by it; differs from the base
  unsigned kept;       // in a trial: where what the base had is kept, from 1; 0: nowhere yet
};

// What is being worked out now. A reader's frame has no slot (-1). Its reads stand in evaluation.reads from `first` on:
// a value read as its slot, a question whether it is stated as ~slot.
struct frame {
  struct reader *reader;
  const char *because;
  double scale;
  size_t first;
  unsigned long stamp;
  int slot;
  bool missing, impossible, outside, doubt;
};

struct trial;

struct evaluation {
  struct arena *arena;
  const struct store *store;
  struct problems *problems;
  struct result *results;
  struct frame *frames;  // the innermost last
  size_t depth, frame_room;
  int *reads;
  size_t read_count, read_room;
  unsigned long stamps;
  size_t done;  // results that have come to be so far
  struct trial *trial;
  bool in_trial;
};

static inline struct frame *evaluation_top(const struct evaluation *ev) {
  return ev->depth ? &ev->frames[ev->depth - 1] : NULL;
}

// evaluate_frames.c
struct frame *evaluation_push(struct evaluation *ev, int slot);
void evaluation_pop(struct evaluation *ev);
void evaluation_note(struct evaluation *ev, int slot);      // its value was read
void evaluation_note_ask(struct evaluation *ev, int slot);  // whether it is stated was asked
// The reads of the top frame, each once, in order of first read. merely_asked may be NULL.
int *evaluation_kept(struct evaluation *ev, size_t *count, const bool **merely_asked);

// evaluate_work.c
// The result of a slot, worked out when this is its first read. NULL: the entity is not there, or a circle.
const struct result *evaluation_settle(struct evaluation *ev, int entity, enum row_id row);
void evaluation_work_out(struct evaluation *ev, int slot, int entity);
bool evaluation_too_deep(const struct evaluation *ev);
void evaluation_give_up_on(struct result *result);  // of a chain that is too deep

// trial.c
void trial_keep(struct evaluation *ev, int slot);    // before a result changes in a trial
void trial_settle(struct evaluation *ev, int slot);  // SUSPECT or VERIFYING until now, DONE afterwards

#endif
