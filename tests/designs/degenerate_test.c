// SPDX-License-Identifier: MIT
// Inputs that no garden has: each gets a plain problem, at the line of the given that is at fault, and nothing hangs.
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "design/read.h"
#include "quantities/evaluate.h"
#include "quantities/functions.h"

// A sound small design, one given a line; a case writes another text in the place of one line (from 1), or adds one.
static const char *const sound[] = {
    "project { name = \"Odd\", units = \"us\" }",
    "basin \"pool\" { purpose = \"display\",",
    "  outline = polygon { {\"0 ft\",\"0 ft\"}, {\"10 ft\",\"0 ft\"}, {\"10 ft\",\"8 ft\"}, {\"0 ft\",\"8 ft\"} },",
    "  rim = \"0 in\",",
    "  water_level = \"-4 in\",",
    "  depth = \"24 in\",",
    "  shelves = { { depth = \"10 in\", width = \"12 in\" } } }",
    "basin \"bowl\" { purpose = \"bowl\", outline = circle \"4 ft\", depth = \"12 in\",",
    "  rim = \"26 in\" }",
    "spill \"lip\" { from = \"bowl\", into = \"pool\", lip = \"broad stone\", lip_width = \"12 in\",",
    "  crest = \"24 in\" }",
    "pump \"pump\" { from = \"pool\", type = \"submersible\",",
    "  curve = { {\"0 gal/h\",\"12 ft\"}, {\"2,000 gal/h\",\"0 ft\"} } }",
    ("pipe \"riser\" { from = \"pump\", to = \"bowl\", size = \"2 in\", outlet = \"above water\", outlet_at = \"27 "
     "in\","),
    "  length = \"20 ft\" }",
    "boulder \"stone\" { length = \"3 ft\", width = \"2 ft\", shape = \"blocky\",",
    "  height = \"2 ft\" }",
};
enum { LINES = sizeof sound / sizeof *sound };

struct odd {
  const char *what, *written;
  int line;             // which line is written otherwise
  const char *told[2];  // words of the problem
  int at;               // the line that it is told at; 0: the same
};

static const struct odd odd[] = {
    {"no length", "  length = \"0 ft\" }", 15, {"length", "more than 0"}, 0},
    {"no height of stone", "  height = \"0 in\" }", 17, {"height", "more than 0"}, 0},
    {"no depth", "  depth = \"0 in\",", 6, {"depth", "more than 0"}, 0},
    {"outline crosses itself",
     "  outline = polygon { {\"0 ft\",\"0 ft\"}, {\"10 ft\",\"8 ft\"}, {\"10 ft\",\"0 ft\"}, {\"0 ft\",\"8 ft\"} },",
     3,
     {"outline", "points in order"},
     0},
    {"outline without area",
     "  outline = polygon { {\"0 ft\",\"0 ft\"}, {\"5 ft\",\"0 ft\"}, {\"10 ft\",\"0 ft\"} },",
     3,
     {"outline", "points in order"},
     0},
    {"all points at one place",
     "  outline = polygon { {\"1 ft\",\"1 ft\"}, {\"1 ft\",\"1 ft\"}, {\"1 ft\",\"1 ft\"} },",
     3,
     {"outline", "points in order"},
     0},
    {"shelves that meet",
     "  shelves = { { depth = \"10 in\", width = \"4 ft\" }, { depth = \"12 in\", width = \"3 ft\" } } }",
     7,
     {"depth", "narrower shelves"},
     6},
    {"two shelves at one depth",
     "  shelves = { { depth = \"10 in\", width = \"8 in\" }, { depth = \"10 in\", width = \"6 in\" } } }",
     7,
     {"depth", "another shelf"},
     0},
    {"curve of one point", "  curve = { {\"0 gal/h\",\"12 ft\"} } }", 13, {"curve", "at least 2"}, 0},
    {"curve that rises",
     "  curve = { {\"0 gal/h\",\"8 ft\"}, {\"2,000 gal/h\",\"12 ft\"} } }",
     13,
     {"head", "falls"},
     0},
    {"rim under its water", "  rim = \"-1 ft\",", 4, {"water_level", "a rim over the water"}, 5},
    {"rim of the bowl under its lip", "  rim = \"20 in\" }", 9, {"rim", "over the water"}, 0},
    {"stone larger than its basin",
     "boulder \"stone\" { length = \"9 ft\", width = \"6 ft\", shape = \"blocky\", stands_in = \"bowl\",",
     16,
     {"stands_in", "larger"},
     0},
};

static struct file_bytes written(struct arena *arena, const struct odd *it) {
  struct text text = text_in(arena);
  for (int i = 0; i < LINES; i++) text_printf(&text, "%s\n", it && i + 1 == it->line ? it->written : sound[i]);
  return (struct file_bytes){.name = "odd.lua", .bytes = text_end(&text), .length = text.length};
}

static void work_out_all(struct evaluation *ev) {
  const struct store *store = evaluation_design(ev);
  for (size_t e = 0; e < store->entity_count; e++) {
    for (int r = 0; r < ROW_COUNT; r++) {
      bool own = catalogue_row((enum row_id)r)->kind == store->entities[e].kind;
      if (own && row_function((enum row_id)r)) evaluation_condition(ev, (int)e, (enum row_id)r);
    }
  }
}

// What is told of a design, in reading or in working.
static void tell(struct arena *arena, const struct odd *it, struct problems *problems) {
  struct file_bytes file = written(arena, it);
  struct store *store = design_read(arena, &file, problems);
  if (store) work_out_all(evaluation_in(arena, store, problems));
}

static bool is_told(struct arena *arena, const struct odd *it, const struct problem *problem) {
  struct text words = text_in(arena);
  problem_write(&words, problem);
  return problem->at.line == (it->at ? it->at : it->line) && strstr(text_end(&words), it->told[0]) &&
         strstr(text_end(&words), it->told[1]);
}

static int check(const struct odd *it) {
  struct arena *arena = arena_new();
  struct problems problems = problems_in(arena);
  struct text said = text_in(arena);
  bool told = false;
  tell(arena, it, &problems);
  for (size_t i = 0; i < problems.count; i++) told = told || is_told(arena, it, &problems.list[i]);
  problems_write(&said, &problems, 9);
  if (!told)
    print_error("%s: line %d, \"%s\" and \"%s\" expected, told:\n%s\n", it->what, it->at ? it->at : it->line,
                it->told[0], it->told[1], text_end(&said));
  arena_free(arena);
  return !told;
}

static void what_cannot_be_is_told_at_its_line(void **state) {
  (void)state;
  int wrong = 0;
  for (size_t i = 0; i < sizeof odd / sizeof *odd; i++) wrong += check(&odd[i]);
  assert_int_equal(wrong, 0);
}

static void the_sound_one_has_no_problem(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  struct problems problems = problems_in(arena);
  struct text said = text_in(arena);
  tell(arena, NULL, &problems);
  problems_write(&said, &problems, 9);
  if (problems.count > 0) fail_msg("%s", text_end(&said));
  arena_free(arena);
}

// No pump: nothing flows, and the circle of lips that feed each other is told and left unanswered.
static void a_circle_without_a_pump_ends(void **state) {
  (void)state;
  static const char words[] =
      "project { name = \"Still\", units = \"us\" }\n"
      "basin \"a\" { purpose = \"bowl\", outline = circle \"4 ft\", rim = \"26 in\", depth = \"12 in\" }\n"
      "basin \"b\" { purpose = \"bowl\", outline = circle \"4 ft\", rim = \"26 in\", depth = \"12 in\" }\n"
      "spill \"there\" { from = \"a\", into = \"b\", crest = \"24 in\", lip = \"notch\", lip_width = \"6 in\" }\n"
      "spill \"back\" { from = \"b\", into = \"a\", crest = \"24 in\", lip = \"notch\", lip_width = \"6 in\" }\n";
  struct arena *arena = arena_new();
  struct problems problems = problems_in(arena);
  const struct file_bytes file = {.name = "still.lua", .bytes = words, .length = sizeof words - 1};
  struct store *store = design_read(arena, &file, &problems);
  if (store) {
    struct evaluation *ev = evaluation_in(arena, store, &problems);
    work_out_all(ev);
    enum condition condition = evaluation_condition(ev, store_named(store, "there", 5), ROW_spill_flow);
    assert_int_not_equal(condition, CONDITION_COMPUTED);
  }
  assert_int_not_equal(problems.count, 0);
  assert_int_not_equal(problems.list[0].at.line, 0);
  arena_free(arena);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(the_sound_one_has_no_problem),
                                     cmocka_unit_test(what_cannot_be_is_told_at_its_line),
                                     cmocka_unit_test(a_circle_without_a_pump_ends)};
  return cmocka_run_group_tests_name("designs/degenerate", tests, NULL, NULL);
}
