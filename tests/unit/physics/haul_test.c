// SPDX-License-Identifier: MIT
#include "physics/haul.h"

#include "near.h"

static const struct haul_vessel BAG = {.volume = HAUL_BULK_BAG, .limit = HAUL_BULK_BAG_LIMIT};

static void light_stuff_fills_the_bag(void **state) {
  (void)state;
  assert_near(haul_fill(&BAG, 500), HAUL_BULK_BAG, 0);
  assert_less(haul_fill(&BAG, 1600), HAUL_BULK_BAG);
  const struct haul_vessel unlimited = {.volume = HAUL_BULK_BAG, .limit = ENDLESS};
  assert_near(haul_fill(&unlimited, 1600), HAUL_BULK_BAG, 0);
}

static void whole_pieces_are_not_rounded_up_by_rounding(void **state) {
  (void)state;
  assert_equal(haul_pieces_of(0.3, 0.1), 3);
  assert_equal(haul_pieces_of(0.3001, 0.1), 4);
  assert_equal(haul_pieces_of(0, 0.1), 0);
  assert_equal(haul_pallets(2501, 1250), 3);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  const struct haul_vessel none = {.volume = 0, .limit = 1}, weak = {.volume = 1, .limit = 0};
  assert_no_number(haul_fill(&none, 1600));
  assert_no_number(haul_fill(&weak, 1600));
  assert_no_number(haul_pieces(&BAG, 1, 0));
  assert_no_number(haul_pieces_of(-1, 1));
  assert_no_number(haul_days(1, 0, 1));
  assert_no_number(haul_days(1, 1, 0));
  assert_no_number(haul_time(1, NOT_A_NUMBER, 1));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(light_stuff_fills_the_bag),
      cmocka_unit_test(whole_pieces_are_not_rounded_up_by_rounding),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/haul", tests, NULL, NULL);
}
