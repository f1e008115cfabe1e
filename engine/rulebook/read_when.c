// SPDX-License-Identifier: MIT
// `when` as data.
#include <string.h>

#include "rulebook/read_rule.h"
#include "units/read.h"

static const char *when_key(const struct reading_rule *at, const struct path *path) {
  return text_phrase(at->arena, "when.%s", path->text);
}

static bool read_threshold(struct reading_rule *at, struct requirement *requirement, const struct value *value) {
  struct text wrong = text_in(at->arena), right = text_in(at->arena);
  struct reading reading;
  bool bare = dimension_may_be_bare(requirement->path.dimension);
  const char *text = value_shown(at->arena, value), *key = when_key(at, &requirement->path);
  if (value->sort != VALUE_TEXT && !(value->sort == VALUE_NUMBER && bare)) {
    rule_complain(at, value->line, key, value->sort == VALUE_NUMBER ? "has no unit" : "is not a value in quotes", text,
                  text_phrase(at->arena, "a text with its unit, such as \"%s\"",
                              dimension_row(requirement->path.dimension)->example));
    return false;
  }
  bool read = unit_read(text, strlen(text), requirement->path.dimension, &reading, &wrong, &right);
  if (!read) rule_complain(at, value->line, key, text_end(&wrong), text, right.length ? text_end(&right) : NULL);
  requirement->bound = reading.value;
  requirement->text = text;
  return read;
}

static struct requirement *add_requirement(struct reading_rule *at, struct rule *rule, size_t *room,
                                           const struct path *path, int line) {
  rule->when = arena_grow(at->arena, rule->when, rule->when_count, room, sizeof *rule->when);
  struct requirement *requirement = &rule->when[rule->when_count++];
  *requirement = (struct requirement){.path = *path, .line = line};
  return requirement;
}

static void complain_of_when(struct reading_rule *at, const struct value *value, const struct path *path) {
  rule_complain(at, value->line, when_key(at, path), "is no requirement", value_shown(at->arena, value),
                path->sort == SORT_CHOICE ? "a word, or { one_of = { ... } }"
                                          : "{ at_least = \"...\" } or { at_most = \"...\" }");
}

static void read_value_when(struct reading_rule *at, struct rule *rule, size_t *room, const struct value *value,
                            const struct path *path) {
  for (const struct value *member = value->first; member; member = member->next) {
    bool least = member->key && strcmp(member->key, "at_least") == 0,
         most = member->key && strcmp(member->key, "at_most") == 0;
    if (!least && !most) {
      complain_of_when(at, value, path);
      continue;
    }
    struct requirement *requirement = add_requirement(at, rule, room, path, member->line);
    requirement->sort = least ? WHEN_AT_LEAST : WHEN_AT_MOST;
    read_threshold(at, requirement, member);
  }
  if (!value->first) complain_of_when(at, value, path);
}

static void read_word_when(struct reading_rule *at, struct rule *rule, size_t *room, const struct value *value,
                           const struct path *path) {
  const struct value *words = value->sort == VALUE_TABLE ? value_member(value, "one_of") : value;
  if (!words || (value->sort == VALUE_TABLE && value->count != 1) || (words != value && words->sort != VALUE_TABLE)) {
    complain_of_when(at, value, path);
    return;
  }
  struct requirement *requirement = add_requirement(at, rule, room, path, value->line);
  requirement->sort = WHEN_WORD;
  rule_read_words(at, &requirement->path, when_key(at, path), words, &requirement->words, &requirement->word_count);
}

void rule_read_when(struct reading_rule *at, struct rule *rule, const struct value *when) {
  size_t room = 0;
  if (when->sort != VALUE_TABLE || !when->first) {
    rule_complain(at, when->line, "when", "is neither a table nor a function", value_shown(at->arena, when),
                  "{ effect = \"sheet\" }");
    return;
  }
  for (const struct value *value = when->first; value; value = value->next) {
    struct path path = {0};
    const char *said, *right;
    if (!value->key) {
      rule_complain(at, value->line, "when", "a requirement has no name before it", value_shown(at->arena, value),
                    "effect = \"sheet\"");
    } else if (!path_read(&path, at->arena, value->key, rule->kinds, false, &said, &right)) {
      rule_complain(at, value->line, "when", said, value->key, right);
    } else if (value->sort == VALUE_UNKNOWN) {
      at->wrong = true;
    } else if (path.sort == SORT_CHOICE) {
      read_word_when(at, rule, &room, value, &path);
    } else if (path.sort == SORT_NUMBER && value->sort == VALUE_TABLE) {
      read_value_when(at, rule, &room, value, &path);
    } else {
      complain_of_when(at, value, &path);
    }
  }
}
