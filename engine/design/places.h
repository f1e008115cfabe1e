// SPDX-License-Identifier: MIT
// Where each value stands in a design file: line and bytes, by the path that leads to it. Lua keeps no line for a field
// and jansson none for a value, so the text is scanned once more.
#ifndef FOREBAY_DESIGN_PLACES_H
#define FOREBAY_DESIGN_PLACES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/problem.h"

struct value_place {
  int line;           // where the value begins
  uint32_t from, to;  // its bytes
};

struct places;

// Lua: `kind "name" { ... }`, `kind { ... }` and what stands in their tables. A field given twice in one table is a
// problem at its second line. Places in a loop or function are not told apart: see places_find.
struct places *places_of_lua(struct arena *arena, const char *file, const char *bytes, size_t length,
                             struct problems *problems);
// The same for a rule file: `rule "name" { ... }`, `adjust "name" { ... }`, `retire "name" { ... }` and `stock { ...
// }`.
struct places *places_of_rules(struct arena *arena, const char *file, const char *bytes, size_t length,
                               struct problems *problems);
// JSON: the same for {"kind": {"name": {...}}}. It stops where the text is no JSON.
struct places *places_of_json(struct arena *arena, const char *file, const char *bytes, size_t length,
                              struct problems *problems);

// path: "depth", "shelves[2].width", "outline[1][2]", "" for the constructor itself. line: of the constructor (Lua; 0:
// any); name: as written, NULL for singles. False: not found, or written in a loop; then only the constructor's line
// holds.
bool places_find(const struct places *places, const char *kind, const char *name, int line, const char *path,
                 struct value_place *place);

#endif
