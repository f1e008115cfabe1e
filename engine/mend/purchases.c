// SPDX-License-Identifier: MIT
// Things to buy as candidates.
#include "mend/candidates_inside.h"

enum { MOST_SIZES = 6 };

void gather_purchases(struct gathering *g, int entity, enum row_id id, bool own) {
  const struct mend_row *row = mend_row(id);
  const char *now = store_at(g->base->store, entity, id)->text;
  if (!row || !now) return;
  for (int way = 1; way >= -1; way -= 2) {
    const char **texts = arena_array(g->m->arena, MOST_SIZES, sizeof *texts);
    size_t count = mend_row_sizes(g->m->arena, row->list, now, way, texts, MOST_SIZES);
    if (count == 0) continue;
    struct move move = {.entity = entity, .row = id, .way = way, .options = texts, .option_count = count};
    *gathering_add(g) = (struct candidate){.moves = {move}, .count = 1, .rank = row->rank, .own = own};
  }
}
