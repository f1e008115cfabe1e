// SPDX-License-Identifier: MIT
// What drives a result: shares of its variance.
//
// A and B are two independent draws of all factors, AB is A with one factor (or one group of them) taken from B.
// First index: the share that this factor makes by itself. Saltelli et al., "Variance based sensitivity analysis of
// model output", Computer Physics Communications 181 (2010), Table 2 (b). Total: the share that it has a part in, alone
// or together with others. Jansen, "Analysis of variance designs for model output", same journal, 117 (1999). Both from
// memory; the test holds them against indices that are known in closed form. Bands are 95 %, by leaving out one batch
// in sixteen at a time (the jackknife of Quenouille and Tukey over batches): it takes in the error of the variance
// below the line too, and needs no draws of its own.
#ifndef FOREBAY_CHANCE_SENSITIVITY_H
#define FOREBAY_CHANCE_SENSITIVITY_H

#include <stdbool.h>
#include <stddef.h>

enum { SENSITIVITY_BATCHES = 16 };

struct sensitivity {
  double first, total;            // near 0 to 1; a small one may come out a little under 0
  double first_band, total_band;  // half the width of the band
};

// n results of each, n at least two batches' worth. False: the result does not vary, so that nothing drives it.
bool sensitivity_of(const double *a, const double *b, const double *ab, size_t n, struct sensitivity *found);

#endif
