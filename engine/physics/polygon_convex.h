// SPDX-License-Identifier: MIT
// Convex outlines moved inward or outward in closed form. While every side keeps some length and no corner is cut off,
// the area of one moved by d is A - P d + K d^2 and its perimeter P - 2 K d, K the sum of tan(turn / 2) over its
// corners (the inner parallel curve of Steiner, from memory; exact for straight sides with mitred corners).
#ifndef FOREBAY_PHYSICS_POLYGON_CONVEX_H
#define FOREBAY_PHYSICS_POLYGON_CONVEX_H

#include "physics/polygon.h"

struct polygon_convex {
  double area, perimeter, corners;  // corners: K
  double inward;                    // at which the first side is gone
  double sharpest;                  // tan of half the sharpest turn
};

// False: the ring is not convex, or is nothing to reckon with (a side without length, a number that is none).
bool polygon_convex_of(const struct polygon_point *points, size_t count, struct polygon_convex *convex);
// False: a side would be gone, or a corner cut off.
bool polygon_convex_inset(const struct polygon_convex *convex, double distance, struct polygon_inset *inset);

#endif
