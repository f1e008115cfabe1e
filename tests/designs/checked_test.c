// SPDX-License-Identifier: MIT
// Every quantity of the catalogue has a value from outside in some table of worked/, or stands in worked/unchecked.txt
// with the reason. With the argument --table: prints all rows, ours beside theirs, for `make accuracy`.
#define _POSIX_C_SOURCE 200809L  // scandir, strtok_r
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "designs/tables.h"

static const char *const marks[] = {"seen", "second hand", "computed", "from memory", "common practice"};
enum { MARKS = sizeof marks / sizeof *marks };

struct seen {
  bool checked[ROW_COUNT];
  size_t ran[MARKS], strange;
};

static void note(const struct tables_row *row, void *with) {
  struct seen *seen = with;
  size_t mark = 0;
  while (mark < MARKS && strcmp(marks[mark], row->mark) != 0) mark++;
  seen->checked[row->id] = true;
  if (mark < MARKS) seen->ran[mark]++;
  if (mark < MARKS) return;
  print_error("%s: no such mark: %s\n", row->what, row->mark);
  seen->strange++;
}

// A line: `kind.name` and behind it, after a #, why there is no value.
static enum row_id listed_row(char *line) {
  char *reason = strchr(line, '#'), *end = line + strcspn(line, " \t#\n"), *dot = strchr(line, '.');
  if (!reason || strspn(reason, "# \t\n") == strlen(reason)) fail_msg("no reason behind: %s", line);
  *end = '\0';
  if (!dot || dot > end) fail_msg("not kind.name: %s", line);
  enum kind kind = catalogue_kind_named(line, (size_t)(dot - line));
  enum row_id id = kind == KIND_COUNT ? ROW_COUNT : catalogue_row_named(kind, dot + 1, strlen(dot + 1));
  if (id == ROW_COUNT) fail_msg("unchecked.txt names %s, which there is not", line);
  return id;
}

static void read_listed(bool *listed) {
  char line[600];
  FILE *file = fopen(FOREBAY_ROOT "/tests/designs/worked/unchecked.txt", "r");
  assert_non_null(file);
  while (fgets(line, sizeof line, file)) {
    if (line[0] != '#' && line[0] != '\n') listed[listed_row(line)] = true;
  }
  fclose(file);
}

static void tell_marks(const struct seen *seen) {
  size_t all = 0;
  printf("# worked:");
  for (size_t i = 0; i < MARKS; i++) {
    printf(" %zu %s,", seen->ran[i], marks[i]);
    all += seen->ran[i];
  }
  printf(" %zu checks\n", all);
}

static void every_quantity_is_checked(void **state) {
  (void)state;
  struct seen seen = {.strange = 0};
  bool listed[ROW_COUNT] = {false};
  int wrong = 0;
  tables_all(note, &seen);
  read_listed(listed);
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->sort != SORT_QUANTITY || seen.checked[r] != listed[r]) continue;
    print_error(
        listed[r] ? "%s.%s has a value now: take it out of unchecked.txt\n" : "%s.%s has no value in worked/*.tsv\n",
        catalogue_kind(row->kind)->name, row->name);
    wrong++;
  }
  tell_marks(&seen);
  assert_int_equal(wrong + (int)seen.strange, 0);
}

static void print_row(const struct tables_row *row, void *with) {
  (void)with;
  printf("%s\t%.9g\t%.9g\t%s\t%s\n", row->what, row->value, row->expected, row->mark, row->source);
}

static void print_table(void **state) {
  (void)state;
  tables_all(print_row, NULL);
}

int main(int argc, char **argv) {
  const struct CMUnitTest table[] = {cmocka_unit_test(print_table)};
  const struct CMUnitTest tests[] = {cmocka_unit_test(every_quantity_is_checked)};
  if (argc > 1 && strcmp(argv[1], "--table") == 0) return cmocka_run_group_tests_name("table", table, NULL, NULL);
  return cmocka_run_group_tests_name("designs/checked", tests, NULL, NULL);
}
