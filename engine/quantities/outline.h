// SPDX-License-Identifier: MIT
// From a design's outlines to areas at an inset.
#ifndef FOREBAY_QUANTITIES_OUTLINE_H
#define FOREBAY_QUANTITIES_OUTLINE_H

#include "physics/polygon.h"
#include "quantities/read.h"

// The outline of a basin, taken apart by physics/polygon; released with the evaluation's arena. NULL: a mark was set
// (missing points, or a problem at the outline's line when it crosses itself).
struct polygon_profile *outline_of_basin(struct evaluation *ev, struct basin_ref basin);
struct polygon_profile *outline_of_wall(struct evaluation *ev, struct wall_ref wall);

// As GEOS has it; made when first asked for, never NULL.
const struct polygon *outline_polygon(struct evaluation *ev, struct polygon_profile *outline);

// Area inset by a distance (outset when negative), 0 where nothing is left.
double outline_area(struct evaluation *ev, struct polygon_profile *outline, double inset);

#endif
