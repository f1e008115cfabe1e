// SPDX-License-Identifier: MIT
#include "script/lines.h"

#include "script/inside.h"

// Pops the table of lines that lua_getinfo made. A last line that only ends the function is run by falling off it.
static void tell_lines(lua_State *L, const lua_Debug *about, const struct script_lines *lines) {
  for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1)) {
    int line = (int)lua_tointeger(L, -2);
    if (line != about->lastlinedefined || about->linedefined == about->lastlinedefined)
      lines->can_run(lines->with, line);
  }
  lua_pop(L, 1);
}

void lines_hook(lua_State *L, lua_Debug *frame) {
  const struct script *script = script_of(L);
  const struct script_lines *lines = &script->lines;
  lua_getinfo(L, "Sl", frame);
  const char *name = known_chunk(script, frame->source);
  if (!name || frame->currentline <= 0) return;
  if (lines->begun(lines->with, name + 1, frame->linedefined, frame->lastlinedefined)) {
    lua_getinfo(L, "L", frame);
    tell_lines(L, frame, lines);
  }
  lines->ran(lines->with, name + 1, frame->currentline);
}

void script_watch_lines(struct script *script, struct script_lines lines) { script->lines = lines; }

void script_function_lines(lua_State *L, int index, struct script_lines lines, int *first, int *last) {
  lua_Debug about;
  lua_pushvalue(L, index);
  lua_getinfo(L, ">SL", &about);
  *first = about.linedefined;
  *last = about.lastlinedefined;
  tell_lines(L, &about, &lines);
}
