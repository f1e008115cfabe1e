// SPDX-License-Identifier: MIT
// Volume of a pit under surveyed ground: the area of the pit that lies under ground, level by level, summed by Gauss.
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "physics/polygon_surface.h"

// A convex shape cut out of a triangle: 3 corners, one more for the line that cuts it.
enum { CORNERS = 4, STEPS = 16, BREAKS = 48, SAMPLES = 8 };

struct convex {
  struct polygon_point at[CORNERS];
  size_t count;
};

// A ring of the outline at one level; holes take away. Each line that cuts a ring leaves at most half as many corners
// again; four lines leave fewer than ROOM times as many.
enum { ROOM = 6 };
struct ring {
  struct polygon_point *points, *work, *spare;  // work and spare: for ROOM x count points
  size_t count;
  struct polygon_point least, most;  // the box round it
};

static double side_of(struct polygon_point a, struct polygon_point b, struct polygon_point p) {
  return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

static struct polygon_point between(struct polygon_point a, struct polygon_point b, double share) {
  return (struct polygon_point){a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
}

// Sutherland and Hodgman, one line: what of a ring lies left of the line from a to b.
static size_t keep_left(const struct polygon_point *from, size_t count, struct polygon_point a, struct polygon_point b,
                        struct polygon_point *to) {
  size_t kept = 0;
  for (size_t i = 0; i < count; i++) {
    const struct polygon_point p = from[i], next = from[(i + 1) % count];
    const double here = side_of(a, b, p), there = side_of(a, b, next);
    if (here >= 0) to[kept++] = p;
    if ((here >= 0) != (there >= 0)) to[kept++] = between(p, next, here / (here - there));
  }
  return kept;
}

static double signed_area(const struct polygon_point *points, size_t count) {
  double twice = 0;
  for (size_t i = 2; i < count; i++) twice += side_of(points[0], points[i - 1], points[i]);
  return twice / 2;
}

static bool is_apart(const struct ring *ring, const struct convex *shape) {
  bool left = true, low = true, right = true, high = true;
  for (size_t i = 0; i < shape->count; i++) {
    left = left && shape->at[i].x < ring->least.x;
    low = low && shape->at[i].y < ring->least.y;
    right = right && shape->at[i].x > ring->most.x;
    high = high && shape->at[i].y > ring->most.y;
  }
  return left || low || right || high;
}

// Area of a ring inside a convex shape that runs counterclockwise.
static double area_of_ring_in(struct ring *ring, const struct convex *shape) {
  if (is_apart(ring, shape)) return 0;
  const struct polygon_point *from = ring->points;
  size_t count = ring->count;
  for (size_t i = 0; i < shape->count && count > 0; i++) {
    struct polygon_point *to = from == ring->work ? ring->spare : ring->work;
    count = keep_left(from, count, shape->at[i], shape->at[(i + 1) % shape->count], to);
    from = to;
  }
  return fabs(signed_area(from, count));
}

// The part of a triangle of ground that lies at or above a level, counterclockwise.
static struct convex ground_above(const struct polygon_surface_point c[3], double level) {
  struct convex shape = {.count = 0};
  const struct polygon_point flat[3] = {{c[0].x, c[0].y}, {c[1].x, c[1].y}, {c[2].x, c[2].y}};
  const bool left = side_of(flat[0], flat[1], flat[2]) >= 0;
  for (size_t i = 0; i < 3; i++) {
    const size_t here = left ? i : 2 - i, next = left ? (i + 1) % 3 : (4 - i) % 3;
    const double over = c[here].z - level, then = c[next].z - level;
    if (over >= 0) shape.at[shape.count++] = flat[here];
    if ((over >= 0) != (then >= 0)) shape.at[shape.count++] = between(flat[here], flat[next], over / (over - then));
  }
  return shape;
}

static double area_of_ring(const struct polygon_surface *surface, struct ring *ring, double level) {
  double area = 0;
  for (size_t i = 0; i < polygon_surface_count(surface); i++) {
    struct polygon_surface_point corners[3];
    polygon_surface_triangle(surface, i, corners);
    const struct convex above = ground_above(corners, level);
    if (above.count >= 3) area += area_of_ring_in(ring, &above);
  }
  return area;
}

static bool is_inside(const struct ring *ring, struct polygon_point p) {
  bool inside = false;
  for (size_t i = 0; i < ring->count; i++) {
    const struct polygon_point a = ring->points[i], b = ring->points[(i + 1) % ring->count];
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) inside = !inside;
  }
  return inside;
}

// Does the survey end at a place that would be dug? Looked at along its border.
static bool is_cut_off(const struct polygon_surface *surface, const struct ring *ring, double level) {
  for (size_t i = 0; i < polygon_surface_border_count(surface); i++) {
    struct polygon_surface_point e[2];
    polygon_surface_border(surface, i, e);
    for (size_t k = 0; k < SAMPLES; k++) {
      const double share = (double)k / SAMPLES;
      const struct polygon_point at = {e[0].x + share * (e[1].x - e[0].x), e[0].y + share * (e[1].y - e[0].y)};
      if (e[0].z + share * (e[1].z - e[0].z) > level && is_inside(ring, at)) return true;
    }
  }
  return false;
}

static double fail(struct polygon_problem *problem, const char *text) {
  if (problem) {
    *problem = (struct polygon_problem){.placed = false};
    snprintf(problem->text, sizeof problem->text, "%s", text);
  }
  return (double)NAN;
}

static const char TOO_SMALL[] = "the survey ends inside the pit", NO_MEMORY[] = "no memory for a pit";

static void find_box(struct ring *ring) {
  ring->least = ring->most = ring->points[0];
  for (size_t i = 1; i < ring->count; i++) {
    const struct polygon_point p = ring->points[i];
    ring->least = (struct polygon_point){fmin(ring->least.x, p.x), fmin(ring->least.y, p.y)};
    ring->most = (struct polygon_point){fmax(ring->most.x, p.x), fmax(ring->most.y, p.y)};
  }
}

// Outer ring of a piece, or one of its holes (from 1 on). No points: no memory.
static struct ring ring_of(const struct polygon *outline, size_t piece, size_t which) {
  struct ring ring = {.count = 0};
  const size_t count =
      which == 0 ? polygon_ring(outline, piece, NULL, 0) : polygon_hole(outline, piece, which - 1, NULL, 0);
  ring.points = count > 0 ? malloc((1 + 2 * ROOM) * count * sizeof *ring.points) : NULL;
  if (!ring.points) return ring;
  ring.work = ring.points + count;
  ring.spare = ring.work + ROOM * count;
  ring.count = which == 0 ? polygon_ring(outline, piece, ring.points, count)
                          : polygon_hole(outline, piece, which - 1, ring.points, count);
  if (ring.count > 0) find_box(&ring);
  return ring;
}

static double area_of_piece(const struct polygon_surface *surface, const struct polygon *outline, size_t piece,
                            double level, struct polygon_problem *problem) {
  double area = 0;
  for (size_t which = 0; which <= polygon_holes(outline, piece); which++) {
    struct ring ring = ring_of(outline, piece, which);
    const bool cut_off = which == 0 && is_cut_off(surface, &ring, level);
    if (ring.count == 0) {
      area = fail(problem, NO_MEMORY);
    } else if (cut_off) {
      area = fail(problem, TOO_SMALL);
    } else {
      area += (which == 0 ? 1 : -1) * area_of_ring(surface, &ring, level);
    }
    free(ring.points);
    if (isnan(area)) break;
  }
  return area;
}

static double area_at(const struct polygon_surface *surface, const struct polygon_pit *pit, double level,
                      struct polygon_problem *problem) {
  struct polygon *outline = polygon_inset_new(pit->bottom, -pit->side * (level - pit->level), problem);
  if (!outline) return (double)NAN;
  double area = 0;
  for (size_t i = 0; i < polygon_pieces(outline); i++) area += area_of_piece(surface, outline, i, level, problem);
  polygon_free(outline);
  return area;
}

// Gauss with two levels in each of the even steps from bottom to top.
static double layer(const struct polygon_surface *surface, const struct polygon_pit *pit, double bottom, double top,
                    double step, struct polygon_problem *problem) {
  const size_t steps = (size_t)ceil((top - bottom) / step * (1 - 1e-9));
  const double each = (top - bottom) / (double)steps, off = each / (2 * sqrt(3));
  double volume = 0;
  for (size_t i = 0; i < steps && !isnan(volume); i++) {
    const double middle = bottom + ((double)i + 0.5) * each;
    volume += each / 2 * area_at(surface, pit, middle - off, problem);
    if (!isnan(volume)) volume += each / 2 * area_at(surface, pit, middle + off, problem);
  }
  return volume;
}

static const char *bottom_fault(const struct polygon_surface *surface, const struct polygon *bottom) {
  struct ring ring = ring_of(bottom, 0, 0);
  const char *fault = ring.count > 0 ? NULL : NO_MEMORY;
  for (size_t i = 0; i < ring.count && !fault; i++) {
    if (isnan(polygon_surface_height(surface, ring.points[i]))) fault = TOO_SMALL;
  }
  free(ring.points);
  return fault;
}

// Heights of the points are breaks where the area may step, since flat ground ends there all at once; of many points
// not each one is looked at.
double polygon_surface_cut(const struct polygon_surface *surface, const struct polygon_pit *pit,
                           struct polygon_problem *problem) {
  if (!pit->bottom || !isfinite(pit->level) || !(pit->side >= 0) || isinf(pit->side)) {
    return fail(problem, "the pit has no bottom, level or slope");
  }
  const char *fault = bottom_fault(surface, pit->bottom);
  if (fault) return fail(problem, fault);
  size_t count;
  const double *heights = polygon_surface_heights(surface, &count);
  const double highest = heights[count - 1], step = (highest - pit->level) / STEPS;
  const size_t breaks = count - 1 < BREAKS ? count - 1 : BREAKS;
  double volume = 0, from = pit->level;
  for (size_t i = 0; i <= breaks && !isnan(volume); i++) {
    const double height = heights[i * (count - 1) / breaks];
    if (height <= from) continue;
    volume += layer(surface, pit, from, height, step, problem);
    from = height;
  }
  return volume;
}
