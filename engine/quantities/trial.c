// SPDX-License-Identifier: MIT
#include "quantities/trial.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "quantities/evaluate_inside.h"

struct kept {
  int slot;
  struct result was;
};

// Who read a slot in the base: readers[first[slot]] up to readers[first[slot + 1]].
struct edges {
  size_t done;  // how many results there were
  size_t *first;
  int *readers;
  size_t room;
};

struct trial {
  struct edges edges;
  int *suspects;  // marked in this trial
  size_t suspect_count;
  struct kept *kept;  // each slot at most once
  size_t kept_count;
  size_t worked_out;
  struct problems problems;  // found in this trial
  struct evaluation base;    // as it was outside of the results
  struct arena_mark mark;
};

// ---- Who reads what, by counting sort ----

static size_t count_readers(const struct evaluation *ev, size_t *first) {
  size_t slots = ev->store->slot_count, total = 0;
  memset(first, 0, (slots + 1) * sizeof *first);
  for (size_t s = 0; s < slots; s++) {
    const struct result *result = &ev->results[s];
    for (size_t i = 0; i < result->read_count; i++) first[result->reads[i]]++;
    total += result->read_count;
  }
  return total;
}

// From counts to where each ends; filling from behind makes of that where each begins.
static void place_readers(const struct evaluation *ev, struct edges *edges) {
  size_t slots = ev->store->slot_count, end = 0;
  for (size_t s = 0; s <= slots; s++) edges->first[s] = end += edges->first[s];
  for (size_t s = slots; s-- > 0;) {
    const struct result *result = &ev->results[s];
    for (size_t i = 0; i < result->read_count; i++) edges->readers[--edges->first[result->reads[i]]] = (int)s;
  }
}

static void find_edges(struct evaluation *ev, struct edges *edges) {
  if (edges->first && edges->done == ev->done) return;
  if (!edges->first) edges->first = arena_array(ev->arena, ev->store->slot_count + 1, sizeof *edges->first);
  size_t total = count_readers(ev, edges->first);
  if (total > edges->room) {
    edges->room = 2 * total;
    edges->readers = arena_array(ev->arena, edges->room, sizeof *edges->readers);
  }
  place_readers(ev, edges);
  edges->done = ev->done;
}

// ---- Undoing ----

void trial_keep(struct evaluation *ev, int slot) {
  struct trial *trial = ev->trial;
  struct result *result = &ev->results[slot];
  if (result->kept) return;
  trial->kept[trial->kept_count++] = (struct kept){slot, *result};
  result->kept = (unsigned)trial->kept_count;
}

static void put_back(struct evaluation *ev) {
  const struct trial *trial = ev->trial;
  for (size_t i = 0; i < trial->kept_count; i++) ev->results[trial->kept[i].slot] = trial->kept[i].was;
  for (size_t i = 0; i < trial->suspect_count; i++) ev->results[trial->suspects[i]].progress = DONE;
}

// ---- What has changed ----

static bool same_bits(double a, double b) {
  uint64_t one, other;
  memcpy(&one, &a, sizeof one);
  memcpy(&other, &b, sizeof other);
  return one == other;
}

static bool differs(const struct result *now, const struct result *was) {
  if (was->progress == FRESH || now->bundle || now->condition == CONDITION_MISSING) return true;
  return !same_bits(now->value, was->value) || !same_bits(now->scale, was->scale) || now->condition != was->condition ||
         now->doubt != was->doubt || was->bundle;
}

static const struct result *base_of(const struct evaluation *ev, const struct result *result) {
  return &ev->trial->kept[result->kept - 1].was;
}

static void suspect_readers(struct evaluation *ev, int slot) {
  struct trial *trial = ev->trial;
  const struct edges *edges = &trial->edges;
  for (size_t i = edges->first[slot]; i < edges->first[slot + 1]; i++) {
    struct result *reader = &ev->results[edges->readers[i]];
    if (reader->progress != DONE || reader->said) continue;
    reader->progress = SUSPECT;
    trial->suspects[trial->suspect_count++] = edges->readers[i];
  }
}

static void put_in(struct evaluation *ev, const struct trial_change *change, enum condition condition) {
  struct result *result = &ev->results[change->slot];
  trial_keep(ev, change->slot);
  *result = (struct result){.value = change->value,
                            .scale = isfinite(change->value) ? fabs(change->value) : 0,
                            .row = result->row,
                            .condition = condition,
                            .progress = DONE,
                            .kept = result->kept,
                            .said = true};
  result->changed = differs(result, base_of(ev, result));
}

static void give(struct evaluation *ev, const struct trial_change *change) {
  const struct result *result = &ev->results[change->slot];
  const struct row *row = catalogue_row((enum row_id)result->row);
  assert(row_is_given(row) && (row_is_number(row) || row->sort == SORT_CHOICE || row->sort == SORT_SHAPE));
  if (result->condition != CONDITION_MEASURED) put_in(ev, change, CONDITION_GIVEN);
}

static void remeasure(struct evaluation *ev, const struct trial_change *reading) {
  assert(ev->results[reading->slot].condition == CONDITION_MEASURED);
  put_in(ev, reading, CONDITION_MEASURED);
}

static void suspect_changed(struct evaluation *ev, const struct trial_change *changes, size_t count) {
  for (size_t i = 0; i < count; i++) {
    if (ev->results[changes[i].slot].changed) suspect_readers(ev, changes[i].slot);
  }
}

static void suspect_all(struct evaluation *ev) {
  struct trial *trial = ev->trial;
  for (size_t next = 0; next < trial->suspect_count; next++) suspect_readers(ev, trial->suspects[next]);
}

static struct trial *trial_of(struct evaluation *ev) {
  if (!ev->trial) {
    ev->trial = arena_alloc(ev->arena, sizeof *ev->trial);
    ev->trial->suspects = arena_array(ev->arena, ev->store->slot_count + 1, sizeof *ev->trial->suspects);
    ev->trial->kept = arena_array(ev->arena, ev->store->slot_count + 1, sizeof *ev->trial->kept);
  }
  return ev->trial;
}

void trial_begin(struct evaluation *ev, const struct trial_change *changes, size_t count) {
  trial_begin_remeasured(ev, changes, count, NULL, 0);
}

void trial_begin_remeasured(struct evaluation *ev, const struct trial_change *changes, size_t count,
                            const struct trial_change *readings, size_t reading_count) {
  struct trial *trial = trial_of(ev);
  assert(!ev->in_trial && ev->depth == 0);
  find_edges(ev, &trial->edges);
  trial->base = *ev;
  trial->mark = arena_mark(ev->arena);
  trial->problems = problems_in(ev->arena);
  trial->kept_count = trial->suspect_count = trial->worked_out = 0;
  ev->problems = &trial->problems;
  ev->in_trial = true;
  for (size_t i = 0; i < count; i++) give(ev, &changes[i]);
  for (size_t i = 0; i < reading_count; i++) remeasure(ev, &readings[i]);
  suspect_changed(ev, changes, count);
  suspect_changed(ev, readings, reading_count);
  suspect_all(ev);
}

// Frames and the room for reads may have moved into the trial's memory.
void trial_end(struct evaluation *ev) {
  struct trial *trial = ev->trial;
  assert(ev->in_trial && ev->depth == 0);
  unsigned long stamps = ev->stamps;
  put_back(ev);
  *ev = trial->base;
  ev->stamps = stamps;
  arena_release_to(ev->arena, trial->mark);
}

// ---- Working out again ----

static void work_anew(struct evaluation *ev, int slot) {
  struct result *result = &ev->results[slot];
  int entity;
  store_row_of_slot(ev->store, slot, &entity);
  trial_keep(ev, slot);
  *result = (struct result){.row = result->row, .stamp = result->stamp, .blamed = result->blamed, .kept = result->kept};
  ev->trial->worked_out++;
  if (evaluation_too_deep(ev)) {
    evaluation_give_up_on(result);
  } else {
    evaluation_work_out(ev, slot, entity);
  }
  result->changed = differs(result, base_of(ev, result));
}

static bool now_stated(const struct evaluation *ev, int slot) {
  return ev->results[slot].said && ev->store->slots[slot].condition != CONDITION_GIVEN;
}

static bool has_changed(struct evaluation *ev, int slot) {
  const struct result *result = &ev->results[slot];
  if (result->progress == WORKING) return true;  // a circle: told anew
  if (result->progress == SUSPECT || result->progress == VERIFYING) trial_settle(ev, slot);
  return result->changed;
}

// Its reads are looked at in the order in which the base made them: up to the first that has changed the function would
// do again what it did.
static bool stands(struct evaluation *ev, int slot) {
  const struct result *result = &ev->results[slot];
  for (size_t i = 0; i < result->read_count; i++) {
    int read = result->reads[i];
    bool asked = result->merely_asked && result->merely_asked[i];
    if (asked ? now_stated(ev, read) : has_changed(ev, read)) return false;
    if (result->progress != VERIFYING) return true;  // a reader of it, met on the way, could not wait
  }
  return true;
}

// Looking at reads goes as deep as reading itself: it takes a frame of its own.
static bool stands_when_looked_at(struct evaluation *ev, int slot) {
  ev->results[slot].progress = VERIFYING;
  evaluation_push(ev, -1);
  bool unchanged = stands(ev, slot);
  evaluation_pop(ev);
  return unchanged;
}

void trial_settle(struct evaluation *ev, int slot) {
  struct result *result = &ev->results[slot];
  bool look = result->progress == SUSPECT && !evaluation_too_deep(ev);
  bool unchanged = look && stands_when_looked_at(ev, slot);
  if (result->progress == DONE) return;  // it was needed on the way, and worked out
  if (unchanged) {
    result->progress = DONE;
  } else {
    work_anew(ev, slot);
  }
}

bool trial_changed(struct evaluation *ev, int slot) {
  const struct result *result = &ev->results[slot];
  if (result->progress == FRESH) return true;
  return has_changed(ev, slot);
}

size_t trial_worked_out(const struct evaluation *ev) { return ev->in_trial ? ev->trial->worked_out : 0; }

const void *trial_base_bundle(const struct evaluation *ev) {
  int slot = ev->in_trial ? evaluation_top(ev)->slot : -1;
  return slot >= 0 && ev->results[slot].kept ? base_of(ev, &ev->results[slot])->bundle : NULL;
}
