// SPDX-License-Identifier: MIT
// The commands, from commands.def; and what each is handed.
#ifndef FOREBAY_CLI_COMMAND_H
#define FOREBAY_CLI_COMMAND_H

#include <stddef.h>

#include "base/arena.h"
#include "cli/options.h"

enum status { STATUS_CLEAR, STATUS_HELD, STATUS_UNUSABLE, STATUS_FAULT };  // the higher wins

typedef int command_run(struct arena *arena, const struct settings *settings);  // returns the exit status

struct command {
  const char *name, *says, *more;
  struct options_of accepts;
  command_run *run;
};

#define COMMAND(name, id, operands, least, most, options, says, more) command_run command_##id;
#include "cli/commands.def"
#undef COMMAND

extern const struct command commands[];
extern const size_t commands_count;

const struct command *command_find(const char *name);                     // NULL: there is none
const char *command_nearest(const char *name);                            // NULL: none is near
void command_describe(struct text *text, const struct command *command);  // NULL: all of them

#endif
