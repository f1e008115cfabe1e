// SPDX-License-Identifier: MIT
// A pump by the points its maker gives. Flow m3/s, head m, speed as a share of the speed the points were taken at.
// Between points the head follows the shape-keeping cubic of Fritsch & Carlson (SIAM J. Numer. Anal. 17, 1980; slopes
// as in scipy's PchipInterpolator): no bulge between points. Left of the first point its head holds. Beyond the last
// point nothing is known and the head counts as 0. Speed: flow goes with it, head with its square (affinity laws).
#ifndef FOREBAY_PHYSICS_PUMP_H
#define FOREBAY_PHYSICS_PUMP_H

#include <stdbool.h>
#include <stddef.h>

struct pump_point {
  double flow, head;
};

struct pump_curve {
  const struct pump_point *points;  // borrowed; flows rising
  size_t count;                     // 2 or more
  double speed;                     // 1 = as the points were taken
};

struct pump_duty {
  double flow, head;
  bool beyond;  // the system asks less head than the last point gives: the pump runs off the end of its curve
};

// Index of the first point that is wrong (flow not over the one before, anything negative or not a number), or `count`
// when the curve is good. A curve of one point is wrong at 0. The functions below give NaN for a bad curve.
size_t pump_curve_fault(const struct pump_curve *curve);

double pump_head(const struct pump_curve *curve, double flow);
double pump_head_slope(const struct pump_curve *curve, double flow);  // dH/dQ, s/m2; 0 outside the points
double pump_shut_off_head(const struct pump_curve *curve);
double pump_greatest_flow(const struct pump_curve *curve);  // the last point, at this speed

// Where pump and system meet, to 1e-12 of the greatest flow. The system's head must not fall with flow. Asks for the
// shut-off head or more at no flow: flow 0. Where a drooping curve meets twice, one of the meetings.
struct pump_duty pump_operating_point(const struct pump_curve *curve, double (*system_head)(double flow, void *with),
                                      void *with);

double pump_water_power(double flow, double head);                     // W given to water of 15 C
double pump_shaft_power(double flow, double head, double efficiency);  // W; efficiency 0 to 1
double pump_power_at_speed(double power, double speed);                // cube of the speed share

// Cover over an intake below which swirls draw air: S = D (1 + 2.3 V/sqrt(g D)), ANSI/HI 9.8 (second hand).
double pump_intake_cover(double flow, double bore);

#endif
