// SPDX-License-Identifier: MIT
#include "physics/zone.h"
#include "units/exact.h"

#include <math.h>
#include <stddef.h>

#define KILOVOLT 1000.0

// 1926.1408 Table A; the upper bound belongs to its row.
static const struct {
  double up_to, feet;
} TABLE_A[] = {{50, 10}, {200, 15}, {350, 20}, {500, 25}, {750, 35}, {1000, 45}};

static double amount(double value) { return value >= 0 ? value : (double)NAN; }

double zone_fall(double height, bool falls_away) {
  const double level = amount(height) + 2 * FOOT;
  return falls_away && !isnan(level) ? fmax(level, 1.5 * height) : level;
}

double zone_hook_path(double length, double width, double height) {
  if (!(length > 0) || !(width > 0) || !(height > 0)) return (double)NAN;
  return fmax(length, fmax(width, height)) + 3 * FOOT;
}

double zone_from_edge(double depth, double slope_asked, double slope_dug) {
  const double short_of = amount(slope_asked) - amount(slope_dug);
  if (isnan(short_of)) return short_of;
  return amount(depth) * fmax(0, short_of) + 2 * FOOT;
}

double zone_power_line_equipment(double volts) {
  const double over = fmax(0, amount(volts) / KILOVOLT - 50);
  return isnan(amount(volts)) ? (double)NAN : 10 * FOOT + over * 0.4 * INCH;
}

double zone_power_line_table_a(double volts) {
  if (isnan(amount(volts))) return (double)NAN;
  for (size_t i = 0; i < sizeof TABLE_A / sizeof *TABLE_A; i++) {
    if (volts <= TABLE_A[i].up_to * KILOVOLT) return TABLE_A[i].feet * FOOT;
  }
  return (double)NAN;
}

double zone_power_line(double volts) {
  const double table = zone_power_line_table_a(volts);
  return isnan(table) ? table : fmax(table, zone_power_line_equipment(volts));
}
