// SPDX-License-Identifier: MIT
#define _POSIX_C_SOURCE 200809L  // scandir, strtok_r
// Runs the tables of check values: one row is a function, its inputs, what a source says comes out, how near is near
// enough, how the value is known (its mark) and the source. To add a check, add a row; to check a new function, add a
// line to an adapter table. A name nobody knows, a row that cannot be read or an input nobody asks for fails the run.
//
// Columns, parted by tabs: function, inputs ("width=1:ft head=0.2:ft"), expected ("0.2978:cfs"), tolerance ("0.1%" of
// the expected value, or "0.01:ft"), mark, source. '#' starts a comment line. Usage: reference_test [--table] [FOLDER];
// --table prints each row, ours beside theirs, for `make accuracy`.
#include <dirent.h>

#include "adapters/ground_side.h"
#include "adapters/network_side.h"
#include "adapters/row.h"
#include "adapters/site_side.h"
#include "adapters/stone_side.h"
#include "adapters/water_side.h"

static const struct adapter {
  const char *function;
  double (*work)(struct row *row);
} ADAPTERS[] = {WATER_SIDE, GROUND_SIDE, STONE_SIDE, SITE_SIDE, NETWORK_SIDE};

static const char *const MARKS[] = {"seen", "second hand", "computed", "from memory", "common practice"};
enum { MARK_COUNT = sizeof MARKS / sizeof *MARKS };

struct tally {
  size_t ran[MARK_COUNT], failed;
  bool table;
};

static const struct adapter *adapter_named(const char *function) {
  for (size_t i = 0; i < sizeof ADAPTERS / sizeof *ADAPTERS; i++) {
    if (strcmp(ADAPTERS[i].function, function) == 0) return &ADAPTERS[i];
  }
  return NULL;
}

static size_t mark_named(const char *mark) {
  size_t i = 0;
  while (i < MARK_COUNT && strcmp(MARKS[i], mark) != 0) i++;
  return i;
}

static void read_inputs(struct row *row, char *text) {
  char *rest = NULL;
  for (char *word = strtok_r(text, " ", &rest); word; word = strtok_r(NULL, " ", &rest)) {
    char *equals = strchr(word, '=');
    if (!equals || row->count == INPUTS) {
      spoil(row, "not an input:", word);
      return;
    }
    *equals = '\0';
    row->inputs[row->count++] = (struct input){.name = word, .text = equals + 1};
  }
}

// How far from the expected value is still right. "0.01:ft" counts in its unit; an offset of a unit does not.
static double tolerance_in(struct row *row, char *text, double expected) {
  char *end = NULL;
  const double number = strtod(text, &end);
  if (!(number >= 0) || end == text) spoil(row, "not a tolerance:", text);
  if (strcmp(end, "%") == 0) return fabs(expected) * number / 100;
  const struct unit *unit = *end == ':' ? unit_named(end + 1) : NULL;
  if (*end && !unit) spoil(row, "not a tolerance:", text);
  return unit ? number * unit->factor : number;
}

static void check_all_read(struct row *row) {
  for (size_t i = 0; i < row->count; i++) {
    if (!row->inputs[i].read) spoil(row, "nobody asks for the input", row->inputs[i].name);
  }
}

// Splits at tabs; false unless there are exactly COLUMNS, none of them empty.
static bool split(char *line, char *columns[COLUMNS]) {
  size_t count = 0;
  for (char *next = line; next; count++) {
    if (count == COLUMNS || *next == '\0' || *next == '\t') return false;
    columns[count] = next;
    next = strchr(next, '\t');
    if (next) *next++ = '\0';
  }
  return count == COLUMNS;
}

// Works one row out and gives its mark; what is wrong with it stands in row->fault.
static size_t run_row(char *columns[COLUMNS], struct row *row, bool table) {
  const struct adapter *adapter = adapter_named(columns[0]);
  const size_t mark = mark_named(columns[4]);
  if (!adapter) spoil(row, "unknown function", columns[0]);
  if (mark == MARK_COUNT) spoil(row, "unknown mark", columns[4]);
  read_inputs(row, columns[1]);
  const double expected = amount_of(row, columns[2]);
  const double tolerance = tolerance_in(row, columns[3], expected);
  if (!adapter || row->fault[0]) return mark;
  const double got = adapter->work(row);
  if (table) printf("%s\t%.9g\t%.9g\t%s\t%s\n", columns[0], got, expected, columns[4], columns[5]);
  check_all_read(row);
  if (row->fault[0] || fabs(got - expected) <= tolerance) return mark;
  snprintf(row->fault, sizeof row->fault, "%s: got %.10g, expected %.10g +/- %.3g (SI)", columns[0], got, expected,
           tolerance);
  return mark;
}

static void run_line(const char *path, size_t number, char *line, struct tally *tally) {
  char *columns[COLUMNS] = {NULL};
  struct row row = {.count = 0};
  size_t mark = MARK_COUNT;
  if (split(line, columns)) {
    mark = run_row(columns, &row, tally->table);
  } else {
    spoil(&row, "six columns parted by tabs are asked, not", line);
  }
  if (row.fault[0] || mark == MARK_COUNT) {
    printf("%s:%zu: %s\n", path, number, row.fault);
    tally->failed++;
  } else {
    tally->ran[mark]++;
  }
}

static void run_table(const char *path, struct tally *tally) {
  FILE *file = fopen(path, "r");
  char line[2000];
  size_t number = 0;
  if (!file) {
    printf("%s: cannot be read\n", path);
    tally->failed++;
    return;
  }
  while (fgets(line, sizeof line, file)) {
    number++;
    line[strcspn(line, "\n")] = '\0';
    if (line[0] && line[0] != '#') run_line(path, number, line, tally);
  }
  fclose(file);
}

static int is_table(const struct dirent *entry) {
  const char *dot = strrchr(entry->d_name, '.');
  return dot && strcmp(dot, ".tsv") == 0;
}

static int report(const struct tally *tally, int tables) {
  size_t all = 0;
  printf("# reference:");
  for (size_t i = 0; i < MARK_COUNT; i++) {
    printf(" %zu %s,", tally->ran[i], MARKS[i]);
    all += tally->ran[i];
  }
  printf(" %zu checks in %d tables, %zu failed\n", all, tables, tally->failed);
  const bool good = tally->failed == 0 && all > 0;
  printf("%s 1 - all check values\n1..1\n", good ? "ok" : "not ok");
  return good ? 0 : 1;
}

int main(int argc, char **argv) {
  struct tally tally = {.table = argc > 1 && strcmp(argv[1], "--table") == 0};
  const int words = tally.table ? 2 : 1;
  const char *folder = argc > words ? argv[words] : "tests/reference";
  struct dirent **tables = NULL;
  const int count = scandir(folder, &tables, is_table, alphasort);
  for (int i = 0; i < count; i++) {
    char path[1000];
    snprintf(path, sizeof path, "%s/%s", folder, tables[i]->d_name);
    run_table(path, &tally);
    free(tables[i]);
  }
  free(tables);
  return report(&tally, count);
}
