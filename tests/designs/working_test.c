// SPDX-License-Identifier: MIT
// The words of a formula against what is really read: over all designs here, no row reads a name that its formula (or
// .also) leaves out, every name is read by some design, and nothing comes out as NaN or unaccounted for.
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
#include "quantities/functions.h"

static const char *const folders[] = {"projects", "tests/designs/worked"};

struct names {
  char words[128][40];
  bool read[128];
  size_t count;
};

static struct names named[ROW_COUNT];

static void add_name(struct names *names, const char *word, size_t length) {
  assert_in_range(length, 1, sizeof names->words[0] - 1);
  for (size_t i = 0; i < names->count; i++) {
    if (strlen(names->words[i]) == length && strncmp(names->words[i], word, length) == 0) return;
  }
  assert_in_range(names->count, 0, 127);
  memcpy(names->words[names->count++], word, length);
}

static bool in_word(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_'; }

// Each word between braces, split at dots; in .also each word.
static void add_names(struct names *names, const char *text, bool braces) {
  bool inside = !braces;
  for (const char *at = text ? text : ""; *at != '\0';) {
    if (*at == '{' || *at == '}') inside = *at == '{';
    size_t length = 0;
    while (in_word(at[length])) length++;
    if (length > 0 && inside) add_name(names, at, length);
    at += length > 0 ? length : 1;
  }
}

// A row whose .also is "any" compares whatever was measured with what that stands in for.
static int read_name(struct names *names, const char *word) {
  if (names->count > 0 && strcmp(names->words[names->count - 1], "any") == 0) {
    names->read[names->count - 1] = true;
    return 0;
  }
  for (size_t i = 0; i < names->count; i++) {
    if (strcmp(names->words[i], word) == 0) {
      names->read[i] = true;
      return 0;
    }
  }
  return 1;
}

static int check_slot(struct evaluation *ev, int entity, enum row_id id) {
  const struct store *store = evaluation_design(ev);
  const int *reads;
  int wrong = 0;
  enum condition condition = evaluation_condition(ev, entity, id);
  size_t count = evaluation_reads(ev, store_slot(store, entity, id), &reads);
  for (size_t i = 0; i < count; i++) {
    int read_entity;
    const struct row *row = catalogue_row(store_row_of_slot(store, reads[i], &read_entity));
    if (read_name(&named[id], row->name) == 0) continue;
    print_error("%s.%s reads %s, which its formula does not name\n", catalogue_kind(catalogue_row(id)->kind)->name,
                catalogue_row(id)->name, row->name);
    wrong++;
  }
  bool worked = condition == CONDITION_COMPUTED || condition == CONDITION_OUTSIDE || condition == CONDITION_MEASURED;
  if (worked && catalogue_row(id)->sort != SORT_BUNDLE && isnan(evaluation_number(ev, entity, id))) wrong++;
  if (!worked && condition != CONDITION_MISSING && condition != CONDITION_IMPOSSIBLE && condition != CONDITION_GIVEN)
    wrong++;
  return wrong;
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

static int check_design(const char *path) {
  struct arena *arena = arena_new();
  struct problems problems = problems_in(arena);
  struct file_bytes file;
  int wrong = 0;
  if (!file_read(&problems, path, 1 << 20, &file)) fail_msg("%s", path);
  struct store *store = read_all(arena, &file, &problems);
  if (!store) fail_msg("%s cannot be used", path);
  struct evaluation *ev = evaluation_in(arena, store, &problems);
  for (size_t e = 0; e < store->entity_count; e++) {
    for (int r = 0; r < ROW_COUNT; r++) {
      const struct row *row = catalogue_row((enum row_id)r);
      if (row->kind == store->entities[e].kind && row_function((enum row_id)r))
        wrong += check_slot(ev, (int)e, (enum row_id)r);
    }
  }
  arena_free(arena);
  return wrong;
}

static int check_folder(const char *folder) {
  char path[600];
  snprintf(path, sizeof path, "%s/%s", FOREBAY_ROOT, folder);
  DIR *open = opendir(path);
  assert_non_null(open);
  int wrong = 0;
  for (struct dirent *entry = readdir(open); entry; entry = readdir(open)) {
    size_t length = strlen(entry->d_name);
    if (length < 5 || strcmp(entry->d_name + length - 4, ".lua") != 0) continue;
    snprintf(path, sizeof path, "%s/%s/%s", FOREBAY_ROOT, folder, entry->d_name);
    wrong += check_design(path);
  }
  closedir(open);
  return wrong;
}

static void formulas_name_what_is_read(void **state) {
  (void)state;
  int wrong = 0;
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    add_names(&named[r], row->formula, true);
    add_names(&named[r], row->also, false);
  }
  for (size_t i = 0; i < sizeof folders / sizeof folders[0]; i++) wrong += check_folder(folders[i]);
  for (int r = 0; r < ROW_COUNT; r++) {
    for (size_t i = 0; i < named[r].count; i++) {
      if (named[r].read[i]) continue;
      print_error("%s.%s never reads %s\n", catalogue_kind(catalogue_row((enum row_id)r)->kind)->name,
                  catalogue_row((enum row_id)r)->name, named[r].words[i]);
      wrong++;
    }
  }
  assert_int_equal(wrong, 0);
}

// A row that is worked out says how and after whom; no name is a word of Lua.
static void rows_are_whole(void **state) {
  (void)state;
  static const char *const lua[] = {"and",      "break",  "do",   "else", "elseif", "end",  "false", "for",
                                    "function", "goto",   "if",   "in",   "local",  "nil",  "not",   "or",
                                    "repeat",   "return", "then", "true", "until",  "while"};
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    for (size_t i = 0; i < sizeof lua / sizeof lua[0]; i++) assert_string_not_equal(row->name, lua[i]);
    if (row->sort == SORT_BACK) continue;
    if (!row->says || row->says[0] == '\0') fail_msg("%s says nothing", row->name);
    if (row_function((enum row_id)r) && (!row->formula || row->source == SOURCE_NONE)) {
      fail_msg("%s has no formula or no source", row->name);
    }
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(formulas_name_what_is_read), cmocka_unit_test(rows_are_whole)};
  return cmocka_run_group_tests_name("designs/working", tests, NULL, NULL);
}
