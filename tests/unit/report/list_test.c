// SPDX-License-Identifier: MIT
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "catalogue/catalogue.h"
#include "report/list.h"

static void assert_narrow(const char *words) {
  for (const char *line = words; *line; line += strcspn(line, "\n") + (line[strcspn(line, "\n")] != '\0')) {
    if (strcspn(line, "\n") > 80) fail_msg("wider than 80: %.*s", (int)strcspn(line, "\n"), line);
  }
}

static const char *listed(struct arena *arena, const char *kind) {
  struct problems problems = problems_in(arena);
  struct text text = text_in(arena);
  assert_true(list_write(&text, kind, &problems));
  assert_int_equal(problems.count, 0);
  return text_end(&text);
}

// Every row of every kind, with its words and, where it is worked out, how.
static void names_every_row(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    const char *words = listed(arena, catalogue_kind(row->kind)->name);
    struct text head = text_in(arena);
    text_printf(&head, "\n  %s: ", row->name);
    if (!strstr(words, text_end(&head))) fail_msg("%s.%s is not listed", catalogue_kind(row->kind)->name, row->name);
    assert_narrow(words);
  }
  arena_free(arena);
}

static void tells_units_bounds_words_and_source(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  const char *spill = listed(arena, "spill"), *site = listed(arena, "site");
  assert_non_null(strstr(spill, "a length in in or mm; required; over 0 in\n"));
  assert_non_null(strstr(spill, "thin edge, broad stone, rounded, notch or V; required\n"));
  assert_non_null(strstr(spill, "= flow / lip_width\n"));
  assert_non_null(strstr(spill, "Source: what goes in comes out (steady flow) (worked out)\n"));
  assert_non_null(strstr(site, "without it: 25 %; at least 0 %; at most 100 %\n"));
  assert_narrow(listed(arena, NULL));
  assert_non_null(strstr(listed(arena, NULL), "\nspill: a lip over which water falls; "));
  arena_free(arena);
}

static void names_the_nearest_kind(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  struct problems problems = problems_in(arena);
  struct text text = text_in(arena);
  assert_false(list_write(&text, "spil", &problems));
  assert_int_equal(problems.count, 1);
  assert_string_equal(problems.list[0].right, "spill");
  arena_free(arena);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(names_every_row),
                                     cmocka_unit_test(tells_units_bounds_words_and_source),
                                     cmocka_unit_test(names_the_nearest_kind)};
  return cmocka_run_group_tests_name("report/list", tests, NULL, NULL);
}
