// SPDX-License-Identifier: MIT
// What a trial promises, one promise at a time; that all its values are right is for tests/designs/trial_test.c.
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "quantities/read.h"
#include "quantities/trial.h"

#define FOOT 0.3048

static void near_to(double value, double expected, double near) {
  if (!(fabs(value - expected) <= near)) fail_msg("%.12g is not %.12g", value, expected);
}

struct fixture {
  struct arena *arena;
  struct problems problems;
  struct store *store;
  struct evaluation *ev;
  int basin, stone;
};

static void give(struct fixture *f, int entity, enum row_id row, const char *text) {
  struct store_text written = {text, false, {.line = 10 + entity}};
  if (!store_write(f->store, &f->problems, entity, row, written)) fail_msg("%s", text);
}

// A round basin of 4 ft, and a stone whose embedment nobody wrote.
static int begin(void **state) {
  struct arena *arena = arena_new();
  struct fixture *f = arena_alloc(arena, sizeof *f);
  *f = (struct fixture){.arena = arena, .problems = problems_in(arena), .store = store_in(arena, "test.lua")};
  f->basin = store_add(f->store, KIND_basin, "pool", 3);
  give(f, f->basin, ROW_basin_outline, "circle");
  give(f, store_add_part(f->store, f->basin, ROW_basin_outline, 3), ROW_point_x, "4 ft");
  give(f, f->basin, ROW_basin_rim, "3 in");
  give(f, f->basin, ROW_basin_water_level, "0 in");
  give(f, f->basin, ROW_basin_depth, "2 ft");
  f->stone = store_add(f->store, KIND_boulder, "stone", 5);
  give(f, f->stone, ROW_boulder_height, "4 ft");
  *state = f;
  return 0;
}

static void settle(struct fixture *f) {
  if (!store_settle_example(f->store, &f->problems)) fail_msg("%s", f->problems.list[0].said);
  f->ev = evaluation_in(f->arena, f->store, &f->problems);
}

static int end(void **state) {
  struct fixture *f = *state;
  arena_free(f->arena);
  return 0;
}

static int slot(const struct fixture *f, int entity, enum row_id row) { return store_slot(f->store, entity, row); }

static void try(struct fixture *f, int entity, enum row_id row, double value) {
  struct trial_change change = {slot(f, entity, row), value};
  trial_begin(f->ev, &change, 1);
}

static double freeboard(struct fixture *f) { return evaluation_number(f->ev, f->basin, ROW_basin_freeboard); }

static void the_base_stands_again_afterwards(void **state) {
  struct fixture *f = *state;
  settle(f);
  near_to(freeboard(f), 0.25 * FOOT, 1e-12);
  try(f, f->basin, ROW_basin_rim, 0.5 * FOOT);
  near_to(freeboard(f), 0.5 * FOOT, 1e-12);
  assert_int_equal(evaluation_condition(f->ev, f->basin, ROW_basin_rim), CONDITION_GIVEN);
  assert_int_equal(trial_changed(f->ev, slot(f, f->basin, ROW_basin_freeboard)), true);
  trial_end(f->ev);
  near_to(freeboard(f), 0.25 * FOOT, 1e-12);
}

static void what_does_not_hang_on_it_is_left_alone(void **state) {
  struct fixture *f = *state;
  settle(f);
  evaluation_number(f->ev, f->basin, ROW_basin_gross_volume);
  freeboard(f);
  try(f, f->stone, ROW_boulder_height, 1);
  evaluation_number(f->ev, f->basin, ROW_basin_gross_volume);
  freeboard(f);
  assert_int_equal(trial_worked_out(f->ev), 0);
  assert_int_equal(trial_changed(f->ev, slot(f, f->basin, ROW_basin_gross_volume)), false);
  trial_end(f->ev);
}

// The same value again: all that hangs on it is looked at, nothing worked out.
static void a_value_that_is_the_same_changes_nothing(void **state) {
  struct fixture *f = *state;
  settle(f);
  freeboard(f);
  try(f, f->basin, ROW_basin_rim, f->store->slots[slot(f, f->basin, ROW_basin_rim)].value);
  freeboard(f);
  assert_int_equal(trial_changed(f->ev, slot(f, f->basin, ROW_basin_rim)), false);
  assert_int_equal(trial_worked_out(f->ev), 0);
  trial_end(f->ev);
}

// Dug deeper, the basin's shape is another and its area at the water the same: what reads the area keeps what it had.
static void readers_of_what_came_to_the_same_are_left_alone(void **state) {
  struct fixture *f = *state;
  settle(f);
  double loss = evaluation_number(f->ev, f->basin, ROW_basin_leak_loss);
  try(f, f->basin, ROW_basin_depth, 3 * FOOT);
  assert_int_equal(trial_changed(f->ev, slot(f, f->basin, ROW_basin_geometry)), true);
  assert_int_equal(trial_changed(f->ev, slot(f, f->basin, ROW_basin_water_area)), false);
  size_t worked_out = trial_worked_out(f->ev);
  assert_in_range(worked_out, 2, 10);
  near_to(evaluation_number(f->ev, f->basin, ROW_basin_leak_loss), loss, 0);
  assert_int_equal(trial_worked_out(f->ev), worked_out);
  trial_end(f->ev);
}

static void missing_becomes_a_value_and_back(void **state) {
  struct fixture *f = *state;
  settle(f);
  assert_int_equal(evaluation_condition(f->ev, f->stone, ROW_boulder_embedded_share), CONDITION_MISSING);
  try(f, f->stone, ROW_boulder_embedment, FOOT);
  near_to(evaluation_number(f->ev, f->stone, ROW_boulder_embedded_share), 0.25, 1e-12);
  trial_end(f->ev);
  assert_int_equal(evaluation_condition(f->ev, f->stone, ROW_boulder_embedded_share), CONDITION_MISSING);
}

static void a_measured_value_stays(void **state) {
  struct fixture *f = *state;
  give(f, f->stone, ROW_boulder_embedment, "1 ft");
  struct store_text written = {"20 %", false, {.line = 9}};
  assert_int_equal(store_measure(f->store, &f->problems, f->stone, "embedded_share", written, "tape"), true);
  settle(f);
  evaluation_number(f->ev, f->stone, ROW_boulder_embedded_share);
  try(f, f->stone, ROW_boulder_embedment, 2 * FOOT);
  near_to(evaluation_number(f->ev, f->stone, ROW_boulder_embedded_share), 0.2, 1e-12);
  near_to(evaluation_unmeasured(f->ev, f->stone, ROW_boulder_embedded_share), 0.5, 1e-12);
  trial_end(f->ev);
}

// A formula that asks whether something is stated hears of a trial that states it.
static void what_is_tried_is_stated(void **state) {
  struct fixture *f = *state;
  settle(f);
  assert_int_equal(evaluation_stated(f->ev, f->stone, ROW_boulder_embedment), false);
  try(f, f->stone, ROW_boulder_embedment, FOOT);
  assert_int_equal(evaluation_stated(f->ev, f->stone, ROW_boulder_embedment), true);
  trial_end(f->ev);
  assert_int_equal(evaluation_stated(f->ev, f->stone, ROW_boulder_embedment), false);
}

// A drain over the water is impossible, and the base does not hear of it.
static void its_problems_end_with_it(void **state) {
  struct fixture *f = *state;
  give(f, f->basin, ROW_basin_drain_at, "-2 ft");
  settle(f);
  assert_int_equal(evaluation_condition(f->ev, f->basin, ROW_basin_trapped_volume), CONDITION_COMPUTED);
  try(f, f->basin, ROW_basin_drain_at, FOOT);
  assert_int_equal(evaluation_condition(f->ev, f->basin, ROW_basin_trapped_volume), CONDITION_IMPOSSIBLE);
  trial_end(f->ev);
  assert_int_equal(f->problems.count, 0);
  assert_int_equal(evaluation_condition(f->ev, f->basin, ROW_basin_trapped_volume), CONDITION_COMPUTED);
}

static void a_reader_in_a_trial_knows_who_is_to_blame(void **state) {
  struct fixture *f = *state;
  settle(f);
  struct reader reader;
  int *roots;
  evaluation_number(f->ev, f->stone, ROW_boulder_top);
  try(f, f->stone, ROW_boulder_height, 1);
  evaluation_begin(f->ev, &reader);
  evaluation_number(f->ev, f->stone, ROW_boulder_top);
  evaluation_end(f->ev);
  assert_int_equal(evaluation_roots(f->ev, reader.reads, reader.count, &roots), 1);
  assert_int_equal(roots[0], slot(f, f->stone, ROW_boulder_embedment));
  trial_end(f->ev);
}

// Reads between trials are known to the next.
static void what_the_base_reads_later_counts(void **state) {
  struct fixture *f = *state;
  settle(f);
  freeboard(f);
  try(f, f->basin, ROW_basin_depth, FOOT);
  trial_end(f->ev);
  double volume = evaluation_number(f->ev, f->basin, ROW_basin_gross_volume);
  try(f, f->basin, ROW_basin_depth, FOOT);
  near_to(evaluation_number(f->ev, f->basin, ROW_basin_gross_volume), volume / 2, 1e-6);
  trial_end(f->ev);
}

// The first few take what they need from the machine; after that one block more would be one too many.
static void ten_thousand_trials_take_no_more_memory(void **state) {
  struct fixture *f = *state;
  settle(f);
  double volume = evaluation_number(f->ev, f->basin, ROW_basin_gross_volume);
  for (int i = 0; i < 10000; i++) {
    if (i == 10) arena_fail_nth(1);
    try(f, f->basin, ROW_basin_depth, (i % 2 ? 1 : 3) * FOOT);
    near_to(evaluation_number(f->ev, f->basin, ROW_basin_gross_volume), volume * (i % 2 ? 0.5 : 1.5), 1e-6);
    trial_end(f->ev);
  }
  arena_fail_nth(0);
  near_to(evaluation_number(f->ev, f->basin, ROW_basin_gross_volume), volume, 0);
}

// A thousand bowls, each spilling into the next, read from the top so that the base is never deep. A trial that looks
// from below gives up where it would get too deep, as the base would have, and does not run out of stack.
static void a_long_chain_is_given_up(void **state) {
  struct fixture *f = *state;
  enum { BOWLS = 1000 };
  int bowl[BOWLS], lip[BOWLS];
  for (int i = 0; i < BOWLS; i++) bowl[i] = store_add(f->store, KIND_basin, NULL, 100 + i);
  for (int i = 0; i + 1 < BOWLS; i++) {
    lip[i] = store_add(f->store, KIND_spill, NULL, 2000 + i);
    store_refer(f->store, lip[i], ROW_spill_from, bowl[i]);
    store_refer(f->store, lip[i], ROW_spill_into, bowl[i + 1]);
    give(f, lip[i], ROW_spill_crest, "0 in");
    give(f, lip[i], ROW_spill_lip, "thin edge");
    give(f, lip[i], ROW_spill_lip_width, "10 in");
  }
  settle(f);
  for (int i = 0; i + 1 < BOWLS; i++) evaluation_number(f->ev, lip[i], ROW_spill_flow);
  enum condition before = evaluation_condition(f->ev, lip[BOWLS - 2], ROW_spill_flow);
  assert_int_equal(before, CONDITION_COMPUTED);
  try(f, lip[0], ROW_spill_lip_width, 1);
  assert_int_equal(evaluation_condition(f->ev, lip[BOWLS - 2], ROW_spill_flow), CONDITION_MISSING);
  trial_end(f->ev);
  assert_int_equal(evaluation_condition(f->ev, lip[BOWLS - 2], ROW_spill_flow), before);
}

#define TEST(function) cmocka_unit_test_setup_teardown(function, begin, end)
int main(void) {
  const struct CMUnitTest tests[] = {
      TEST(the_base_stands_again_afterwards),
      TEST(what_does_not_hang_on_it_is_left_alone),
      TEST(a_value_that_is_the_same_changes_nothing),
      TEST(readers_of_what_came_to_the_same_are_left_alone),
      TEST(missing_becomes_a_value_and_back),
      TEST(a_measured_value_stays),
      TEST(what_is_tried_is_stated),
      TEST(its_problems_end_with_it),
      TEST(a_reader_in_a_trial_knows_who_is_to_blame),
      TEST(what_the_base_reads_later_counts),
      TEST(a_long_chain_is_given_up),
      TEST(ten_thousand_trials_take_no_more_memory),
  };
  return cmocka_run_group_tests_name("quantities/trial", tests, NULL, NULL);
}
