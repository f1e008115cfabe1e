// SPDX-License-Identifier: MIT
// Values said from outside of the file. Expected SI values are exact by definition: 1 in is 0.0254 m (international
// yard and pound agreement, 1959), 1 % is 0.01; whatever else is compared stands in the design's own text.
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "design/read.h"

static const char *const design =
    "project { name = 'Test', units = 'us' }\n"
    "site { storm = { depth = '1.2 in', lasts = '15 min', returns = '10 yr' } }\n"
    "basin 'pond' { purpose = 'display', outline = polygon { {'0 ft','0 ft'}, {'6 ft','0 ft'}, {'6 ft','6 ft'} },\n"
    "  depth = '20 in +/- 1 in', rim = '0 in', water_level = '-4 in', shelves = { { depth = '8 in', width = '10 in' } "
    "},\n"
    "  measured = { water_level = '-5 in', with = 'tape' } }\n"
    "basin 'spare pond' { purpose = 'display', outline = circle { '6 ft' }, depth = '20 in', rim = '0 in', water_level "
    "= '-4 in' }\n"
    "boulder 'screen' { length = '30 in', width = '30 in', height = '20 in' }\n"
    "boulder 'pump' { length = '30 in', width = '30 in', height = '20 in' }\n"
    "intake 'skimmer' { basin = 'pond', type = 'skimming', hidden_by = { 'screen' } }\n"
    "pump 'main' { from = 'skimmer', type = 'submersible', curve = { {'0 gal/h','10 ft'}, {'900 gal/h','0 ft'} } }\n";

static const char *const as_json =
    "{\"project\": {\"name\": \"Test\", \"units\": \"us\"},\n"
    " \"basin\": {\"pond\": {\"purpose\": \"display\", \"outline\": {\"circle\": \"6 ft\"}, \"depth\": \"20 in\",\n"
    "  \"rim\": \"0 in\", \"water_level\": \"-4 in\"}}}\n";

struct read {
  struct arena *arena;
  struct problems problems;
  struct store *store;
};

static struct read read_file(const char *name, const char *text, const struct overlay *overlays, size_t count) {
  struct read r = {.arena = arena_new()};
  r.problems = problems_in(r.arena);
  struct file_bytes file = {name, text, strlen(text)};
  r.store = design_read_with(r.arena, &file, NULL, 0, overlays, count, &r.problems);
  return r;
}

static const char *told(const struct read *r) {
  struct text text = text_in(r->arena);
  problems_write(&text, &r->problems, 9);
  return text_end(&text);
}

static struct overlay trial(const char *where, const char *text) {
  return (struct overlay){.where = where, .text = text, .at = {"--try 1", 0}, .by = "--try"};
}

static struct read try_one(const char *where, const char *text) {
  struct overlay overlay = trial(where, text);
  struct read r = read_file("d.lua", design, &overlay, 1);
  if (!r.store) fail_msg("%s = %s: %s", where, text, told(&r));
  assert_int_equal(r.store->overlaid_count, 1);
  return r;
}

static const struct slot *slot_of(const struct read *r, const char *name, enum row_id row) {
  int entity = store_named(r->store, name, strlen(name));
  assert_int_not_equal(entity, -1);
  return store_at(r->store, entity, row);
}

static void close_to(double value, double expected) {
  if (!(fabs(value - expected) <= 1e-12 * (1 + fabs(expected)))) fail_msg("%.17g is not %.17g", value, expected);
}

static void refused(const char *where, const char *text, const char *words) {
  struct overlay overlay = trial(where, text);
  struct read r = read_file("d.lua", design, &overlay, 1);
  if (r.store || r.problems.count != 1 || !strstr(told(&r), words) || strncmp(told(&r), "--try 1: ", 9) != 0)
    fail_msg("\"%s\" is not in what %s = %s is told: %s", words, where, text, told(&r));
  arena_free(r.arena);
}

static void every_spelling_of_a_name(void **state) {
  (void)state;
  static const char *const spellings[] = {"pump \"main\".speed",   "main.speed",  "\"main\".speed", "pump main.speed",
                                          "pump  \"main\" .speed", " main.speed "};
  for (size_t i = 0; i < sizeof spellings / sizeof *spellings; i++) {
    struct read r = try_one(spellings[i], "80 %");
    const struct slot *speed = slot_of(&r, "main", ROW_pump_speed);
    close_to(speed->value, 0.8);
    assert_int_equal(speed->condition, CONDITION_GIVEN);
    assert_string_equal(speed->text, "80 %");
    assert_string_equal(speed->said->by, "--try");
    assert_int_equal(speed->line, 0);
    arena_free(r.arena);
  }
}

static void names_of_two_words_and_names_like_kinds(void **state) {
  (void)state;
  struct read r = try_one("spare pond.depth", "24 in");
  close_to(slot_of(&r, "spare pond", ROW_basin_depth)->value, 24 * 0.0254);
  arena_free(r.arena);
  r = try_one("basin spare pond.depth", "24 in");
  close_to(slot_of(&r, "spare pond", ROW_basin_depth)->value, 24 * 0.0254);
  arena_free(r.arena);
  r = try_one("pump.height", "24 in");
  close_to(slot_of(&r, "pump", ROW_boulder_height)->value, 24 * 0.0254);
  arena_free(r.arena);
}

static void sorts_of_givens(void **state) {
  (void)state;
  struct read r = try_one("pond.purpose", "plunge");
  assert_int_equal(slot_of(&r, "pond", ROW_basin_purpose)->value,
                   catalogue_word_named(WORDS_purpose, "plunge", strlen("plunge")));
  arena_free(r.arena);
  r = try_one("main.from", "spare pond");
  assert_int_equal(slot_of(&r, "main", ROW_pump_from)->value, store_named(r.store, "spare pond", 10));
  arena_free(r.arena);
  r = try_one("main.model", "mid 900");
  assert_string_equal(slot_of(&r, "main", ROW_pump_model)->text, "mid 900");
  arena_free(r.arena);
  r = try_one("skimmer.hidden_by[1]", "pump");
  int skimmer = store_named(r.store, "skimmer", 7), link = store_member(r.store, skimmer, ROW_intake_hidden_by, 0);
  assert_int_equal(store_at(r.store, link, ROW_link_to)->value, store_named(r.store, "pump", 4));
  arena_free(r.arena);
}

static void parts_of_lists(void **state) {
  (void)state;
  struct read r = try_one("main.curve[2].head", "1 ft");
  int main = store_named(r.store, "main", 4);
  close_to(store_at(r.store, store_member(r.store, main, ROW_pump_curve, 1), ROW_curve_point_head)->value, 12 * 0.0254);
  arena_free(r.arena);
  r = try_one("pond.outline[2].x", "7 ft");
  int pond = store_named(r.store, "pond", 4);
  close_to(store_at(r.store, store_member(r.store, pond, ROW_basin_outline, 1), ROW_point_x)->value, 84 * 0.0254);
  arena_free(r.arena);
  r = try_one("site.storm.depth", "2 in");
  int storm = store_member(r.store, store_of_kind(r.store, KIND_site, 0), ROW_site_storm, 0);
  close_to(store_at(r.store, storm, ROW_storm_depth)->value, 2 * 0.0254);
  arena_free(r.arena);
}

static void the_tolerance_of_the_file_stays(void **state) {
  (void)state;
  struct read r = try_one("pond.depth", "24 in");
  close_to(slot_of(&r, "pond", ROW_basin_depth)->tolerance, 0.0254);
  close_to(r.store->overlaid[0].before.value, 20 * 0.0254);
  assert_string_equal(r.store->overlaid[0].before.text, "20 in +/- 1 in");
  assert_string_equal(slot_of(&r, "pond", ROW_basin_depth)->text, "24 in +/- 1 in");
  assert_string_equal(r.store->overlaid[0].by->text, "24 in");
  arena_free(r.arena);
  r = try_one("pond.depth", "24 in +/- 2 in");
  close_to(slot_of(&r, "pond", ROW_basin_depth)->tolerance, 2 * 0.0254);
  arena_free(r.arena);
}

static void what_was_measured_stays(void **state) {
  (void)state;
  struct read r = try_one("pond.water_level", "-6 in");
  int pond = store_named(r.store, "pond", 4);
  const struct measurement *measured = store_measured(r.store, store_slot(r.store, pond, ROW_basin_water_level));
  assert_non_null(measured);
  close_to(measured->value, -5 * 0.0254);
  arena_free(r.arena);
}

static void unknown_names(void **state) {
  (void)state;
  refused("mian.speed", "80 %", "\"main\", if that is meant");
  refused("pump \"pond\".depth", "80 %", "the design has no pump of this name");
  refused("main.sped", "80 %", "`speed`, if that is meant");
  refused("pump.speed", "80 %", "a boulder has no given of this name");  // the stone is called so
  refused("basin.depth", "24 in", "basin \"pond\" or basin \"spare pond\"");
  refused("main", "80 %", "a dot and a given stand behind the name");
  refused("main.speed.x", "80 %", "nothing can stand behind this given");
  refused("", "80 %", "nothing of this name");
  refused("\"main", "80 %", "nothing of this name");
  refused("project", "80 %", "a dot and a given stand behind the name");
}

static void wrong_values(void **state) {
  (void)state;
  refused("main.speed", "80 in", "a length");
  refused("main.speed", "200 %", "at most 120 %");
  refused("pond.depth", "24", "no unit");
  refused("pond.depth", "", "read \"\"");
  refused("pond.depth", "wide", "read \"wide\"");
  refused("pond.purpose", "show", "\"display\"");
  refused("main.from", "skimer", "\"skimmer\"");
  refused("main.from", "screen", "refers to a boulder");
  refused("main.model", "a\nb", "control characters");
  refused("pond.rim", "-6 in", "basin \"pond\".rim: ");  // under its water, which stands further down in the file
}

static void what_cannot_be_set(void **state) {
  (void)state;
  refused("main.flow", "900 gal/h", "is worked out, not given");
  refused("main.flow", "900 gal/h", "write one of the givens it comes from, such as");
  refused("pond.pumps", "main", "follows from what the others name");
  refused("main.curve", "x", "is a list");
  refused("main.curve[1]", "x", "is a list");
  refused("main.curve[3].head", "1 ft", "this list has 2 members");
  refused("main.curve[x].head", "1 ft", "a member of a list is written as [2]");
  refused("pond.outline", "circle", "is a shape");
  refused("spare pond.shelves[1].depth", "3 in", "this list has 0 members");
  refused("pond.measured.flow", "3 in", "what was measured on site stands");
}

static void two_trials_of_one_given(void **state) {
  (void)state;
  struct overlay both[] = {trial("main.speed", "80 %"), trial("pump \"main\".speed", "90 %")};
  both[1].at.file = "--try 2";
  struct read r = read_file("d.lua", design, both, 2);
  assert_null(r.store);
  assert_string_equal(told(&r), "--try 2: pump \"main\".speed: is tried twice; read \"90 %\"; write one value\n");
  arena_free(r.arena);
}

static void all_that_is_wrong_is_told(void **state) {
  (void)state;
  struct overlay both[] = {trial("main.sped", "80 %"), trial("pond.depth", "x")};
  struct read r = read_file("d.lua", design, both, 2);
  assert_null(r.store);
  assert_int_equal(r.problems.count, 2);
  arena_free(r.arena);
}

static struct overlay figure(const char *where, const char *text) {
  return (struct overlay){.where = where, .text = text, .unless_written = true, .at = {"house.lua", 7}, .by = "house"};
}

static void a_firms_figure_stands_in(void **state) {
  (void)state;
  struct overlay figures[] = {figure("prices.gravel", "$38"), figure("crew.soil_per_day", "22 yd3"),
                              figure("pond.depth", "9 in"), figure("main.on_share", "50 %")};
  struct read r = read_file("d.lua", design, figures, 4);
  if (!r.store) fail_msg("%s", told(&r));
  assert_int_equal(store_count(r.store, KIND_prices), 1);
  const struct slot *gravel = store_at(r.store, store_of_kind(r.store, KIND_prices, 0), ROW_prices_gravel);
  assert_int_equal(gravel->condition, CONDITION_DEFAULT);
  assert_string_equal(gravel->said->by, "house");
  assert_int_equal(gravel->said->at.line, 7);
  close_to(slot_of(&r, "pond", ROW_basin_depth)->value, 20 * 0.0254);
  assert_null(slot_of(&r, "pond", ROW_basin_depth)->said);
  close_to(slot_of(&r, "main", ROW_pump_on_share)->value, 0.5);
  arena_free(r.arena);
}

static void a_trial_goes_before_a_firms_figure(void **state) {
  (void)state;
  struct overlay orders[2][2] = {{figure("prices.gravel", "$38"), trial("prices.gravel", "$40")},
                                 {trial("prices.gravel", "$40"), figure("prices.gravel", "$38")}};
  for (size_t i = 0; i < 2; i++) {
    struct read r = read_file("d.lua", design, orders[i], 2);
    if (!r.store) fail_msg("%s", told(&r));
    const struct slot *gravel = store_at(r.store, store_of_kind(r.store, KIND_prices, 0), ROW_prices_gravel);
    close_to(gravel->value, 40);
    assert_int_equal(gravel->condition, CONDITION_GIVEN);
    arena_free(r.arena);
  }
}

static void a_wrong_figure_is_told_at_its_line(void **state) {
  (void)state;
  struct overlay overlay = figure("prices.gravel", "38 in");
  struct read r = read_file("d.lua", design, &overlay, 1);
  assert_null(r.store);
  if (strncmp(told(&r), "house.lua:7: prices.gravel: ", 28) != 0) fail_msg("%s", told(&r));
  arena_free(r.arena);
}

static void json_takes_them_too(void **state) {
  (void)state;
  struct overlay overlays[] = {trial("pond.depth", "24 in"), trial("site.soil", "type A")};
  struct read r = read_file("d.json", as_json, overlays, 2);
  if (!r.store) fail_msg("%s", told(&r));
  close_to(slot_of(&r, "pond", ROW_basin_depth)->value, 24 * 0.0254);
  assert_int_equal(store_at(r.store, store_of_kind(r.store, KIND_site, 0), ROW_site_soil)->value, WORD_soil_type_a);
  arena_free(r.arena);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_spelling_of_a_name),
      cmocka_unit_test(names_of_two_words_and_names_like_kinds),
      cmocka_unit_test(sorts_of_givens),
      cmocka_unit_test(parts_of_lists),
      cmocka_unit_test(the_tolerance_of_the_file_stays),
      cmocka_unit_test(what_was_measured_stays),
      cmocka_unit_test(unknown_names),
      cmocka_unit_test(wrong_values),
      cmocka_unit_test(what_cannot_be_set),
      cmocka_unit_test(two_trials_of_one_given),
      cmocka_unit_test(all_that_is_wrong_is_told),
      cmocka_unit_test(a_firms_figure_stands_in),
      cmocka_unit_test(a_trial_goes_before_a_firms_figure),
      cmocka_unit_test(a_wrong_figure_is_told_at_its_line),
      cmocka_unit_test(json_takes_them_too),
  };
  return cmocka_run_group_tests_name("design/overlay", tests, NULL, NULL);
}
