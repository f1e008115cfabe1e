// SPDX-License-Identifier: MIT
#include "physics/solid.h"

#include <math.h>

#include "physics/water.h"

#define PI 3.14159265358979323846

// NaN unless it is an amount: what is worked out from it is then NaN as well
static double amount(double value) { return value >= 0 ? value : (double)NAN; }

double solid_prismoid(double top_area, double middle_area, double bottom_area, double depth) {
  return (amount(top_area) + 4 * amount(middle_area) + amount(bottom_area)) / 6 * amount(depth);
}

double solid_box(double length, double width, double height) { return amount(length) * amount(width) * amount(height); }

double solid_ellipse_area(double length, double width) { return PI / 4 * amount(length) * amount(width); }

// Gauss: 2 pi/M(a,b) (a^2 - sum of 2^(k-1) c_k^2), c_0^2 = a^2 - b^2, c_k half the difference at step k
double solid_ellipse_perimeter(double length, double width) {
  if (!(length >= 0) || !(width >= 0)) return (double)NAN;
  double a = fmax(length, width) / 2, b = fmin(length, width) / 2;
  if (b <= 0) return 4 * a;
  double sum = a * a - (a * a - b * b) / 2, weight = 1;
  while (a - b > 1e-16 * a && weight < 1e6) {
    const double half = (a - b) / 2, mean = (a + b) / 2;
    b = sqrt(a * b);
    a = mean;
    sum -= weight * half * half;
    weight *= 2;
  }
  return a > 0 ? 2 * PI * sum / a : 0;
}

double solid_ellipsoid(double length, double width, double height) { return PI / 6 * solid_box(length, width, height); }

double solid_cone_frustum(double top_diameter, double bottom_diameter, double height) {
  const double top = amount(top_diameter) / 2, bottom = amount(bottom_diameter) / 2;
  return PI * amount(height) / 3 * (top * top + top * bottom + bottom * bottom);
}

double solid_wedge(double base_length, double base_width, double ridge_length, double height) {
  return amount(base_width) * amount(height) / 6 * (2 * amount(base_length) + amount(ridge_length));
}

double solid_rectangle_pit(double top_length, double top_width, double side, double depth) {
  const double run = 2 * amount(side) * amount(depth);
  const double bottom = amount(top_length - run) * amount(top_width - run);
  return solid_prismoid(top_length * top_width, (top_length - run / 2) * (top_width - run / 2), bottom, depth);
}

double solid_trapezoid_area(double top, double bottom, double height) {
  return (amount(top) + amount(bottom)) / 2 * amount(height);
}

double solid_top_width(double bottom, double side, double depth) {
  return amount(bottom) + 2 * amount(side) * amount(depth);
}

double solid_boulder_volume(double length, double width, double height, double share) {
  return share <= 1 ? amount(share) * solid_box(length, width, height) : (double)NAN;
}

double solid_mass(double volume, double density) { return amount(volume) * amount(density); }

double solid_mass_in_water(double volume, double wetted_volume, double density) {
  if (!(wetted_volume >= 0) || !(wetted_volume <= volume)) return (double)NAN;
  return solid_mass(volume, density) - WATER_USUAL_DENSITY * wetted_volume;
}
