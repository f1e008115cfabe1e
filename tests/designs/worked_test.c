// SPDX-License-Identifier: MIT
// Designs whose quantities are known from outside: worked/NAME.lua and what should come out in worked/NAME.tsv.
#define _POSIX_C_SOURCE 200809L  // scandir, strtok_r
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "designs/tables.h"

struct checking {
  struct arena *arena;
  int rows;
};

// A tolerance is "0.5 gal" or, of the expected value, "2 %".
static double near_enough(struct arena *arena, const struct tables_row *row) {
  enum dimension dimension = catalogue_row(row->id)->dimension;
  size_t length = strlen(row->tolerance);
  if (row->tolerance[length - 1] == '%' && dimension != DIM_RATIO) {
    return fabs(row->expected) * tables_value(arena, row->tolerance, DIM_RATIO);
  }
  return tables_value(arena, row->tolerance, dimension == DIM_ELEVATION ? DIM_LENGTH : dimension);
}

static void check_row(const struct tables_row *row, void *with) {
  struct checking *checking = with;
  checking->rows++;
  double near = near_enough(checking->arena, row);
  if (fabs(row->value - row->expected) <= near + 1e-12 * fabs(row->expected)) return;
  fail_msg("%s is %.10g SI, %s (%.10g) expected: %s", row->what, row->value, row->expected_words, row->expected,
           row->source);
}

static void a_table(void **state) {
  const char *name = *state;
  struct checking checking = {arena_new(), 0};
  struct tables_visit visit = {.visit = check_row, .with = &checking};
  tables_file(name, strlen(name), &visit);
  arena_free(checking.arena);
  print_message("%d values of %s\n", checking.rows, name);
  assert_in_range(checking.rows, 10, 1000);
}

static struct evaluation *tables_worked(struct arena *arena, const char *name) {
  char path[512];
  snprintf(path, sizeof path, "%s/tests/designs/worked/%s.lua", FOREBAY_ROOT, name);
  return tables_design(arena, path);
}

// A plane that was surveyed is the plane.
static void surveyed_plane_is_the_plane(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  struct evaluation *plane = tables_worked(arena, "slope"), *points = tables_worked(arena, "survey");
  int compared = 0;
  for (size_t i = 0; i < store_count(evaluation_design(plane), KIND_dig); i++) {
    int dig = store_of_kind(evaluation_design(plane), KIND_dig, i);
    static const enum row_id rows[] = {ROW_dig_depth,     ROW_dig_bank_volume, ROW_dig_top_area,
                                       ROW_dig_soil_mass, ROW_dig_top_reach,   ROW_dig_inflow};
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
