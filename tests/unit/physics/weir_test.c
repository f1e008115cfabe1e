// SPDX-License-Identifier: MIT
#include "physics/weir.h"

#include "near.h"

static const double RIGHT_ANGLE = 1.5707963267948966;

static void assert_none(struct band band) {
  assert_no_number(band.low);
  assert_no_number(band.likely);
  assert_no_number(band.high);
  assert_int_equal(band.outside, 1);
}

static void no_flow_is_no_head(void **state) {
  (void)state;
  for (enum weir_lip lip = WEIR_THIN_EDGE; lip < WEIR_LIPS; lip++) {
    const struct weir weir = {.lip = lip, .width = 0.3, .angle = RIGHT_ANGLE};
    const struct band head = weir_head(&weir, 0), flow = weir_flow(&weir, 0);
    assert_equal(head.low, 0);
    assert_equal(head.likely, 0);
    assert_equal(head.high, 0);
    assert_int_equal(head.outside, 0);
    assert_equal(flow.high, 0);
  }
}

static void bad_input_gives_no_band(void **state) {
  (void)state;
  const struct weir good = {.lip = WEIR_THIN_EDGE, .width = 0.3}, flat = {.lip = WEIR_V, .angle = 2 * RIGHT_ANGLE};
  const struct weir narrow = {.lip = WEIR_NOTCH, .width = 0}, unknown = {.lip = WEIR_LIPS, .width = 1};
  const struct weir lost = {.lip = WEIR_ROUNDED, .width = NOT_A_NUMBER}, closed = {.lip = WEIR_V, .angle = 0};
  assert_none(weir_head(&good, -1));
  assert_none(weir_head(&good, NOT_A_NUMBER));
  assert_none(weir_flow(&good, ENDLESS));
  assert_none(weir_head(&narrow, 1));
  assert_none(weir_head(&unknown, 1));
  assert_none(weir_flow(&lost, 1));
  assert_none(weir_flow(&flat, 1));
  assert_none(weir_head(&closed, 1));
  assert_none(weir_coefficient(WEIR_V));
  assert_none(weir_coefficient((enum weir_lip)99));
  assert_int_equal(weir_outside(&good, NOT_A_NUMBER), 1);
}

static void head_and_flow_undo_each_other(void **state) {
  (void)state;
  for (enum weir_lip lip = WEIR_THIN_EDGE; lip < WEIR_LIPS; lip++) {
    const struct weir weir = {.lip = lip, .width = 0.1, .angle = RIGHT_ANGLE};
    for (int step = 0; step < 8; step++) {
      const double head = 0.001 * pow(3, step);
      const struct band flow = weir_flow(&weir, head);
      assert_near(weir_head(&weir, flow.likely).likely / head, 1, 1e-12);
      assert_near(weir_head(&weir, flow.low).high / head, 1, 1e-12);
      assert_near(weir_head(&weir, flow.high).low / head, 1, 1e-12);
    }
  }
}

static void the_band_is_in_order(void **state) {
  (void)state;
  for (enum weir_lip lip = WEIR_THIN_EDGE; lip < WEIR_LIPS; lip++) {
    const struct weir weir = {.lip = lip, .width = 0.3, .angle = RIGHT_ANGLE};
    const struct band head = weir_head(&weir, 0.001);
    assert_less(head.low, head.high);
    assert_less(head.low * (1 - 1e-12), head.likely);
    assert_less(head.likely, head.high * (1 + 1e-12));
  }
}

static void a_choked_notch_still_lets_more_through(void **state) {
  (void)state;
  const struct weir notch = {.lip = WEIR_NOTCH, .width = 0.05};
  double before = 0;
  for (int step = 0; step < 99; step++) {
    const double head = 0.01 + step * 0.01;
    const double flow = weir_flow(&notch, head).likely;
    assert_less(before, flow);
    before = flow;
  }
}

static void outside_is_said_at_garden_heads(void **state) {
  (void)state;
  const struct weir lip = {.lip = WEIR_BROAD_STONE, .width = 0.3};
  assert_int_equal(weir_outside(&lip, 0.06095), 1);
  assert_int_equal(weir_outside(&lip, 0.06096), 0);
  assert_int_equal(weir_head(&lip, 1e-4).outside, 1);
  assert_int_equal(weir_head(&lip, 0.05).outside, 0);
}

static void tailwater_at_the_crest_changes_nothing(void **state) {
  (void)state;
  assert_equal(weir_submerged_share(WEIR_THIN_EDGE, 0.1, 0), 1);
  assert_equal(weir_submerged_share(WEIR_THIN_EDGE, 0.1, -3), 1);
  assert_equal(weir_submerged_share(WEIR_THIN_EDGE, 0.1, 0.1), 0);
  assert_equal(weir_submerged_share(WEIR_V, 0.1, 0.2), 0);
  assert_equal(weir_submerged_share(WEIR_V, 0, 0), 1);
  assert_no_number(weir_submerged_share(WEIR_V, NOT_A_NUMBER, 0.1));
  assert_no_number(weir_submerged_share(WEIR_V, 0.1, NOT_A_NUMBER));
  assert_no_number(weir_submerged_share(WEIR_LIPS, 0.1, 0.05));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(no_flow_is_no_head),
      cmocka_unit_test(bad_input_gives_no_band),
      cmocka_unit_test(head_and_flow_undo_each_other),
      cmocka_unit_test(the_band_is_in_order),
      cmocka_unit_test(a_choked_notch_still_lets_more_through),
      cmocka_unit_test(outside_is_said_at_garden_heads),
      cmocka_unit_test(tailwater_at_the_crest_changes_nothing),
  };
  return cmocka_run_group_tests_name("physics/weir", tests, NULL, NULL);
}
