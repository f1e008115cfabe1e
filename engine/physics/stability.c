// SPDX-License-Identifier: MIT
#include "physics/stability.h"

#include <math.h>
#include <stdbool.h>

#include "physics/soil.h"
#include "physics/thrust.h"
#include "physics/water.h"

// Loads by state. In the water the gravel is wet up to the level of the pool; drained fast, the water behind stays.
static const struct {
  bool gravel, machine, climbed, water_front, water_behind;
} ACTING[STABILITY_STATES] = {[STABILITY_ON_THE_HOOK] = {false, false, false, false, false},
                              [STABILITY_SET] = {false, false, true, false, false},
                              [STABILITY_BACKFILLING] = {true, true, false, false, false},
                              [STABILITY_BACKFILLED] = {true, false, false, false, false},
                              [STABILITY_WATER_UP] = {true, false, true, true, true},
                              [STABILITY_DRAINED] = {true, false, false, false, true}};

struct stability_loads stability_loads_in(enum stability_state state, const struct stability_loads *all) {
  struct stability_loads acting = *all;
  if ((unsigned)state >= STABILITY_STATES) state = STABILITY_ON_THE_HOOK;
  if (!ACTING[state].gravel) acting.gravel_height = 0;
  if (!ACTING[state].machine) acting.machine = 0;
  if (!ACTING[state].climbed) acting.push = acting.person = 0;
  if (!ACTING[state].water_front) acting.water_front = 0;
  if (!ACTING[state].water_behind) acting.water_behind = 0;
  return acting;
}

static bool is_block(const struct stability_block *b) {
  return b->mass > 0 && b->volume > 0 && b->length > 0 && b->seat > 0 && b->height > 0 && b->friction >= 0 &&
         b->embedment >= 0 && b->passive >= 0 && isfinite(b->offset) && fabs(b->lean) < 1 && b->seat_slope >= 0 &&
         b->seat_slope < 1 && b->centre_height >= 0;
}

static bool are_loads(const struct stability_loads *l) {
  return l->gravel_height >= 0 && l->machine >= 0 && l->push >= 0 && l->person >= 0 && !isnan(l->person_beyond) &&
         l->water_front >= 0 && l->water_behind >= 0 && l->uplift >= 0 && l->uplift <= 1;
}

static struct thrust of_gravel(const struct stability_loads *l) {
  const struct thrust_ground ground = {.coefficient = soil_active_coefficient(l->gravel_phi),
                                       .height = l->gravel_height,
                                       .density = l->gravel_density,
                                       .density_wet = l->gravel_density_wet,
                                       .water = l->water_behind,
                                       .surcharge = l->machine};
  return thrust_of_ground(&ground);
}

// What the water behind pushes more than the water in front; a pool that stands higher than the ground is not counted
// as a help.
static struct thrust of_water(const struct stability_block *b, const struct stability_loads *l) {
  const struct thrust behind = thrust_of_water(fmin(l->water_behind, b->height));
  const struct thrust front = thrust_of_water(fmin(l->water_front, b->height));
  return (struct thrust){fmax(0, behind.force - front.force), fmax(0, behind.moment - front.moment)};
}

// All that drives the block forward, at its whole length.
static struct thrust driving(const struct stability_block *b, const struct stability_loads *l) {
  const struct thrust gravel = of_gravel(l), water = of_water(b, l);
  return (struct thrust){(gravel.force + water.force) * b->length + l->push,
                         (gravel.moment + water.moment) * b->length + l->push * b->height};
}

// Water that gets in under the seat from behind: a triangle, greatest at the rear edge.
static double uplift_force(const struct stability_block *b, const struct stability_loads *l) {
  const double higher = fmax(0, l->water_behind - l->water_front);
  return l->uplift * WATER_USUAL_DENSITY * GRAVITY * higher * b->seat * b->length / 2;
}

static double weight_in_water(const struct stability_block *b, const struct stability_loads *l) {
  const double wetted = b->volume * fmin(1, l->water_front / b->height);
  return (b->mass - WATER_USUAL_DENSITY * wetted) * GRAVITY;
}

static double passive_force(const struct stability_block *b) {
  return b->passive * b->embedment * b->embedment / 2 * b->length;
}

static double ratio(double holding, double driving) {
  if (isnan(holding) || isnan(driving)) return (double)NAN;
  if (holding <= 0) return 0;
  return driving > 0 ? holding / driving : (double)INFINITY;
}

// Moments about a line this far inside the front edge of the seat.
static void turn(struct stability *s, const struct stability_block *b, const struct stability_loads *l, double inside) {
  const double weight = weight_in_water(b, l);
  const double arm = b->seat / 2 - b->offset - b->centre_height * tan(b->lean) - inside;
  const struct thrust forward = driving(b, l);
  const double under = uplift_force(b, l) * (b->seat * 2 / 3 - inside);
  s->holding = fmax(0, weight * arm) + passive_force(b) * b->embedment / 3;
  s->tipping = forward.moment + under + fmax(0, -weight * arm) + l->person * fmax(0, l->person_beyond + inside);
}

static double sliding_factor(const struct stability_block *b, double weight, double forward) {
  const double along = sin(b->seat_slope), across = cos(b->seat_slope);
  return ratio(b->friction * fmax(0, weight * across - forward * along) + passive_force(b),
               forward * across + weight * along);
}

static struct footing_pressure pressure_under(const struct stability_block *b, const struct stability_loads *l,
                                              double vertical) {
  struct stability about_edge = {0};
  turn(&about_edge, b, l, 0);
  const double inside = fmin(0, l->person_beyond) * l->person;  // a person who stands over the seat
  const double resultant = (about_edge.holding - about_edge.tipping - inside) / vertical;
  return footing_pressure(vertical / b->length, b->seat, resultant);
}

static struct stability no_stability(void) {
  const double none = (double)NAN;
  return (struct stability){none, none, none, none, none, none, none, {none, none, none, none, none, false}};
}

struct stability stability_of(const struct stability_block *block, const struct stability_loads *loads) {
  if (!is_block(block) || !are_loads(loads)) return no_stability();
  const double weight = weight_in_water(block, loads) - uplift_force(block, loads);
  struct stability s = {.vertical = weight + loads->person, .thrust = driving(block, loads).force};
  if (block->soil) s.pivot = footing_width_asked(block->soil, fmax(0, s.vertical) / block->length) / 2;
  turn(&s, block, loads, s.pivot);
  s.overturning = ratio(s.holding, s.tipping);
  s.sliding = isnan(s.thrust) ? s.thrust : sliding_factor(block, fmax(0, weight), s.thrust);
  s.pressure = pressure_under(block, loads, s.vertical);
  return s;
}

struct stability stability_in_state(enum stability_state state, const struct stability_block *block,
                                    const struct stability_loads *all) {
  if ((unsigned)state >= STABILITY_STATES || state == STABILITY_ON_THE_HOOK) return no_stability();
  const struct stability_loads acting = stability_loads_in(state, all);
  return stability_of(block, &acting);
}
