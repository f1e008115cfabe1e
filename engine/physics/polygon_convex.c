// SPDX-License-Identifier: MIT
#include "physics/polygon_convex.h"

#include <math.h>

struct side {
  double x, y, length;  // x, y: its direction, of length 1
};

static struct side side_of(const struct polygon_point *points, size_t count, size_t i) {
  const struct polygon_point from = points[i], to = points[i + 1 < count ? i + 1 : 0];
  const double x = to.x - from.x, y = to.y - from.y, length = sqrt(x * x + y * y);
  return (struct side){x / length, y / length, length};
}

// Twice the signed area, from the first point: a ring far from the origin loses no digits.
static double doubled_area(const struct polygon_point *points, size_t count) {
  double sum = 0;
  for (size_t i = 1; i + 1 < count; i++) {
    const double ax = points[i].x - points[0].x, ay = points[i].y - points[0].y;
    const double bx = points[i + 1].x - points[0].x, by = points[i + 1].y - points[0].y;
    sum += ax * by - ay * bx;
  }
  return sum;
}

struct walk {
  double way;    // 1: left about, -1: right about
  double ahead;  // the last direction along x that was not 0
  int turns;     // how often that has changed: twice where it goes round once, else four times or more
};

static void look_ahead(struct walk *walk, double x) {
  if (!(x < 0 || x > 0)) return;
  walk->turns += walk->ahead * x < 0;
  walk->ahead = x;
}

// tan of half the turn from one side to the next; NaN: it turns the wrong way, or back.
static double half_turn(const struct walk *walk, struct side from, struct side to) {
  const double cross = walk->way * (from.x * to.y - from.y * to.x), dot = from.x * to.x + from.y * to.y;
  return cross >= 0 && dot > -1 + 1e-9 ? cross / (1 + dot) : (double)NAN;
}

static bool are_usable(const struct polygon_point *points, size_t count) {
  for (size_t i = 0; i < count; i++) {
    if (!(fabs(points[i].x) <= POLYGON_FARTHEST && fabs(points[i].y) <= POLYGON_FARTHEST)) return false;
  }
  return count >= 3;
}

bool polygon_convex_of(const struct polygon_point *points, size_t count, struct polygon_convex *convex) {
  if (!are_usable(points, count)) return false;
  const double area = doubled_area(points, count) / 2;
  struct side before = side_of(points, count, count - 1), at = side_of(points, count, 0);
  struct walk walk = {.way = area > 0 ? 1 : -1};
  double turn = half_turn(&walk, before, at);
  look_ahead(&walk, before.x);
  *convex = (struct polygon_convex){.area = fabs(area), .inward = INFINITY};
  for (size_t i = 0; i < count; i++) {
    const struct side after = side_of(points, count, i + 1 < count ? i + 1 : 0);
    const double next = half_turn(&walk, at, after);
    look_ahead(&walk, at.x);
    if (!(at.length > 0 && turn + next >= 0)) return false;
    convex->perimeter += at.length;
    convex->corners += turn;
    convex->inward = fmin(convex->inward, at.length / (turn + next));
    convex->sharpest = fmax(convex->sharpest, turn);
    at = after;
    turn = next;
  }
  return convex->area > 0 && walk.turns <= 2;  // the one over the first point may be missed
}

bool polygon_convex_inset(const struct polygon_convex *convex, double distance, struct polygon_inset *inset) {
  const double mitre = sqrt(1 + convex->sharpest * convex->sharpest);  // its reach over the distance
  if (!(distance < convex->inward * (1 - 1e-9)) || !(distance >= -POLYGON_FARTHEST)) return false;
  if (distance < 0 && !(mitre < POLYGON_MITRE_LIMIT * (1 - 1e-9))) return false;
  *inset = (struct polygon_inset){.distance = distance,
                                  .area = convex->area - distance * (convex->perimeter - distance * convex->corners),
                                  .perimeter = convex->perimeter - 2 * distance * convex->corners,
                                  .pieces = 1};
  return true;
}
