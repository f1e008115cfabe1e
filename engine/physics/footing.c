// SPDX-License-Identifier: MIT
#include "physics/footing.h"

#include <math.h>

#include "physics/water.h"
#include "units/exact.h"

#define PI 3.14159265358979323846
#define PSF (POUND * GRAVITY / (FOOT * FOOT))  // Pa

static const struct {
  double bearing, lateral;  // psf, psf per ft
} PRESUMED[FOOTING_GROUNDS] = {[FOOTING_CRYSTALLINE_ROCK] = {12000, 1200},
                               [FOOTING_SEDIMENTARY_ROCK] = {4000, 400},
                               [FOOTING_GRAVEL] = {3000, 200},
                               [FOOTING_SAND] = {2000, 150},
                               [FOOTING_CLAY] = {1500, 100}};

double footing_presumed_bearing(enum footing_ground ground) {
  return (unsigned)ground < FOOTING_GROUNDS ? PRESUMED[ground].bearing * PSF : (double)NAN;
}

double footing_presumed_lateral(enum footing_ground ground) {
  return (unsigned)ground < FOOTING_GROUNDS ? PRESUMED[ground].lateral * PSF / FOOT : (double)NAN;
}

double footing_surcharge_factor(double phi) {
  if (!(phi >= 0 && phi < PI / 2)) return (double)NAN;
  const double passive = tan(PI / 4 + phi / 2);
  return exp(PI * tan(phi)) * passive * passive;
}

double footing_weight_factor(double phi) { return 2 * (footing_surcharge_factor(phi) + 1) * tan(phi); }

// The positive root of a w^2 + b w = load in the form that loses no digits.
double footing_width_asked(const struct footing_soil *soil, double load) {
  if (!(soil->density > 0) || !(soil->bedding >= 0) || !(soil->phi > 0) || !(load >= 0)) return (double)NAN;
  const double unit_weight = soil->density * GRAVITY;
  const double a = 0.5 * unit_weight * footing_weight_factor(soil->phi);
  const double b = unit_weight * soil->bedding * footing_surcharge_factor(soil->phi);
  return load > 0 ? 2 * load / (b + sqrt(b * b + 4 * a * load)) : 0;
}

static struct footing_pressure no_pressure(void) {
  const double none = (double)NAN;
  return (struct footing_pressure){none, none, none, none, none, false};
}

// Outside the kern: a triangle whose middle third holds the resultant.
static void lift(struct footing_pressure *p, double load, double width) {
  const bool to_front = p->eccentricity > 0;
  const double inside = to_front ? p->resultant : width - p->resultant;
  const double most = inside > 0 ? 2 * load / (3 * inside) : (double)INFINITY;
  p->contact = fmax(0, 3 * inside);
  p->front = to_front ? most : 0;
  p->rear = to_front ? 0 : most;
}

struct footing_pressure footing_pressure(double load, double width, double resultant) {
  if (!(load > 0) || !(width > 0) || isnan(resultant)) return no_pressure();
  struct footing_pressure p = {.resultant = resultant, .eccentricity = width / 2 - resultant};
  p.in_kern = fabs(p.eccentricity) <= width / 6 * (1 + 1e-12);
  if (!p.in_kern) {
    lift(&p, load, width);
    return p;
  }
  p.front = load / width * (1 + 6 * p.eccentricity / width);
  p.rear = load / width * (1 - 6 * p.eccentricity / width);
  p.contact = width;
  return p;
}
