// SPDX-License-Identifier: MIT
// Prices and rates in stock: givens of `prices` and `crew`, filled and checked like a design's.
#include <string.h>

#include "design/written.h"
#include "rulebook/read_stock.h"

// What a crew gets done in a day is the firm's to know; who comes and for how long, and what was seen to on site, is
// the job's, and stays unset until a design says it.
static const enum row_id rates[] = {ROW_crew_stones_per_day, ROW_crew_soil_per_day, ROW_crew_wall_per_day,
                                    ROW_crew_paving_per_day};
enum { RATES = sizeof rates / sizeof *rates };

static bool is_rate(enum row_id row) {
  for (size_t i = 0; i < RATES; i++) {
    if (rates[i] == row) return true;
  }
  return false;
}

static void refuse_rate(struct reading_rule *at, const struct value *member, enum row_id row) {
  const char *names[RATES];
  for (size_t i = 0; i < RATES; i++) names[i] = catalogue_row(rates[i])->name;
  if (row != ROW_COUNT)
    rule_complain(at, member->line, "rates",
                  text_phrase(at->arena, "`%s` belongs to a job and not to the firm", member->key), NULL,
                  "it in the design");
  else
    rule_complain(at, member->line, "rates", "is no rate of a crew", member->key,
                  rule_nearest(at->arena, member->key, names, RATES));
}

static bool may_stand(struct reading_rule *at, enum kind kind, const struct value *member) {
  if (kind != KIND_crew || !member->key) return true;
  enum row_id row = catalogue_row_named(kind, member->key, strlen(member->key));
  if (is_rate(row)) return true;
  refuse_rate(at, member, row);
  return false;
}

static struct written *chosen(struct reading_rule *at, enum kind kind, const struct value *table) {
  struct written *all = stock_as_written(at->arena, table), **end = &all->first;
  for (const struct value *member = table->first; member; member = member->next) {
    if (!may_stand(at, kind, member)) continue;
    *end = stock_as_written(at->arena, member);
    end = &(*end)->next;
  }
  *end = NULL;
  all->key = NULL;
  all->key_length = 0;
  return all;
}

void stock_read_figures(struct reading_rule *at, enum kind kind, const struct value *table) {
  struct store *store = store_in(at->arena, at->file->name);
  struct filling filling = {store, at->problems};
  fill_entity(&filling, kind, chosen(at, kind, table));
  for (int r = 0; r < ROW_COUNT; r++) {
    if (catalogue_row((enum row_id)r)->kind != kind || !row_is_given(catalogue_row((enum row_id)r))) continue;
    const struct slot *slot = store_at(store, 0, (enum row_id)r);
    if (slot->condition != CONDITION_GIVEN) continue;
    stock_keep_figure(at, (struct stock_figure){.row = (enum row_id)r,
                                                .text = slot->text,
                                                .value = slot->value,
                                                .from = {at->file->layer, {at->file->name, slot->line}}});
  }
}
