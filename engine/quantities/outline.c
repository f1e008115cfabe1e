// SPDX-License-Identifier: MIT
#include "quantities/outline.h"

#include <math.h>

static void release_profile(void *profile) { polygon_profile_free(profile); }

static struct polygon_profile *keep_profile(struct evaluation *ev, const struct polygon_point *points, size_t count,
                                            struct polygon_problem *problem) {
  struct polygon_profile *profile = polygon_profile_new(points, count, NULL, 0, problem);
  if (profile) arena_at_free(evaluation_arena(ev), release_profile, profile);
  return profile;
}

struct points {
  struct polygon_point *at;
  size_t count;
};

static struct points points_as_written(struct evaluation *ev, struct basin_ref basin) {
  size_t count = basin_count_outline(ev, basin);
  struct points points = {arena_array(evaluation_arena(ev), count + 1, sizeof *points.at), count};
  for (size_t i = 0; i < count; i++) {
    struct point_ref point = basin_outline_at(ev, basin, i);
    points.at[i] = (struct polygon_point){point_get_x(ev, point), point_get_y(ev, point)};
  }
  return points;
}

static struct points points_of_ellipse(struct evaluation *ev, double length, double width) {
  struct points points = {arena_array(evaluation_arena(ev), POLYGON_ELLIPSE_POINTS, sizeof *points.at),
                          POLYGON_ELLIPSE_POINTS};
  if (!evaluation_marked(ev)) polygon_ellipse(length, width, points.at);
  return points;
}

static struct points points_of_rectangle(struct evaluation *ev, double length, double width) {
  struct points points = {arena_array(evaluation_arena(ev), 4, sizeof *points.at), 4};
  if (!evaluation_marked(ev)) polygon_rectangle(length, width, points.at);
  return points;
}

static struct points points_of(struct evaluation *ev, struct basin_ref basin) {
  enum word shape = basin_get_outline(ev, basin);
  if (shape == WORD_shape_polygon || basin_count_outline(ev, basin) == 0) return points_as_written(ev, basin);
  struct point_ref widths = basin_outline_at(ev, basin, 0);
  double length = point_get_x(ev, widths);
  double width = shape == WORD_shape_circle ? length : point_get_y(ev, widths);
  return shape == WORD_shape_rectangle ? points_of_rectangle(ev, length, width) : points_of_ellipse(ev, length, width);
}

struct polygon_profile *outline_of_basin(struct evaluation *ev, struct basin_ref basin) {
  struct points points = points_of(ev, basin);
  if (evaluation_marked(ev)) return NULL;
  struct polygon_problem problem = {.text = ""};
  struct polygon_profile *profile = keep_profile(ev, points.at, points.count, &problem);
  if (!profile) {
    evaluation_impossible(ev, basin.at, ROW_basin_outline, arena_words(evaluation_arena(ev), problem.text),
                          "points in order round the basin");
  }
  return profile;
}

struct polygon_profile *outline_of_wall(struct evaluation *ev, struct wall_ref wall) {
  struct points points = points_of_rectangle(ev, wall_get_length(ev, wall), wall_get_thickness(ev, wall));
  if (evaluation_marked(ev)) return NULL;
  struct polygon_problem problem = {.text = ""};
  struct polygon_profile *profile = keep_profile(ev, points.at, points.count, &problem);
  if (!profile) {
    evaluation_impossible(ev, wall.at, ROW_wall_length, arena_words(evaluation_arena(ev), problem.text), NULL);
  }
  return profile;
}

const struct polygon *outline_polygon(struct evaluation *ev, struct polygon_profile *outline) {
  const struct polygon *polygon = polygon_profile_outline(outline);
  if (!polygon) arena_give_up(evaluation_arena(ev));
  return polygon;
}

double outline_area(struct evaluation *ev, struct polygon_profile *outline, double inset) {
  if (!outline || evaluation_marked(ev)) return (double)NAN;
  struct polygon_inset at;
  struct polygon_problem problem;
  return polygon_profile_at(outline, inset, &at, &problem) ? at.area : (double)NAN;
}
