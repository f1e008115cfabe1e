// SPDX-License-Identifier: MIT
#include "physics/channel.h"

#include "near.h"

static const struct channel REACH = {.width = 0.5, .side = 1, .slope = 0.02, .n = 0.05};

static void no_flow_is_no_depth(void **state) {
  (void)state;
  assert_equal(channel_normal_depth(&REACH, 0), 0);
  assert_equal(channel_critical_depth(&REACH, 0), 0);
  assert_equal(channel_velocity(&REACH, 0), 0);
  assert_equal(channel_live_volume(&REACH, 0, 5).high, 0);
  assert_int_equal(channel_depth(&REACH, 0).outside, 0);
}

static void depth_and_capacity_undo_each_other(void **state) {
  (void)state;
  for (int step = 0; step < 9; step++) {
    const double depth = 1e-4 * pow(5, step);
    assert_near(channel_normal_depth(&REACH, channel_capacity(&REACH, depth)) / depth, 1, 1e-12);
  }
}

static void a_flood_still_finds_its_depth(void **state) {
  (void)state;
  const double depth = channel_normal_depth(&REACH, 1e9);
  assert_near(channel_capacity(&REACH, depth) / 1e9, 1, 1e-12);
}

static void the_bands_are_in_order(void **state) {
  (void)state;
  const struct band depth = channel_depth(&REACH, 0.01), volume = channel_live_volume(&REACH, 0.01, 4);
  assert_less(depth.low, depth.likely);
  assert_less(depth.likely, depth.high);
  assert_near(volume.low * 2, volume.likely, 1e-15);
  assert_near(volume.high, volume.likely * 1.5, 1e-15);
  assert_near(volume.likely, 4 * channel_area(&REACH, depth.likely), 1e-15);
}

// A wide sheet: depth goes with n^0.6, so twice n is 1.516 times the depth.
static void doubled_n_deepens_a_wide_sheet_by_half(void **state) {
  (void)state;
  const struct channel wide = {.width = 1000, .slope = 0.01, .n = 0.03};
  const struct band depth = channel_depth(&wide, 10);
  assert_near(depth.high / depth.likely, pow(2, 0.6), 1e-4);
  assert_near(depth.low / depth.likely, pow(0.5, 0.6), 1e-4);
}

static void inch_deep_flow_is_outside(void **state) {
  (void)state;
  assert_int_equal(channel_depth(&REACH, 0.005).outside, 1);
  assert_int_equal(channel_depth(&REACH, 0.5).outside, 0);
  assert_int_equal(channel_live_volume(&REACH, 0.005, 1).outside, 1);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  struct channel bad = REACH;
  bad.slope = 0;
  assert_no_number(channel_normal_depth(&bad, 0.01));
  assert_no_number(channel_velocity(&bad, 0.01));
  bad = REACH;
  bad.n = -1;
  assert_no_number(channel_depth(&bad, 0.01).likely);
  bad = REACH;
  bad.width = 0;
  assert_no_number(channel_critical_depth(&bad, 0.01));
  bad = REACH;
  bad.side = NOT_A_NUMBER;
  assert_no_number(channel_area(&bad, 0.1));
  assert_no_number(channel_normal_depth(&REACH, -1));
  assert_no_number(channel_normal_depth(&REACH, ENDLESS));
  assert_no_number(channel_live_volume(&REACH, 0.01, -1).likely);
  assert_no_number(channel_area(&REACH, -1));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(no_flow_is_no_depth),
      cmocka_unit_test(depth_and_capacity_undo_each_other),
      cmocka_unit_test(a_flood_still_finds_its_depth),
      cmocka_unit_test(the_bands_are_in_order),
      cmocka_unit_test(doubled_n_deepens_a_wide_sheet_by_half),
      cmocka_unit_test(inch_deep_flow_is_outside),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/channel", tests, NULL, NULL);
}
