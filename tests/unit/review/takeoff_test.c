// SPDX-License-Identifier: MIT
// The takeoff as data: the sample's three stones of no known sort, each 30 x 20 in, and a wall of 12 ft x 38 x 12 in.
#include "review/takeoff.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "unit/review/sample.h"

static const struct takeoff_group *group_of(const struct takeoff *takeoff, const char *title) {
  for (size_t i = 0; i < takeoff->count; i++) {
    if (strcmp(takeoff->groups[i].title, title) == 0) return &takeoff->groups[i];
  }
  fail_msg("no group %s", title);
  return NULL;
}

static struct takeoff taken(struct sample *sample) { return takeoff_of(sample->arena, sample->review.evaluation); }

static void assert_mass(double value, double pounds) {
  if (!(fabs(value / 0.45359237 - pounds) < 1)) fail_msg("%g lb, %g expected", value / 0.45359237, pounds);
}

// 30 x 20 x (72 + 24 + 20) in is 40.278 ft3: x 0.52 x 137.3, x 0.65 x 165, x 1.0 x 187.3 lb/ft3.
static void stones_of_one_sort_are_one_line(void **state) {
  struct takeoff takeoff = taken(*state);
  const struct takeoff_group *stone = group_of(&takeoff, "STONE");
  assert_int_equal(stone->count, 1);
  assert_string_equal(stone->lines[0].what, "sort not known, 3 stones");
  assert_int_equal(stone->lines[0].amount_count, 3);
  assert_mass(stone->lines[0].amounts[0].value, 2875.7);
  assert_mass(stone->lines[0].amounts[1].value, 4319.8);
  assert_mass(stone->lines[0].amounts[2].value, 7544.0);
}

static void a_missing_value_leads_to_what_to_fill_in(void **state) {
  struct sample *sample = *state;
  struct takeoff takeoff = taken(sample);
  const struct takeoff_group *wall = group_of(&takeoff, "WALLS, CAPS, BASE");
  size_t waiting = 0;
  for (size_t i = 0; i < wall->count; i++) {
    const struct takeoff_line *line = &wall->lines[i];
    if (line->root_count == 0) continue;
    waiting++;
    assert_int_equal(line->root_count, 1);
    assert_int_equal(line->roots[0], store_slot(sample->store, WALL, ROW_wall_base_pad));
  }
  assert_int_equal(waiting, 3);  // the base: compacted, loose, its weight
}

static void without_prices_every_line_is_unpriced(void **state) {
  struct takeoff takeoff = taken(*state);
  const struct takeoff_group *prices = group_of(&takeoff, "PRICE, at what the firm pays");
  assert_int_equal(takeoff.priced, 0);
  assert_int_equal(takeoff.unpriced, prices->count);
  for (size_t i = 0; i < prices->count; i++) assert_int_equal(prices->lines[i].is_price, true);
}

static void groups_without_a_line_are_left_out(void **state) {
  struct takeoff takeoff = taken(*state);
  for (size_t i = 0; i < takeoff.count; i++) {
    assert_string_not_equal(takeoff.groups[i].title, "PLANTS");
    assert_int_not_equal(takeoff.groups[i].count, 0);
  }
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, sample_setup, sample_teardown)
  const struct CMUnitTest tests[] = {
      TEST(stones_of_one_sort_are_one_line),
      TEST(a_missing_value_leads_to_what_to_fill_in),
      TEST(without_prices_every_line_is_unpriced),
      TEST(groups_without_a_line_are_left_out),
  };
  return cmocka_run_group_tests_name("review/takeoff", tests, NULL, NULL);
}
