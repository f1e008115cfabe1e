// SPDX-License-Identifier: MIT
// E. Stone: will it tip or slide, state by state of the build.
#include <math.h>

#include "catalogue/trade.h"
#include "physics/stability.h"
#include "quantities/read.h"
#include "units/exact.h"

#define FOREBAY_ROWS "catalogue/states.def"

#define PI 3.14159265358979323846
#define POUNDS_PER_FOOT3 (POUND / CUBIC_FOOT)
// Clean crushed stone, voids 40 % (common practice); 36 degrees instead of 38 would cost a factor 8 %.
#define GRAVEL_DENSITY (100 * POUNDS_PER_FOOT3)
#define GRAVEL_DENSITY_WET (62.6 * POUNDS_PER_FOOT3)
#define GRAVEL_PHI (38 * PI / 180)
#define SEAT_GRAVEL_PHI (36 * PI / 180)
#define SEAT_GROUND_PHI (30 * PI / 180)

static double centre_height_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_get_height(ev, boulder) / 2;
}

static double volume_low_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  double mass = boulder_get_mass_low(ev, boulder);
  if (boulder_states_density(ev, boulder)) return mass / boulder_get_density(ev, boulder);
  enum word stone = boulder_get_stone(ev, boulder);
  return evaluation_marked(ev) ? (double)NAN : mass / trade_density(stone).low;
}

static double lean_of(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_states_lean(ev, boulder) ? boulder_get_lean(ev, boulder) : 0;
}

// A seat that nobody drew a slope for is level; on a liner the rule on seats asks.
static double seat_angle_of(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_states_seat_slope(ev, boulder) ? atan(1 / boulder_get_seat_slope(ev, boulder)) : 0;
}

static struct footing_soil soil_under(struct evaluation *ev, struct boulder_ref boulder) {
  bool on_gravel = boulder_get_stands_on(ev, boulder) == WORD_stands_on_gravel;
  bool wet = boulder_get_water_up(ev, boulder) > 0;
  return (struct footing_soil){.phi = on_gravel ? SEAT_GRAVEL_PHI : SEAT_GROUND_PHI,
                               .density = wet ? GRAVEL_DENSITY_WET : GRAVEL_DENSITY,
                               .bedding = boulder_get_embedment(ev, boulder)};
}

static double gravel_height_of(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_get_gravel_behind(ev, boulder) <= 0 ? 0 : boulder_get_gravel_height(ev, boulder);
}

// What nobody ruled out counts: a machine beside it, a person on its front edge.
static bool ruled_out(bool stated, enum word word) { return stated && word == WORD_yes_no_no; }

static struct stability_loads loads_on(struct evaluation *ev, struct boulder_ref boulder) {
  bool machine = boulder_states_machine_beside(ev, boulder), person = boulder_states_climbable(ev, boulder);
  double across = fmin(boulder_get_length(ev, boulder), boulder_get_width(ev, boulder));
  double water = boulder_get_water_up(ev, boulder);
  bool no_machine = machine && ruled_out(machine, boulder_get_machine_beside(ev, boulder));
  bool no_person = person && ruled_out(person, boulder_get_climbable(ev, boulder));
  return (struct stability_loads){.gravel_height = gravel_height_of(ev, boulder),
                                  .gravel_density = GRAVEL_DENSITY,
                                  .gravel_density_wet = GRAVEL_DENSITY_WET,
                                  .gravel_phi = GRAVEL_PHI,
                                  .machine = no_machine ? 0 : STABILITY_MACHINE,
                                  .push = STABILITY_PUSH,
                                  .person = no_person ? 0 : STABILITY_PERSON,
                                  .person_beyond = fmax(0, (across - boulder_get_seat(ev, boulder)) / 2),
                                  .water_front = water,
                                  .water_behind = water};
}

static struct stability_block block_of(struct evaluation *ev, struct boulder_ref boulder) {
  return (struct stability_block){.mass = boulder_get_mass_low(ev, boulder),
                                  .volume = boulder_get_volume_low(ev, boulder),
                                  .length = boulder_get_front(ev, boulder),
                                  .seat = boulder_get_seat(ev, boulder),
                                  .height = boulder_get_height(ev, boulder),
                                  .centre_height = boulder_get_centre_height(ev, boulder),
                                  .lean = lean_of(ev, boulder),
                                  .seat_slope = seat_angle_of(ev, boulder),
                                  .friction = boulder_get_friction(ev, boulder),
                                  .embedment = boulder_get_embedment(ev, boulder)};
}

static const struct stone_states *states_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  static const enum stability_state order[STONE_STATES] = {STABILITY_SET, STABILITY_BACKFILLING, STABILITY_BACKFILLED,
                                                           STABILITY_WATER_UP, STABILITY_DRAINED};
  struct stability_block block = block_of(ev, boulder);
  struct stability_loads loads = loads_on(ev, boulder);
  struct footing_soil soil = soil_under(ev, boulder);
  if (boulder_get_stands_on(ev, boulder) != WORD_stands_on_stone) block.soil = &soil;
  if (evaluation_marked(ev)) return NULL;
  struct stone_states *states = arena_alloc(evaluation_arena(ev), sizeof *states);
  for (size_t i = 0; i < STONE_STATES; i++) {
    struct stability stability = stability_in_state(order[i], &block, &loads);
    states->tips[i] = stability.overturning;
    states->slides[i] = stability.sliding;
    if (isnan(stability.overturning) || isnan(stability.sliding)) {
      evaluation_missing(ev, "it leans or its seat slopes more than can be worked out");
      return NULL;
    }
  }
  return states;
}

#define OF_STATES(name, expression)                                                    \
  static double name##_of_boulder(struct evaluation *ev, struct boulder_ref boulder) { \
    const struct stone_states *states = boulder_get_states(ev, boulder);               \
    return states ? (expression) : (double)NAN;                                        \
  }

static double least(const double factors[STONE_STATES]) {
  double found = factors[0];
  for (size_t i = 1; i < STONE_STATES; i++) found = fmin(found, factors[i]);
  return found;
}

OF_STATES(tips_set, states->tips[0])
OF_STATES(tips_backfilling, states->tips[1])
OF_STATES(tips_backfilled, states->tips[2])
OF_STATES(tips_water_up, states->tips[3])
OF_STATES(tips_drained, states->tips[4])
OF_STATES(slides_set, states->slides[0])
OF_STATES(slides_backfilling, states->slides[1])
OF_STATES(slides_backfilled, states->slides[2])
OF_STATES(slides_water_up, states->slides[3])
OF_STATES(slides_drained, states->slides[4])
OF_STATES(tips_least, least(states->tips))
OF_STATES(slides_least, least(states->slides))
#undef OF_STATES

#include "quantities/export.h"
