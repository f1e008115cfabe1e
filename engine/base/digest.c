// SPDX-License-Identifier: MIT
// FNV-1a, 64 bits, by Fowler, Noll and Vo (IETF draft-eastlake-fnv, from memory).
#include "base/digest.h"

uint64_t digest_begin(void) { return UINT64_C(0xcbf29ce484222325); }

uint64_t digest_add(uint64_t digest, const char *bytes, size_t length) {
  for (size_t i = 0; i < length; i++) {
    digest ^= (unsigned char)bytes[i];
    digest *= UINT64_C(0x100000001b3);
  }
  return digest;
}

const char *digest_words(struct arena *arena, uint64_t digest) {
  char words[16];
  for (int i = 15; i >= 0; i--, digest >>= 4) words[i] = "0123456789abcdef"[digest & 15];
  return arena_copy(arena, words, sizeof words);
}
