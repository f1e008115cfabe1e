// SPDX-License-Identifier: MIT
// Identifiers made from the rows: KIND_spill, ROW_spill_flow, WORDS_lip, WORD_lip_broad_stone, SOURCE_WEIR.
#ifndef FOREBAY_CATALOGUE_IDS_H
#define FOREBAY_CATALOGUE_IDS_H

#include <stdint.h>

enum kind {
#define K(kind, ...) KIND_##kind,
#include "catalogue/kinds.def"
#undef K
  KIND_COUNT
};

#define KIND_BIT(kind) (UINT64_C(1) << KIND_##kind)
#define KIND_ANY (~UINT64_C(0))

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
// One identifier a set: the first word of each set carries it (see catalogue.c for the check).
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
