// SPDX-License-Identifier: MIT
#include "chance/share.h"

#include <math.h>

// The 97.5 % point of the normal distribution.
static const double Z = 1.959963984540054;

struct share_band share_band(size_t count, size_t of) {
  if (of == 0 || count > of) return (struct share_band){0, 1};
  double n = (double)of, share = (double)count / n, z2 = Z * Z;
  double middle = (share + z2 / (2 * n)) / (1 + z2 / n);
  double half = Z / (1 + z2 / n) * sqrt(share * (1 - share) / n + z2 / (4 * n * n));
  return (struct share_band){.low = count == 0 ? 0 : fmax(0, middle - half),
                             .high = count == of ? 1 : fmin(1, middle + half)};
}
