// SPDX-License-Identifier: MIT
// What rules share cannot be written, and their functions keep nothing; environments and stand-ins.
#include "script/freeze.h"

#include "unit/script/runner.h"

static int with_limits(lua_State *L) {
  script_push_environment(L);
  lua_newtable(L);
  script_push_quantity(L, 0.5, dimension_row(DIM_LENGTH)->powers);
  lua_setfield(L, -2, "least");
  lua_pushinteger(L, 7);
  lua_rawseti(L, -2, 1);
  script_push_read_only(L, -1, "limit");
  lua_remove(L, -2);
  script_set_word(L, -2, "limit");
  script_freeze_environment(L, -1);
  return 1;
}

static struct outcome run_limits(const char *text) {
  struct outcome outcome = {0};
  struct script_failure showing;
  struct script *script = script_new((struct script_budget){0}, (struct script_owner){.profile = SCRIPT_RULES});
  assert_int_equal(script_protect(script, with_limits, NULL, 0, 1, &outcome.failure), true);
  assert_int_equal(script_load(script, "a.lua", text, strlen(text), &outcome.failure), true);
  if (script_call(script, 0, LUA_MULTRET, 0, &outcome.failure))
    script_protect(script, runner_show, outcome.shown, lua_gettop(script_lua(script)), 0, &showing);
  outcome.failure.file = NULL;
  script_free(script);
  return outcome;
}

static void a_read_only_table_reads_as_the_one_behind(void **state) {
  (void)state;
  assert_string_equal(run_limits("return limit.least, limit[1], #limit, limit.other").shown, "0.5|7|1|nil");
  assert_string_equal(run_limits("local r = \"\" for k in pairs(limit) do r = r .. k .. \" \" end for i, v in "
                                 "ipairs(limit) do r = r .. v end return r")
                          .shown,
                      "1 least 7");
}

static void a_read_only_table_refuses_every_write(void **state) {
  (void)state;
  static const char *const writes[] = {"limit.least = 3",        "limit.new = 3",     "limit[1] = nil",
                                       "table.insert(limit, 3)", "table.sort(limit)", "table.remove(limit)"};
  for (size_t i = 0; i < sizeof writes / sizeof *writes; i++) {
    struct outcome outcome = run_limits(writes[i]);
    assert_int_equal(outcome.failure.kind, SCRIPT_MISUSE);
    assert_string_equal(outcome.failure.said, "`limit` cannot be changed here");
  }
}

static int find_stray(lua_State *L) {
  const char *name = script_stray_upvalue(L, 2);
  snprintf(lua_touserdata(L, 1), 64, "%s", name ? name : "none");
  return 0;
}

static void a_function_keeps_nothing_from_outside(void **state) {
  (void)state;
  static const struct {
    const char *text, *stray;
  } functions[] = {
      {"return function(s) return s.depth end", "none"},
      {"return function(s) return pairs(s) end", "none"},
      {"return function(s) local n = 0 return function() n = n + 1 return n end end", "none"},
      {"return pairs", "none"},
      {"local lip = 3 return function(s) return s.depth + lip end", "lip"},
      {"local seen = {} return function(s) seen[s] = true return pairs end", "seen"},
      {"local function f(s) return f(s) end return f", "f"},
  };
  for (size_t i = 0; i < sizeof functions / sizeof *functions; i++) {
    char stray[64];
    struct script_failure failure;
    struct script *script = script_new((struct script_budget){0}, (struct script_owner){.profile = SCRIPT_RULES});
    assert_int_equal(script_protect(script, runner_environment, NULL, 0, 1, &failure), true);
    assert_int_equal(script_load(script, "a.lua", functions[i].text, strlen(functions[i].text), &failure), true);
    assert_int_equal(script_call(script, 0, 1, 0, &failure), true);
    assert_int_equal(script_protect(script, find_stray, stray, 1, 0, &failure), true);
    assert_string_equal(stray, functions[i].stray);
    script_free(script);
  }
}

static int open_environment(lua_State *L) {
  script_push_environment(L);
  return 1;
}

// A function that works in an open environment could keep something there.
static void an_open_environment_is_a_stray(void **state) {
  (void)state;
  static const char text[] = "return function() n = (n or 0) + 1 return n end";
  char stray[64];
  struct script_failure failure;
  struct script *script = script_new((struct script_budget){0}, (struct script_owner){.profile = SCRIPT_RULES});
  assert_int_equal(script_protect(script, open_environment, NULL, 0, 1, &failure), true);
  assert_int_equal(script_load(script, "a.lua", text, strlen(text), &failure), true);
  assert_int_equal(script_call(script, 0, 1, 0, &failure), true);
  assert_int_equal(script_protect(script, find_stray, stray, 1, 0, &failure), true);
  assert_string_equal(stray, "_ENV");
  script_free(script);
}

static int freeze_it(lua_State *L) {
  script_freeze_environment(L, 2);
  lua_pushvalue(L, 2);
  return 1;
}

static bool run_in(struct script *script, const char *text, struct script_failure *failure) {
  lua_pushvalue(script_lua(script), 1);
  return script_load(script, "a.lua", text, strlen(text), failure) && script_call(script, 0, 0, 0, failure);
}

static void an_environment_can_be_open_first_and_frozen_later(void **state) {
  (void)state;
  struct script_failure failure;
  struct script *script = script_new((struct script_budget){0}, (struct script_owner){.profile = SCRIPT_RULES});
  assert_int_equal(script_protect(script, open_environment, NULL, 0, 1, &failure), true);
  assert_int_equal(run_in(script, "x = 3 x = x + 1 y = nil", &failure), true);
  assert_int_equal(script_protect(script, freeze_it, NULL, 1, 1, &failure), true);
  assert_int_equal(run_in(script, "local z = 1 // (x - 3)", &failure), true);
  assert_int_equal(run_in(script, "x = 5", &failure), false);
  assert_string_equal(failure.said, "`x` has a meaning here and keeps it");
  assert_int_equal(run_in(script, "local z = 1 // (x - 3)", &failure), true);
  script_free(script);
}

struct noted {
  int count, line;
  char said[100], read[100], right[100];
};

static bool note(void *with, const struct script_slip *slip) {
  struct noted *noted = with;
  noted->count++;
  noted->line = slip->at.line;
  snprintf(noted->said, sizeof noted->said, "%s", slip->said);
  snprintf(noted->read, sizeof noted->read, "%s", slip->read ? slip->read : "");
  snprintf(noted->right, sizeof noted->right, "%s", slip->right ? slip->right : "");
  return true;
}

static void a_design_reads_on_after_an_unknown_name(void **state) {
  (void)state;
  struct noted noted = {0};
  struct script_owner owner = {.profile = SCRIPT_DATA, .slipped = note, .with = &noted};
  struct outcome outcome = runner_with(owner,
                                       "local x = basinn \"lower\" { depth = \"3 ft\" }.part[3](1, 2)\n"
                                       "local y = (x + 1) * 2 - -x / 3 .. \"a\"\n"
                                       "y.a, y[1] = 1, 2\n"
                                       "for a in x do end for k in pairs(x) do end for i in ipairs(x) do end\n"
                                       "table.insert(x, 3)\n"
                                       "return x < 3, x == y, #x, tostring(x), table.concat({ x, 1 }), type(x)\n");
  assert_int_equal(outcome.failure.kind, SCRIPT_FINE);
  assert_int_equal(noted.count, 2);  // `type` is no word of a design file either
  assert_string_equal(outcome.shown, "false|true|0|?|?1|userdata");
  assert_string_equal(noted.read, "type");
  assert_int_equal(noted.line, 6);
}

static void a_slip_names_the_nearest_word(void **state) {
  (void)state;
  struct noted noted = {0};
  struct script_owner owner = {.profile = SCRIPT_DATA, .slipped = note, .with = &noted};
  runner_with(owner, "\nlocal x = tostrng(3)");
  assert_string_equal(noted.said, "this name is not known here");
  assert_string_equal(noted.read, "tostrng");
  assert_string_equal(noted.right, "`tostring`, if that is meant");
  assert_int_equal(noted.line, 2);
  struct outcome outcome = runner_with(owner, "depth = 3\nreturn depth");  // recorded, and read as if it were right
  assert_string_equal(outcome.shown, "3");
  assert_string_equal(noted.said, "`depth` is set for the whole file");
  assert_string_equal(noted.right, "`local` before it");
}

static bool use_all_memory(void *with, const struct script_slip *slip) {
  (void)slip;
  arena_give_up(with);
}

static void an_owner_without_memory_stops_the_script(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  struct script_owner owner = {.profile = SCRIPT_DATA, .slipped = use_all_memory, .with = arena, .arena = arena};
  assert_int_equal(runner_with(owner, "return unknown").failure.kind, SCRIPT_STOPPED);
  arena_free(arena);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_read_only_table_reads_as_the_one_behind),
      cmocka_unit_test(a_read_only_table_refuses_every_write),
      cmocka_unit_test(a_function_keeps_nothing_from_outside),
      cmocka_unit_test(an_open_environment_is_a_stray),
      cmocka_unit_test(an_environment_can_be_open_first_and_frozen_later),
      cmocka_unit_test(a_design_reads_on_after_an_unknown_name),
      cmocka_unit_test(a_slip_names_the_nearest_word),
      cmocka_unit_test(an_owner_without_memory_stops_the_script),
  };
  return cmocka_run_group_tests_name("script/freeze", tests, NULL, NULL);
}
