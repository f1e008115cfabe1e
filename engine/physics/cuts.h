// SPDX-License-Identifier: MIT
// A hollow cut level by level: areas at heights, volumes between them. m, m2, m3, heights over any datum. Within a cut
// the area runs as the parabola through its three areas, which is exact for plane sides, and makes the volume that of
// the prismoidal rule. Above the uppermost cut the area stays what it is there; below the lowest there is nothing.
#ifndef FOREBAY_PHYSICS_CUTS_H
#define FOREBAY_PHYSICS_CUTS_H

#include <stddef.h>

struct cut {
  double top, bottom;
  double area_top, area_middle, area_bottom;
};

struct cuts {
  const struct cut *layers;  // from the top down, each beginning where the one above ends
  size_t count;
};

double cuts_area(const struct cuts *cuts, double height);                // at a step: just below it
double cuts_volume(const struct cuts *cuts, double top, double bottom);  // 0 where top <= bottom
// Height up to which a volume rises that stands on `from`: cuts_volume(height, from) = volume, to rounding.
double cuts_rise_to(const struct cuts *cuts, double from, double volume);

#endif
