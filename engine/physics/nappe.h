// SPDX-License-Identifier: MIT
// The sheet after the lip. q is flow per width of lip, m2/s; lengths in m, speeds in m/s.
// q <= 0 gives 0 everywhere; NaN gives NaN.
// Sources: critical depth and brink depth 0.715 y_c (Rouse 1936, level approach, air under the sheet); free path of a
// body thrown level; breakup after a fall of 6 q^0.32 m (Horeni 1956, from memory; made for large falls); Weber number
// of a film's free edge (Taylor 1959 / Culick 1960, from memory).
#ifndef FOREBAY_PHYSICS_NAPPE_H
#define FOREBAY_PHYSICS_NAPPE_H

#include "physics/band.h"

double nappe_critical_depth(double q);  // (q^2/g)^(1/3)
double nappe_brink_depth(double q);     // water on the edge itself
double nappe_brink_speed(double q);     // mean over the brink depth

double nappe_fall_time(double drop);                // s
double nappe_reach(double speed, double drop);      // level distance of water that leaves level at this speed
double nappe_landing_speed(double q, double drop);  // no loss in the air: an upper bound

// How far out the sheet lands. With a clean drip edge 0.715 to 1.0 of brink speed x time of fall, likely their mean; a
// sheet without one likely clings and lands at the foot of the stone, but may let go: 0, likely 0, to the whole throw.
struct band nappe_throw(double q, double drop, bool clean_edge);

double nappe_sheet_length(double q);   // m of fall after which a sheet has broken up
double nappe_sheet_flow(double drop);  // m2/s that a drop asks for to stay a sheet (the inverse)
double nappe_weber(double q);          // above 1 a hole in the film is carried off faster than it grows

#endif
