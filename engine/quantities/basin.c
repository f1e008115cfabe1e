// SPDX-License-Identifier: MIT
// A. Basin: levels, areas, volumes.
#include <math.h>
#include <stdlib.h>

#include "quantities/outline.h"
#include "quantities/read.h"
#include "units/exact.h"

#define FOREBAY_ROWS "catalogue/basin.def"

// ---- Levels ----

static double water_level_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double lowest = INFINITY;
  for (size_t i = 0; i < basin_count_spills_out(ev, basin); i++) {
    lowest = fmin(lowest, spill_get_crest(ev, basin_spills_out_at(ev, basin, i)));
  }
  for (size_t i = 0; i < basin_count_channels_out(ev, basin); i++) {
    lowest = fmin(lowest, channel_get_start(ev, basin_channels_out_at(ev, basin, i)));
  }
  if (isinf(lowest)) evaluation_missing(ev, NULL);
  return lowest;
}

static double rim_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double lowest = INFINITY;
  for (size_t i = 0; i < basin_count_rim_profile(ev, basin); i++) {
    lowest = fmin(lowest, rim_level_get_level(ev, basin_rim_profile_at(ev, basin, i)));
  }
  if (isinf(lowest)) evaluation_missing(ev, NULL);
  return lowest;
}

// ---- Geometry: the outline cut level by level ----

struct step {
  double height, width;
};

struct sides {
  struct polygon_profile *outline;
  double rim, slope;
  const struct step *steps;  // shelves from the top down
  size_t step_count;
};

static int higher_first(const void *a, const void *b) {
  const struct step *first = a, *second = b;
  return (first->height < second->height) - (first->height > second->height);
}

static struct step *steps_of(struct evaluation *ev, struct basin_ref basin, double water_level, size_t *count) {
  *count = basin_count_shelves(ev, basin);
  struct step *steps = arena_array(evaluation_arena(ev), *count + 1, sizeof *steps);
  for (size_t i = 0; i < *count; i++) {
    struct shelf_ref shelf = basin_shelves_at(ev, basin, i);
    steps[i] = (struct step){water_level - shelf_get_depth(ev, shelf), shelf_get_width(ev, shelf)};
  }
  if (!evaluation_marked(ev)) qsort(steps, *count, sizeof *steps, higher_first);
  return steps;
}

// How far in the side stands at a height, the first `above` steps counted.
static double inset_at(const struct sides *sides, double height, size_t above) {
  double inset = sides->slope * (sides->rim - height);
  for (size_t i = 0; i < above; i++) inset += sides->steps[i].width;
  return inset;
}

enum { SLICES = 2 };  // of a layer between two steps; a corner may vanish on the way, so one is not enough

static size_t add_layer(struct evaluation *ev, const struct sides *sides, struct cut *cuts, double top, double bottom,
                        size_t above) {
  size_t slices = sides->slope > 0 ? SLICES : 1, count = 0;
  for (size_t i = 0; i < slices && top > bottom; i++) {
    double from = top - (top - bottom) * (double)i / (double)slices;
    double to = i + 1 == slices ? bottom : top - (top - bottom) * (double)(i + 1) / (double)slices;
    cuts[count++] = (struct cut){from, to, outline_area(ev, sides->outline, inset_at(sides, from, above)),
                                 outline_area(ev, sides->outline, inset_at(sides, (from + to) / 2, above)),
                                 outline_area(ev, sides->outline, inset_at(sides, to, above))};
  }
  return count;
}

static struct cuts cut_all(struct evaluation *ev, const struct sides *sides, double water_level, double bed) {
  struct cut *cuts = arena_array(evaluation_arena(ev), SLICES * (sides->step_count + 3), sizeof *cuts);
  size_t count = add_layer(ev, sides, cuts, sides->rim, water_level, 0);
  double top = water_level;
  for (size_t i = 0; i <= sides->step_count; i++) {
    double bottom = i < sides->step_count ? sides->steps[i].height : bed;
    count += add_layer(ev, sides, cuts + count, top, bottom, i);
    top = fmin(top, bottom);
  }
  return (struct cuts){cuts, count};
}

static double steps_area(struct evaluation *ev, const struct sides *sides) {
  double area = 0;
  for (size_t i = 0; i < sides->step_count; i++) {
    double height = sides->steps[i].height;
    area += outline_area(ev, sides->outline, inset_at(sides, height, i)) -
            outline_area(ev, sides->outline, inset_at(sides, height, i + 1));
  }
  return area;
}

// A drawn width is its own answer; only points need the box turned round them.
static bool extents_of(struct evaluation *ev, struct basin_ref basin, struct polygon_profile *outline,
                       struct polygon_extents *extents) {
  enum word shape = basin_get_outline(ev, basin);
  if (shape == WORD_shape_polygon) return polygon_extents(outline_polygon(ev, outline), extents, NULL);
  struct point_ref widths = basin_outline_at(ev, basin, 0);
  double across = point_get_x(ev, widths), along = shape == WORD_shape_circle ? across : point_get_y(ev, widths);
  *extents = (struct polygon_extents){.length = fmax(across, along), .width = fmin(across, along)};
  return true;
}

static bool measure_outline(struct evaluation *ev, struct basin_ref basin, struct polygon_profile *outline,
                            struct basin_geometry *geometry) {
  struct polygon_extents extents;
  if (!extents_of(ev, basin, outline, &extents)) return false;
  geometry->rim_area = polygon_profile_area(outline);
  geometry->perimeter = polygon_profile_perimeter(outline);
  geometry->least_across = extents.width;
  geometry->most_across = extents.length;
  return true;
}

static const struct basin_geometry *geometry_of_basin(struct evaluation *ev, struct basin_ref basin) {
  struct basin_geometry *geometry = arena_alloc(evaluation_arena(ev), sizeof *geometry);
  geometry->rim = basin_get_rim(ev, basin);
  geometry->water_level = basin_get_water_level(ev, basin);
  geometry->bed = geometry->water_level - basin_get_depth(ev, basin);
  struct sides sides = {.rim = geometry->rim, .slope = basin_get_side_slope(ev, basin)};
  sides.steps = steps_of(ev, basin, geometry->water_level, &sides.step_count);
  sides.outline = outline_of_basin(ev, basin);
  if (evaluation_marked(ev) || !measure_outline(ev, basin, sides.outline, geometry)) return NULL;
  if (geometry->rim <= geometry->water_level) {
    evaluation_impossible(ev, basin.at, ROW_basin_rim, "leaves the rim at or under the water",
                          "a rim over the water level");
    return NULL;
  }
  geometry->cuts = cut_all(ev, &sides, geometry->water_level, geometry->bed);
  geometry->shelf_area = steps_area(ev, &sides);
  if (cuts_area(&geometry->cuts, geometry->bed) <= 0) {
    evaluation_impossible(ev, basin.at, ROW_basin_depth, "is deeper than the sides leave room for",
                          "less depth, steeper sides or narrower shelves");
    return NULL;
  }
  return geometry;
}

// ---- Areas and lengths ----

// A field of the geometry, NaN while it is missing.
#define OF_GEOMETRY(name, expression)                                            \
  static double name##_of_basin(struct evaluation *ev, struct basin_ref basin) { \
    const struct basin_geometry *g = basin_get_geometry(ev, basin);              \
    return g ? (expression) : (double)NAN;                                       \
  }
OF_GEOMETRY(rim_area, g->rim_area)
OF_GEOMETRY(perimeter, g->perimeter)
OF_GEOMETRY(least_across, g->least_across)
OF_GEOMETRY(most_across, g->most_across)
OF_GEOMETRY(water_area, cuts_area(&g->cuts, g->water_level))
OF_GEOMETRY(bed_area, cuts_area(&g->cuts, g->bed))
OF_GEOMETRY(shelf_area, g->shelf_area)
OF_GEOMETRY(gross_volume, cuts_volume(&g->cuts, g->water_level, g->bed))
OF_GEOMETRY(volume_to_rim, cuts_volume(&g->cuts, g->rim, g->water_level))
#undef OF_GEOMETRY

// ---- Volumes ----

static double gravel_solids_of_basin(struct evaluation *ev, struct basin_ref basin) {
  const struct basin_geometry *geometry = basin_get_geometry(ev, basin);
  double top = basin_get_gravel_bed(ev, basin), voids = basin_get_voids(ev, basin);
  if (evaluation_marked(ev)) return (double)NAN;
  return cuts_volume(&geometry->cuts, geometry->bed + top, geometry->bed) * (1 - voids);
}

static double stone_volume_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double volume = 0;
  for (size_t i = 0; i < basin_count_stones_inside(ev, basin); i++) {
    volume += boulder_get_volume_under_water(ev, basin_stones_inside_at(ev, basin, i));
  }
  return volume;
}

static double net_volume_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double net =
      basin_get_gross_volume(ev, basin) - basin_get_gravel_solids(ev, basin) - basin_get_stone_volume(ev, basin);
  if (!evaluation_marked(ev) && net <= 0) {
    evaluation_impossible(ev, basin.at, ROW_basin_depth, "leaves no room for water beside the gravel and the stones",
                          "a larger basin or smaller stones");
  }
  return net;
}

static double mean_depth_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_gross_volume(ev, basin) / basin_get_water_area(ev, basin);
}

static double water_depth_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_depth(ev, basin) - basin_get_gravel_bed(ev, basin);
}

static double volume_per_inch_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_water_area(ev, basin) * INCH;
}

static double freeboard_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_rim(ev, basin) - basin_get_water_level(ev, basin);
}

static double side_run_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_side_slope(ev, basin) * (basin_get_depth(ev, basin) + basin_get_freeboard(ev, basin));
}

#define LEAST_FOOTHOLD 0.254  // m (10 in): a shelf that a foot stands on; common practice

static double foothold_depth_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double least = basin_get_depth(ev, basin);
  for (size_t i = 0; i < basin_count_shelves(ev, basin); i++) {
    struct shelf_ref shelf = basin_shelves_at(ev, basin, i);
    if (shelf_get_width(ev, shelf) >= LEAST_FOOTHOLD) least = fmin(least, shelf_get_depth(ev, shelf));
  }
  return least;
}

static double foothold_width_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double widest = 0;
  for (size_t i = 0; i < basin_count_shelves(ev, basin); i++) {
    widest = fmax(widest, shelf_get_width(ev, basin_shelves_at(ev, basin, i)));
  }
  return widest;
}

static double fill_time_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_net_volume(ev, basin) / basin_get_fill_flow(ev, basin);
}

static double barrier_excess_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_depth(ev, basin) - site_get_barrier_depth(ev, the_site(ev));
}

static double fill_gap_bores_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_fill_gap(ev, basin) / basin_get_fill_bore(ev, basin);
}

#include "quantities/export.h"
DERIVED(basin, water_level)
DERIVED(basin, rim)
