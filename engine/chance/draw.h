// SPDX-License-Identifier: MIT
// Draws by key: the number drawn for a name depends on the seed, the name and the count alone, never on what else is
// drawn or in which order. So the work can be parted in any way, and a thing added to a design moves nothing.
//
// The key is the FNV-1a of the name (base/digest). The n-th draw is the n-th output
// of SplitMix64 begun at that key: Steele, Lea and Flood, "Fast Splittable Pseudorandom Number Generators", OOPSLA
// 2014, with the finaliser known as variant 13 (from memory).
#ifndef FOREBAY_CHANCE_DRAW_H
#define FOREBAY_CHANCE_DRAW_H

#include <stdint.h>

uint64_t draw_hash(const char *name);          // FNV-1a
uint64_t draw_bits(uint64_t key, uint64_t n);  // the n-th output, from 0, of SplitMix64 begun at key
uint64_t draw_key(uint64_t seed, const char *name, uint64_t stream);  // streams of one name know nothing of each other
double draw_uniform(uint64_t key, uint64_t n);                        // from 0 (inclusive) to 1 (exclusive), 53 bits

#endif
