// SPDX-License-Identifier: MIT
#include <string.h>

#include "cli/command.h"
#include "cli/deliver.h"
#include "forebay/forebay.h"

static const char *const names[] = {
    [FB_SCHEMA_JSON] = "json", [FB_SCHEMA_LUA_DESIGNS] = "designs", [FB_SCHEMA_LUA_RULES] = "rules"};
enum { NAMES = sizeof names / sizeof *names };

static bool find(struct problems *problems, const char *asked, enum fb_schema *schema) {
  for (size_t i = 0; i < NAMES; i++) {
    if (strcmp(names[i], asked) != 0) continue;
    *schema = (enum fb_schema)i;
    return true;
  }
  problem_add(problems,
              (struct problem){.said = "there is no such schema", .read = asked, .right = "json, designs or rules"});
  return false;
}

static int write_schema(struct arena *arena, struct problems *problems, const char *output, enum fb_schema schema) {
  fb_text *made = fb_schema_new(schema);
  if (!made) return STATUS_FAULT;
  struct text text = text_in(arena);
  text_add_bytes(&text, fb_text_bytes(made), fb_text_length(made));
  fb_text_free(made);
  return deliver(problems, output, false, &text) ? STATUS_CLEAR : STATUS_UNUSABLE;
}

int command_schema(struct arena *arena, const struct settings *settings) {
  struct problems problems = problems_in(arena);
  enum fb_schema schema = FB_SCHEMA_JSON;
  int status = STATUS_UNUSABLE;
  const char *asked = settings->operands.count > 0 ? settings->operands.at[0] : "json";
  if (find(&problems, asked, &schema)) status = write_schema(arena, &problems, settings->output, schema);
  deliver_problems(&problems);
  return status;
}
