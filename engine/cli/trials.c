// SPDX-License-Identifier: MIT
#include "cli/trials.h"

#include <string.h>

static const char *equals_sign(const char *words) {
  bool quoted = false;
  for (; *words; words++) {
    if (*words == '"') quoted = !quoted;
    if (*words == '=' && !quoted) return words;
  }
  return NULL;
}

static const char *trimmed(struct arena *arena, const char *from, const char *to) {
  while (from < to && *from == ' ') from++;
  while (to > from && to[-1] == ' ') to--;
  return arena_copy(arena, from, (size_t)(to - from));
}

// A value in quotes, as it stands in a file, is taken without them.
static const char *value_of(struct arena *arena, const char *from) {
  const char *value = trimmed(arena, from, from + strlen(from));
  size_t length = strlen(value);
  bool quoted = length >= 2 && value[0] == '"' && value[length - 1] == '"';
  return quoted ? arena_copy(arena, value + 1, length - 2) : value;
}

static bool read_one(struct fb_trial *trial, struct problems *problems, const char *words) {
  const char *equals = equals_sign(words);
  if (!equals) {
    problem_add(problems, (struct problem){.at = {.file = trial->from},
                                           .said = "does not say what is tried",
                                           .read = words,
                                           .right = "ENTITY.GIVEN=VALUE, such as --try 'pump \"main\".speed=80 %'"});
    return false;
  }
  trial->where = trimmed(problems->arena, words, equals);
  trial->text = value_of(problems->arena, equals + 1);
  return true;
}

bool trials_read(struct trials *trials, struct problems *problems, const struct words *words) {
  bool good = true;
  trials->list = arena_array(problems->arena, words->count + 1, sizeof *trials->list);
  trials->count = words->count;
  for (size_t i = 0; i < words->count; i++) {
    trials->list[i].from = words->count == 1 ? "--try" : text_phrase(problems->arena, "--try %zu", i + 1);
    good = read_one(&trials->list[i], problems, words->at[i]) && good;
  }
  return good;
}
