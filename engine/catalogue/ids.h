// SPDX-License-Identifier: MIT
// Identifiers made from the rows: KIND_spill, ROW_spill_flow, WORDS_lip, WORD_lip_broad_stone, SOURCE_WEIR.
#ifndef FOREBAY_CATALOGUE_IDS_H
#define FOREBAY_CATALOGUE_IDS_H

#include <stdbool.h>
#include <stdint.h>

enum kind {
#define K(kind, ...) KIND_##kind,
#include "catalogue/kinds.def"
#undef K
  KIND_COUNT
};

// Sets of kinds, a bit for each.
_Static_assert(KIND_COUNT > 0 && KIND_COUNT <= 64, "a set of kinds has 64 bits");
#define KIND_BIT(kind) (UINT64_C(1) << KIND_##kind)
#define KIND_ANY (~UINT64_C(0) >> (64 - KIND_COUNT))
static inline uint64_t kind_bit(enum kind kind) { return UINT64_C(1) << kind; }
static inline bool kinds_hold(uint64_t kinds, enum kind kind) { return (kinds >> kind & 1) != 0; }

enum row_id {
#define G(kind, name, ...) ROW_##kind##_##name,
#define GD G
#define C G
#define T G
#define R G
#define RN G
#define RL G
#define P G
#define S G
#define B G
#define Q G
#define U G
#include "catalogue/rows.def"
  ROW_COUNT
};

enum word_set {
  WORDS_none,
// A set of its own for each that words.def names; tests/unit/catalogue holds the two lists against each other.
#define WS(set) WORDS_##set,
#include "catalogue/word_sets.def"
#undef WS
  WORD_SET_COUNT
};

enum word {
#define W(set, identifier, ...) WORD_##set##_##identifier,
#include "catalogue/words.def"
#undef W
  WORD_COUNT
};

enum source {
#define Z(identifier, ...) SOURCE_##identifier,
#include "catalogue/sources.def"
#undef Z
  SOURCE_COUNT
};

#endif
