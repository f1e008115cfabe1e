// SPDX-License-Identifier: MIT
// G. Earthwork.
#include <math.h>

#include "catalogue/trade.h"
#include "physics/dewater.h"
#include "physics/soil.h"
#include "quantities/ground.h"
#include "quantities/outline.h"
#include "quantities/read.h"

#define FOREBAY_ROWS "catalogue/earthwork.def"

// ---- The ground ----

// A survey whose points all lie within this of one plane is that plane.
#define PLANE_WITHIN 1e-6  // m

static void release_surface(void *surface) { polygon_surface_free(surface); }

static double across(const struct polygon_surface_point *a, const struct polygon_surface_point *b,
                     const struct polygon_surface_point *c) {
  return (b->x - a->x) * (c->y - a->y) - (b->y - a->y) * (c->x - a->x);
}

// The plane through three points far apart.
static struct ground_shape plane_through(const struct polygon_surface_point *points, size_t count) {
  const struct polygon_surface_point *a = points, *b = points, *c = points;
  for (size_t i = 0; i < count; i++) {
    if (hypot(points[i].x - a->x, points[i].y - a->y) > hypot(b->x - a->x, b->y - a->y)) b = &points[i];
  }
  for (size_t i = 0; i < count; i++) {
    if (fabs(across(a, b, &points[i])) > fabs(across(a, b, c))) c = &points[i];
  }
  const double twice = across(a, b, c), zb = b->z - a->z, zc = c->z - a->z;
  struct ground_shape plane = {.plane = true};
  plane.along_x = (zb * (c->y - a->y) - zc * (b->y - a->y)) / twice;
  plane.along_y = (zc * (b->x - a->x) - zb * (c->x - a->x)) / twice;
  plane.at_origin = a->z - plane.along_x * a->x - plane.along_y * a->y;
  return plane;
}

static bool lie_on(const struct ground_shape *plane, const struct polygon_surface_point *points, size_t count) {
  bool on = true;
  for (size_t i = 0; i < count; i++) {
    const double height = plane->at_origin + plane->along_x * points[i].x + plane->along_y * points[i].y;
    on = on && fabs(points[i].z - height) <= PLANE_WITHIN;
  }
  return on;
}

static bool surveyed(struct evaluation *ev, struct site_ref site, struct ground_shape *ground) {
  const struct store *design = evaluation_design(ev);
  struct polygon_problem problem = {.text = ""};
  struct polygon_surface *surface = polygon_surface_new(design->survey, design->survey_count, &problem);
  if (!surface) {
    evaluation_impossible(ev, site.at, ROW_site_survey, arena_words(evaluation_arena(ev), problem.text),
                          "three points or more, spread all round the pit");
    return false;
  }
  arena_at_free(evaluation_arena(ev), release_surface, surface);
  *ground = plane_through(design->survey, design->survey_count);
  ground->plane = lie_on(ground, design->survey, design->survey_count);
  ground->surface = surface;
  ground->points = design->survey;
  ground->count = design->survey_count;
  return true;
}

static const struct ground_shape *ground_shape_of_site(struct evaluation *ev, struct site_ref site) {
  struct ground_shape *ground = arena_alloc(evaluation_arena(ev), sizeof *ground);
  if (evaluation_stated(ev, site.at, ROW_site_survey)) {
    (void)site_get_survey(ev, site);
    return surveyed(ev, site, ground) ? ground : NULL;
  }
  *ground = (struct ground_shape){.plane = true, .at_origin = site_get_ground(ev, site)};
  if (site_states_ground_slope(ev, site)) ground->along_y = -1 / site_get_ground_slope(ev, site);
  return evaluation_marked(ev) ? NULL : ground;
}

static const struct ground_shape *the_ground(struct evaluation *ev) { return site_get_ground_shape(ev, the_site(ev)); }

static void survey_too_small(struct evaluation *ev) {
  evaluation_impossible(ev, the_site(ev).at, ROW_site_survey, "ends inside the pit or a basin in the ground",
                        "points all round, further out than the top of the pit");
}

// ---- What is dug ----

static double ground_over_basin(struct evaluation *ev, struct basin_ref basin) {
  const struct ground_shape *ground = the_ground(ev);
  if (!ground) return (double)NAN;
  if (ground_is_level(ground)) return ground->at_origin;
  struct polygon_profile *outline = outline_of_basin(ev, basin);
  if (!outline || evaluation_marked(ev)) return (double)NAN;
  double highest = ground_highest(ground, outline_polygon(ev, outline));
  if (isnan(highest)) survey_too_small(ev);
  return highest;
}

static double ground_depth_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return ground_over_basin(ev, basin) - basin_get_water_level(ev, basin) + basin_get_depth(ev, basin);
}

static double dig_count_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return (double)basin_count_digs(ev, basin);
}

// ---- The pit ----

static bool is_for_wall(struct evaluation *ev, struct dig_ref dig) {
  return kind_of(ev, dig_get_of(ev, dig)) == KIND_wall;
}

// The cut behind a wall is as deep as the wall is high, wherever it stands: it holds ground unless somebody measures
// otherwise. Its base pad is the room under it; a basin's is `below`.
static double wall_depth(struct evaluation *ev, struct wall_ref wall) {
  return fmax(wall_get_footing_to_top(ev, wall), wall_get_embedment(ev, wall)) + wall_get_base_pad(ev, wall);
}

static double lowest_of(struct evaluation *ev, struct dig_ref dig) {
  struct any_ref of = dig_get_of(ev, dig);
  if (kind_of(ev, of) == KIND_wall) {
    return site_get_ground(ev, the_site(ev)) - wall_depth(ev, (struct wall_ref){of.at});
  }
  struct basin_ref basin = {of.at};
  return basin_get_water_level(ev, basin) - basin_get_depth(ev, basin) - dig_get_below(ev, dig);
}

static struct polygon_profile *outline_of(struct evaluation *ev, struct dig_ref dig) {
  struct any_ref of = dig_get_of(ev, dig);
  if (kind_of(ev, of) == KIND_wall) return outline_of_wall(ev, (struct wall_ref){of.at});
  return outline_of_basin(ev, (struct basin_ref){of.at});
}

static const char NO_OUTLINE[] = "leaves a pit whose outline cannot be drawn";

static void release_polygon(void *polygon) { polygon_free(polygon); }

// NULL: a mark is set.
static const struct polygon *bottom_of(struct evaluation *ev, struct dig_ref dig) {
  double beyond = dig_get_beyond(ev, dig);
  struct polygon_profile *outline = outline_of(ev, dig);
  if (evaluation_marked(ev) || !outline) return NULL;
  struct polygon *bottom = polygon_inset_new(outline_polygon(ev, outline), -beyond, NULL);
  if (bottom) arena_at_free(evaluation_arena(ev), release_polygon, bottom);
  if (!bottom) evaluation_impossible(ev, dig.at, ROW_dig_beyond, NO_OUTLINE, NULL);
  return bottom;
}

static void add_benches(struct evaluation *ev, struct dig_ref dig, struct pit_sides *sides) {
  sides->count = dig_count_benches(ev, dig);
  struct pit_step *steps = arena_array(evaluation_arena(ev), sides->count + 1, sizeof *steps);
  double height = 0;
  for (size_t i = 0; i < sides->count; i++) {
    struct bench_ref bench = dig_benches_at(ev, dig, i);
    height += bench_get_up(ev, bench);
    steps[i] = (struct pit_step){height, bench_get_width(ev, bench)};
  }
  sides->steps = steps;
}

// False: a mark is set.
static bool sides_of(struct evaluation *ev, struct dig_ref dig, struct pit_sides *sides) {
  *sides =
      (struct pit_sides){.bottom = bottom_of(ev, dig), .level = lowest_of(ev, dig), .slope = dig_get_slope(ev, dig)};
  add_benches(ev, dig, sides);
  return sides->bottom && !evaluation_marked(ev);
}

static const struct ground_shape *ground_for(struct evaluation *ev, struct dig_ref dig) {
  if (!is_for_wall(ev, dig)) return the_ground(ev);
  struct ground_shape *level = arena_alloc(evaluation_arena(ev), sizeof *level);
  *level = (struct ground_shape){.plane = true, .at_origin = site_get_ground(ev, the_site(ev))};
  return evaluation_marked(ev) ? NULL : level;
}

static double height_of_pit(struct evaluation *ev, struct dig_ref dig, const struct ground_shape *ground) {
  struct pit_sides sides;
  if (!sides_of(ev, dig, &sides)) return (double)NAN;
  double height = pit_height(ground, &sides);
  if (isnan(height) && ground->surface) survey_too_small(ev);
  if (isnan(height) && !ground->surface) evaluation_impossible(ev, dig.at, ROW_dig_slope, NO_OUTLINE, NULL);
  if (isinf(height) && height > 0) {
    evaluation_impossible(ev, dig.at, ROW_dig_slope,
                          "is hardly steeper than the ground, or flatter: the pit does not come out of it",
                          "steeper sides, held up if need be");
  }
  return height;
}

// Level ground needs neither outline nor slope.
static double depth_of_dig(struct evaluation *ev, struct dig_ref dig) {
  const struct ground_shape *ground = ground_for(ev, dig);
  if (!ground) return (double)NAN;
  bool simple = ground_is_level(ground) && !ground->surface;
  double depth = simple ? ground->at_origin - lowest_of(ev, dig) : height_of_pit(ev, dig, ground);
  if (!evaluation_marked(ev) && depth <= 0) {
    evaluation_impossible(ev, dig.at, ROW_dig_of, "stands above the ground: there is nothing to dig",
                          "a basin or wall that reaches into the ground");
  }
  return depth;
}

static bool benches_fit(struct evaluation *ev, struct dig_ref dig, const struct pit_sides *sides, double depth) {
  if (sides->count == 0 || sides->steps[sides->count - 1].height < depth) return true;
  evaluation_impossible(ev, dig.at, ROW_dig_benches, "reach over the top of the pit",
                        "benches that end under the ground");
  return false;
}

static const struct dig_pit *pit_of_dig(struct evaluation *ev, struct dig_ref dig) {
  double depth = dig_get_depth(ev, dig);
  const struct ground_shape *ground = ground_for(ev, dig);
  struct pit_sides sides;
  if (!sides_of(ev, dig, &sides) || !ground || !benches_fit(ev, dig, &sides, depth)) return NULL;
  struct polygon_problem problem = {.text = ""};
  struct dig_pit *pit = arena_alloc(evaluation_arena(ev), sizeof *pit);
  pit->volume = pit_volume(ground, &sides, depth, &problem);
  pit->top_area = pit_top_area(ground, &sides, depth, &problem);
  if (!isnan(pit->volume) && !isnan(pit->top_area)) return pit;
  if (ground->surface) {
    survey_too_small(ev);
  } else {
    evaluation_impossible(ev, dig.at, ROW_dig_slope, arena_words(evaluation_arena(ev), problem.text), NULL);
  }
  return NULL;
}

static double bottom_width_of_dig(struct evaluation *ev, struct dig_ref dig) {
  double beyond = dig_get_beyond(ev, dig);
  struct polygon_profile *outline = outline_of(ev, dig);
  struct polygon_extents extents;
  if (evaluation_marked(ev) || !outline) return (double)NAN;
  if (!polygon_extents(outline_polygon(ev, outline), &extents, NULL)) return (double)NAN;
  return extents.width + 2 * beyond;
}

static double bottom_area_of_dig(struct evaluation *ev, struct dig_ref dig) {
  const struct polygon *bottom = bottom_of(ev, dig);
  return bottom ? polygon_area(bottom) : (double)NAN;
}

static double top_reach_of_dig(struct evaluation *ev, struct dig_ref dig) {
  struct pit_sides sides = {.slope = dig_get_slope(ev, dig)};
  add_benches(ev, dig, &sides);
  double depth = dig_get_depth(ev, dig);
  return evaluation_marked(ev) ? (double)NAN : pit_reach(&sides, depth);
}

#define OF_PIT(name, expression)                                           \
  static double name##_of_dig(struct evaluation *ev, struct dig_ref dig) { \
    const struct dig_pit *pit = dig_get_pit(ev, dig);                      \
    return pit ? (expression) : (double)NAN;                               \
  }
OF_PIT(top_area, pit->top_area)
OF_PIT(bank_volume, pit->volume)
#undef OF_PIT

// ---- Hauling ----

static enum word soil_of(struct evaluation *ev) { return site_get_soil(ev, the_site(ev)); }

static double loose_volume_of_dig(struct evaluation *ev, struct dig_ref dig) {
  return soil_loose_volume(dig_get_bank_volume(ev, dig), site_get_swell(ev, the_site(ev)));
}

static double compacted_volume_of_dig(struct evaluation *ev, struct dig_ref dig) {
  struct site_ref site = the_site(ev);
  double volume = dig_get_bank_volume(ev, dig);
  if (site_states_shrink(ev, site)) return volume * (1 - site_get_shrink(ev, site));
  enum word soil = soil_of(ev);
  return evaluation_marked(ev) ? (double)NAN : volume * trade_soil_density(soil) / trade_soil_compacted(soil);
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

// Soil that water seeps from is type C, whatever it was when dry (Subpart P, App. A). Where the water stands is asked:
// ground that nobody looked into is not dry.
static bool is_wet(struct evaluation *ev, struct dig_ref dig) { return dig_get_water_in_pit(ev, dig) > 0; }

static enum word soil_as_dug(struct evaluation *ev, struct dig_ref dig, enum word soil) {
  struct site_ref site = the_site(ev);
  if (soil == WORD_soil_rock || soil == WORD_soil_type_c) return soil;
  if (is_wet(ev, dig)) return WORD_soil_type_c;
  bool sound = site_states_undisturbed(ev, site) && site_get_undisturbed(ev, site) == WORD_yes_no_yes;
  return soil == WORD_soil_type_a && !sound ? WORD_soil_type_b : soil;
}

static double slope_asked_of_dig(struct evaluation *ev, struct dig_ref dig) {
  enum word soil = soil_of(ev);
  if (evaluation_marked(ev)) return (double)NAN;
  soil = soil_as_dug(ev, dig, soil);
  return evaluation_marked(ev) ? (double)NAN : trade_soil_slope(soil);
}

static double bench_count_of_dig(struct evaluation *ev, struct dig_ref dig) {
  return (double)dig_count_benches(ev, dig);
}

// The line from the foot of the pit to the top of each riser over a bench: the soil in front of it has to hold itself.
// The lowest riser is not looked at here; how high that may stand is the competent person's to say.
static double slope_drawn_of_dig(struct evaluation *ev, struct dig_ref dig) {
  struct pit_sides sides = {.slope = dig_get_slope(ev, dig)};
  add_benches(ev, dig, &sides);
  if (sides.count == 0) return sides.slope;
  double depth = dig_get_depth(ev, dig), steepest = INFINITY;
  if (evaluation_marked(ev)) return (double)NAN;
  for (size_t i = 1; i <= sides.count; i++) {
    double top = i < sides.count ? sides.steps[i].height : depth;
    steepest = fmin(steepest, pit_reach(&sides, top) / top);
  }
  return steepest;
}

static double slope_to_spare_of_dig(struct evaluation *ev, struct dig_ref dig) {
  return dig_get_slope_drawn(ev, dig) - dig_get_slope_asked(ev, dig);
}

static double footing_to_spare_of_dig(struct evaluation *ev, struct dig_ref dig) {
  struct site_ref site = the_site(ev);
  double distance = site_get_footing_distance(ev, site);
  if (isinf(distance)) return distance;
  double under = dig_get_depth(ev, dig) - site_get_footing_depth(ev, site);
  return distance - fmax(dig_get_top_reach(ev, dig), under * fmax(1, dig_get_slope_asked(ev, dig)));
}

// ---- Ground water ----

static double water_in_pit_of_dig(struct evaluation *ev, struct dig_ref dig) {
  double ground_water = site_get_ground_water(ev, the_site(ev));
  return isinf(ground_water) ? 0 : fmax(0, dig_get_depth(ev, dig) - ground_water);
}

static double inflow_of_dig(struct evaluation *ev, struct dig_ref dig) {
  double lowering = dig_get_water_in_pit(ev, dig);
  if (lowering == 0) return 0;
  const struct dewater_pit pit = {.area = dig_get_bottom_area(ev, dig),
                                  .permeability = site_get_permeability(ev, the_site(ev)),
                                  .thickness = INFINITY,
                                  .lowering = lowering};
  return evaluation_marked(ev) ? (double)NAN : dewater_inflow(&pit);
}

// Where no water comes in there is nothing to pump.
static double sump_share_of_dig(struct evaluation *ev, struct dig_ref dig) {
  double inflow = dig_get_inflow(ev, dig);
  return inflow == 0 ? INFINITY : dig_get_sump_flow(ev, dig) / inflow;
}

// ---- Round the pit ----

static double test_hole_past_of_dig(struct evaluation *ev, struct dig_ref dig) {
  return site_get_test_hole(ev, the_site(ev)) - dig_get_depth(ev, dig);
}

static bool is_in_reach(struct evaluation *ev, struct dig_ref dig) {
  if (is_for_wall(ev, dig)) return true;
  enum word reach = basin_get_reach(ev, (struct basin_ref){dig_get_of(ev, dig).at});
  return reach == WORD_reach_children || reach == WORD_reach_public;
}

static double pits_in_reach_of_project(struct evaluation *ev, struct project_ref project) {
  (void)project;
  const struct store *design = evaluation_design(ev);
  double count = 0;
  for (size_t i = 0; i < store_count(design, KIND_dig); i++) {
    count += is_in_reach(ev, (struct dig_ref){store_of_kind(design, KIND_dig, i)});
  }
  return count;
}

// Root circle beyond a straight cut, no wider than `half` each way from its middle.
static double cut_off(double radius, double distance, double half) {
  const double most = sqrt(radius * radius - distance * distance), a = fmin(half, most);
  return a * sqrt(radius * radius - a * a) + radius * radius * asin(a / radius) - 2 * a * distance;
}

static double root_share_of_tree(struct evaluation *ev, struct tree_ref tree) {
  const double pi = acos(-1), radius = 12 * tree_get_trunk(ev, tree), distance = tree_get_distance(ev, tree);
  double half = tree_states_cut_width(ev, tree) ? tree_get_cut_width(ev, tree) / 2 : (double)INFINITY;
  if (evaluation_marked(ev)) return (double)NAN;
  return distance >= radius ? 0 : cut_off(radius, distance, half) / (pi * radius * radius);
}

#include "quantities/export.h"
