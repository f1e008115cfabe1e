// SPDX-License-Identifier: MIT
#include "physics/rain.h"

#include <math.h>

static double amount(double value) { return value >= 0 ? value : (double)NAN; }

double rain_volume(double depth, double area) { return amount(depth) * amount(area); }

double rain_intensity(double depth, double duration) { return duration > 0 ? amount(depth) / duration : (double)NAN; }

double rain_runoff(double share, double intensity, double area) {
  return share <= 1 ? amount(share) * amount(intensity) * amount(area) : (double)NAN;
}

double rain_catch_area(const struct rain_catch *caught) {
  return amount(caught->basin) + rain_runoff(caught->share, 1, caught->runoff);
}

double rain_catch_flow(const struct rain_catch *caught, double intensity) {
  return rain_catch_area(caught) * amount(intensity);
}

double rain_catch_volume(const struct rain_catch *caught, double depth) {
  return rain_catch_area(caught) * amount(depth);
}

double rain_catch_kept(const struct rain_catch *caught, double depth, double duration, double overflow) {
  const double kept = rain_catch_volume(caught, depth) - amount(overflow) * amount(duration);
  return isnan(kept) ? kept : fmax(0, kept);
}
