// SPDX-License-Identifier: MIT
// Slopes: 1.5H:1V, 1V:1.5H, 34 deg from level, upright, 2 %. The value is the run over each unit of rise.
#include <math.h>
#include <string.h>

#include "base/number.h"
#include "units/read_scan.h"

static const double right_angle = 1.57079632679489661923;
static const double degree = 3.14159265358979323846 / 180;

static bool take_any_word(struct scan *scan, const char *const *words, size_t count) {
  for (size_t i = 0; i < count; i++) {
    if (scan_take_word(scan, words[i])) return true;
  }
  return false;
}

static bool take_upright(struct scan *scan) {
  static const char *const words[] = {"upright", "Upright", "vertical", "plumb"};
  return take_any_word(scan, words, sizeof words / sizeof *words);
}

static bool take_level(struct scan *scan) {
  static const char *const words[] = {"level", "Level", "flat", "horizontal"};
  return take_any_word(scan, words, sizeof words / sizeof *words);
}

bool scan_is_slope(const struct scan *scan) {
  struct scan ahead = *scan;
  return take_upright(&ahead) || take_level(&ahead) || memchr(scan->at, ':', (size_t)(scan->end - scan->at));
}

static bool fail_level(struct scan *scan) {
  return scan_fail(scan, "is level ground, which rises nowhere and so has no slope to give", "2 % or 1.5H:1V");
}

bool scan_slope_of_angle(struct scan *scan, double radians, double *value) {
  if (radians == 0) return fail_level(scan);
  // 90 deg times a rounded degree may end a hair off the right angle.
  if (fabs(radians - right_angle) < 1e-12) {
    *value = 0;
    return true;
  }
  if (radians < 0 || radians > right_angle) {
    return scan_fail(scan, "is no slope between level and upright", "an angle over 0 and up to 90 deg from level");
  }
  *value = 1 / tan(radians);
  return true;
}

static void write_ratio(struct text *text, double over, const char *first, double under, const char *second) {
  number_write_short(text, over, 6, false);
  text_add(text, first);
  number_write_short(text, under, 6, false);
  text_add(text, second);
}

static void write_angle(struct text *text, double run, double rise) {
  text_add(text, " (");
  number_write(text, atan2(rise, run) / degree, 0, false);
  text_add(text, " deg from level)");
}

static bool fail_bare_ratio(struct scan *scan, double first, double second) {
  text_add(scan->wrong, "does not say which figure is the run (H) and which the rise (V)");
  write_ratio(scan->right, first, "H:", second, "V");
  if (first == second) return false;
  write_angle(scan->right, first, second);
  text_add(scan->right, " or ");
  write_ratio(scan->right, first, "V:", second, "H");
  write_angle(scan->right, second, first);
  return false;
}

static char take_letter(struct scan *scan) {
  scan_spaces(scan);
  return scan_take_letter(scan, 'H') ? 'H' : scan_take_letter(scan, 'V') ? 'V' : '\0';
}

// What follows the first figure of 1.5H:1V, its letter and the colon.
static bool finish_ratio(struct scan *scan, double first, char first_letter, double *value) {
  double second;
  scan_spaces(scan);
  if (!scan_at_number(scan)) return scan_fail(scan, "has no figure after the colon", "1.5H:1V");
  if (!scan_number(scan, &second)) return false;
  char second_letter = take_letter(scan);
  if (!first_letter && !second_letter) return fail_bare_ratio(scan, first, second);
  if (first_letter == second_letter) return scan_fail(scan, "names the same side of the slope twice", "1.5H:1V");
  bool run_first = first_letter == 'H' || second_letter == 'V';
  double run = run_first ? first : second, rise = run_first ? second : first;
  if (rise == 0) return fail_level(scan);
  *value = run / rise;
  return true;
}

static bool from_percent(struct scan *scan, double share, double *value) {
  if (share == 0) return fail_level(scan);
  *value = 1 / share;
  return true;
}

static bool from_angle(struct scan *scan, double radians, double *value) {
  scan_spaces(scan);
  if (scan_take(scan, "from level")) return scan_slope_of_angle(scan, radians, value);
  text_add(scan->wrong, "does not say from where the angle is taken");
  number_write_short(scan->right, radians / degree, 2, false);
  text_add(scan->right, " deg from level");
  return false;
}

static bool from_unit(struct scan *scan, double number, const char *number_end, double *value) {
  const struct unit *unit = scan_unit(scan);
  if (!unit && (scan_is_done(scan) || scan_at_tolerance(scan))) {
    return scan_fail(scan, "does not say what sort of slope it is", NULL);
  }
  if (!unit) return scan_fail_unit(scan, number_end);
  if (unit->dimension == DIM_SLOPE) {
    *value = number;
    return true;
  }
  if (unit->dimension == DIM_RATIO) return from_percent(scan, unit_to_si(unit, number), value);
  if (unit->dimension == DIM_ANGLE) return from_angle(scan, unit_to_si(unit, number), value);
  return scan_says_unit_fits(scan, unit);
}

bool scan_slope(struct scan *scan, double *value) {
  *value = 0;
  if (take_upright(scan)) return true;
  if (take_level(scan)) return fail_level(scan);
  if (scan_take_sign(scan) < 0) return scan_fail(scan, "is a slope under nothing", NULL);
  double number;
  if (!scan_number(scan, &number)) return false;
  const char *number_end = scan->at;
  struct scan ahead = *scan;
  char letter = take_letter(&ahead);
  scan_spaces(&ahead);
  if (scan_take(&ahead, ":")) {
    scan->at = ahead.at;
    return finish_ratio(scan, number, letter, value);
  }
  scan_spaces(scan);
  return from_unit(scan, number, number_end, value);
}
