// SPDX-License-Identifier: MIT
// Water through clean stone. The gradient i (fall of the water table / path) asks i = a v + b v^2 (Forchheimer), with a
// and b by Ergun (Chem. Eng. Prog. 48, 1952): 150 and 1.75. v is the flow over the whole section, stone and voids
// together. Darcy's law with one K is wrong several times over for stone above about 5 mm. Porosity enters with its
// third power, so silt counts: work out the silted case too. Stone size m, viscosity m2/s, porosity as a share (0 < n <
// 1). A stone, porosity, area or length outside its range, or NaN: NaN. A gradient <= 0: no flow.
#ifndef FOREBAY_PHYSICS_GRAVEL_H
#define FOREBAY_PHYSICS_GRAVEL_H

struct gravel {
  double a;  // s/m
  double b;  // s2/m2
};

struct gravel gravel_law(double stone_size, double porosity, double viscosity);
double gravel_gradient(const struct gravel *law, double speed);              // asked by a speed; sign of the speed
double gravel_speed(const struct gravel *law, double gradient);              // m/s over the whole section
double gravel_flow(const struct gravel *law, double gradient, double area);  // m3/s, section full and constant

// m3/s through an open layer whose water falls from depth `upstream` to `downstream` over `length` (level bed, Dupuit).
double gravel_unconfined_flow(const struct gravel *law, double width, double upstream, double downstream,
                              double length);

double gravel_void_volume(double bulk_volume, double porosity);  // m3 of water the voids hold

#endif
