// SPDX-License-Identifier: MIT
// What a builder can change, and the next of what is sold. Order of sizes: ASTM D1785 and ISO 161-1 nominal sizes, AWG
// (a smaller number is thicker wire) and IEC 60228: from memory.
#include "mend/rows.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "units/read.h"

static void all_are_givens_with_steps(void **state) {
  (void)state;
  size_t count = 0;
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct mend_row *row = mend_row((enum row_id)r);
    const struct row *facts = catalogue_row((enum row_id)r);
    if (!row) continue;
    count++;
    if (!row_is_given(facts)) fail_msg("%s.%s is worked out", catalogue_kind(facts->kind)->name, facts->name);
    if (row->us) {
      assert_int_equal(facts->sort, SORT_NUMBER);
      if (!(mend_row_step(row, UNITS_US) > 0)) fail_msg("%s has no step", facts->name);
      if (!(mend_row_step(row, UNITS_SI) > 0)) fail_msg("%s has no metric step", facts->name);
    } else if (row->word != WORD_COUNT) {
      assert_int_equal(facts->sort, SORT_CHOICE);
      assert_int_equal(catalogue_word(row->word)->set, facts->words);
    } else {
      assert_int_equal(facts->sort, SORT_TEXT);
      assert_int_not_equal(row->list, MEND_LIST_NONE);
    }
  }
  assert_in_range(count, 20, ROW_COUNT);
}

// A step of one system is of the order of that of the other: a slip of a unit would be off by more.
static void steps_of_both_systems_are_alike(void **state) {
  (void)state;
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct mend_row *row = mend_row((enum row_id)r);
    if (!row || !row->us) continue;
    double ratio = mend_row_step(row, UNITS_US) / mend_row_step(row, UNITS_SI);
    if (ratio < 0.4 || ratio > 2.5) fail_msg("%s: steps differ by %.3g", catalogue_row((enum row_id)r)->name, ratio);
  }
}

// Never changed by a fix: somebody has to look, ask, agree or answer for it.
static void facts_are_never_changed(void **state) {
  (void)state;
  static const enum row_id facts[] = {
      ROW_dig_beyond,         ROW_liner_over_edge,     ROW_basin_overflow_at,  ROW_site_soil,
      ROW_site_utilities,     ROW_site_private_lines,  ROW_site_test_hole,     ROW_site_debris,
      ROW_site_gate_width,    ROW_site_gate_height,    ROW_site_ground_water,  ROW_site_frost_depth,
      ROW_site_barrier_depth, ROW_site_permeability,   ROW_site_line_distance, ROW_basin_reach,
      ROW_basin_entered,      ROW_basin_barrier,       ROW_basin_leak,         ROW_basin_treatment,
      ROW_dig_examined,       ROW_dig_engineer,        ROW_coping_pull_test,   ROW_coping_strength,
      ROW_sling_rated,        ROW_sling_tag,           ROW_machine_weight,     ROW_lift_rated,
      ROW_storm_depth,        ROW_boulder_density,     ROW_boulder_stone,      ROW_boulder_people_reach,
      ROW_intake_load_rating, ROW_pump_power,          ROW_pump_best_flow,     ROW_project_permit,
      ROW_project_leak_test,  ROW_crew_fall_zone_kept, ROW_pick_people_clear,  ROW_curve_point_head,
      ROW_curve_point_flow,
  };
  for (size_t i = 0; i < sizeof facts / sizeof *facts; i++) {
    if (mend_row(facts[i])) fail_msg("%s is a fact", catalogue_row(facts[i])->name);
  }
  assert_true(mend_row_is_fact(ROW_site_test_hole));
  assert_false(mend_row_is_fact(ROW_boulder_embedment));
}

static void check_next(enum mend_list list, const char *now, int way, const char *first, const char *second) {
  struct arena *arena = arena_new();
  const char *texts[4];
  size_t count = mend_row_sizes(arena, list, now, way, texts, 4);
  assert_int_equal(count > 0, first != NULL);
  if (first) assert_string_equal(texts[0], first);
  if (second) assert_string_equal(texts[1], second);
  arena_free(arena);
}

static void the_next_of_what_is_sold(void **state) {
  (void)state;
  check_next(MEND_LIST_pipe, "1 in", 1, "1 1/4 in", "1 1/2 in");
  check_next(MEND_LIST_pipe, "1 in", -1, "3/4 in", "1/2 in");
  check_next(MEND_LIST_pipe, "32 mm", 1, "40 mm", "50 mm");
  check_next(MEND_LIST_pipe, "6 in", 1, NULL, NULL);
  check_next(MEND_LIST_pipe, "a hose", 1, NULL, NULL);
  check_next(MEND_LIST_wire, "12 AWG copper", 1, "10 AWG copper", "8 AWG copper");
  check_next(MEND_LIST_wire, "12 AWG copper", -1, "14 AWG copper", "16 AWG copper");
  check_next(MEND_LIST_wire, "2.5 mm2 copper", 1, "4 mm2 copper", "6 mm2 copper");
  check_next(MEND_LIST_wire, "2.5 mm2 copper", -1, "1.5 mm2 copper", "1 mm2 copper");
  check_next(MEND_LIST_wire, "thick", 1, NULL, NULL);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(all_are_givens_with_steps),
      cmocka_unit_test(steps_of_both_systems_are_alike),
      cmocka_unit_test(facts_are_never_changed),
      cmocka_unit_test(the_next_of_what_is_sold),
  };
  return cmocka_run_group_tests_name("mend/rows", tests, NULL, NULL);
}
