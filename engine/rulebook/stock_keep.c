// SPDX-License-Identifier: MIT
// The stock of all layers as one: a later layer's entry takes the place of an earlier one's, and that is noted.
#include <string.h>

#include "rulebook/read_stock.h"

const struct stock *rulebook_stock(const struct rulebook *book) { return &book->stock; }

const struct stock_tolerance *stock_tolerance(const struct stock *stock, const char *way) {
  for (size_t i = 0; i < stock->tolerance_count; i++) {
    if (strcmp(stock->tolerances[i].way, way) == 0) return &stock->tolerances[i];
  }
  return NULL;
}

static void note_change(struct reading_rule *at, struct stock_change change) {
  struct stock *stock = &at->book->stock;
  stock->changes =
      arena_grow(at->arena, stock->changes, stock->change_count, &stock->change_room, sizeof *stock->changes);
  stock->changes[stock->change_count++] = change;
}

// An entry of the same name is there. True: it is an earlier layer's, and gives way.
static bool gives_way(struct reading_rule *at, struct stock_change change) {
  if (strcmp(change.had.layer, change.has.layer) != 0) {
    note_change(at, change);
    return true;
  }
  rule_complain(at, change.has.at.line, NULL,
                text_phrase(at->arena, "%s stands already in %s, line %d; the first one holds", change.what,
                            change.had.at.file, change.had.at.line),
                NULL, "one of the two");
  return false;
}

static const char *pump_name(struct arena *arena, const struct stock_pump *pump) {
  return text_phrase(arena, "pump \"%s\"", pump->model);
}

static const char *pipe_name(struct arena *arena, const struct stock_pipe *pipe) {
  return text_phrase(arena, "pipe %s, %s", pipe->size, catalogue_word(pipe->material)->word);
}

bool stock_keep_pump(struct reading_rule *at, struct stock_pump pump) {
  struct stock *stock = &at->book->stock;
  for (size_t i = 0; i < stock->pump_count; i++) {
    struct stock_pump *had = &stock->pumps[i];
    if (strcmp(had->model, pump.model) != 0) continue;
    if (!gives_way(at, (struct stock_change){.what = pump_name(at->arena, &pump), .had = had->from, .has = pump.from}))
      return false;
    *had = pump;
    return true;
  }
  stock->pumps = arena_grow(at->arena, stock->pumps, stock->pump_count, &stock->pump_room, sizeof *stock->pumps);
  stock->pumps[stock->pump_count++] = pump;
  return true;
}

bool stock_keep_pipe(struct reading_rule *at, struct stock_pipe pipe) {
  struct stock *stock = &at->book->stock;
  for (size_t i = 0; i < stock->pipe_count; i++) {
    struct stock_pipe *had = &stock->pipes[i];
    if (strcmp(had->size, pipe.size) != 0 || had->material != pipe.material) continue;
    if (!gives_way(at, (struct stock_change){.what = pipe_name(at->arena, &pipe), .had = had->from, .has = pipe.from}))
      return false;
    *had = pipe;
    return true;
  }
  stock->pipes = arena_grow(at->arena, stock->pipes, stock->pipe_count, &stock->pipe_room, sizeof *stock->pipes);
  stock->pipes[stock->pipe_count++] = pipe;
  return true;
}

static const char *figure_name(struct arena *arena, enum row_id row) {
  return text_phrase(arena, "%s.%s", catalogue_kind(catalogue_row(row)->kind)->name, catalogue_row(row)->name);
}

bool stock_keep_figure(struct reading_rule *at, struct stock_figure figure) {
  struct stock *stock = &at->book->stock;
  for (size_t i = 0; i < stock->figure_count; i++) {
    struct stock_figure *had = &stock->figures[i];
    if (had->row != figure.row) continue;
    struct stock_change change = {
        figure_name(at->arena, figure.row), had->text, figure.text, had->from, figure.from, false};
    if (!gives_way(at, change)) return false;
    *had = figure;
    return true;
  }
  stock->figures =
      arena_grow(at->arena, stock->figures, stock->figure_count, &stock->figure_room, sizeof *stock->figures);
  stock->figures[stock->figure_count++] = figure;
  return true;
}

bool stock_keep_tolerance(struct reading_rule *at, struct stock_tolerance tolerance) {
  struct stock *stock = &at->book->stock;
  for (size_t i = 0; i < stock->tolerance_count; i++) {
    struct stock_tolerance *had = &stock->tolerances[i];
    if (strcmp(had->way, tolerance.way) != 0) continue;
    const char *what = text_phrase(at->arena, "tolerance of %s", tolerance.way);
    struct stock_change change = {what, had->text, tolerance.text, had->from, tolerance.from, false};
    if (!gives_way(at, change)) return false;
    *had = tolerance;
    return true;
  }
  stock->tolerances = arena_grow(at->arena, stock->tolerances, stock->tolerance_count, &stock->tolerance_room,
                                 sizeof *stock->tolerances);
  stock->tolerances[stock->tolerance_count++] = tolerance;
  return true;
}

static struct stock_origin here(const struct reading_rule *at, int line) {
  return (struct stock_origin){at->file->layer, {at->file->name, line}};
}

static void refuse_empty(struct reading_rule *at, int line, const char *key, const struct stock_origin *had) {
  rule_complain(
      at, line, key,
      text_phrase(at->arena, "is empty, and the same layer has some in %s, line %d", had->at.file, had->at.line), "{ }",
      "no list here, or all of it");
}

void stock_drop_pumps(struct reading_rule *at, int line) {
  struct stock *stock = &at->book->stock;
  for (size_t i = 0; i < stock->pump_count; i++) {
    if (strcmp(stock->pumps[i].from.layer, at->file->layer) != 0) continue;
    refuse_empty(at, line, "pumps", &stock->pumps[i].from);
    return;
  }
  for (size_t i = 0; i < stock->pump_count; i++)
    note_change(at, (struct stock_change){pump_name(at->arena, &stock->pumps[i]), NULL, NULL, stock->pumps[i].from,
                                          here(at, line), true});
  stock->pump_count = 0;
  stock->states_pumps = true;
}

void stock_drop_pipes(struct reading_rule *at, int line) {
  struct stock *stock = &at->book->stock;
  for (size_t i = 0; i < stock->pipe_count; i++) {
    if (strcmp(stock->pipes[i].from.layer, at->file->layer) != 0) continue;
    refuse_empty(at, line, "pipe_sizes", &stock->pipes[i].from);
    return;
  }
  for (size_t i = 0; i < stock->pipe_count; i++)
    note_change(at, (struct stock_change){pipe_name(at->arena, &stock->pipes[i]), NULL, NULL, stock->pipes[i].from,
                                          here(at, line), true});
  stock->pipe_count = 0;
  stock->states_pipes = true;
}
