// SPDX-License-Identifier: MIT
#include "rulebook/coverage.h"

#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "rulebook/limits.h"
#include "script/lines.h"

// ---- limits that are read ------------------------------------------------------------------------------------------

// Upvalues: the coverage, the table behind.
static int read_watched(lua_State *L) {
  const struct coverage *coverage = lua_touserdata(L, lua_upvalueindex(1));
  const struct limits *limits = &coverage->rule->own;
  const char *name = lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "";
  for (size_t i = 0; i < limits->count; i++) {
    if (strcmp(limits->list[i].name, name) == 0) coverage->limit_read[i] = true;
  }
  lua_gettable(L, lua_upvalueindex(2));
  return 1;
}

// Who walks them all has read them all.
static int walk_watched(lua_State *L) {
  const struct coverage *coverage = lua_touserdata(L, lua_upvalueindex(1));
  for (size_t i = 0; i < coverage->rule->own.count; i++) coverage->limit_read[i] = true;
  luaL_getmetafield(L, lua_upvalueindex(2), "__pairs");
  lua_pushvalue(L, lua_upvalueindex(2));
  lua_call(L, 1, 3);
  return 3;
}

// Puts a table in front of that of the limits, which says what is read of it.
static int make_watched(lua_State *L) {
  struct coverage *coverage = lua_touserdata(L, 1);
  static const luaL_Reg answers[] = {{"__index", read_watched}, {"__pairs", walk_watched}};
  static const char *const same[] = {"__newindex", "__len"};
  lua_rawgeti(L, LUA_REGISTRYINDEX, coverage->limit_table);
  lua_newtable(L);
  lua_newtable(L);  // behind, in front, its answers
  for (size_t i = 0; i < sizeof answers / sizeof *answers; i++) {
    lua_pushlightuserdata(L, coverage);
    lua_pushvalue(L, -4);
    lua_pushcclosure(L, answers[i].func, 2);
    lua_setfield(L, -2, answers[i].name);
  }
  for (size_t i = 0; i < sizeof same / sizeof *same; i++) {
    luaL_getmetafield(L, -3, same[i]);
    lua_setfield(L, -2, same[i]);
  }
  lua_setmetatable(L, -2);
  lua_rawseti(L, LUA_REGISTRYINDEX, coverage->limit_table);
  return 0;
}

static void watch_limits(struct rulebook *book, struct coverage *coverage) {
  struct script_failure failure;
  coverage->limit_table = limits_push_table(book, &coverage->rule->own);
  if (coverage->limit_table == NO_REF || script_protect(book->script, make_watched, coverage, 0, 0, &failure)) return;
  if (script_starved(book->script)) arena_give_up(book->arena);
}

// ---- lines ---------------------------------------------------------------------------------------------------------

static bool is_line(const struct coverage *coverage, int line) { return line > 0 && line <= coverage->line_count; }

static bool is_here(const struct coverage *coverage, const char *path) {
  return strcmp(coverage->rule->file->name, path) == 0;
}

static void can_run(void *with, int line) {
  struct coverage *coverage = with;
  if (is_line(coverage, line)) coverage->can[line] = true;
}

static void ran(void *with, const char *path, int line) {
  struct coverage *coverage = with;
  if (is_here(coverage, path) && is_line(coverage, line)) coverage->ran[line] = true;
}

// Only functions within those of the rule: a rule keeps nothing else. Past the most, further ones are not followed.
static bool begun(void *with, const char *path, int first, int last) {
  struct coverage *coverage = with;
  if (!is_here(coverage, path)) return false;
  for (size_t i = 0; i < coverage->function_count; i++) {
    if (coverage->functions[i].first == first && coverage->functions[i].last == last) return false;
  }
  if (coverage->function_count == COVERAGE_FUNCTIONS) return false;
  coverage->functions[coverage->function_count++] = (struct function_lines){first, last};
  return true;
}

static struct script_lines lines_of(struct coverage *coverage) {
  return (struct script_lines){.begun = begun, .can_run = can_run, .ran = ran, .with = coverage};
}

struct adding {
  struct coverage *coverage;
  int function;
};

static int add_lines(lua_State *L) {
  struct adding *adding = lua_touserdata(L, 1);
  struct coverage *coverage = adding->coverage;
  struct function_lines *lines = &coverage->functions[coverage->function_count++];
  lua_rawgeti(L, LUA_REGISTRYINDEX, adding->function);
  script_function_lines(L, -1, lines_of(coverage), &lines->first, &lines->last);
  return 0;
}

static void add_function(struct rulebook *book, struct coverage *coverage, int function) {
  struct adding adding = {coverage, function};
  struct script_failure failure;
  if (function == NO_REF || script_protect(book->script, add_lines, &adding, 0, 0, &failure)) return;
  if (script_starved(book->script)) arena_give_up(book->arena);
}

static int count_lines(const struct file_bytes *file) {
  int count = 1;
  for (size_t i = 0; i < file->length; i++) count += file->bytes[i] == '\n';
  return count;
}

// ---- both ----------------------------------------------------------------------------------------------------------

struct coverage *coverage_of(struct rulebook *book, const struct rule *rule) {
  struct coverage *coverage = arena_alloc(book->arena, sizeof *coverage);
  coverage->rule = rule;
  coverage->line_count = count_lines(&rule->file->bytes);
  coverage->can = arena_array(book->arena, (size_t)coverage->line_count + 1, sizeof *coverage->can);
  coverage->ran = arena_array(book->arena, (size_t)coverage->line_count + 1, sizeof *coverage->ran);
  coverage->limit_read = arena_array(book->arena, rule->own.count + 1, sizeof *coverage->limit_read);
  coverage->limit_table = NO_REF;
  if (rule->limit_own != NO_REF) watch_limits(book, coverage);
  add_function(book, coverage, rule->when_function);
  add_function(book, coverage, rule->check);
  add_function(book, coverage, rule->fix);
  return coverage;
}

void coverage_begin(struct rulebook *book, struct coverage *coverage) {
  script_watch_lines(book->script, lines_of(coverage));
}

void coverage_end(struct rulebook *book) { script_watch_lines(book->script, (struct script_lines){0}); }
