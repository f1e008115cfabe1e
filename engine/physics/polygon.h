// SPDX-License-Identifier: MIT
// Outlines seen from above, on GEOS. m, m2. A ring is points either way round; it closes by itself (the first point
// need not be repeated). Nothing here is shared between handles: two threads may work on two outlines. Memory: what a
// `_new` gives a `_free` takes back. Failure (bad outline, no memory in GEOS): NULL or false, and `problem` says what
// and, where it has one, the place.
#ifndef FOREBAY_PHYSICS_POLYGON_H
#define FOREBAY_PHYSICS_POLYGON_H

#include <stdbool.h>
#include <stddef.h>

struct polygon_point {
  double x, y;
};

struct polygon_problem {
  char text[128];           // a sentence part: "the outline crosses itself"
  bool placed;              // `at` is known
  struct polygon_point at;  // where it crosses, or the point that is wrong
};

// Points that `polygon_ellipse` makes. Its area is exactly the ellipse's (the ring is stretched by what its corners cut
// off) and its perimeter is right to 2 parts in a million.
#define POLYGON_ELLIPSE_POINTS 1024
void polygon_ellipse(double length, double width, struct polygon_point into[POLYGON_ELLIPSE_POINTS]);
void polygon_rectangle(double length, double width, struct polygon_point into[4]);

// Point at this distance along the ring from its first point, in the order given (negative: backwards; wraps round).
struct polygon_point polygon_along(const struct polygon_point *points, size_t count, double distance);

// A point further off than this from the origin is refused: it is a slip, and digits would be lost.
#define POLYGON_FARTHEST 1e6

struct polygon;  // one or several pieces, each with or without holes; never empty
struct polygon *polygon_new(const struct polygon_point *points, size_t count, struct polygon_problem *problem);
void polygon_free(struct polygon *polygon);

double polygon_area(const struct polygon *polygon);
double polygon_perimeter(const struct polygon *polygon);  // holes included
struct polygon_point polygon_centroid(const struct polygon *polygon);

struct polygon_extents {
  double length, width;  // of the rectangle round it that is turned to its least width; length >= width
  double angle;          // rad from the x axis to the length, 0 <= angle < pi
};
bool polygon_extents(const struct polygon *polygon, struct polygon_extents *extents, struct polygon_problem *problem);

// Moved inward by `distance` (outward if negative) with mitred corners; a corner so sharp that its mitre would reach
// over so many distances is cut off. Gone altogether: area 0, perimeter 0, pieces 0.
#define POLYGON_MITRE_LIMIT 5.0
struct polygon_inset {
  double distance, area, perimeter;
  size_t pieces;
};
bool polygon_inset(const struct polygon *polygon, double distance, struct polygon_inset *inset,
                   struct polygon_problem *problem);

// The moved outline itself; NULL without a problem text when nothing is left.
struct polygon *polygon_inset_new(const struct polygon *polygon, double distance, struct polygon_problem *problem);
size_t polygon_pieces(const struct polygon *polygon);
// Outer ring of a piece without repeating its first point. Gives the number of points; writes at most `room` of them.
size_t polygon_ring(const struct polygon *polygon, size_t piece, struct polygon_point *into, size_t room);
size_t polygon_holes(const struct polygon *polygon, size_t piece);
size_t polygon_hole(const struct polygon *polygon, size_t piece, size_t hole, struct polygon_point *into, size_t room);

// An outline with its insets kept: each distance is worked out once (POLYGON_PROFILE_KEEPS latest). A convex one is
// measured and moved without GEOS, as far as polygon_convex.h goes. Not for two threads.
#define POLYGON_PROFILE_KEEPS 64
struct polygon_profile;
struct polygon_profile *polygon_profile_new(const struct polygon_point *points, size_t count, const double *distances,
                                            size_t distance_count, struct polygon_problem *problem);
void polygon_profile_free(struct polygon_profile *profile);
double polygon_profile_area(const struct polygon_profile *profile);
double polygon_profile_perimeter(const struct polygon_profile *profile);
const struct polygon *polygon_profile_outline(
    struct polygon_profile *profile);  // made when first asked for; NULL: no memory
bool polygon_profile_at(struct polygon_profile *profile, double distance, struct polygon_inset *inset,
                        struct polygon_problem *problem);
// Radius of the widest circle inside, to 2 parts in 10^8 of `most`, which it cannot be above. NaN: no memory.
double polygon_profile_inradius(struct polygon_profile *profile, double most);

#endif
