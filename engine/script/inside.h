// SPDX-License-Identifier: MIT
// What the files of this folder share and nobody else includes.
#ifndef FOREBAY_SCRIPT_INSIDE_H
#define FOREBAY_SCRIPT_INSIDE_H

#include <lauxlib.h>
#include <lua.h>
#include <lualib.h>

#include "base/text.h"
#include "script/call.h"
#include "script/lines.h"
#include "script/state.h"

// The one error object of a state, made with it, so that raising allocates nothing.
struct failure_object {
  struct script_header header;
  struct script_failure failure;
};

struct script {
  lua_State *lua;
  struct script_budget budget;
  struct script_owner owner;
  size_t held;              // bytes that Lua holds
  uint64_t bytes_left;      // that the running call may still ask for
  uint64_t left;            // instructions that the running call has left
  uint64_t spent;           // by all calls that ended, those within others counted once more
  int period;               // instructions between two calls of the count hook
  bool refusing;            // realloc failed in the running call: it gets no more
  bool starved;             // since the last call began, the machine had no memory to give: see script_starved
  struct place refused_at;  // where the last block was refused
  struct arena *kept;       // chunk names
  struct arena *scratch;    // texts on their way into a buffer; renewed now and then
  int scratch_uses;
  struct script_lines lines;  // that are told as they run
  struct chunk_name *chunk_names;
  struct failure_object *failing;
  int failing_ref, quantity_meta, stand_in_ref, words_ref;  // in the registry
};

struct chunk_name {
  struct chunk_name *older;
  const char *name;  // "@path"
};

// Texts.
void copy_words(char *to, size_t room, const char *from);  // cut between two characters of UTF-8 when too long
struct arena *scratch_arena(lua_State *L);
typedef void scratch_writer(struct text *text, const void *with);
void write_words(lua_State *L, char *to, size_t room, scratch_writer *write, const void *with);
const char *words_of_value(lua_State *L, int index, char *buffer, size_t room, size_t *length);  // as tostring

enum { HOOK_PERIOD = 1000 };
void arm_hook(struct script *script, uint64_t instructions);
void lines_hook(lua_State *L, lua_Debug *frame);
extern const char memory_used_up[];

struct failure_object *new_failure(lua_State *L, enum script_failing kind);
int raise_failure(lua_State *L);
const char *known_chunk(const struct script *script, const char *name);  // "@path" as kept, or NULL
int place_of_caller(lua_State *L, lua_Debug *frame);  // the innermost Lua frame's line; 0: there is none

// Opening.
struct word {
  const char *name;
  lua_CFunction work;  // NULL: Lua's own
  bool in_data;        // a design file has it too
};
extern const struct word string_words[], table_words[], math_words[];
int open_words(lua_State *L);  // for script_protect
void open_quantities(lua_State *L);
void open_stand_in(lua_State *L);
int word_q(lua_State *L);
int word_pairs(lua_State *L);
// A number, or the number of a ratio or count; anything else is a misuse: "a length cannot be " + doing.
double bare_number(lua_State *L, int index, const char *doing);
void push_number(lua_State *L, double value, bool whole);  // as an integer when whole and it fits

// Pushes a list of the keys of the table at index: numbers ascending, texts bytewise, then false, true.
void push_sorted_keys(lua_State *L, int index);
int compare_bytes(const char *a, size_t a_length, const char *b, size_t b_length);

void push_stand_in(lua_State *L);
// Gives the table at index a metatable that looks up in itself and treats other names as unknown ("math." before them).
void guard_words(lua_State *L, int index, const char *before);

#endif
