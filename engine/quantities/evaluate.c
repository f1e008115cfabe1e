// SPDX-License-Identifier: MIT
#include "quantities/evaluate.h"

#include <math.h>
#include <string.h>

#include "design/overlay.h"
#include "quantities/evaluate_inside.h"
#include "quantities/functions.h"

static void name_rows(struct evaluation *ev) {
  const struct store *store = ev->store;
  for (size_t e = 0; e < store->entity_count; e++) {
    const struct entity *entity = &store->entities[e];
    const unsigned short *rows = &store->row_list[store->kind_rows[entity->kind]];
    for (int i = 0; i < store->kind_slots[entity->kind]; i++) ev->results[entity->first_slot + i].row = rows[i];
  }
}

struct evaluation *evaluation_in(struct arena *arena, const struct store *store, struct problems *problems) {
  struct evaluation *ev = arena_alloc(arena, sizeof *ev);
  *ev = (struct evaluation){.arena = arena, .store = store, .problems = problems};
  ev->results = arena_array(arena, store->slot_count + 1, sizeof *ev->results);
  for (size_t m = 0; m < store->measurement_count; m++) {
    const struct measurement *measured = &store->measurements[m];
    ev->results[measured->slot] = (struct result){
        .value = measured->value, .scale = fabs(measured->value), .condition = CONDITION_MEASURED, .progress = DONE};
  }
  name_rows(ev);
  return ev;
}

const struct store *evaluation_design(const struct evaluation *ev) { return ev->store; }
struct arena *evaluation_arena(struct evaluation *ev) {
  return ev->arena;
}
bool evaluation_marked(const struct evaluation *ev) {
  const struct frame *frame = evaluation_top(ev);
  return frame && (frame->missing || frame->impossible);
}

// ---- Reading ----

static void mark_by_condition(struct evaluation *ev, const struct result *result) {
  struct frame *frame = evaluation_top(ev);
  if (!frame) return;
  if (result->condition == CONDITION_UNSET || result->condition == CONDITION_MISSING) frame->missing = true;
  if (result->condition == CONDITION_IMPOSSIBLE) frame->impossible = true;
  if (result->doubt) frame->doubt = true;
  if (result->doubt && frame->slot < 0) frame->outside = true;
}

double evaluation_number(struct evaluation *ev, int entity, enum row_id row) {
  const struct result *result = evaluation_settle(ev, entity, row);
  if (!result) return NAN;
  mark_by_condition(ev, result);
  struct frame *frame = evaluation_top(ev);
  if (frame && isfinite(result->scale)) frame->scale = fmax(frame->scale, result->scale);
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
  const struct result *result = evaluation_settle(ev, entity, row);
  if (!result) return "";
  mark_by_condition(ev, result);
  const char *text = store_at(ev->store, entity, row)->text;
  return text ? text : "";
}

const void *evaluation_bundle(struct evaluation *ev, int entity, enum row_id row) {
  const struct result *result = evaluation_settle(ev, entity, row);
  if (!result) return NULL;
  mark_by_condition(ev, result);
  return result->bundle;
}

size_t evaluation_members(struct evaluation *ev, int entity, enum row_id list) {
  if (entity < 0) {
    if (ev->depth) evaluation_top(ev)->missing = true;
    return 0;
  }
  evaluation_note(ev, store_slot(ev->store, entity, list));
  return store_members(ev->store, entity, list);
}

int evaluation_member(struct evaluation *ev, int entity, enum row_id list, size_t index) {
  return store_member(ev->store, entity, list, index);
}

bool evaluation_stated(struct evaluation *ev, int entity, enum row_id row) {
  if (entity < 0) return false;
  int slot = store_slot(ev->store, entity, row);
  evaluation_note_ask(ev, slot);
  return ev->results[slot].said || ev->store->slots[slot].condition == CONDITION_GIVEN ||
         ev->results[slot].condition == CONDITION_MEASURED;
}

// ---- Marks that formulas set ----

void evaluation_missing(struct evaluation *ev, const char *because) {
  evaluation_top(ev)->missing = true;
  evaluation_top(ev)->because = because;
}

void evaluation_outside(struct evaluation *ev) { evaluation_top(ev)->outside = true; }

static bool told_already(const struct problems *problems, const char *where, const char *said) {
  for (size_t i = 0; i < problems->count; i++) {
    const struct problem *told = &problems->list[i];
    if (told->where && strcmp(told->where, where) == 0 && strcmp(told->said, said) == 0) return true;
  }
  return false;
}

void evaluation_impossible(struct evaluation *ev, int entity, enum row_id given, const char *said, const char *right) {
  evaluation_top(ev)->impossible = true;
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
  evaluation_push(ev, -1);
  const struct result *result = evaluation_settle(ev, entity, row);
  evaluation_pop(ev);
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
  evaluation_push(ev, -1);
  double value = function->number(ev, entity);
  bool marked = evaluation_marked(ev);
  evaluation_pop(ev);
  return marked ? NAN : value;
}

double evaluation_worked_out(struct evaluation *ev, int entity, enum row_id row) {
  const struct row_function *function = row_function(row);
  if (!function || !function->number) return NAN;
  struct frame before = *evaluation_top(ev);
  double value = function->number(ev, entity);
  bool marked = evaluation_marked(ev);
  struct frame *frame = evaluation_top(ev);  // frames may have moved
  frame->missing = before.missing;
  frame->impossible = before.impossible;
  frame->outside = before.outside;
  frame->because = before.because;
  frame->doubt = before.doubt;
  return marked && !before.missing && !before.impossible ? NAN : value;
}

const char *evaluation_because(const struct evaluation *ev, int slot) { return ev->results[slot].because; }

size_t evaluation_reads(const struct evaluation *ev, int slot, const int **slots) {
  *slots = ev->results[slot].reads;
  return ev->results[slot].read_count;
}
