// SPDX-License-Identifier: MIT
#define _GNU_SOURCE
#include "cli/inputs.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

struct tree {  // a folder of rules for each test, in which it works
  struct arena *arena;
  struct problems problems;
  struct inputs inputs;
  char path[64];
};

static void put(const char *path, const char *bytes, size_t length) {
  FILE *file = fopen(path, "w");
  assert_non_null(file);
  assert_int_equal(fwrite(bytes, 1, length, file), length);
  fclose(file);
}

static int start(void **state) {
  struct arena *arena = arena_new();
  struct tree *tree = arena_alloc(arena, sizeof *tree);
  *tree = (struct tree){.arena = arena, .problems = problems_in(arena), .path = "/tmp/forebay-inputs-XXXXXX"};
  *state = tree;
  if (!mkdtemp(tree->path) || chdir(tree->path) != 0) return -1;
  mkdir("trade", 0700), mkdir("house", 0700), mkdir("empty", 0700);
  put("trade/b.lua", "-- b", 4), put("trade/a.lua", "-- a", 4), put("trade/notes.txt", "no", 2);
  put("house/own.lua", "-- own", 6), put("single.lua", "", 0);
  return setenv("FOREBAY_RULES", "trade", 1);
}

static int end(void **state) {
  static const char *const made[] = {"trade/a.lua",   "trade/b.lua", "trade/notes.txt", "trade/big.lua", "trade",
                                     "house/own.lua", "house",       "single.lua",      "empty"};
  for (size_t i = 0; i < sizeof made / sizeof *made; i++) remove(made[i]);
  struct tree *tree = *state;
  bool away = chdir("/") == 0 && rmdir(tree->path) == 0;
  arena_free(tree->arena);
  return away ? 0 : -1;
}

static bool read_rules(struct tree *tree, const char *one, const char *two, bool without_house) {
  const char **at = arena_array(tree->arena, 2, sizeof *at);
  at[0] = one, at[1] = two;
  const struct settings settings = {.rules = {at, one ? two ? 2u : 1u : 0u}, .without_house = without_house};
  return inputs_read_rules(&tree->inputs, &tree->problems, &settings);
}

static void layers_are_named_and_read_in_order(void **state) {
  struct tree *tree = *state;
  assert_int_equal(read_rules(tree, "./house/", "single.lua", false), 1);
  const struct inputs *in = &tree->inputs;
  assert_int_equal(in->layer_count, 3);
  assert_string_equal(in->layers[0].name, "trade");
  assert_int_equal(in->layers[0].count, 2);
  assert_string_equal(in->layers[0].files[0].name, "trade/a.lua");
  assert_string_equal(in->layers[0].files[1].name, "trade/b.lua");
  assert_string_equal(in->layers[1].name, "house");
  assert_string_equal(in->layers[1].files[0].bytes, "-- own");
  assert_string_equal(in->layers[2].name, "single");
  assert_int_equal(in->whole, 1);
  assert_int_equal(tree->problems.count, 0);
}

static void without_house_leaves_the_trade_alone(void **state) {
  struct tree *tree = *state;
  assert_int_equal(read_rules(tree, "house", "missing", true), 1);
  assert_int_equal(tree->inputs.layer_count, 1);
}

static void a_layer_that_is_not_there_stops_the_work(void **state) {
  struct tree *tree = *state;
  assert_int_equal(read_rules(tree, "missing", NULL, false), 0);
  assert_string_equal(tree->problems.list[0].at.file, "missing");
  assert_int_equal(read_rules(tree, "empty", NULL, false), 0);
  assert_string_equal(tree->problems.list[1].said, "there is no rule file (*.lua) in this folder");
}

static void missing_trade_rules_say_where_they_were_sought(void **state) {
  struct tree *tree = *state;
  setenv("FOREBAY_RULES", "nowhere", 1);
  assert_int_equal(read_rules(tree, NULL, NULL, false), 0);
  assert_string_equal(tree->problems.list[tree->problems.count - 1].read, "nowhere");
}

static void a_file_too_large_is_left_out_of_its_folder(void **state) {
  struct tree *tree = *state;
  char *big = arena_alloc(tree->arena, INPUT_MOST + 1);
  put("trade/big.lua", big, INPUT_MOST + 1);
  assert_int_equal(read_rules(tree, NULL, NULL, false), 1);
  assert_int_equal(tree->inputs.layers[0].count, 2);
  assert_int_equal(tree->inputs.whole, 0);
  assert_string_equal(tree->problems.list[0].at.file, "trade/big.lua");
}

static void a_file_of_the_greatest_size_is_read(void **state) {
  struct tree *tree = *state;
  char *big = arena_alloc(tree->arena, INPUT_MOST);
  put("trade/big.lua", big, INPUT_MOST);
  assert_int_equal(inputs_read_design(&tree->inputs, &tree->problems, "trade/big.lua"), 1);
  assert_int_equal(tree->inputs.design.length, INPUT_MOST);
}

static void a_file_is_left_out_by_its_name(void **state) {
  struct tree *tree = *state;
  read_rules(tree, "house", NULL, false);
  assert_int_equal(inputs_leave_out(&tree->inputs, "a.lua"), 0);
  assert_int_equal(tree->inputs.whole, 1);
  assert_int_equal(inputs_leave_out(&tree->inputs, "trade/a.lua"), 1);
  assert_int_equal(tree->inputs.whole, 0);
  assert_int_equal(tree->inputs.layers[0].count, 1);
  assert_string_equal(tree->inputs.layers[0].files[0].name, "trade/b.lua");
  assert_int_equal(inputs_leave_out(&tree->inputs, "trade/a.lua"), 0);
}

static void what_was_read_is_known_under_any_name(void **state) {
  struct tree *tree = *state;
  inputs_read_design(&tree->inputs, &tree->problems, "single.lua");
  read_rules(tree, "house", NULL, false);
  assert_int_equal(inputs_hold(&tree->inputs, "./house/../single.lua"), 1);
  assert_int_equal(inputs_hold(&tree->inputs, "trade/../house/own.lua"), 1);
  assert_int_equal(inputs_hold(&tree->inputs, "trade/notes.txt"), 0);
  assert_int_equal(inputs_hold(&tree->inputs, "not-there"), 0);
  assert_int_equal(inputs_hold(&tree->inputs, NULL), 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(layers_are_named_and_read_in_order, start, end),
      cmocka_unit_test_setup_teardown(without_house_leaves_the_trade_alone, start, end),
      cmocka_unit_test_setup_teardown(a_layer_that_is_not_there_stops_the_work, start, end),
      cmocka_unit_test_setup_teardown(missing_trade_rules_say_where_they_were_sought, start, end),
      cmocka_unit_test_setup_teardown(a_file_too_large_is_left_out_of_its_folder, start, end),
      cmocka_unit_test_setup_teardown(a_file_of_the_greatest_size_is_read, start, end),
      cmocka_unit_test_setup_teardown(a_file_is_left_out_by_its_name, start, end),
      cmocka_unit_test_setup_teardown(what_was_read_is_known_under_any_name, start, end),
  };
  return cmocka_run_group_tests_name("cli/inputs", tests, NULL, NULL);
}
