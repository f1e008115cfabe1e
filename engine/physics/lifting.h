// SPDX-License-Identifier: MIT
// Slings and machines. Angles are taken from level (rad): the flatter a leg, the more it carries. kg, m, Pa.
// A sling's tag, a machine's own chart and a qualified rigger stand over every figure here. Factors: ASME B30.9 as
// reprinted in rigging charts (seen); choker at 80 % of vertical: chain, rigging guides (seen). Machine ratings: ISO
// 10567 / SAE J1097 as a machine's manual quotes them (seen). Bad input, and anything beyond a table: NaN.
#ifndef FOREBAY_PHYSICS_LIFTING_H
#define FOREBAY_PHYSICS_LIFTING_H

#include <stdbool.h>
#include <stddef.h>

#define LIFTING_LEAST_ANGLE 0.52359877559829887308  // rad (30 degrees from level): not flatter without the maker's word

// Legs that may be counted on: of a rigid stone two, however many hang; of a load that gives, three at most.
unsigned lifting_legs_carrying(unsigned legs, bool rigid);
double lifting_leg_load(double mass, unsigned legs, double angle_from_level, bool rigid);

enum lifting_hitch { LIFTING_VERTICAL, LIFTING_CHOKER, LIFTING_BASKET, LIFTING_HITCHES };
// Share of a sling's vertical rating. `angle`: of the choke (between the two parts at the choke, pi when it hangs
// straight), or of a basket's legs from level; of a vertical hitch not read.
double lifting_hitch_factor(enum lifting_hitch hitch, double angle);
double lifting_choke_share(double choke_angle);  // of the choker rating

struct lifting_row {
  double reach, rated;  // m, kg; reaches rising
};
// Rating between two rows of a chart by 1/reach, which never reads higher than a straight line; many makers allow only
// the rating of the next longer reach: lifting_rated_next_row. Nearer than the first row, or past the last: NaN.
double lifting_rated(const struct lifting_row *chart, size_t count, double reach);
double lifting_rated_next_row(const struct lifting_row *chart, size_t count, double reach);
double lifting_left(double rated, double deductions);  // bucket, coupler, rigging off the chart; never under 0

double lifting_rated_capacity(double tipping, double hydraulic);                      // the lower of 75 % and 87 %
double lifting_track_pressure(double mass, double track_length, double track_width);  // two tracks, even

#endif
