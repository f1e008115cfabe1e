// SPDX-License-Identifier: MIT
// I. Walls, coping, paving.
#include <math.h>

#include "catalogue/trade.h"
#include "physics/coping.h"
#include "physics/friction.h"
#include "physics/thrust.h"
#include "physics/wall.h"
#include "physics/water.h"
#include "quantities/read.h"
#include "units/exact.h"

#define FOREBAY_ROWS "catalogue/walls.def"

#define PSF (POUND * GRAVITY / (FOOT * FOOT))
#define CAREFULLY_IN_WATER (65 * POUND / (FOOT * FOOT * FOOT))  // EM 1110-2-2504 Table 3-1, loose ground, upper end

// ---- What pushes on a wall, and what holds it ----

static double stone_behind(struct evaluation *ev, struct wall_ref wall) {
  struct boulder_ref stone = wall_get_holds(ev, wall);
  return boulder_get_mass_high(ev, stone) * GRAVITY / (boulder_get_length(ev, stone) * boulder_get_width(ev, stone));
}

// 100 psf: what codes ask of terraces that people gather on (ASCE 7 Table 4.3-1, from memory).
static double load_behind_of_wall(struct evaluation *ev, struct wall_ref wall) {
  enum word above = wall_get_above(ev, wall);
  double stated = wall_get_surcharge(ev, wall);
  if (above == WORD_above_paving) return fmax(stated, 100 * PSF);
  return above == WORD_above_boulder ? fmax(stated, stone_behind(ev, wall)) : stated;
}

static struct trade_retained ground_of(struct evaluation *ev) {
  enum word soil = site_get_soil(ev, the_site(ev));
  return evaluation_marked(ev) ? (struct trade_retained){0, 0, 0} : trade_retained(soil);
}

static double push_coefficient_of_wall(struct evaluation *ev, struct wall_ref wall) {
  bool known = wall_states_fill_friction(ev, wall);
  double angle = known ? wall_get_fill_friction(ev, wall) : ground_of(ev).friction_angle;
  double rises = wall_get_above(ev, wall) == WORD_above_slope ? atan(1 / wall_get_back_slope(ev, wall)) : 0;
  if (evaluation_marked(ev)) return (double)NAN;
  double coefficient = thrust_coulomb_coefficient(angle, 0, 0, rises);
  if (!isnan(coefficient)) return coefficient;
  evaluation_impossible(ev, wall.at, rises > 0 ? ROW_wall_back_slope : ROW_wall_fill_friction,
                        "leaves ground that cannot stand behind the wall", "a slope flatter than its friction angle");
  return (double)NAN;
}

// A liner under a wall is a plane to slide on. Beside a basin one has to say whether there is any.
static bool on_liner(struct evaluation *ev, struct wall_ref wall) {
  bool asked = wall_states_liner_under(ev, wall) || wall_states_beside(ev, wall);
  return asked && wall_get_liner_under(ev, wall) == WORD_yes_no_yes;
}

static double sliding_friction_of_wall(struct evaluation *ev, struct wall_ref wall) {
  if (wall_states_base_friction(ev, wall)) return wall_get_base_friction(ev, wall);
  if (on_liner(ev, wall)) return friction_row(FRICTION_SMOOTH_MEMBRANE)->coefficient;
  if (wall_get_base_pad(ev, wall) >= 6 * INCH * (1 - 1e-9)) return friction_row(FRICTION_GRAVEL)->coefficient;
  return ground_of(ev).base_friction;
}

static struct wall body_of(struct evaluation *ev, struct wall_ref wall, double uplift) {
  double base = wall_get_thickness(ev, wall);
  bool tapers = wall_states_top_thickness(ev, wall);
  return (struct wall){.height = wall_get_footing_to_top(ev, wall),
                       .top = tapers ? wall_get_top_thickness(ev, wall) : base,
                       .base = base,
                       .density = wall_get_density(ev, wall),
                       .friction = wall_get_sliding_friction(ev, wall),
                       .uplift = uplift};
}

static const struct wall_standing *standing(struct evaluation *ev, struct wall_ref wall, bool wet) {
  struct wall body = body_of(ev, wall, wet ? 1 : 0);
  struct wall_ground behind = {.ground = {.coefficient = wall_get_push_coefficient(ev, wall),
                                          .height = body.height,
                                          .density = wall_get_fill_density(ev, wall),
                                          .density_wet = CAREFULLY_IN_WATER,
                                          .water = wet ? body.height : 0,
                                          .surcharge = wall_get_load_behind(ev, wall)}};
  if (evaluation_marked(ev)) return NULL;
  if (body.top > body.base) {
    evaluation_impossible(ev, wall.at, ROW_wall_top_thickness, "is more than the thickness at the base",
                          "a top no thicker than the base");
    return NULL;
  }
  struct wall_standing *stands = arena_alloc(evaluation_arena(ev), sizeof *stands);
  *stands = wall_standing(&body, &behind);
  return stands;
}

static const struct wall_standing *drained_of_wall(struct evaluation *ev, struct wall_ref wall) {
  return standing(ev, wall, false);
}
static const struct wall_standing *wet_of_wall(struct evaluation *ev, struct wall_ref wall) {
  return standing(ev, wall, true);
}

#define OF_STATE(name, state, field)                                          \
  static double name##_of_wall(struct evaluation *ev, struct wall_ref wall) { \
    const struct wall_standing *stands = wall_get_##state(ev, wall);          \
    return stands ? stands->field : (double)NAN;                              \
  }
OF_STATE(overturning_drained, drained, overturning)
OF_STATE(overturning_wet, wet, overturning)
OF_STATE(sliding_drained, drained, sliding)
OF_STATE(sliding_wet, wet, sliding)
#undef OF_STATE

static bool has_no_drain(struct evaluation *ev, struct wall_ref wall) {
  return wall_get_drain(ev, wall) == WORD_fitted_none;
}

static double overturning_of_wall(struct evaluation *ev, struct wall_ref wall) {
  return has_no_drain(ev, wall) ? wall_get_overturning_wet(ev, wall) : wall_get_overturning_drained(ev, wall);
}
static double sliding_of_wall(struct evaluation *ev, struct wall_ref wall) {
  return has_no_drain(ev, wall) ? wall_get_sliding_wet(ev, wall) : wall_get_sliding_drained(ev, wall);
}

static const struct wall_standing *worst_of(struct evaluation *ev, struct wall_ref wall) {
  return has_no_drain(ev, wall) ? wall_get_wet(ev, wall) : wall_get_drained(ev, wall);
}

// ---- What it does to the ground under it ----

static double bearing_pressure_of_wall(struct evaluation *ev, struct wall_ref wall) {
  const struct wall_standing *stands = worst_of(ev, wall);
  if (!stands) return (double)NAN;
  double most = fmax(stands->pressure.front, stands->pressure.rear);
  if (!isfinite(most)) evaluation_missing(ev, "its load comes down past its edge: it goes over before it bears");
  return most;
}

static double bearing_presumed_of_wall(struct evaluation *ev, struct wall_ref wall) {
  (void)wall;
  return ground_of(ev).bearing;
}

static double bearing_share_of_wall(struct evaluation *ev, struct wall_ref wall) {
  return wall_get_bearing_pressure(ev, wall) / wall_get_bearing_presumed(ev, wall);
}

static double kern_share_of_wall(struct evaluation *ev, struct wall_ref wall) {
  const struct wall_standing *stands = worst_of(ev, wall);
  double sixth = wall_get_thickness(ev, wall) / 6;
  return stands ? fabs(stands->pressure.eccentricity) / sixth : (double)NAN;
}

// ---- How deep it starts, how far one falls ----

// Steeper than 2:1 nobody gives a figure: the one for 2:1 stands, in doubt.
static enum wall_toe toe_of(struct evaluation *ev, struct wall_ref wall) {
  if (wall_states_beside(ev, wall) && wall_get_beside(ev, wall).at >= 0) return WALL_TOE_2_TO_1;
  double run = wall_get_toe_slope(ev, wall);
  if (run < 2) evaluation_outside(ev);
  if (isinf(run)) return WALL_TOE_LEVEL;
  return run >= 3 * (1 - 1e-9) ? WALL_TOE_3_TO_1 : WALL_TOE_2_TO_1;
}

static double embedment_asked_of_wall(struct evaluation *ev, struct wall_ref wall) {
  enum wall_toe toe = toe_of(ev, wall);
  return wall_least_embedment(wall_get_footing_to_top(ev, wall), toe);
}

static double embedment_to_spare_of_wall(struct evaluation *ev, struct wall_ref wall) {
  return wall_get_embedment(ev, wall) - wall_get_embedment_asked(ev, wall);
}

static double over_bed(struct evaluation *ev, struct basin_ref basin) {
  return site_get_ground(ev, the_site(ev)) - (basin_get_water_level(ev, basin) - basin_get_depth(ev, basin));
}

static double drop_to_bed_of_wall(struct evaluation *ev, struct wall_ref wall) {
  if (wall_states_drop_below(ev, wall)) return wall_get_drop_below(ev, wall);
  double shows = wall_get_footing_to_top(ev, wall) - wall_get_embedment(ev, wall);
  return wall_states_beside(ev, wall) ? over_bed(ev, wall_get_beside(ev, wall)) + shows : shows;
}

static double fall_from_walk_of_wall(struct evaluation *ev, struct wall_ref wall) {
  return wall_get_above(ev, wall) == WORD_above_paving ? wall_get_drop_to_bed(ev, wall) : 0;
}

// ---- Coping ----

static struct trade_range cap_density(struct evaluation *ev, struct coping_ref coping) {
  enum word stone = coping_get_stone(ev, coping);
  return evaluation_marked(ev) ? (struct trade_range){0, 0, 0} : trade_density(stone);
}

static double cap_volume(struct evaluation *ev, struct coping_ref coping) {
  return coping_get_length(ev, coping) * coping_get_depth(ev, coping) * coping_get_thickness(ev, coping);
}

static double mass_low_of_coping(struct evaluation *ev, struct coping_ref coping) {
  return cap_volume(ev, coping) * cap_density(ev, coping).low;
}

static double mass_high_of_coping(struct evaluation *ev, struct coping_ref coping) {
  return cap_volume(ev, coping) * cap_density(ev, coping).high;
}

// 300 lb at the very edge, on one piece, held by the stone's own weight alone.
static double tip_factor_of_coping(struct evaluation *ev, struct coping_ref coping) {
  struct coping cap = {.length = coping_get_length(ev, coping),
                       .depth = coping_get_depth(ev, coping),
                       .thickness = coping_get_thickness(ev, coping),
                       .overhang = coping_get_overhang(ev, coping)};
  double mass = coping_get_mass_low(ev, coping);
  if (evaluation_marked(ev)) return (double)NAN;
  cap.density = mass / (cap.length * cap.depth * cap.thickness);
  return coping_tipping_factor(&cap, 300 * POUND * GRAVITY);
}

// A foot of the edge takes the load, or the whole piece where it is shorter.
static double stress_of_coping(struct evaluation *ev, struct coping_ref coping) {
  struct coping cap = {.length = coping_get_length(ev, coping),
                       .depth = coping_get_depth(ev, coping),
                       .thickness = coping_get_thickness(ev, coping),
                       .overhang = coping_get_overhang(ev, coping)};
  double mass = coping_get_mass_high(ev, coping);
  if (evaluation_marked(ev)) return (double)NAN;
  cap.density = mass / (cap.length * cap.depth * cap.thickness);
  return coping_cantilever_stress(&cap, fmin(cap.length, FOOT), 300 * POUND * GRAVITY);
}

static double stress_allowed_of_coping(struct evaluation *ev, struct coping_ref coping) {
  enum word stone = coping_get_stone(ev, coping);
  bool tested = coping_states_strength(ev, coping);
  double strength = tested ? coping_get_strength(ev, coping) : 0;
  if (evaluation_marked(ev)) return (double)NAN;
  struct trade_bending usual = trade_bending(stone);
  if (!tested && usual.strength <= 0)
    evaluation_missing(ev, "nobody knows what this stone bears: have it tested, and write its `strength`");
  return (tested ? strength : usual.strength) / usual.divided;
}

static double strength_share_of_coping(struct evaluation *ev, struct coping_ref coping) {
  return coping_get_stress(ev, coping) / coping_get_stress_allowed(ev, coping);
}

// ---- Paving ----

static double base_volume_of_paving(struct evaluation *ev, struct paving_ref paving) {
  return paving_get_area(ev, paving) * paving_get_base(ev, paving);
}

static double stone_area_of_paving(struct evaluation *ev, struct paving_ref paving) {
  return 1.1 * paving_get_area(ev, paving);
}

static double base_asked_of_paving(struct evaluation *ev, struct paving_ref paving) {
  (void)paving;
  return site_get_frost(ev, the_site(ev)) == WORD_frost_none ? 4 * INCH : 6 * INCH;
}

static double base_to_spare_of_paving(struct evaluation *ev, struct paving_ref paving) {
  return paving_get_base(ev, paving) - paving_get_base_asked(ev, paving);
}

static double drop_to_bed_of_paving(struct evaluation *ev, struct paving_ref paving) {
  if (paving_states_drop(ev, paving)) return paving_get_drop(ev, paving);
  struct any_ref beside = paving_get_beside(ev, paving);
  if (kind_of(ev, beside) == KIND_wall) return wall_get_drop_to_bed(ev, (struct wall_ref){beside.at});
  return over_bed(ev, (struct basin_ref){beside.at});
}

static double fall_from_walk_of_paving(struct evaluation *ev, struct paving_ref paving) {
  return paving_get_edge_distance(ev, paving) <= 36 * INCH * (1 + 1e-9) ? paving_get_drop_to_bed(ev, paving) : 0;
}

#include "quantities/export.h"
