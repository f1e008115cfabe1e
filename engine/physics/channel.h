// SPDX-License-Identifier: MIT
// Steady flow in an open reach: trapezoid (side 0 = rectangle), Manning. m, m3/s; slope as fall over length; n in
// s/m^(1/3). Depths are found to rounding by bisection. No flow: depth 0. A width or n or slope <= 0, anything
// negative, NaN: NaN. Manning's n is for water that stands well over the stones of its bed (Chow 1959 ch. 5; Barnes,
// USGS WSP 1849, depths of feet). At inch depths nobody knows it: hence the bands, and `outside` below
// CHANNEL_LEAST_DEPTH (common practice, no source).
#ifndef FOREBAY_PHYSICS_CHANNEL_H
#define FOREBAY_PHYSICS_CHANNEL_H

#include "physics/band.h"

#define CHANNEL_LEAST_DEPTH 0.1524  // m (6 in)

struct channel {
  double width;  // of the bed, m
  double side;   // run of each side per unit of rise
  double slope;  // of the bed, fall / length
  double n;      // Manning
};

double channel_area(const struct channel *channel, double depth);
double channel_top_width(const struct channel *channel, double depth);
double channel_wetted_perimeter(const struct channel *channel, double depth);
double channel_capacity(const struct channel *channel, double depth);  // m3/s that flows at this depth
double channel_velocity(const struct channel *channel, double flow);   // m/s at normal depth

double channel_normal_depth(const struct channel *channel, double flow);
double channel_critical_depth(const struct channel *channel, double flow);

struct band channel_depth(const struct channel *channel, double flow);  // normal depth with n halved, as given, doubled
// Water that the flow holds in a reach and that runs down when it stops (m3): area at normal depth x length, +/- 50 %.
struct band channel_live_volume(const struct channel *channel, double flow, double length);

#endif
