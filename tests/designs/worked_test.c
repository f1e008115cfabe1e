// SPDX-License-Identifier: MIT
// Designs whose quantities are known from outside: worked/NAME.lua and what should come out in worked/NAME.tsv.
#define _POSIX_C_SOURCE 200809L  // strtok_r
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "design/read.h"
#include "quantities/evaluate.h"
#include "units/read.h"

static double read_as(struct arena *arena, const char *words, enum dimension dimension) {
  struct text wrong = text_in(arena), right = text_in(arena);
  struct reading reading = {0};
  if (dimension == DIM_COUNT) dimension = DIM_RATIO;  // what is worked out need not be whole
  if (!unit_read(words, strlen(words), dimension, &reading, &wrong, &right)) fail_msg("%s: %s", words, text_end(&wrong));
  return reading.value;
}

static struct evaluation *design(struct arena *arena, const char *path) {
  struct problems *problems = arena_alloc(arena, sizeof *problems);
  *problems = problems_in(arena);
  struct file_bytes file;
  struct store *store = NULL;
  if (file_read(problems, path, 1 << 20, &file)) store = design_read(arena, &file, problems);
  struct text said = text_in(arena);
  problems_write(&said, problems, 20);
  if (!store) fail_msg("%s", text_end(&said));
  return evaluation_in(arena, store, problems);
}

// A tolerance is "0.5 gal" or, of the expected value, "2 %".
static double tolerance(struct arena *arena, const char *words, enum dimension dimension, double expected) {
  size_t length = strlen(words);
  if (words[length - 1] == '%' && dimension != DIM_RATIO) return fabs(expected) * read_as(arena, words, DIM_RATIO);
  return read_as(arena, words, dimension == DIM_ELEVATION ? DIM_LENGTH : dimension);
}

static void check_row(struct arena *arena, struct evaluation *ev, char *line) {
  char *columns[5];
  char *rest = line;
  for (int i = 0; i < 5; i++) {
    columns[i] = strtok_r(rest, "\t\n", &rest);
    if (!columns[i]) fail_msg("fewer than five columns: %s", line);
  }
  char *dot = strrchr(columns[0], '.');
  int entity = store_named(evaluation_design(ev), columns[0], (size_t)(dot - columns[0]));
  enum kind single = catalogue_kind_named(columns[0], (size_t)(dot - columns[0]));
  if (entity < 0 && single != KIND_COUNT) entity = store_of_kind(evaluation_design(ev), single, 0);
  if (entity < 0) fail_msg("no such entity: %s", columns[0]);
  enum row_id id = catalogue_row_named(evaluation_design(ev)->entities[entity].kind, dot + 1, strlen(dot + 1));
  if (id == ROW_COUNT) fail_msg("no such quantity: %s", columns[0]);
  enum dimension dimension = catalogue_row(id)->dimension;
  double expected = read_as(arena, columns[1], dimension), value = evaluation_number(ev, entity, id);
  double near = tolerance(arena, columns[2], dimension, expected);
  if (!(fabs(value - expected) <= near + 1e-12 * fabs(expected))) {
    fail_msg("%s is %.10g SI, %s (%.10g) expected: %s", columns[0], value, columns[1], expected, columns[4]);
  }
}

static void run_table(const char *name) {
  struct arena *arena = arena_new();
  char path[512];
  snprintf(path, sizeof path, "%s/tests/designs/worked/%s.lua", FOREBAY_ROOT, name);
  struct evaluation *ev = design(arena, path);
  snprintf(path, sizeof path, "%s/tests/designs/worked/%s.tsv", FOREBAY_ROOT, name);
  FILE *table = fopen(path, "r");
  assert_non_null(table);
  char line[1024];
  int rows = 0;
  while (fgets(line, sizeof line, table)) {
    if (line[0] == '#' || line[0] == '\n') continue;
    check_row(arena, ev, line);
    rows++;
  }
  fclose(table);
  print_message("%d values of %s\n", rows, name);
  assert_in_range(rows, 10, 1000);
  arena_free(arena);
}

static void ground(void **state) {
  (void)state;
  run_table("ground");
}

static void water(void **state) {
  (void)state;
  run_table("water");
}

static void clay(void **state) {
  (void)state;
  run_table("clay");
}

static void more(void **state) {
  (void)state;
  run_table("more");
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(ground), cmocka_unit_test(water), cmocka_unit_test(clay),
                                     cmocka_unit_test(more)};
  return cmocka_run_group_tests_name("designs/worked", tests, NULL, NULL);
}
