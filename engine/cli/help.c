// SPDX-License-Identifier: MIT
#include "cli/command.h"
#include "cli/deliver.h"

static int unknown(struct problems *problems, const char *name) {
  struct text said = text_in(problems->arena);
  const char *near = command_nearest(name);
  text_printf(&said, "unknown command \"%s\"", name);
  if (near) text_printf(&said, "; did you mean %s?", near);
  text_add(&said, " 'forebay help' lists the commands");
  problem_add(problems, (struct problem){.said = text_end(&said)});
  deliver_problems(problems);
  return STATUS_UNUSABLE;
}

int command_help(struct arena *arena, const struct settings *settings) {
  struct problems problems = problems_in(arena);
  struct text text = text_in(arena);
  const char *name = settings->operands.count > 0 ? settings->operands.at[0] : NULL;
  const struct command *command = name ? command_find(name) : NULL;
  if (name && !command) return unknown(&problems, name);
  command_describe(&text, command);
  bool done = deliver(&problems, NULL, false, &text);
  deliver_problems(&problems);
  return done ? STATUS_CLEAR : STATUS_UNUSABLE;
}
