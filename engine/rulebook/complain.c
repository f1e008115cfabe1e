// SPDX-License-Identifier: MIT
#include "rulebook/complain.h"

#include <string.h>

const char *rule_nearest(struct arena *arena, const char *written, const char *const *words, size_t count) {
  const char *nearest = text_nearest(written, words, count);
  return nearest ? text_phrase(arena, "`%s`, if that is meant", nearest) : NULL;
}

static void break_rule(struct rulebook *book, struct rule *rule, struct place at, const char *said) {
  if (rule->facts.broken) return;
  rule->facts.broken = text_phrase(book->arena, "%s:%d: %s", at.file, at.line, said);
}

void rule_complain(struct reading_rule *at, int line, const char *key, const char *said, const char *read,
                   const char *right) {
  struct problem problem = {.at = {at->file->name, line}, .said = said, .read = read, .right = right};
  problem.where = at->id ? text_phrase(at->arena, "%s \"%s\"%s%s", at->verb, at->id, key ? "." : "", key ? key : "")
                         : text_phrase(at->arena, "%s%s%s", at->verb, key ? "." : "", key ? key : "");
  problem_add(at->problems, problem);
  at->wrong = true;
  if (at->rule) break_rule(at->book, at->rule, problem.at, key ? text_phrase(at->arena, "%s: %s", key, said) : said);
}

static bool is_blank(char c) { return c == ' ' || c == '\n' || c == '\t' || c == '\r'; }

const char *rule_text(struct reading_rule *at, const struct value *value) {
  if (value->sort == VALUE_UNKNOWN) return at->wrong = true, NULL;
  const char *text = value->sort == VALUE_TEXT ? value->text : "";
  while (is_blank(*text)) text++;
  size_t length = strlen(text);
  while (length && is_blank(text[length - 1])) length--;
  if (length) return arena_copy(at->arena, text, length);
  bool empty = value->sort == VALUE_TEXT;
  rule_complain(at, value->line, value->key, empty ? "is empty" : "is not a text",
                empty ? NULL : value_shown(at->arena, value), "words in quotes");
  return NULL;
}
