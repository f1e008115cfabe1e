// SPDX-License-Identifier: MIT
#include "script/state.h"

#include <stdlib.h>
#include <string.h>

#include "script/inside.h"

enum { LARGEST_SHARE = 16, SMALLEST_LARGEST_BLOCK = 256 * 1024, BYTES_PER_INSTRUCTION = 64, VARARGS_MOST = 1000 };
enum { SCRATCH_USES_MOST = 64 };
static const size_t DEFAULT_MEMORY = (size_t)64 * 1024 * 1024, DEFAULT_FILE_BYTES = (size_t)1024 * 1024;
static const uint64_t DEFAULT_INSTRUCTIONS = 10000000;

const char memory_used_up[] =
    "a list, a text or a chain of calls grows beyond the memory that one file or rule may have";

static size_t largest_block(const struct script *script) {
  size_t share = script->budget.memory / LARGEST_SHARE;
  return share > SMALLEST_LARGEST_BLOCK ? share : SMALLEST_LARGEST_BLOCK;
}

// Bytes asked for in a call are bounded like instructions: joining long texts over and over costs time, not memory.
static bool has_room(struct script *script, size_t from, size_t to) {
  size_t more = to - from;
  if (script->refusing || to > largest_block(script)) return false;
  if (script->held > script->budget.memory || more > script->budget.memory - script->held) return false;
  if (more > script->bytes_left) return false;
  script->bytes_left -= more;
  return true;
}

// A memory error forgets its frames before anyone can look, so the place is noted here. Neither call allocates.
static void *refuse_block(struct script *script) {
  if (script->lua) script->refused_at = script_place(script->lua);
  return NULL;
}

// Lua takes a failed growth well (it collects, tries again, then raises); a failed shrinking is answered with the old
// block, which is large enough.
static void *allocate(void *with, void *old, size_t old_size, size_t size) {
  struct script *script = with;
  if (!old) old_size = 0;  // it told what the block is for
  if (size == 0) {
    free(old);
    script->held -= old_size;
    return NULL;
  }
  bool grows = size > old_size;
  if (grows && !has_room(script, old_size, size)) return refuse_block(script);
  void *block = arena_counted_realloc(old, size);
  if (!block) {
    script->refusing = script->starved = true;
    if (grows) return refuse_block(script);
    block = old;
  }
  script->held += size - old_size;
  return block;
}

static bool too_many_varargs(lua_State *L, lua_Debug *frame) {
  if (!lua_getlocal(L, frame, -VARARGS_MOST)) return false;
  lua_pop(L, 1);
  return true;
}

static void hook(lua_State *L, lua_Debug *frame) {
  if (frame->event == LUA_HOOKLINE) {
    lines_hook(L, frame);
    return;
  }
  script_charge(L, (size_t)script_of(L)->period);
  // Each call copies its ... : without this a tail call that adds one each time costs the square of its count.
  if (too_many_varargs(L, frame)) script_stop(L, "a function is called with more than 1,000 values");
}

void arm_hook(struct script *script, uint64_t instructions) {
  if (instructions == 0) instructions = DEFAULT_INSTRUCTIONS;
  script->left = instructions;
  uint64_t most = (UINT64_MAX - script->budget.memory) / BYTES_PER_INSTRUCTION;
  script->bytes_left = script->budget.memory + (instructions < most ? instructions : most) * BYTES_PER_INSTRUCTION;
  script->refusing = script->starved = false;
  script->period = instructions < HOOK_PERIOD ? (int)instructions : HOOK_PERIOD;
  lua_sethook(script->lua, hook, LUA_MASKCOUNT | (script->lines.ran ? LUA_MASKLINE : 0), script->period);
}

void script_charge(lua_State *L, size_t instructions) {
  struct script *script = script_of(L);
  if (instructions < script->left) {
    script->left -= instructions;
    return;
  }
  script->left = 0;
  script_stop(L, "it takes too many steps: a loop or a chain of calls does not end");
}

static bool start_lua(struct script *script) {
  script->lua = lua_newstate(allocate, script);
  if (!script->lua) return false;
  *(struct script **)lua_getextraspace(script->lua) = script;
  struct script_failure failure;
  return script_protect(script, open_words, NULL, 0, 0, &failure);
}

struct script *script_new(struct script_budget budget, struct script_owner owner) {
  struct script *script = arena_counted_realloc(NULL, sizeof *script);
  if (!script) return NULL;
  if (!budget.memory) budget.memory = DEFAULT_MEMORY;
  if (!budget.file_bytes) budget.file_bytes = DEFAULT_FILE_BYTES;
  *script = (struct script){.budget = budget, .owner = owner, .bytes_left = UINT64_MAX};
  script->kept = arena_new();
  if (script->kept && start_lua(script)) return script;
  script_free(script);
  return NULL;
}

void script_free(struct script *script) {
  if (!script) return;
  if (script->lua) lua_close(script->lua);
  arena_free(script->scratch);
  arena_free(script->kept);
  free(script);
}

lua_State *script_lua(struct script *script) { return script->lua; }

struct script *script_of(lua_State *L) {
  return *(struct script **)lua_getextraspace(L);
}

uint64_t script_spent(const struct script *script) { return script->spent; }

size_t script_memory(const struct script *script) { return script->held; }
bool script_starved(const struct script *script) { return script->starved; }

void *script_tagged(lua_State *L, int index, uint32_t tag) {
  if (lua_type(L, index) != LUA_TUSERDATA) return NULL;
  struct script_header *header = lua_touserdata(L, index);
  return header->tag == tag ? header : NULL;
}

void script_in_arena(lua_State *L, struct arena *arena, void (*work)(void *with), void *with) {
  if (arena_try(arena, work, with)) return;
  script_of(L)->starved = true;
  script_stop(L, memory_used_up);
}

// Renewed after some uses, because an arena only grows.
struct arena *scratch_arena(lua_State *L) {
  struct script *script = script_of(L);
  if (script->scratch_uses++ >= SCRATCH_USES_MOST) {
    arena_free(script->scratch);
    script->scratch = NULL;
    script->scratch_uses = 0;
  }
  if (!script->scratch) script->scratch = arena_new();
  if (!script->scratch) {
    script->starved = true;
    script_stop(L, memory_used_up);
  }
  return script->scratch;
}

struct scratch_job {
  struct text text;
  scratch_writer *write;
  const void *with;
};

static void do_write(void *with) {
  struct scratch_job *job = with;
  job->write(&job->text, job->with);
}

void write_words(lua_State *L, char *to, size_t room, scratch_writer *write, const void *with) {
  struct arena *arena = scratch_arena(L);
  struct scratch_job job = {text_in(arena), write, with};
  script_in_arena(L, arena, do_write, &job);
  copy_words(to, room, text_end(&job.text));
}

void copy_words(char *to, size_t room, const char *from) {
  size_t length = text_cut(from, strlen(from), room - 1);
  memcpy(to, from, length);
  to[length] = '\0';
}
