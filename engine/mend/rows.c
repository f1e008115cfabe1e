// SPDX-License-Identifier: MIT
#include "mend/rows.h"

#include <math.h>
#include <string.h>

#include "base/number.h"
#include "catalogue/trade.h"
#include "physics/wire.h"
#include "units/read.h"

static const struct mend_row rows[] = {
#define MEND(kind, given, rank, us, si) {ROW_##kind##_##given, MEND_##rank, us, si, WORD_COUNT, MEND_LIST_NONE},
#define MEND_WORD(kind, given, rank, set, word) \
  {ROW_##kind##_##given, MEND_##rank, NULL, NULL, WORD_##set##_##word, MEND_LIST_NONE},
#define MEND_FACT(...)
#define MEND_SIZE(kind, given, rank, list) \
  {ROW_##kind##_##given, MEND_##rank, NULL, NULL, WORD_COUNT, MEND_LIST_##list},
#include "catalogue/mends.def"
};

static const enum row_id facts[] = {
#define MEND(...)
#define MEND_WORD(...)
#define MEND_SIZE(...)
#define MEND_FACT(kind, given) ROW_##kind##_##given,
#include "catalogue/mends.def"
};

bool mend_row_is_fact(enum row_id row) {
  for (size_t i = 0; i < sizeof facts / sizeof facts[0]; i++) {
    if (facts[i] == row) return true;
  }
  return false;
}

const struct mend_row *mend_row(enum row_id row) {
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
    if (rows[i].row == row) return &rows[i];
  }
  return NULL;
}

// A height is raised by a length, an angle by an angle: the step reads as what the row is.
double mend_row_step(const struct mend_row *row, enum unit_system units) {
  struct arena *arena = arena_new();
  if (!arena) return NAN;
  struct reading reading = {.value = NAN};
  struct text wrong = text_in(arena), right = text_in(arena);
  const char *step = units == UNITS_SI ? row->si : row->us;
  unit_read(step, strlen(step), catalogue_row(row->row)->dimension, &reading, &wrong, &right);
  arena_free(arena);
  return reading.value;
}

// ---- pipe: by bore, among sizes named in the same units ----

static bool is_metric(const char *nominal) { return strstr(nominal, "mm") != NULL; }

static const struct trade_pipe *pipe_named(const char *nominal) {
  for (size_t i = 0; i < trade_pipe_count; i++) {
    if (strcmp(trade_pipes[i].nominal, nominal) == 0) return &trade_pipes[i];
  }
  return NULL;
}

static const struct trade_pipe *next_pipe(const struct trade_pipe *now, int way) {
  const struct trade_pipe *next = NULL;
  for (size_t i = 0; i < trade_pipe_count; i++) {
    const struct trade_pipe *pipe = &trade_pipes[i];
    bool beyond = way > 0 ? pipe->bore > now->bore : pipe->bore < now->bore;
    if (!beyond || is_metric(pipe->nominal) != is_metric(now->nominal)) continue;
    if (!next || fabs(pipe->bore - now->bore) < fabs(next->bore - now->bore)) next = pipe;
  }
  return next;
}

static size_t pipe_sizes(struct arena *arena, const char *now, int way, const char **texts, size_t room) {
  const struct trade_pipe *pipe = pipe_named(now);
  size_t count = 0;
  (void)arena;
  while (pipe && count < room && (pipe = next_pipe(pipe, way))) texts[count++] = pipe->nominal;
  return count;
}

// ---- wire: "12 AWG copper", "2.5 mm2 copper"; what stands behind the size is kept ----

static size_t wire_gauges(struct arena *arena, double gauge, const char *rest, int way, const char **texts,
                          size_t room) {
  size_t count = 0;
  for (size_t i = 0; i < wire_size_count; i++) {
    const struct wire_size *size = &wire_sizes[way > 0 ? i : wire_size_count - 1 - i];
    bool beyond = way > 0 ? size->gauge < gauge : size->gauge > gauge;
    if (beyond && count < room) texts[count++] = text_phrase(arena, "%u%s", size->gauge, rest);
  }
  return count;
}

static size_t wire_squares(struct arena *arena, double square_mm, const char *rest, int way, const char **texts,
                           size_t room) {
  size_t count = 0;
  for (size_t i = 0; i < wire_metric_count; i++) {
    const struct wire_metric *size = &wire_metrics[way > 0 ? i : wire_metric_count - 1 - i];
    bool beyond = way > 0 ? size->square_mm > square_mm : size->square_mm < square_mm;
    if (!beyond || count == room) continue;
    struct text text = text_in(arena);
    number_write_short(&text, size->square_mm, 2, false);
    text_add(&text, rest);
    texts[count++] = text_end(&text);
  }
  return count;
}

static size_t wire_texts(struct arena *arena, const char *now, int way, const char **texts, size_t room) {
  double size;
  size_t length = number_read(now, strlen(now), &size);
  if (length == 0) return 0;
  const char *rest = now + length;
  if (strstr(rest, "AWG")) return wire_gauges(arena, size, rest, way, texts, room);
  return strstr(rest, "mm") ? wire_squares(arena, size, rest, way, texts, room) : 0;
}

size_t mend_row_sizes(struct arena *arena, enum mend_list list, const char *now, int way, const char **texts,
                      size_t room) {
  if (list == MEND_LIST_pipe) return pipe_sizes(arena, now, way, texts, room);
  return list == MEND_LIST_wire ? wire_texts(arena, now, way, texts, room) : 0;
}
