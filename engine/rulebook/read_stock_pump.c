// SPDX-License-Identifier: MIT
// A pump in stock: a small design of one pump, filled and checked like any other.
#include <math.h>
#include <string.h>

#include "design/contradictions.h"
#include "design/written.h"
#include "rulebook/read_stock.h"

// What belongs to the pump as it is bought; the rest says how a design uses it.
static const enum row_id bought[] = {ROW_pump_type,
                                     ROW_pump_curve,
                                     ROW_pump_best_flow,
                                     ROW_pump_power,
                                     ROW_pump_starting_current,
                                     ROW_pump_running_current,
                                     ROW_pump_runs_dry,
                                     ROW_pump_low_water_cutoff,
                                     ROW_pump_cord,
                                     ROW_pump_metal};
enum { BOUGHT = sizeof bought / sizeof *bought, NAMES = BOUGHT + 2 };

struct pump_reading {
  struct reading_rule *at;
  const struct value *table;
  struct stock_pump pump;
  struct store *store;
  int entity;
};

static bool is_bought(const char *key) {
  for (size_t i = 0; i < BOUGHT; i++) {
    if (strcmp(catalogue_row(bought[i])->name, key) == 0) return true;
  }
  return false;
}

static void refuse_key(struct reading_rule *at, const struct value *member) {
  const char *names[NAMES] = {"model", "price"};
  for (size_t i = 0; i < BOUGHT; i++) names[i + 2] = catalogue_row(bought[i])->name;
  bool of_design = catalogue_row_named(KIND_pump, member->key, strlen(member->key)) != ROW_COUNT;
  if (of_design)
    rule_complain(at, member->line, "pumps",
                  text_phrase(at->arena, "`%s` says how a design uses a pump, not what is bought", member->key), NULL,
                  "it in the design");
  else
    rule_complain(at, member->line, "pumps", text_phrase(at->arena, "a pump in stock has no `%s`", member->key), NULL,
                  rule_nearest(at->arena, member->key, names, NAMES));
}

// A name may hold what no name in a design may (a dot), but no line's end.
static void read_model(struct pump_reading *r, const struct value *member) {
  r->pump.model = rule_text(r->at, member);
  if (r->pump.model && !written_is_clean(r->pump.model, strlen(r->pump.model)))
    rule_complain(r->at, member->line, "pumps", "holds control characters in its model", r->pump.model,
                  "plain text on one line");
}

static void read_key(struct pump_reading *r, const struct value *member) {
  if (!member->key)
    rule_complain(r->at, member->line, "pumps", "holds a value without its name", value_shown(r->at->arena, member),
                  "{ model = \"...\", type = \"submersible\", curve = { ... } }");
  else if (strcmp(member->key, "model") == 0)
    read_model(r, member);
  else if (strcmp(member->key, "price") == 0)
    stock_read_price(r->at, member, "pumps.price", &r->pump.price);
  else if (!is_bought(member->key))
    refuse_key(r->at, member);
}

static bool is_own(const char *key) { return key && (strcmp(key, "model") == 0 || strcmp(key, "price") == 0); }

static struct written *without_own(struct written *table) {
  struct written **at = &table->first;
  while (*at) {
    if (is_own((*at)->key))
      *at = (*at)->next;
    else
      at = &(*at)->next;
  }
  return table;
}

// The name leads to its messages alone; one that cannot stand in a path is left out.
static bool fill(struct pump_reading *r) {
  struct problems *problems = r->at->problems;
  size_t before = problems->count;
  struct filling filling = {r->store, problems};
  struct written *written = without_own(stock_as_written(r->at->arena, r->table));
  bool plain = r->pump.model && !strpbrk(r->pump.model, ".[");
  written->key = plain ? r->pump.model : NULL;
  written->key_length = plain ? strlen(r->pump.model) : 0;
  r->entity = (int)r->store->entity_count;
  fill_entity(&filling, KIND_pump, written);
  if (problems->count == before && store_settle_example(r->store, problems)) check_contradictions(r->store, problems);
  return problems->count == before;
}

static void miss(struct pump_reading *r, int line, const char *what, const char *right) {
  rule_complain(r->at, line, "pumps", text_phrase(r->at->arena, "the pump has no %s", what), NULL, right);
}

static void check_curve(struct pump_reading *r) {
  size_t count = store_members(r->store, r->entity, ROW_pump_curve);
  const char *right = "curve = { {\"0 gal/h\", \"14 ft\"}, {\"2,100 gal/h\", \"0 ft\"} }";
  if (count < 2) {
    miss(r, r->table->line, count ? "second point in its curve" : "curve", right);
    return;
  }
  for (size_t i = 0; i < count; i++) {
    int point = store_member(r->store, r->entity, ROW_pump_curve, i);
    bool whole = store_at(r->store, point, ROW_curve_point_flow)->condition == CONDITION_GIVEN &&
                 store_at(r->store, point, ROW_curve_point_head)->condition == CONDITION_GIVEN;
    if (!whole) miss(r, r->store->entities[point].at.line, "flow and head at a point of its curve", right);
  }
}

// ---- as data -------------------------------------------------------------------------------------------------------

static void add_quoted(struct text *text, const char *words) {
  text_add_char(text, '"');
  for (; *words; words++) {
    if (*words == '"' || *words == '\\') text_add_char(text, '\\');
    text_add_char(text, *words);
  }
  text_add_char(text, '"');
}

// { {"0 gal/h", "14 ft"}, ... }, or the same with brackets.
static const char *curve_text(const struct pump_reading *r, const char *opens, const char *closes) {
  struct text text = text_in(r->at->arena);
  size_t count = store_members(r->store, r->entity, ROW_pump_curve);
  text_printf(&text, "%s ", opens);
  for (size_t i = 0; i < count; i++) {
    int point = store_member(r->store, r->entity, ROW_pump_curve, i);
    text_printf(&text, "%s%s", i ? ", " : "", opens);
    add_quoted(&text, store_at(r->store, point, ROW_curve_point_flow)->text);
    text_add(&text, ", ");
    add_quoted(&text, store_at(r->store, point, ROW_curve_point_head)->text);
    text_add(&text, closes);
  }
  text_printf(&text, " %s", closes);
  return text_end(&text);
}

static void keep_curve(struct pump_reading *r) {
  size_t count = store_members(r->store, r->entity, ROW_pump_curve);
  struct stock_point *curve = arena_array(r->at->arena, count, sizeof *curve);
  for (size_t i = 0; i < count; i++) {
    int point = store_member(r->store, r->entity, ROW_pump_curve, i);
    curve[i].flow = store_at(r->store, point, ROW_curve_point_flow)->value;
    curve[i].head = store_at(r->store, point, ROW_curve_point_head)->value;
  }
  r->pump.curve = curve;
  r->pump.point_count = count;
}

static void keep_givens(struct pump_reading *r) {
  struct stock_given *givens = arena_array(r->at->arena, BOUGHT, sizeof *givens);
  size_t count = 0;
  for (size_t i = 0; i < BOUGHT; i++) {
    const struct slot *slot = store_at(r->store, r->entity, bought[i]);
    if (slot->condition != CONDITION_GIVEN) continue;
    struct stock_given given = {.row = bought[i]};
    if (bought[i] == ROW_pump_curve) {
      given.lua = curve_text(r, "{", "}");
      given.json = curve_text(r, "[", "]");
    } else {
      given.text = slot->text ? slot->text : catalogue_word((enum word)slot->value)->word;
    }
    givens[count++] = given;
  }
  r->pump.givens = givens;
  r->pump.given_count = count;
}

void stock_read_pump(struct reading_rule *at, const struct value *table) {
  struct reading_rule one = *at;
  one.wrong = false;
  struct pump_reading r = {.at = &one, .table = table, .store = store_in(at->arena, at->file->name)};
  r.pump = (struct stock_pump){.price = NAN, .from = {at->file->layer, {at->file->name, table->line}}};
  for (const struct value *member = table->first; member; member = member->next) read_key(&r, member);
  if (!r.pump.model && !one.wrong) miss(&r, table->line, "model", "model = \"...\", its name in your list");
  if (!one.wrong && !fill(&r)) one.wrong = true;
  if (!one.wrong) check_curve(&r);
  if (!one.wrong && store_at(r.store, r.entity, ROW_pump_type)->condition != CONDITION_GIVEN)
    miss(&r, table->line, "type", "type = \"submersible\" or \"dry\"");
  if (!one.wrong) {
    keep_curve(&r);
    keep_givens(&r);
    stock_keep_pump(&one, r.pump);
  }
  at->wrong = at->wrong || one.wrong;
}
