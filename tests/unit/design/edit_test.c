// SPDX-License-Identifier: MIT
// Givens changed in a design's text. What is expected is the text itself, byte for byte, written here by hand; the loop
// over whole designs reads each made text again and counts what differs, apart from the proof within edit_design.
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "design/edit.h"
#include "design/lua_tokens.h"
#include "design/read.h"

#define POND                                                                                                \
  "project { name = 'Test', units = 'us' }\n"                                                               \
  "basin 'pond' { purpose = 'display', outline = circle { '6 ft' }, rim = '0 in', water_level = '-4 in',\n" \
  "  depth = \"20 in\" }\n"

struct made {
  struct arena *arena;
  struct problems problems;
  struct store *store;
  struct file_bytes file, made;
  bool done;
};

static const char *told(const struct made *m) {
  struct text text = text_in(m->arena);
  problems_write(&text, &m->problems, 9);
  return text_end(&text);
}

static struct made begin(const char *name, const char *text) {
  struct made m = {.arena = arena_new()};
  m.problems = problems_in(m.arena);
  m.file = (struct file_bytes){name, arena_words(m.arena, text), strlen(text)};
  m.store = design_read(m.arena, &m.file, &m.problems);
  if (!m.store) fail_msg("%s", told(&m));
  return m;
}

static int entity_named(const struct made *m, const char *name) {
  int entity = store_named(m->store, name, strlen(name));
  for (size_t e = 0; entity < 0 && e < m->store->entity_count; e++)
    if (strcmp(catalogue_kind(m->store->entities[e].kind)->name, name) == 0) return (int)e;
  assert_int_not_equal(entity, -1);
  return entity;
}

static void run(struct made *m, const struct edit *edits, size_t count) {
  m->done = edit_design(m->arena, &m->file, m->store, edits, count, &m->made, &m->problems);
}

// `before` in the middle of a sound design, and after the edit of a given of the pump "main".
static void changes(const char *before, enum row_id row, const char *text, bool is_table, const char *after) {
  struct arena *arena = arena_new();
  struct text whole = text_in(arena);
  text_printf(&whole, "%s%s", POND, before);
  struct made m = begin("d.lua", text_end(&whole));
  struct edit edit = {entity_named(&m, "main"), row, text, is_table};
  run(&m, &edit, 1);
  if (!m.done) fail_msg("%s", told(&m));
  assert_string_equal(m.made.bytes + strlen(POND), after);
  assert_int_equal(m.made.length, strlen(m.made.bytes));
  assert_memory_equal(m.made.bytes, POND, strlen(POND));
  arena_free(m.arena);
  arena_free(arena);
}

#define CURVE "curve = { { '0 gal/h', '10 ft' }, { '900 gal/h', '0 ft' } }"

static void values_keep_their_quotes_and_comments(void **state) {
  (void)state;
  changes("pump \"main\" { from = 'pond', type = 'dry', " CURVE ",\n  speed = \"90 %\", -- was 100\n}\n",
          ROW_pump_speed, "80 %", false,
          "pump \"main\" { from = 'pond', type = 'dry', " CURVE ",\n  speed = \"80 %\", -- was 100\n}\n");
  changes("pump 'main' { from = 'pond', type = 'dry', " CURVE ", speed = '90 %' }", ROW_pump_speed, "80 %", false,
          "pump 'main' { from = 'pond', type = 'dry', " CURVE ", speed = '80 %' }");
  changes("pump 'main' { from = 'pond', type = 'dry', " CURVE ", model = [[a]] }", ROW_pump_model, "b \"c\" \\ d",
          false, "pump 'main' { from = 'pond', type = 'dry', " CURVE ", model = \"b \\\"c\\\" \\\\ d\" }");
  changes("pump 'main' { from = 'pond', type = 'dry', " CURVE ", model = 'a' }", ROW_pump_model, "the owner's", false,
          "pump 'main' { from = 'pond', type = 'dry', " CURVE ", model = 'the owner\\'s' }");
}

static void bare_numbers_and_read_ones(void **state) {
  (void)state;
  changes("pump 'main' { from = 'pond', type = 'dry', " CURVE ", speed = 0.9 }", ROW_pump_speed, "0.8", false,
          "pump 'main' { from = 'pond', type = 'dry', " CURVE ", speed = 0.8 }");
  changes("pump 'main' { from = 'pond', type = 'dry', " CURVE ", speed = 0.9 }", ROW_pump_speed, "80 %", false,
          "pump 'main' { from = 'pond', type = 'dry', " CURVE ", speed = \"80 %\" }");
  changes("pump 'main' { from = 'pond', type = 'dry', " CURVE ", cord = q\"9 ft\" }", ROW_pump_cord, "12 ft 6 in",
          false, "pump 'main' { from = 'pond', type = 'dry', " CURVE ", cord = q\"12 ft 6 in\" }");
  changes("pump 'main' { from = 'pond', type = 'dry', " CURVE ", cord = q('9 ft +/- 1 in') }", ROW_pump_cord, "12 ft",
          false, "pump 'main' { from = 'pond', type = 'dry', " CURVE ", cord = q('12 ft +/- 1 in') }");
}

static void a_tolerance_stays(void **state) {
  (void)state;
  changes("pump 'main' { from = 'pond', type = 'dry', " CURVE ", cord = '9 ft +/- 1 in' }", ROW_pump_cord, "12 ft",
          false, "pump 'main' { from = 'pond', type = 'dry', " CURVE ", cord = '12 ft +/- 1 in' }");
  changes("pump 'main' { from = 'pond', type = 'dry', " CURVE ", cord = '9 ft \xC2\xB1 1 in' }", ROW_pump_cord, "12 ft",
          false, "pump 'main' { from = 'pond', type = 'dry', " CURVE ", cord = '12 ft \xC2\xB1 1 in' }");
  changes("pump 'main' { from = 'pond', type = 'dry', " CURVE ", cord = '9 ft +/- 1 in' }", ROW_pump_cord,
          "12 ft +/- 2 in", false, "pump 'main' { from = 'pond', type = 'dry', " CURVE ", cord = '12 ft +/- 2 in' }");
}

static void whole_lists(void **state) {
  (void)state;
  changes("pump 'main' { from = 'pond', type = 'dry', -- mid size\n  " CURVE ", -- by its maker\n}", ROW_pump_curve,
          "{ { \"0 gal/h\", \"14 ft\" }, { \"700 gal/h\", \"9 ft\" }, { \"1,200 gal/h\", \"0 ft\" } }", true,
          "pump 'main' { from = 'pond', type = 'dry', -- mid size\n  curve = { { \"0 gal/h\", \"14 ft\" }, { \"700 "
          "gal/h\", "
          "\"9 ft\" }, { \"1,200 gal/h\", \"0 ft\" } }, -- by its maker\n}");
}

static void what_is_not_written_goes_behind_the_brace(void **state) {
  (void)state;
  changes("pump 'main' { from = 'pond', type = 'dry', " CURVE " }", ROW_pump_speed, "80 %", false,
          "pump 'main' { speed = '80 %', from = 'pond', type = 'dry', " CURVE " }");
  changes("pump 'main' {\n    from=\"pond\", type = 'dry', " CURVE "\n}", ROW_pump_speed, "80 %", false,
          "pump 'main' {\n    speed=\"80 %\",\n    from=\"pond\", type = 'dry', " CURVE "\n}");
  changes("pump 'main' { -- from a shop\r\n\t-- its curve below\r\n\tfrom = 'pond', type = 'dry', " CURVE "\r\n}",
          ROW_pump_speed, "80 %", false,
          "pump 'main' { -- from a shop\r\n\tspeed = '80 %',\r\n\t-- its curve below\r\n\tfrom = 'pond', type = "
          "'dry', " CURVE "\r\n}");
  changes("pump 'main' { --[[ two\nlines ]] from = 'pond', type = 'dry', " CURVE " }", ROW_pump_speed, "80 %", false,
          "pump 'main' { --[[ two\nlines ]] speed = '80 %', from = 'pond', type = 'dry', " CURVE " }");
  changes("pump 'main' { from = 'pond', type = 'dry', " CURVE " }\nsite {}\n", ROW_pump_power, "80 W", false,
          "pump 'main' { power = '80 W', from = 'pond', type = 'dry', " CURVE " }\nsite {}\n");
}

static void into_an_empty_table(void **state) {
  (void)state;
  static const struct {
    const char *before, *after;
  } rows[] = {
      {"site {}\n", "site { soil = 'type A', ground = '1 in' }\n"},
      {"site { }\n", "site { soil = 'type A', ground = '1 in' }\n"},
      {"site {\n}\n", "site {\n  soil = 'type A',\n  ground = '1 in',\n}\n"},
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
    char text[600];
    snprintf(text, sizeof text, "%s%s", POND, rows[i].before);
    struct made m = begin("d.lua", text);
    int site = entity_named(&m, "site");
    struct edit both[] = {{site, ROW_site_soil, "type A", false}, {site, ROW_site_ground, "1 in", false}};
    run(&m, both, 2);
    if (!m.done) fail_msg("%s", told(&m));
    struct text plain = text_in(m.arena);  // blanks before a comma do not matter
    for (const char *at = m.made.bytes + strlen(POND); *at; at++)
      if (strncmp(at, " ,", 2) != 0) text_add_char(&plain, *at);
    assert_string_equal(text_end(&plain), rows[i].after);
    arena_free(m.arena);
  }
}

static void parts_of_lists(void **state) {
  (void)state;
  struct made m = begin("d.lua", POND "pump 'main' { from = 'pond', type = 'dry', " CURVE
                                      " }\n"
                                      "pipe 'line' { from = 'main', to = 'pond', size = '2 in', length = '9 ft', "
                                      "outlet = 'drowned', outlet_at = '-9 in',\n"
                                      "  fittings = { { type = 'union' } } }\n");
  int line = entity_named(&m, "line"), fitting = store_member(m.store, line, ROW_pipe_fittings, 0);
  int point = store_member(m.store, entity_named(&m, "main"), ROW_pump_curve, 1);
  struct edit both[] = {{fitting, ROW_fitting_count, "2", false}, {point, ROW_curve_point_flow, "1,000 gal/h", false}};
  run(&m, both, 2);
  if (!m.done) fail_msg("%s", told(&m));
  assert_string_equal(
      m.made.bytes + strlen(POND),
      "pump 'main' { from = 'pond', type = 'dry', curve = { { '0 gal/h', '10 ft' }, { '1,000 gal/h', '0 "
      "ft' } } }\npipe 'line' { from = 'main', to = 'pond', size = '2 in', length = '9 ft', outlet = 'drowned', "
      "outlet_at = '-9 in',\n"
      "  fittings = { { count = 2, type = 'union' } } }\n");
  arena_free(m.arena);
}

static void json_too(void **state) {
  (void)state;
  static const char before[] =
      "{\n  \"project\": { \"name\": \"Test\", \"units\": \"us\" },\n  \"site\": {},\n"
      "  \"basin\": { \"pond\": {\n    \"purpose\": \"display\", \"outline\": { \"circle\": [\"6 ft\"] },\n"
      "    \"depth\": \"20 in +/- 1 in\", \"rim\": \"0 in\", \"water_level\": \"-4 in\" } },\n"
      "  \"pump\": {\"main\":{\"from\":\"pond\",\"type\":\"dry\",\"speed\":0.9,\n"
      "    \"curve\": [[\"0 gal/h\", \"10 ft\"], [\"900 gal/h\", \"0 ft\"]]}}\n}\n";
  static const char after[] =
      "{\n  \"project\": { \"name\": \"Test\", \"units\": \"us\" },\n  \"site\": { \"soil\": \"type A\" },\n"
      "  \"basin\": { \"pond\": {\n    \"voids\": \"35 %\",\n    \"purpose\": \"display\", \"outline\": { \"circle\": "
      "[\"7 "
      "ft\"] },\n    \"depth\": \"24 in +/- 1 in\", \"rim\": \"0 in\", \"water_level\": \"-4 in\" } },\n"
      "  \"pump\": {\"main\":{\"model\":\"a \\\"b\\\"\", \"from\":\"pond\",\"type\":\"dry\",\"speed\":0.8,\n"
      "    \"curve\": [[\"0 gal/h\", \"14 ft\"], [\"500 gal/h\", \"6 ft\"], [\"900 gal/h\", \"0 ft\"]]}}\n}\n";
  struct made m = begin("d.json", before);
  int pond = entity_named(&m, "pond"), main = entity_named(&m, "main"), site = entity_named(&m, "site");
  struct edit edits[] = {
      {main, ROW_pump_curve, "[[\"0 gal/h\", \"14 ft\"], [\"500 gal/h\", \"6 ft\"], [\"900 gal/h\", \"0 ft\"]]", true},
      {main, ROW_pump_speed, "0.8", false},
      {main, ROW_pump_model, "a \"b\"", false},
      {pond, ROW_basin_depth, "24 in", false},
      {pond, ROW_basin_voids, "35 %", false},
      {store_member(m.store, pond, ROW_basin_outline, 0), ROW_point_x, "7 ft", false},
      {site, ROW_site_soil, "type A", false},
  };
  run(&m, edits, sizeof edits / sizeof *edits);
  if (!m.done) fail_msg("%s", told(&m));
  assert_string_equal(m.made.bytes, after);
  arena_free(m.arena);
}

// The one problem: its line, and words that it must hold.
static void refused(const char *rest, const char *name, enum row_id row, const char *text, int line,
                    const char *words) {
  char whole[1200];
  snprintf(whole, sizeof whole, "%s%s", POND, rest);
  struct made m = begin("d.lua", whole);
  struct edit edit = {entity_named(&m, name), row, text, false};
  run(&m, &edit, 1);
  if (m.done || m.problems.count != 1 || m.problems.list[0].at.line != line || !strstr(told(&m), words))
    fail_msg("line %d, \"%s\" is not what is told: %s%s", line, words, m.done ? "made: " : "",
             m.done ? m.made.bytes : told(&m));
  arena_free(m.arena);
}

static void what_cannot_be_changed_is_refused(void **state) {
  (void)state;
#define STONE "length = '3 ft', width = '3 ft', height = '2 ft'"
  refused("for _, side in ipairs { 'left', 'right' } do\n  boulder(side) { " STONE ",\n    embedment = '4 in' }\nend\n",
          "left", ROW_boulder_embedment, "6 in", 6, "in a loop, a function or a table that stands elsewhere");
  refused("for _, side in ipairs { 'left', 'right' } do\n  boulder(side) { " STONE " }\nend\n", "left",
          ROW_boulder_embedment, "6 in", 5, "belongs into a loop, a function or a table");
  refused("local function stone(name)\n  boulder(name) { " STONE ", embedment = '4 in' }\nend\nstone 'left'\n", "left",
          ROW_boulder_embedment, "6 in", 5, "loop, a function");
  refused("local like = { " STONE ",\n  embedment = '4 in' }\nboulder 'left' (like)\n", "left", ROW_boulder_embedment,
          "6 in", 6, "a table that stands elsewhere");
  refused("local base = q'4 in'\nboulder 'left' { " STONE ", embedment = base + q'2 in' }\n", "left",
          ROW_boulder_embedment, "6 in", 5, "is worked out in the file");
  refused("local base = '4 in'\nboulder 'left' { " STONE ",\n embedment = base }\n", "left", ROW_boulder_embedment,
          "6 in", 6, "is worked out in the file");
  refused("boulder 'left' { " STONE ", embedment = 4 .. ' in' }\n", "left", ROW_boulder_embedment, "6 in", 4,
          "is worked out in the file");
  refused("", "prices", ROW_prices_gravel, "$30", 0, "prices { } into the design first");
}

static void values_that_do_not_fit_are_refused(void **state) {
  (void)state;
  refused("", "pond", ROW_basin_depth, "20 gal", 3, "read \"20 gal\"");
  refused("", "pond", ROW_basin_rim, "-6 in", 2, "basin \"pond\".");
  refused("", "pond", ROW_basin_purpose, "show", 2, "not one of the words");
  refused("", "pond", ROW_basin_depth, "20 in\n", 3, "control characters");
  refused("", "pond", ROW_basin_outline, "circle", 2, "is a list, and takes a table");
  refused("", "pond", ROW_basin_water_area, "9 ft2", 2, "is worked out, not given");
}

static void a_file_that_changed_is_refused(void **state) {
  (void)state;
  struct made m = begin("d.lua", POND);
  struct edit edit = {entity_named(&m, "pond"), ROW_basin_depth, "24 in", false};
  struct text later = text_in(m.arena);
  text_printf(&later, "-- one more line\n%s", POND);
  m.file.bytes = text_end(&later);
  m.file.length = later.length;
  run(&m, &edit, 1);
  assert_false(m.done);
  if (!strstr(told(&m), "has changed since it was reviewed")) fail_msg("%s", told(&m));
  arena_free(m.arena);
}

// What a firm says and what is tried stand in the store and not in the file: neither gets in, unless it is edited.
static void overlays_are_not_written(void **state) {
  (void)state;
  static const char pump[] = "pump 'main' { from = 'pond', type = 'dry', " CURVE " }\n";
  struct overlay overlays[] = {
      {.where = "prices.gravel", .text = "$38", .unless_written = true, .at = {"house.lua", 7}, .by = "house"},
      {.where = "main.on_share", .text = "50 %", .unless_written = true, .at = {"house.lua", 8}, .by = "house"},
      {.where = "pond.depth", .text = "30 in", .at = {"--try 1", 0}, .by = "trial"},
  };
  struct made m = begin("d.lua", POND "pump 'main' { from = 'pond', type = 'dry', " CURVE " }\n");
  m.store = design_read_with(m.arena, &m.file, NULL, 0, overlays, 3, &m.problems);
  if (!m.store) fail_msg("%s", told(&m));
  int main = entity_named(&m, "main"), prices = entity_named(&m, "prices");
  struct edit speed = {main, ROW_pump_speed, "80 %", false}, share = {main, ROW_pump_on_share, "40 %", false};
  struct edit gravel = {prices, ROW_prices_gravel, "$40", false};
  run(&m, &speed, 1);
  if (!m.done) fail_msg("%s", told(&m));
  assert_string_equal(m.made.bytes, POND "pump 'main' { speed = '80 %', from = 'pond', type = 'dry', " CURVE " }\n");
  run(&m, &share, 1);
  assert_true(m.done);
  assert_string_equal(m.made.bytes + strlen(POND) + strlen("pump 'main' { on_share = '40 %', "),
                      pump + strlen("pump 'main' { "));
  run(&m, &gravel, 1);
  assert_false(m.done);
  if (!strstr(told(&m), "prices")) fail_msg("%s", told(&m));
  arena_free(m.arena);
}

static void one_given_twice_is_refused(void **state) {
  (void)state;
  struct made m = begin("d.lua", POND);
  int pond = entity_named(&m, "pond");
  struct edit both[] = {{pond, ROW_basin_depth, "24 in", false}, {pond, ROW_basin_depth, "25 in", false}};
  run(&m, both, 2);
  assert_false(m.done);
  if (!strstr(told(&m), "changed twice")) fail_msg("%s", told(&m));
  arena_free(m.arena);
}

// ---- every given of whole designs, one at a time ----

// Another value of the same sort: the last digit of its first number one up; another word; another text.
static const char *another(struct arena *arena, const struct slot *slot, const struct row *row) {
  if (row->sort == SORT_CHOICE) {
    for (int w = 0; w < WORD_COUNT; w++)
      if (catalogue_word((enum word)w)->set == row->words && w != (int)slot->value)
        return catalogue_word((enum word)w)->word;
  }
  if (row->sort != SORT_NUMBER) return "something else";
  size_t at = strcspn(slot->text, "0123456789");
  if (!slot->text[at]) return dimension_row(row->dimension)->example;
  while (slot->text[at + 1] >= '0' && slot->text[at + 1] <= '9') at++;
  const char *tolerance = strstr(slot->text, " +/-");
  char *text = arena_copy(arena, slot->text, tolerance ? (size_t)(tolerance - slot->text) : strlen(slot->text));
  text[at] = text[at] == '9' ? '8' : (char)(text[at] + 1);
  return text;
}

static size_t differences(const struct store *a, const struct store *b) {
  size_t count = 0;
  if (a->slot_count != b->slot_count) return SIZE_MAX;
  for (size_t s = 0; s < a->slot_count; s++) {
    int entity;
    const struct row *row = catalogue_row(store_row_of_slot(a, (int)s, &entity));
    const struct slot *one = &a->slots[s], *other = &b->slots[s];
    if (!row_is_given(row)) continue;
    bool same = one->condition == other->condition &&
                (one->value == other->value || (isnan(one->value) && isnan(other->value))) &&
                (one->tolerance == other->tolerance || (isnan(one->tolerance) && isnan(other->tolerance)));
    bool worded = row->sort == SORT_TEXT || row->sort == SORT_REFERENCE;
    if (worded) same = same && (one->text ? other->text && strcmp(one->text, other->text) == 0 : !other->text);
    count += !same;
  }
  return count;
}

struct tally {
  size_t done, refused, unfit;
};

// Made with one difference; or refused at a line with one of the reasons; or the value does not fit the design.
static void edit_one(struct made *m, int entity, enum row_id id, struct tally *tally) {
  struct arena *arena = arena_new();
  const struct slot *slot = store_at(m->store, entity, id);
  struct problems problems = problems_in(arena);
  struct edit edit = {entity, id, another(arena, slot, catalogue_row(id)), false};
  struct file_bytes made;
  if (edit_design(arena, &m->file, m->store, &edit, 1, &made, &problems)) {
    const struct store *read = design_read(arena, &made, &problems);
    assert_non_null(read);
    assert_int_equal(differences(m->store, read), 1);
    tally->done++;
  } else {
    struct text text = text_in(arena);
    problems_write(&text, &problems, 9);
    if (problems.count == 0 || problems.list[0].at.line == 0) fail_msg("no line: %s", text_end(&text));
    bool by_hand = strstr(text_end(&text), "by hand") != NULL;
    if (by_hand && slot->to > 0) fail_msg("refused: %s", text_end(&text));
    tally->refused += by_hand;
    tally->unfit += !by_hand;
  }
  arena_free(arena);
}

static struct tally edit_all(struct made *m, bool written, size_t every) {
  struct tally tally = {0};
  size_t met = 0;
  for (size_t s = 0; s < m->store->slot_count; s++) {
    int entity;
    enum row_id id = store_row_of_slot(m->store, (int)s, &entity);
    const struct slot *slot = &m->store->slots[s];
    const struct row *row = catalogue_row(id);
    bool one = row_is_given(row) && !row_is_list(row);
    bool meant = written ? slot->condition == CONDITION_GIVEN && slot->text
                         : slot->condition == CONDITION_DEFAULT && m->store->entities[entity].at.line > 0;
    if (one && meant && met++ % every == 0) edit_one(m, entity, id, &tally);
  }
  return tally;
}

static struct made read_whole(const char *name) {
  char path[600];
  snprintf(path, sizeof path, "%s/%s", FOREBAY_ROOT, name);
  struct made m = {.arena = arena_new()};
  m.problems = problems_in(m.arena);
  if (!file_read(&m.problems, path, 1 << 20, &m.file)) fail_msg("%s", path);
  m.store = design_read(m.arena, &m.file, &m.problems);
  if (!m.store) fail_msg("%s", told(&m));
  return m;
}

// every: one of so many is tried.
static struct tally edit_each(const char *name, bool written, size_t every) {
  struct made m = read_whole(name);
  struct tally tally = edit_all(&m, written, every);
  arena_free(m.arena);
  print_message("%s, %s: %zu made, %zu refused, %zu would not fit\n", name, written ? "written" : "defaults",
                tally.done, tally.refused, tally.unfit);
  return tally;
}

// The same design with other things between its tokens: what was made and refused does not hang on the layout.
static void any_layout(void **state) {
  (void)state;
  static const char *const between[] = {" ", "\n", "\r\n\t", " --[[ } \" ]]", " -- { = '\n", "--[==[\n]] ]==]\n"};
  struct made m = read_whole("projects/stone-court.lua");
  struct tally plain = edit_all(&m, true, 9);
  struct tokens tokens = lua_tokens(m.arena, m.file.bytes, m.file.length);
  for (size_t i = 0; i < sizeof between / sizeof *between; i++) {
    struct made other = {.arena = arena_new()};
    struct text text = text_in(other.arena);
    for (size_t t = 0; t < tokens.count; t++) {
      text_add_bytes(&text, m.file.bytes + tokens.list[t].from, tokens.list[t].to - tokens.list[t].from);
      text_add(&text, between[i]);
    }
    other.problems = problems_in(other.arena);
    other.file = (struct file_bytes){"d.lua", text_end(&text), text.length};
    other.store = design_read(other.arena, &other.file, &other.problems);
    if (!other.store) fail_msg("%s: %s", between[i], told(&other));
    struct tally tally = edit_all(&other, true, 9);
    assert_int_equal(tally.done, plain.done);
    assert_int_equal(tally.refused, plain.refused);
    edit_all(&other, false, 9);
    arena_free(other.arena);
  }
  arena_free(m.arena);
}

static void every_written_given_of_whole_designs(void **state) {
  (void)state;
  struct tally stone = edit_each("projects/stone-court.lua", true, 1);
  struct tally json = edit_each("tests/designs/stone-court.json", true, 5);
  struct tally rill = edit_each("projects/slate-rill.lua", true, 5);
  struct tally lesson = edit_each("projects/crew-lesson.lua", true, 5);
  assert_in_range(stone.done, 300, 2000);
  assert_in_range(json.done, 60, 2000);
  assert_int_equal(json.refused, 0);  // no loops there
  assert_in_range(rill.done, 40, 2000);
  assert_in_range(lesson.done, 40, 2000);
}

static void every_default_of_whole_designs(void **state) {
  (void)state;
  struct tally stone = edit_each("projects/stone-court.lua", false, 2);
  struct tally json = edit_each("tests/designs/stone-court.json", false, 2);
  assert_in_range(stone.done, 20, 2000);
  assert_in_range(json.done, 20, 2000);
  assert_int_equal(json.refused, 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(values_keep_their_quotes_and_comments),
      cmocka_unit_test(bare_numbers_and_read_ones),
      cmocka_unit_test(a_tolerance_stays),
      cmocka_unit_test(whole_lists),
      cmocka_unit_test(what_is_not_written_goes_behind_the_brace),
      cmocka_unit_test(into_an_empty_table),
      cmocka_unit_test(parts_of_lists),
      cmocka_unit_test(json_too),
      cmocka_unit_test(what_cannot_be_changed_is_refused),
      cmocka_unit_test(values_that_do_not_fit_are_refused),
      cmocka_unit_test(a_file_that_changed_is_refused),
      cmocka_unit_test(overlays_are_not_written),
      cmocka_unit_test(one_given_twice_is_refused),
      cmocka_unit_test(every_written_given_of_whole_designs),
      cmocka_unit_test(every_default_of_whole_designs),
      cmocka_unit_test(any_layout),
  };
  return cmocka_run_group_tests_name("design/edit", tests, NULL, NULL);
}
