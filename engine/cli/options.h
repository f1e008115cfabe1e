// SPDX-License-Identifier: MIT
// The command line, read from two tables: options.def and commands.def.
#ifndef FOREBAY_CLI_OPTIONS_H
#define FOREBAY_CLI_OPTIONS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/text.h"

struct words {
  const char **at;
  size_t count;
};

enum fail_at { FAIL_AT_HOLD = 1, FAIL_AT_REVISE, FAIL_AT_ADVISE, FAIL_AT_UNANSWERED };
enum test_format { TEST_FORMAT_TEXT = 1, TEST_FORMAT_TAP };

// What was asked for. A choice is the place of its word from 1, in the order of options.c; 0: not given. units is an
// enum fb_units, fail_at an enum fail_at, stage one more than an enum fb_stage, format_ (of rule-test) an enum
// test_format.
struct settings {
  struct words operands, rules, try_;
  const char *output, *apply, *of, *samples, *seed, *jobs;
  int units, format, format_, fail_at, stage;
  bool help, version, without_house, without_fixes, short_, full, working, list, require_seal, check, rule;
};

enum option {
#define OPTION(field, letter, kind, value, words, says) OPTION_##field,
#include "cli/options.def"
#undef OPTION
  OPTIONS
};
_Static_assert(OPTIONS <= 32, "a set of options has 32 bits");
#define HAS(field) (1u << OPTION_##field)

struct options_of {      // what one command accepts
  unsigned options;      // HAS(...) of each
  size_t least, most;    // operands
  const char *operands;  // for messages: "DESIGN ENTITY.QUANTITY"
};

// argv[0] is the first word after the command. False: `wrong` says why, without a newline.
bool options_read(struct arena *arena, const struct options_of *of, int argc, char *const *argv,
                  struct settings *settings, struct text *wrong);

// The list of options for --help.
void options_write(struct text *text, unsigned options);

#endif
