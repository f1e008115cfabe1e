// SPDX-License-Identifier: MIT
// Volumes and a few areas from plain geometry (any handbook of mensuration). m, m2, m3, kg; `side` is run per rise.
// Widths and lengths are full ones (a circle's diameter). A negative or NaN measure gives NaN.
// Pits with sloped sides go by the prismoidal rule, which is exact for plane sides; the mean of end areas is 5 to 10 %
// too high, the pyramid frustum is right only when top and bottom have one shape.
#ifndef FOREBAY_PHYSICS_SOLID_H
#define FOREBAY_PHYSICS_SOLID_H

double solid_prismoid(double top_area, double middle_area, double bottom_area, double depth);
double solid_box(double length, double width, double height);
double solid_ellipse_area(double length, double width);
double solid_ellipse_perimeter(double length, double width);  // by the arithmetic-geometric mean, to rounding
double solid_ellipsoid(double length, double width, double height);
double solid_cone_frustum(double top_diameter, double bottom_diameter, double height);
double solid_wedge(double base_length, double base_width, double ridge_length,
                   double height);  // upright ridge over the middle

// A pit that is a rectangle at the top. Where the sides meet before the depth is reached, NaN: it cannot be dug so.
double solid_rectangle_pit(double top_length, double top_width, double side, double depth);
double solid_trapezoid_area(double top, double bottom, double height);
double solid_top_width(double bottom, double side, double depth);  // at the top of a trench with two sloped sides

// A boulder fills a share of its box: sawn 1.0, squared 0.85, blocky 0.65, rounded 0.52 (pi/6, an ellipsoid).
double solid_boulder_volume(double length, double width, double height, double share);
double solid_mass(double volume, double density);
double solid_mass_in_water(double volume, double wetted_volume, double density);  // less the water it pushes aside

#endif
