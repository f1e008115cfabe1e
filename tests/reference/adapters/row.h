// SPDX-License-Identifier: MIT
// One row of a table and how an adapter asks it for its inputs. A missing, misspelt or unread input spoils the row.
// Included once, by reference_test.c.
#ifndef FOREBAY_REFERENCE_ROW_H
#define FOREBAY_REFERENCE_ROW_H

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

#include "unit.h"

enum { COLUMNS = 6, INPUTS = 16, PAIRS = 32 };

struct input {
  char *name, *text;
  bool read;
};

struct row {
  struct input inputs[INPUTS];
  size_t count;
  char fault[200];
};

struct pair {
  double x, y;
};

static void spoil(struct row *row, const char *what, const char *which) {
  if (!row->fault[0]) snprintf(row->fault, sizeof row->fault, "%s `%s`", what, which);
}

// "1.5:ft", "0.4"; NaN and a fault when it is not that
static double amount_of(struct row *row, const char *text) {
  char *end = NULL;
  const double number = strtod(text, &end);
  if (end == text) {
    spoil(row, "no number in", text);
    return NAN;
  }
  if (*end == '\0') return number;
  const struct unit *unit = *end == ':' ? unit_named(end + 1) : NULL;
  if (!unit) spoil(row, "no such unit in", text);
  return unit ? number * unit->factor + unit->offset : NAN;
}

static const char *text_in(struct row *row, const char *name) {
  for (size_t i = 0; i < row->count; i++) {
    if (strcmp(row->inputs[i].name, name) != 0) continue;
    row->inputs[i].read = true;
    return row->inputs[i].text;
  }
  spoil(row, "this row lacks the input", name);
  return "nan";
}

static double in(struct row *row, const char *name) { return amount_of(row, text_in(row, name)); }

// A word out of a list, as its place there.
static size_t word_in(struct row *row, const char *name, const char *const *words, size_t count) {
  const char *text = text_in(row, name);
  for (size_t i = 0; i < count; i++) {
    if (strcmp(words[i], text) == 0) return i;
  }
  spoil(row, "no such word", text);
  return 0;
}

// "0/25,10/24" with the units of `x` and `y` ("gpm/ft" style pairs are written "x_unit;y_unit" before a bar:
// "ft;ft|0/0,1/0")
static size_t pairs_in(struct row *row, const char *name, struct pair into[PAIRS]) {
  char text[400], *unit_x = text, *unit_y = NULL, *list = NULL;
  snprintf(text, sizeof text, "%s", text_in(row, name));
  if ((unit_y = strchr(text, ';')) && (list = strchr(unit_y, '|'))) *unit_y++ = *list++ = '\0';
  const struct unit *x = list ? unit_named(unit_x) : NULL, *y = list ? unit_named(unit_y) : NULL;
  size_t count = 0;
  for (char *next = list; x && y && next && count < PAIRS; count++) {
    char *slash = NULL, *end = NULL;
    into[count].x = strtod(next, &slash) * x->factor;
    if (*slash != '/') break;
    into[count].y = strtod(slash + 1, &end) * y->factor;
    if (end == slash + 1 || (*end && *end != ',')) break;
    next = *end ? end + 1 : NULL;
    if (!next) return count + 1;
  }
  spoil(row, "no list of pairs in", name);
  return 0;
}

#endif
