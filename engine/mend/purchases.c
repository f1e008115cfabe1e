// SPDX-License-Identifier: MIT
// Things to buy as candidates: of the firm's stock where it states one, else of the trade's tables.
#include <math.h>
#include <string.h>

#include "mend/candidates_inside.h"

enum { MOST_SIZES = 10, MOST_TRIED = 6 };

// ---- pipe and wire ----

static bool is_in_stock(const struct stock *stock, const char *size, enum word material) {
  for (size_t i = 0; i < stock->pipe_count; i++) {
    if (strcmp(stock->pipes[i].size, size) == 0 && stock->pipes[i].material == material) return true;
  }
  return false;
}

// The suction line of a dry pump says no material: it is taken as the trade's usual one.
static size_t keep_stocked(const struct gathering *g, int entity, enum row_id id, const char **texts, size_t count) {
  const struct stock *stock = rulebook_stock(g->m->rulebook);
  enum word material = WORD_pipe_material_pvc;
  if (id == ROW_pipe_size) material = evaluation_choice(g->base->review->evaluation, entity, ROW_pipe_material);
  if (!stock->states_pipes) return count;
  size_t kept = 0;
  for (size_t i = 0; i < count; i++) {
    if (is_in_stock(stock, texts[i], material)) texts[kept++] = texts[i];
  }
  return kept;
}

static void gather_sizes(struct gathering *g, const struct mend_row *row, int entity, bool own) {
  const char *now = store_at(g->base->store, entity, row->row)->text;
  if (!now) return;
  for (int way = 1; way >= -1; way -= 2) {
    const char **texts = arena_array(g->m->arena, MOST_SIZES, sizeof *texts);
    size_t count = mend_row_sizes(g->m->arena, row->list, now, way, texts, MOST_SIZES);
    if (row->list == MEND_LIST_pipe) count = keep_stocked(g, entity, row->row, texts, count);
    if (count == 0) continue;
    struct move move = {.entity = entity, .row = row->row, .way = way, .options = texts};
    move.option_count = count < MOST_TRIED ? count : MOST_TRIED;
    *gathering_add(g) = (struct candidate){.moves = {move}, .count = 1, .rank = row->rank, .own = own, .price = NAN};
  }
}

// ---- pumps ----

static const struct stock_given *given_of(const struct stock_pump *pump, enum row_id row) {
  for (size_t i = 0; i < pump->given_count; i++) {
    if (pump->givens[i].row == row) return &pump->givens[i];
  }
  return NULL;
}

// What the design says of the pump that it has must be known of the one in its place.
static bool can_replace(const struct gathering *g, int entity, const struct stock_pump *pump) {
  static const enum row_id of_maker[] = {ROW_pump_power, ROW_pump_best_flow, ROW_pump_starting_current,
                                         ROW_pump_running_current};
  const struct store *store = g->base->store;
  const char *now = store_at(store, entity, ROW_pump_model)->text;
  if (now && strcmp(now, pump->model) == 0) return false;
  for (size_t i = 0; i < sizeof of_maker / sizeof *of_maker; i++) {
    bool stated = store_at(store, entity, of_maker[i])->condition == CONDITION_GIVEN;
    if (stated && !given_of(pump, of_maker[i])) return false;
  }
  const struct stock_given *type = given_of(pump, ROW_pump_type);
  enum word has = evaluation_choice(g->base->review->evaluation, entity, ROW_pump_type);
  return !type || (has != WORD_COUNT && strcmp(type->text, catalogue_word(has)->word) == 0);
}

static bool is_json(const char *name) {
  size_t length = strlen(name);
  return length > 5 && strcmp(name + length - 5, ".json") == 0;
}

static bool says_already(const struct gathering *g, int entity, const struct stock_given *given) {
  const struct slot *slot = store_at(g->base->store, entity, given->row);
  const char *now = catalogue_row(given->row)->sort == SORT_CHOICE && slot->condition != CONDITION_UNSET
                        ? catalogue_word((enum word)slot->value)->word
                        : slot->text;
  return given->text && now && strcmp(given->text, now) == 0;
}

static struct mend_change change_of(struct gathering *g, int entity, const struct stock_pump *pump,
                                    const struct stock_given *given) {
  if (given->text) return mend_change_to(g->m, g->base, entity, given->row, given->text);
  struct mend_change change = {.entity = entity, .row = given->row, .value = NAN};
  change.text = is_json(g->base->store->file) ? given->json : given->lua;
  change.curve = pump->curve;
  change.curve_count = pump->point_count;
  return change;
}

static const struct changes *set_of(struct gathering *g, int entity, const struct stock_pump *pump) {
  struct changes *set = arena_alloc(g->m->arena, sizeof *set);
  struct mend_change *list = arena_array(g->m->arena, pump->given_count + 1, sizeof *list);
  list[set->count++] = mend_change_to(g->m, g->base, entity, ROW_pump_model, pump->model);
  for (size_t i = 0; i < pump->given_count; i++) {
    if (says_already(g, entity, &pump->givens[i])) continue;
    list[set->count] = change_of(g, entity, pump, &pump->givens[i]);
    list[set->count++].beside = true;
  }
  set->list = list;
  return set;
}

static void add_pump(struct gathering *g, int entity, const struct stock_pump *pump, bool own) {
  struct move move = {.entity = entity, .row = ROW_pump_model, .option_count = 1};
  move.sets = set_of(g, entity, pump);
  if (move.sets->count > MOST_CHANGES) return;
  *gathering_add(g) =
      (struct candidate){.moves = {move}, .count = 1, .rank = MEND_PIPE, .own = own, .price = pump->price};
}

// Without a price: last.
static bool is_cheaper(const struct stock_pump *a, const struct stock_pump *b) {
  return isnan(b->price) ? !isnan(a->price) : a->price < b->price;
}

// The cheapest first: it is taken when it will do.
static void gather_pumps(struct gathering *g, int entity, bool own) {
  const struct stock *stock = rulebook_stock(g->m->rulebook);
  const struct stock_pump **sorted = arena_array(g->m->arena, stock->pump_count + 1, sizeof(struct stock_pump *));
  size_t count = 0;
  for (size_t i = 0; i < stock->pump_count; i++) {
    if (!can_replace(g, entity, &stock->pumps[i])) continue;
    size_t at = count++;
    for (; at > 0 && is_cheaper(&stock->pumps[i], sorted[at - 1]); at--) sorted[at] = sorted[at - 1];
    sorted[at] = &stock->pumps[i];
  }
  for (size_t i = 0; i < count; i++) add_pump(g, entity, sorted[i], own);
}

void gather_purchases(struct gathering *g, int entity, enum row_id id, bool own) {
  const struct mend_row *row = mend_row(id);
  if (!row) return;
  if (row->list == MEND_LIST_pump)
    gather_pumps(g, entity, own);
  else
    gather_sizes(g, row, entity, own);
}
