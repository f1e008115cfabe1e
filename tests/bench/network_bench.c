// SPDX-License-Identifier: MIT
#define _POSIX_C_SOURCE 200809L  // clock_gettime
// Times of the flow solver: six pipes and a grid of 500, from nothing and from the last answer. The ratios say more
// about the program than the microseconds do. Nothing here passes or fails by time.
#include <stdio.h>
#include <time.h>

#include "unit/physics/network_rig.h"

static const struct pump_point CURVE[] = {{0, 9}, {1e-3, 8}, {2e-3, 6}, {3e-3, 3}, {3.6e-3, 0}};

static double micros(void) {
  struct timespec now;
  clock_gettime(CLOCK_MONOTONIC, &now);
  return (double)now.tv_sec * 1e6 + (double)now.tv_nsec * 1e-3;
}

static struct rig *six_pipes(void) {
  struct rig *rig = rig_new();
  const size_t pond = rig_level(rig, 0), header = rig_junction(rig, 0), tee = rig_junction(rig, 0);
  rig_pipe(rig, header, tee, 10, 0.05);
  rig_outlet(rig, header, 1, 5, 0.04);
  rig_outlet(rig, header, 1.5, 6, 0.04);
  rig_outlet(rig, tee, 0.5, 6, 0.03);
  rig_outlet(rig, tee, 2, 6, 0.04);
  rig_pipe(rig, tee, rig_level(rig, 0.8), 4, 0.04);
  rig_pump(rig, pond, header, CURVE, 5);
  return rig;
}

static struct rig *grid(void) {
  unsigned long seed = 5;
  struct rig *rig = rig_new();
  rig_level(rig, 30);
  for (size_t n = 1; n < 256; n++) rig->nodes[rig_junction(rig, 0)].inflow = -2e-4;
  for (size_t n = 1; n < 256; n++) {
    if (n >= 16) rig_pipe(rig, n - 16, n, rig_even(&seed, 5, 50), rig_even(&seed, 0.02, 0.2));
    if (n % 16) rig_pipe(rig, n - 1, n, rig_even(&seed, 5, 50), rig_even(&seed, 0.02, 0.2));
  }
  for (size_t i = 0; i < 20; i++) rig_outlet(rig, 1 + rig_any(&seed, 255), rig_even(&seed, 0, 29), 3, 0.03);
  return rig;
}

// One link is throttled a little and opened again between solves, as a trial of a valve does.
static double solves(struct rig *rig, bool warm, int rounds, int *steps) {
  const double from = micros();
  for (int i = 0; i < rounds; i++) {
    rig->links[1].pipe.pipe.minor = i % 2 ? 1.5 : 2.5;
    *steps = rig_solve(rig, warm)->steps;
  }
  return (micros() - from) / rounds;
}

static double report(const char *what, struct rig *rig, int rounds) {
  int cold_steps = 0, warm_steps = 0;
  const double from = micros();
  rig_solve(rig, false);
  const double first = micros() - from;
  const double cold = solves(rig, false, rounds, &cold_steps), warm = solves(rig, true, rounds, &warm_steps);
  printf("%-12s first (with the order of elimination) %8.1f us, cold %8.1f us in %d steps, warm %8.1f us in %d\n", what,
         first, cold, cold_steps, warm, warm_steps);
  printf("%-12s warm / cold %.2f\n", "", warm / cold);
  rig_free(rig);
  return cold;
}

int main(void) {
  const double six = report("six pipes", six_pipes(), 2000), five_hundred = report("500 pipes", grid(), 20);
  printf("%-12s 500 pipes / six pipes %.0f\n", "", five_hundred / six);
  return 0;
}
