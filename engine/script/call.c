// SPDX-License-Identifier: MIT
#include "script/call.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "script/inside.h"

struct failure_object *new_failure(lua_State *L, enum script_failing kind) {
  struct failure_object *object = script_of(L)->failing;
  object->failure.kind = kind;
  object->failure.slot = -1;
  object->failure.file = NULL;
  object->failure.line = 0;
  object->failure.said[0] = object->failure.read[0] = object->failure.right[0] = object->failure.cause[0] = '\0';
  return object;
}

int raise_failure(lua_State *L) {
  lua_rawgeti(L, LUA_REGISTRYINDEX, script_of(L)->failing_ref);
  return lua_error(L);
}

const char *known_chunk(const struct script *script, const char *name) {
  for (const struct chunk_name *known = script->chunk_names; known; known = known->older)
    if (strcmp(known->name, name) == 0) return known->name;
  return NULL;
}

int place_of_caller(lua_State *L, lua_Debug *frame) {
  for (int level = 0; lua_getstack(L, level, frame); level++) {
    lua_getinfo(L, "Sl", frame);
    if (frame->currentline > 0) return frame->currentline;
  }
  return 0;
}

struct place script_place(lua_State *L) {
  lua_Debug frame;
  int line = place_of_caller(L, &frame);
  const char *name = line ? known_chunk(script_of(L), frame.source) : NULL;
  return (struct place){name ? name + 1 : NULL, line};
}

// Lua puts "short_src:line: " before its own words.
static const char *without_place(lua_State *L, const char *said) {
  lua_Debug frame;
  int line = place_of_caller(L, &frame);
  char before[LUA_IDSIZE + 16];
  int length = line ? snprintf(before, sizeof before, "%s:%d: ", frame.short_src, line) : 0;
  return length > 0 && strncmp(said, before, (size_t)length) == 0 ? said + length : said;
}

static void fill_from_words(lua_State *L, const char *said) {
  bool endless = strstr(said, "stack overflow") != NULL;
  struct failure_object *object = new_failure(L, endless ? SCRIPT_STOPPED : SCRIPT_BROKEN);
  copy_words(object->failure.said, sizeof object->failure.said,
             endless ? "a function calls itself without end" : without_place(L, said));
}

// The message handler: runs where the error was raised, while the frames are still there.
static int add_place(lua_State *L) {
  struct script *script = script_of(L);
  if (!script_tagged(L, 1, SCRIPT_TAG_FAILURE)) {
    if (!script->failing) return 1;  // the state is still being opened
    const char *said = lua_type(L, 1) == LUA_TSTRING ? lua_tostring(L, 1) : "an error without words";
    fill_from_words(L, said);
    lua_rawgeti(L, LUA_REGISTRYINDEX, script->failing_ref);
    lua_replace(L, 1);
  }
  struct script_failure *failure = &script->failing->failure;
  if (!failure->file) {
    struct place at = script_place(L);
    failure->file = at.file;
    failure->line = at.line;
  }
  lua_settop(L, 1);
  return 1;
}

static void fill_plain(struct script_failure *failure, enum script_failing kind, const char *said) {
  *failure = (struct script_failure){.kind = kind, .slot = -1};
  copy_words(failure->said, sizeof failure->said, said);
}

// LUA_ERRMEM carries a text and never sees the handler; LUA_ERRERR is an error within it.
static void take_failure(lua_State *L, int status, struct script_failure *failure) {
  struct place refused_at = script_of(L)->refused_at;
  const struct failure_object *object = script_tagged(L, -1, SCRIPT_TAG_FAILURE);
  if (object)
    *failure = object->failure;
  else if (status == LUA_ERRMEM) {
    fill_plain(failure, SCRIPT_STOPPED, memory_used_up);
    failure->file = refused_at.file;
    failure->line = refused_at.line;
  } else if (status == LUA_ERRERR)
    fill_plain(failure, SCRIPT_STOPPED, "a function calls itself without end");
  else
    fill_plain(failure, SCRIPT_BROKEN, lua_type(L, -1) == LUA_TSTRING ? lua_tostring(L, -1) : "an error without words");
}

struct spent {
  uint64_t left, bytes_left;
};

// A call within a call: what it used is used up for the outer one too, as far as that had it.
static void settle(struct script *script, struct spent before, struct spent given) {
  uint64_t used = given.left - script->left, bytes = given.bytes_left - script->bytes_left;
  script->spent += used;
  script->left = before.left > used ? before.left - used : 0;
  script->bytes_left = before.bytes_left > bytes ? before.bytes_left - bytes : 0;
  script->refusing = false;
}

bool script_call(struct script *script, int nargs, int nresults, uint64_t instructions,
                 struct script_failure *failure) {
  lua_State *L = script->lua;
  int base = lua_gettop(L) - nargs;
  failure->kind = SCRIPT_FINE;
  struct spent before = {script->left, script->bytes_left};
  arm_hook(script, instructions);
  struct spent given = {script->left, script->bytes_left};
  if (!lua_checkstack(L, 2)) {
    fill_plain(failure, SCRIPT_STOPPED, memory_used_up);
    lua_settop(L, base - 1);
    return false;
  }
  lua_pushcfunction(L, add_place);
  lua_insert(L, base);  // handler function arguments...
  int status = lua_pcall(L, nargs, nresults, base);
  settle(script, before, given);
  if (status == LUA_OK) {
    lua_remove(L, base);
    return true;
  }
  take_failure(L, status, failure);
  lua_settop(L, base - 1);
  return false;
}

bool script_protect(struct script *script, int (*work)(lua_State *L), void *with, int nargs, int nresults,
                    struct script_failure *failure) {
  lua_State *L = script->lua;
  if (!lua_checkstack(L, 4)) {
    fill_plain(failure, SCRIPT_STOPPED, memory_used_up);
    lua_pop(L, nargs);
    return false;
  }
  int first = lua_gettop(L) - nargs + 1;
  lua_pushcfunction(L, work);
  lua_insert(L, first);
  lua_pushlightuserdata(L, with);
  lua_insert(L, first + 1);
  return script_call(script, nargs + 1, nresults, 0, failure);
}

int script_raise_missing(lua_State *L, int slot) {
  new_failure(L, SCRIPT_MISSING)->failure.slot = slot;
  return raise_failure(L);
}

int script_misuse(lua_State *L, const char *right, const char *format, ...) {
  struct script_failure *failure = &new_failure(L, SCRIPT_MISUSE)->failure;
  char said[sizeof failure->said * 2];
  va_list parts;
  va_start(parts, format);
  vsnprintf(said, sizeof said, format, parts);
  va_end(parts);
  copy_words(failure->said, sizeof failure->said, said);
  if (right) copy_words(failure->right, sizeof failure->right, right);
  return raise_failure(L);
}

int script_stop(lua_State *L, const char *said) {
  struct script_failure *failure = &new_failure(L, SCRIPT_STOPPED)->failure;
  copy_words(failure->said, sizeof failure->said, said);
  return raise_failure(L);
}

struct slip_job {
  const struct script_owner *owner;
  struct script_slip slip;
  bool taken;
};

static void ask_owner(void *with) {
  struct slip_job *job = with;
  job->taken = job->owner->slipped(job->owner->with, &job->slip);
}

bool script_slip(lua_State *L, const char *said, const char *read, const char *right) {
  const struct script_owner *owner = &script_of(L)->owner;
  struct slip_job job = {owner, {script_place(L), said, read, right}, false};
  if (owner->slipped && owner->arena)
    script_in_arena(L, owner->arena, ask_owner, &job);
  else if (owner->slipped)
    ask_owner(&job);
  if (job.taken) return true;
  struct script_failure *failure = &new_failure(L, SCRIPT_MISUSE)->failure;
  copy_words(failure->said, sizeof failure->said, said);
  if (read) copy_words(failure->read, sizeof failure->read, read);
  if (right) copy_words(failure->right, sizeof failure->right, right);
  return raise_failure(L);
}

static const char *or_none(const char *words) { return *words ? words : NULL; }

struct problem script_problem(const struct script_failure *failure, const char *where) {
  return (struct problem){.at = {failure->file, failure->line},
                          .where = where,
                          .said = failure->said,
                          .read = or_none(failure->read),
                          .right = or_none(failure->right),
                          .cause = or_none(failure->cause)};
}
