// SPDX-License-Identifier: MIT
// G. Earthwork.
#include <math.h>

#include "catalogue/trade.h"
#include "physics/soil.h"
#include "quantities/outline.h"
#include "quantities/read.h"

#define FOREBAY_ROWS "catalogue/earthwork.def"

// ---- What is dug ----

static double ground_depth_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return site_get_ground(ev, the_site(ev)) - basin_get_water_level(ev, basin) + basin_get_depth(ev, basin);
}

static double dig_count_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return (double)basin_count_digs(ev, basin);
}

// ---- The pit ----

static struct basin_ref dug_for_basin(struct evaluation *ev, struct dig_ref dig) {
  struct any_ref of = dig_get_of(ev, dig);
  return (struct basin_ref){kind_of(ev, of) == KIND_basin ? of.at : -1};
}

static double lowest_of(struct evaluation *ev, struct dig_ref dig, double ground) {
  struct any_ref of = dig_get_of(ev, dig);
  if (kind_of(ev, of) == KIND_wall) {
    struct wall_ref wall = {of.at};
    return ground - fmax(wall_get_footing_to_top(ev, wall), wall_get_embedment(ev, wall)) - wall_get_base_pad(ev, wall);
  }
  struct basin_ref basin = {of.at};
  return basin_get_water_level(ev, basin) - basin_get_depth(ev, basin) - dig_get_below(ev, dig);
}

// The cut behind a wall is as deep as the wall is high: it holds ground unless somebody measures otherwise. Its base pad
// is the room under it; a basin's is `below`.
static double depth_of_dig(struct evaluation *ev, struct dig_ref dig) {
  double ground = site_get_ground(ev, the_site(ev));
  double depth = ground - lowest_of(ev, dig, ground);
  if (!evaluation_marked(ev) && depth <= 0) {
    evaluation_impossible(ev, dig.at, ROW_dig_of, "stands above the ground: there is nothing to dig", "a basin or wall that reaches into the ground");
  }
  return depth;
}

static struct polygon_profile *outline_of(struct evaluation *ev, struct dig_ref dig) {
  struct any_ref of = dig_get_of(ev, dig);
  if (kind_of(ev, of) == KIND_wall) return outline_of_wall(ev, (struct wall_ref){of.at});
  return outline_of_basin(ev, dug_for_basin(ev, dig));
}

static double outset_area(struct evaluation *ev, struct polygon_profile *outline, double outset) {
  return outline_area(ev, outline, -outset);
}

// The sides are planes, so one cut with its middle is exact as long as no corner closes on the way up, which outsets of
// an outline do not do.
static const struct dig_pit *pit_of_dig(struct evaluation *ev, struct dig_ref dig) {
  double depth = dig_get_depth(ev, dig), beyond = dig_get_beyond(ev, dig), slope = dig_get_slope(ev, dig);
  struct polygon_profile *outline = outline_of(ev, dig);
  struct polygon_extents extents;
  if (evaluation_marked(ev) || !outline || !polygon_extents(polygon_profile_outline(outline), &extents, NULL)) return NULL;
  struct cut *cut = arena_alloc(evaluation_arena(ev), sizeof *cut);
  *cut = (struct cut){depth, 0, outset_area(ev, outline, beyond + slope * depth),
                      outset_area(ev, outline, beyond + slope * depth / 2), outset_area(ev, outline, beyond)};
  struct dig_pit *pit = arena_alloc(evaluation_arena(ev), sizeof *pit);
  *pit = (struct dig_pit){cut->area_top, cut->area_bottom, extents.width + 2 * beyond, {cut, 1}};
  return pit;
}

#define OF_PIT(name, expression)                                         \
  static double name##_of_dig(struct evaluation *ev, struct dig_ref dig) { \
    const struct dig_pit *pit = dig_get_pit(ev, dig);                    \
    return pit ? (expression) : (double)NAN;                             \
  }
OF_PIT(bottom_width, pit->bottom_width)
OF_PIT(top_area, pit->top_area)
OF_PIT(bank_volume, cuts_volume(&pit->cuts, pit->cuts.layers[0].top, pit->cuts.layers[0].bottom))
#undef OF_PIT

// ---- Hauling ----

static enum word soil_of(struct evaluation *ev) { return site_get_soil(ev, the_site(ev)); }

static double loose_volume_of_dig(struct evaluation *ev, struct dig_ref dig) {
  return soil_loose_volume(dig_get_bank_volume(ev, dig), site_get_swell(ev, the_site(ev)));
}

static double soil_mass_of_dig(struct evaluation *ev, struct dig_ref dig) {
  enum word soil = soil_of(ev);
  double volume = dig_get_bank_volume(ev, dig);
  return evaluation_marked(ev) ? (double)NAN : volume * trade_soil_density(soil);
}

static double loads_by_volume_of_dig(struct evaluation *ev, struct dig_ref dig) {
  return dig_get_loose_volume(ev, dig) / site_get_truck_volume(ev, the_site(ev));
}

static double loads_by_mass_of_dig(struct evaluation *ev, struct dig_ref dig) {
  return dig_get_soil_mass(ev, dig) / site_get_truck_limit(ev, the_site(ev));
}

static double loads_of_dig(struct evaluation *ev, struct dig_ref dig) {
  double loads = fmax(dig_get_loads_by_volume(ev, dig), dig_get_loads_by_mass(ev, dig));
  return ceil(loads - 1e-9 * loads);
}

static double slope_asked_of_dig(struct evaluation *ev, struct dig_ref dig) {
  (void)dig;
  struct site_ref site = the_site(ev);
  enum word soil = soil_of(ev);
  if (evaluation_marked(ev)) return (double)NAN;
  bool as_b = soil == WORD_soil_type_a &&
              !(site_states_undisturbed(ev, site) && site_get_undisturbed(ev, site) == WORD_yes_no_yes);
  return trade_soil_slope(as_b ? WORD_soil_type_b : soil);
}

static double slope_to_spare_of_dig(struct evaluation *ev, struct dig_ref dig) {
  return dig_get_slope(ev, dig) - dig_get_slope_asked(ev, dig);
}

static double test_hole_past_of_dig(struct evaluation *ev, struct dig_ref dig) {
  return site_get_test_hole(ev, the_site(ev)) - dig_get_depth(ev, dig);
}

#include "quantities/export.h"
