// SPDX-License-Identifier: MIT
// The tables of worked designs, worked/NAME.tsv beside worked/NAME.lua, row by row: what is worked out, what should
// come.
#ifndef TESTS_DESIGNS_TABLES_H
#define TESTS_DESIGNS_TABLES_H

#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "design/read.h"
#include "quantities/evaluate.h"
#include "units/read.h"

struct tables_row {
  const char *what, *expected_words, *tolerance, *mark, *source;
  enum row_id id;
  double value, expected;  // SI
};

struct tables_visit {
  void (*visit)(const struct tables_row *row, void *with);
  void *with;
  struct arena *arena;
  struct evaluation *ev;
};

// Surveys lie beside the designs.
static inline struct store *tables_read(struct arena *arena, const struct file_bytes *file, struct problems *problems) {
  const char **names;
  size_t count;
  if (!file_list(problems, FOREBAY_ROOT "/tests/designs/worked", ".csv", &names, &count, NULL)) return NULL;
  struct file_bytes *beside = arena_array(arena, count + 1, sizeof *beside);
  for (size_t i = 0; i < count; i++) {
    if (!file_read(problems, names[i], 1 << 20, &beside[i])) return NULL;
  }
  return design_read_beside(arena, file, beside, count, problems);
}

static inline struct evaluation *tables_design(struct arena *arena, const char *path) {
  struct problems *problems = arena_alloc(arena, sizeof *problems);
  *problems = problems_in(arena);
  struct file_bytes file;
  struct store *store = file_read(problems, path, 1 << 20, &file) ? tables_read(arena, &file, problems) : NULL;
  if (store) return evaluation_in(arena, store, problems);
  struct text said = text_in(arena);
  problems_write(&said, problems, 20);
  fail_msg("%s: %s", path, text_end(&said));
  return NULL;
}

static inline double tables_value(struct arena *arena, const char *words, enum dimension dimension) {
  struct text wrong = text_in(arena), right = text_in(arena);
  struct reading reading = {0};
  if (dimension == DIM_COUNT) dimension = DIM_RATIO;  // what is worked out need not be whole
  if (!unit_read(words, strlen(words), dimension, &reading, &wrong, &right))
    fail_msg("%s: %s", words, text_end(&wrong));
  return reading.value;
}

static inline void tables_line(struct tables_visit *v, char *line) {
  char *columns[5], *rest = line;
  for (int i = 0; i < 5; i++) {
    columns[i] = strtok_r(rest, "\t\n", &rest);
    if (!columns[i]) fail_msg("fewer than five columns: %s", line);
  }
  const struct store *store = evaluation_design(v->ev);
  const char *dot = strrchr(columns[0], '.');
  if (!dot) fail_msg("no quantity in %s", columns[0]);
  int entity = store_named(store, columns[0], (size_t)(dot - columns[0]));
  enum kind single = catalogue_kind_named(columns[0], (size_t)(dot - columns[0]));
  if (entity < 0 && single != KIND_COUNT && store_count(store, single) == 1) entity = store_of_kind(store, single, 0);
  if (entity < 0) fail_msg("no such entity: %s", columns[0]);
  enum row_id id = catalogue_row_named(store->entities[entity].kind, dot + 1, strlen(dot + 1));
  if (id == ROW_COUNT) fail_msg("no such quantity: %s", columns[0]);
  struct tables_row row = {.what = columns[0],
                           .expected_words = columns[1],
                           .tolerance = columns[2],
                           .mark = columns[3],
                           .source = columns[4],
                           .id = id};
  row.expected = tables_value(v->arena, columns[1], catalogue_row(id)->dimension);
  row.value = evaluation_number(v->ev, entity, id);
  v->visit(&row, v->with);
}

static inline void tables_file(const char *name, size_t length, struct tables_visit *v) {
  char path[600], line[2048];
  v->arena = arena_new();
  snprintf(path, sizeof path, "%s/tests/designs/worked/%.*s.lua", FOREBAY_ROOT, (int)length, name);
  v->ev = tables_design(v->arena, path);
  snprintf(path, sizeof path, "%s/tests/designs/worked/%.*s.tsv", FOREBAY_ROOT, (int)length, name);
  FILE *table = fopen(path, "r");
  if (!table) fail_msg("%s cannot be read", path);
  while (fgets(line, sizeof line, table)) {
    if (line[0] != '#' && line[0] != '\n') tables_line(v, line);
  }
  fclose(table);
  arena_free(v->arena);
}

static inline int tables_is_table(const struct dirent *entry) {
  size_t length = strlen(entry->d_name);
  return length > 4 && strcmp(entry->d_name + length - 4, ".tsv") == 0;
}

static inline void tables_all(void (*visit)(const struct tables_row *row, void *with), void *with) {
  struct dirent **files = NULL;
  int count = scandir(FOREBAY_ROOT "/tests/designs/worked", &files, tables_is_table, alphasort);
  assert_in_range(count, 1, 1000);
  for (int i = 0; i < count; i++) {
    struct tables_visit v = {.visit = visit, .with = with};
    tables_file(files[i]->d_name, strlen(files[i]->d_name) - 4, &v);
    free(files[i]);
  }
  free(files);
}

#endif
