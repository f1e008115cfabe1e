// SPDX-License-Identifier: MIT
// A short name for bytes: equal bytes, equal digest. To tell files apart, not to trust them by.
#ifndef FOREBAY_BASE_DIGEST_H
#define FOREBAY_BASE_DIGEST_H

#include <stdint.h>

#include "base/arena.h"

uint64_t digest_begin(void);
uint64_t digest_add(uint64_t digest, const char *bytes, size_t length);
const char *digest_words(struct arena *arena, uint64_t digest);  // 16 hexadecimal digits

#endif
