// SPDX-License-Identifier: MIT
#include "physics/wall.h"

#include <math.h>

#include "physics/water.h"

#define LEAST_EMBEDMENT 0.1524  // m (6 in)

static const double EMBEDDED_PART[WALL_TOES] = {[WALL_TOE_LEVEL] = 20, [WALL_TOE_3_TO_1] = 10, [WALL_TOE_2_TO_1] = 7};

double wall_least_embedment(double height, enum wall_toe toe) {
  if (!(height > 0) || (unsigned)toe >= WALL_TOES) return (double)NAN;
  return fmax(LEAST_EMBEDMENT, height / EMBEDDED_PART[toe]);
}

static bool is_wall(const struct wall *w) {
  return w->height > 0 && w->base > 0 && w->top >= 0 && w->top <= w->base && w->density > 0 && w->friction >= 0 &&
         w->uplift >= 0 && w->uplift <= 1;
}

static double weight_of(const struct wall *w) { return w->density * GRAVITY * w->height * (w->top + w->base) / 2; }

// Moment of the weight about the front edge of the base: a rectangle at the rear and a triangle before it.
static double weight_moment(const struct wall *w) {
  const double before = w->base - w->top, unit = w->density * GRAVITY * w->height;
  return unit * (w->top * (w->base - w->top / 2) + before * before / 3);
}

static double uplift_force(const struct wall *w, double water) {
  return w->uplift * WATER_USUAL_DENSITY * GRAVITY * fmax(0, water) * w->base / 2;
}

static struct wall_standing no_standing(void) {
  const double none = (double)NAN;
  return (struct wall_standing){none, none, none, none, none, none, {none, none, none, none, none, false}};
}

static double ratio(double holding, double driving) {
  if (holding <= 0) return 0;
  return driving > 0 ? holding / driving : (double)INFINITY;
}

struct wall_standing wall_standing(const struct wall *wall, const struct wall_ground *behind) {
  if (!is_wall(wall) || !(fabs(behind->inclination) < 1)) return no_standing();
  const struct thrust ground = thrust_of_ground(&behind->ground), water = thrust_of_water(behind->ground.water);
  const double level = cos(behind->inclination), down = ground.force * sin(behind->inclination);
  const double under = uplift_force(wall, behind->ground.water);
  struct wall_standing s = {.weight = weight_of(wall), .thrust = ground.force * level + water.force};
  if (isnan(s.thrust)) return no_standing();
  const double vertical = s.weight + down - under;
  s.holding = weight_moment(wall) + down * wall->base;
  s.tipping = ground.moment * level + water.moment + under * wall->base * 2 / 3;
  s.overturning = ratio(s.holding, s.tipping);
  s.sliding = ratio(wall->friction * fmax(0, vertical), s.thrust);
  s.pressure = footing_pressure(vertical, wall->base, (s.holding - s.tipping) / vertical);
  return s;
}
