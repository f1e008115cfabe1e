// SPDX-License-Identifier: MIT
#include "chance/sensitivity.h"

#include <math.h>

struct sums {
  double n, y, yy;      // of A and B together
  double first, total;  // of the products and of the squared differences
};

// Taken from their middle, results lose fewer digits and the first index has less noise.
static double middle_of(const double *a, const double *b, size_t n) {
  double sum = 0;
  for (size_t i = 0; i < n; i++) sum += a[i] + b[i];
  return sum / (2 * (double)n);
}

static void add(struct sums *sums, double a, double b, double ab) {
  sums->n += 1;
  sums->y += a + b;
  sums->yy += a * a + b * b;
  sums->first += b * (ab - a);
  sums->total += (a - ab) * (a - ab);
}

static struct sums without(const struct sums *all, const struct sums *batch) {
  return (struct sums){all->n - batch->n, all->y - batch->y, all->yy - batch->yy, all->first - batch->first,
                       all->total - batch->total};
}

static double variance(const struct sums *sums) {
  double mean = sums->y / (2 * sums->n);
  return sums->yy / (2 * sums->n) - mean * mean;
}

static double first_of(const struct sums *sums) { return sums->first / sums->n / variance(sums); }
static double total_of(const struct sums *sums) { return sums->total / (2 * sums->n) / variance(sums); }

// The 97.5 % point of Student's t with 15 degrees of freedom, one less than there are batches.
static const double T = 2.131449545559323;

static double band_of(double index(const struct sums *), const struct sums *all, const struct sums *batches) {
  double left_out[SENSITIVITY_BATCHES], mean = 0, squares = 0;
  for (int g = 0; g < SENSITIVITY_BATCHES; g++) {
    struct sums rest = without(all, &batches[g]);
    left_out[g] = index(&rest);
    mean += left_out[g] / SENSITIVITY_BATCHES;
  }
  for (int g = 0; g < SENSITIVITY_BATCHES; g++) squares += (left_out[g] - mean) * (left_out[g] - mean);
  return T * sqrt(squares * (SENSITIVITY_BATCHES - 1) / SENSITIVITY_BATCHES);
}

static struct sums sums_of(const struct sums *batches) {
  struct sums all = {0};
  for (int g = 0; g < SENSITIVITY_BATCHES; g++) {
    all.n += batches[g].n;
    all.y += batches[g].y;
    all.yy += batches[g].yy;
    all.first += batches[g].first;
    all.total += batches[g].total;
  }
  return all;
}

static bool all_alike(const double *a, const double *b, size_t n) {
  for (size_t i = 0; i < n; i++) {
    if (a[i] != a[0] || b[i] != a[0]) return false;
  }
  return true;
}

bool sensitivity_of(const double *a, const double *b, const double *ab, size_t n, struct sensitivity *found) {
  struct sums batches[SENSITIVITY_BATCHES] = {{0}};
  *found = (struct sensitivity){0};
  if (n < 2 * SENSITIVITY_BATCHES || all_alike(a, b, n)) return false;
  double middle = middle_of(a, b, n);
  for (size_t i = 0; i < n; i++) add(&batches[i % SENSITIVITY_BATCHES], a[i] - middle, b[i] - middle, ab[i] - middle);
  struct sums all = sums_of(batches);
  if (!(variance(&all) > 0)) return false;
  *found = (struct sensitivity){.first = first_of(&all),
                                .total = total_of(&all),
                                .first_band = band_of(first_of, &all, batches),
                                .total_band = band_of(total_of, &all, batches)};
  return true;
}
