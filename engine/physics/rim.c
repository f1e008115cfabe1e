// SPDX-License-Identifier: MIT
#include "physics/rim.h"

#include <math.h>

#include "physics/root.h"

// One straight bit of an edge.
struct piece {
  double length, low, high;  // levels of its two ends
};

static double amount(double value) { return value >= 0 ? value : (double)NAN; }

static size_t piece_count(const struct rim *rim) { return rim->closed ? rim->count : rim->count - 1; }

static struct piece piece_of(const struct rim *rim, size_t i) {
  const struct rim_point from = rim->points[i], to = rim->points[(i + 1) % rim->count];
  const double end = i + 1 < rim->count ? to.at : rim->length;
  return (struct piece){end - from.at, fmin(from.level, to.level), fmax(from.level, to.level)};
}

static bool is_rim(const struct rim *rim) {
  if (rim->count < 2) return false;
  for (size_t i = 0; i < rim->count; i++) {
    if (!(rim->points[i].at >= 0) || !isfinite(rim->points[i].level)) return false;
    if (i > 0 && !(rim->points[i].at > rim->points[i - 1].at)) return false;
  }
  return !rim->closed || rim->length > rim->points[rim->count - 1].at;
}

double rim_length(const struct rim *rim) {
  if (!is_rim(rim)) return (double)NAN;
  return rim->closed ? rim->length - rim->points[0].at : rim->points[rim->count - 1].at - rim->points[0].at;
}

static double extreme(const struct rim *rim, double (*pick)(double, double)) {
  double level = rim->points[0].level;
  for (size_t i = 1; i < rim->count; i++) level = pick(level, rim->points[i].level);
  return level;
}

double rim_lowest(const struct rim *rim) { return is_rim(rim) ? extreme(rim, fmin) : (double)NAN; }

// Length of a piece that lies below a level.
static double length_below(struct piece p, double level) {
  if (level <= p.low) return 0;
  return level >= p.high ? p.length : p.length * (level - p.low) / (p.high - p.low);
}

// Integral of (level - z)^1.5 over the part of a piece below `cut`, cut <= level: the head falls evenly along it from a
// to b, which gives 2/5 (a^2.5 - b^2.5)/(a - b) a metre. With a and b near each other that loses all its digits; there
// Simpson's rule is as good as exact.
static double flow_below(struct piece p, double level, double cut) {
  const double along = length_below(p, cut), a = level - p.low, b = fmax(0, level - fmin(p.high, cut));
  if (along <= 0 || a <= 0) return 0;
  if (a - b > 1e-3 * a) return along * 0.4 * (pow(a, 2.5) - pow(b, 2.5)) / (a - b);
  return along * (pow(a, 1.5) + 4 * pow((a + b) / 2, 1.5) + pow(b, 1.5)) / 6;
}

static double sum_length_below(const struct rim *rim, double level) {
  double sum = 0;
  for (size_t i = 0; i < piece_count(rim); i++) sum += length_below(piece_of(rim, i), level);
  return sum;
}

static double sum_flow_below(const struct rim *rim, double level, double cut) {
  double sum = 0;
  for (size_t i = 0; i < piece_count(rim); i++) sum += flow_below(piece_of(rim, i), level, fmin(level, cut));
  return sum;
}

double rim_flow(const struct rim *rim, double coefficient, double level) {
  if (!is_rim(rim) || isnan(level)) return (double)NAN;
  return amount(coefficient) * sum_flow_below(rim, level, level);
}

struct sought {
  const struct rim *rim;
  double coefficient, wanted;
};

static double flow_surplus(double level, void *with) {
  const struct sought *s = with;
  return s->coefficient * sum_flow_below(s->rim, level, level) - s->wanted;
}

static double length_surplus(double level, void *with) {
  const struct sought *s = with;
  return sum_length_below(s->rim, level) - s->wanted;
}

// The whole flow over the highest point would need no more than this level.
double rim_level(const struct rim *rim, double coefficient, double flow) {
  if (!is_rim(rim) || !(coefficient > 0) || !(flow >= 0)) return (double)NAN;
  struct sought sought = {rim, coefficient, flow};
  const double head = cbrt(flow / (coefficient * rim_length(rim)));
  return root_rising(flow_surplus, &sought, extreme(rim, fmin), extreme(rim, fmax) + 1.001 * head * head);
}

double rim_wet_share(const struct rim *rim, double level) {
  if (isnan(level)) return (double)NAN;
  const double length = rim_length(rim);
  return isnan(length) ? length : sum_length_below(rim, level) / length;
}

double rim_flow_share_of_lowest(const struct rim *rim, double level, double share) {
  const double length = rim_length(rim);
  if (isnan(length) || isnan(level) || !(share > 0 && share <= 1)) return (double)NAN;
  struct sought sought = {rim, 0, share * length};
  const double lowest = extreme(rim, fmin), highest = extreme(rim, fmax);
  if (!(highest > lowest)) return share;
  const double cut = root_rising(length_surplus, &sought, lowest, highest), all = sum_flow_below(rim, level, level);
  return all > 0 ? sum_flow_below(rim, level, cut) / all : (double)NAN;
}

struct rim_tilt rim_tilt(double width, double fall, double coefficient, double flow) {
  const double none = (double)NAN;
  if (!(width > 0) || !(fall >= 0) || !(coefficient > 0) || !(flow > 0)) {
    return (struct rim_tilt){none, none, none, none, none};
  }
  const struct rim_point ends[2] = {{0, 0}, {width, fall}};
  const struct rim lip = {.points = ends, .count = 2};
  const double level = rim_level(&lip, coefficient, flow), even = flow / width;
  const double cut = level - pow(even / coefficient, 2. / 3);  // below it each bit passes more than its even share
  const struct piece whole = {width, 0, fall};
  const double more = fall > 0 ? coefficient * flow_below(whole, level, cut) - even * length_below(whole, cut) : 0;
  struct rim_tilt tilt = {.head_low = level, .head_high = fmax(0, level - fall), .shifted = fmax(0, more) / flow};
  tilt.dry_share = fall > 0 ? 1 - rim_wet_share(&lip, level) : 0;
  tilt.local = coefficient * tilt.head_low * sqrt(tilt.head_low) / even - 1;
  return tilt;
}

struct tilting {
  double width, coefficient, flow, head_low;
};

static double flow_lacking(double fall, void *with) {
  const struct tilting *it = with;
  const struct piece whole = {it->width, 0, fall};
  return it->flow - it->coefficient * flow_below(whole, it->head_low, it->head_low);
}

// The low end's own flow says its head; the more the lip falls from there, the less goes over it.
double rim_fall_for(double width, double coefficient, double flow, double local) {
  if (!(width > 0) || !(coefficient > 0) || !(flow > 0) || !(local >= 0)) return (double)NAN;
  struct tilting tilting = {width, coefficient, flow, pow((1 + local) * flow / width / coefficient, 2. / 3)};
  return root_rising(flow_lacking, &tilting, 0, tilting.head_low);
}
