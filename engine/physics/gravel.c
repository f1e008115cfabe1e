// SPDX-License-Identifier: MIT
#include "physics/gravel.h"

#include <math.h>
#include <stdbool.h>

#include "physics/root.h"
#include "physics/water.h"

static bool is_porosity(double porosity) { return porosity > 0 && porosity < 1; }

struct gravel gravel_law(double stone_size, double porosity, double viscosity) {
  if (!(stone_size > 0) || !is_porosity(porosity) || !(viscosity > 0)) {
    return (struct gravel){.a = (double)NAN, .b = (double)NAN};
  }
  const double solid = 1 - porosity, voids_cubed = porosity * porosity * porosity;
  return (struct gravel){.a = 150 * viscosity * solid * solid / (voids_cubed * stone_size * stone_size * GRAVITY),
                         .b = 1.75 * solid / (voids_cubed * stone_size * GRAVITY)};
}

double gravel_gradient(const struct gravel *law, double speed) { return speed * (law->a + law->b * fabs(speed)); }

// The positive root of b v^2 + a v - i = 0 in the form that loses no digits when b v is small.
double gravel_speed(const struct gravel *law, double gradient) {
  if (gradient <= 0) return 0;
  return 2 * gradient / (law->a + sqrt(law->a * law->a + 4 * law->b * gradient));
}

double gravel_flow(const struct gravel *law, double gradient, double area) {
  return area >= 0 ? area * gravel_speed(law, gradient) : (double)NAN;
}

struct layer {
  struct gravel law;
  double width, upstream, downstream, length;
};

// -dh/dx = a v + b v^2 with v = Q/(w h). Path over which this flow uses up the fall: the integral of h^2/(A h + B) dh
// with A = a Q/w, B = b Q^2/w^2, by Simpson's rule (smooth; 64 steps are right to a part in 1e9).
static double path_of(const struct layer *layer, double flow) {
  enum { STEPS = 64 };
  const double q = flow / layer->width, a = layer->law.a * q, b = layer->law.b * q * q;
  const double step = (layer->upstream - layer->downstream) / STEPS;
  double sum = 0;
  for (int i = 0; i <= STEPS; i++) {
    const double h = layer->downstream + i * step;
    const double weight = i == 0 || i == STEPS ? 1 : i % 2 ? 4 : 2;
    sum += weight * h * h / (a * h + b);
  }
  return sum * step / 3;
}

static double path_shortfall(double flow, void *with) {
  const struct layer *layer = with;
  return layer->length - path_of(layer, flow);
}

double gravel_unconfined_flow(const struct gravel *law, double width, double upstream, double downstream,
                              double length) {
  if (!(width > 0) || !(downstream >= 0) || isnan(upstream) || !(length > 0) || !(law->a >= 0) || !(law->b > 0)) {
    return (double)NAN;
  }
  if (upstream <= downstream) return 0;
  struct layer layer = {*law, width, upstream, downstream, length};
  const double fall = upstream * upstream * upstream - downstream * downstream * downstream;
  const double without_a = width * sqrt(fall / (3 * law->b * length));  // no friction of the slow kind: more than flows
  return root_rising(path_shortfall, &layer, 0, 1.001 * without_a);
}

double gravel_void_volume(double bulk_volume, double porosity) {
  return bulk_volume >= 0 && is_porosity(porosity) ? bulk_volume * porosity : (double)NAN;
}
