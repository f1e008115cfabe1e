// SPDX-License-Identifier: MIT
// What a firm's layers make of the rules, and what they have in stock.
#include <math.h>
#include <string.h>

#include "rulebook/describe_inside.h"

static void write_line(struct text *text, size_t indent, const char *words) {
  text_add_many(text, ' ', indent);
  text_wrap(text, words, indent + 2, WIDTH);
  describe_end_line(text);
}

static bool has_words(const char *words) { return words && *words; }

// ---- decisions -----------------------------------------------------------------------------------------------------

static const char *where_and_why(struct arena *arena, const struct decision *it) {
  return text_phrase(arena, "%s (%s:%d): %s", it->layer, it->at.file, it->at.line,
                     has_words(it->because) ? it->because : "no reason stated");
}

static void list_change(struct text *text, const struct decision *it) {
  struct text words = text_in(text->arena);
  text_printf(&words, "%s%s: ", it->rule, it->life_safety ? " !" : "");
  decision_write(&words, it);
  if (decision_softens(it)) text_add(&words, "; lives depend on this rule, and it is SOFTENED");
  write_line(text, 2, text_end(&words));
  write_line(text, 6, where_and_why(text->arena, it));
}

// New rules of the layers after the first, by layer.
static void list_new_rules(const struct rulebook *book, struct text *text) {
  for (size_t i = 0, next; i < book->fact_count; i = next) {
    const char *layer = book->facts[i].layer;
    struct text words = text_in(text->arena);
    text_printf(&words, "%s adds: ", layer);
    for (next = i; next < book->fact_count && strcmp(book->facts[next].layer, layer) == 0; next++)
      text_printf(&words, "%s%s", next > i ? ", " : "", book->facts[next].id);
    if (strcmp(layer, book->first_layer) != 0) write_line(text, 2, text_end(&words));
  }
}

static void list_changes(const struct rulebook *book, struct text *text) {
  if (book->layer_count < 2) return;
  text_printf(text, "WHAT THE FIRM'S LAYERS CHANGE: as %s wrote it -> as it is in force\n", book->first_layer);
  size_t from = text->length;
  for (size_t i = 0; i < book->decision_count; i++) {
    if (decision_changes(&book->decisions[i])) list_change(text, &book->decisions[i]);
  }
  list_new_rules(book, text);
  if (text->length == from) text_add(text, "  Nothing.\n");
  text_add_char(text, '\n');
}

static void list_disputes(const struct rulebook *book, struct text *text) {
  bool headed = false;
  for (size_t i = 0; i < book->decision_count; i++) {
    const struct decision *it = &book->decisions[i];
    if (!it->overrules) continue;
    if (!headed) text_add(text, "LAYERS THAT DISAGREE\n");
    headed = true;
    struct text words = text_in(text->arena);
    text_printf(&words, "%s%s%s: ", it->rule, it->what ? ", " : "", it->what ? it->what : "");
    decision_write_dispute(&words, it);
    write_line(text, 2, text_end(&words));
  }
  if (headed) text_add_char(text, '\n');
}

// Of one rule: each limit and severity that is not its writer's own, what it was before, the reason, and who disagrees.
void describe_decisions(const struct rulebook *book, struct text *text, const char *id) {
  for (size_t i = 0; i < book->decision_count; i++) {
    const struct decision *it = &book->decisions[i];
    struct text words = text_in(text->arena);
    if (strcmp(it->rule, id) != 0) continue;
    if (it->overrules) {
      if (it->what) text_printf(&words, "%s: ", it->what);
      decision_write_dispute(&words, it);
      describe_labelled(text, "disagreed", text_end(&words));
    }
    if (!decision_changes(it)) continue;
    words.length = 0;
    if (it->sort != DECISION_RETIRED) decision_write(&words, it);
    text_printf(&words, "%sby %s", words.length ? ", " : "", where_and_why(text->arena, it));
    describe_labelled(text, it->sort == DECISION_RETIRED ? "retired" : "changed", text_end(&words));
    if (decision_softens(it)) describe_labelled(text, "", "Softened, and lives depend on it.");
  }
}

// ---- stock ---------------------------------------------------------------------------------------------------------

// Layers that state part of it, in the order of their first entry.
static void add_layer(struct text *layers, const char *layer) {
  const char *at = text_end(layers);
  size_t length = strlen(layer);
  while ((at = strstr(at, layer)) != NULL && at[length] != '\0' && at[length] != ',') at++;
  if (!at || !length) text_printf(layers, "%s%s", layers->length ? ", " : "", layer);
}

static void list_part(struct text *text, const char *label, const struct text *layers, const char *words) {
  write_line(text, 2, text_phrase(text->arena, "%s (%s): %s", label, layers->at, words));
}

static const char *price_of(struct arena *arena, double price, const char *per) {
  if (isnan(price)) return "";
  long cents = lround(price * 100);
  return text_phrase(arena, cents % 100 ? " $%ld.%02ld%s" : " $%ld%.0ld%s", cents / 100, cents % 100, per);
}

static void list_pumps(const struct stock *stock, struct text *text) {
  struct text layers = text_in(text->arena), words = text_in(text->arena);
  for (size_t i = 0; i < stock->pump_count; i++) {
    add_layer(&layers, stock->pumps[i].from.layer);
    text_printf(&words, "%s%s%s", i ? ", " : "", stock->pumps[i].model,
                price_of(text->arena, stock->pumps[i].price, ""));
  }
  if (stock->pump_count)
    list_part(text, "pumps", &layers, text_end(&words));
  else if (stock->states_pumps)
    write_line(text, 2, "pumps: none to choose from");
}

static void list_pipes(const struct stock *stock, struct text *text) {
  struct text layers = text_in(text->arena), words = text_in(text->arena);
  for (size_t i = 0; i < stock->pipe_count; i++) {
    add_layer(&layers, stock->pipes[i].from.layer);
    text_printf(&words, "%s%s %s%s", i ? "; " : "", stock->pipes[i].size,
                catalogue_word(stock->pipes[i].material)->word,
                price_of(text->arena, stock->pipes[i].price, " a foot"));
  }
  if (stock->pipe_count)
    list_part(text, "pipe", &layers, text_end(&words));
  else if (stock->states_pipes)
    write_line(text, 2, "pipe: none to choose from");
}

static void list_figures(const struct stock *stock, struct text *text, enum kind kind, const char *label) {
  struct text layers = text_in(text->arena), words = text_in(text->arena);
  for (size_t i = 0; i < stock->figure_count; i++) {
    const struct stock_figure *figure = &stock->figures[i];
    if (catalogue_row(figure->row)->kind != kind) continue;
    add_layer(&layers, figure->from.layer);
    text_printf(&words, "%s%s %s", words.length ? ", " : "", catalogue_row(figure->row)->name, figure->text);
  }
  if (words.length) list_part(text, label, &layers, text_end(&words));
}

static void list_tolerances(const struct stock *stock, struct text *text) {
  struct text layers = text_in(text->arena), words = text_in(text->arena);
  for (size_t i = 0; i < stock->tolerance_count; i++) {
    add_layer(&layers, stock->tolerances[i].from.layer);
    text_printf(&words, "%s%s %s", i ? ", " : "", stock->tolerances[i].way, stock->tolerances[i].text);
  }
  if (words.length) list_part(text, "tolerances", &layers, text_end(&words));
}

static void list_replaced(const struct stock *stock, struct text *text) {
  for (size_t i = 0; i < stock->change_count; i++) {
    const struct stock_change *it = &stock->changes[i];
    struct text words = text_in(text->arena);
    text_printf(&words, "%s: %s says %s (%s:%d), %s says %s (%s:%d); the later one holds", it->what, it->had.layer,
                it->was ? it->was : "one thing", it->had.at.file, it->had.at.line, it->has.layer,
                it->by        ? it->by
                : it->dropped ? "there is none"
                              : "another",
                it->has.at.file, it->has.at.line);
    write_line(text, 4, text_end(&words));
  }
}

static void list_stock(const struct stock *stock, struct text *text) {
  size_t before = text->length;
  text_add(text, "STOCK\n");
  size_t from = text->length;
  list_pumps(stock, text);
  list_pipes(stock, text);
  list_figures(stock, text, KIND_prices, "prices");
  list_figures(stock, text, KIND_crew, "rates");
  list_tolerances(stock, text);
  list_replaced(stock, text);
  if (text->length == from)
    text->length = before;
  else
    text_add_char(text, '\n');
}

void list_firm(const struct rulebook *book, struct text *text) {
  list_changes(book, text);
  list_disputes(book, text);
  list_stock(&book->stock, text);
}
