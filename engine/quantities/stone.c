// SPDX-License-Identifier: MIT
// E. Stone.
#include <math.h>

#include "catalogue/trade.h"
#include "physics/footing.h"
#include "physics/haul.h"
#include "physics/water.h"
#include "quantities/read.h"
#include "units/exact.h"

#define FOREBAY_ROWS "catalogue/stone.def"

#define GRAVEL_DENSITY (100 * POUND / CUBIC_FOOT)  // clean crushed stone, loose; common practice

// ---- Volume and weight ----

static double box_of(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_get_length(ev, boulder) * boulder_get_width(ev, boulder) * boulder_get_height(ev, boulder);
}

static double hollows_of(struct evaluation *ev, struct boulder_ref boulder) {
  double volume = 0;
  for (size_t i = 0; i < boulder_count_hollows(ev, boulder); i++) {
    volume += basin_get_gross_volume(ev, boulder_hollows_at(ev, boulder, i));
  }
  return volume;
}

static struct trade_range fills_of(struct evaluation *ev, struct boulder_ref boulder) {
  enum word shape = boulder_get_shape(ev, boulder);
  return evaluation_marked(ev) ? (struct trade_range){0, 0, 0} : trade_fills(shape);
}

static struct trade_range density_of(struct evaluation *ev, struct boulder_ref boulder) {
  if (boulder_states_density(ev, boulder)) {
    double density = boulder_get_density(ev, boulder);
    return (struct trade_range){density, density, density};
  }
  enum word stone = boulder_get_stone(ev, boulder);
  return evaluation_marked(ev) ? (struct trade_range){0, 0, 0} : trade_density(stone);
}

static double solid_left(struct evaluation *ev, struct boulder_ref boulder, double share) {
  double left = box_of(ev, boulder) * share - hollows_of(ev, boulder);
  if (!evaluation_marked(ev) && left <= 0) {
    evaluation_impossible(ev, boulder.at, ROW_boulder_length, "leaves no stone around its hollow",
                          "a larger stone or a smaller hollow");
  }
  return left;
}

static double volume_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return solid_left(ev, boulder, fills_of(ev, boulder).likely);
}

static double mass_low_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return solid_left(ev, boulder, fills_of(ev, boulder).low) * density_of(ev, boulder).low;
}

static double mass_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_get_volume(ev, boulder) * density_of(ev, boulder).likely;
}

static double mass_high_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return solid_left(ev, boulder, fills_of(ev, boulder).high) * density_of(ev, boulder).high;
}

// ---- How it stands ----

static double ground_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  (void)boulder;
  return site_get_ground(ev, the_site(ev));
}

static double embedded_share_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_get_embedment(ev, boulder) / boulder_get_height(ev, boulder);
}

static double shown_height_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_get_height(ev, boulder) - boulder_get_embedment(ev, boulder);
}

static double top_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_get_ground(ev, boulder) + boulder_get_shown_height(ev, boulder);
}

static double nearer(double height, double a, double b) { return fabs(height - b) < fabs(height - a) ? b : a; }

// The lips of its own hollows, or of the basin beside it: how many, and which crest is nearest to a height.
struct lips {
  double height, nearest;
  size_t count;
};

static void look_at_lips(struct evaluation *ev, struct basin_ref basin, struct lips *lips) {
  for (size_t i = 0; i < basin_count_spills_out(ev, basin); i++, lips->count++) {
    lips->nearest = nearer(lips->height, lips->nearest, spill_get_crest(ev, basin_spills_out_at(ev, basin, i)));
  }
  for (size_t i = 0; i < basin_count_spills_in(ev, basin); i++, lips->count++) {
    lips->nearest = nearer(lips->height, lips->nearest, spill_get_crest(ev, basin_spills_in_at(ev, basin, i)));
  }
}

static struct lips lips_by(struct evaluation *ev, struct boulder_ref boulder, double height) {
  struct lips lips = {height, INFINITY, 0};
  size_t hollows = boulder_count_hollows(ev, boulder);
  for (size_t i = 0; i < hollows; i++) look_at_lips(ev, boulder_hollows_at(ev, boulder, i), &lips);
  if (hollows == 0) look_at_lips(ev, boulder_get_beside(ev, boulder), &lips);
  return lips;
}

static double lips_near_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return (double)lips_by(ev, boulder, 0).count;
}

static double over_nearest_lip_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  double top = boulder_get_top(ev, boulder);
  struct lips lips = lips_by(ev, boulder, top);
  if (lips.count == 0 && !evaluation_marked(ev)) evaluation_missing(ev, "no lip is near it");
  return top - lips.nearest;
}

// Stands on the bed, its foot in the gravel; alike from bottom to top.
static double volume_under_water_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  struct basin_ref basin = boulder_get_stands_in(ev, boulder);
  double height = boulder_get_height(ev, boulder);
  double wet = fmin(height, basin_get_depth(ev, basin));
  double in_gravel = fmin(wet, basin_get_gravel_bed(ev, basin));
  return boulder_get_volume(ev, boulder) * (wet - in_gravel) / height;
}

static double gravel_volume_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  double behind = boulder_get_gravel_behind(ev, boulder);
  if (behind <= 0) return 0;
  return behind * boulder_get_length(ev, boulder) * boulder_get_gravel_height(ev, boulder);
}

static double gravel_asked_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  (void)boulder;
  return fmax(12 * INCH, 4 * site_get_gravel_size(ev, the_site(ev)));
}

static double gravel_to_spare_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_get_gravel_behind(ev, boulder) - boulder_get_gravel_asked(ev, boulder);
}

static double gravel_mass_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_get_gravel_volume(ev, boulder) * GRAVEL_DENSITY;
}

static double gravel_bags_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  const struct haul_vessel bag = {HAUL_BULK_BAG, HAUL_BULK_BAG_LIMIT};
  return haul_pieces(&bag, boulder_get_gravel_volume(ev, boulder), GRAVEL_DENSITY);
}

static double gravel_buckets_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  const struct haul_vessel bucket = {HAUL_BUCKET, INFINITY};
  return haul_pieces(&bucket, boulder_get_gravel_volume(ev, boulder), GRAVEL_DENSITY);
}

// ---- In and over the water ----

static double over_water_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_get_top(ev, boulder) - basin_get_water_level(ev, boulder_get_beside(ev, boulder));
}

static double water_up_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  double beside = boulder_get_water_beside(ev, boulder);
  if (!boulder_states_stands_in(ev, boulder)) return beside;
  return fmax(beside, basin_get_depth(ev, boulder_get_stands_in(ev, boulder)));
}

static double buoyancy_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  double height = boulder_get_height(ev, boulder);
  double wetted = fmin(1, boulder_get_water_up(ev, boulder) / height);
  return boulder_get_volume(ev, boulder) * wetted * WATER_USUAL_DENSITY;
}

static double mass_in_water_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_get_mass(ev, boulder) - boulder_get_buoyancy(ev, boulder);
}

// ---- Its seat ----

static double front_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return fmax(boulder_get_length(ev, boulder), boulder_get_width(ev, boulder));
}

// A rough stone touches on about half of its foot; a seat is never wider than the stone's smaller side.
static double seat_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  double across = fmin(boulder_get_length(ev, boulder), boulder_get_width(ev, boulder));
  if (boulder_states_seat_width(ev, boulder)) return fmin(boulder_get_seat_width(ev, boulder), across);
  return boulder_get_shape(ev, boulder) == WORD_boulder_shape_sawn ? across : across / 2;
}

static double seat_pressure_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  double pad = boulder_get_pad(ev, boulder);
  double area = (boulder_get_seat(ev, boulder) + pad) * (boulder_get_front(ev, boulder) + pad);
  return boulder_get_mass_high(ev, boulder) * GRAVITY / area;
}

// Type C may be sand, and as well the softest clay; nobody tested it.
static double bearing_presumed_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  (void)boulder;
  bool rock = site_get_soil(ev, the_site(ev)) == WORD_soil_rock;
  return footing_presumed_bearing(rock ? FOOTING_SEDIMENTARY_ROCK : FOOTING_CLAY);
}

static double bearing_left_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_get_bearing_presumed(ev, boulder) - boulder_get_seat_pressure(ev, boulder);
}

// The low end of each range. Stone on stone: hard on hard, without mortar.
static double friction_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  static const struct {
    enum word on;
    double friction;
  } rows[] = {{WORD_stands_on_gravel, 0.55}, {WORD_stands_on_stone, 0.55}, {WORD_stands_on_soil, 0.30}};
  enum word on = boulder_get_stands_on(ev, boulder);
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
    if (rows[i].on == on) return rows[i].friction;
  }
  const double ten_degrees = 0.17632698, seventeen_degrees = 0.30573068;
  return boulder_get_membrane(ev, boulder) == WORD_membrane_textured ? seventeen_degrees : ten_degrees;
}

static double seat_slope_factor_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_get_friction(ev, boulder) * boulder_get_seat_slope(ev, boulder);
}

// ---- Edges ----

static double shelves_near_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  if (boulder_states_stands_in(ev, boulder)) {
    return (double)basin_count_shelves(ev, boulder_get_stands_in(ev, boulder));
  }
  if (boulder_get_stands_on(ev, boulder) != WORD_stands_on_underlay_on_liner) return 0;
  return (double)basin_count_shelves(ev, boulder_get_beside(ev, boulder));
}

static double shelf_share_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  double drop = boulder_get_shelf_drop(ev, boulder), edge = boulder_get_shelf_edge(ev, boulder);
  return drop > 0 ? edge / drop : (double)(evaluation_marked(ev) ? NAN : INFINITY);
}

static double bore_wall_asked_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return fmax(2 * boulder_get_bore(ev, boulder), 3 * INCH);
}

static double bore_wall_to_spare_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return boulder_get_bore_wall(ev, boulder) - boulder_get_bore_wall_asked(ev, boulder);
}

#include "quantities/export.h"
DERIVED(boulder, ground)
