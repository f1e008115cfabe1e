// SPDX-License-Identifier: MIT
// The rows as editors and other programs read them.
#ifndef FOREBAY_REPORT_SCHEMA_H
#define FOREBAY_REPORT_SCHEMA_H

#include "base/text.h"

void schema_json(struct text *text);     // JSON Schema, draft 2020-12, of a design in JSON
void schema_designs(struct text *text);  // LuaCATS annotations for designs in Lua
void schema_rules(struct text *text);    // and for rule files: the entities as a rule sees them

#endif
