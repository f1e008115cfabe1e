// SPDX-License-Identifier: MIT
#include "quantities/evaluate.h"

#include <math.h>
#include <string.h>

#include "design/overlay.h"
#include "quantities/functions.h"

enum progress { FRESH, WORKING, DONE };

struct result {
  double value, scale;
  const void *bundle;
  const char *because;
  int *reads;
  size_t read_count;
  unsigned stamp;   // the frame that read it last
  unsigned blamed;  // the search for blame that saw it last
  enum condition condition;
  enum progress progress;
  bool doubt;
};

// What is being worked out now, innermost first. A reader's frame has no slot.
struct frame {
  struct frame *under;
  struct reader read;
  struct reader *reader;
  const char *because;
  unsigned stamp;
  int slot;
  bool doubt;
};

struct evaluation {
  struct arena *arena;
  const struct store *store;
  struct problems *problems;
  struct result *results;
  struct frame *top, *spare;
  int depth;
  unsigned stamps;
};

struct evaluation *evaluation_in(struct arena *arena, const struct store *store, struct problems *problems) {
  struct evaluation *ev = arena_alloc(arena, sizeof *ev);
  *ev = (struct evaluation){.arena = arena, .store = store, .problems = problems};
  ev->results = arena_array(arena, store->slot_count + 1, sizeof *ev->results);
  for (size_t m = 0; m < store->measurement_count; m++) {
    const struct measurement *measured = &store->measurements[m];
    ev->results[measured->slot] = (struct result){
        .value = measured->value, .scale = fabs(measured->value), .condition = CONDITION_MEASURED, .progress = DONE};
  }
  return ev;
}

const struct store *evaluation_design(const struct evaluation *ev) { return ev->store; }
struct arena *evaluation_arena(struct evaluation *ev) {
  return ev->arena;
}
bool evaluation_marked(const struct evaluation *ev) {
  return ev->top && (ev->top->read.missing || ev->top->read.impossible);
}

// ---- Frames ----

static struct frame *push_frame(struct evaluation *ev, int slot) {
  struct frame *frame = ev->spare;
  if (frame) {
    ev->spare = frame->under;
  } else {
    frame = arena_alloc(ev->arena, sizeof *frame);
  }
  struct reader kept = {.reads = frame->read.reads, .room = frame->read.room};
  *frame = (struct frame){.under = ev->top, .read = kept, .stamp = ++ev->stamps, .slot = slot};
  ev->top = frame;
  ev->depth++;
  return frame;
}

static void pop_frame(struct evaluation *ev) {
  struct frame *frame = ev->top;
  ev->depth--;
  ev->top = frame->under;
  frame->under = ev->spare;
  ev->spare = frame;
}

static void note_read(struct evaluation *ev, int slot) {
  struct frame *frame = ev->top;
  struct result *result = &ev->results[slot];
  if (!frame || result->stamp == frame->stamp) return;
  result->stamp = frame->stamp;
  frame->read.reads = arena_grow(ev->arena, frame->read.reads, frame->read.count, &frame->read.room, sizeof(int));
  frame->read.reads[frame->read.count++] = slot;
}

// Each read once, in order of first read: a frame above may have taken the stamp in between.
static int *keep_reads(struct evaluation *ev, struct frame *frame) {
  int *reads = arena_array(ev->arena, frame->read.count + 1, sizeof *reads);
  unsigned stamp = ++ev->stamps;
  size_t kept = 0;
  for (size_t i = 0; i < frame->read.count; i++) {
    struct result *result = &ev->results[frame->read.reads[i]];
    if (result->stamp == stamp) continue;
    result->stamp = stamp;
    reads[kept++] = frame->read.reads[i];
  }
  frame->read.count = kept;
  return reads;
}

// ---- Working out ----

static const struct row *row_of(const struct evaluation *ev, int slot, int *entity) {
  return catalogue_row(store_row_of_slot(ev->store, slot, entity));
}

static bool same_dimension(const struct row *a, const struct row *b) {
  struct powers first = dimension_row(a->dimension)->powers, second = dimension_row(b->dimension)->powers;
  first.point = second.point = 0;
  return row_is_number(a) && row_is_number(b) && powers_equal(first, second);
}

// Elevations of 100 m that differ by 2 cm carry the rounding of 100 m.
static double scale_of(const struct evaluation *ev, const struct row *row, const struct frame *frame, double value) {
  double scale = fabs(value);
  for (size_t i = 0; i < frame->read.count; i++) {
    int entity;
    int slot = frame->read.reads[i];
    if (same_dimension(row, row_of(ev, slot, &entity))) scale = fmax(scale, ev->results[slot].scale);
  }
  return isfinite(scale) ? scale : 0;
}

static void tell_not_a_number(struct evaluation *ev, int entity, enum row_id row) {
  struct text where = text_in(ev->problems->arena);
  store_describe(&where, ev->store, entity, row);
  problem_add(ev->problems, (struct problem){.at = ev->store->entities[entity].at,
                                             .where = text_end(&where),
                                             .said = "could not be worked out from what is given",
                                             .right = "look at the values it is built from"});
}

static void finish(struct evaluation *ev, int slot, int entity, enum row_id row, double value, const void *bundle) {
  struct result *result = &ev->results[slot];
  struct frame *frame = ev->top;
  bool bundled = catalogue_row(row)->sort == SORT_BUNDLE;
  result->reads = keep_reads(ev, frame);
  result->read_count = frame->read.count;
  result->progress = DONE;
  result->value = NAN;
  if (frame->read.missing) {
    result->condition = CONDITION_MISSING;
    result->because = frame->because;
  } else if (frame->read.impossible) {
    result->condition = CONDITION_IMPOSSIBLE;
  } else if (bundled ? bundle == NULL : isnan(value)) {
    result->condition = CONDITION_IMPOSSIBLE;
    tell_not_a_number(ev, entity, row);
  } else {
    result->value = value;
    result->bundle = bundle;
    result->condition = frame->read.outside ? CONDITION_OUTSIDE : CONDITION_COMPUTED;
    result->doubt = frame->doubt || frame->read.outside;
    result->scale = bundled ? 0 : scale_of(ev, catalogue_row(row), frame, value);
  }
}

static void work_out(struct evaluation *ev, int slot, int entity, enum row_id row) {
  const struct row_function *function = row_function(row);
  ev->results[slot].progress = WORKING;
  push_frame(ev, slot);
  double value = function->number ? function->number(ev, entity) : 0;
  const void *bundle = function->bundle ? function->bundle(ev, entity) : NULL;
  finish(ev, slot, entity, row, value, bundle);
  pop_frame(ev);
}

// Formulas call each other through this file; small stacks (threads) must not overflow on a design that is one chain.
enum { DEEPEST_CHAIN = 1500 };

static void give_up_on_chain(struct evaluation *ev, int slot) {
  struct result *result = &ev->results[slot];
  *result = (struct result){.value = (double)NAN,
                            .condition = CONDITION_MISSING,
                            .progress = DONE,
                            .stamp = result->stamp,
                            .because = "the chain of values that leads to it is too long to work out: measure it"};
}

static void take_given(struct result *result, const struct slot *slot) {
  result->value = slot->condition == CONDITION_UNSET ? NAN : slot->value;
  result->scale = isfinite(slot->value) ? fabs(slot->value) : 0;
  result->condition = slot->condition;
  result->progress = DONE;
}

static void tell_circle(struct evaluation *ev, int slot, int entity, enum row_id row) {
  struct text said = text_in(ev->problems->arena), where = text_in(ev->problems->arena);
  text_add(&said, "depends on itself:");
  for (const struct frame *frame = ev->top; frame && frame->slot != slot; frame = frame->under) {
    int member;
    if (frame->slot < 0) continue;
    enum row_id id = store_row_of_slot(ev->store, frame->slot, &member);
    text_add_char(&said, ' ');
    store_describe(&said, ev->store, member, id);
    text_add(&said, " from");
  }
  text_add(&said, " itself");
  store_describe(&where, ev->store, entity, row);
  problem_add(ev->problems, (struct problem){.at = ev->store->entities[entity].at,
                                             .where = text_end(&where),
                                             .said = text_end(&said),
                                             .right = "water or places that do not lead round in a circle"});
  ev->top->read.impossible = true;
}

static void mark_by_condition(struct evaluation *ev, const struct result *result) {
  struct frame *frame = ev->top;
  if (!frame) return;
  if (result->condition == CONDITION_UNSET || result->condition == CONDITION_MISSING) frame->read.missing = true;
  if (result->condition == CONDITION_IMPOSSIBLE) frame->read.impossible = true;
  if (result->doubt) frame->doubt = true;
  if (result->doubt && frame->slot < 0) frame->read.outside = true;
}

// The result of a slot, worked out when this is its first read. NULL: the entity is not there, or a circle.
static const struct result *settle(struct evaluation *ev, int entity, enum row_id row) {
  if (entity < 0) {
    if (ev->top) ev->top->read.missing = true;
    return NULL;
  }
  int slot = store_slot(ev->store, entity, row);
  struct result *result = &ev->results[slot];
  note_read(ev, slot);
  if (result->progress == WORKING) {
    tell_circle(ev, slot, entity, row);
    return NULL;
  }
  if (result->progress == FRESH) {
    const struct slot *given = &ev->store->slots[slot];
    bool worked_out = row_function(row) && given->condition == CONDITION_UNSET;
    if (worked_out && ev->depth >= DEEPEST_CHAIN) {
      give_up_on_chain(ev, slot);
    } else if (worked_out) {
      work_out(ev, slot, entity, row);
    } else {
      take_given(result, given);
    }
  }
  return result;
}

// ---- Reading ----

double evaluation_number(struct evaluation *ev, int entity, enum row_id row) {
  const struct result *result = settle(ev, entity, row);
  if (!result) return NAN;
  mark_by_condition(ev, result);
  if (ev->top && isfinite(result->scale)) ev->top->read.scale = fmax(ev->top->read.scale, result->scale);
  return result->value;
}

enum word evaluation_choice(struct evaluation *ev, int entity, enum row_id row) {
  double value = evaluation_number(ev, entity, row);
  return isnan(value) ? WORD_COUNT : (enum word)value;
}

int evaluation_reference(struct evaluation *ev, int entity, enum row_id row) {
  double value = evaluation_number(ev, entity, row);
  return isnan(value) ? -1 : (int)value;
}

const char *evaluation_text(struct evaluation *ev, int entity, enum row_id row) {
  const struct result *result = settle(ev, entity, row);
  if (!result) return "";
  mark_by_condition(ev, result);
  const char *text = store_at(ev->store, entity, row)->text;
  return text ? text : "";
}

const void *evaluation_bundle(struct evaluation *ev, int entity, enum row_id row) {
  const struct result *result = settle(ev, entity, row);
  if (!result) return NULL;
  mark_by_condition(ev, result);
  return result->bundle;
}

size_t evaluation_members(struct evaluation *ev, int entity, enum row_id list) {
  if (entity < 0) {
    if (ev->top) ev->top->read.missing = true;
    return 0;
  }
  note_read(ev, store_slot(ev->store, entity, list));
  return store_members(ev->store, entity, list);
}

int evaluation_member(struct evaluation *ev, int entity, enum row_id list, size_t index) {
  return store_member(ev->store, entity, list, index);
}

bool evaluation_stated(struct evaluation *ev, int entity, enum row_id row) {
  if (entity < 0) return false;
  int slot = store_slot(ev->store, entity, row);
  note_read(ev, slot);
  return ev->store->slots[slot].condition == CONDITION_GIVEN || store_measured(ev->store, slot) != NULL;
}

// ---- Marks that formulas set ----

void evaluation_missing(struct evaluation *ev, const char *because) {
  ev->top->read.missing = true;
  ev->top->because = because;
}

void evaluation_outside(struct evaluation *ev) { ev->top->read.outside = true; }

static bool told_already(const struct problems *problems, const char *where, const char *said) {
  for (size_t i = 0; i < problems->count; i++) {
    const struct problem *told = &problems->list[i];
    if (told->where && strcmp(told->where, where) == 0 && strcmp(told->said, said) == 0) return true;
  }
  return false;
}

void evaluation_impossible(struct evaluation *ev, int entity, enum row_id given, const char *said, const char *right) {
  ev->top->read.impossible = true;
  struct text where = text_in(ev->problems->arena);
  store_describe(&where, ev->store, entity, given);
  if (told_already(ev->problems, text_end(&where), said)) return;
  const struct slot *slot = store_at(ev->store, entity, given);
  int line = slot->line ? slot->line : ev->store->entities[entity].at.line;
  problem_add(ev->problems, (struct problem){.at = slot->said ? slot->said->at : (struct place){ev->store->file, line},
                                             .where = text_end(&where),
                                             .said = said,
                                             .read = slot->text,
                                             .right = right});
}

// ---- About a slot ----

static const struct result *look(struct evaluation *ev, int entity, enum row_id row) {
  struct reader reader = {0};
  evaluation_begin(ev, &reader);
  const struct result *result = settle(ev, entity, row);
  evaluation_end(ev);
  return result;
}

enum condition evaluation_condition(struct evaluation *ev, int entity, enum row_id row) {
  const struct result *result = look(ev, entity, row);
  return result ? result->condition : CONDITION_MISSING;
}

bool evaluation_in_doubt(struct evaluation *ev, int entity, enum row_id row) {
  const struct result *result = look(ev, entity, row);
  return result && result->doubt;
}

double evaluation_scale(struct evaluation *ev, int entity, enum row_id row) {
  const struct result *result = look(ev, entity, row);
  return result ? result->scale : 0;
}

double evaluation_unmeasured(struct evaluation *ev, int entity, enum row_id row) {
  const struct row_function *function = row_function(row);
  if (!function || !function->number) return NAN;
  push_frame(ev, -1);
  double value = function->number(ev, entity);
  bool marked = evaluation_marked(ev);
  pop_frame(ev);
  return marked ? NAN : value;
}

const char *evaluation_because(const struct evaluation *ev, int slot) { return ev->results[slot].because; }

size_t evaluation_reads(const struct evaluation *ev, int slot, const int **slots) {
  *slots = ev->results[slot].reads;
  return ev->results[slot].read_count;
}

// ---- Readers outside the design ----

void evaluation_begin(struct evaluation *ev, struct reader *reader) {
  *reader = (struct reader){0};
  push_frame(ev, -1)->reader = reader;
}

void evaluation_end(struct evaluation *ev) {
  struct frame *frame = ev->top;
  *frame->reader = frame->read;
  frame->reader->reads = keep_reads(ev, frame);
  pop_frame(ev);
}

// ---- Who is to blame ----

struct blame {
  struct evaluation *ev;
  unsigned search;
  int *roots;
  size_t count, room;
};

static bool lacking(const struct result *result) {
  return result->progress == DONE && (result->condition == CONDITION_UNSET || result->condition == CONDITION_MISSING);
}

static bool is_bundle(const struct blame *blame, int slot) {
  int entity;
  return row_of(blame->ev, slot, &entity)->sort == SORT_BUNDLE;
}

// A value is to blame itself when it says so, or when nothing that it read is lacking. Nobody can measure a bundle:
// one that cannot be worked out leaves the blame, and its reason, with the value that reads it.
static bool to_blame(const struct blame *blame, struct result *result) {
  if (result->because) return true;
  bool blameless = false;
  for (size_t i = 0; i < result->read_count; i++) {
    const struct result *read = &blame->ev->results[result->reads[i]];
    if (!lacking(read)) continue;
    if (read->because && is_bundle(blame, result->reads[i])) result->because = read->because;
    blameless = true;
  }
  return result->because || !blameless;
}

static void blame_slot(struct blame *blame, int slot) {
  struct result *result = &blame->ev->results[slot];
  if (result->blamed == blame->search || !lacking(result)) return;
  result->blamed = blame->search;
  if (!to_blame(blame, result)) {
    for (size_t i = 0; i < result->read_count; i++) blame_slot(blame, result->reads[i]);
    return;
  }
  blame->roots = arena_grow(blame->ev->arena, blame->roots, blame->count, &blame->room, sizeof(int));
  blame->roots[blame->count++] = slot;
}

size_t evaluation_roots(struct evaluation *ev, const int *reads, size_t count, int **roots) {
  struct blame blame = {.ev = ev, .search = ++ev->stamps};
  for (size_t i = 0; i < count; i++) blame_slot(&blame, reads[i]);
  *roots = blame.roots;
  return blame.count;
}
