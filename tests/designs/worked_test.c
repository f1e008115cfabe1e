// SPDX-License-Identifier: MIT
// Designs whose quantities are known from outside: worked/NAME.lua and what should come out in worked/NAME.tsv.
#define _POSIX_C_SOURCE 200809L  // strtok_r
#include <dirent.h>
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

// Surveys lie beside the designs.
static struct store *read_all(struct arena *arena, const struct file_bytes *file, struct problems *problems) {
  const char **names;
  size_t count;
  if (!file_list(problems, FOREBAY_ROOT "/tests/designs/worked", ".csv", &names, &count, NULL)) return NULL;
  struct file_bytes *beside = arena_array(arena, count + 1, sizeof *beside);
  for (size_t i = 0; i < count; i++) {
    if (!file_read(problems, names[i], 1 << 20, &beside[i])) return NULL;
  }
  return design_read_beside(arena, file, beside, count, problems);
}

static struct evaluation *design(struct arena *arena, const char *path) {
  struct problems *problems = arena_alloc(arena, sizeof *problems);
  *problems = problems_in(arena);
  struct file_bytes file;
  struct store *store = NULL;
  if (file_read(problems, path, 1 << 20, &file)) store = read_all(arena, &file, problems);
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

// By its name; the only one of a kind ("project") by its kind.
static int entity_of(const struct store *store, const char *name, size_t length) {
  enum kind kind = catalogue_kind_named(name, length);
  bool single = kind != KIND_COUNT && catalogue_kind(kind)->single && store_count(store, kind) > 0;
  return single ? store_of_kind(store, kind, 0) : store_named(store, name, length);
}

static void check_row(struct arena *arena, struct evaluation *ev, char *line) {
  char *columns[5];
  char *rest = line;
  for (int i = 0; i < 5; i++) {
    columns[i] = strtok_r(rest, "\t\n", &rest);
    if (!columns[i]) fail_msg("fewer than five columns: %s", line);
  }
  char *dot = strrchr(columns[0], '.');
  int entity = entity_of(evaluation_design(ev), columns[0], (size_t)(dot - columns[0]));
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

static void a_table(void **state) { run_table(*state); }

static struct evaluation *worked(struct arena *arena, const char *name) {
  char path[512];
  snprintf(path, sizeof path, "%s/tests/designs/worked/%s.lua", FOREBAY_ROOT, name);
  return design(arena, path);
}

// A plane that was surveyed is the plane.
static void surveyed_plane_is_the_plane(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  struct evaluation *plane = worked(arena, "slope"), *points = worked(arena, "survey");
  int compared = 0;
  for (size_t i = 0; i < store_count(evaluation_design(plane), KIND_dig); i++) {
    int dig = store_of_kind(evaluation_design(plane), KIND_dig, i);
    static const enum row_id rows[] = {ROW_dig_depth, ROW_dig_bank_volume, ROW_dig_top_area, ROW_dig_soil_mass,
                                       ROW_dig_top_reach, ROW_dig_inflow};
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++, compared++) {
      double expected = evaluation_number(plane, dig, rows[k]), value = evaluation_number(points, dig, rows[k]);
      if (!(fabs(value - expected) <= 1e-9 * fabs(expected))) {
        fail_msg("%s: %.15g by points, %.15g by the plane", catalogue_row(rows[k])->name, value, expected);
      }
    }
  }
  assert_int_equal(compared, 18);
  arena_free(arena);
}

// Every table of the folder is a test: adding one is adding its two files.
int main(void) {
  static struct CMUnitTest tests[64];
  static char names[64][64];
  size_t count = 0;
  DIR *folder = opendir(FOREBAY_ROOT "/tests/designs/worked");
  for (struct dirent *entry; folder && (entry = readdir(folder));) {
    char *dot = strrchr(entry->d_name, '.');
    if (!dot || strcmp(dot, ".tsv") != 0 || count == 63 || dot - entry->d_name > 63) continue;
    memcpy(names[count], entry->d_name, (size_t)(dot - entry->d_name));
    tests[count] = (struct CMUnitTest){.name = names[count], .test_func = a_table, .initial_state = names[count]};
    count++;
  }
  if (folder) closedir(folder);
  tests[count++] = (struct CMUnitTest)cmocka_unit_test(surveyed_plane_is_the_plane);
  return count == 1 ? 1 : _cmocka_run_group_tests("designs/worked", tests, count, NULL, NULL);
}
