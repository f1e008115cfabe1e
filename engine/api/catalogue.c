// SPDX-License-Identifier: MIT
#include "api/handles.h"
#include "report/list.h"
#include "report/schema.h"

struct listing {
  const char *kind;
  fb_problems *problems;
};

static bool list(struct text *text, void *with) {
  const struct listing *order = with;
  struct problems found = problems_in(text->arena);
  bool is_there = list_write(text, order->kind, &found);
  problems_hand_over(order->problems, &found);
  return is_there;
}

fb_text *fb_list_new(const char *kind, fb_problems *problems) {
  struct listing order = {kind, problems};
  return text_filled(NULL, list, &order, problems);
}

static bool write_schema(struct text *text, void *with) {
  static void (*const writers[])(struct text *) = {
      [FB_SCHEMA_JSON] = schema_json,
      [FB_SCHEMA_LUA_DESIGNS] = schema_designs,
      [FB_SCHEMA_LUA_RULES] = schema_rules,
  };
  writers[*(const enum fb_schema *)with](text);
  return true;
}

fb_text *fb_schema_new(enum fb_schema schema) { return text_filled(NULL, write_schema, &schema, NULL); }
