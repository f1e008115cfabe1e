// SPDX-License-Identifier: MIT
// Working out one slot on its first read: its function is called, and what comes of it is kept.
#include <math.h>

#include "quantities/evaluate_inside.h"
#include "quantities/functions.h"

static bool same_dimension(const struct row *a, const struct row *b) {
  struct powers first = dimension_row(a->dimension)->powers, second = dimension_row(b->dimension)->powers;
  first.point = second.point = 0;
  return row_is_number(a) && row_is_number(b) && powers_equal(first, second);
}

// Elevations of 100 m that differ by 2 cm carry the rounding of 100 m. What was merely asked about went into nothing.
static double scale_of(const struct evaluation *ev, const struct result *of, double value) {
  const struct row *row = catalogue_row((enum row_id)of->row);
  double scale = fabs(value);
  for (size_t i = 0; i < of->read_count; i++) {
    const struct result *read = &ev->results[of->reads[i]];
    if (of->merely_asked && of->merely_asked[i]) continue;
    if (same_dimension(row, catalogue_row((enum row_id)read->row))) scale = fmax(scale, read->scale);
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

static void finish(struct evaluation *ev, int slot, int entity, double value, const void *bundle) {
  struct result *result = &ev->results[slot];
  const struct frame *frame = evaluation_top(ev);
  bool bundled = catalogue_row((enum row_id)result->row)->sort == SORT_BUNDLE;
  result->reads = evaluation_kept(ev, &result->read_count, &result->merely_asked);
  result->progress = DONE;
  result->value = NAN;
  if (frame->missing) {
    result->condition = CONDITION_MISSING;
    result->because = frame->because;
  } else if (frame->impossible) {
    result->condition = CONDITION_IMPOSSIBLE;
  } else if (bundled ? bundle == NULL : isnan(value)) {
    result->condition = CONDITION_IMPOSSIBLE;
    tell_not_a_number(ev, entity, (enum row_id)result->row);
  } else {
    result->value = value;
    result->bundle = bundle;
    result->condition = frame->outside ? CONDITION_OUTSIDE : CONDITION_COMPUTED;
    result->doubt = frame->doubt || frame->outside;
    result->scale = bundled ? 0 : scale_of(ev, result, value);
  }
}

void evaluation_work_out(struct evaluation *ev, int slot, int entity) {
  const struct row_function *function = row_function((enum row_id)ev->results[slot].row);
  ev->results[slot].progress = WORKING;
  evaluation_push(ev, slot);
  double value = function->number ? function->number(ev, entity) : 0;
  const void *bundle = function->bundle ? function->bundle(ev, entity) : NULL;
  finish(ev, slot, entity, value, bundle);
  evaluation_pop(ev);
}

// Formulas call each other through this file; small stacks (threads) must not overflow on a design that is one chain.
enum { DEEPEST_CHAIN = 1500 };

bool evaluation_too_deep(const struct evaluation *ev) { return ev->depth >= DEEPEST_CHAIN; }

void evaluation_give_up_on(struct result *result) {
  result->value = (double)NAN;
  result->condition = CONDITION_MISSING;
  result->because = "the chain of values that leads to it is too long to work out: measure it";
  result->progress = DONE;
}

static void take_given(struct result *result, const struct slot *slot) {
  result->value = slot->condition == CONDITION_UNSET ? NAN : slot->value;
  result->scale = isfinite(slot->value) ? fabs(slot->value) : 0;
  result->condition = slot->condition;
  result->progress = DONE;
}

static void read_first(struct evaluation *ev, int slot, int entity) {
  struct result *result = &ev->results[slot];
  const struct slot *given = &ev->store->slots[slot];
  bool worked_out = given->condition == CONDITION_UNSET && row_function((enum row_id)result->row);
  if (ev->in_trial) trial_keep(ev, slot);
  ev->done += !ev->in_trial;
  if (worked_out && evaluation_too_deep(ev)) {
    evaluation_give_up_on(result);
  } else if (worked_out) {
    evaluation_work_out(ev, slot, entity);
  } else {
    take_given(result, given);
  }
}

static void tell_circle(struct evaluation *ev, int slot, int entity, enum row_id row) {
  struct text said = text_in(ev->problems->arena), where = text_in(ev->problems->arena);
  text_add(&said, "depends on itself:");
  for (size_t i = ev->depth; i-- > 0 && ev->frames[i].slot != slot;) {
    int member;
    if (ev->frames[i].slot < 0) continue;
    enum row_id id = store_row_of_slot(ev->store, ev->frames[i].slot, &member);
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
  evaluation_top(ev)->impossible = true;
}

const struct result *evaluation_settle(struct evaluation *ev, int entity, enum row_id row) {
  if (entity < 0) {
    if (ev->depth) evaluation_top(ev)->missing = true;
    return NULL;
  }
  int slot = store_slot(ev->store, entity, row);
  struct result *result = &ev->results[slot];
  evaluation_note(ev, slot);
  if (result->progress == WORKING) {
    tell_circle(ev, slot, entity, row);
    return NULL;
  }
  if (result->progress == FRESH) read_first(ev, slot, entity);
  if (result->progress == SUSPECT || result->progress == VERIFYING) trial_settle(ev, slot);
  return result;
}
