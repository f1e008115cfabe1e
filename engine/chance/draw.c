// SPDX-License-Identifier: MIT
#include "chance/draw.h"

#include <math.h>
#include <string.h>

#include "base/digest.h"

static const uint64_t GOLDEN = UINT64_C(0x9E3779B97F4A7C15);  // 2^64 over the golden ratio, odd

uint64_t draw_hash(const char *name) { return digest_add(digest_begin(), name, strlen(name)); }

static uint64_t mix(uint64_t z) {
  z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
  z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
  return z ^ (z >> 31);
}

uint64_t draw_bits(uint64_t key, uint64_t n) { return mix(key + (n + 1) * GOLDEN); }

// Mixed after each part, so that near seeds and near names lead to keys far apart.
uint64_t draw_key(uint64_t seed, const char *name, uint64_t stream) {
  return mix(draw_bits(draw_bits(seed, 0) ^ draw_hash(name), stream));
}

double draw_uniform(uint64_t key, uint64_t n) { return ldexp((double)(draw_bits(key, n) >> 11), -53); }
