// SPDX-License-Identifier: MIT
// The parts of polygon.h that need no GEOS: rings of known shape, and walking along a ring.
#include <math.h>

#include "physics/polygon.h"

#define PI 3.14159265358979323846

// A regular ring inside a circle holds sin(t)/t of its area, t one step; stretched by the root of that, the area is
// exact. An ellipse is a circle pulled out in one direction, which scales all areas alike.
void polygon_ellipse(double length, double width, struct polygon_point into[POLYGON_ELLIPSE_POINTS]) {
  const double step = 2 * PI / POLYGON_ELLIPSE_POINTS;
  const double stretch = sqrt(step / sin(step));
  for (int i = 0; i < POLYGON_ELLIPSE_POINTS; i++) {
    into[i] =
        (struct polygon_point){.x = stretch * length / 2 * cos(i * step), .y = stretch * width / 2 * sin(i * step)};
  }
}

void polygon_rectangle(double length, double width, struct polygon_point into[4]) {
  const struct polygon_point corner[4] = {{0, 0}, {length, 0}, {length, width}, {0, width}};
  for (int i = 0; i < 4; i++) into[i] = corner[i];
}

static double side_length(const struct polygon_point *points, size_t count, size_t i) {
  const struct polygon_point from = points[i], to = points[(i + 1) % count];
  return hypot(to.x - from.x, to.y - from.y);
}

static double ring_length(const struct polygon_point *points, size_t count) {
  double length = 0;
  for (size_t i = 0; i < count; i++) length += side_length(points, count, i);
  return length;
}

struct polygon_point polygon_along(const struct polygon_point *points, size_t count, double distance) {
  if (count == 0 || !isfinite(distance)) return (struct polygon_point){(double)NAN, (double)NAN};
  const double around = ring_length(points, count);
  if (!(around > 0) || isinf(around)) return points[0];
  double left = fmod(distance, around);
  if (left < 0) left += around;
  for (size_t i = 0; i < count; i++) {
    const double side = side_length(points, count, i);
    if (left < side) {
      const struct polygon_point from = points[i], to = points[(i + 1) % count];
      const double share = left / side;
      return (struct polygon_point){from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)};
    }
    left -= side;
  }
  return points[0];  // the last rounding of a walk all the way round
}
