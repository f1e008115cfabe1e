// SPDX-License-Identifier: MIT
// One `stock { ... }`: its lists, pipe sizes and tolerances. Pumps and figures go the way of a design's givens.
#include "rulebook/read_stock.h"

#include <math.h>
#include <string.h>

#include "catalogue/trade.h"
#include "design/store.h"
#include "design/written.h"
#include "units/read.h"

// ---- what all of them ask ------------------------------------------------------------------------------------------

static struct stock_origin origin_of(const struct reading_rule *at, const struct value *value) {
  return (struct stock_origin){at->file->layer, {at->file->name, value->line}};
}

static const char *text_of(struct reading_rule *at, const struct value *value, const char *key) {
  if (value->sort == VALUE_TEXT && value->text[0]) return value->text;
  if (value->sort != VALUE_UNKNOWN)
    rule_complain(at, value->line, key, "is not a text", value_shown(at->arena, value), "words in quotes");
  at->wrong = true;
  return NULL;
}

static bool read_value(struct reading_rule *at, const struct value *value, const char *key, enum dimension want,
                       struct reading *reading) {
  const char *text = text_of(at, value, key);
  struct text wrong = text_in(at->arena), right = text_in(at->arena);
  if (!text) return false;
  bool read = want == DIMENSION_COUNT ? unit_read_any(text, strlen(text), reading, &wrong, &right)
                                      : unit_read(text, strlen(text), want, reading, &wrong, &right);
  if (!read) rule_complain(at, value->line, key, text_end(&wrong), text, right.length ? text_end(&right) : NULL);
  return read;
}

bool stock_read_price(struct reading_rule *at, const struct value *value, const char *key, double *price) {
  struct reading reading;
  if (!read_value(at, value, key, DIM_MONEY, &reading)) return false;
  *price = reading.value;
  if (reading.value >= 0) return true;
  rule_complain(at, value->line, key, "is less than nothing", value->text, "\"$0\" or more");
  return false;
}

static struct written *new_written(struct arena *arena, const struct value *value) {
  static const enum written_sort sorts[] = {
      [VALUE_TEXT] = WRITTEN_TEXT,      [VALUE_NUMBER] = WRITTEN_NUMBER,  [VALUE_TRUTH] = WRITTEN_OTHER,
      [VALUE_TABLE] = WRITTEN_TABLE,    [VALUE_FUNCTION] = WRITTEN_OTHER, [VALUE_QUANTITY] = WRITTEN_OTHER,
      [VALUE_UNKNOWN] = WRITTEN_SPOILT, [VALUE_OTHER] = WRITTEN_OTHER};
  struct written *written = arena_alloc(arena, sizeof *written);
  *written = (struct written){.sort = sorts[value->sort],
                              .key = value->key,
                              .key_length = value->key ? strlen(value->key) : 0,
                              .index = (int)value->index,
                              .text = value_shown(arena, value),
                              .at = {.line = value->line}};
  if (written->sort == WRITTEN_OTHER) written->text = "no text in quotes";
  written->length = strlen(written->text);
  return written;
}

struct written *stock_as_written(struct arena *arena, const struct value *value) {
  struct written *written = new_written(arena, value), **end = &written->first;
  for (const struct value *member = value->first; member; member = member->next) {
    *end = stock_as_written(arena, member);
    end = &(*end)->next;
  }
  return written;
}

// ---- pipe sizes ----------------------------------------------------------------------------------------------------

static bool is_size(struct reading_rule *at, const struct value *value, const char *size) {
  const char **sizes = arena_array(at->arena, trade_pipe_count + 1, sizeof *sizes);
  for (size_t i = 0; i < trade_pipe_count; i++) {
    if (strcmp(trade_pipes[i].nominal, size) == 0) return true;
    sizes[i] = trade_pipes[i].nominal;
  }
  const char *nearest = text_nearest(size, sizes, trade_pipe_count);
  rule_complain(at, value->line, "pipe_sizes", "is no size in the table of pipes", size,
                text_phrase(at->arena, "%s", nearest ? nearest : "a nominal size such as \"1 1/2 in\""));
  return false;
}

static bool is_material(struct reading_rule *at, const struct value *value, const char *name, enum word *material) {
  const char *words[WORD_COUNT];
  size_t count = 0;
  *material = catalogue_word_named(WORDS_pipe_material, name, strlen(name));
  if (*material != WORD_COUNT) return true;
  for (int word = 0; word < WORD_COUNT; word++) {
    if (catalogue_word((enum word)word)->set == WORDS_pipe_material)
      words[count++] = catalogue_word((enum word)word)->word;
  }
  const char *nearest = rule_nearest(at->arena, name, words, count);
  struct text all = text_in(at->arena);
  for (size_t i = 0; i < count; i++) text_printf(&all, "%s\"%s\"", i ? " or " : "", words[i]);
  rule_complain(at, value->line, "pipe_sizes", "is no material of a pipe", name, nearest ? nearest : text_end(&all));
  return false;
}

static void pipe_key(struct reading_rule *at, const struct value *member, struct stock_pipe *pipe) {
  static const char *const names[] = {"size", "material", "price"};
  const char *text;
  if (!member->key)
    rule_complain(at, member->line, "pipe_sizes", "holds a value without its name", value_shown(at->arena, member),
                  "{ size = \"1 1/2 in\", material = \"PVC schedule 40\", price = \"$2\" }");
  else if (strcmp(member->key, "price") == 0)
    stock_read_price(at, member, "pipe_sizes.price", &pipe->price);
  else if (strcmp(member->key, "size") != 0 && strcmp(member->key, "material") != 0)
    rule_complain(at, member->line, "pipe_sizes", text_phrase(at->arena, "a pipe in stock has no `%s`", member->key),
                  NULL, rule_nearest(at->arena, member->key, names, 3));
  else if ((text = text_of(at, member, "pipe_sizes")) == NULL)
    return;
  else if (strcmp(member->key, "material") == 0)
    is_material(at, member, text, &pipe->material);
  else if (is_size(at, member, text))
    pipe->size = text;
}

static void read_pipe(struct reading_rule *at, const struct value *table) {
  struct reading_rule one = *at;
  one.wrong = false;
  struct stock_pipe pipe = {.material = WORD_pipe_material_pvc, .price = NAN, .from = origin_of(at, table)};
  for (const struct value *member = table->first; member; member = member->next) pipe_key(&one, member, &pipe);
  if (!pipe.size && !one.wrong)
    rule_complain(&one, table->line, "pipe_sizes", "a pipe in stock has no size", NULL, "size = \"1 1/2 in\"");
  if (!one.wrong) stock_keep_pipe(&one, pipe);
  at->wrong = at->wrong || one.wrong;
}

// ---- tolerances ----------------------------------------------------------------------------------------------------

enum width { AS_LENGTH = 1, AS_SHARE = 2 };
static const struct {
  const char *way;
  int widths;
} ways[] = {
    {"tape", AS_LENGTH},         {"laser level", AS_LENGTH}, {"level", AS_LENGTH}, {"eye", AS_LENGTH | AS_SHARE},
    {"maker's curve", AS_SHARE}, {"bucket", AS_SHARE},       {"weir", AS_SHARE},   {"meter", AS_SHARE},
    {"scale", AS_SHARE}};
enum { WAY_COUNT = sizeof ways / sizeof *ways };

static const char *right_width(int widths) {
  if (widths == AS_LENGTH) return "a length, \"1/2 in\"";
  return widths == AS_SHARE ? "a share of the value, \"5 %\"" : "a length or a share of the value, \"10 %\"";
}

static void read_tolerance(struct reading_rule *at, const struct value *value, size_t way) {
  const char *key = text_phrase(at->arena, "tolerances.%s", ways[way].way);
  struct reading reading;
  if (!read_value(at, value, key, DIMENSION_COUNT, &reading)) return;
  bool share = reading.dimension == DIM_RATIO, length = reading.dimension == DIM_LENGTH;
  const char *said = NULL;
  if (!(share && ways[way].widths & AS_SHARE) && !(length && ways[way].widths & AS_LENGTH))
    said = "is not what this is uncertain by";
  else if (reading.value <= 0)
    said = "is no width";
  else if (share && reading.value >= 1)
    said = "is all of the value or more";
  if (said) {
    rule_complain(at, value->line, key, said, value->text, right_width(ways[way].widths));
    return;
  }
  stock_keep_tolerance(at, (struct stock_tolerance){.way = ways[way].way,
                                                    .text = value->text,
                                                    .value = reading.value,
                                                    .is_share = share,
                                                    .from = origin_of(at, value)});
}

static void read_tolerances(struct reading_rule *at, const struct value *table) {
  const char *names[WAY_COUNT];
  for (size_t i = 0; i < WAY_COUNT; i++) names[i] = ways[i].way;
  for (const struct value *member = table->first; member; member = member->next) {
    size_t way = 0;
    while (way < WAY_COUNT && (!member->key || strcmp(names[way], member->key) != 0)) way++;
    if (way < WAY_COUNT) {
      read_tolerance(at, member, way);
      continue;
    }
    const char *nearest = member->key ? rule_nearest(at->arena, member->key, names, WAY_COUNT) : NULL;
    rule_complain(at, member->line, "tolerances", "names no way to take a value",
                  member->key ? member->key : value_shown(at->arena, member),
                  nearest ? nearest : "tape, laser level, level, eye, maker's curve, bucket, weir, meter or scale");
  }
}

// ---- all of it -----------------------------------------------------------------------------------------------------

static void each(struct reading_rule *at, const struct value *list,
                 void (*read)(struct reading_rule *at, const struct value *member)) {
  for (const struct value *member = list->first; member; member = member->next) {
    if (member->sort == VALUE_TABLE && !member->key)
      read(at, member);
    else if (member->sort != VALUE_UNKNOWN)
      rule_complain(at, member->line, list->key, "is a list, and something else stands in it",
                    member->key ? member->key : value_shown(at->arena, member), "{ { ... }, { ... } }");
  }
}

static void read_pumps(struct reading_rule *at, const struct value *list) {
  if (!list->first) stock_drop_pumps(at, list->line);
  at->book->stock.states_pumps = true;
  each(at, list, stock_read_pump);
}

static void read_pipes(struct reading_rule *at, const struct value *list) {
  if (!list->first) stock_drop_pipes(at, list->line);
  at->book->stock.states_pipes = true;
  each(at, list, read_pipe);
}

static void read_prices(struct reading_rule *at, const struct value *table) {
  stock_read_figures(at, KIND_prices, table);
}
static void read_rates(struct reading_rule *at, const struct value *table) { stock_read_figures(at, KIND_crew, table); }

static const struct {
  const char *name;
  void (*read)(struct reading_rule *at, const struct value *table);
} lists[] = {{"pumps", read_pumps},
             {"pipe_sizes", read_pipes},
             {"prices", read_prices},
             {"rates", read_rates},
             {"tolerances", read_tolerances}};
enum { LIST_COUNT = sizeof lists / sizeof *lists };

static void refuse_list(struct reading_rule *at, const struct value *member) {
  const char *names[LIST_COUNT];
  for (size_t i = 0; i < LIST_COUNT; i++) {
    names[i] = lists[i].name;
    if (member->key && strcmp(member->key, names[i]) == 0) return;
  }
  const char *nearest = member->key ? rule_nearest(at->arena, member->key, names, LIST_COUNT) : NULL;
  rule_complain(at, member->line, NULL, "stock has no such list",
                member->key ? member->key : value_shown(at->arena, member),
                nearest ? nearest : "pumps, pipe_sizes, prices, rates or tolerances");
}

static void read_list(struct reading_rule *at, const struct value *list,
                      void (*read)(struct reading_rule *at, const struct value *table)) {
  if (list->sort == VALUE_TABLE)
    read(at, list);
  else if (list->sort != VALUE_UNKNOWN)
    rule_complain(at, list->line, list->key, "is not a table", value_shown(at->arena, list), "{ ... }");
}

void stock_read(struct rulebook *book, struct rule_file *file, const struct value *table, int line) {
  struct reading_rule at = {
      .book = book, .arena = book->arena, .problems = &book->problems, .file = file, .verb = "stock"};
  if (!table->first)
    rule_complain(&at, line, NULL, "is empty", "{ }", "pumps, pipe_sizes, prices, rates or tolerances");
  for (const struct value *member = table->first; member; member = member->next) refuse_list(&at, member);
  for (size_t i = 0; i < LIST_COUNT; i++) {
    const struct value *list = value_member(table, lists[i].name);
    if (list) read_list(&at, list, lists[i].read);
  }
}
