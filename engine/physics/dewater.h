// SPDX-License-Identifier: MIT
// Ground water that comes into an open pit, steady. m, m2, m/s, m3/s. Where tight ground is known below: Dupuit and
// Forchheimer for a large well of the pit's area, Q = pi K (H^2 - h^2)/ln(R/r). Where none is known: the same through
// the sides for the ground above the pit's bottom, and Forchheimer's open bottom, Q = 4 K r s, besides. Reach:
// Sichardt, R = 3000 s sqrt(K) beyond the pit. All from memory (Powers, Construction Dewatering; groundwater texts). K
// is known to a power of ten at best, and so is the inflow: work it out for a range of K, and watch what comes. Bad
// input: NaN.
#ifndef FOREBAY_PHYSICS_DEWATER_H
#define FOREBAY_PHYSICS_DEWATER_H

struct dewater_pit {
  double area;          // of its bottom
  double permeability;  // K
  double thickness;     // H: of water-bearing ground from the water table down to tight ground; INFINITY: none known
  double lowering;      // s: of the water table at the pit, at most H
};

double dewater_radius(double area);  // of the round pit with that area
double dewater_reach(const struct dewater_pit *pit);
double dewater_side_inflow(const struct dewater_pit *pit);
double dewater_bottom_inflow(const struct dewater_pit *pit);  // 0 where tight ground is known
double dewater_inflow(const struct dewater_pit *pit);         // both

#endif
