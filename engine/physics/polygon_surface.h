// SPDX-License-Identifier: MIT
// Ground out of surveyed points: plane triangles between them (Delaunay, on GEOS). m, m3; heights over any datum.
// Ground between two points is taken as straight; a break of slope that nobody measured is not there. Memory: what
// `_new` gives, `_free` takes back. Failure: NULL or NaN, and `problem` says what and where. One handle, one thread.
#ifndef FOREBAY_PHYSICS_POLYGON_SURFACE_H
#define FOREBAY_PHYSICS_POLYGON_SURFACE_H

#include "physics/polygon.h"

#define POLYGON_SURFACE_POINTS 2000  // at most
#define POLYGON_SURFACE_APART 1e-3   // m: nearer than this two points are one place, and are refused

struct polygon_surface_point {
  double x, y, z;  // easting, northing, elevation
};

struct polygon_surface;
struct polygon_surface *polygon_surface_new(const struct polygon_surface_point *points, size_t count,
                                            struct polygon_problem *problem);
void polygon_surface_free(struct polygon_surface *surface);

double polygon_surface_height(const struct polygon_surface *surface, struct polygon_point at);  // outside: NaN
size_t polygon_surface_count(const struct polygon_surface *surface);                            // triangles
void polygon_surface_triangle(const struct polygon_surface *surface, size_t i, struct polygon_surface_point corners[3]);
// Sides of triangles that border on nothing surveyed.
size_t polygon_surface_border_count(const struct polygon_surface *surface);
void polygon_surface_border(const struct polygon_surface *surface, size_t i, struct polygon_surface_point ends[2]);
// Heights of the points, lowest first; as many as points.
const double *polygon_surface_heights(const struct polygon_surface *surface, size_t *count);

struct polygon_pit {
  const struct polygon *bottom;
  double level;  // of the bottom
  double side;   // run over rise of its sides, corners mitred; 0 upright
};
// Ground in the pit: bottom outline outset as it rises, area under the ground integrated over the height. Right to a
// part in 1,000 or better. A survey that ends inside the pit: NaN. Beyond where the sides come out, ground that rises
// over them once more would be counted: keep the survey near the pit.
double polygon_surface_cut(const struct polygon_surface *surface, const struct polygon_pit *pit,
                           struct polygon_problem *problem);

#endif
