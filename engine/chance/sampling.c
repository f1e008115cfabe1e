// SPDX-License-Identifier: MIT
#include "chance/sampling.h"

#include <math.h>
#include <string.h>

#include "chance/draw.h"
#include "design/contradictions.h"

// ---- what hangs on what ----

struct walk {
  const struct evaluation *ev;
  unsigned char *seen;   // by slot
  const int *value_of;   // by slot: which value of the spread, from 1; 0: none
  unsigned char *hangs;  // by value
};

static void walk_slot(struct walk *walk, int slot, int depth) {
  const int *reads;
  if (walk->seen[slot] || depth > 2000) return;
  walk->seen[slot] = 1;
  if (walk->value_of[slot]) walk->hangs[walk->value_of[slot] - 1] = 1;
  size_t count = evaluation_reads(walk->ev, slot, &reads);
  for (size_t i = 0; i < count; i++) walk_slot(walk, reads[i], depth + 1);
}

static int *values_by_slot(const struct sampling *s) {
  const struct spread *spread = s->spread;
  int *value_of = arena_array(s->arena, spread->store->slot_count + 1, sizeof *value_of);
  for (size_t v = 0; v < spread->count; v++) {
    const struct spread_value *value = &spread->values[v];
    for (size_t i = 0; i < value->count; i++) value_of[spread->slots[value->first + i].slot] = (int)v + 1;
  }
  return value_of;
}

// Still water hangs on every lip that could be the lowest.
static void walk_levels(struct walk *walk, const struct spread *spread) {
  static const struct {
    enum row_id list, height;
  } ways_out[] = {{ROW_basin_spills_out, ROW_spill_crest}, {ROW_basin_channels_out, ROW_channel_start}};
  for (size_t l = 0; l < spread->level_count; l++) {
    if (!walk->seen[spread->levels[l].slot]) continue;
    for (size_t w = 0; w < 2; w++) {
      size_t count = store_members(spread->store, spread->levels[l].basin, ways_out[w].list);
      for (size_t i = 0; i < count; i++) {
        int out = store_member(spread->store, spread->levels[l].basin, ways_out[w].list, i);
        walk_slot(walk, store_slot(spread->store, out, ways_out[w].height), 0);
      }
    }
  }
}

static void find_what_hangs(struct sampling *s) {
  const struct review *review = s->review;
  size_t slots = s->spread->store->slot_count, values = s->spread->count;
  struct walk walk = {.ev = review->evaluation, .value_of = values_by_slot(s)};
  walk.seen = arena_array(s->arena, slots + 1, 1);
  s->hangs = arena_array(s->arena, review->outcome_count * values + 1, 1);
  for (size_t o = 0; o < review->outcome_count; o++) {
    const struct outcome *outcome = &review->outcomes[o];
    memset(walk.seen, 0, slots + 1);
    walk.hangs = &s->hangs[o * values];
    for (size_t i = 0; i < outcome->read_count; i++) walk_slot(&walk, outcome->reads[i], 0);
    walk_levels(&walk, s->spread);
  }
}

bool sampling_hangs(const struct sampling *sampling, size_t outcome, size_t value) {
  return sampling->hangs[outcome * sampling->spread->count + value] != 0;
}

bool sampling_varies(const struct sampling *sampling, size_t outcome) {
  for (size_t v = 0; v < sampling->spread->count; v++) {
    if (sampling_hangs(sampling, outcome, v)) return true;
  }
  return false;
}

// ---- draws ----

struct sampling *sampling_in(struct rulebook *book, struct review *review, uint64_t seed) {
  struct arena *arena = review->arena;
  struct sampling *s = arena_alloc(arena, sizeof *s);
  *s = (struct sampling){.arena = arena, .review = review, .seed = seed};
  s->rejudging = rejudging_in(book, review);
  s->spread = spread_of(arena, review->design, rulebook_stock(book));
  s->u = arena_array(arena, s->spread->count + 1, sizeof *s->u);
  for (enum stream stream = STREAM_DRAWS; stream < STREAM_COUNT; stream++) {
    s->keys[stream] = arena_array(arena, s->spread->count + 1, sizeof *s->keys[stream]);
    for (size_t v = 0; v < s->spread->count; v++)
      s->keys[stream][v] = draw_key(seed, s->spread->values[v].name, (uint64_t)stream);
  }
  find_what_hangs(s);
  return s;
}

double sampling_u(const struct sampling *sampling, enum stream stream, size_t value, uint64_t n) {
  return 2 * draw_uniform(sampling->keys[stream][value], n) - 1;
}

static void keep_said(struct sampling *s, const struct problem *problem) {
  struct text said = text_in(s->arena);
  text_printf(&said, "%s %s", problem->where, problem->said);
  size_t length = text_cut(text_end(&said), said.length, SAID_MOST - 1);
  memset(s->contradiction, 0, SAID_MOST);
  memcpy(s->contradiction, said.at, length);
}

static bool goes_together(struct sampling *s) {
  struct arena_mark mark = arena_mark(s->arena);
  struct problems found = problems_in(s->arena);
  check_contradictions(s->spread->drawn, &found);
  if (found.count > 0) keep_said(s, &found.list[0]);
  arena_release_to(s->arena, mark);
  return found.count == 0;
}

bool sampling_open(struct sampling *sampling) {
  struct spread *spread = sampling->spread;
  spread_draw(spread, sampling->u);
  if (!goes_together(sampling)) return false;
  trial_begin_remeasured(sampling->review->evaluation, spread->changes, spread->change_count, spread->readings,
                         spread->reading_count);
  return true;
}

void sampling_close(struct sampling *sampling) { trial_end(sampling->review->evaluation); }

void tally_add(struct tally *tally, const struct outcome *outcome) {
  switch (outcome->sort) {
    case OUTCOME_CLEAR:
      tally->clear++;
      break;
    case OUTCOME_FLAGGED:
      tally->flagged++;
      tally->held += outcome->severity == SEVERITY_HOLD;
      break;
    case OUTCOME_UNANSWERED:
    case OUTCOME_BROKEN:
      tally->open++;
      break;
    default:
      break;
  }
}

bool sampling_count(struct sampling *sampling, uint64_t n, struct tally *tallies) {
  for (size_t v = 0; v < sampling->spread->count; v++) sampling->u[v] = sampling_u(sampling, STREAM_DRAWS, v, n);
  if (!sampling_open(sampling)) return false;
  for (size_t o = 0; o < sampling->review->outcome_count; o++) {
    struct outcome now;
    rejudge(sampling->rejudging, o, &now);
    tally_add(&tallies[o], &now);
  }
  sampling_close(sampling);
  return true;
}
