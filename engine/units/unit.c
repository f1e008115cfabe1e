// SPDX-License-Identifier: MIT
#include "units/unit.h"

#include <stdbool.h>
#include <string.h>

#include "units/exact.h"

#define PI 3.14159265358979323846
#define MINUTE 60.0
#define HOUR 3600.0
#define DAY 86400.0

static const struct unit units[] = {
#define U(word, spellings, dim, to_si, ...) \
  {.name = word, .also = spellings, .dimension = DIM_##dim, .factor = to_si, .decimals = __VA_ARGS__},
#include "units/unit.def"
#undef U
};

enum { UNIT_COUNT = sizeof units / sizeof *units };

const struct unit *unit_at(size_t index) { return index < UNIT_COUNT ? &units[index] : NULL; }

// The letter at name[*at], and *at moved past it: ^2 and ² count as 2.
static char letter_at(const char *name, size_t length, size_t *at) {
  static const struct {
    const char *written;
    char letter;
  } powers[] = {{"^2", '2'}, {"^3", '3'}, {"²", '2'}, {"³", '3'}};
  for (size_t i = 0; i < sizeof powers / sizeof *powers; i++) {
    if (length - *at < 2 || memcmp(name + *at, powers[i].written, 2) != 0) continue;
    *at += 2;
    return powers[i].letter;
  }
  return name[(*at)++];
}

// A spelling's _ stands for one space or more.
static bool same_spelling(const char *spelling, size_t spelling_length, const char *name, size_t length) {
  size_t at = 0;
  if (length > 0 && spelling_length > 0 && spelling[0] != name[0] && (unsigned char)name[0] < 0x80 && name[0] != '^') {
    return false;  // no power begins here, so the first letters must agree
  }
  for (size_t i = 0; i < spelling_length; i++) {
    char wanted = spelling[i] == '_' ? ' ' : spelling[i];
    if (at >= length || letter_at(name, length, &at) != wanted) return false;
    while (wanted == ' ' && at < length && name[at] == ' ') at++;
  }
  return at == length;
}

static bool is_also(const char *also, const char *name, size_t length) {
  while (*also) {
    size_t spelling = strcspn(also, " ");
    if (same_spelling(also, spelling, name, length)) return true;
    also += spelling;
    also += *also == ' ';
  }
  return false;
}

const struct unit *unit_named(const char *name, size_t length) {
  if (length == 0) return NULL;
  for (size_t i = 0; i < UNIT_COUNT; i++) {
    const char *own = units[i].name;
    if (same_spelling(own, strlen(own), name, length) || is_also(units[i].also, name, length)) return &units[i];
  }
  return NULL;
}

double unit_to_si(const struct unit *unit, double value) { return (value + unit->before) * unit->factor; }

double unit_from_si(const struct unit *unit, double value_si) { return value_si / unit->factor - unit->before; }
