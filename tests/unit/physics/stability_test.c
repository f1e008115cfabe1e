// SPDX-License-Identifier: MIT
#include "physics/stability.h"

#include "near.h"

static const struct footing_soil BED = {.phi = 0.628, .density = 1600, .bedding = 0};
static const struct stability_block STONE = {
    .mass = 2900, .volume = 1.1, .length = 1.5, .seat = 0.6, .height = 1.2, .centre_height = 0.6, .friction = 0.55};
static const struct stability_loads LOADS = {.gravel_height = 0.9,
                                             .gravel_density = 1600,
                                             .gravel_density_wet = 1000,
                                             .gravel_phi = 0.66,
                                             .machine = STABILITY_MACHINE,
                                             .push = STABILITY_PUSH,
                                             .person = STABILITY_PERSON,
                                             .person_beyond = 0.1,
                                             .water_front = 0.75,
                                             .water_behind = 0.75};
static const struct stability_loads NONE = {0};

static void without_a_load_it_stands(void **state) {
  (void)state;
  const struct stability s = stability_of(&STONE, &NONE);
  assert_equal(s.overturning, ENDLESS);
  assert_equal(s.sliding, ENDLESS);
  assert_near(s.pressure.eccentricity, 0, 1e-12);
  assert_near(s.pressure.front, 2900 * 9.80665 / (1.5 * 0.6), 1e-6);
}

static void each_state_has_its_loads(void **state) {
  (void)state;
  const struct stability_loads set = stability_loads_in(STABILITY_SET, &LOADS);
  assert_equal(set.gravel_height, 0);
  assert_equal(set.push, STABILITY_PUSH);
  const struct stability_loads filling = stability_loads_in(STABILITY_BACKFILLING, &LOADS);
  assert_equal(filling.machine, STABILITY_MACHINE);
  assert_equal(filling.push, 0);
  assert_equal(filling.water_behind, 0);
  assert_equal(stability_loads_in(STABILITY_BACKFILLED, &LOADS).machine, 0);
  const struct stability_loads drained = stability_loads_in(STABILITY_DRAINED, &LOADS);
  assert_equal(drained.water_front, 0);
  assert_equal(drained.water_behind, 0.75);
}

static void a_stone_on_the_hook_has_no_factor(void **state) {
  (void)state;
  assert_no_number(stability_in_state(STABILITY_ON_THE_HOOK, &STONE, &LOADS).overturning);
  assert_no_number(stability_in_state(STABILITY_STATES, &STONE, &LOADS).sliding);
}

static void a_soft_seat_moves_the_pivot_in_and_bedding_helps(void **state) {
  (void)state;
  struct stability_block soft = STONE, bedded = STONE;
  struct footing_soil deep = BED;
  deep.bedding = 0.3;
  soft.soil = &BED;
  bedded.soil = &deep;
  const struct stability rigid = stability_in_state(STABILITY_SET, &STONE, &LOADS);
  const struct stability on_soft = stability_in_state(STABILITY_SET, &soft, &LOADS);
  const struct stability on_bedded = stability_in_state(STABILITY_SET, &bedded, &LOADS);
  assert_equal(rigid.pivot, 0);
  assert_less(on_bedded.pivot, on_soft.pivot);
  assert_less(on_soft.overturning, on_bedded.overturning);
  assert_less(on_bedded.overturning, rigid.overturning);
  assert_near(on_soft.holding, rigid.holding * (0.3 - on_soft.pivot) / 0.3, 1e-6);
}

static void the_arm_of_a_stone_on_gravel_is_a_third_shorter(void **state) {
  (void)state;
  // 1,287 lb/ft on a 2 ft seat, 100 lb/ft3, 36 degrees: arm 1.00 to 0.66 ft (worked by hand)
  const struct footing_soil gravel = {.phi = 36 * 3.14159265358979 / 180, .density = 1601.8463, .bedding = 0};
  struct stability_block stone = STONE;
  stone.seat = 0.6096;
  stone.length = 1;
  stone.mass = 1287 * 0.45359237 / 0.3048;
  stone.soil = &gravel;
  const struct stability s = stability_of(&stone, &NONE);
  assert_near((0.3048 - s.pivot) / 0.3048, 0.66, 0.003);
}

static void lean_offset_and_person_tip(void **state) {
  (void)state;
  struct stability_block leaning = STONE, offset = STONE;
  struct stability_loads climbed = NONE, alone = NONE;
  alone.push = climbed.push = STABILITY_PUSH;
  climbed.person = STABILITY_PERSON;
  climbed.person_beyond = 0.1;
  leaning.lean = 0.1;
  offset.offset = 0.6 * tan(0.1);
  const double upright = stability_of(&STONE, &alone).overturning;
  assert_less(stability_of(&leaning, &alone).overturning, upright);
  assert_near(stability_of(&leaning, &alone).overturning, stability_of(&offset, &alone).overturning, 1e-9);
  assert_less(stability_of(&STONE, &climbed).overturning, upright);
  climbed.person_beyond = -0.2;
  assert_near(stability_of(&STONE, &climbed).overturning, upright, 1e-12);
}

static void leaning_past_its_edge_it_goes_by_itself(void **state) {
  (void)state;
  struct stability_block over = STONE;
  over.lean = 0.5;
  assert_equal(stability_of(&over, &NONE).overturning, 0);
}

static void on_a_slope_it_slides_by_the_angle_alone(void **state) {
  (void)state;
  struct stability_block sloped = STONE;
  sloped.seat_slope = atan(0.25);
  assert_near(stability_of(&sloped, &NONE).sliding, 0.55 / 0.25, 1e-12);
}

static void a_push_on_a_slope_lightens_the_seat(void **state) {
  (void)state;
  struct stability_block sloped = STONE;
  struct stability_loads pushed = NONE;
  sloped.seat_slope = 0.2;
  pushed.push = 1000;
  const double weight = 2900 * 9.80665, along = sin(0.2), across = cos(0.2);
  assert_near(stability_of(&sloped, &pushed).sliding,
              0.55 * (weight * across - 1000 * along) / (1000 * across + weight * along), 1e-12);
}

static void a_stone_that_hangs_over_needs_holding(void **state) {
  (void)state;
  struct stability_block over = STONE;
  struct stability_loads pushed = NONE;
  over.offset = 0.4;
  pushed.push = 1000;
  const struct stability s = stability_of(&over, &pushed);
  assert_near(s.tipping, 1000 * 1.2 + 2900 * 9.80665 * 0.1, 1e-6);
  assert_equal(s.overturning, 0);
  assert_equal(s.pressure.front, ENDLESS);
}

static void passive_ground_counts_only_when_given(void **state) {
  (void)state;
  struct stability_block buried = STONE;
  buried.embedment = 0.3;
  const double left_out = stability_in_state(STABILITY_BACKFILLED, &buried, &LOADS).sliding;
  assert_near(left_out, stability_in_state(STABILITY_BACKFILLED, &STONE, &LOADS).sliding, 1e-12);
  buried.passive = 3 * 15700;
  assert_less(left_out, stability_in_state(STABILITY_BACKFILLED, &buried, &LOADS).sliding);
}

static void water_takes_off_only_what_is_wet(void **state) {
  (void)state;
  struct stability_loads wet = NONE;
  wet.water_front = 0.6;
  assert_near(stability_of(&STONE, &wet).vertical, (2900 - 550) * 9.80665, 1e-6);
  wet.water_front = 9;
  assert_near(stability_of(&STONE, &wet).vertical, (2900 - 1100) * 9.80665, 1e-6);
  assert_equal(stability_of(&STONE, &wet).thrust, 0);
}

static void what_floats_holds_nothing(void **state) {
  (void)state;
  struct stability_block light = STONE;
  struct stability_loads deep = NONE;
  light.mass = 500;
  deep.water_front = 2;
  deep.push = 1;
  assert_equal(stability_of(&light, &deep).overturning, 0);
  assert_equal(stability_of(&light, &deep).sliding, 0);
}

static void uplift_under_the_seat_makes_a_fast_drain_worse(void **state) {
  (void)state;
  struct stability_loads with = stability_loads_in(STABILITY_DRAINED, &LOADS);
  const struct stability without_uplift = stability_of(&STONE, &with);
  with.uplift = 1;
  const struct stability uplifted = stability_of(&STONE, &with);
  assert_less(uplifted.overturning, without_uplift.overturning);
  assert_less(uplifted.sliding, without_uplift.sliding);
  assert_near(without_uplift.vertical - uplifted.vertical, 1000 * 9.80665 * 0.75 * 0.6 * 1.5 / 2, 1e-6);
}

static void the_resultant_follows_person_and_passive_ground(void **state) {
  (void)state;
  struct stability_loads standing = NONE;
  struct stability_block buried = STONE;
  const double weight = 2900 * 9.80665;
  standing.person = 1000;
  standing.person_beyond = 0.1;
  assert_near(stability_of(&STONE, &standing).pressure.resultant, (weight * 0.3 - 100) / (weight + 1000), 1e-9);
  standing.person_beyond = -0.2;
  assert_near(stability_of(&STONE, &standing).pressure.resultant, (weight * 0.3 + 200) / (weight + 1000), 1e-9);
  buried.embedment = 0.3;
  buried.passive = 40000;
  assert_near(stability_of(&buried, &NONE).holding, weight * 0.3 + 40000 * 0.09 / 2 * 1.5 * 0.1, 1e-6);
}

static void on_a_soft_seat_levers_run_from_the_pivot(void **state) {
  (void)state;
  struct stability_block soft = STONE;
  struct stability_loads drained = NONE;
  soft.soil = &BED;
  drained.water_behind = 0.5;
  drained.uplift = 1;
  drained.person = 1000;
  drained.person_beyond = 0.1;
  const struct stability s = stability_of(&soft, &drained);
  const double under = 9806.65 * 0.5 * 0.6 * 1.5 / 2, water = 9806.65 * 0.125 / 6 * 1.5;
  assert_less(0.01, s.pivot);
  assert_near(s.tipping, water + under * (0.4 - s.pivot) + 1000 * (0.1 + s.pivot), 1e-6);
}

static void water_on_both_sides_lifts_nothing_more(void **state) {
  (void)state;
  struct stability_loads level = stability_loads_in(STABILITY_WATER_UP, &LOADS);
  const double without_uplift = stability_of(&STONE, &level).vertical;
  level.uplift = 1;
  assert_near(stability_of(&STONE, &level).vertical, without_uplift, 1e-9);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  struct stability_block bad = STONE;
  bad.seat = 0;
  assert_no_number(stability_of(&bad, &NONE).overturning);
  bad = STONE;
  bad.friction = NOT_A_NUMBER;
  assert_no_number(stability_of(&bad, &NONE).sliding);
  struct stability_loads wrong = LOADS;
  wrong.push = -1;
  assert_no_number(stability_of(&STONE, &wrong).sliding);
  wrong = LOADS;
  wrong.uplift = 1.1;
  assert_no_number(stability_of(&STONE, &wrong).sliding);
  wrong = LOADS;
  wrong.gravel_phi = 2;
  assert_no_number(stability_of(&STONE, &wrong).overturning);
  assert_no_number(stability_of(&STONE, &wrong).sliding);
  wrong.gravel_height = 0;
  assert_less(0, stability_of(&STONE, &wrong).overturning);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(without_a_load_it_stands),
      cmocka_unit_test(each_state_has_its_loads),
      cmocka_unit_test(a_stone_on_the_hook_has_no_factor),
      cmocka_unit_test(a_soft_seat_moves_the_pivot_in_and_bedding_helps),
      cmocka_unit_test(the_arm_of_a_stone_on_gravel_is_a_third_shorter),
      cmocka_unit_test(lean_offset_and_person_tip),
      cmocka_unit_test(leaning_past_its_edge_it_goes_by_itself),
      cmocka_unit_test(on_a_slope_it_slides_by_the_angle_alone),
      cmocka_unit_test(a_push_on_a_slope_lightens_the_seat),
      cmocka_unit_test(a_stone_that_hangs_over_needs_holding),
      cmocka_unit_test(passive_ground_counts_only_when_given),
      cmocka_unit_test(water_takes_off_only_what_is_wet),
      cmocka_unit_test(what_floats_holds_nothing),
      cmocka_unit_test(uplift_under_the_seat_makes_a_fast_drain_worse),
      cmocka_unit_test(the_resultant_follows_person_and_passive_ground),
      cmocka_unit_test(on_a_soft_seat_levers_run_from_the_pivot),
      cmocka_unit_test(water_on_both_sides_lifts_nothing_more),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/stability", tests, NULL, NULL);
}
