// SPDX-License-Identifier: MIT
// Flat stones that stick out over a support, held by their weight alone (a mortar bond does not count). m, kg/m3, N,
// Pa. Statics. Natural stone breaks without warning and a jump doubles the load: results are for a strength divided by
// a large factor. Bad input: NaN.
#ifndef FOREBAY_PHYSICS_COPING_H
#define FOREBAY_PHYSICS_COPING_H

struct coping {
  double length;  // along the wall
  double depth;   // across the wall, overhang included
  double thickness;
  double overhang;  // past the face of the support
  double density;
};

double coping_weight(const struct coping *coping);  // N

// Holding moment over tipping moment about the face of the support, with a load at the outer edge. No load, or no
// overhang: INFINITY while the weight rests on the support. Centre of mass at or past the face: 0 or less.
double coping_tipping_factor(const struct coping *coping, double edge_load);
double coping_greatest_overhang(const struct coping *coping, double edge_load,
                                double factor);  // at which it still has the factor

// Bending stress at the face of the support, load at the tip, carried by a strip this wide (12 in is usual).
double coping_cantilever_stress(const struct coping *coping, double strip, double edge_load);
// The same slab as a bridge over `span`, load in the middle.
double coping_span_stress(double span, double strip, double thickness, double density, double load);

#endif
