// SPDX-License-Identifier: MIT
// Adapters: footing, thrust, friction, stability, wall, zone, lifting, handling. Included once, by reference_test.c.
#ifndef FOREBAY_REFERENCE_STONE_SIDE_H
#define FOREBAY_REFERENCE_STONE_SIDE_H

#include "physics/footing.h"
#include "physics/friction.h"
#include "physics/handling.h"
#include "physics/lifting.h"
#include "physics/soil.h"
#include "physics/solid.h"
#include "physics/stability.h"
#include "physics/thrust.h"
#include "physics/wall.h"
#include "physics/zone.h"
#include "row.h"

// An input that a row may leave out.
static double in_or(struct row *row, const char *name, double otherwise) {
  for (size_t i = 0; i < row->count; i++) {
    if (strcmp(row->inputs[i].name, name) == 0) return in(row, name);
  }
  return otherwise;
}

static double surcharge_factor(struct row *r) { return footing_surcharge_factor(in(r, "phi")); }
static double weight_factor(struct row *r) { return footing_weight_factor(in(r, "phi")); }
static double width_asked(struct row *r) {
  const struct footing_soil soil = {in(r, "phi"), in(r, "density"), in(r, "bedding")};
  return footing_width_asked(&soil, in(r, "load"));
}
static struct footing_pressure pressure_in(struct row *r) {
  return footing_pressure(in(r, "load"), in(r, "width"), in(r, "resultant"));
}
static double front_pressure(struct row *r) { return pressure_in(r).front; }
static double rear_pressure(struct row *r) { return pressure_in(r).rear; }
static double contact_width(struct row *r) { return pressure_in(r).contact; }

static const char *const GROUNDS[FOOTING_GROUNDS] = {"crystalline", "sedimentary", "gravel", "sand", "clay"};
static enum footing_ground ground_word(struct row *r) {
  return (enum footing_ground)word_in(r, "ground", GROUNDS, FOOTING_GROUNDS);
}
static double presumed(struct row *r) { return footing_presumed_bearing(ground_word(r)); }
static double presumed_lateral(struct row *r) { return footing_presumed_lateral(ground_word(r)); }

static double coefficient_in(struct row *r) {
  const double phi = in_or(r, "phi", -1);
  return phi < 0 ? in_or(r, "ka", 0) : soil_active_coefficient(phi);
}
static struct thrust_ground thrust_ground_in(struct row *r) {
  return (struct thrust_ground){.coefficient = coefficient_in(r),
                                .height = in_or(r, "ground", 0),
                                .density = in_or(r, "ground_density", 0),
                                .density_wet = in_or(r, "ground_wet", 0),
                                .water = in_or(r, "water", 0),
                                .surcharge = in_or(r, "surcharge", 0)};
}
static struct thrust ground_thrust(struct row *r) {
  const struct thrust_ground ground = thrust_ground_in(r);
  return thrust_of_ground(&ground);
}
static double ground_force(struct row *r) { return ground_thrust(r).force; }
static double ground_moment(struct row *r) { return ground_thrust(r).moment; }
static double ground_arm(struct row *r) {
  const struct thrust thrust = ground_thrust(r);
  return thrust_arm(&thrust);
}
static double water_force(struct row *r) { return thrust_of_water(in(r, "depth")).force; }
static double water_moment(struct row *r) { return thrust_of_water(in(r, "depth")).moment; }
static double coulomb(struct row *r) {
  return thrust_coulomb_coefficient(in(r, "phi"), in(r, "friction"), in(r, "lean"), in(r, "backfill"));
}

static const char *const INTERFACES[FRICTION_INTERFACES] = {
    "gravel", "silty_gravel",    "fine_sand",         "silt",           "soft_clay", "stiff_clay",
    "stone",  "smooth_membrane", "textured_membrane", "rubber_membrane"};
static double friction_of(struct row *r) {
  return friction_row((enum friction_interface)word_in(r, "on", INTERFACES, FRICTION_INTERFACES))->coefficient;
}

static const char *const STATES[STABILITY_STATES] = {"hook", "set", "backfilling", "backfilled", "water_up", "drained"};

static struct stability stability_row(struct row *r) {
  const double height = in(r, "height");
  const double volume = solid_boulder_volume(in(r, "length"), in(r, "width"), height, in(r, "share"));
  const struct stability_block block = {.mass = volume * in(r, "density"),
                                        .volume = volume,
                                        .length = in(r, "length"),
                                        .seat = in(r, "seat"),
                                        .height = height,
                                        .friction = in(r, "friction"),
                                        .centre_height = height / 2};
  const struct stability_loads loads = {.gravel_height = in_or(r, "gravel", 0),
                                        .gravel_density = in_or(r, "gravel_density", 0),
                                        .gravel_density_wet = in_or(r, "gravel_wet", 0),
                                        .gravel_phi = in_or(r, "phi", 0),
                                        .machine = in_or(r, "machine", 0),
                                        .push = in_or(r, "push", 0),
                                        .water_front = in_or(r, "water", 0),
                                        .water_behind = in_or(r, "water", 0)};
  return stability_in_state((enum stability_state)word_in(r, "state", STATES, STABILITY_STATES), &block, &loads);
}
static double overturning(struct row *r) { return stability_row(r).overturning; }
static double sliding(struct row *r) { return stability_row(r).sliding; }

static struct wall_standing wall_row(struct row *r) {
  const struct wall wall = {.height = in(r, "height"),
                            .top = in(r, "top"),
                            .base = in(r, "base"),
                            .density = in(r, "density"),
                            .friction = in_or(r, "friction", 0)};
  const struct wall_ground behind = {.ground = thrust_ground_in(r), .inclination = in_or(r, "inclination", 0)};
  return wall_standing(&wall, &behind);
}
static double wall_weight(struct row *r) { return wall_row(r).weight; }
static double wall_thrust(struct row *r) { return wall_row(r).thrust; }
static double wall_holding(struct row *r) { return wall_row(r).holding; }
static double wall_tipping(struct row *r) { return wall_row(r).tipping; }
static double wall_overturning(struct row *r) { return wall_row(r).overturning; }
static double wall_sliding(struct row *r) { return wall_row(r).sliding; }
static double wall_eccentricity(struct row *r) { return wall_row(r).pressure.eccentricity; }
static double wall_toe_pressure(struct row *r) { return wall_row(r).pressure.front; }
static double wall_heel_pressure(struct row *r) { return wall_row(r).pressure.rear; }
static double wall_contact(struct row *r) { return wall_row(r).pressure.contact; }

static const char *const TOES[WALL_TOES] = {"level", "3_to_1", "2_to_1"};
static double least_embedment(struct row *r) {
  return wall_least_embedment(in(r, "height"), (enum wall_toe)word_in(r, "toe", TOES, WALL_TOES));
}

static double fall_zone(struct row *r) { return zone_fall(in(r, "height"), in(r, "falls_away") > 0); }
static double hook_path(struct row *r) { return zone_hook_path(in(r, "length"), in(r, "width"), in(r, "height")); }
static double from_edge(struct row *r) { return zone_from_edge(in(r, "depth"), in(r, "asked"), in(r, "dug")); }
static double power_line(struct row *r) { return zone_power_line(in(r, "volts")); }
static double power_line_a(struct row *r) { return zone_power_line_table_a(in(r, "volts")); }
static double power_line_equipment(struct row *r) { return zone_power_line_equipment(in(r, "volts")); }

static double leg_load(struct row *r) {
  return lifting_leg_load(in(r, "mass"), (unsigned)in(r, "legs"), in(r, "angle"), in(r, "rigid") > 0);
}
static const char *const HITCHES[LIFTING_HITCHES] = {"vertical", "choker", "basket"};
static double hitch_factor(struct row *r) {
  return lifting_hitch_factor((enum lifting_hitch)word_in(r, "hitch", HITCHES, LIFTING_HITCHES), in(r, "angle"));
}
static double choke_share(struct row *r) { return lifting_choke_share(in(r, "angle")); }
// What legs of one rating carry together at an angle, as tables of chain slings print it.
static double legs_carry(struct row *r) {
  return in(r, "rating") / lifting_leg_load(1, (unsigned)in(r, "legs"), in(r, "angle"), false);
}
static double rated_at(struct row *r) {
  struct pair pairs[PAIRS];
  struct lifting_row chart[PAIRS];
  const size_t count = pairs_in(r, "chart", pairs);
  for (size_t i = 0; i < count; i++) chart[i] = (struct lifting_row){pairs[i].x, pairs[i].y};
  return lifting_left(lifting_rated(chart, count, in(r, "reach")), in(r, "deductions"));
}
static double rated_capacity(struct row *r) { return lifting_rated_capacity(in(r, "tipping"), in(r, "hydraulic")); }
static double track_pressure(struct row *r) {
  return lifting_track_pressure(in(r, "mass"), in(r, "length"), in(r, "width"));
}

static const char *const COUPLINGS[HANDLING_COUPLINGS] = {"good", "fair", "poor"};
static struct handling_lift lift_in(struct row *r) {
  return (struct handling_lift){.out = in(r, "out"),
                                .height = in(r, "height"),
                                .travel = in(r, "travel"),
                                .turn = in_or(r, "turn", 0),
                                .frequency = in_or(r, "frequency", 1),
                                .coupling = (enum handling_coupling)word_in(r, "grip", COUPLINGS, HANDLING_COUPLINGS)};
}
static double recommended(struct row *r) {
  const struct handling_lift lift = lift_in(r);
  return handling_recommended(&lift);
}
static double lifting_index(struct row *r) {
  const struct handling_lift lift = lift_in(r);
  return handling_index(&lift, in(r, "mass"));
}
static double team(struct row *r) { return handling_team((unsigned)in(r, "people")); }
static double people_for(struct row *r) { return handling_people_for(in(r, "mass")); }

#define STONE_SIDE                                                                                                  \
  {"footing_surcharge_factor", surcharge_factor}, {"footing_weight_factor", weight_factor},                         \
      {"footing_width_asked", width_asked}, {"footing_pressure.front", front_pressure},                             \
      {"footing_pressure.rear", rear_pressure}, {"footing_pressure.contact", contact_width},                        \
      {"footing_presumed_bearing", presumed}, {"footing_presumed_lateral", presumed_lateral},                       \
      {"thrust_of_ground.force", ground_force}, {"thrust_of_ground.moment", ground_moment},                         \
      {"thrust_of_ground.arm", ground_arm}, {"thrust_of_water.force", water_force},                                 \
      {"thrust_of_water.moment", water_moment}, {"thrust_coulomb_coefficient", coulomb},                            \
      {"friction_row", friction_of}, {"stability_in_state.overturning", overturning},                               \
      {"stability_in_state.sliding", sliding}, {"wall_standing.weight", wall_weight},                               \
      {"wall_standing.thrust", wall_thrust}, {"wall_standing.holding", wall_holding},                               \
      {"wall_standing.tipping", wall_tipping}, {"wall_standing.overturning", wall_overturning},                     \
      {"wall_standing.sliding", wall_sliding}, {"wall_standing.eccentricity", wall_eccentricity},                   \
      {"wall_standing.toe", wall_toe_pressure}, {"wall_standing.heel", wall_heel_pressure},                         \
      {"wall_standing.contact", wall_contact}, {"wall_least_embedment", least_embedment}, {"zone_fall", fall_zone}, \
      {"zone_hook_path", hook_path}, {"zone_from_edge", from_edge}, {"zone_power_line", power_line},                \
      {"zone_power_line_table_a", power_line_a}, {"zone_power_line_equipment", power_line_equipment},               \
      {"lifting_leg_load", leg_load}, {"lifting_hitch_factor", hitch_factor}, {"lifting_choke_share", choke_share}, \
      {"lifting_leg_load.carry", legs_carry}, {"lifting_rated.left", rated_at},                                     \
      {"lifting_rated_capacity", rated_capacity}, {"lifting_track_pressure", track_pressure},                       \
      {"handling_recommended", recommended}, {"handling_index", lifting_index}, {"handling_team", team}, {          \
    "handling_people_for", people_for                                                                               \
  }

#endif
