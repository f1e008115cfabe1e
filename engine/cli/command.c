// SPDX-License-Identifier: MIT
#include "cli/command.h"

#include <string.h>

const struct command commands[] = {
#define COMMAND(name, id, operands, least, most, options, says, more) \
  {name, says, more, {HAS(help) | (options), least, most, operands}, command_##id},
#include "cli/commands.def"
#undef COMMAND
};
const size_t commands_count = sizeof commands / sizeof *commands;

enum { COMMANDS = sizeof commands / sizeof *commands };

const struct command *command_find(const char *name) {
  for (size_t i = 0; i < commands_count; i++) {
    if (strcmp(commands[i].name, name) == 0) return &commands[i];
  }
  return NULL;
}

const char *command_nearest(const char *name) {
  const char *names[COMMANDS];
  for (size_t i = 0; i < commands_count; i++) names[i] = commands[i].name;
  return text_nearest(name, names, commands_count);
}

static void write_paragraphs(struct text *text, const char *words) {
  while (*words) {
    size_t length = strcspn(words, "\n");
    text_wrap(text, arena_copy(text->arena, words, length), 0, 80);
    text_add(text, "\n");
    words += length + (words[length] != '\0');
  }
}

static void help_on(struct text *text, const struct command *command) {
  text_printf(text, "Usage: forebay %s [OPTION]...%s%s\n\n", command->name, command->accepts.most ? " " : "",
              command->accepts.operands);
  write_paragraphs(text, command->more);
  text_add(text, "\nOptions:\n");
  options_write(text, command->accepts.options);
}

static void help_on_all(struct text *text) {
  text_add(text,
           "Usage: forebay COMMAND [OPTION]... [OPERAND]...\n\n"
           "forebay reviews the design of a recirculating water feature before anyone digs.\n\n"
           "Commands:\n");
  for (size_t i = 0; i < commands_count; i++) text_printf(text, "  %-10s %s\n", commands[i].name, commands[i].says);
  text_add(text,
           "\n'forebay COMMAND --help' lists the options of a command.\n\n"
           "Exit status: 0 nothing is held; 1 something is held; 2 a design, a rule, the\n"
           "command line or the output could not be used, or a rule is broken; 3 an internal\n"
           "fault. The higher wins.\n\n"
           "Environment: FOREBAY_RULES names the folder of the trade rules in place of the\n"
           "shipped ones; NO_COLOR keeps colours away.\n");
}

void command_describe(struct text *text, const struct command *command) {
  if (command) {
    help_on(text, command);
  } else {
    help_on_all(text);
  }
}
