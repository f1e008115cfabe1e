// SPDX-License-Identifier: MIT
// Rain on a basin and on the ground that drains to it. m, m2, m3, s, m/s (a depth of rain per time). Rational method,
// Q = C i A, with no factor for units (the customary 1.008 is rounding of acres and inches; highway manuals). C is the
// share that runs off; a pool itself counts 1. Bad input: NaN.
#ifndef FOREBAY_PHYSICS_RAIN_H
#define FOREBAY_PHYSICS_RAIN_H

double rain_volume(double depth, double area);
double rain_intensity(double depth, double duration);  // mean over the storm: its peak is higher
double rain_runoff(double share, double intensity, double area);

struct rain_catch {
  double basin;   // area of the basin that drains nowhere else
  double runoff;  // area of ground that drains into it
  double share;   // of the rain on that ground which runs off
};
double rain_catch_area(const struct rain_catch *caught);                    // area that counts whole
double rain_catch_flow(const struct rain_catch *caught, double intensity);  // m3/s
double rain_catch_volume(const struct rain_catch *caught, double depth);

// Volume that is still in the basin at the end of a storm whose overflow carries `overflow` away all along.
double rain_catch_kept(const struct rain_catch *caught, double depth, double duration, double overflow);

#endif
