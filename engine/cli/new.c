// SPDX-License-Identifier: MIT
#define _XOPEN_SOURCE 700  // lstat
#include <string.h>
#include <sys/stat.h>

#include "cli/command.h"
#include "cli/deliver.h"
#include "forebay/forebay.h"

// A name as it stands between quotes in a design. False: it holds a control character.
static bool write_quoted(struct text *text, const char *name) {
  for (; *name; name++) {
    if ((unsigned char)*name < 0x20 || *name == 0x7f) return false;
    if (*name == '"' || *name == '\\') text_add_char(text, '\\');
    text_add_char(text, *name);
  }
  return true;
}

// The starter with another text in the first `name = "..."`, which is the project's.
static bool write_named(struct text *text, const char *starter, const char *name) {
  static const char given[] = "name = \"";
  const char *at = strstr(starter, given);
  const char *end = at ? strchr(at + sizeof given - 1, '"') : NULL;
  if (!end) return false;
  text_add_bytes(text, starter, (size_t)(at - starter) + sizeof given - 1);
  if (!write_quoted(text, name)) return false;
  text_add(text, end);
  return true;
}

static bool exists(struct problems *problems, const char *output) {
  struct stat status;
  if (!output || lstat(output, &status) != 0) return false;
  problem_add(problems, (struct problem){.at = {.file = output},
                                         .said = "this file is there already and is not written over",
                                         .right = "another name after -o"});
  return true;
}

static bool write_starter(struct problems *problems, const struct settings *settings, struct text *text) {
  const char *name = settings->operands.count > 0 ? settings->operands.at[0] : NULL;
  if (name && text_is_utf8(name, strlen(name)) && write_named(text, fb_starter_design(), name)) return true;
  if (!name) text_add(text, fb_starter_design());
  if (name)
    problem_add(problems, (struct problem){.said = "a project cannot have this name",
                                           .read = name,
                                           .right = "a name without control characters, in UTF-8"});
  return !name;
}

static void take_problems(struct problems *problems, const fb_problems *found) {
  for (size_t i = 0; i < fb_problems_count(found); i++) {
    const struct fb_problem *from = fb_problems_at(found, i);
    problem_add(problems, (struct problem){.said = from->said, .read = from->read, .right = from->right});
  }
}

static bool write_rules(struct problems *problems, const struct settings *settings, struct text *text) {
  const char *name = settings->operands.count > 0 ? settings->operands.at[0] : NULL;
  fb_problems *found = fb_problems_new();
  fb_text *rules = found ? fb_starter_rules_new(name, found) : NULL;
  if (rules) text_add_bytes(text, fb_text_bytes(rules), fb_text_length(rules));
  if (found) take_problems(problems, found);
  fb_text_free(rules);
  fb_problems_free(found);
  return rules != NULL;
}

int command_new(struct arena *arena, const struct settings *settings) {
  struct problems problems = problems_in(arena);
  struct text text = text_in(arena);
  bool written = settings->rule ? write_rules(&problems, settings, &text) : write_starter(&problems, settings, &text);
  bool done = written && !exists(&problems, settings->output) && deliver(&problems, settings->output, false, &text);
  deliver_problems(&problems);
  return done ? STATUS_CLEAR : STATUS_UNUSABLE;
}
