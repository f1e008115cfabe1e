// SPDX-License-Identifier: MIT
// One project's description, read and checked.
#ifndef FOREBAY_DESIGN_H
#define FOREBAY_DESIGN_H

#include <stdbool.h>
#include <stddef.h>

#include "forebay/problems.h"
#include "forebay/rulebook.h"
#include "forebay/text.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef struct fb_design fb_design;

enum fb_units { FB_UNITS_AS_DESIGNED, FB_UNITS_US, FB_UNITS_SI };

// Reads a design written in Lua, or in JSON where the name ends in .json. NULL: it cannot be used; all that is wrong
// with it is in `problems`. beside: the CSV files that lie beside it (NULL with count 0: none), of which it may name
// one as its survey.
fb_design *fb_design_new(const struct fb_file *file, const struct fb_file *beside, size_t count, fb_problems *problems);

// A change that is tried without touching the file. where: `pump "main".speed`, `main.speed`, `lower.shelves[2].width`;
// text: as it would stand between quotes, "80 %". from: for messages, where it was said; NULL: "trial".
struct fb_trial {
  const char *where, *text, *from;
};

// What a design is read with, beside its own file; zero: nothing.
struct fb_reading {
  const struct fb_file *beside;  // as above
  size_t beside_count;
  const struct fb_trial *trials;
  size_t trial_count;
  // NULL, or the rulebook whose stock has prices and rates: they stand in where the design says none, as defaults.
  const fb_rulebook *stock_of;
};

// The same with trials. What cannot be tried (nothing of that name, worked out and not given, a value that does not
// fit) is in `problems`, and there is no design. Reports of it say what was tried.
fb_design *fb_design_with_new(const struct fb_file *file, const struct fb_reading *with, fb_problems *problems);

// The text of a design with other givens in it: comments, layout and quotes are kept, and what was not written is put
// behind the brace that opens its table. file: what the design was read from. NULL: it cannot be done (the file is
// another, a value is written in a loop or worked out there, or does not fit), and `problems` say at which line and
// why.
fb_text *fb_design_edit_new(const fb_design *design, const struct fb_file *file, const struct fb_trial *changes,
                            size_t count, fb_problems *problems);
void fb_design_free(fb_design *design);

// For a program that reads designs where it can ask the system for nothing more, like a sealed process: gives the JSON
// library, whose hashing is seeded once for the whole process, a fixed seed in place of one from the system. Call it
// before the first design is read, and only in a program of your own; no result depends on it.
void fb_fix_hash_seed(void);

// The working behind a value: what = `spill "left lip".flow`, `left lip.flow`, or `lower.depth`. NULL: no such entity
// or quantity, with the nearest in `problems`; what is found impossible on the way is there too, also beside a text.
// full: all of the working, back to what was written; else its upper levels.
fb_text *fb_explain_new(fb_design *design, const char *what, enum fb_units units, bool full, fb_problems *problems);

// The takeoff: what the design asks to be ordered, hauled, booked and handed over, as text of 80 columns. working: each
// line with its formula. NULL: no memory. What contradicts itself shows in `problems`, and its lines say so.
fb_text *fb_takeoff_new(fb_design *design, enum fb_units units, bool working, fb_problems *problems);

// All kinds of things, or one of them (kind not NULL): its givens, and what is worked out, how and after whom. NULL:
// there is no such kind, with the nearest in `problems`.
fb_text *fb_list_new(const char *kind, fb_problems *problems);

// What a design may say, for editors and other programs; rules: what a rule file may say and read.
enum fb_schema { FB_SCHEMA_JSON, FB_SCHEMA_LUA_DESIGNS, FB_SCHEMA_LUA_RULES };
fb_text *fb_schema_new(enum fb_schema schema);

// A commented design to start from.
const char *fb_starter_design(void);

#ifdef __cplusplus
}
#endif
#endif
