// SPDX-License-Identifier: MIT
// What a block does to the ground it stands on, per metre of its length. rad, m, kg/m3, N/m, Pa.
// Pressure: rigid base on ground that cannot pull (statics). Bearing: strip load, no cohesion, Prandtl's Nq and Vesic's
// Ngamma = 2 (Nq + 1) tan phi (bearing capacity textbooks; NAVFAC DM 7.02, from memory). Presumed bearing: IBC 2012
// Table 1806.2 (second hand); soft ground, fill and peat have none. Bad input: NaN in all results.
#ifndef FOREBAY_PHYSICS_FOOTING_H
#define FOREBAY_PHYSICS_FOOTING_H

#include <stdbool.h>

struct footing_soil {
  double phi;      // friction angle
  double density;  // in water: less the water's
  double bedding;  // depth of ground beside the base, above it
};

double footing_surcharge_factor(double phi);  // Nq
double footing_weight_factor(double phi);     // Ngamma

// Width w of ground that a load asks for: load / w = q Nq + 0.5 g w Ngamma. A block that tips on soft ground turns
// about a line half of this inside the edge of its seat.
double footing_width_asked(const struct footing_soil *soil, double load);

struct footing_pressure {
  double resultant;     // of the load, m from the front edge
  double eccentricity;  // from the middle, to the front
  double front, rear;   // Pa under the edges; 0 where the base lifts
  double contact;       // m of the width that still bears
  bool in_kern;         // all of it bears
};
// Resultant at or past an edge: contact 0 and pressure INFINITY there; the block goes over.
struct footing_pressure footing_pressure(double load, double width, double resultant);

enum footing_ground {
  FOOTING_CRYSTALLINE_ROCK,
  FOOTING_SEDIMENTARY_ROCK,
  FOOTING_GRAVEL,
  FOOTING_SAND,
  FOOTING_CLAY,
  FOOTING_GROUNDS
};
double footing_presumed_bearing(enum footing_ground ground);  // Pa
double footing_presumed_lateral(enum footing_ground ground);  // Pa per m of depth

#endif
