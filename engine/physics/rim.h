// SPDX-License-Identifier: MIT
// Water over an edge that is not level: the measured rim of a hollow, or a lip out of level. m, m3/s, C in m^0.5/s. One
// water level h stands over the whole edge and each bit of it passes C (h - z)^1.5 ds, edge straight between the
// points; the integral is exact. The law is the level lip's (weir.h), with its doubts: at these heads it is out of its
// calibration, and levels to a 16th of an inch tell more than C. Bad input: NaN.
#ifndef FOREBAY_PHYSICS_RIM_H
#define FOREBAY_PHYSICS_RIM_H

#include <stdbool.h>
#include <stddef.h>

struct rim_point {
  double at;     // along the rim, from 0, rising
  double level;  // of the rim there
};

struct rim {
  const struct rim_point *points;
  size_t count;   // 2 or more
  double length;  // of the whole rim; > the last `at` where it is closed, and not read where it is not
  bool closed;    // the last point joins the first
};

double rim_length(const struct rim *rim);
double rim_lowest(const struct rim *rim);
double rim_flow(const struct rim *rim, double coefficient, double level);            // at a water level
double rim_level(const struct rim *rim, double coefficient, double flow);            // no flow: the lowest point
double rim_wet_share(const struct rim *rim, double level);                           // of the length
double rim_flow_share_of_lowest(const struct rim *rim, double level, double share);  // over its lowest `share`

// A straight lip, one end lower by `fall`.
struct rim_tilt {
  double head_low, head_high;  // over the low end, over the high end (0 when it is dry)
  double dry_share;            // of the width
  double shifted;              // share of the flow that goes over elsewhere than on a level lip
  double local;                // excess of flow per width at the low end, as a share of the even one: nowhere more
};
struct rim_tilt rim_tilt(double width, double fall, double coefficient, double flow);
// The fall at which `local` is this much; no less than 0 and no more than would leave the high end dry.
double rim_fall_for(double width, double coefficient, double flow, double local);

#endif
