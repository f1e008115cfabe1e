// SPDX-License-Identifier: MIT
// How a call fails: kinds, lines, words; and that nothing is left on the stack.
#include "script/call.h"

#include "unit/script/runner.h"

static int read_given(lua_State *L) { return script_raise_missing(L, (int)lua_tointeger(L, 1)); }

static int call_back(lua_State *L) {
  lua_pushvalue(L, 1);
  lua_call(L, 0, LUA_MULTRET);
  return lua_gettop(L) - 1;
}

static int with_own_words(lua_State *L) {
  script_push_environment(L);
  lua_pushcfunction(L, read_given);
  script_set_word(L, -2, "given");
  lua_pushcfunction(L, call_back);
  script_set_word(L, -2, "call_back");
  script_freeze_environment(L, -1);
  return 1;
}

static struct script_failure fails_with(const char *text) {
  struct script_failure failure;
  struct script *script = script_new((struct script_budget){0}, (struct script_owner){.profile = SCRIPT_RULES});
  assert_int_equal(script_protect(script, with_own_words, NULL, 0, 1, &failure), true);
  assert_int_equal(script_load(script, "rules/our own.lua", text, strlen(text), &failure), true);
  assert_int_equal(script_call(script, 0, 1, 0, &failure), false);
  assert_int_equal(lua_gettop(script_lua(script)), 0);
  if (failure.file) assert_string_equal(failure.file, "rules/our own.lua");
  failure.file = NULL;
  script_free(script);
  return failure;
}

static void a_missing_given_names_its_slot(void **state) {
  (void)state;
  struct script_failure failure = fails_with("local x = 1\nx = given(41)\n");
  assert_int_equal(failure.kind, SCRIPT_MISSING);
  assert_int_equal(failure.slot, 41);
  assert_int_equal(failure.line, 2);
  assert_string_equal(failure.said, "");
}

static void the_line_is_of_the_innermost_lua(void **state) {
  (void)state;
  static const struct {
    const char *text;
    int line;
  } places[] = {
      {"local function f()\n  return given(1)\nend\nf()\n", 2},
      {"local function f()\n  local x = given(1)\n  return x\nend\ncall_back(f)\n", 2},
      {"return call_back(\n  given\n)\n", 1},
      {"local t = {\n  1,\n  given(3),\n}\n", 3},
      {"table.sort({ 3, 2 }, function(a, b)\n  return given(a)\nend)", 2},
      {"local x = q\"1 ft\"\nlocal y = x\n  + 3", 3},
      {"local x = {}\nlocal y = x.depth.low", 2},
  };
  for (size_t i = 0; i < sizeof places / sizeof *places; i++)
    assert_int_equal(fails_with(places[i].text).line, places[i].line);
}

static void lua_words_come_without_their_place(void **state) {
  (void)state;
  struct script_failure failure = fails_with("\nlocal x = {}\nreturn x.depth.low");
  assert_int_equal(failure.kind, SCRIPT_BROKEN);
  assert_int_equal(failure.line, 3);
  assert_string_equal(failure.said, "attempt to index a nil value (field 'depth')");
}

static void a_misuse_tells_what_would_be_right(void **state) {
  (void)state;
  struct script_failure failure = fails_with("mxa = math.mxa");
  assert_int_equal(failure.kind, SCRIPT_MISUSE);
  assert_string_equal(failure.said, "this name is not known here");
  assert_string_equal(failure.read, "math.mxa");
  assert_string_equal(failure.right, "`math.max`, if that is meant");
  failure = fails_with("lcal = 3");
  assert_string_equal(failure.said, "`lcal` is set for the whole file");
  assert_string_equal(failure.right, "`local` before it");
}

static void a_failure_becomes_a_problem(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  struct text text = text_in(arena);
  struct script_failure failure = {.kind = SCRIPT_MISUSE, .file = "a.lua", .line = 7};
  strcpy(failure.said, "this name is not known here");
  strcpy(failure.read, "dpth");
  struct problem problem = script_problem(&failure, "rule \"deep\"");
  problem_write(&text, &problem);
  assert_string_equal(text_end(&text), "a.lua:7: rule \"deep\": this name is not known here; read \"dpth\"");
  arena_free(arena);
}

static int raise_text(lua_State *L) { return luaL_error(L, "no luck"); }

static int add_all(lua_State *L) {
  lua_Integer sum = *(int *)lua_touserdata(L, 1);
  for (int i = 2; i <= lua_gettop(L); i++) sum += lua_tointeger(L, i);
  lua_pushinteger(L, sum);
  return 1;
}

static void work_in_c_is_protected(void **state) {
  (void)state;
  struct script_failure failure;
  struct script *script = script_new((struct script_budget){0}, (struct script_owner){0});
  lua_State *L = script_lua(script);
  int start = 100;
  lua_pushinteger(L, 1);
  lua_pushinteger(L, 20);
  lua_pushinteger(L, 3);
  assert_int_equal(script_protect(script, add_all, &start, 2, 1, &failure), true);
  assert_int_equal(failure.kind, SCRIPT_FINE);
  assert_int_equal(lua_tointeger(L, -1), 123);
  assert_int_equal(lua_gettop(L), 2);
  assert_int_equal(script_protect(script, raise_text, NULL, 1, 1, &failure), false);
  assert_int_equal(failure.kind, SCRIPT_BROKEN);
  assert_string_equal(failure.said, "no luck");
  assert_null(failure.file);
  assert_int_equal(lua_gettop(L), 1);
  script_free(script);
}

struct nested {
  bool fine;
  struct script_failure failure;
};

// An owner's function may call the script again; its failure is its own.
static int call_within(lua_State *L) {
  struct nested *nested = lua_touserdata(L, lua_upvalueindex(1));
  lua_settop(L, 1);
  nested->fine = script_call(script_of(L), 0, 0, 1000, &nested->failure);
  return 0;
}

static int with_call_within(lua_State *L) {
  script_push_environment(L);
  lua_pushlightuserdata(L, lua_touserdata(L, 1));
  lua_pushcclosure(L, call_within, 1);
  script_set_word(L, -2, "within");
  return 1;
}

static void a_call_within_a_call_has_its_own_budget(void **state) {
  (void)state;
  static const char text[] = "within(function() while true do end end) for i = 1, 5000 do end return 7";
  struct nested nested = {0};
  struct script_failure failure;
  struct script *script = script_new((struct script_budget){0}, (struct script_owner){.profile = SCRIPT_RULES});
  assert_int_equal(script_protect(script, with_call_within, &nested, 0, 1, &failure), true);
  assert_int_equal(script_load(script, "a.lua", text, strlen(text), &failure), true);
  assert_int_equal(script_call(script, 0, 1, 100000, &failure), true);
  assert_int_equal(lua_tointeger(script_lua(script), -1), 7);
  assert_int_equal(nested.fine, false);
  assert_int_equal(nested.failure.kind, SCRIPT_STOPPED);
  script_free(script);
}

static void the_budget_is_of_each_call(void **state) {
  (void)state;
  static const char text[] = "for i = 1, 4000 do end return 1";  // one instruction a turn
  struct outcome outcome;
  struct script *script = script_new((struct script_budget){0}, (struct script_owner){.profile = SCRIPT_RULES});
  for (int i = 0; i < 3; i++) {
    runner_run(script, text, strlen(text), 8000, &outcome);
    assert_int_equal(outcome.failure.kind, SCRIPT_FINE);
    runner_run(script, text, strlen(text), 2000, &outcome);
    assert_int_equal(outcome.failure.kind, SCRIPT_STOPPED);
    runner_run(script, text, strlen(text), 10, &outcome);
    assert_int_equal(outcome.failure.kind, SCRIPT_STOPPED);
  }
  script_free(script);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_missing_given_names_its_slot),
      cmocka_unit_test(the_line_is_of_the_innermost_lua),
      cmocka_unit_test(lua_words_come_without_their_place),
      cmocka_unit_test(a_misuse_tells_what_would_be_right),
      cmocka_unit_test(a_failure_becomes_a_problem),
      cmocka_unit_test(work_in_c_is_protected),
      cmocka_unit_test(a_call_within_a_call_has_its_own_budget),
      cmocka_unit_test(the_budget_is_of_each_call),
  };
  return cmocka_run_group_tests_name("script/call", tests, NULL, NULL);
}
