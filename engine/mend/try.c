// SPDX-License-Identifier: MIT
// A design with other values in its slots, worked out and judged from the start. Nothing of it outlives the trial but
// plain data.
#include <math.h>
#include <string.h>

#include "design/contradictions.h"
#include "mend/mend_inside.h"
#include "quantities/evaluate.h"
#include "review/takeoff.h"

struct answer answer_of(const struct outcome *outcome) {
  // What is accepted, or behind us, is nothing to mend.
  struct answer answer = {.sort = outcome->counting == COUNTS ? outcome->sort : OUTCOME_NOT_APPLICABLE,
                          .severity = outcome->severity,
                          .held = outcome->counts_as_held && outcome->counting == COUNTS,
                          .judged = outcome->judged,
                          .entity = -1,
                          .row = ROW_COUNT,
                          .sense = SENSE_COUNT,
                          .value = NAN,
                          .limit = NAN,
                          .margin = NAN};
  if (outcome->judged < 0) return answer;
  const struct comparison *judged = &outcome->comparisons[outcome->judged];
  answer.sense = judged->sense;
  answer.entity = judged->entity;
  answer.row = judged->row;
  if (judged->sense != SENSE_AT_LEAST && judged->sense != SENSE_AT_MOST) return answer;
  answer.value = judged->value;
  answer.limit = judged->limit;
  answer.margin = judged->margin;
  return answer;
}

static void put(struct store *store, const struct mend_change *change) {
  struct slot *slot = store_at(store, change->entity, change->row);
  slot->condition = CONDITION_GIVEN;
  slot->text = change->text;
  slot->line = 0;
  if (catalogue_row(change->row)->sort != SORT_TEXT) slot->value = change->value;
}

static int add_point(struct store *store, const struct entity *like, int index, const struct stock_point *point) {
  int entity = (int)store->entity_count++;
  store->entities[entity] = *like;
  store->entities[entity].index = index;
  store->entities[entity].first_slot = (int)store->slot_count;
  for (size_t i = 0; i < store->kind_slots[KIND_curve_point]; i++) store->slots[store->slot_count++] = (struct slot){0};
  struct slot *flow = store_at(store, entity, ROW_curve_point_flow),
              *head = store_at(store, entity, ROW_curve_point_head);
  *flow = (struct slot){.value = point->flow, .tolerance = NAN, .condition = CONDITION_GIVEN};
  *head = (struct slot){.value = point->head, .tolerance = NAN, .condition = CONDITION_GIVEN};
  return entity;
}

// Its points stand behind all other entities; those of the old curve belong to no list any more.
static void put_curve(struct store *store, const struct mend_change *change) {
  struct slot *list = store_at(store, change->entity, change->row);
  struct entity like = {
      .kind = KIND_curve_point, .at = store->entities[change->entity].at, .owner = change->entity, .list = change->row};
  list->first = (int)store->entity_count;
  list->value = (double)change->curve_count;
  for (size_t i = 0; i < change->curve_count; i++) add_point(store, &like, (int)i + 1, &change->curve[i]);
}

static size_t points_of(struct changes changes) {
  size_t count = 0;
  for (size_t i = 0; i < changes.count; i++) count += changes.list[i].curve_count;
  return count;
}

static void *copied_array(struct arena *arena, const void *from, size_t count, size_t room, size_t size) {
  void *to = arena_array(arena, room + 1, size);
  if (count) memcpy(to, from, count * size);
  return to;
}

static struct store *copied(struct arena *arena, const struct store *base, struct changes changes) {
  struct store *store = arena_alloc(arena, sizeof *store);
  *store = *base;
  store->arena = arena;
  size_t more = points_of(changes), slots = more * base->kind_slots[KIND_curve_point];
  store->slot_room = base->slot_count + slots;
  store->slots = copied_array(arena, base->slots, base->slot_count, store->slot_room, sizeof *store->slots);
  if (more) {
    store->entity_room = base->entity_count + more;
    store->entities =
        copied_array(arena, base->entities, base->entity_count, store->entity_room, sizeof *store->entities);
  }
  for (size_t i = 0; i < changes.count; i++) (changes.list[i].curve ? put_curve : put)(store, &changes.list[i]);
  return store;
}

// ---- in an arena of its own ----

struct trial {
  struct mending *m;
  const struct mend_base *base;
  struct changes changes;
  const struct outcome *outcome;
  struct answer *answers;
  double *price;
  struct arena *arena;
  bool holds;
};

static struct evaluation *begin(struct trial *trial, struct problems *problems) {
  struct store *store = copied(trial->arena, trial->base->store, trial->changes);
  *problems = problems_in(trial->arena);
  check_contradictions(store, problems);
  trial->holds = problems->count == 0;
  return trial->holds ? evaluation_in(trial->arena, store, problems) : NULL;
}

static void judge_one(void *with) {
  struct trial *trial = with;
  struct problems problems;
  struct outcome outcome;
  struct evaluation *ev = begin(trial, &problems);
  if (!ev) return;
  rulebook_judge_one(trial->m->rulebook, ev, trial->outcome->rule, trial->outcome->entity, &outcome);
  *trial->answers = answer_of(&outcome);
}

static void judge_all(void *with) {
  struct trial *trial = with;
  struct problems problems;
  struct evaluation *ev = begin(trial, &problems);
  if (!ev) return;
  struct review review = {.arena = trial->arena, .problems = &problems, .come_to = trial->base->review->come_to};
  rulebook_judge(trial->m->rulebook, ev, &review, trial->m->watch);
  for (size_t i = 0; i < review.outcome_count; i++) trial->answers[i] = answer_of(&review.outcomes[i]);
  if (trial->price) *trial->price = takeoff_of(trial->arena, ev).price;
}

static bool run(struct trial *trial, void (*work)(void *with)) {
  size_t outcomes = trial->outcome ? 1 : trial->base->review->outcome_count;
  trial->m->trials++;
  mending_charge(trial->m, trial->base->store, outcomes);
  uint64_t before = rulebook_spent(trial->m->rulebook);
  mending_aside(trial->m, work, trial, &trial->arena);
  trial->m->work += (size_t)((rulebook_spent(trial->m->rulebook) - before) / INSTRUCTIONS_OF_WORK);
  return trial->holds;
}

static void tell(const struct mending *m, const struct mend_base *base, const struct outcome *outcome) {
  if (m->watch.tell) m->watch.tell(m->watch.with, base->review->rules[outcome->rule].id, m->entity ? m->entity : "");
}

bool mend_try_outcome(struct mending *m, const struct mend_base *base, struct changes changes,
                      const struct outcome *outcome, struct answer *answer) {
  struct trial trial = {.m = m, .base = base, .changes = changes, .outcome = outcome, .answers = answer};
  tell(m, base, outcome);
  return run(&trial, judge_one);
}

bool mend_try_all(struct mending *m, const struct mend_base *base, struct changes changes, struct answer *answers,
                  double *price) {
  double sum = NAN;
  struct trial trial = {.m = m, .base = base, .changes = changes, .answers = answers, .price = price ? &sum : NULL};
  bool holds = run(&trial, judge_all);
  if (price) *price = sum;
  return holds;
}

bool mend_go_on_from(struct mending *m, const struct mend_base *base, struct changes changes, struct arena *arena,
                     struct mend_base *kept) {
  mending_charge(m, base->store, base->review->outcome_count);
  struct problems *problems = arena_alloc(arena, sizeof *problems);
  struct review *review = arena_alloc(arena, sizeof *review);
  *problems = problems_in(arena);
  struct store *store = copied(arena, base->store, changes);
  check_contradictions(store, problems);
  if (problems->count) return false;
  *review = (struct review){.arena = arena, .problems = problems, .come_to = base->review->come_to};
  rulebook_judge(m->rulebook, evaluation_in(arena, store, problems), review, m->watch);
  struct answer *answers = arena_array(arena, review->outcome_count + 1, sizeof *answers);
  for (size_t i = 0; i < review->outcome_count; i++) answers[i] = answer_of(&review->outcomes[i]);
  *kept = (struct mend_base){store, review, answers, changes_joined(arena, base->with, changes)};
  return true;
}
