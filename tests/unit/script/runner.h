// SPDX-License-Identifier: MIT
// Runs one Lua text in a fresh sealed state and says what came of it.
#ifndef FOREBAY_TESTS_SCRIPT_RUNNER_H
#define FOREBAY_TESTS_SCRIPT_RUNNER_H

#include <lauxlib.h>
#include <lua.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
// clang-format off: it needs those above
#include <cmocka.h>
// clang-format on

#include "script/call.h"
#include "script/quantity.h"

struct outcome {
  struct script_failure failure;
  char file[64];     // the failure's own ends with the script
  char shown[1024];  // the results, each as text, joined by "|"
};

static inline int runner_show(lua_State *L) {
  char *shown = lua_touserdata(L, 1);
  size_t used = 0, room = sizeof((struct outcome *)0)->shown;
  for (int i = 2; i <= lua_gettop(L); i++) {
    struct script_quantity quantity;
    const char *words = luaL_typename(L, i);
    char number[64];
    if (lua_type(L, i) == LUA_TSTRING) words = lua_tostring(L, i);
    if (lua_type(L, i) == LUA_TBOOLEAN) words = lua_toboolean(L, i) ? "true" : "false";
    if (lua_type(L, i) == LUA_TNUMBER || script_to_quantity(L, i)) {
      script_read_quantity(L, i, &quantity);
      snprintf(number, sizeof number, "%.10g", quantity.value);
      words = number;
    }
    int length = snprintf(shown + used, room - used, "%s%s", i > 2 ? "|" : "", words);
    used = used + (size_t)length < room ? used + (size_t)length : room - 1;
  }
  return 0;
}

static inline int runner_environment(lua_State *L) {
  script_push_environment(L);
  script_freeze_environment(L, -1);
  return 1;
}

static inline void runner_run(struct script *script, const char *text, size_t length, uint64_t instructions,
                              struct outcome *outcome) {
  lua_State *L = script_lua(script);
  int top = lua_gettop(L);
  *outcome = (struct outcome){.failure = {.kind = SCRIPT_FINE}};
  if (script_protect(script, runner_environment, NULL, 0, 1, &outcome->failure) &&
      script_load(script, "a design.lua", text, length, &outcome->failure) &&
      script_call(script, 0, LUA_MULTRET, instructions, &outcome->failure)) {
    struct script_failure showing;
    script_protect(script, runner_show, outcome->shown, lua_gettop(L) - top, 0, &showing);
  }
  assert_int_equal(lua_gettop(L), top);
}

static inline struct outcome runner_with(struct script_owner owner, const char *text) {
  struct outcome outcome;
  struct script *script = script_new((struct script_budget){0}, owner);
  assert_non_null(script);
  runner_run(script, text, strlen(text), 1000000, &outcome);
  snprintf(outcome.file, sizeof outcome.file, "%s", outcome.failure.file ? outcome.failure.file : "");
  outcome.failure.file = NULL;
  script_free(script);
  return outcome;
}

static inline struct outcome run_rules(const char *text) {
  return runner_with((struct script_owner){.profile = SCRIPT_RULES}, text);
}

static inline void gives(const char *text, const char *shown) {
  struct outcome outcome = run_rules(text);
  if (outcome.failure.kind != SCRIPT_FINE) print_error("%s: %s\n", text, outcome.failure.said);
  assert_int_equal(outcome.failure.kind, SCRIPT_FINE);
  assert_string_equal(outcome.shown, shown);
}

static inline void fails(const char *text, enum script_failing kind, const char *said) {
  struct outcome outcome = run_rules(text);
  if (outcome.failure.kind != kind) print_error("%s: %s %s\n", text, outcome.failure.said, outcome.shown);
  assert_int_equal(outcome.failure.kind, kind);
  assert_string_equal(outcome.failure.said, said);
}

#endif
