// SPDX-License-Identifier: MIT
// Memory. The one ownership rule of the tree:
//   memory belongs to an arena, or to a handle with one _free;
//   functions borrow what they are given;
//   nothing returned must be freed unless its function's name ends in _new.
//
// An allocation never returns NULL. When memory runs out, control goes back to the innermost arena_try of that arena,
// which returns false; what the arena holds is then released by arena_free, at_free calls included. Code between an
// arena_try and an allocation therefore owns nothing outside the arena.
#ifndef FOREBAY_BASE_ARENA_H
#define FOREBAY_BASE_ARENA_H

#include <stdbool.h>
#include <stddef.h>

struct arena;

struct arena *arena_new(void);         // NULL when there is no memory
void arena_free(struct arena *arena);  // NULL is allowed

// Runs work(with); true when it returned, false when memory ran out (or arena_give_up was called) on the way.
bool arena_try(struct arena *arena, void (*work)(void *with), void *with);
_Noreturn void arena_give_up(struct arena *arena);

void *arena_alloc(struct arena *arena, size_t size);  // zeroed, aligned for any object
void *arena_array(struct arena *arena, size_t count, size_t size);
char *arena_copy(struct arena *arena, const char *bytes, size_t length);  // adds a closing NUL
const char *arena_words(struct arena *arena, const char *words);          // copy of a NUL-ended text

// release(what) is called by arena_free, last registered first; at once when there is no memory to register it.
void arena_at_free(struct arena *arena, void (*release)(void *what), void *what);

// All that is allocated and registered after a mark is let go of together, at_free calls included, last first; what was
// there before stays as it is. An array that was grown after the mark goes too.
struct arena_mark {
  struct block *block;
  size_t used;
  struct release *releases;
};
struct arena_mark arena_mark(const struct arena *arena);
void arena_release_to(struct arena *arena, struct arena_mark mark);

// Room for one more element in a growing array of the arena: returns the (perhaps moved) array.
void *arena_grow(struct arena *arena, void *array, size_t count, size_t *room, size_t size);

// Test switch: the n-th allocation from now on this thread fails (0: none). Counts malloc calls made here, those of
// arena_counted_realloc (which the script allocator uses) too.
void arena_fail_nth(long n);
void *arena_counted_realloc(void *old, size_t size);

#endif
