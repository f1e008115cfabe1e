// SPDX-License-Identifier: MIT
// E. Stone.
#include <math.h>

#include "catalogue/trade.h"
#include "quantities/read.h"

#define FOREBAY_ROWS "catalogue/stone.def"

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
    evaluation_impossible(ev, boulder.at, ROW_boulder_length, "leaves no stone around its hollow", "a larger stone or a smaller hollow");
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

#include "quantities/export.h"
DERIVED(boulder, ground)
