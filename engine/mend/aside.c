// SPDX-License-Identifier: MIT
// Arenas for a short while. One that is in use when the lasting arena gives up is released with that.
#include "mend/mend_inside.h"

struct scratch_arenas {
  struct arena *arenas[MOST_ASIDE];
  size_t depth;
};

static void release(void *what) {
  struct scratch_arenas *aside = what;
  for (size_t i = 0; i < MOST_ASIDE; i++) {
    arena_free(aside->arenas[i]);
    aside->arenas[i] = NULL;
  }
}

static struct scratch_arenas *aside_of(struct mending *m) {
  if (m->aside) return m->aside;
  m->aside = arena_alloc(m->arena, sizeof *m->aside);
  arena_at_free(m->arena, release, m->aside);
  return m->aside;
}

void mending_aside(struct mending *m, void (*work)(void *with), void *with, struct arena **arena) {
  struct scratch_arenas *aside = aside_of(m);
  size_t at = aside->depth++;
  *arena = aside->arenas[at] = arena_new();
  bool done = *arena && arena_try(*arena, work, with);
  arena_free(*arena);
  aside->arenas[at] = NULL;
  aside->depth--;
  if (!done) arena_give_up(m->arena);
}
