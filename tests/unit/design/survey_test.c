// SPDX-License-Identifier: MIT
// Surveyed points beside a design: what is read, and what each bad row is told.
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "design/read.h"
#include "quantities/evaluate.h"

static struct arena *arena;
static struct problems problems;

static int set_up(void **state) {
  (void)state;
  arena = arena_new();
  problems = problems_in(arena);
  return 0;
}

static int tear_down(void **state) {
  (void)state;
  arena_free(arena);
  return 0;
}

// A pool of 4 by 4 ft round the origin's corner, with an upright pit 1 ft wider, 3 ft under the datum.
static struct store *read_with(const char *units, const char *csv) {
  struct text design = text_in(arena);
  text_printf(&design,
              "project { name = \"n\", units = \"%s\" }\n"
              "site { survey = \"ground.csv\" }\n"
              "basin \"pool\" { purpose = \"display\", outline = rectangle { \"4 ft\", \"4 ft\" }, rim = \"0 in\",\n"
              "  water_level = \"-3 in\", depth = \"27 in\" }\n"
              "dig \"pit\" { of = \"pool\", beyond = \"12 in\", below = \"6 in\", slope = \"upright\" }\n",
              units);
  const struct file_bytes file = {"jobs/design.lua", text_end(&design), strlen(text_end(&design))};
  const struct file_bytes beside[] = {{"jobs/another.csv", "1,2", 3},
                                      {"jobs/ground.csv", csv ? csv : "", csv ? strlen(csv) : 0}};
  return design_read_beside(arena, &file, beside, csv ? 2 : 1, &problems);
}

static void told(const char *csv, const char *file, int line, const char *words, const char *right) {
  problems = problems_in(arena);
  if (read_with("us", csv)) fail_msg("read without a problem: %s", csv);
  assert_int_equal(problems.count, 1);
  assert_string_equal(problems.list[0].at.file, file);
  assert_int_equal(problems.list[0].at.line, line);
  if (!strstr(problems.list[0].said, words)) fail_msg("said: %s; expected: %s", problems.list[0].said, words);
  if (!strstr(problems.list[0].right, right)) fail_msg("right: %s; expected: %s", problems.list[0].right, right);
}

#define GOOD "1,-9,-9,0\n2,-9,20,0\n3,20,20,0\n"

static void bad_rows_are_told_at_their_line(void **state) {
  (void)state;
  told("1,-8,-9,0\n2,-9,twenty,0\n" GOOD, "jobs/ground.csv", 2, "the easting is no number", "a number");
  told("1,-9,-9,1e3\n" GOOD, "jobs/ground.csv", 1, "the elevation is no number", "a number");
  told("1,-8,-9,0\n\n# c\n2,,20,0\n" GOOD, "jobs/ground.csv", 4, "the northing is no number", "a number");
  told("1,5,5\n" GOOD, "jobs/ground.csv", 1, "too few columns", "point, northing, easting, elevation");
  told("1;5;5;5\n" GOOD, "jobs/ground.csv", 1, "too few columns", "point, northing, easting, elevation");
  told(GOOD "4,20,20.001,3\n", "jobs/ground.csv", 4, "where the point of line 3 stands", "one point at each place");
  told("point,northing,easting,level\n" GOOD, "jobs/ground.csv", 1, "does not name the columns", "elevation");
  told("point,northing (yd),easting (yd),elevation (yd)\n" GOOD, "jobs/ground.csv", 1, "the unit", "(ft)");
  told("point,northing (ft),easting (m),elevation (ft)\n" GOOD, "jobs/ground.csv", 1, "the unit", "one unit");
}

static void bad_surveys_are_told_at_the_given(void **state) {
  (void)state;
  told("1,-9,-9,0\n2,20,20,0\n", "jobs/design.lua", 2, "fewer than three points", "three points");
  told("", "jobs/design.lua", 2, "fewer than three points", "three points");
  told(NULL, "jobs/design.lua", 2, "no such file", "beside the design");
}

// Told while working: the rest of the design is reviewed.
static void found_impossible(const char *csv, const char *words) {
  problems = problems_in(arena);
  struct store *store = read_with("us", csv);
  assert_non_null(store);
  struct evaluation *ev = evaluation_in(arena, store, &problems);
  int pit = store_of_kind(store, KIND_dig, 0);
  if (!isnan(evaluation_number(ev, pit, ROW_dig_bank_volume))) fail_msg("worked out: %s", csv);
  assert_int_equal(evaluation_condition(ev, pit, ROW_dig_bank_volume), CONDITION_IMPOSSIBLE);
  assert_int_equal(problems.count, 1);
  assert_int_equal(problems.list[0].at.line, 2);
  if (!strstr(problems.list[0].said, words)) fail_msg("said: %s; expected: %s", problems.list[0].said, words);
}

static void surveys_that_do_not_serve_are_told(void **state) {
  (void)state;
  found_impossible("1,0,0,0\n2,5,5,0\n3,10,10,0\n4,15,15,1\n", "one line");
  found_impossible("1,-9,-9,0\n2,-9,3,0\n3,20,3,0\n4,20,-9,0\n", "ends inside the pit");
  found_impossible("1,-9,-9,0\n2,-9,3,0\n3,20,3,1\n4,20,-9,0\n", "ends inside the pit");
}

static void volume_is(const char *units, const char *csv, double cubic_feet) {
  problems = problems_in(arena);
  struct store *store = read_with(units, csv);
  struct text said = text_in(arena);
  problems_write(&said, &problems, 20);
  if (!store) fail_msg("%s", text_end(&said));
  struct evaluation *ev = evaluation_in(arena, store, &problems);
  double expected = cubic_feet * 0.3048 * 0.3048 * 0.3048;
  double value = evaluation_number(ev, store_of_kind(store, KIND_dig, 0), ROW_dig_bank_volume);
  if (!(fabs(value - expected) <= 1e-9 * expected)) fail_msg("%.12g m3, expected %.12g: %s", value, expected, csv);
}

// The pit is 6 by 6 ft and, under ground at 0, 3 ft deep. A foot is 0.3048 m, a US survey foot 1200/3937 m: exact.
static void columns_and_units_are_as_the_header_says(void **state) {
  (void)state;
  volume_is("us", "1,-9,-9,1,\"by the gate, north\"\r\n2,-9,40,1\r\n3,40,-9,1\r\n", 36 * 4);
  volume_is("us",
            "\xEF\xBB\xBF"
            "Point,Easting,Northing,Elevation\n1,-9,-9,1\n2,-9,40,1\n3,40,-9,1",
            36 * 4);
  volume_is("si", "1,-3,-3,0.3048\n2,-3,12,0.3048\n3,12,-3,0.3048\n", 36 * 4);
  volume_is("us", "pt,northing (m),easting (m),elevation (m)\n1,-3,-3,0.3048\n2,-3,12,0.3048\n3,12,-3,0.3048\n",
            36 * 4);
  volume_is("si", "pt,northing (ft),easting,elevation\n1,-9,-9,1\n2,-9,40,1\n3,40,-9,1\n", 36 * 4);
  volume_is("si", "pt,northing (US survey ft),easting,elevation\n1,-9,-9,3937\n2,-9,40,3937\n3,40,-9,3937\n",
            36 * (3 + 1200 / 0.3048));
  volume_is("us", "1,-9,-9,0,,,\n2,-9,\"1,000\",0\n3,40,-9,0\n", 36 * 3);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(bad_rows_are_told_at_their_line, set_up, tear_down),
      cmocka_unit_test_setup_teardown(bad_surveys_are_told_at_the_given, set_up, tear_down),
      cmocka_unit_test_setup_teardown(surveys_that_do_not_serve_are_told, set_up, tear_down),
      cmocka_unit_test_setup_teardown(columns_and_units_are_as_the_header_says, set_up, tear_down),
  };
  return cmocka_run_group_tests_name("design/survey", tests, NULL, NULL);
}
