// SPDX-License-Identifier: MIT
// What lives in the water: the ends of the ranges. Values stand in tests/designs/worked/order.tsv.
// clang-format off
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>
// clang-format on

#include "design/read.h"
#include "quantities/evaluate.h"

#define POND                                                                                                        \
  "basin \"pond\" { purpose = \"fish\", outline = rectangle { \"10 ft\", \"10 ft\" }, rim = \"1 in\", depth = \"3 " \
  "ft\",\n"                                                                                                         \
  " water_level = \"0 in\""

struct made {
  struct arena *arena;
  struct problems problems;
  struct evaluation *ev;
};

static void make(struct made *made, const char *design) {
  struct file_bytes file = {.name = "pond.lua", .bytes = design, .length = strlen(design)};
  made->arena = arena_new();
  made->problems = problems_in(made->arena);
  struct store *store = design_read(made->arena, &file, &made->problems);
  struct text said = text_in(made->arena);
  problems_write(&said, &made->problems, 20);
  if (!store) fail_msg("%s", text_end(&said));
  made->ev = evaluation_in(made->arena, store, &made->problems);
}

static double value(struct made *made, const char *name, enum row_id row) {
  return evaluation_number(made->ev, store_named(evaluation_design(made->ev), name, strlen(name)), row);
}

#define assert_near(a, b, near)                                                            \
  do {                                                                                     \
    if (!(fabs((a) - (b)) <= (near))) fail_msg("%.12g, %.12g expected", (a), (double)(b)); \
  } while (0)

// 3 ft are 0.9144 m.
static void no_ice_takes_no_depth(void **state) {
  (void)state;
  struct made made;
  make(&made, "project { name = \"P\", units = \"us\" }\nsite { ice = \"none\" }\n" POND " }\n");
  assert_near(value(&made, "pond", ROW_basin_depth_under_ice), 0.9144, 1e-12);
  arena_free(made.arena);
}

static void water_too_hot_to_live_in_is_said_at_its_line(void **state) {
  (void)state;
  struct made made;
  make(&made, "project { name = \"P\", units = \"us\" }\nsite { altitude = \"0 ft\" }\n" POND
              ",\n warmest = \"120 degF\" }\n");
  assert_true(isnan(value(&made, "pond", ROW_basin_oxygen_warm)));
  assert_int_equal(made.problems.count, 1);
  assert_int_equal(made.problems.list[0].at.line, 5);
  assert_string_equal(made.problems.list[0].right, "32 to 104 degF");
  arena_free(made.arena);
}

// Without an altitude the air's pressure is not known: the answer waits.
static void oxygen_waits_for_the_altitude(void **state) {
  (void)state;
  struct made made;
  make(&made, "project { name = \"P\", units = \"us\" }\n" POND ",\n warmest = \"77 degF\" }\n");
  assert_true(isnan(value(&made, "pond", ROW_basin_oxygen_warm)));
  assert_int_equal(made.problems.count, 0);
  arena_free(made.arena);
}

// Pipes that run in a ring are followed to an end, and a filter on the way counts.
static void pipes_in_a_ring_come_to_an_end(void **state) {
  (void)state;
  struct made made;
  make(&made, "project { name = \"P\", units = \"us\" }\n" POND
              " }\n"
              "filter \"drum\" {}\n"
              "pump \"p\" { from = \"pond\", type = \"dry\", curve = { { \"0 gal/h\", \"9 ft\" }, { \"900 gal/h\", \"0 "
              "ft\" } } }\n"
              "pipe \"out\" { from = \"p\", to = \"a\", size = \"2 in\", length = \"4 ft\", filter = \"drum\" }\n"
              "junction \"a\" { at = \"0 in\" }\n"
              "junction \"b\" { at = \"0 in\" }\n"
              "pipe \"there\" { from = \"a\", to = \"b\", size = \"2 in\", length = \"4 ft\" }\n"
              "pipe \"back\" { from = \"b\", to = \"a\", size = \"2 in\", length = \"4 ft\" }\n");
  assert_near(value(&made, "pond", ROW_basin_filters), 1, 0);
  arena_free(made.arena);
}

// No planting, no fish: none, and not unknown.
static void an_empty_pond_has_none(void **state) {
  (void)state;
  struct made made;
  make(&made, "project { name = \"P\", units = \"us\" }\n" POND " }\n");
  assert_near(value(&made, "pond", ROW_basin_planted_share), 0, 0);
  assert_near(value(&made, "pond", ROW_basin_fish_load), 0, 0);
  arena_free(made.arena);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(no_ice_takes_no_depth),         cmocka_unit_test(water_too_hot_to_live_in_is_said_at_its_line),
      cmocka_unit_test(oxygen_waits_for_the_altitude), cmocka_unit_test(pipes_in_a_ring_come_to_an_end),
      cmocka_unit_test(an_empty_pond_has_none),
  };
  return cmocka_run_group_tests_name("quantities/life", tests, NULL, NULL);
}
