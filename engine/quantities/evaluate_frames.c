// SPDX-License-Identifier: MIT
// What is being worked out, innermost last, and what each has read.
#include <math.h>

#include "quantities/evaluate_inside.h"

struct frame *evaluation_push(struct evaluation *ev, int slot) {
  ev->frames = arena_grow(ev->arena, ev->frames, ev->depth, &ev->frame_room, sizeof *ev->frames);
  struct frame *frame = &ev->frames[ev->depth++];
  *frame = (struct frame){.first = ev->read_count, .stamp = ++ev->stamps, .slot = slot};
  return frame;
}

void evaluation_pop(struct evaluation *ev) { ev->read_count = ev->frames[--ev->depth].first; }

static void add_read(struct evaluation *ev, int read) {
  ev->reads = arena_grow(ev->arena, ev->reads, ev->read_count, &ev->read_room, sizeof *ev->reads);
  ev->reads[ev->read_count++] = read;
}

void evaluation_note(struct evaluation *ev, int slot) {
  const struct frame *frame = evaluation_top(ev);
  if (!frame || ev->results[slot].stamp == frame->stamp) return;
  ev->results[slot].stamp = frame->stamp;
  add_read(ev, slot);
}

void evaluation_note_ask(struct evaluation *ev, int slot) {
  if (ev->depth) add_read(ev, ~slot);
}

static bool *mark_asked(struct evaluation *ev, const struct frame *frame, unsigned long read_by_value) {
  bool any = false;
  for (size_t i = frame->first; i < ev->read_count; i++) {
    int read = ev->reads[i];
    if (read < 0)
      any = true;
    else
      ev->results[read].stamp = read_by_value;
  }
  return any ? arena_array(ev->arena, ev->read_count - frame->first, sizeof(bool)) : NULL;
}

// A frame above may have taken the stamp in between, so one slot may stand there twice.
int *evaluation_kept(struct evaluation *ev, size_t *count, const bool **merely_asked) {
  const struct frame *frame = evaluation_top(ev);
  unsigned long read_by_value = ++ev->stamps, seen = ++ev->stamps;
  bool *asked = mark_asked(ev, frame, read_by_value);
  int *reads = arena_array(ev->arena, ev->read_count - frame->first + 1, sizeof *reads);
  size_t kept = 0;
  for (size_t i = frame->first; i < ev->read_count; i++) {
    int slot = ev->reads[i] < 0 ? ~ev->reads[i] : ev->reads[i];
    struct result *result = &ev->results[slot];
    if (result->stamp == seen) continue;
    if (asked) asked[kept] = result->stamp != read_by_value;
    result->stamp = seen;
    reads[kept++] = slot;
  }
  *count = kept;
  if (merely_asked) *merely_asked = asked;
  return reads;
}

void evaluation_begin(struct evaluation *ev, struct reader *reader) {
  *reader = (struct reader){0};
  evaluation_push(ev, -1)->reader = reader;
}

void evaluation_end(struct evaluation *ev) {
  const struct frame *frame = evaluation_top(ev);
  *frame->reader = (struct reader){
      .missing = frame->missing, .impossible = frame->impossible, .outside = frame->outside, .scale = frame->scale};
  frame->reader->reads = evaluation_kept(ev, &frame->reader->count, NULL);
  evaluation_pop(ev);
}
