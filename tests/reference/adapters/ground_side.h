// SPDX-License-Identifier: MIT
// Adapters: solid, soil, coping (statics), polygon. Included once, by reference_test.c.
#ifndef FOREBAY_REFERENCE_GROUND_SIDE_H
#define FOREBAY_REFERENCE_GROUND_SIDE_H

#include "physics/coping.h"
#include "physics/polygon.h"
#include "physics/soil.h"
#include "physics/solid.h"
#include "row.h"

static double prismoid(struct row *r) {
  return solid_prismoid(in(r, "top"), in(r, "middle"), in(r, "bottom"), in(r, "depth"));
}
static double ellipse_area(struct row *r) { return solid_ellipse_area(in(r, "length"), in(r, "width")); }
static double ellipse_perimeter(struct row *r) { return solid_ellipse_perimeter(in(r, "length"), in(r, "width")); }
static double box(struct row *r) { return solid_box(in(r, "length"), in(r, "width"), in(r, "height")); }
static double ellipsoid(struct row *r) { return solid_ellipsoid(in(r, "length"), in(r, "width"), in(r, "height")); }
static double cone_frustum(struct row *r) { return solid_cone_frustum(in(r, "top"), in(r, "bottom"), in(r, "height")); }
static double wedge(struct row *r) {
  return solid_wedge(in(r, "length"), in(r, "width"), in(r, "ridge"), in(r, "height"));
}
static double rectangle_pit(struct row *r) {
  return solid_rectangle_pit(in(r, "length"), in(r, "width"), in(r, "side"), in(r, "depth"));
}
static double trapezoid(struct row *r) { return solid_trapezoid_area(in(r, "top"), in(r, "bottom"), in(r, "height")); }
static double top_width(struct row *r) { return solid_top_width(in(r, "bottom"), in(r, "side"), in(r, "depth")); }
static double boulder_volume(struct row *r) {
  return solid_boulder_volume(in(r, "length"), in(r, "width"), in(r, "height"), in(r, "share"));
}
static double boulder_mass(struct row *r) { return solid_mass(boulder_volume(r), in(r, "density")); }
static double mass(struct row *r) { return solid_mass(in(r, "volume"), in(r, "density")); }
static double mass_in_water(struct row *r) {
  return solid_mass_in_water(in(r, "volume"), in(r, "wetted"), in(r, "density"));
}

static const char *const SOILS[SOIL_TYPES] = {"stable_rock", "type_A", "type_B", "type_C"};

static enum soil_type soil_in(struct row *r) { return (enum soil_type)word_in(r, "type", SOILS, SOIL_TYPES); }

static double steepest(struct row *r) { return soil_steepest_slope(soil_in(r)); }
static double steepest_short(struct row *r) { return soil_steepest_slope_short_term(soil_in(r)); }
static double active(struct row *r) { return soil_active_coefficient(in(r, "phi")); }
static double active_sloping(struct row *r) { return soil_active_coefficient_sloping(in(r, "phi"), in(r, "backfill")); }
static double thrust(struct row *r) { return soil_thrust(in(r, "ka"), in(r, "density"), in(r, "height")); }
static double thrust_phi(struct row *r) {
  return soil_thrust(soil_active_coefficient(in(r, "phi")), in(r, "density"), in(r, "height"));
}
static double surcharge_phi(struct row *r) {
  return soil_surcharge_thrust(soil_active_coefficient(in(r, "phi")), in(r, "pressure"), in(r, "height"));
}
static double swell(struct row *r) { return soil_swell(in(r, "bank"), in(r, "loose")); }
static double loose(struct row *r) { return soil_loose_volume(in(r, "bank"), in(r, "swell")); }
static double bank(struct row *r) { return soil_bank_volume(in(r, "loose"), in(r, "swell")); }
static double loads(struct row *r) {
  return soil_truck_loads(in(r, "loose"), in(r, "mass"), in(r, "truck_volume"), in(r, "truck_mass"));
}

static struct coping coping_in(struct row *r) {
  return (struct coping){.length = in(r, "length"),
                         .depth = in(r, "depth"),
                         .thickness = in(r, "thickness"),
                         .overhang = in(r, "overhang"),
                         .density = in(r, "density")};
}

static double weight(struct row *r) {
  const struct coping coping = coping_in(r);
  return coping_weight(&coping);
}
static double tipping(struct row *r) {
  const struct coping coping = coping_in(r);
  return coping_tipping_factor(&coping, in(r, "load"));
}
static double greatest_overhang(struct row *r) {
  const struct coping coping = coping_in(r);
  return coping_greatest_overhang(&coping, in(r, "load"), in(r, "factor"));
}
static double cantilever(struct row *r) {
  const struct coping coping = coping_in(r);
  return coping_cantilever_stress(&coping, in(r, "strip"), in(r, "load"));
}
static double span(struct row *r) {
  return coping_span_stress(in(r, "span"), in(r, "strip"), in(r, "thickness"), in(r, "density"), in(r, "load"));
}

static struct polygon *outline_in(struct row *r) {
  struct pair pairs[PAIRS];
  struct polygon_point points[PAIRS];
  struct polygon_problem problem;
  const size_t count = pairs_in(r, "outline", pairs);
  for (size_t i = 0; i < count; i++) points[i] = (struct polygon_point){pairs[i].x, pairs[i].y};
  struct polygon *polygon = polygon_new(points, count, &problem);
  if (!polygon) spoil(r, "the outline cannot be used:", problem.text);
  return polygon;
}

static struct polygon *ellipse_in(struct row *r) {
  struct polygon_point points[POLYGON_ELLIPSE_POINTS];
  struct polygon_problem problem;
  polygon_ellipse(in(r, "length"), in(r, "width"), points);
  struct polygon *polygon = polygon_new(points, POLYGON_ELLIPSE_POINTS, &problem);
  if (!polygon) spoil(r, "the ellipse cannot be used:", problem.text);
  return polygon;
}

// What a row asks of an outline; the outline is freed on the way out.
static double of_outline(struct polygon *polygon, double value) {
  polygon_free(polygon);
  return value;
}

static double outline_area(struct row *r) {
  struct polygon *p = outline_in(r);
  return of_outline(p, p ? polygon_area(p) : NAN);
}
static double outline_perimeter(struct row *r) {
  struct polygon *p = outline_in(r);
  return of_outline(p, p ? polygon_perimeter(p) : NAN);
}
static double centroid_x(struct row *r) {
  struct polygon *p = outline_in(r);
  return of_outline(p, p ? polygon_centroid(p).x : NAN);
}
static double centroid_y(struct row *r) {
  struct polygon *p = outline_in(r);
  return of_outline(p, p ? polygon_centroid(p).y : NAN);
}

static struct polygon_inset inset_by(struct row *r, struct polygon *polygon) {
  struct polygon_inset inset = {0};
  struct polygon_problem problem;
  if (polygon && !polygon_inset(polygon, in(r, "distance"), &inset, &problem)) spoil(r, "no inset:", problem.text);
  polygon_free(polygon);
  return inset;
}

static double inset_area(struct row *r) { return inset_by(r, outline_in(r)).area; }
static double inset_perimeter(struct row *r) { return inset_by(r, outline_in(r)).perimeter; }
static double inset_pieces(struct row *r) { return (double)inset_by(r, outline_in(r)).pieces; }
static double ellipse_inset_area(struct row *r) { return inset_by(r, ellipse_in(r)).area; }
static double ring_area(struct row *r) {
  struct polygon *p = ellipse_in(r);
  return of_outline(p, p ? polygon_area(p) : NAN);
}
static double ring_perimeter(struct row *r) {
  struct polygon *p = ellipse_in(r);
  return of_outline(p, p ? polygon_perimeter(p) : NAN);
}

static struct polygon_extents extents_in(struct row *r) {
  struct polygon_extents extents = {0};
  struct polygon_problem problem;
  struct polygon *polygon = outline_in(r);
  if (polygon && !polygon_extents(polygon, &extents, &problem)) spoil(r, "no extents:", problem.text);
  polygon_free(polygon);
  return extents;
}

static double extent_length(struct row *r) { return extents_in(r).length; }
static double extent_width(struct row *r) { return extents_in(r).width; }

static struct polygon_point along_in(struct row *r) {
  struct pair pairs[PAIRS];
  struct polygon_point points[PAIRS];
  const size_t count = pairs_in(r, "outline", pairs);
  for (size_t i = 0; i < count; i++) points[i] = (struct polygon_point){pairs[i].x, pairs[i].y};
  return polygon_along(points, count, in(r, "distance"));
}

static double along_x(struct row *r) { return along_in(r).x; }
static double along_y(struct row *r) { return along_in(r).y; }

#define GROUND_SIDE                                                                                                   \
  {"solid_prismoid", prismoid}, {"solid_ellipse_area", ellipse_area}, {"solid_ellipse_perimeter", ellipse_perimeter}, \
      {"solid_box", box}, {"solid_ellipsoid", ellipsoid}, {"solid_cone_frustum", cone_frustum},                       \
      {"solid_wedge", wedge}, {"solid_rectangle_pit", rectangle_pit}, {"solid_trapezoid_area", trapezoid},            \
      {"solid_top_width", top_width}, {"solid_boulder_volume", boulder_volume},                                       \
      {"solid_boulder_volume.mass", boulder_mass}, {"solid_mass", mass}, {"solid_mass_in_water", mass_in_water},      \
      {"soil_steepest_slope", steepest}, {"soil_steepest_slope_short_term", steepest_short},                          \
      {"soil_active_coefficient", active}, {"soil_active_coefficient_sloping", active_sloping},                       \
      {"soil_thrust", thrust}, {"soil_thrust.phi", thrust_phi}, {"soil_surcharge_thrust.phi", surcharge_phi},         \
      {"soil_swell", swell}, {"soil_loose_volume", loose}, {"soil_bank_volume", bank}, {"soil_truck_loads", loads},   \
      {"coping_weight", weight}, {"coping_tipping_factor", tipping}, {"coping_greatest_overhang", greatest_overhang}, \
      {"coping_cantilever_stress", cantilever}, {"coping_span_stress", span}, {"polygon_area", outline_area},         \
      {"polygon_perimeter", outline_perimeter}, {"polygon_centroid.x", centroid_x},                                   \
      {"polygon_centroid.y", centroid_y}, {"polygon_inset.area", inset_area},                                         \
      {"polygon_inset.perimeter", inset_perimeter}, {"polygon_inset.pieces", inset_pieces},                           \
      {"polygon_ellipse.area", ring_area}, {"polygon_ellipse.perimeter", ring_perimeter},                             \
      {"polygon_ellipse.inset_area", ellipse_inset_area}, {"polygon_extents.length", extent_length},                  \
      {"polygon_extents.width", extent_width}, {"polygon_along.x", along_x}, {                                        \
    "polygon_along.y", along_y                                                                                        \
  }

#endif
