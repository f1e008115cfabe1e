// SPDX-License-Identifier: MIT
#include "physics/pipe.h"

#include <math.h>
#include <stdbool.h>

#include "physics/water.h"

#define PI 3.14159265358979323846
#define LAMINAR_END 2000.0
#define TURBULENT_START 4000.0

struct friction {
  double factor, slope;  // f and df/dRe
};

double pipe_area(double bore) { return bore > 0 ? PI / 4 * bore * bore : (double)NAN; }

double pipe_velocity(double flow, double bore) { return flow / pipe_area(bore); }

double pipe_volume(double length, double bore) { return length >= 0 ? length * pipe_area(bore) : (double)NAN; }

double pipe_reynolds(double velocity, double bore, double viscosity) {
  if (!(viscosity > 0) || !(bore > 0)) return (double)NAN;
  return fabs(velocity) * bore / viscosity;
}

// Colebrook in x = 1/sqrt(f): x + 2 log10(eps/3.7D + 2.51 x/Re) = 0, by Newton from Swamee-Jain's guess.
static double colebrook_x(double reynolds, double rough) {
  const double per_decade = 2 / log(10);
  double x = -2 * log10(rough / 3.7 + 5.74 / pow(reynolds, 0.9));
  for (int i = 0; i < 30; i++) {
    const double inside = rough / 3.7 + 2.51 * x / reynolds;
    const double step = (x + per_decade * log(inside)) / (1 + per_decade * 2.51 / reynolds / inside);
    x -= step;
    if (fabs(step) <= 1e-8 * fabs(x)) break;  // what is left goes with its square
  }
  return x;
}

static struct friction turbulent(double reynolds, double rough) {
  const double per_decade = 2 / log(10);
  const double x = colebrook_x(reynolds, rough);
  const double share = per_decade * 2.51 / reynolds / (rough / 3.7 + 2.51 * x / reynolds);
  const double x_slope = share * x / reynolds / (1 + share);  // from differentiating Colebrook
  return (struct friction){.factor = 1 / (x * x), .slope = -2 * x_slope / (x * x * x)};
}

static struct friction laminar(double reynolds) {
  return (struct friction){.factor = 64 / reynolds, .slope = -64 / (reynolds * reynolds)};
}

// The cubic through value and slope of 64/Re at 2000 and of Colebrook at 4000; r runs from 0 to 1 between them.
static struct friction transition(double reynolds, double rough) {
  const double span = TURBULENT_START - LAMINAR_END;
  const struct friction from = laminar(LAMINAR_END);
  const struct friction to = turbulent(TURBULENT_START, rough);
  const double r = (reynolds - LAMINAR_END) / span;
  const double rise = to.factor - from.factor;
  const double cubic = span * (from.slope + to.slope) - 2 * rise;
  const double square = rise - span * from.slope - cubic;
  return (struct friction){.factor = from.factor + r * (span * from.slope + r * (square + r * cubic)),
                           .slope = from.slope + r * (2 * square + 3 * r * cubic) / span};
}

static struct friction friction_at(double reynolds, double rough) {
  if (!(reynolds >= 0) || !(rough >= 0)) return (struct friction){.factor = (double)NAN, .slope = (double)NAN};
  if (reynolds <= 0) return (struct friction){.factor = 0, .slope = 0};
  if (reynolds <= LAMINAR_END) return laminar(reynolds);
  if (reynolds < TURBULENT_START) return transition(reynolds, rough);
  return turbulent(reynolds, rough);
}

double pipe_friction_factor(double reynolds, double relative_roughness) {
  return friction_at(reynolds, relative_roughness).factor;
}

double pipe_minor_loss(double k, double velocity) { return k * velocity * fabs(velocity) / (2 * GRAVITY); }

double pipe_friction_loss(const struct pipe *pipe, double flow, double viscosity) {
  if (!(pipe->length >= 0)) return (double)NAN;
  const double velocity = pipe_velocity(flow, pipe->bore);
  const double f = pipe_friction_factor(pipe_reynolds(velocity, pipe->bore, viscosity), pipe->roughness / pipe->bore);
  return pipe_minor_loss(f * pipe->length / pipe->bore, velocity);
}

double pipe_head_loss(const struct pipe *pipe, double flow, double viscosity) {
  return pipe_friction_loss(pipe, flow, viscosity) + pipe_minor_loss(pipe->minor, pipe_velocity(flow, pipe->bore));
}

// d/dv of v|v| (f L/D + K) / 2g, over the area; laminar flow has f v = 64 nu/D, which stays finite at rest
double pipe_head_slope(const struct pipe *pipe, double flow, double viscosity) {
  if (!(pipe->length >= 0)) return (double)NAN;
  const double speed = fabs(pipe_velocity(flow, pipe->bore));
  const double reynolds = pipe_reynolds(speed, pipe->bore, viscosity);
  const struct friction friction = friction_at(reynolds, pipe->roughness / pipe->bore);
  const double wall =
      reynolds <= LAMINAR_END ? 64 * viscosity / pipe->bore : speed * (2 * friction.factor + reynolds * friction.slope);
  const double per_velocity = (wall * pipe->length / pipe->bore + 2 * pipe->minor * speed) / (2 * GRAVITY);
  return per_velocity / pipe_area(pipe->bore);
}
