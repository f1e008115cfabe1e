// SPDX-License-Identifier: MIT
// Volume of a pit under surveyed ground: the area of the pit that lies under ground, level by level, summed by Gauss.
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "physics/polygon_surface.h"

// A convex shape cut out of a triangle: 3 corners, one more for each of the lines that cut it.
enum { CORNERS = 12, STEPS = 16, BREAKS = 48, SAMPLES = 8 };

struct convex {
  struct polygon_point at[CORNERS];
  size_t count;
};

// A ring of the outline at one level; holes take away.
struct ring {
  struct polygon_point *points;
  size_t count;
};

static double side_of(struct polygon_point a, struct polygon_point b, struct polygon_point p) {
  return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

static struct polygon_point between(struct polygon_point a, struct polygon_point b, double share) {
  return (struct polygon_point){a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
}

static void add(struct convex *shape, struct polygon_point point) {
  if (shape->count < CORNERS) shape->at[shape->count++] = point;
}

// Sutherland and Hodgman: what of `shape` has `value` >= 0, a value that runs evenly between the corners.
static struct convex keep_positive(const struct convex *shape, const double value[CORNERS]) {
  struct convex kept = {.count = 0};
  for (size_t i = 0; i < shape->count; i++) {
    const size_t next = (i + 1) % shape->count;
    if (value[i] >= 0) add(&kept, shape->at[i]);
    if ((value[i] >= 0) != (value[next] >= 0)) {
      add(&kept, between(shape->at[i], shape->at[next], value[i] / (value[i] - value[next])));
    }
  }
  return kept;
}

static double signed_area(const struct convex *shape) {
  double twice = 0;
  for (size_t i = 2; i < shape->count; i++) twice += side_of(shape->at[0], shape->at[i - 1], shape->at[i]);
  return twice / 2;
}

// Both convex, `by` counterclockwise.
static double area_of_both(struct convex shape, const struct convex *by) {
  for (size_t i = 0; i < by->count && shape.count > 0; i++) {
    double value[CORNERS];
    for (size_t k = 0; k < shape.count; k++) {
      value[k] = side_of(by->at[i], by->at[(i + 1) % by->count], shape.at[k]);
    }
    shape = keep_positive(&shape, value);
  }
  return signed_area(&shape);
}

// Area of a ring inside a convex shape: each side of the ring makes a triangle with one corner of the shape; turned one
// way they add, the other way they take off.
static double area_of_ring_in(const struct ring *ring, const struct convex *shape) {
  double sum = 0;
  for (size_t i = 0; i < ring->count; i++) {
    const struct convex fan = {{shape->at[0], ring->points[i], ring->points[(i + 1) % ring->count]}, 3};
    sum += area_of_both(fan, shape);
  }
  return fabs(sum);
}

// The part of a triangle of ground that lies at or above a level, counterclockwise.
static struct convex ground_above(const struct polygon_surface_point c[3], double level) {
  struct convex shape = {.count = 3};
  double value[CORNERS];
  const bool left = side_of((struct polygon_point){c[0].x, c[0].y}, (struct polygon_point){c[1].x, c[1].y},
                            (struct polygon_point){c[2].x, c[2].y}) >= 0;
  for (size_t i = 0; i < 3; i++) {
    const struct polygon_surface_point p = c[left ? i : 2 - i];
    shape.at[i] = (struct polygon_point){p.x, p.y};
    value[i] = p.z - level;
  }
  return keep_positive(&shape, value);
}

static double area_of_ring(const struct polygon_surface *surface, const struct ring *ring, double level) {
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

// Outer ring of a piece, or one of its holes (from 1 on). No points: no memory.
static struct ring ring_of(const struct polygon *outline, size_t piece, size_t which) {
  struct ring ring = {NULL, 0};
  const size_t count =
      which == 0 ? polygon_ring(outline, piece, NULL, 0) : polygon_hole(outline, piece, which - 1, NULL, 0);
  ring.points = count > 0 ? malloc(count * sizeof *ring.points) : NULL;
  if (!ring.points) return ring;
  ring.count = which == 0 ? polygon_ring(outline, piece, ring.points, count)
                          : polygon_hole(outline, piece, which - 1, ring.points, count);
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

static bool is_bottom_surveyed(const struct polygon_surface *surface, const struct polygon *bottom) {
  struct ring ring = ring_of(bottom, 0, 0);
  bool surveyed = ring.count > 0;
  for (size_t i = 0; i < ring.count && surveyed; i++) {
    surveyed = !isnan(polygon_surface_height(surface, ring.points[i]));
  }
  free(ring.points);
  return surveyed;
}

// Heights of the points are breaks where the area may step, since flat ground ends there all at once; of many points
// not each one is looked at.
double polygon_surface_cut(const struct polygon_surface *surface, const struct polygon_pit *pit,
                           struct polygon_problem *problem) {
  if (!pit->bottom || !isfinite(pit->level) || !(pit->side >= 0) || isinf(pit->side)) {
    return fail(problem, "the pit has no bottom, level or slope");
  }
  if (!is_bottom_surveyed(surface, pit->bottom)) return fail(problem, TOO_SMALL);
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
