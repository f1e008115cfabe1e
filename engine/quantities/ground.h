// SPDX-License-Identifier: MIT
// Pits under ground that is level, a plane or surveyed. m, heights over the site's datum.
#ifndef FOREBAY_QUANTITIES_GROUND_H
#define FOREBAY_QUANTITIES_GROUND_H

#include "physics/polygon.h"
#include "quantities/read.h"

// Sides of a pit from the bottom up: risers at one slope, with level steps between them.
struct pit_step {
  double height, width;  // over the bottom
};
struct pit_sides {
  const struct polygon *bottom;
  double level;                  // of the bottom
  double slope;                  // run over rise
  const struct pit_step *steps;  // from the bottom up
  size_t count;
};

bool ground_is_level(const struct ground_shape *ground);
// Highest ground over an outline, looked at along its edge and at the points inside; NaN: the survey ends inside.
double ground_highest(const struct ground_shape *ground, const struct polygon *outline);

double pit_reach(const struct pit_sides *sides, double height);  // outside its bottom; at a step: just below it
// Height of the highest side. NaN: the survey ends inside. INFINITY: the ground rises as steeply as the sides.
double pit_height(const struct ground_shape *ground, const struct pit_sides *sides);
// Ground in a pit of that height. NaN: `problem` says why.
double pit_volume(const struct ground_shape *ground, const struct pit_sides *sides, double height,
                  struct polygon_problem *problem);
double pit_top_area(const struct ground_shape *ground, const struct pit_sides *sides, double height,
                    struct polygon_problem *problem);

#endif
