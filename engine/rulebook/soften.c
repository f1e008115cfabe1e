// SPDX-License-Identifier: MIT
// On which side of a limit lies less safety.
#include <string.h>

#include "rulebook/decide.h"
#include "units/compare.h"

// The limit of this name and sense that is the first to bring a finding of at least this severity; NULL: none does.
static const struct limit *first_to_bring(const struct limits *limits, const struct limit *like,
                                          enum severity severity) {
  const struct limit *first = NULL;
  enum standing nearer = like->sense == SENSE_AT_LEAST ? STANDS_ABOVE : STANDS_BELOW;
  for (size_t i = 0; i < limits->count; i++) {
    const struct limit *limit = &limits->list[i];
    if (strcmp(limit->name, like->name) != 0 || limit->sense != like->sense || limit->severity < severity) continue;
    if (!first || compare(limit->value, first->value, 0) == nearer) first = limit;
  }
  return first;
}

static bool allows_word(const struct limit *limit, const char *word) {
  for (size_t i = 0; i < limit->word_count; i++) {
    if (strcmp(limit->words[i], word) == 0) return true;
  }
  return false;
}

static bool is_softer(const struct limit *had, const struct limit *with) {
  if (with->sense == SENSE_AT_LEAST) return compare(with->value, had->value, 0) == STANDS_BELOW;
  if (with->sense == SENSE_AT_MOST) return compare(with->value, had->value, 0) == STANDS_ABOVE;
  // What a check does with its limits is its own affair: another one may ask for less.
  if (with->sense == SENSE_MUST)
    return compare(with->value, had->value, 0) != STANDS_AT || !with->words != !had->words ||
           (with->words && strcmp(with->words[0], had->words[0]) != 0);
  for (size_t i = 0; i < with->word_count; i++) {
    if (!allows_word(had, with->words[i])) return true;
  }
  return false;
}

// A limit of a check by severities, each against its own: any that is another is its own affair.
static bool changes_check(const struct limits *had, const struct limit *with) {
  for (size_t i = 0; i < had->count; i++) {
    const struct limit *limit = &had->list[i];
    if (strcmp(limit->name, with->name) == 0 && limit->severity == with->severity && !is_softer(limit, with))
      return false;
  }
  return true;
}

bool limits_soften(const struct limits *had, const struct limits *with) {
  for (size_t i = 0; i < with->count; i++) {
    const struct limit *like = &with->list[i];
    if (like->sense == SENSE_MUST && like->by_severity && changes_check(had, like)) return true;
    for (int severity = SEVERITY_ADVISE; severity < SEVERITY_COUNT; severity++) {
      const struct limit *before = first_to_bring(had, like, (enum severity)severity);
      const struct limit *now = first_to_bring(with, like, (enum severity)severity);
      if (before && (!now || is_softer(before, now))) return true;
    }
  }
  return false;
}
