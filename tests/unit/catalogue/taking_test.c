// SPDX-License-Identifier: MIT
#include "catalogue/taking.h"

#include <string.h>

#include "unit/physics/near.h"
#include "units/read.h"

static double read(const char *text, enum dimension dimension) {
  struct arena *arena = arena_new();
  struct text wrong = text_in(arena), right = text_in(arena);
  struct reading reading = {.value = NOT_A_NUMBER};
  bool done = unit_read(text, strlen(text), dimension, &reading, &wrong, &right);
  arena_free(arena);
  return done ? reading.value : NOT_A_NUMBER;
}

static void each_width_can_be_read(void **state) {
  (void)state;
  for (enum way way = 0; way < WAY_COUNT; way++) {
    const char *half = taking_way(way)->half;
    double value = read(half, strchr(half, '%') ? DIM_RATIO : DIM_LENGTH);
    assert_less(0, value);
    assert_less(value, 0.5);
    assert_int_not_equal(taking_way(way)->source, SOURCE_NONE);
  }
}

static void each_word_of_measured_is_a_way(void **state) {
  (void)state;
  for (int word = 0; word < WORD_COUNT; word++) {
    const struct word_row *row = catalogue_word((enum word)word);
    if (row->set != WORDS_taken_with) continue;
    assert_string_equal(taking_way(taking_with(row->word))->name, row->word);
  }
  assert_int_equal(taking_with(NULL), WAY_EYE);
}

static void givens_are_got_as_the_trade_gets_them(void **state) {
  (void)state;
  static const struct {
    enum row_id row;
    enum way way;
  } rows[] = {
      {ROW_basin_depth, WAY_TAPE},        {ROW_spill_crest, WAY_LASER}, {ROW_boulder_length, WAY_EYE},
      {ROW_boulder_density, WAY_EYE},     {ROW_dig_slope, WAY_EYE},     {ROW_curve_point_head, WAY_CURVE},
      {ROW_jet_orifice, WAY_NONE},        {ROW_storm_depth, WAY_NONE},  {ROW_prices_gravel, WAY_NONE},
      {ROW_crew_people, WAY_NONE},        {ROW_pump_power, WAY_NONE},   {ROW_spill_target, WAY_NONE},
      {ROW_site_barrier_depth, WAY_NONE},
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) assert_int_equal(taking_of(rows[i].row), rows[i].way);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(each_width_can_be_read),
      cmocka_unit_test(each_word_of_measured_is_a_way),
      cmocka_unit_test(givens_are_got_as_the_trade_gets_them),
  };
  return cmocka_run_group_tests_name("catalogue/taking", tests, NULL, NULL);
}
