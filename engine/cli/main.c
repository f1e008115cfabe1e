// SPDX-License-Identifier: MIT
// Execution path: main -> options_read -> command_<name> -> errand_finish -> worker_run -> (child) work -> frames ->
// deliver.
#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

#include "cli/command.h"
#include "cli/deliver.h"

struct call {
  struct arena *arena;
  int argc;
  char **argv;
  int status;
};

static int wrong_call(struct text *wrong, const struct command *command) {
  struct text line = text_in(wrong->arena);
  text_printf(&line, "forebay: %s\nforebay: 'forebay %s%s' says more\n", text_end(wrong),
              command ? command->name : "help", command ? " --help" : "");
  deliver_words(line.at, line.length);
  return STATUS_UNUSABLE;
}

static int call_command(struct call *call, const struct command *command) {
  struct settings settings;
  struct text wrong = text_in(call->arena);
  if (!options_read(call->arena, &command->accepts, call->argc - 2, call->argv + 2, &settings, &wrong)) {
    return wrong_call(&wrong, command);
  }
  if (!settings.help) return command->run(call->arena, &settings);
  const char *name = command->name;
  return command_help(call->arena, &(struct settings){.operands = {.at = &name, .count = 1}});
}

// forebay --help, forebay --version
static int call_itself(struct call *call) {
  const struct options_of accepts = {.options = HAS(help) | HAS(version)};
  struct settings settings;
  struct text wrong = text_in(call->arena);
  if (!options_read(call->arena, &accepts, call->argc - 1, call->argv + 1, &settings, &wrong)) {
    return wrong_call(&wrong, NULL);
  }
  return settings.version && !settings.help ? command_version(call->arena, &settings)
                                            : command_help(call->arena, &settings);
}

static int no_command(struct call *call) {
  struct text text = text_in(call->arena);
  command_describe(&text, NULL);
  deliver_words(text.at, text.length);
  return STATUS_UNUSABLE;
}

static void answer(void *with) {
  struct call *call = with;
  const char *first = call->argc > 1 ? call->argv[1] : NULL;
  const struct command *command = first ? command_find(first) : NULL;
  if (!first) {
    call->status = no_command(call);
  } else if (command) {
    call->status = call_command(call, command);
  } else if (first[0] == '-' && first[1]) {
    call->status = call_itself(call);
  } else {
    call->status = command_help(call->arena, &(struct settings){.operands = {.at = &first, .count = 1}});
  }
}

// A descriptor that the caller closed would be given to the next file that is opened. Standard output is opened for
// reading, so that writing to it fails and is reported.
static void open_standard(void) {
  for (int fd = STDIN_FILENO; fd <= STDERR_FILENO; fd++) {
    if (fcntl(fd, F_GETFD) < 0 && open("/dev/null", fd == STDERR_FILENO ? O_WRONLY : O_RDONLY) < 0) return;
  }
}

int main(int argc, char **argv) {
  open_standard();
  signal(SIGPIPE, SIG_IGN);  // a reader that went away is an output that cannot be written
  signal(SIGXFSZ, SIG_IGN);  // a file over its limit is an error of the write, which then takes back what it began
  signal(SIGCHLD, SIG_DFL);  // or the child's end could not be waited for
  struct call call = {.arena = arena_new(), .argc = argc, .argv = argv, .status = STATUS_FAULT};
  if (!call.arena || !arena_try(call.arena, answer, &call)) {
    static const char words[] = "forebay: memory ran out\n";
    deliver_words(words, sizeof words - 1);
    call.status = STATUS_FAULT;
  }
  arena_free(call.arena);
  return call.status;
}
