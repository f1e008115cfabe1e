// SPDX-License-Identifier: MIT
// What the files behind store.h share: a problem with one given of one entity.
#ifndef FOREBAY_DESIGN_SETTLE_H
#define FOREBAY_DESIGN_SETTLE_H

#include "design/store.h"

struct complaint {
  int line;  // 0: the given's own, or the entity's where it is not written
  const char *said, *read, *right;
};
void store_complain(const struct store *store, struct problems *problems, int entity, enum row_id row,
                    struct complaint complaint);

// Names of one sort, for "did you mean". The lists live in the arena.
const char *store_nearest_entity(const struct store *store, const char *written, uint64_t targets);
const char *store_word_choices(struct arena *arena, enum word_set set);  // `"fenced", "adults" or "public"`
void store_write_targets(struct text *text, uint64_t targets);           // "the name of a spill or a basin"

#endif
