// SPDX-License-Identifier: MIT
#include "physics/rim.h"

#include "near.h"

static const struct rim_point SQUARE[] = {{0, 0.10}, {1, 0.11}, {2, 0.12}, {3, 0.11}};
static const struct rim RIM = {.points = SQUARE, .count = 4, .length = 4, .closed = true};
static const struct rim_point EDGE[] = {{0, 0.2}, {2, 0.2}};
static const struct rim LEVEL = {.points = EDGE, .count = 2};

static void a_level_edge_is_a_plain_weir(void **state) {
  (void)state;
  assert_near(rim_flow(&LEVEL, 1.7, 0.25), 1.7 * 2 * pow(0.05, 1.5), 1e-12);
  assert_near(rim_level(&LEVEL, 1.7, 1.7 * 2 * pow(0.05, 1.5)), 0.25, 1e-12);
  assert_near(rim_flow_share_of_lowest(&LEVEL, 0.25, 0.25), 0.25, 1e-12);
}

static void the_level_passes_the_flow(void **state) {
  (void)state;
  for (double flow = 1e-6; flow < 0.1; flow *= 3) {
    assert_near(rim_flow(&RIM, 1.5, rim_level(&RIM, 1.5, flow)) / flow, 1, 1e-9);
  }
  assert_near(rim_level(&RIM, 1.5, 0), 0.10, 1e-12);
}

static void still_water_wets_what_is_under_it(void **state) {
  (void)state;
  assert_equal(rim_wet_share(&RIM, 0.10), 0);
  assert_near(rim_wet_share(&RIM, 0.105), 0.25, 1e-9);
  assert_near(rim_wet_share(&RIM, 0.13), 1, 1e-12);
  assert_near(rim_length(&RIM), 4, 0);
  assert_near(rim_lowest(&RIM), 0.10, 0);
}

static void a_nearly_level_piece_loses_no_digits(void **state) {
  (void)state;
  const struct rim_point hair[] = {{0, 0.2}, {2, 0.2 + 1e-13}}, slight[] = {{0, 0.2}, {2, 0.2 + 4e-5}};
  const struct rim almost = {.points = hair, .count = 2}, near = {.points = slight, .count = 2};
  assert_near(rim_flow(&almost, 1.7, 0.25), 1.7 * 2 * pow(0.05, 1.5), 1e-12);
  assert_near(rim_flow(&near, 1.7, 0.25), 1.7 * 2 * pow(0.04998, 1.5), 1e-9);
}

static void all_of_a_rim_takes_all_of_the_flow(void **state) {
  (void)state;
  const double level = rim_level(&RIM, 1.5, 1e-3);
  assert_near(rim_flow_share_of_lowest(&RIM, level, 1), 1, 1e-12);
  assert_less(0.25, rim_flow_share_of_lowest(&RIM, level, 0.25));
}

static void a_rim_may_begin_anywhere(void **state) {
  (void)state;
  const struct rim_point later[] = {{5, 0.2}, {7, 0.2}};
  const struct rim moved = {.points = later, .count = 2};
  assert_near(rim_length(&moved), 2, 0);
  assert_near(rim_flow(&moved, 1.7, 0.25), rim_flow(&LEVEL, 1.7, 0.25), 1e-15);
}

static void a_level_lip_shifts_nothing(void **state) {
  (void)state;
  const struct rim_tilt level = rim_tilt(1, 0, 1.5, 1e-3), barely = rim_tilt(1, 1e-9, 1.5, 1e-3);
  assert_near(level.shifted, 0, 1e-12);
  assert_near(level.dry_share, 0, 1e-12);
  assert_near(level.local, 0, 1e-9);
  assert_near(level.head_low, level.head_high, 0);
  assert_near(barely.shifted, 0, 1e-6);
}

static void a_lip_far_out_of_level_runs_at_one_end(void **state) {
  (void)state;
  const struct rim_tilt steep = rim_tilt(1, 0.2, 1.5, 1e-4);
  assert_less(0.9, steep.dry_share);
  assert_less(0.85, steep.shifted);
  assert_equal(steep.head_high, 0);
}

// 0.00296551726283213 m: computed with SciPy 1.10.1, quad over the lip of c h^1.5 and brentq for the fall.
static void a_fall_is_found_for_an_excess_at_the_low_end(void **state) {
  (void)state;
  const double fall = rim_fall_for(1, 1.5, 1e-3, 0.3);
  assert_near(fall / 0.00296551726283213, 1, 1e-10);
  assert_near(rim_tilt(1, fall, 1.5, 1e-3).local, 0.3, 1e-9);
  assert_near(rim_fall_for(1, 1.5, 1e-3, 0), 0, 1e-12);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  const struct rim_point back[] = {{0, 0.1}, {2, 0.1}, {1, 0.1}};
  const struct rim wrong = {.points = back, .count = 3}, one = {.points = SQUARE, .count = 1};
  struct rim short_of = RIM;
  short_of.length = 3;
  assert_no_number(rim_flow(&wrong, 1.5, 0.2));
  assert_no_number(rim_level(&one, 1.5, 0.1));
  assert_no_number(rim_length(&short_of));
  assert_no_number(rim_level(&RIM, 0, 0.1));
  assert_no_number(rim_level(&RIM, 1.5, -1));
  assert_no_number(rim_flow(&RIM, 1.5, NOT_A_NUMBER));
  assert_no_number(rim_flow_share_of_lowest(&RIM, 0.05, 0.25));
  assert_no_number(rim_flow_share_of_lowest(&RIM, 0.2, 0));
  assert_no_number(rim_flow_share_of_lowest(&RIM, 0.2, 1.01));
  assert_no_number(rim_tilt(0, 0.1, 1.5, 1e-3).shifted);
  assert_no_number(rim_tilt(1, 0.1, 1.5, 0).local);
  assert_no_number(rim_fall_for(1, 1.5, 0, 0.3));
  assert_no_number(rim_fall_for(1, 1.5, 1e-3, NOT_A_NUMBER));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_level_edge_is_a_plain_weir),
      cmocka_unit_test(the_level_passes_the_flow),
      cmocka_unit_test(still_water_wets_what_is_under_it),
      cmocka_unit_test(a_nearly_level_piece_loses_no_digits),
      cmocka_unit_test(all_of_a_rim_takes_all_of_the_flow),
      cmocka_unit_test(a_rim_may_begin_anywhere),
      cmocka_unit_test(a_level_lip_shifts_nothing),
      cmocka_unit_test(a_lip_far_out_of_level_runs_at_one_end),
      cmocka_unit_test(a_fall_is_found_for_an_excess_at_the_low_end),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/rim", tests, NULL, NULL);
}
