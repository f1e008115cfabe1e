// SPDX-License-Identifier: MIT
#include "physics/pump.h"

#include <math.h>

#include "physics/root.h"
#include "physics/water.h"

#define PI 3.14159265358979323846

static bool is_amount(double value) { return value >= 0 && isfinite(value); }

size_t pump_curve_fault(const struct pump_curve *curve) {
  if (!curve->points || curve->count < 2) return 0;
  for (size_t i = 0; i < curve->count; i++) {
    const struct pump_point *point = &curve->points[i];
    if (!is_amount(point->flow) || !is_amount(point->head)) return i;
    if (i > 0 && !(point->flow > point[-1].flow)) return i;
  }
  return curve->count;
}

static bool is_good(const struct pump_curve *curve) {
  return curve->count >= 2 && pump_curve_fault(curve) == curve->count && curve->speed >= 0 && isfinite(curve->speed);
}

static double step_slope(const struct pump_point *from) {
  return (from[1].head - from[0].head) / (from[1].flow - from[0].flow);
}

// An end slope from the two nearest steps, held back so that it keeps the shape (the three-point rule of scipy and of
// Moler, Numerical Computing with MATLAB, sec. 3.6).
static double end_slope(double near_width, double far_width, double near, double far) {
  const double slope = ((2 * near_width + far_width) * near - near_width * far) / (near_width + far_width);
  if (slope * near <= 0) return 0;
  if (near * far <= 0 && fabs(slope) > 3 * fabs(near)) return 3 * near;
  return slope;
}

// At a point between two steps: their weighted harmonic mean, or flat where the curve turns.
static double inner_slope(const struct pump_point *point) {
  const double left = step_slope(point - 1), right = step_slope(point);
  if (left * right <= 0) return 0;
  const double left_width = point[0].flow - point[-1].flow, right_width = point[1].flow - point[0].flow;
  const double left_weight = 2 * right_width + left_width, right_weight = right_width + 2 * left_width;
  return (left_weight + right_weight) / (left_weight / left + right_weight / right);
}

static double point_slope(const struct pump_curve *curve, size_t i) {
  const struct pump_point *p = curve->points;
  const size_t last = curve->count - 1;
  if (curve->count == 2) return step_slope(p);
  if (i == 0) return end_slope(p[1].flow - p[0].flow, p[2].flow - p[1].flow, step_slope(p), step_slope(p + 1));
  if (i < last) return inner_slope(p + i);
  return end_slope(p[last].flow - p[last - 1].flow, p[last - 1].flow - p[last - 2].flow, step_slope(p + last - 1),
                   step_slope(p + last - 2));
}

struct reading {
  double head, slope;
};

// On the points as given, at rated speed.
static struct reading read_curve(const struct pump_curve *curve, double flow) {
  const struct pump_point *p = curve->points;
  if (flow <= p[0].flow) return (struct reading){.head = p[0].head};
  if (flow > p[curve->count - 1].flow) return (struct reading){.head = 0};
  size_t i = 0;
  while (i + 2 < curve->count && flow > p[i + 1].flow) i++;
  const double width = p[i + 1].flow - p[i].flow, t = (flow - p[i].flow) / width;
  const double from = width * point_slope(curve, i), to = width * point_slope(curve, i + 1);
  const double rise = p[i + 1].head - p[i].head;
  const double cubic = from + to - 2 * rise, square = rise - from - cubic;
  return (struct reading){.head = p[i].head + t * (from + t * (square + t * cubic)),
                          .slope = (from + t * (2 * square + 3 * t * cubic)) / width};
}

double pump_head(const struct pump_curve *curve, double flow) {
  if (!is_good(curve) || isnan(flow)) return (double)NAN;
  if (curve->speed <= 0) return 0;
  return curve->speed * curve->speed * read_curve(curve, flow / curve->speed).head;
}

double pump_head_slope(const struct pump_curve *curve, double flow) {
  if (!is_good(curve) || isnan(flow)) return (double)NAN;
  if (curve->speed <= 0) return 0;
  return curve->speed * read_curve(curve, flow / curve->speed).slope;
}

double pump_shut_off_head(const struct pump_curve *curve) { return pump_head(curve, 0); }

double pump_greatest_flow(const struct pump_curve *curve) {
  return is_good(curve) ? curve->speed * curve->points[curve->count - 1].flow : (double)NAN;
}

struct meeting {
  const struct pump_curve *curve;
  root_function system_head;
  void *with;
};

static double system_surplus(double flow, void *with) {
  const struct meeting *meeting = with;
  return meeting->system_head(flow, meeting->with) - pump_head(meeting->curve, flow);
}

struct pump_duty pump_operating_point(const struct pump_curve *curve, double (*system_head)(double flow, void *with),
                                      void *with) {
  struct meeting meeting = {.curve = curve, .system_head = system_head, .with = with};
  const double greatest = pump_greatest_flow(curve);
  const double at_rest = system_head(0, with) - pump_shut_off_head(curve);
  if (isnan(greatest) || isnan(at_rest)) return (struct pump_duty){.flow = (double)NAN, .head = (double)NAN};
  if (at_rest >= 0) return (struct pump_duty){.flow = 0, .head = pump_shut_off_head(curve)};
  struct pump_duty duty = {.flow = root_rising(system_surplus, &meeting, 0, greatest)};
  const double at_end = system_surplus(greatest, &meeting);
  duty.beyond = at_end < 0;
  if (at_end <= 0) duty.flow = greatest;
  duty.head = pump_head(curve, duty.flow);
  return duty;
}

double pump_water_power(double flow, double head) {
  return water_density(WATER_USUAL_TEMPERATURE) * GRAVITY * flow * head;
}

double pump_shaft_power(double flow, double head, double efficiency) {
  return efficiency > 0 && efficiency <= 1 ? pump_water_power(flow, head) / efficiency : (double)NAN;
}

double pump_power_at_speed(double power, double speed) { return power * speed * speed * speed; }

double pump_intake_cover(double flow, double bore) {
  if (!(bore > 0)) return (double)NAN;
  const double velocity = fabs(flow) / (PI / 4 * bore * bore);
  return bore * (1 + 2.3 * velocity / sqrt(GRAVITY * bore));
}
