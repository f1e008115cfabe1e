// SPDX-License-Identifier: MIT
// From a quantity back to the givens it is worked out from, by the names in braces of the rows' formulas. Without a
// design: what stands in a formula, of whatever kind the way there may lead to.
#include <string.h>

#include "design/overlay.h"

enum { MOST_SHOWN = 4 };

struct origins {
  bool seen[ROW_COUNT];
  enum row_id waiting[ROW_COUNT];
  size_t first, count;
};

static void meet(struct origins *o, enum row_id row) {
  if (o->seen[row]) return;
  o->seen[row] = true;
  o->waiting[o->count++] = row;
}

static uint64_t kinds_behind(const struct row *row) {
  if (row->sort == SORT_REFERENCE || row->sort == SORT_REFERENCES) return row->targets;
  return row_is_list(row) ? kind_bit(row->part) : 0;
}

// One name of a path, in each kind that it may be of: gives the kinds behind it. last: the rows themselves are met.
static uint64_t step(struct origins *o, uint64_t kinds, const char *name, size_t length, bool last) {
  uint64_t behind = 0;
  for (int k = 0; k < KIND_COUNT; k++) {
    enum row_id row = kinds_hold(kinds, (enum kind)k) ? catalogue_row_named((enum kind)k, name, length) : ROW_COUNT;
    if (row == ROW_COUNT) continue;
    if (last) meet(o, row);
    behind |= kinds_behind(catalogue_row(row));
  }
  return behind;
}

static void follow(struct origins *o, enum kind from, const char *path, size_t length) {
  size_t word = strcspn(path, ".}");
  uint64_t kinds = kind_bit(from);
  if (catalogue_row_named(from, path, word) == ROW_COUNT) kinds = KIND_BIT(site);  // "{ground} of the site"
  for (size_t at = 0; at < length && kinds; at += word + 1) {
    word = strcspn(path + at, ".}");
    kinds = step(o, kinds, path + at, word, at + word >= length);
  }
}

static void read_formula(struct origins *o, enum row_id id) {
  const struct row *row = catalogue_row(id);
  for (const char *at = row->formula ? strchr(row->formula, '{') : NULL; at; at = strchr(at, '{')) {
    size_t length = strcspn(++at, "}");
    follow(o, row->kind, at, length);
  }
}

void overlay_write_origins(struct text *text, enum row_id quantity) {
  struct origins o = {0};
  o.seen[quantity] = true;
  int shown = 0;
  read_formula(&o, quantity);
  while (o.first < o.count && shown < MOST_SHOWN) {
    enum row_id id = o.waiting[o.first++];
    const struct row *row = catalogue_row(id);
    if (row->formula) read_formula(&o, id);
    // A list has many of a part's givens, and one of them alone says little.
    if ((row->sort != SORT_NUMBER && row->sort != SORT_CHOICE) || catalogue_kind(row->kind)->part) continue;
    text_printf(text, "%s%s.%s", shown++ ? " or " : "", catalogue_kind(row->kind)->name, row->name);
  }
}
