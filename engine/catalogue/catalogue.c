// SPDX-License-Identifier: MIT
#include "catalogue/catalogue.h"

#include <string.h>

static const struct kind_row kinds[KIND_COUNT] = {
#define K(kind, ...) [KIND_##kind] = {.name = #kind, __VA_ARGS__},
#include "catalogue/kinds.def"
#undef K
};

#define ROW(kind_, name_, ...) [ROW_##kind_##_##name_] = {.kind = KIND_##kind_, .name = #name_, __VA_ARGS__},

static const struct row rows[ROW_COUNT] = {
#define G(kind, name, dim, ...) ROW(kind, name, .sort = SORT_NUMBER, .dimension = DIM_##dim, __VA_ARGS__)
#define GD(kind, name, dim, ...) \
  ROW(kind, name, .sort = SORT_NUMBER, .dimension = DIM_##dim, .derived = true, __VA_ARGS__)
#define C(kind, name, set, ...) ROW(kind, name, .sort = SORT_CHOICE, .words = WORDS_##set, __VA_ARGS__)
#define T(kind, name, ...) ROW(kind, name, .sort = SORT_TEXT, __VA_ARGS__)
#define R(kind, name, target, ...) ROW(kind, name, .sort = SORT_REFERENCE, .targets = KIND_BIT(target), __VA_ARGS__)
#define RN(kind, name, mask, ...) ROW(kind, name, .sort = SORT_REFERENCE, .targets = mask, __VA_ARGS__)
#define RL(kind, name, mask, ...) \
  ROW(kind, name, .sort = SORT_REFERENCES, .targets = mask, .part = KIND_link, __VA_ARGS__)
#define P(kind, name, part_, ...) ROW(kind, name, .sort = SORT_PARTS, .part = KIND_##part_, __VA_ARGS__)
#define S(kind, name, ...) ROW(kind, name, .sort = SORT_SHAPE, .words = WORDS_shape, .part = KIND_point, __VA_ARGS__)
#define B(kind, name, from, given) ROW(kind, name, .sort = SORT_BACK, .part = KIND_##from, .via = ROW_##from##_##given)
#define Q(kind, name, dim, ...) ROW(kind, name, .sort = SORT_QUANTITY, .dimension = DIM_##dim, __VA_ARGS__)
#define U(kind, name, bundle, ...) ROW(kind, name, .sort = SORT_BUNDLE, __VA_ARGS__)
#include "catalogue/rows.def"
};

static const struct word_row words[WORD_COUNT] = {
#define W(set_, identifier, word_, says_) \
  [WORD_##set_##_##identifier] = {.set = WORDS_##set_, .word = word_, .says = says_},
#include "catalogue/words.def"
#undef W
};

static const struct source_row sources[SOURCE_COUNT] = {
#define Z(identifier, title_, mark_) [SOURCE_##identifier] = {.title = title_, .mark = mark_},
#include "catalogue/sources.def"
#undef Z
};

const struct kind_row *catalogue_kind(enum kind kind) { return &kinds[kind]; }
const struct row *catalogue_row(enum row_id row) { return &rows[row]; }
const struct word_row *catalogue_word(enum word word) { return &words[word]; }
const struct source_row *catalogue_source(enum source source) { return &sources[source]; }

const char *catalogue_mark(enum mark mark) {
  static const char *const names[] = {
      [MARK_NONE] = "",
      [MARK_SEEN] = "seen",
      [MARK_SECOND] = "second hand",
      [MARK_COMPUTED] = "worked out",
      [MARK_MEMORY] = "from memory",
      [MARK_PRACTICE] = "common practice, no source",
  };
  return names[mark];
}

static bool same(const char *name, const char *written, size_t length) {
  return strlen(name) == length && memcmp(name, written, length) == 0;
}

enum kind catalogue_kind_named(const char *name, size_t length) {
  for (int k = 0; k < KIND_COUNT; k++) {
    if (same(kinds[k].name, name, length)) return (enum kind)k;
  }
  return KIND_COUNT;
}

enum row_id catalogue_row_named(enum kind kind, const char *name, size_t length) {
  for (int r = 0; r < ROW_COUNT; r++) {
    if (rows[r].kind == kind && same(rows[r].name, name, length)) return (enum row_id)r;
  }
  return ROW_COUNT;
}

enum word catalogue_word_named(enum word_set set, const char *word, size_t length) {
  for (int w = 0; w < WORD_COUNT; w++) {
    if (words[w].set == set && same(words[w].word, word, length)) return (enum word)w;
  }
  return WORD_COUNT;
}

void catalogue_write_kinds(struct text *text, uint64_t of, const char *between) {
  bool any = false;
  for (int k = 0; k < KIND_COUNT; k++) {
    if (!kinds_hold(of, (enum kind)k)) continue;
    if (any) text_add(text, between);
    text_add(text, catalogue_kind((enum kind)k)->name);
    any = true;
  }
}

const char *catalogue_nearest_row(struct arena *arena, uint64_t of, const char *written, bool quantities) {
  const char **names = arena_array(arena, ROW_COUNT, sizeof *names);
  size_t count = 0;
  for (int r = 0; r < ROW_COUNT; r++) {
    bool asked = quantities || row_is_given(&rows[r]);
    if (asked && kinds_hold(of, rows[r].kind)) names[count++] = rows[r].name;
  }
  return text_nearest(written, names, count);
}
