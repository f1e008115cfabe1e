// SPDX-License-Identifier: MIT
#include "catalogue/catalogue.h"

#include <string.h>

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

static int start(void **state) {
  *state = arena_new();
  return *state == NULL;
}

static int finish(void **state) {
  arena_free(*state);
  return 0;
}

static const char *const sets[] = {
#define WS(set) #set,
#include "catalogue/word_sets.def"
#undef WS
};

static const char *const sets_of_words[] = {
#define W(set, ...) #set,
#include "catalogue/words.def"
#undef W
};

enum { SETS = sizeof sets / sizeof *sets, WORDS = sizeof sets_of_words / sizeof *sets_of_words };

// The words of one set stand together, and the sets in one order in both files.
static void word_sets_are_those_of_the_words(void **state) {
  (void)state;
  size_t set = 0;
  for (size_t w = 0; w < WORDS; w++) {
    if (w > 0 && strcmp(sets_of_words[w], sets_of_words[w - 1]) == 0) continue;
    assert_in_range(set, 0, SETS - 1);
    assert_string_equal(sets_of_words[w], sets[set]);
    set++;
  }
  assert_int_equal(set, SETS);
}

static void no_set_has_a_word_twice(void **state) {
  (void)state;
  for (int w = 0; w < WORD_COUNT; w++) {
    const struct word_row *word = catalogue_word((enum word)w);
    assert_int_equal(catalogue_word_named(word->set, word->word, strlen(word->word)), w);
  }
}

static void kinds_are_sets_of_bits(void **state) {
  (void)state;
  assert_int_equal(kinds_hold(KIND_BIT(spill) | KIND_BIT(basin), KIND_spill), true);
  assert_int_equal(kinds_hold(KIND_BIT(spill) | KIND_BIT(basin), KIND_pipe), false);
  assert_true(kind_bit(KIND_link) == KIND_BIT(link));
  uint64_t all = 0;
  for (int k = 0; k < KIND_COUNT; k++) all |= kind_bit((enum kind)k);
  assert_true(KIND_ANY == all);
}

static void kinds_are_written_in_their_order(void **state) {
  struct text two = text_in(*state), one = text_in(*state), none = text_in(*state);
  catalogue_write_kinds(&two, KIND_BIT(pump) | KIND_BIT(basin), " or a ");
  catalogue_write_kinds(&one, KIND_BIT(pump), " or a ");
  catalogue_write_kinds(&none, 0, " or a ");
  assert_string_equal(text_end(&two), "basin or a pump");
  assert_string_equal(text_end(&one), "pump");
  assert_string_equal(text_end(&none), "");
}

static void the_nearest_name_is_of_the_kinds_asked(void **state) {
  assert_string_equal(catalogue_nearest_row(*state, KIND_BIT(basin), "dept", true), "depth");
  assert_string_equal(catalogue_nearest_row(*state, KIND_BIT(spill) | KIND_BIT(basin), "lip_witdh", true), "lip_width");
  assert_null(catalogue_nearest_row(*state, KIND_BIT(basin), "lip_witdh", true));
  // Worked out, so nobody can write it.
  assert_string_equal(catalogue_nearest_row(*state, KIND_BIT(spill), "flow_per_widht", true), "flow_per_width");
  assert_null(catalogue_nearest_row(*state, KIND_BIT(spill), "flow_per_widht", false));
}

static void lists_are_told_from_single_values(void **state) {
  (void)state;
  assert_int_equal(row_is_list(catalogue_row(ROW_basin_shelves)), true);
  assert_int_equal(row_is_list(catalogue_row(ROW_basin_outline)), true);
  assert_int_equal(row_is_list(catalogue_row(ROW_circuit_feeds)), true);
  assert_int_equal(row_is_list(catalogue_row(ROW_basin_spills_out)), true);
  assert_int_equal(row_is_list(catalogue_row(ROW_spill_from)), false);
  assert_int_equal(row_is_list(catalogue_row(ROW_basin_depth)), false);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(word_sets_are_those_of_the_words),
      cmocka_unit_test(no_set_has_a_word_twice),
      cmocka_unit_test(kinds_are_sets_of_bits),
      cmocka_unit_test_setup_teardown(kinds_are_written_in_their_order, start, finish),
      cmocka_unit_test_setup_teardown(the_nearest_name_is_of_the_kinds_asked, start, finish),
      cmocka_unit_test(lists_are_told_from_single_values),
  };
  return cmocka_run_group_tests_name("catalogue/catalogue", tests, NULL, NULL);
}
