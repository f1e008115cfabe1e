// SPDX-License-Identifier: MIT
#include <math.h>
#include <string.h>

#include "design/read.h"

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

#define SOUND                                                                                                 \
  "{\"project\": {\"name\": \"Test\", \"units\": \"us\"}, \"site\": {}, \"basin\": {\"pond\": {\"purpose\": " \
  "\"display\", "                                                                                             \
  "\"outline\": {\"circle\": [\"6 ft\"]}, \"depth\": \"20 in\", \"rim\": \"0 in\", \"water_level\": \"-4 in\"}},\n"

enum { MOST_BYTES = 1 << 20 };

struct outcome {
  struct arena *arena;
  struct problems problems;
  struct store *store;
};

static struct outcome read_bytes(const char *text, size_t length) {
  struct outcome o = {.arena = arena_new()};
  o.problems = problems_in(o.arena);
  struct file_bytes file = {"d.JSON", arena_copy(o.arena, text, length), length};
  o.store = design_read(o.arena, &file, &o.problems);
  return o;
}

static struct outcome read_file(const char *path) {
  struct outcome o = {.arena = arena_new()};
  struct file_bytes file;
  o.problems = problems_in(o.arena);
  if (!file_read(&o.problems, path, MOST_BYTES, &file)) fail_msg("%s cannot be read", path);
  o.store = design_read(o.arena, &file, &o.problems);
  if (!o.store) fail_msg("%s: %s", path, o.problems.list[0].said);
  return o;
}

static void check_one_problem(const char *text, int line, const char *words, const char *cause) {
  struct outcome o = read_bytes(text, strlen(text));
  struct text told = text_in(o.arena);
  problems_write(&told, &o.problems, 10);
  assert_null(o.store);
  if (o.problems.count != 1 || o.problems.list[0].at.line != line || !strstr(text_end(&told), words))
    fail_msg("expected line %d: %s\ntold:\n%s", line, words, text_end(&told));
  if (cause && !o.problems.list[0].cause) fail_msg("%s: no cause", words);
  if (cause && !strstr(o.problems.list[0].cause, cause)) fail_msg("%s is not %s", o.problems.list[0].cause, cause);
  arena_free(o.arena);
}

static void check_same_slot(const struct slot *a, const struct slot *b, const char *name) {
  bool same = a->condition == b->condition && a->first == b->first && !a->text == !b->text &&
              (!a->text || strcmp(a->text, b->text) == 0) &&
              (a->value == b->value || (isnan(a->value) && isnan(b->value)));
  if (!same)
    fail_msg("%s differs: %g %s, %g %s", name, a->value, a->text ? a->text : "", b->value, b->text ? b->text : "");
}

// The pair says the same thing, so that both must give one store: same entities in the same order, same values.
static void one_design_in_both_languages_is_one_store(void **state) {
  (void)state;
  struct outcome lua = read_file(FOREBAY_ROOT "/tests/designs/porch.lua");
  struct outcome json = read_file(FOREBAY_ROOT "/tests/designs/porch.json");
  assert_int_equal(lua.store->entity_count, json.store->entity_count);
  assert_int_equal(lua.store->slot_count, json.store->slot_count);
  for (size_t e = 0; e < lua.store->entity_count; e++) {
    const struct entity *a = &lua.store->entities[e], *b = &json.store->entities[e];
    assert_int_equal(a->kind, b->kind);
    assert_string_equal(a->name ? a->name : "", b->name ? b->name : "");
    assert_int_equal(a->owner, b->owner);
  }
  for (size_t s = 0; s < lua.store->slot_count; s++) {
    int entity;
    enum row_id row = store_row_of_slot(lua.store, (int)s, &entity);
    check_same_slot(&lua.store->slots[s], &json.store->slots[s], catalogue_row(row)->name);
  }
  assert_int_equal(lua.store->measurement_count, 1);
  assert_int_equal(json.store->measurement_count, 1);
  assert_int_equal(lua.store->measurements[0].slot, json.store->measurements[0].slot);
  arena_free(lua.arena);
  arena_free(json.arena);
}

static void values_stand_with_their_places(void **state) {
  (void)state;
  struct outcome o = read_bytes(
      SOUND "\"jet\": {\"j\": {\"basin\": \"pond\",\n\"at\": \"-3 in\", \"orifice\": \"1/2 in\", \"count\": 3.0}}}",
      strlen(SOUND
             "\"jet\": {\"j\": {\"basin\": \"pond\",\n\"at\": \"-3 in\", \"orifice\": \"1/2 in\", \"count\": 3.0}}}"));
  assert_non_null(o.store);
  const struct slot *at = store_at(o.store, store_named(o.store, "j", 1), ROW_jet_at);
  assert_int_equal(at->line, 3);
  assert_int_equal(at->to - at->from, strlen("\"-3 in\""));
  assert_int_equal((int)store_at(o.store, store_named(o.store, "j", 1), ROW_jet_count)->value, 3);
  arena_free(o.arena);
}

static void slips_are_told_at_their_lines(void **state) {
  (void)state;
  check_one_problem(SOUND "\"machine\": {\"a\":\n {\"width\": 3}}}", 3, "machine \"a\".width: is a bare number", NULL);
  check_one_problem(SOUND "\"machine\": {\"a\":\n {\"width\": null}}}", 3, "is null", NULL);
  check_one_problem(SOUND "\"machine\": {\"a\":\n \"3 ft\"}}", 3, "is not followed by an object", NULL);
  check_one_problem(SOUND "\"machine\": [\"a\"]}", 2, "names no entities", NULL);
  check_one_problem(SOUND "\"machne\": {\"a\": {}}}", 2, "`machine`", NULL);
  check_one_problem(SOUND "\"point\": {\"a\": {}}}", 2, "not known", NULL);
  check_one_problem(SOUND "\"machine\": {\"a.b\": {\"width\": \"3 ft\"}}}", 2, ". or [", NULL);
  check_one_problem(SOUND "\"machine\": {\"a\\nb\": {\"width\": \"3 ft\"}}}", 2, "control characters", NULL);
  check_one_problem(SOUND "\"machine\": {\"\": {\"width\": \"3 ft\"}}}", 2, "empty name", NULL);
  check_one_problem(SOUND "\"machine\": {\"a\": {\"width\": \"3 ft\",\n \"widht\": \"3 ft\"}}}", 3, "`width`", NULL);
  check_one_problem(
      SOUND "\"machine\": {\"a\": {\"width\": \"3 ft\",\n \"lifts\": [[[[[[[[[[[1]]]]]]]]], \"9 lb\", \"1 lb\"]]}}}", 3,
      "lifts[1].reach: is a list", NULL);
}

static void what_is_no_json_keeps_the_words_of_the_library_underneath(void **state) {
  (void)state;
  check_one_problem("{\"project\": {\"name\": \"x\"\n \"units\": \"us\"}}", 1, "a comma is missing", "expected near");
  check_one_problem("{\n\"site\": {\"soil\": \"a\\u0000b\"}}", 2, "zero character", "\\u0000");
  check_one_problem("{\n\"site\": {\"ground\": 1e999}}", 2, "too large", "real number overflow");
  check_one_problem("[]", 1, "a design is an object", NULL);
  check_one_problem("3", 1, "a design is an object", NULL);
}

static void lists_without_end_are_refused(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  struct text text = text_in(arena);
  text_add(&text, "{\"site\": ");
  text_add_many(&text, '[', 500000);
  check_one_problem(text_end(&text), 1, "200 deep", "maximum parsing depth");
  arena_free(arena);
}

static void what_is_no_text_is_refused(void **state) {
  (void)state;
  check_one_problem("", 0, "empty", NULL);
  check_one_problem("{}\n\n\xC3", 3, "no UTF-8", NULL);
}

static void a_byte_order_mark_is_no_problem(void **state) {
  (void)state;
  static const char text[] = "\xEF\xBB\xBF" SOUND "\"machine\": {\"a\": {\"width\": \"3 ft\"}}}";
  struct outcome o = read_bytes(text, sizeof text - 1);
  assert_non_null(o.store);
  const struct slot *width = store_at(o.store, store_named(o.store, "a", 1), ROW_machine_width);
  assert_memory_equal(text + width->from, "\"3 ft\"", width->to - width->from);
  arena_free(o.arena);
}

static void read_whole(void *with) {
  struct outcome *o = with;
  static const char text[] = SOUND "\"machine\": {\"a\": {\"width\": 3}}, \"machne\": {}}";
  struct file_bytes file = {"d.json", text, sizeof text - 1};
  o->store = design_read(o->arena, &file, &o->problems);
}

static bool survives(long nth) {
  struct outcome o = {.arena = arena_new()};
  o.problems = problems_in(o.arena);
  arena_fail_nth(nth);
  bool done = arena_try(o.arena, read_whole, &o);
  arena_fail_nth(0);
  assert_null(o.store);
  if (done) assert_int_equal(o.problems.count, 2);
  arena_free(o.arena);
  return !done;
}

static void every_allocation_may_fail(void **state) {
  (void)state;
  long nth = 1;
  while (nth < 1000 && survives(nth)) nth++;
  assert_in_range(nth, 3, 999);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(one_design_in_both_languages_is_one_store),
      cmocka_unit_test(values_stand_with_their_places),
      cmocka_unit_test(slips_are_told_at_their_lines),
      cmocka_unit_test(what_is_no_json_keeps_the_words_of_the_library_underneath),
      cmocka_unit_test(lists_without_end_are_refused),
      cmocka_unit_test(what_is_no_text_is_refused),
      cmocka_unit_test(a_byte_order_mark_is_no_problem),
      cmocka_unit_test(every_allocation_may_fail),
  };
  return cmocka_run_group_tests_name("design/read_json", tests, NULL, NULL);
}
