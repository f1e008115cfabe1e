// SPDX-License-Identifier: MIT
// Test vectors of FNV-1a, 64 bits, from the algorithm's authors' own test suite (test_fnv.c; from memory).
#include "base/digest.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static void test_published_vectors(void **state) {
  (void)state;
  static const struct {
    const char *bytes, *digest;
  } vectors[] = {{"", "cbf29ce484222325"}, {"a", "af63dc4c8601ec8c"}, {"foobar", "85944171f73967e8"}};
  struct arena *arena = arena_new();
  for (size_t i = 0; i < sizeof vectors / sizeof *vectors; i++) {
    uint64_t digest = digest_add(digest_begin(), vectors[i].bytes, strlen(vectors[i].bytes));
    assert_string_equal(digest_words(arena, digest), vectors[i].digest);
  }
  arena_free(arena);
}

static void test_pieces_make_the_whole(void **state) {
  (void)state;
  uint64_t whole = digest_add(digest_begin(), "foobar", 6);
  uint64_t pieces = digest_add(digest_add(digest_begin(), "foo", 3), "bar", 3);
  assert_true(whole == pieces);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(test_published_vectors),
      cmocka_unit_test(test_pieces_make_the_whole),
  };
  return cmocka_run_group_tests_name("base/digest", tests, NULL, NULL);
}
