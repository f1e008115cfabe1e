// SPDX-License-Identifier: MIT
#include "physics/coping.h"

#include <math.h>
#include <stdbool.h>

#include "physics/water.h"

static bool is_stone(const struct coping *c) {
  return c->length > 0 && c->depth > 0 && c->thickness > 0 && c->density > 0 && c->overhang >= 0 &&
         c->overhang <= c->depth;
}

double coping_weight(const struct coping *coping) {
  if (!is_stone(coping)) return (double)NAN;
  return coping->length * coping->depth * coping->thickness * coping->density * GRAVITY;
}

double coping_tipping_factor(const struct coping *coping, double edge_load) {
  if (!is_stone(coping) || !(edge_load >= 0)) return (double)NAN;
  const double holding = coping_weight(coping) * (coping->depth / 2 - coping->overhang);
  const double tipping = edge_load * coping->overhang;
  if (tipping <= 0) return holding > 0 ? (double)INFINITY : 0;
  return holding / tipping;
}

// W (depth/2 - x) = factor P x
double coping_greatest_overhang(const struct coping *coping, double edge_load, double factor) {
  if (!(edge_load >= 0) || !(factor > 0)) return (double)NAN;
  const double weight = coping_weight(coping);
  return weight * coping->depth / 2 / (weight + factor * edge_load);
}

// Section modulus of a rectangle, b d^2 / 6
static double modulus(double strip, double thickness) {
  return strip > 0 && thickness > 0 ? strip * thickness * thickness / 6 : (double)NAN;
}

double coping_cantilever_stress(const struct coping *coping, double strip, double edge_load) {
  if (!is_stone(coping) || !(edge_load >= 0)) return (double)NAN;
  const double per_length = strip * coping->thickness * coping->density * GRAVITY;
  const double moment = edge_load * coping->overhang + per_length * coping->overhang * coping->overhang / 2;
  return moment / modulus(strip, coping->thickness);
}

double coping_span_stress(double span, double strip, double thickness, double density, double load) {
  if (!(span > 0) || !(density > 0) || !(load >= 0)) return (double)NAN;
  const double per_length = strip * thickness * density * GRAVITY;
  return (load * span / 4 + per_length * span * span / 8) / modulus(strip, thickness);
}
