// SPDX-License-Identifier: MIT
#include "quantities/ground.h"

#include <math.h>
#include <stdlib.h>

#include "physics/cuts.h"

bool ground_is_level(const struct ground_shape *ground) {
  return ground->plane && ground->along_x == 0 && ground->along_y == 0;
}

static double plane_at(const struct ground_shape *ground, struct polygon_point at) {
  return ground->at_origin + ground->along_x * at.x + ground->along_y * at.y;
}

// NaN where a survey does not reach.
static double height_at(const struct ground_shape *ground, struct polygon_point at) {
  double height = ground->surface ? polygon_surface_height(ground->surface, at) : 0;
  return ground->plane && !isnan(height) ? plane_at(ground, at) : height;
}

// ---- The highest ground over an outline ----

enum { SAMPLES = 8 };  // along each side: surveyed ground may rise between its ends

struct ring {
  struct polygon_point *points;
  size_t count;
};

static struct ring ring_of(const struct polygon *outline, size_t piece) {
  struct ring ring = {NULL, polygon_ring(outline, piece, NULL, 0)};
  ring.points = calloc(ring.count + 1, sizeof *ring.points);
  if (ring.points) {
    polygon_ring(outline, piece, ring.points, ring.count);
  } else {
    ring.count = 0;
  }
  return ring;
}

static bool is_inside(const struct ring *ring, double x, double y) {
  bool inside = false;
  for (size_t i = 0; i < ring->count; i++) {
    const struct polygon_point a = ring->points[i], b = ring->points[(i + 1) % ring->count];
    if ((a.y > y) != (b.y > y) && x < a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y)) inside = !inside;
  }
  return inside;
}

static double higher(double a, double b) { return isnan(a) || isnan(b) ? (double)NAN : fmax(a, b); }

static double highest_along(const struct ground_shape *ground, const struct ring *ring) {
  double highest = ring->count > 0 ? -INFINITY : (double)NAN;
  for (size_t i = 0; i < ring->count; i++) {
    const struct polygon_point a = ring->points[i], b = ring->points[(i + 1) % ring->count];
    for (int k = 0; k < SAMPLES; k++) {
      const double share = (double)k / SAMPLES;
      highest = higher(highest,
                       height_at(ground, (struct polygon_point){a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)}));
    }
  }
  return highest;
}

double ground_highest(const struct ground_shape *ground, const struct polygon *outline) {
  double highest = -INFINITY;
  for (size_t piece = 0; piece < polygon_pieces(outline); piece++) {
    struct ring ring = ring_of(outline, piece);
    highest = higher(highest, highest_along(ground, &ring));
    for (size_t i = 0; !ground->plane && i < ground->count; i++) {
      const struct polygon_surface_point *at = &ground->points[i];
      if (is_inside(&ring, at->x, at->y)) highest = higher(highest, at->z);
    }
    free(ring.points);
  }
  return highest;
}

// ---- The height of a pit ----

double pit_reach(const struct pit_sides *sides, double height) {
  double reach = sides->slope * height;
  for (size_t i = 0; i < sides->count; i++) {
    if (sides->steps[i].height < height) reach += sides->steps[i].width;
  }
  return reach;
}

static double highest_at(const struct ground_shape *ground, const struct polygon *bottom, double reach) {
  struct polygon *edge = polygon_inset_new(bottom, -reach, NULL);
  if (!edge) return (double)NAN;
  double highest = ground_highest(ground, edge);
  polygon_free(edge);
  return highest;
}

// The edge of the pit moves out as its height grows, and the ground there may be higher again: each round adds the
// ground's slope times the sides' of the last, so this ends where the ground is the flatter of the two.
enum { ROUNDS = 400 };

double pit_height(const struct ground_shape *ground, const struct pit_sides *sides) {
  double height = ground_highest(ground, sides->bottom) - sides->level;
  if (!(height > 0)) return height;
  for (int i = 0; i < ROUNDS; i++) {
    double next = highest_at(ground, sides->bottom, pit_reach(sides, height)) - sides->level;
    if (isnan(next)) return (double)NAN;
    if (next <= height * (1 + 1e-13)) return height;
    height = next;
    if (height > POLYGON_FARTHEST / 1e3) break;
  }
  return INFINITY;
}

// ---- Volume and top ----

static double area_outset(const struct polygon *bottom, double reach) {
  struct polygon_inset at;
  return polygon_inset(bottom, -reach, &at, NULL) ? at.area : (double)NAN;
}

// Plane sides: one cut with its middle is exact, as long as no corner closes on the way up.
static double level_riser(const struct pit_sides *sides, double from, double to, double reach) {
  const double run = sides->slope * (to - from);
  const struct cut cut = {to - from, 0, area_outset(sides->bottom, reach + run),
                          area_outset(sides->bottom, reach + run / 2), area_outset(sides->bottom, reach)};
  return cuts_volume(&(struct cuts){&cut, 1}, to - from, 0);
}

static double level_volume(const struct pit_sides *sides, double height) {
  double volume = 0, from = 0, reach = 0;
  for (size_t i = 0; i <= sides->count; i++) {
    double to = i < sides->count ? fmin(sides->steps[i].height, height) : height;
    if (to > from) volume += level_riser(sides, from, to, reach);
    reach += sides->slope * (to - from) + (i < sides->count ? sides->steps[i].width : 0);
    from = to;
  }
  return volume;
}

static double ground_over(const struct polygon_surface *surface, const struct pit_sides *sides, double height,
                          double reach, struct polygon_problem *problem) {
  struct polygon *bottom = polygon_inset_new(sides->bottom, -reach, problem);
  if (!bottom) return (double)NAN;
  const struct polygon_pit pit = {bottom, sides->level + height, sides->slope};
  double volume = polygon_surface_cut(surface, &pit, problem);
  polygon_free(bottom);
  return volume;
}

// Above each step the pit is what a pit would be that begins there: what begins within the step's inner edge is taken
// off, what begins within its outer edge is put on.
static double volume_under(const struct polygon_surface *surface, const struct pit_sides *sides, double height,
                           struct polygon_problem *problem) {
  double volume = ground_over(surface, sides, 0, 0, problem);
  for (size_t i = 0; i < sides->count && sides->steps[i].height < height && !isnan(volume); i++) {
    double reach = pit_reach(sides, sides->steps[i].height);
    volume -= ground_over(surface, sides, sides->steps[i].height, reach, problem);
    volume += ground_over(surface, sides, sides->steps[i].height, reach + sides->steps[i].width, problem);
  }
  return volume;
}

struct box {
  double left, right, near, far;
};

static struct box box_round(const struct polygon *outline) {
  struct box box = {INFINITY, -INFINITY, INFINITY, -INFINITY};
  for (size_t piece = 0; piece < polygon_pieces(outline); piece++) {
    struct ring ring = ring_of(outline, piece);
    for (size_t i = 0; i < ring.count; i++) {
      box = (struct box){fmin(box.left, ring.points[i].x), fmax(box.right, ring.points[i].x),
                         fmin(box.near, ring.points[i].y), fmax(box.far, ring.points[i].y)};
    }
    free(ring.points);
  }
  return box;
}

// A plane as two triangles that reach a little past the pit.
static struct polygon_surface *plane_round(const struct ground_shape *ground, const struct pit_sides *sides,
                                           double height, struct polygon_problem *problem) {
  struct box box = box_round(sides->bottom);
  double past = pit_reach(sides, height) + 0.02 * fmax(box.right - box.left, box.far - box.near);
  const struct polygon_point corner[4] = {{box.left - past, box.near - past},
                                          {box.right + past, box.near - past},
                                          {box.right + past, box.far + past},
                                          {box.left - past, box.far + past}};
  struct polygon_surface_point points[4];
  for (int i = 0; i < 4; i++) {
    points[i] = (struct polygon_surface_point){corner[i].x, corner[i].y, plane_at(ground, corner[i])};
  }
  return polygon_surface_new(points, 4, problem);
}

double pit_volume(const struct ground_shape *ground, const struct pit_sides *sides, double height,
                  struct polygon_problem *problem) {
  if (ground_is_level(ground)) return level_volume(sides, height);
  if (!ground->plane) return volume_under(ground->surface, sides, height, problem);
  struct polygon_surface *plane = plane_round(ground, sides, height, problem);
  if (!plane) return (double)NAN;
  double volume = volume_under(plane, sides, height, problem);
  polygon_surface_free(plane);
  return volume;
}

// A pit that ends a little higher leaves that much standing under all of its top: the rate at which the volume falls as
// the bottom rises, by three pits. Higher ones need no ground that was not surveyed.
double pit_top_area(const struct ground_shape *ground, const struct pit_sides *sides, double height,
                    struct polygon_problem *problem) {
  if (ground_is_level(ground)) return area_outset(sides->bottom, pit_reach(sides, height));
  if (sides->slope == 0 && sides->count == 0) return polygon_area(sides->bottom);
  const double little = 0.05 * height;
  double volume[3];
  for (int i = 0; i < 3; i++) {
    struct pit_sides raised = *sides;
    raised.level += i * little;
    volume[i] = pit_volume(ground, &raised, pit_height(ground, &raised), problem);
  }
  return (3 * volume[0] - 4 * volume[1] + volume[2]) / (2 * little);
}
