// SPDX-License-Identifier: MIT
// Which lines of a script are run, for tests of rules. Costs time at each line, so it is off unless asked for.
#ifndef FOREBAY_SCRIPT_LINES_H
#define FOREBAY_SCRIPT_LINES_H

#include "script/state.h"

// None of them touches the Lua state or allocates. path: as given to script_load.
struct script_lines {
  // A function that stands on lines first to last runs: true asks for its lines, which are told by can_run.
  bool (*begun)(void *with, const char *path, int first, int last);
  void (*can_run)(void *with, int line);
  void (*ran)(void *with, const char *path, int line);  // NULL: nothing is told
  void *with;
};
void script_watch_lines(struct script *script, struct script_lines lines);  // from the next script_call on

// Tells can_run of every line of the function at index that holds something to run. What stands in functions inside
// it, and its closing `end`, is left out. Runs inside of a script_protect.
void script_function_lines(lua_State *L, int index, struct script_lines lines, int *first, int *last);

#endif
