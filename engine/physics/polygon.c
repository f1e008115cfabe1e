// SPDX-License-Identifier: MIT
#include "physics/polygon.h"

#include <geos_c.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct polygon {
  GEOSContextHandle_t geos;
  GEOSGeometry *shape;
  double area, perimeter;
  struct polygon_point centroid;
  char heard[sizeof((struct polygon_problem *)0)->text];  // what GEOS said last
};

static void say(struct polygon_problem *problem, const char *text) {
  if (!problem) return;
  *problem = (struct polygon_problem){.placed = false};
  snprintf(problem->text, sizeof problem->text, "%s", text);
}

static void say_at(struct polygon_problem *problem, const char *text, struct polygon_point at) {
  if (!problem) return;
  say(problem, text);
  problem->placed = true;
  problem->at = at;
}

static void hear(const char *message, void *polygon) {
  struct polygon *listener = polygon;
  snprintf(listener->heard, sizeof listener->heard, "%s", message);
}

static const char NO_MEMORY[] = "no memory for an outline";

// GEOS tells of its own failures, lack of memory among them, through `hear`.
static void say_heard(const struct polygon *polygon, struct polygon_problem *problem) {
  const char *heard = polygon->heard[0] ? polygon->heard : "the outline could not be worked out";
  say(problem, strstr(heard, "bad_alloc") ? NO_MEMORY : heard);
}

// GEOS_init_r is the one call that does not catch its own lack of memory (GEOS 3.11): there the program ends.
static struct polygon *handle_new(struct polygon_problem *problem) {
  struct polygon *polygon = calloc(1, sizeof *polygon);
  if (polygon) polygon->geos = GEOS_init_r();
  if (polygon && polygon->geos) {
    GEOSContext_setErrorMessageHandler_r(polygon->geos, hear, polygon);
    return polygon;
  }
  free(polygon);
  say(problem, NO_MEMORY);
  return NULL;
}

void polygon_free(struct polygon *polygon) {
  if (!polygon) return;
  if (polygon->shape) GEOSGeom_destroy_r(polygon->geos, polygon->shape);
  GEOS_finish_r(polygon->geos);
  free(polygon);
}

static bool are_points_good(const struct polygon_point *points, size_t count, struct polygon_problem *problem) {
  for (size_t i = 0; i < count; i++) {
    if (!isfinite(points[i].x) || !isfinite(points[i].y)) {
      say(problem, "a point of the outline is not a number");
      return false;
    }
    if (fabs(points[i].x) > POLYGON_FARTHEST || fabs(points[i].y) > POLYGON_FARTHEST) {
      say_at(problem, "a point of the outline is too far away to be meant", points[i]);
      return false;
    }
  }
  if (count >= 3 && count < 1000000) return true;
  say(problem, count < 3 ? "an outline has at least three points" : "the outline has too many points");
  return false;
}

static GEOSGeometry *shape_from(GEOSContextHandle_t geos, const struct polygon_point *points, size_t count) {
  const struct polygon_point first = points[0], last = points[count - 1];
  const bool closed = first.x == last.x && first.y == last.y;
  const unsigned size = (unsigned)count + (closed ? 0 : 1);
  GEOSCoordSequence *sequence = GEOSCoordSeq_create_r(geos, size, 2);
  if (!sequence) return NULL;
  for (unsigned i = 0; i < size; i++) {
    const struct polygon_point *point = &points[i % count];
    if (!GEOSCoordSeq_setXY_r(geos, sequence, i, point->x, point->y)) {
      GEOSCoordSeq_destroy_r(geos, sequence);
      return NULL;
    }
  }
  GEOSGeometry *ring = GEOSGeom_createLinearRing_r(geos, sequence);  // takes the sequence, also when it fails
  return ring ? GEOSGeom_createPolygon_r(geos, ring, NULL, 0) : NULL;
}

static bool read_xy(GEOSContextHandle_t geos, const GEOSGeometry *point, struct polygon_point *xy) {
  return GEOSGeomGetX_r(geos, point, &xy->x) == 1 && GEOSGeomGetY_r(geos, point, &xy->y) == 1;
}

static bool is_shape_valid(struct polygon *polygon, struct polygon_problem *problem) {
  char *reason = NULL;
  GEOSGeometry *place = NULL;
  const char valid = GEOSisValidDetail_r(polygon->geos, polygon->shape, 0, &reason, &place);
  struct polygon_point at;
  if (valid == 2) {
    say_heard(polygon, problem);
  } else if (valid == 0) {
    const char *text = reason && strstr(reason, "Too few points") ? "the outline has no area"
                                                                  : "the outline crosses or touches itself";
    if (place && read_xy(polygon->geos, place, &at)) {
      say_at(problem, text, at);
    } else {
      say(problem, text);
    }
  }
  if (place) GEOSGeom_destroy_r(polygon->geos, place);
  if (reason) GEOSFree_r(polygon->geos, reason);
  return valid == 1;
}

static bool measure(struct polygon *polygon, struct polygon_problem *problem) {
  GEOSGeometry *centre = GEOSGetCentroid_r(polygon->geos, polygon->shape);
  const bool done = centre && read_xy(polygon->geos, centre, &polygon->centroid) &&
                    GEOSArea_r(polygon->geos, polygon->shape, &polygon->area) == 1 &&
                    GEOSLength_r(polygon->geos, polygon->shape, &polygon->perimeter) == 1;
  if (centre) GEOSGeom_destroy_r(polygon->geos, centre);
  if (!done) say_heard(polygon, problem);
  return done;
}

struct polygon *polygon_new(const struct polygon_point *points, size_t count, struct polygon_problem *problem) {
  if (!are_points_good(points, count, problem)) return NULL;
  struct polygon *polygon = handle_new(problem);
  if (!polygon) return NULL;
  polygon->shape = shape_from(polygon->geos, points, count);
  if (!polygon->shape) {
    say_heard(polygon, problem);
  } else if (is_shape_valid(polygon, problem) && measure(polygon, problem)) {
    if (polygon->area > 0) return polygon;
    say(problem, "the outline has no area");
  }
  polygon_free(polygon);
  return NULL;
}

double polygon_area(const struct polygon *polygon) { return polygon->area; }

double polygon_perimeter(const struct polygon *polygon) { return polygon->perimeter; }

struct polygon_point polygon_centroid(const struct polygon *polygon) {
  return polygon->centroid;
}

// NULL on failure; may be empty.
static GEOSGeometry *moved_shape(GEOSContextHandle_t geos, const GEOSGeometry *shape, double inward) {
  GEOSBufferParams *how = GEOSBufferParams_create_r(geos);
  if (!how) return NULL;
  GEOSGeometry *moved = NULL;
  if (GEOSBufferParams_setJoinStyle_r(geos, how, GEOSBUF_JOIN_MITRE) &&
      GEOSBufferParams_setMitreLimit_r(geos, how, POLYGON_MITRE_LIMIT)) {
    moved = GEOSBufferWithParams_r(geos, shape, how, -inward);
  }
  GEOSBufferParams_destroy_r(geos, how);
  return moved;
}

static bool is_distance(double distance, struct polygon_problem *problem) {
  if (fabs(distance) <= POLYGON_FARTHEST) return true;
  say(problem, "an outline cannot be moved by that distance");
  return false;
}

bool polygon_inset(const struct polygon *polygon, double distance, struct polygon_inset *inset,
                   struct polygon_problem *problem) {
  if (!is_distance(distance, problem)) return false;
  GEOSGeometry *moved = moved_shape(polygon->geos, polygon->shape, distance);
  *inset = (struct polygon_inset){.distance = distance};
  const bool done = moved && GEOSArea_r(polygon->geos, moved, &inset->area) == 1 &&
                    GEOSLength_r(polygon->geos, moved, &inset->perimeter) == 1;
  if (done && inset->area > 0) inset->pieces = (size_t)GEOSGetNumGeometries_r(polygon->geos, moved);
  if (moved) GEOSGeom_destroy_r(polygon->geos, moved);
  if (!done) say_heard(polygon, problem);
  return done;
}

struct polygon *polygon_inset_new(const struct polygon *polygon, double distance, struct polygon_problem *problem) {
  say(problem, "");
  if (!is_distance(distance, problem)) return NULL;
  struct polygon *moved = handle_new(problem);
  if (!moved) return NULL;
  moved->shape = moved_shape(moved->geos, polygon->shape, distance);
  if (!moved->shape) {
    say_heard(moved, problem);
  } else if (!GEOSisEmpty_r(moved->geos, moved->shape) && measure(moved, problem)) {
    return moved;
  }
  polygon_free(moved);
  return NULL;
}

size_t polygon_pieces(const struct polygon *polygon) {
  const int pieces = GEOSGetNumGeometries_r(polygon->geos, polygon->shape);
  return pieces > 0 ? (size_t)pieces : 0;
}

// Borrowed from the shape; NULL when there is no such piece.
static const GEOSCoordSequence *outer_ring(GEOSContextHandle_t geos, const GEOSGeometry *shape, size_t piece) {
  const GEOSGeometry *part = GEOSGetGeometryN_r(geos, shape, (int)piece);
  const GEOSGeometry *ring = part ? GEOSGetExteriorRing_r(geos, part) : NULL;
  return ring ? GEOSGeom_getCoordSeq_r(geos, ring) : NULL;
}

// Points of a ring without the last, which repeats the first.
static size_t ring_points(GEOSContextHandle_t geos, const GEOSCoordSequence *ring, struct polygon_point *into,
                          size_t room) {
  unsigned size = 0;
  if (!ring || !GEOSCoordSeq_getSize_r(geos, ring, &size) || size < 2) return 0;
  const size_t count = size - 1;
  for (unsigned i = 0; i < count && i < room; i++) {
    if (!GEOSCoordSeq_getXY_r(geos, ring, i, &into[i].x, &into[i].y)) return 0;
  }
  return count;
}

size_t polygon_ring(const struct polygon *polygon, size_t piece, struct polygon_point *into, size_t room) {
  if (piece >= polygon_pieces(polygon)) return 0;
  return ring_points(polygon->geos, outer_ring(polygon->geos, polygon->shape, piece), into, room);
}

size_t polygon_holes(const struct polygon *polygon, size_t piece) {
  if (piece >= polygon_pieces(polygon)) return 0;
  const int holes =
      GEOSGetNumInteriorRings_r(polygon->geos, GEOSGetGeometryN_r(polygon->geos, polygon->shape, (int)piece));
  return holes > 0 ? (size_t)holes : 0;
}

size_t polygon_hole(const struct polygon *polygon, size_t piece, size_t hole, struct polygon_point *into, size_t room) {
  if (hole >= polygon_holes(polygon, piece)) return 0;
  const GEOSGeometry *part = GEOSGetGeometryN_r(polygon->geos, polygon->shape, (int)piece);
  const GEOSGeometry *ring = GEOSGetInteriorRingN_r(polygon->geos, part, (int)hole);
  return ring_points(polygon->geos, GEOSGeom_getCoordSeq_r(polygon->geos, ring), into, room);
}

static double distance_between(struct polygon_point a, struct polygon_point b) { return hypot(b.x - a.x, b.y - a.y); }

static double direction(struct polygon_point from, struct polygon_point to) {
  const double pi = acos(-1);
  const double angle = atan2(to.y - from.y, to.x - from.x);
  const double turned = angle < 0 ? angle + pi : angle;
  return turned >= pi ? turned - pi : turned;
}

static void extents_of(const struct polygon_point corner[3], struct polygon_extents *extents) {
  const double first = distance_between(corner[0], corner[1]), second = distance_between(corner[1], corner[2]);
  const size_t longer = first >= second ? 0 : 1;
  *extents = (struct polygon_extents){.length = fmax(first, second),
                                      .width = fmin(first, second),
                                      .angle = direction(corner[longer], corner[longer + 1])};
}

bool polygon_extents(const struct polygon *polygon, struct polygon_extents *extents, struct polygon_problem *problem) {
  GEOSGeometry *box = GEOSMinimumRotatedRectangle_r(polygon->geos, polygon->shape);
  const GEOSCoordSequence *ring = box ? outer_ring(polygon->geos, box, 0) : NULL;
  struct polygon_point corner[3];
  bool done = ring != NULL;
  for (unsigned i = 0; done && i < 3; i++) {
    done = GEOSCoordSeq_getXY_r(polygon->geos, ring, i, &corner[i].x, &corner[i].y) == 1;
  }
  if (done) {
    extents_of(corner, extents);
  } else {
    say_heard(polygon, problem);
  }
  if (box) GEOSGeom_destroy_r(polygon->geos, box);
  return done;
}
