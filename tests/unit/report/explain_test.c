// SPDX-License-Identifier: MIT
#include "report/explain.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "unit/review/sample.h"

static const char *explained_in(struct sample *sample, const char *path, bool full) {
  struct explained what;
  struct text text = text_in(sample->arena);
  struct problems problems = problems_in(sample->arena);
  if (explain_find(sample->review.evaluation, path, &what, &problems)) {
    explain_write(&text, sample->review.evaluation, what, UNITS_US, full);
  } else {
    problems_write(&text, &problems, 10);
  }
  return text_end(&text);
}

static const char *explained(struct sample *sample, const char *path) { return explained_in(sample, path, false); }

static void test_a_quantity_with_its_working(void **state) {
  assert_string_equal(explained(*state, "boulder \"tall stone\".embedded_share"),
                      "boulder \"tall stone\".embedded_share = 8 % (worked out)\n"
                      "  share of its height below ground\n"
                      "  Formula: embedment / height\n"
                      "  Source: geometry (worked out)\n"
                      "\n"
                      "Working\n"
                      "  boulder \"tall stone\".embedment = 6 in (given, line 3)\n"
                      "  boulder \"tall stone\".height = 6 ft (given, line 3)\n");
}

static void test_a_given(void **state) {
  assert_string_equal(explained(*state, "tall stone.height"),
                      "boulder \"tall stone\".height = 6 ft (given, line 3)\n"
                      "  height of its box as set, foot included\n");
}

static void test_a_default_of_the_only_one_of_its_kind(void **state) {
  assert_string_equal(explained(*state, "site.soil"), "site.soil = type C (a default)\n  soil class\n");
}

static void test_what_is_missing_is_named_at_the_end(void **state) {
  assert_string_equal(explained(*state, "low stone.embedded_share"),
                      "boulder \"low stone\".embedded_share = could not be worked out: something it needs\n"
                      "    is missing\n"
                      "  share of its height below ground\n"
                      "  Formula: embedment / height\n"
                      "  Source: geometry (worked out)\n"
                      "\n"
                      "Working\n"
                      "  boulder \"low stone\".embedment = not given\n"
                      "  boulder \"low stone\".height = 24 in (given as \"2 ft\", line 4)\n"
                      "\n"
                      "Missing\n"
                      "  how deep its foot is set (boulder \"low stone\".embedment)\n");
}

static size_t times(const char *text, const char *piece) {
  size_t count = 0;
  for (const char *at = text; (at = strstr(at, piece)) != NULL; at++) count++;
  return count;
}

static void test_working_that_was_shown_is_not_shown_again(void **state) {
  const char *text = explained_in(*state, "tall stone.top", true);
  assert_int_equal(times(text, "ground = 0 in"), 2);  // the stone's own, and the site's behind it
  text = explained_in(*state, "project.stone_mass_high", true);
  assert_int_equal(times(text, "boulder \"tall stone\".mass_high = 2.3 ton"), 1);
  assert_int_equal(times(text, "boulder \"tall stone\".length = 30 in"), 1);
}

static void test_a_given_that_reads_otherwise_stands_as_written(void **state) {
  struct sample *sample = *state;
  sample_write(sample, SITE, ROW_site_test_hole, "30 in +/- 2 in", 9);
  sample_write(sample, SITE, ROW_site_gate_width, "72 in", 9);
  assert_string_equal(explained(sample, "site.test_hole"),
                      "site.test_hole = 30 in (given as \"30 in +/- 2 in\", line 9)\n  depth of the test hole\n");
  assert_string_equal(explained(sample, "site.gate_width"),
                      "site.gate_width = 6 ft (given as \"72 in\", line 9)\n  narrowest way in, across\n");
}

static void test_in_short_two_levels_are_shown_and_the_rest_is_named(void **state) {
  const char *text = explained(*state, "project.stone_mass_high");
  assert_non_null(strstr(text, "  boulder \"tall stone\".mass_high = 2.3 ton (worked out)\n"));
  assert_non_null(strstr(text, "    boulder \"tall stone\".length = 30 in (given, line 3)\n"));
  assert_null(strstr(text, "not given"));  // what it went by without
  struct sample *sample = *state;
  int basin = store_add(sample->store, KIND_basin, "pool", 7);
  sample_write(sample, basin, ROW_basin_rim, "0 in", 7);
  sample_write(sample, basin, ROW_basin_depth, "24 in", 7);
  int dig = store_add(sample->store, KIND_dig, "pit", 8);
  sample_write(sample, dig, ROW_dig_of, "pool", 8);
  store_settle(sample->store, &sample->found);
  sample->review.evaluation = evaluation_in(sample->arena, sample->store, &sample->found);
  const char *in_short = explained(sample, "project.loose_volume");
  assert_non_null(strstr(in_short, "\n\xe2\x80\xa6 explain "));
  assert_null(strstr(in_short, "dig \"pit\".of = "));
  const char *full = explained_in(sample, "project.loose_volume", true);
  assert_null(strstr(full, "\xe2\x80\xa6"));
  assert_non_null(strstr(full, "dig \"pit\".of = basin \"pool\""));
}

static void test_every_form_of_a_path_leads_there(void **state) {
  static const char *const paths[] = {"boulder \"tall stone\".height", "\"tall stone\".height", "tall stone.height",
                                      "boulder tall stone.height"};
  for (size_t i = 0; i < sizeof paths / sizeof *paths; i++) {
    struct sample *sample = *state;
    struct explained what;
    struct problems problems = problems_in(sample->arena);
    assert_true(explain_find(sample->review.evaluation, paths[i], &what, &problems));
    assert_int_equal(what.entity, TALL);
    assert_int_equal(what.row, ROW_boulder_height);
  }
}

static void test_a_path_leads_through_references_lists_and_parts(void **state) {
  struct sample *sample = *state;
  int coping = store_add(sample->store, KIND_coping, "cap", 8);
  sample_write(sample, coping, ROW_coping_on, "back wall", 8);
  int storm = store_add_part(sample->store, SITE, ROW_site_storm, 9);
  sample_write(sample, storm, ROW_storm_depth, "1 in", 9);
  store_settle(sample->store, &sample->found);
  sample->review.evaluation = evaluation_in(sample->arena, sample->store, &sample->found);
  assert_string_equal(explained(sample, "cap.on.length"),
                      "wall \"back wall\".length = 12 ft (given, line 6)\n  length\n");
  assert_string_equal(explained(sample, "site.storm[1].depth"),
                      "site.storm[1].depth = 1 in (given, line 9)\n  rain that falls\n");
  assert_string_equal(explained(sample, "site.storm[2].depth"),
                      "this list has 1 member; read \"site.storm[2].depth\"\n");
}

static void test_an_entity_as_a_whole(void **state) {
  const char *text = explained(*state, "wall \"back wall\"");
  assert_ptr_equal(strstr(text, "wall \"back wall\": a low block wall\n"), text);
  assert_non_null(strstr(text, "  wall \"back wall\".footing_to_top = 3 ft 2 in (given as \"38 in\", line 6)\n"));
  assert_non_null(strstr(text, "  Not given: beside, embedment, base_pad, drain, above"));
}

static void test_wrong_names_are_told_with_the_nearest(void **state) {
  static const struct {
    const char *path, *said;
  } slips[] = {
      {"tal stone.height", "the design has nothing of this name; read \"tal stone.height\"; write tall stone\n"},
      {"tall.height", "the design has nothing of this name; read \"tall.height\"; write tall stone\n"},
      {"sit.soil", "the design has nothing of this name; read \"sit.soil\"; write site\n"},
      {"wall \"tall stone\".height",
       "the design has nothing of this name; read \"wall \"tall stone\".height\"; write tall stone\n"},
      {"tall stone.heigth",
       "a boulder has no value of this name; forebay explain DESIGN \"tall stone\" lists them; read \"tall "
       "stone.heigth\"; write height\n"},
      {"tall stone.beside.depth", "it refers to nothing in this design; read \"tall stone.beside.depth\"\n"},
      {"site.soil.x", "nothing stands behind this value that a dot could lead to; read \"site.soil.x\"\n"},
      {"site.soil[1]", "only a list has numbered members; read \"site.soil[1]\"\n"},
      {"site.storm.depth", "this is a list: say which of its members, as in [1]; read \"site.storm.depth\"\n"},
      {"site.storm[x]", "a member of a list is written as [2]; read \"site.storm[x]\"\n"},
      {"site.storm[0]", "this list has 0 members; read \"site.storm[0]\"\n"},
      {"site.storm[99999999999999999999]",
       "a member of a list is written as [2]; read \"site.storm[99999999999999999999]\"\n"},
      {"", "the design has nothing of this name; read \"\"\n"},
      {".", "the design has nothing of this name; read \".\"\n"},
      {"site.", "a site has no value of this name; forebay explain DESIGN \"site\" lists them; read \"site.\"\n"},
      {"boulder \"tall stone\".xyzzy",
       "a boulder has no value of this name; forebay explain DESIGN 'boulder \"tall stone\"' lists them; read "
       "\"boulder \"tall stone\".xyzzy\"\n"},
      {"\"tall stone\"x", "a dot stands between a name and its value; read \"\"tall stone\"x\"\n"},
      {"boulder \"tall stone",
       "the design has nothing of this name; read \"boulder \"tall stone\"; write tall stone\n"},
  };
  for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
    assert_string_equal(explained(*state, slips[i].path), slips[i].said);
  }
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, sample_setup, sample_teardown)
  const struct CMUnitTest tests[] = {
      TEST(test_a_quantity_with_its_working),
      TEST(test_a_given),
      TEST(test_a_default_of_the_only_one_of_its_kind),
      TEST(test_what_is_missing_is_named_at_the_end),
      TEST(test_working_that_was_shown_is_not_shown_again),
      TEST(test_a_given_that_reads_otherwise_stands_as_written),
      TEST(test_in_short_two_levels_are_shown_and_the_rest_is_named),
      TEST(test_every_form_of_a_path_leads_there),
      TEST(test_a_path_leads_through_references_lists_and_parts),
      TEST(test_an_entity_as_a_whole),
      TEST(test_wrong_names_are_told_with_the_nearest),
  };
  return cmocka_run_group_tests_name("report/explain", tests, NULL, NULL);
}
