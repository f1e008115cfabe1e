// SPDX-License-Identifier: MIT
// Some thousands of spoilt designs: none may crash a reader, and none that is refused may be refused without a word.
// The same ones in every run.
#include <string.h>

#include "design/read.h"

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

enum { MOST_BYTES = 1 << 20, ROUNDS = 2000, MOST_CHANGES = 4 };

// Numerical Recipes' linear congruential constants; the high bits are used.
static uint32_t next(uint32_t *state, size_t below) {
  *state = *state * 1664525u + 1013904223u;
  return (uint32_t)((*state >> 8) % (below ? below : 1));
}

// Pieces that readers have something to do with.
static const char *const pieces[] = {
    "{",       "}",  "[",  "]",  "(",       ")",    "\"",       "'",     ",",        "=",   ":",   "\\",
    "\n",      "--", "[[", "]]", "nil",     "true", "null",     "-",     "1e9",      "end", "for", "function",
    "polygon", "q",  ".",  "..", "\\u0041", "\\z",  "\xC3\xA9", "basin", "measured", "0x",  "+/-", " "};

static size_t spoil(char *text, size_t length, size_t room, uint32_t *state) {
  size_t at = next(state, length), count = next(state, 12);
  if (count > length - at) count = length - at;
  const char *piece = pieces[next(state, sizeof pieces / sizeof *pieces)];
  size_t more = strlen(piece);
  switch (next(state, 4)) {
    case 0:  // take away
      memmove(text + at, text + at + count, length - at - count);
      return length - count;
    case 1:  // put in
      if (length + more > room) return length;
      memmove(text + at + more, text + at, length - at);
      memcpy(text + at, piece, more);
      return length + more;
    case 2:  // say again from elsewhere
      memmove(text + at, text + next(state, length - count + 1), count);
      return length;
    default:  // cut short, now and then; else one byte
      if (next(state, 8) == 0) return at;
      text[at] = (char)next(state, 128);
      return length;
  }
}

static void read_spoilt(const char *name, const struct file_bytes *sound, uint32_t *state) {
  struct arena *arena = arena_new();
  struct problems problems = problems_in(arena);
  size_t room = sound->length + 256, length = sound->length;
  char *text = memcpy(arena_alloc(arena, room), sound->bytes, length);
  for (uint32_t changes = 1 + next(state, MOST_CHANGES); changes > 0 && length > 0; changes--)
    length = spoil(text, length, room, state);
  struct file_bytes file = {name, arena_copy(arena, text, length), length};
  const struct store *store = design_read(arena, &file, &problems);
  assert_int_equal(store == NULL, problems.count > 0);
  for (size_t i = 0; i < problems.count; i++) assert_in_range(problems.list[i].at.line, 0, length + 1);
  arena_free(arena);
}

static void check(const char *path) {
  struct arena *arena = arena_new();
  struct problems problems = problems_in(arena);
  struct file_bytes sound;
  uint32_t state = 1;
  assert_int_equal(file_read(&problems, path, MOST_BYTES, &sound), true);
  for (int round = 0; round < ROUNDS; round++) read_spoilt(path, &sound, &state);
  arena_free(arena);
}

static void spoilt_lua_is_read_or_refused_with_words(void **state) {
  (void)state;
  check(FOREBAY_ROOT "/tests/designs/porch.lua");
}

static void spoilt_json_is_read_or_refused_with_words(void **state) {
  (void)state;
  check(FOREBAY_ROOT "/tests/designs/porch.json");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(spoilt_lua_is_read_or_refused_with_words),
      cmocka_unit_test(spoilt_json_is_read_or_refused_with_words),
  };
  return cmocka_run_group_tests_name("design/read_mutation", tests, NULL, NULL);
}
