// SPDX-License-Identifier: MIT
// One sealed Lua 5.4 state: a short list of words, a budget of instructions, a ceiling of memory.
// Nothing that runs in it reaches a file, the clock, an address, chance, or another error than its own.
#ifndef FOREBAY_SCRIPT_STATE_H
#define FOREBAY_SCRIPT_STATE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/problem.h"
#include "units/unit.h"

typedef struct lua_State lua_State;
struct script;

struct script_budget {
  size_t memory;      // bytes that the state may hold; 0: 64 MiB. One block may have a 16th of it
  size_t file_bytes;  // longest text that script_load takes; 0: 1 MiB
};

// SCRIPT_DATA, design files: q ipairs pairs tostring, string.format, table.insert and concat, arithmetic.
// SCRIPT_RULES: also type tonumber select, math, more of string and table.
enum script_profile { SCRIPT_DATA, SCRIPT_RULES };

// A slip that reading may go on after: an unknown name, a text that q cannot read, a global set without `local`.
struct script_slip {
  struct place at;
  const char *said, *read, *right;  // as in struct problem; live during the call alone
};

struct script_owner {
  enum script_profile profile;
  enum unit_system units;  // how tostring shows a quantity
  // True: the slip was recorded and reading goes on with a stand-in. NULL or false: it is an error at that line.
  // Runs within arena_try(arena): when that runs out, the script stops (SCRIPT_STOPPED). Must not touch the Lua state.
  bool (*slipped)(void *with, const struct script_slip *slip);
  void *with;
  struct arena *arena;  // NULL: slipped does not allocate
};

struct script *script_new(struct script_budget budget, struct script_owner owner);  // NULL when there is no memory
void script_free(struct script *script);                                            // NULL is allowed

lua_State *script_lua(struct script *script);
struct script *script_of(lua_State *L);
size_t script_memory(const struct script *script);   // bytes held now
uint64_t script_spent(const struct script *script);  // instructions of all calls so far, in steps of the budget's count
// After a call that failed: the machine had no memory left, which is no fault of the text's. The budget has no part in
// it.
bool script_starved(const struct script *script);

// Every full userdata of the state begins with a tag, so that its sort is told without a look-up.
enum script_tag { SCRIPT_TAG_QUANTITY = 0x71, SCRIPT_TAG_FAILURE, SCRIPT_TAG_STAND_IN, SCRIPT_TAG_OWNER = 0x100 };
struct script_header {
  uint32_t tag;  // owners of further sorts count from SCRIPT_TAG_OWNER
};
void *script_tagged(lua_State *L, int index, uint32_t tag);  // the block, or NULL when it is anything else
// What stands for an unknown name after a slip: can be called, indexed, reckoned with; always gives itself.
bool script_is_stand_in(lua_State *L, int index);

// All below, and every lua_* call that allocates, run inside a script_call or script_protect (call.h).

// Pushes a new environment with the words of the profile. A frozen one refuses every assignment to a global.
void script_push_environment(lua_State *L);
void script_freeze_environment(lua_State *L, int index);
// Pops a value and makes it the word `name` of the environment, frozen or not.
void script_set_word(lua_State *L, int environment, const char *name);

// Takes instructions off the running budget: for work in C whose length the script chooses. Stops the script at 0.
void script_charge(lua_State *L, size_t instructions);
// Runs work(with) under arena_try; when the arena runs out the script stops. work raises no Lua error.
void script_in_arena(lua_State *L, struct arena *arena, void (*work)(void *with), void *with);

#endif
