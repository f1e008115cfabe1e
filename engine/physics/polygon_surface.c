// SPDX-License-Identifier: MIT
#include "physics/polygon_surface.h"

#include <geos_c.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

struct triangle {
  size_t corner[3];  // places of points
};

struct edge {
  size_t from, to;
};

struct polygon_surface {
  struct polygon_surface_point *points;
  double *heights;  // sorted
  struct triangle *triangles;
  struct edge *border;
  size_t count, triangle_count, border_count;
};

static void say(struct polygon_problem *problem, const char *text, const struct polygon_surface_point *at) {
  if (!problem) return;
  *problem = (struct polygon_problem){.placed = at != NULL};
  snprintf(problem->text, sizeof problem->text, "%s", text);
  if (at) problem->at = (struct polygon_point){at->x, at->y};
}

void polygon_surface_free(struct polygon_surface *surface) {
  if (!surface) return;
  free(surface->points);
  free(surface->heights);
  free(surface->triangles);
  free(surface->border);
  free(surface);
}

static bool are_apart(const struct polygon_surface_point *points, size_t count, struct polygon_problem *problem) {
  for (size_t i = 0; i < count; i++) {
    for (size_t k = 0; k < i; k++) {
      if (hypot(points[i].x - points[k].x, points[i].y - points[k].y) >= POLYGON_SURFACE_APART) continue;
      say(problem, "two points of the survey are at one place", &points[i]);
      return false;
    }
  }
  return true;
}

static bool are_points_good(const struct polygon_surface_point *points, size_t count, struct polygon_problem *problem) {
  if (count < 3 || count > POLYGON_SURFACE_POINTS) {
    say(problem, count < 3 ? "a survey has at least three points" : "the survey has too many points", NULL);
    return false;
  }
  for (size_t i = 0; i < count; i++) {
    const struct polygon_surface_point *p = &points[i];
    if (fabs(p->x) <= POLYGON_FARTHEST && fabs(p->y) <= POLYGON_FARTHEST && fabs(p->z) <= POLYGON_FARTHEST) continue;
    say(problem, "a point of the survey is not a place that can be meant", NULL);
    return false;
  }
  return are_apart(points, count, problem);
}

static int by_height(const void *a, const void *b) {
  const double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

// A planar triangulation has fewer than 2 n triangles.
static struct polygon_surface *surface_with_room(const struct polygon_surface_point *points, size_t count) {
  struct polygon_surface *surface = calloc(1, sizeof *surface);
  if (!surface) return NULL;
  surface->points = malloc(count * sizeof *surface->points);
  surface->heights = malloc(count * sizeof *surface->heights);
  surface->triangles = malloc(2 * count * sizeof *surface->triangles);
  surface->border = malloc(3 * count * sizeof *surface->border);
  if (!surface->points || !surface->heights || !surface->triangles || !surface->border) {
    polygon_surface_free(surface);
    return NULL;
  }
  surface->count = count;
  for (size_t i = 0; i < count; i++) {
    surface->points[i] = points[i];
    surface->heights[i] = points[i].z;
  }
  qsort(surface->heights, count, sizeof *surface->heights, by_height);
  return surface;
}

// Places as GEOS wants them; NULL on failure.
static GEOSGeometry *places(GEOSContextHandle_t geos, const struct polygon_surface *surface) {
  GEOSCoordSequence *sequence = GEOSCoordSeq_create_r(geos, (unsigned)surface->count, 2);
  for (unsigned i = 0; sequence && i < surface->count; i++) {
    if (GEOSCoordSeq_setXY_r(geos, sequence, i, surface->points[i].x, surface->points[i].y)) continue;
    GEOSCoordSeq_destroy_r(geos, sequence);
    return NULL;
  }
  return sequence ? GEOSGeom_createLineString_r(geos, sequence) : NULL;  // takes the sequence
}

static size_t nearest_point(const struct polygon_surface *surface, double x, double y) {
  size_t nearest = 0;
  double least = (double)INFINITY;
  for (size_t i = 0; i < surface->count && least > 0; i++) {
    const double away = hypot(surface->points[i].x - x, surface->points[i].y - y);
    if (away < least) {
      least = away;
      nearest = i;
    }
  }
  return nearest;
}

static bool read_triangle(GEOSContextHandle_t geos, const GEOSGeometry *shape, const struct polygon_surface *surface,
                          struct triangle *into) {
  const GEOSGeometry *ring = GEOSGetExteriorRing_r(geos, shape);
  const GEOSCoordSequence *sequence = ring ? GEOSGeom_getCoordSeq_r(geos, ring) : NULL;
  for (unsigned i = 0; i < 3; i++) {
    double x, y;
    if (!sequence || !GEOSCoordSeq_getXY_r(geos, sequence, i, &x, &y)) return false;
    into->corner[i] = nearest_point(surface, x, y);
  }
  return true;
}

static bool read_triangles(GEOSContextHandle_t geos, const GEOSGeometry *mesh, struct polygon_surface *surface) {
  const int count = GEOSGetNumGeometries_r(geos, mesh);
  if (count < 0 || (size_t)count > 2 * surface->count) return false;
  for (int i = 0; i < count; i++) {
    if (!read_triangle(geos, GEOSGetGeometryN_r(geos, mesh, i), surface, &surface->triangles[i])) return false;
  }
  surface->triangle_count = (size_t)count;
  return true;
}

static bool triangulate(struct polygon_surface *surface) {
  GEOSContextHandle_t geos = GEOS_init_r();
  if (!geos) return false;
  GEOSGeometry *shape = places(geos, surface);
  GEOSGeometry *mesh = shape ? GEOSDelaunayTriangulation_r(geos, shape, 0, 0) : NULL;
  const bool done = mesh && read_triangles(geos, mesh, surface);
  if (mesh) GEOSGeom_destroy_r(geos, mesh);
  if (shape) GEOSGeom_destroy_r(geos, shape);
  GEOS_finish_r(geos);
  return done;
}

static bool has_edge(const struct triangle *t, struct edge e) {
  for (size_t i = 0; i < 3; i++) {
    const size_t a = t->corner[i], b = t->corner[(i + 1) % 3];
    if ((a == e.from && b == e.to) || (a == e.to && b == e.from)) return true;
  }
  return false;
}

static size_t triangles_at(const struct polygon_surface *surface, struct edge e) {
  size_t found = 0;
  for (size_t i = 0; i < surface->triangle_count && found < 2; i++) found += has_edge(&surface->triangles[i], e);
  return found;
}

static void find_border(struct polygon_surface *surface) {
  for (size_t i = 0; i < surface->triangle_count; i++) {
    for (size_t k = 0; k < 3; k++) {
      const struct triangle *t = &surface->triangles[i];
      const struct edge e = {t->corner[k], t->corner[(k + 1) % 3]};
      if (triangles_at(surface, e) == 1 && surface->border_count < 3 * surface->count) {
        surface->border[surface->border_count++] = e;
      }
    }
  }
}

struct polygon_surface *polygon_surface_new(const struct polygon_surface_point *points, size_t count,
                                            struct polygon_problem *problem) {
  if (!are_points_good(points, count, problem)) return NULL;
  struct polygon_surface *surface = surface_with_room(points, count);
  if (!surface || !triangulate(surface)) {
    say(problem, "no memory for a survey", NULL);
  } else if (surface->triangle_count == 0) {
    say(problem, "the points of the survey lie on one line", NULL);
  } else {
    find_border(surface);
    return surface;
  }
  polygon_surface_free(surface);
  return NULL;
}

size_t polygon_surface_count(const struct polygon_surface *surface) { return surface->triangle_count; }

void polygon_surface_triangle(const struct polygon_surface *surface, size_t i,
                              struct polygon_surface_point corners[3]) {
  for (size_t k = 0; k < 3; k++) corners[k] = surface->points[surface->triangles[i].corner[k]];
}

size_t polygon_surface_border_count(const struct polygon_surface *surface) { return surface->border_count; }

void polygon_surface_border(const struct polygon_surface *surface, size_t i, struct polygon_surface_point ends[2]) {
  ends[0] = surface->points[surface->border[i].from];
  ends[1] = surface->points[surface->border[i].to];
}

const double *polygon_surface_heights(const struct polygon_surface *surface, size_t *count) {
  *count = surface->count;
  return surface->heights;
}

static double twice_area(double ax, double ay, double bx, double by) { return ax * by - bx * ay; }

// Height by the areas that the place cuts off the triangle; NaN outside of it.
static double height_in(const struct polygon_surface_point c[3], struct polygon_point at) {
  const double whole = twice_area(c[1].x - c[0].x, c[1].y - c[0].y, c[2].x - c[0].x, c[2].y - c[0].y);
  double height = 0;
  for (size_t i = 0; i < 3; i++) {
    const struct polygon_surface_point p = c[(i + 1) % 3], q = c[(i + 2) % 3];
    const double share = twice_area(p.x - at.x, p.y - at.y, q.x - at.x, q.y - at.y) / whole;
    if (!(share >= -1e-9)) return (double)NAN;
    height += share * c[i].z;
  }
  return height;
}

double polygon_surface_height(const struct polygon_surface *surface, struct polygon_point at) {
  for (size_t i = 0; i < surface->triangle_count; i++) {
    struct polygon_surface_point corners[3];
    polygon_surface_triangle(surface, i, corners);
    const double height = height_in(corners, at);
    if (!isnan(height)) return height;
  }
  return (double)NAN;
}
