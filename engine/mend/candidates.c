// SPDX-License-Identifier: MIT
// What could be changed about a finding: what its rule proposes, and what the judged value hangs on.
#include <math.h>
#include <string.h>

#include "mend/candidates_inside.h"
#include "units/read.h"

struct candidate *gathering_add(struct gathering *g) {
  g->list = arena_grow(g->m->arena, g->list, g->count, &g->room, sizeof *g->list);
  struct candidate *candidate = &g->list[g->count++];
  *candidate = (struct candidate){.price = NAN};
  return candidate;
}

// ---- bounds ----

static double read_bound(struct mending *m, const char *text, enum dimension dimension, double otherwise) {
  struct text wrong = text_in(m->arena), right = text_in(m->arena);
  struct reading reading;
  if (!text || !unit_read(text, strlen(text), dimension, &reading, &wrong, &right)) return otherwise;
  return reading.value;
}

// What the given takes at all, and what a rule or a builder would go to.
static void bound(struct mending *m, struct move *move, double least, double most) {
  const struct row *row = catalogue_row(move->row);
  double above = read_bound(m, row->above, row->dimension, -INFINITY);
  move->least = fmax(read_bound(m, row->least, row->dimension, -INFINITY), above + move->step / 2);
  move->most = read_bound(m, row->most, row->dimension, INFINITY);
  if (!isnan(least)) move->least = fmax(move->least, least);
  if (!isnan(most)) move->most = fmin(move->most, most);
}

static double value_now(const struct gathering *g, int entity, enum row_id row) {
  return evaluation_number(g->base->review->evaluation, entity, row);
}

static bool is_measured(const struct gathering *g, int entity, enum row_id row) {
  return store_measured(g->base->store, store_slot(g->base->store, entity, row)) != NULL;
}

// ---- the rule's own ----

struct targets {
  int entities[MOST_MOVES];
  enum row_id rows[MOST_MOVES];
  size_t count;
};

static void follow(const struct gathering *g, const struct path *path, size_t step, int entity,
                   struct targets *targets);

static void follow_list(const struct gathering *g, const struct path *path, size_t step, int entity, enum row_id list,
                        struct targets *targets) {
  const struct store *store = g->base->store;
  bool linked = catalogue_row(list)->sort == SORT_REFERENCES;
  for (size_t i = 0; i < store_members(store, entity, list); i++) {
    int member = store_member(store, entity, list, i);
    if (linked) member = evaluation_reference(g->base->review->evaluation, member, ROW_link_to);
    if (member >= 0) follow(g, path, step, member, targets);
  }
}

static void follow(const struct gathering *g, const struct path *path, size_t step, int entity,
                   struct targets *targets) {
  const struct store *store = g->base->store;
  const struct path_step *at = &path->steps[step];
  if (at->single != KIND_COUNT) {
    if (store_count(store, at->single)) follow(g, path, step + 1, store_of_kind(store, at->single, 0), targets);
    return;
  }
  enum row_id row = (enum row_id)at->rows[store->entities[entity].kind];
  if (row == ROW_COUNT) return;
  if (step + 1 == path->count) {
    if (targets->count == MOST_MOVES) return;
    targets->entities[targets->count] = entity;
    targets->rows[targets->count++] = row;
  } else if (catalogue_row(row)->sort == SORT_REFERENCE) {
    int next = evaluation_reference(g->base->review->evaluation, entity, row);
    if (next >= 0) follow(g, path, step + 1, next, targets);
  } else {
    follow_list(g, path, step + 1, entity, row, targets);
  }
}

static const char **one_option(struct mending *m, const char *text) {
  const char **options = arena_array(m->arena, 1, sizeof *options);
  options[0] = text;
  return options;
}

static bool own_number(struct gathering *g, const struct rule_fix *fix, struct move *move) {
  const struct mend_row *row = mend_row(move->row);
  double ignored;
  move->from = value_now(g, move->entity, move->row);
  if (fix->verb == FIX_SET || !isnan(fix->to)) {
    move->options = one_option(g->m, isnan(fix->to) || !fix->text ? NULL : fix->text);
    move->option_count = move->options[0] ? 1 : 0;
    return move->option_count > 0;
  }
  move->way = fix->verb == FIX_LOWER ? -1 : 1;
  if (!isfinite(move->from) || is_measured(g, move->entity, move->row)) return false;
  if (fix->amount && isfinite(fix->by)) {
    move->options =
        one_option(g->m, mend_value_text(g->m, move->row, move->from + move->way * fix->by, NULL, &ignored));
    move->option_count = move->options[0] ? 1 : 0;
    return move->option_count > 0;
  }
  // The rule's step is written in one system of units; in the other the trade's own step is what can be built.
  bool trade = row && row->us && (g->m->units == UNITS_SI || isnan(fix->by));
  move->step = trade ? mend_row_step(row, g->m->units) : fabs(fix->by);
  if (!(move->step > 0)) return false;
  bound(g->m, move, fix->least, fix->most);
  return true;
}

static const char *const *words_of(struct gathering *g, const struct move *move, size_t *count) {
  const struct row *row = catalogue_row(move->row);
  enum word now = evaluation_choice(g->base->review->evaluation, move->entity, move->row);
  const char **words = arena_array(g->m->arena, WORD_COUNT, sizeof *words);
  *count = 0;
  for (int w = 0; w < WORD_COUNT; w++) {
    const struct word_row *word = catalogue_word((enum word)w);
    if (word->set == row->words && (enum word)w != now) words[(*count)++] = word->word;
  }
  return words;
}

static bool own_move(struct gathering *g, const struct rule_fix *fix, struct move *move) {
  enum row_sort sort = catalogue_row(move->row)->sort;
  if (fix->verb != FIX_CHOOSE && sort == SORT_NUMBER) return own_number(g, fix, move);
  if (fix->text) {
    move->options = one_option(g->m, fix->text);
    move->option_count = 1;
    return true;
  }
  if (fix->verb != FIX_CHOOSE || sort != SORT_CHOICE) return false;
  move->options = words_of(g, move, &move->option_count);
  return move->option_count > 0;
}

// What can be bought is tried upward and downward, each a candidate of its own.
static bool adds_purchases(struct gathering *g, const struct rule_fix *fix, const struct targets *targets) {
  const struct row *row = targets->count ? catalogue_row(targets->rows[0]) : NULL;
  if (fix->verb != FIX_CHOOSE || fix->text || !row || row->sort != SORT_TEXT) return false;
  for (size_t i = 0; i < targets->count; i++) gather_purchases(g, targets->entities[i], targets->rows[i], true);
  return true;
}

static enum mend_rank rank_of(enum row_id row) { return mend_row(row) ? mend_row(row)->rank : MEND_ADJUST; }

// Every target by itself, then all together.
static void add_single(struct gathering *g, const struct rule_fix *fix, const struct targets *targets) {
  struct candidate all = {.own = true, .price = NAN};
  for (size_t i = 0; i < targets->count; i++) {
    struct move move = {.entity = targets->entities[i], .row = targets->rows[i]};
    if (!own_move(g, fix, &move)) continue;
    *gathering_add(g) =
        (struct candidate){.moves = {move}, .count = 1, .own = true, .rank = rank_of(move.row), .price = NAN};
    all.moves[all.count++] = move;
    all.rank = rank_of(move.row);
  }
  if (all.count > 1) *gathering_add(g) = all;
}

static void add_together(struct gathering *g, const struct rule_fixes *fixes) {
  struct candidate all = {.own = true, .price = NAN};
  for (size_t i = 0; i < fixes->count; i++) {
    struct targets targets = {.count = 0};
    follow(g, &fixes->list[i].path, 0, g->finding->entity, &targets);
    for (size_t t = 0; t < targets.count && all.count < MOST_MOVES; t++) {
      struct move move = {.entity = targets.entities[t], .row = targets.rows[t]};
      if (own_move(g, &fixes->list[i], &move)) all.moves[all.count++] = move;
    }
  }
  if (all.count) *gathering_add(g) = all;
}

static void gather_own(struct gathering *g) {
  const struct rule_fixes *fixes = g->finding->fix ? g->finding->fix : g->base->review->rules[g->finding->rule].fix;
  if (!fixes || fixes->count == 0) return;
  if (fixes->count > 1) {
    add_together(g, fixes);
    return;
  }
  struct targets targets = {.count = 0};
  follow(g, &fixes->list[0].path, 0, g->finding->entity, &targets);
  if (!adds_purchases(g, &fixes->list[0], &targets)) add_single(g, &fixes->list[0], &targets);
}

// ---- what the judged value hangs on ----

static bool is_own(const struct gathering *g, int entity, enum row_id row) {
  for (size_t i = 0; i < g->count; i++) {
    const struct candidate *candidate = &g->list[i];
    for (size_t k = 0; k < candidate->count && candidate->own; k++) {
      if (candidate->moves[k].entity == entity && candidate->moves[k].row == row) return true;
    }
  }
  return false;
}

// A builder shifts a thing somewhat and does not draw another garden.
enum { MOST_SHIMS = 48 };
static void gather_size(struct gathering *g, const struct mend_row *row, int entity) {
  struct move move = {.entity = entity, .row = row->row, .from = value_now(g, entity, row->row)};
  double times = row->rank == MEND_ADJUST ? 4 : 3;
  move.step = mend_row_step(row, g->m->units);
  if (!isfinite(move.from) || !(move.step > 0)) return;
  bool point = catalogue_row(row->row)->dimension == DIM_ELEVATION;
  double reach = MOST_SHIMS * move.step;
  double least = point ? move.from - reach : move.from / times;
  double most = point ? move.from + reach : fmax(move.from * times, move.from + 4 * move.step);
  bound(g->m, &move, least, most);
  for (move.way = 1; move.way >= -1; move.way -= 2)
    *gathering_add(g) = (struct candidate){.moves = {move}, .count = 1, .rank = row->rank, .price = NAN};
}

static void gather_word(struct gathering *g, const struct mend_row *row, int entity) {
  const char *word = catalogue_word(row->word)->word;
  if (evaluation_choice(g->base->review->evaluation, entity, row->row) == row->word) return;
  struct move move = {.entity = entity, .row = row->row, .options = one_option(g->m, word), .option_count = 1};
  *gathering_add(g) = (struct candidate){.moves = {move}, .count = 1, .rank = row->rank, .price = NAN};
}

// What was taken of it on site would not hold for another stone.
static bool is_stone_measured(const struct gathering *g, const struct mend_row *row, int entity) {
  const struct store *store = g->base->store;
  for (size_t i = 0; i < store->measurement_count && row->rank == MEND_STONE; i++) {
    int of;
    store_row_of_slot(store, store->measurements[i].slot, &of);
    if (of == entity) return true;
  }
  return false;
}

static void gather_slot(struct gathering *g, int slot) {
  int entity;
  enum row_id id = store_row_of_slot(g->base->store, slot, &entity);
  if (id == ROW_pump_curve) id = ROW_pump_model;  // nobody bends a curve: another pump has another
  const struct mend_row *row = mend_row(id);
  if (!row || is_own(g, entity, id) || is_measured(g, entity, id)) return;
  if (is_stone_measured(g, row, entity)) return;
  if (row->us)
    gather_size(g, row, entity);
  else if (row->word != WORD_COUNT)
    gather_word(g, row, entity);
  else
    gather_purchases(g, entity, id, false);
}

// Nearest first: what a value was worked out from stands before what that was worked out from.
static void walk(struct gathering *g, const int *first, size_t count, void (*visit)(struct gathering *g, int slot)) {
  struct arena *arena = g->m->arena;
  bool *seen = arena_array(arena, g->base->store->slot_count + 1, sizeof *seen);
  int *queue = arena_array(arena, g->base->store->slot_count + 1, sizeof *queue);
  size_t length = 0;
  for (size_t i = 0; i < count; i++) {
    if (!seen[first[i]]) queue[length++] = first[i];
    seen[first[i]] = true;
  }
  for (size_t at = 0; at < length; at++) {
    const int *reads;
    size_t read_count = evaluation_reads(g->base->review->evaluation, queue[at], &reads);
    visit(g, queue[at]);
    for (size_t i = 0; i < read_count; i++) {
      if (!seen[reads[i]]) queue[length++] = reads[i];
      seen[reads[i]] = true;
    }
  }
}

// A value of the design by itself; else all that the rule read.
static void walk_from_judged(struct gathering *g, void (*visit)(struct gathering *g, int slot)) {
  const struct outcome *finding = g->finding;
  const struct comparison *judged = finding->judged < 0 ? NULL : &finding->comparisons[finding->judged];
  if (judged && judged->entity >= 0 && judged->row != ROW_COUNT) {
    int slot = store_slot(g->base->store, judged->entity, judged->row);
    walk(g, &slot, 1, visit);
  } else {
    walk(g, finding->reads, finding->read_count, visit);
  }
}

static bool rests_on_a_fact(const struct gathering *g) {
  const struct outcome *finding = g->finding;
  const struct comparison *judged = finding->judged < 0 ? NULL : &finding->comparisons[finding->judged];
  const int *reads;
  if (!judged || judged->entity < 0 || judged->row == ROW_COUNT) return false;
  size_t count =
      evaluation_reads(g->base->review->evaluation, store_slot(g->base->store, judged->entity, judged->row), &reads);
  for (size_t i = 0; i < count; i++) {
    int entity;
    if (mend_row_is_fact(store_row_of_slot(g->base->store, reads[i], &entity))) return true;
  }
  return false;
}

static void sort_by_rank(struct candidate *list, size_t count) {
  for (size_t i = 1; i < count; i++) {
    struct candidate moved = list[i];
    size_t at = i;
    for (; at > 0 && list[at - 1].rank > moved.rank; at--) list[at] = list[at - 1];
    list[at] = moved;
  }
}

size_t candidates_of(struct mending *m, const struct mend_base *base, const struct outcome *finding,
                     const struct candidate **list) {
  struct gathering *g = arena_alloc(m->arena, sizeof *g);
  *g = (struct gathering){.m = m, .base = base, .finding = finding};
  gather_own(g);
  size_t own = g->count;
  if (!rests_on_a_fact(g)) walk_from_judged(g, gather_slot);
  sort_by_rank(g->list + own, g->count - own);
  *list = g->list;
  return g->count;
}

static void note_measured(struct gathering *g, int slot) {
  if (g->measured < 0 && store_measured(g->base->store, slot)) g->measured = slot;
}

int candidate_measured_slot(struct mending *m, const struct mend_base *base, const struct outcome *finding) {
  struct gathering *g = arena_alloc(m->arena, sizeof *g);
  *g = (struct gathering){.m = m, .base = base, .finding = finding, .measured = -1};
  walk_from_judged(g, note_measured);
  return g->measured;
}
