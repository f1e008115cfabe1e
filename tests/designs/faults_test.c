// SPDX-License-Identifier: MIT
// When the power fails no water is made and none is lost: what ran down is what the lowest basin rises by, and after
// the next start it is where it was. Sums of areas and heights stand beside the areas cut by the program.
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "designs/judged.h"
#include "quantities/read.h"

#define FOOT 0.3048
#define PI 3.14159265358979323846

static void check_near(double value, double expected, double share) {
  if (!(fabs(value - expected) <= share * fabs(expected))) fail_msg("%.15g, and %.15g was expected", value, expected);
}

static int named(struct judged *judged, const char *name) {
  int entity = store_named(judged->store, name, strlen(name));
  assert_int_not_equal(entity, -1);
  return entity;
}

// worked/faults.lua: a pool of 12 by 8 ft, upright; a bowl 4 ft across that spills 30 in down; a check valve in the
// line.
static void the_rise_holds_what_came_down(void **state) {
  (void)state;
  struct judged judged = judged_read("tests/designs/worked/faults.lua");
  struct evaluation *ev = evaluation_in(judged.arena, judged.store, &judged.problems);
  struct basin_ref pool = {named(&judged, "pool")};
  struct spill_ref lip = {named(&judged, "lip")};
  double fallen = PI * 4 * FOOT * FOOT * spill_get_head_high(ev, lip) + spill_get_in_air(ev, lip);
  double risen = 96 * FOOT * FOOT * basin_get_rise_at_power_loss(ev, pool);
  check_near(risen, fallen, 1e-9);
  double lowered = 96 * FOOT * FOOT * (basin_get_water_level(ev, pool) - basin_get_start_level(ev, pool));
  check_near(lowered, fallen, 1e-9);
  judged_free(&judged);
}

// Of a basin with sloped sides, shelves and an outline of its own: the whole volume before, and after.
static void volume_stays(const char *path, const char *name) {
  struct judged judged = judged_read(path);
  struct evaluation *ev = evaluation_in(judged.arena, judged.store, &judged.problems);
  struct basin_ref basin = {named(&judged, name)};
  const struct basin_geometry *g = basin_get_geometry(ev, basin);
  assert_non_null(g);
  double still = basin_get_water_level(ev, basin), flight = basin_get_water_in_flight(ev, basin);
  double before = cuts_volume(&g->cuts, still, g->bed) + flight;
  double after = cuts_volume(&g->cuts, still + basin_get_rise_at_power_loss(ev, basin), g->bed);
  assert_true(flight > 0);
  check_near(after, before, 1e-9);
  double running = cuts_volume(&g->cuts, basin_get_start_level(ev, basin), g->bed) + flight;
  check_near(running, before - flight, 1e-9);
  judged_free(&judged);
}

static void no_water_is_lost(void **state) {
  (void)state;
  volume_stays("projects/stone-court.lua", "pool");
  volume_stays("projects/slate-rill.lua", "plunge");
  volume_stays("projects/slate-rill.lua", "fish basin");
}

// A drain over the water would drain nothing, and a lip that is blocked altogether passes nothing.
static void what_cannot_be_is_told(void **state) {
  (void)state;
  struct judged judged = judged_read("projects/stone-court.lua");
  int cup = named(&judged, "cup"), notch = named(&judged, "cup notch");
  store_at(judged.store, cup, ROW_basin_drain_at)->value = 10;
  store_at(judged.store, notch, ROW_spill_blocked)->value = 1;
  struct evaluation *ev = evaluation_in(judged.arena, judged.store, &judged.problems);
  assert_int_equal(evaluation_condition(ev, cup, ROW_basin_trapped_volume), CONDITION_IMPOSSIBLE);
  assert_int_equal(judged.problems.count, 1);
  assert_int_equal(evaluation_condition(ev, notch, ROW_spill_flow), CONDITION_MISSING);
  assert_int_equal(evaluation_condition(ev, cup, ROW_basin_running_level), CONDITION_MISSING);
  judged_free(&judged);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(the_rise_holds_what_came_down),
                                     cmocka_unit_test(no_water_is_lost), cmocka_unit_test(what_cannot_be_is_told)};
  return cmocka_run_group_tests_name("designs/faults", tests, NULL, NULL);
}
