// SPDX-License-Identifier: MIT
// Attempts to get out of the seal, or to keep the machine busy without end.
#include "unit/script/runner.h"

static const char unknown[] = "this name is not known here";
static const char too_long[] = "it takes too many steps: a loop or a chain of calls does not end";
static const char too_large[] =
    "a list, a text or a chain of calls grows beyond the memory that one file or rule may have";

static void what_is_not_listed_does_not_exist(void **state) {
  (void)state;
  static const char *const names[] = {"pcall",
                                      "xpcall",
                                      "error",
                                      "assert",
                                      "load",
                                      "loadstring",
                                      "dofile",
                                      "loadfile",
                                      "require",
                                      "package",
                                      "module",
                                      "collectgarbage",
                                      "setmetatable",
                                      "getmetatable",
                                      "rawset",
                                      "rawget",
                                      "rawequal",
                                      "rawlen",
                                      "next",
                                      "print",
                                      "warn",
                                      "debug",
                                      "os",
                                      "io",
                                      "coroutine",
                                      "utf8",
                                      "_G",
                                      "_VERSION",
                                      "unpack",
                                      "jit",
                                      "arg",
                                      "string.rep",
                                      "string.find",
                                      "string.match",
                                      "string.gmatch",
                                      "string.gsub",
                                      "string.dump",
                                      "string.byte",
                                      "string.char",
                                      "string.pack",
                                      "string.unpack",
                                      "string.reverse",
                                      "table.move",
                                      "table.pack",
                                      "math.random",
                                      "math.randomseed",
                                      "math.type"};
  for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
    char text[80];
    snprintf(text, sizeof text, "return %s", names[i]);
    struct outcome outcome = run_rules(text);
    assert_int_equal(outcome.failure.kind, SCRIPT_MISUSE);
    assert_string_equal(outcome.failure.said, unknown);
    assert_string_equal(outcome.failure.read, names[i]);
    assert_int_equal(outcome.failure.line, 1);
  }
}

// The full list, so that a word which slips in is noticed.
static int list_words(lua_State *L) {
  char *listed = lua_touserdata(L, 1);
  script_push_environment(L);
  luaL_getmetafield(L, -1, "__index");
  size_t count = 0;
  lua_pushnil(L);
  while (lua_next(L, -2)) {
    count++;
    lua_pop(L, 1);
  }
  snprintf(listed, 16, "%zu", count);
  return 0;
}

static void a_profile_has_so_many_words(void **state) {
  (void)state;
  static const struct {
    enum script_profile profile;
    const char *count;  // q ipairs pairs tostring string table; and type tonumber select math
  } profiles[] = {{SCRIPT_DATA, "6"}, {SCRIPT_RULES, "10"}};
  for (size_t i = 0; i < 2; i++) {
    char count[16];
    struct script_failure failure;
    struct script *script =
        script_new((struct script_budget){0}, (struct script_owner){.profile = profiles[i].profile});
    assert_int_equal(script_protect(script, list_words, count, 0, 0, &failure), true);
    assert_string_equal(count, profiles[i].count);
    script_free(script);
  }
}

static void nothing_is_left_in_globals_or_registry(void **state) {
  (void)state;
  struct script *script = script_new((struct script_budget){0}, (struct script_owner){.profile = SCRIPT_RULES});
  lua_State *L = script_lua(script);
  lua_pushglobaltable(L);
  lua_pushnil(L);
  assert_int_equal(lua_next(L, -2), 0);
  assert_int_equal(lua_getfield(L, LUA_REGISTRYINDEX, LUA_LOADED_TABLE), LUA_TNIL);
  script_free(script);
}

static void texts_have_no_other_methods(void **state) {
  (void)state;
  fails("return (\"x\"):rep(1000000000)", SCRIPT_MISUSE, unknown);
  fails("local s = \"\" return s.rep", SCRIPT_MISUSE, unknown);
  fails("return (\"x\"):find(\"x\")", SCRIPT_MISUSE, unknown);
  fails("return (\"\").format.x", SCRIPT_BROKEN, "attempt to index a function value (field 'format')");
  fails("local s = \"x\" s.upper = 3", SCRIPT_BROKEN, "attempt to index a string value (local 's')");
  gives("return (\"x\"):upper(), (\"Ab\"):lower(), (\"abc\"):sub(2, -1), (\"abc\"):len()", "X|ab|bc|3");
}

static void words_cannot_be_changed(void **state) {
  (void)state;
  fails("math.abs = 3", SCRIPT_MISUSE, "`math` cannot be changed here");
  fails("string.format = 3", SCRIPT_MISUSE, "`string` cannot be changed here");
  fails("table.insert(math, 1, 3)", SCRIPT_MISUSE, "`math` cannot be changed here");
  fails("table.remove(table)", SCRIPT_FINE, "");
  fails("math[1] = 3", SCRIPT_MISUSE, "`math` cannot be changed here");
  fails("pairs = 3", SCRIPT_MISUSE, "`pairs` has a meaning here and keeps it");
}

static void the_environment_has_no_name(void **state) {
  (void)state;
  static const char *const texts[] = {"\nlocal _ENV = {} return pairs({})",
                                      "\n_ENV = nil return pairs",
                                      "\n_ENV.pairs = nil",
                                      "\n_ENV[1] = 3",
                                      "\ntable.insert(_ENV, 3)",
                                      "\nlocal _ENV <const> = 11 x = \"hi\"",
                                      "\nreturn function(_ENV) x = 1 end"};
  for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
    struct outcome outcome = run_rules(texts[i]);
    assert_int_equal(outcome.failure.kind, SCRIPT_MISUSE);
    assert_string_equal(outcome.failure.said, "this name has no use here");
    assert_string_equal(outcome.failure.read, "_ENV");
    assert_int_equal(outcome.failure.line, 2);
  }
  gives("-- _ENV\nreturn \"_ENV\", [[_ENV]], ({ _ENVY = 1 })._ENVY", "_ENV|_ENV|1");
}

static void compiled_text_is_refused(void **state) {
  (void)state;
  struct outcome outcome = run_rules("\x1bLua\x54");
  assert_int_equal(outcome.failure.kind, SCRIPT_SYNTAX);
  assert_string_equal(outcome.failure.said, "the file is a compiled one, and text alone is read");
  assert_string_equal(outcome.failure.cause, "attempt to load a binary chunk (mode is 't')");
}

static void endless_loops_are_stopped_at_their_line(void **state) {
  (void)state;
  static const char *const loops[] = {
      "\nwhile true do end",
      "\nrepeat until false",
      "\n::again:: goto again",
      "\nfor i = 1, math.huge do end",
      "\nlocal function f() return f() end f()",
      "\nlocal t = {} for k = 1, 1e9 do t[1] = k end",
      "\nlocal t = {} for i = 1, 1000 do t[i] = i end while true do for k in pairs(t) do t[k] = k end end",
      "\nlocal t = {} for i = 1, 9000 do t[i] = i end while true do table.sort(t) end",
      "\nlocal t = {} while true do table.insert(t, 1, 0) end",
      "\nlocal t = {} while true do table.insert(t, 0) table.concat(t) end",
  };
  for (size_t i = 0; i < sizeof loops / sizeof *loops; i++) {
    struct outcome outcome = run_rules(loops[i]);
    assert_int_equal(outcome.failure.kind, SCRIPT_STOPPED);
    assert_string_equal(outcome.failure.said, too_long);
    assert_int_equal(outcome.failure.line, 2);
  }
}

static void growth_without_end_is_stopped_at_its_line(void **state) {
  (void)state;
  static const char *const growths[] = {
      "\nlocal s = \"x\" while true do s = s .. s end",
      "\nlocal function f() return 1 + f() end f()",
      "\nlocal t = {} for i = 1, 1e9 do t[i] = true end",
      "\nlocal s = \"\" for i = 1, 1e9 do s = s .. \"0123456789012345678901234567890123456789\" end",
  };
  for (size_t i = 0; i < sizeof growths / sizeof *growths; i++) {
    struct outcome outcome = run_rules(growths[i]);
    assert_int_equal(outcome.failure.kind, SCRIPT_STOPPED);
    assert_string_equal(outcome.failure.said, too_large);
    assert_int_equal(outcome.failure.line, 2);
    assert_string_equal(outcome.file, "a design.lua");
  }
}

static void many_values_are_stopped(void **state) {
  (void)state;
  fails("return table.unpack({}, 1, 201)", SCRIPT_MISUSE, "table.unpack gives at most 200 values");
  fails("return table.unpack({}, 1, 1e8)", SCRIPT_MISUSE, "table.unpack gives at most 200 values");
  fails("return table.unpack({}, math.tointeger(-2^63), math.tointeger(2^53))", SCRIPT_MISUSE,
        "table.unpack gives at most 200 values");
  gives(
      "return select('#', table.unpack({}, 1, 200)), select('#', table.unpack({}, -9223372036854775807, "
      "-9223372036854775800))",
      "200|8");
  fails("local f f = function(...) return f(1, ...) end f()", SCRIPT_STOPPED,
        "a function is called with more than 1,000 values");
  fails("string.format(\"%9999d\", 1)", SCRIPT_MISUSE, "string.format has no width above 99");
  fails("string.format(\"%.999f\", 1)", SCRIPT_MISUSE, "string.format has no precision above 99");
  fails("string.format(\"%.99f\", 1)", SCRIPT_MISUSE, "string.format has no precision above 15 for numbers");
  fails("local s = string.format(\"%99s\", 1) for i = 1, 5 do s = s .. s .. s end string.format(\"%s\", s)",
        SCRIPT_MISUSE, "string.format makes at most 4000 bytes");
  fails("local t = {} for i = 1, 10001 do t[i] = i end table.sort(t)", SCRIPT_MISUSE,
        "table.sort sorts at most 10000 values");
  fails("local t, s = {}, \"0123456789\" for i = 1, 6554 do t[i] = s end return table.concat(t)", SCRIPT_MISUSE,
        "table.concat makes at most 65536 bytes");
}

static void no_hook_for_the_end_of_a_value(void **state) {
  (void)state;
  fails("local x <close> = {}", SCRIPT_BROKEN, "variable 'x' got a non-closable value");
  fails("local t = { __gc = function() while true do end end } t = nil", SCRIPT_FINE, "");
  gives("local t = { __index = function() return 3 end } return t.x", "nil");
}

static void deep_nesting_is_refused(void **state) {
  (void)state;
  char text[4096];
  memset(text, '{', 2000);
  memcpy(text + 2000, "}", 2);
  text[0] = 'a', text[1] = '=';
  struct outcome outcome = run_rules(text);
  assert_int_equal(outcome.failure.kind, SCRIPT_SYNTAX);
  assert_string_equal(outcome.failure.said, "lists or brackets stand within each other more than 200 times");
}

static void no_address_shows(void **state) {
  (void)state;
  gives("return tostring({}), tostring(pairs), tostring(math), \"\" .. tostring(function() end)",
        "table|function|table|function");
  fails("return {} .. \"\"", SCRIPT_BROKEN, "attempt to concatenate a table value");
  fails("return string.format(\"%p\", {})", SCRIPT_MISUSE, "string.format does not know %p");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(what_is_not_listed_does_not_exist),
      cmocka_unit_test(a_profile_has_so_many_words),
      cmocka_unit_test(nothing_is_left_in_globals_or_registry),
      cmocka_unit_test(texts_have_no_other_methods),
      cmocka_unit_test(words_cannot_be_changed),
      cmocka_unit_test(the_environment_has_no_name),
      cmocka_unit_test(compiled_text_is_refused),
      cmocka_unit_test(endless_loops_are_stopped_at_their_line),
      cmocka_unit_test(growth_without_end_is_stopped_at_its_line),
      cmocka_unit_test(many_values_are_stopped),
      cmocka_unit_test(no_hook_for_the_end_of_a_value),
      cmocka_unit_test(deep_nesting_is_refused),
      cmocka_unit_test(no_address_shows),
  };
  return cmocka_run_group_tests_name("script/seal", tests, NULL, NULL);
}
