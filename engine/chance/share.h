// SPDX-License-Identifier: MIT
// How well a share is known that was counted in draws: Wilson's score interval, 95 %.
// E. B. Wilson, "Probable inference, the law of succession, and statistical inference", JASA 22 (1927), from memory;
// held against scipy in the test.
#ifndef FOREBAY_CHANCE_SHARE_H
#define FOREBAY_CHANCE_SHARE_H

#include <stddef.h>

struct share_band {
  double low, high;  // within 0 to 1
};
struct share_band share_band(size_t count, size_t of);  // of 0: nothing is known, 0 to 1

#endif
