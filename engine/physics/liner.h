// SPDX-License-Identifier: MIT
// Size, weight and ballast of a membrane. m, m2, kg, kg/m2, Pa. Sizes by geometry; the rule of thumb (length + 2 x
// depth
// + 2 x overlap) is never short on sides that are not undercut, and exact where all faces are upright. Uplift: the
// flotation factor of USACE ETL 1110-2-307, (Ws + Wc + S)/(U - Wg). Bad input: NaN.
#ifndef FOREBAY_PHYSICS_LINER_H
#define FOREBAY_PHYSICS_LINER_H

#include <stddef.h>

struct liner_point {
  double along, level;
};
// Length of membrane along a section that is given point by point, from edge to edge, with an overlap at both ends.
double liner_along(const struct liner_point *section, size_t count, double overlap);

// The same for a section with two like sides; shelves on the way down change nothing but where it bends. `side`: run
// over rise.
double liner_run(double top, double depth, double side, double overlap);
double liner_rule_of_thumb(double top, double depth, double overlap);

double liner_pieces(double width, double roll, double lap);  // rolls side by side
double liner_mass(double length, double width, double mass_per_area);

struct liner_uplift {
  double structure;  // Ws, dry weight of what lies there: membrane, bed
  double contained;  // Wc, water in the basin
  double surcharge;  // S, what stands on it: stone, gravel
  double uplift;     // U, of the ground water on the underside
  double above;      // Wg, ground water standing over the top of it
};
// All as pressures, or all as forces. No uplift: INFINITY.
double liner_uplift_factor(const struct liner_uplift *uplift);
double liner_ballast_depth(double ground_water, double factor, double ballast_density);  // that an empty bed asks

#endif
