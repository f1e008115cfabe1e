// SPDX-License-Identifier: MIT
// Loading and calling: the only two doors into the state, and how a call can fail.
#ifndef FOREBAY_SCRIPT_CALL_H
#define FOREBAY_SCRIPT_CALL_H

#include "script/state.h"

enum script_failing {
  SCRIPT_FINE,
  SCRIPT_MISSING,  // a given is not there: `slot` says which
  SCRIPT_MISUSE,   // wrong dimension, unknown name ...: `said` and `right`
  SCRIPT_STOPPED,  // the budget of instructions or memory is used up, or calls without end
  SCRIPT_SYNTAX,   // the text is no Lua: plain words, Lua's own in `cause`
  SCRIPT_BROKEN    // anything else: Lua's own words in `said`
};

struct script_failure {
  enum script_failing kind;
  int slot;
  const char *file;  // as given to script_load, lives as long as the script; NULL: no Lua was running
  int line;
  char said[384], read[96], right[256], cause[384];  // "" for none
};

// What the failure is as a problem; borrows the failure's texts. `where` as in struct problem.
struct problem script_problem(const struct script_failure *failure, const char *where);

// As lua_pcall: the function and nargs arguments are on the stack and are popped; nresults (or LUA_MULTRET) pushed.
// False: nothing is pushed and *failure is filled in; the state can be used again. instructions 0: 10 million.
bool script_call(struct script *script, int nargs, int nresults, uint64_t instructions, struct script_failure *failure);

// Runs work in C under the same protection: work finds `with` by lua_touserdata(L, 1), then copies of the nargs
// values on the stack top, which are popped. What it returns is pushed, adjusted to nresults.
bool script_protect(struct script *script, int (*work)(lua_State *L), void *with, int nargs, int nresults,
                    struct script_failure *failure);

// Pops an environment and pushes the main function of a Lua text that runs in it. A byte order mark is skipped;
// compiled chunks and the name _ENV are refused. False: the environment is popped and nothing pushed. Call it outside
// any script_call.
bool script_load(struct script *script, const char *path, const char *bytes, size_t length,
                 struct script_failure *failure);

// For functions in C that scripts call. None returns; "return script_misuse(...)" reads well.
int script_raise_missing(lua_State *L, int slot);
// format as printf, without floating point. right: what would be right, or NULL.
int script_misuse(lua_State *L, const char *right, const char *format, ...) __attribute__((format(printf, 3, 4)));
int script_stop(lua_State *L, const char *said);

// Asks the owner first (struct script_owner): true when reading goes on, otherwise raises SCRIPT_MISUSE.
bool script_slip(lua_State *L, const char *said, const char *read, const char *right);

struct place script_place(lua_State *L);  // file and line of the innermost Lua function that runs

#endif
