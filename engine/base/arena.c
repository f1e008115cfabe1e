// SPDX-License-Identifier: MIT
#include "base/arena.h"

#include <setjmp.h>
#include <stdalign.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FIRST_BLOCK = 4096, LARGEST_STEP = 256 * 1024, FIRST_ROOM = 8 };

struct block {
  struct block *older;
  size_t size, used;
  alignas(max_align_t) char bytes[];
};

struct release {
  struct release *older;
  void (*release)(void *what);
  void *what;
};

struct attempt {
  struct attempt *outer;
  jmp_buf back;
};

struct arena {
  struct block *newest, *spare;  // spare: let go of by arena_release_to, for what comes next
  struct release *releases;
  struct attempt *innermost;
  size_t next_size;
};

// The one thread-local of the tree: it exists for tests, and is 0 in every other run.
static _Thread_local long fail_countdown = 0;

void arena_fail_nth(long n) { fail_countdown = n; }

void *arena_counted_realloc(void *old, size_t size) {
  if (fail_countdown > 0 && --fail_countdown == 0) return NULL;
  return realloc(old, size);
}

struct arena *arena_new(void) {
  struct arena *arena = arena_counted_realloc(NULL, sizeof *arena);
  if (!arena) return NULL;
  *arena = (struct arena){.next_size = FIRST_BLOCK};
  return arena;
}

void arena_free(struct arena *arena) {
  if (!arena) return;
  arena_release_to(arena, (struct arena_mark){0});
  free(arena->spare);
  free(arena);
}

struct arena_mark arena_mark(const struct arena *arena) {
  struct block *block = arena->newest;
  return (struct arena_mark){block, block ? block->used : 0, arena->releases};
}

// The larger of the two is kept: whoever marks and releases in turn asks the machine for memory once.
static void put_by(struct arena *arena, struct block *block) {
  struct block *smaller = block;
  if (!arena->spare || arena->spare->size < block->size) {
    smaller = arena->spare;
    arena->spare = block;
  }
  free(smaller);
}

void arena_release_to(struct arena *arena, struct arena_mark mark) {
  // Read the list anew each time: a release may register or allocate more.
  while (arena->releases != mark.releases) {
    struct release *last = arena->releases;
    arena->releases = last->older;
    last->release(last->what);
  }
  while (arena->newest != mark.block) {
    struct block *block = arena->newest;
    arena->newest = block->older;
    put_by(arena, block);
  }
  if (mark.block) mark.block->used = mark.used;
}

bool arena_try(struct arena *arena, void (*work)(void *with), void *with) {
  struct attempt attempt = {.outer = arena->innermost};
  arena->innermost = &attempt;
  if (setjmp(attempt.back) != 0) {
    arena->innermost = attempt.outer;
    return false;
  }
  work(with);
  arena->innermost = attempt.outer;
  return true;
}

_Noreturn void arena_give_up(struct arena *arena) {
  if (!arena->innermost) {
    fputs("forebay: out of memory outside any arena_try\n", stderr);
    abort();
  }
  longjmp(arena->innermost->back, 1);
}

static struct block *take_spare(struct arena *arena, size_t at_least) {
  struct block *block = arena->spare;
  if (!block || block->size < at_least) return NULL;
  arena->spare = NULL;
  *block = (struct block){.older = arena->newest, .size = block->size};
  return arena->newest = block;
}

static struct block *add_block(struct arena *arena, size_t at_least) {
  if (take_spare(arena, at_least)) return arena->newest;
  size_t size = at_least > arena->next_size ? at_least : arena->next_size;
  struct block *block = size > SIZE_MAX - sizeof *block ? NULL : arena_counted_realloc(NULL, sizeof *block + size);
  if (!block) arena_give_up(arena);
  *block = (struct block){.older = arena->newest, .size = size};
  arena->newest = block;
  if (arena->next_size < LARGEST_STEP) arena->next_size *= 2;
  return block;
}

void *arena_alloc(struct arena *arena, size_t size) {
  const size_t align = alignof(max_align_t);
  if (size > SIZE_MAX - align) arena_give_up(arena);
  size_t whole = size ? (size + align - 1) / align * align : align;
  struct block *block = arena->newest;
  if (!block || block->size - block->used < whole) block = add_block(arena, whole);
  char *at = block->bytes + block->used;
  block->used += whole;
  return memset(at, 0, whole);
}

void *arena_array(struct arena *arena, size_t count, size_t size) {
  if (size && count > SIZE_MAX / size) arena_give_up(arena);
  return arena_alloc(arena, count * size);
}

char *arena_copy(struct arena *arena, const char *bytes, size_t length) {
  if (length == SIZE_MAX) arena_give_up(arena);
  char *copy = arena_alloc(arena, length + 1);
  if (length) memcpy(copy, bytes, length);
  return copy;
}

const char *arena_words(struct arena *arena, const char *words) { return arena_copy(arena, words, strlen(words)); }

struct note_order {
  struct arena *arena;
  struct release **note;
};

static void make_note(void *with) {
  struct note_order *order = with;
  *order->note = arena_alloc(order->arena, sizeof **order->note);
}

// An attempt of its own, so that arena_at_free can let go of what it was handed when there is no memory to note it.
static bool try_release_note(struct arena *arena, struct release **note) {
  struct note_order order = {arena, note};
  return arena_try(arena, make_note, &order);
}

void arena_at_free(struct arena *arena, void (*release)(void *what), void *what) {
  struct release *note = NULL;
  if (!try_release_note(arena, &note)) {
    release(what);
    arena_give_up(arena);
  }
  *note = (struct release){.older = arena->releases, .release = release, .what = what};
  arena->releases = note;
}

void *arena_grow(struct arena *arena, void *array, size_t count, size_t *room, size_t size) {
  if (count < *room) return array;
  if (count > SIZE_MAX / 4) arena_give_up(arena);
  size_t more = count < FIRST_ROOM ? FIRST_ROOM : count * 2;
  void *grown = arena_array(arena, more, size);
  if (count) memcpy(grown, array, count * size);
  *room = more;
  return grown;
}
