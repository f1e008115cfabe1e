// SPDX-License-Identifier: MIT
#include "units/write.h"

#include <math.h>
#include <string.h>

#include "base/number.h"
#include "units/compare.h"
#include "units/exact.h"

enum { MOST_FINER = 6, REPORT_DIGITS = 10 };

#define MINUTE 60.0
#define YEAR (365.25 * 24 * 60 * MINUTE)

// ---- which form a value takes ----

enum { BOTH = -1 };

enum manner { DECIMALS, INCHES, FEET_AND_INCHES };

struct form {
  enum dimension dimension;
  int system;    // an enum unit_system, or BOTH
  double below;  // SI; the row serves sizes under it
  const char *unit;
  enum manner manner;
  int step;  // DECIMALS: how many (-1: to tens); else the parts of an inch
};

static const struct form forms[] = {
    {DIM_LENGTH, UNITS_US, 2 * INCH, "in", INCHES, 16},
    {DIM_LENGTH, UNITS_US, 3 * FOOT, "in", INCHES, 4},
    {DIM_LENGTH, UNITS_US, 20 * FOOT, "ft", FEET_AND_INCHES, 2},
    {DIM_LENGTH, UNITS_US, INFINITY, "ft", FEET_AND_INCHES, 1},
    {DIM_LENGTH, UNITS_SI, 1, "mm", DECIMALS, 0},
    {DIM_LENGTH, UNITS_SI, INFINITY, "m", DECIMALS, 2},
    {DIM_ELEVATION, UNITS_US, FOOT, "in", INCHES, 8},
    {DIM_ELEVATION, UNITS_US, INFINITY, "ft", FEET_AND_INCHES, 8},
    {DIM_ELEVATION, UNITS_SI, 1, "mm", DECIMALS, 0},
    {DIM_ELEVATION, UNITS_SI, INFINITY, "m", DECIMALS, 3},  // levels are staked to the millimetre
    {DIM_AREA, UNITS_US, 0.1 * FOOT *FOOT, "in2", DECIMALS, 1},
    {DIM_AREA, UNITS_US, 10 * FOOT *FOOT, "ft2", DECIMALS, 1},
    {DIM_AREA, UNITS_US, INFINITY, "ft2", DECIMALS, 0},
    {DIM_AREA, UNITS_SI, 0.1, "cm2", DECIMALS, 1},
    {DIM_AREA, UNITS_SI, INFINITY, "m2", DECIMALS, 2},
    {DIM_VOLUME, UNITS_US, 10 * GALLON, "gal", DECIMALS, 1},
    {DIM_VOLUME, UNITS_US, INFINITY, "gal", DECIMALS, 0},
    {DIM_VOLUME, UNITS_SI, 1, "L", DECIMALS, 0},
    {DIM_VOLUME, UNITS_SI, INFINITY, "m3", DECIMALS, 2},
    {DIM_FLOW, UNITS_US, INFINITY, "gal/h", DECIMALS, -1},
    {DIM_FLOW, UNITS_SI, 1e-3, "L/s", DECIMALS, 2},
    {DIM_FLOW, UNITS_SI, INFINITY, "L/s", DECIMALS, 1},
    {DIM_MASS, UNITS_US, 100 * POUND, "lb", DECIMALS, 0},
    {DIM_MASS, UNITS_US, 2000 * POUND, "lb", DECIMALS, -1},
    {DIM_MASS, UNITS_US, INFINITY, "ton", DECIMALS, 1},
    {DIM_MASS, UNITS_SI, 1000, "kg", DECIMALS, 0},
    {DIM_MASS, UNITS_SI, INFINITY, "t", DECIMALS, 1},
    {DIM_TIME, BOTH, MINUTE, "s", DECIMALS, 0},
    {DIM_TIME, BOTH, 2 * 60 * MINUTE, "min", DECIMALS, 0},
    {DIM_TIME, BOTH, 48 * 60 * MINUTE, "h", DECIMALS, 1},
    {DIM_TIME, BOTH, 2 * YEAR, "day", DECIMALS, 1},
    {DIM_TIME, BOTH, INFINITY, "yr", DECIMALS, 0},
    {DIM_RATIO, BOTH, 10, "", DECIMALS, 2},
    {DIM_RATIO, BOTH, 100, "", DECIMALS, 1},
    {DIM_RATIO, BOTH, INFINITY, "", DECIMALS, 0},
    {DIM_COUNT, BOTH, INFINITY, "", DECIMALS, 2},
    {DIM_SLOPE, BOTH, INFINITY, "", DECIMALS, 2},
};

struct shape {
  const struct unit *unit;  // NULL: a bare number
  enum manner manner;
  int step;
};

static struct shape shape_of_form(const struct form *form) {
  return (struct shape){unit_named(form->unit, strlen(form->unit)), form->manner, form->step};
}

// The row for this size; where a unit is asked for, the row of that unit, its last one for sizes beyond all.
static const struct form *form_for(double size, enum dimension dimension, struct write_style style) {
  const struct form *found = NULL;
  for (size_t i = 0; i < sizeof forms / sizeof *forms; i++) {
    const struct form *form = &forms[i];
    if (form->dimension != dimension) continue;
    if (style.unit ? strcmp(form->unit, style.unit->name) != 0 || form->manner == FEET_AND_INCHES
                   : form->system != BOTH && form->system != (int)style.system) {
      continue;
    }
    found = form;
    if (compare(size, form->below, 0) == STANDS_BELOW) break;
  }
  return found;
}

enum { INCH_DECIMALS = 2 };

static struct shape shape_for(double size, enum dimension dimension, struct write_style style) {
  const struct form *form = form_for(size, dimension, style);
  if (form && style.decimal && form->manner != DECIMALS) {
    return (struct shape){unit_named("in", strlen("in")), DECIMALS, INCH_DECIMALS};
  }
  if (form) return shape_of_form(form);
  const struct dimension_row *row = dimension_row(dimension);
  const char *name = style.system == UNITS_US ? row->us : row->si;
  const struct unit *unit = style.unit ? style.unit : unit_named(name, strlen(name));
  return (struct shape){unit, DECIMALS, unit ? unit->decimals : 0};
}

// ---- steps: what the smallest difference shown is ----

static double power_of_ten(int n) {
  double power = 1;
  for (; n > 0; n--) power *= 10;
  for (; n < 0; n++) power /= 10;
  return power;
}

static double in_unit(struct shape shape, double value_si) {
  return shape.unit ? unit_from_si(shape.unit, value_si) : value_si;
}

// How many of the smallest steps the value's size comes to, halves up.
static double steps_of(struct shape shape, double value_si, int finer) {
  double steps = shape.manner == DECIMALS
                     ? number_round(fabs(in_unit(shape, value_si)), REPORT_DIGITS) * power_of_ten(shape.step + finer)
                     : fabs(value_si) / INCH * (shape.step << finer);
  return floor(number_round(steps, REPORT_DIGITS) + 0.5);
}

// The value that is shown, in SI: to see whether two values show alike.
static double shown_si(struct shape shape, double value_si, int finer) {
  double steps = steps_of(shape, value_si, finer);
  if (shape.manner != DECIMALS) return copysign(steps * INCH / (shape.step << finer), value_si);
  double shown = copysign(steps / power_of_ten(shape.step + finer), in_unit(shape, value_si));
  return shape.unit ? unit_to_si(shape.unit, shown) : shown;
}

// Something must not be shown as nothing.
static int finer_than_nothing(struct shape shape, double value_si, int finer) {
  bool is_scale = shape.unit && shape.unit->before != 0;
  while (!is_scale && value_si != 0 && finer < MOST_FINER && steps_of(shape, value_si, finer) == 0) finer++;
  return finer;
}

// ---- putting it in words ----

static void write_inches(struct text *text, double parts, int to_the_inch) {
  double whole = floor(parts / to_the_inch);
  int over = (int)(parts - whole * to_the_inch), under = to_the_inch;
  while (over > 0 && over % 2 == 0) {
    over /= 2;
    under /= 2;
  }
  if (whole > 0 || over == 0) number_write(text, whole, 0, true);
  if (over > 0) text_printf(text, "%s%d/%d", whole > 0 ? " " : "", over, under);
  text_add(text, " in");
}

static void write_feet_and_inches(struct text *text, double parts, int to_the_inch) {
  int to_the_foot = 12 * to_the_inch;
  double feet = floor(parts / to_the_foot), rest = parts - feet * to_the_foot;
  if (feet > 0) {
    number_write(text, feet, 0, true);
    text_add(text, rest > 0 ? " ft " : " ft");
  }
  if (rest > 0 || feet == 0) write_inches(text, rest, to_the_inch);
}

static void write_decimals(struct text *text, struct shape shape, double size, int finer) {
  int decimals = shape.step + finer;
  double shown = decimals < 0 ? steps_of(shape, size, finer) / power_of_ten(decimals) : fabs(in_unit(shape, size));
  number_write(text, shown, decimals > 0 ? decimals : 0, true);
  if (shape.unit && shape.unit->dimension != DIM_MONEY) text_printf(text, " %s", shape.unit->name);
}

static void write_sign(struct text *text, struct shape shape, double value_si, enum dimension dimension, int finer) {
  double shown = shape.manner == DECIMALS ? in_unit(shape, value_si) : value_si;
  if (steps_of(shape, value_si, finer) == 0) return;
  if (shown < 0) text_add_char(text, '-');
  if (shown > 0 && dimension == DIM_ELEVATION) text_add_char(text, '+');
}

static void write_in_shape(struct text *text, struct shape shape, double value_si, enum dimension dimension,
                           int finer) {
  write_sign(text, shape, value_si, dimension, finer);
  if (dimension == DIM_MONEY) text_add_char(text, '$');
  if (shape.manner == DECIMALS) {
    write_decimals(text, shape, value_si, finer);
  } else if (shape.manner == INCHES) {
    write_inches(text, steps_of(shape, value_si, finer), shape.step << finer);
  } else {
    write_feet_and_inches(text, steps_of(shape, value_si, finer), shape.step << finer);
  }
}

static bool write_special(struct text *text, double value_si, enum dimension dimension, int finer) {
  if (isnan(value_si)) {
    text_add(text, "not known");
  } else if (isinf(value_si)) {
    text_add(text, value_si > 0 ? "without end" : "-without end");
  } else if (dimension == DIM_SLOPE && value_si == 0) {
    text_add(text, "upright");
  } else if (dimension == DIM_SLOPE || dimension == DIM_COUNT) {
    number_write_short(text, value_si, 2 + finer, true);
    if (dimension == DIM_SLOPE) text_add(text, "H:1V");
  } else {
    return false;
  }
  return true;
}

static void write_whole(struct text *text, struct shape shape, double value_si, enum dimension dimension, int finer) {
  int enough = isfinite(value_si) ? finer_than_nothing(shape, value_si, finer) : finer;
  if (write_special(text, value_si, dimension, enough)) return;
  write_in_shape(text, shape, value_si, dimension, enough);
  if (dimension == DIM_ANGLE) text_add(text, " from level");
}

static int finer_within(int finer) { return finer < 0 ? 0 : finer > MOST_FINER ? MOST_FINER : finer; }

void unit_write(struct text *text, double value_si, enum dimension dimension, struct write_style style) {
  struct shape shape = shape_for(fabs(value_si), dimension, style);
  write_whole(text, shape, value_si, dimension, finer_within(style.finer));
}

// ---- a value beside its limit ----

static bool shown_alike(struct shape value_shape, double value, struct shape limit_shape, double limit, int finer) {
  double a = shown_si(value_shape, value, finer_than_nothing(value_shape, value, finer));
  double b = shown_si(limit_shape, limit, finer_than_nothing(limit_shape, limit, finer));
  return compare(a, b, 0) == STANDS_AT;
}

// Decimals are easier to compare in one unit, that of the smaller one, and beside nothing with the same digits; feet
// and inches need not be.
static void match(struct shape *value_shape, double value, struct shape *limit_shape, double limit,
                  enum dimension dimension, struct write_style style) {
  if (value_shape->manner != DECIMALS || limit_shape->manner != DECIMALS) return;
  if (value == 0) {
    *value_shape = *limit_shape;
  } else if (limit == 0) {
    *limit_shape = *value_shape;
  } else if (value_shape->unit != limit_shape->unit) {
    *value_shape = *limit_shape = shape_for(fmin(fabs(value), fabs(limit)), dimension, style);
  }
}

struct pair {
  struct shape value_shape, limit_shape;
  double value, limit;
  enum dimension dimension;
  int finer;
};

static struct pair pair_of(double value, double limit, enum dimension dimension, struct write_style style, bool close) {
  struct pair pair = {
      shape_for(fabs(value), dimension, style), shape_for(fabs(limit), dimension, style), value, limit, dimension, 0};
  match(&pair.value_shape, value, &pair.limit_shape, limit, dimension, style);
  pair.finer = finer_within(style.finer);
  int most = pair.finer + MOST_FINER;
  if (!isfinite(value) || !isfinite(limit) || compare(value, limit, 0) == STANDS_AT) return pair;
  pair.finer += close;
  while (pair.finer < most && shown_alike(pair.value_shape, value, pair.limit_shape, limit, pair.finer)) pair.finer++;
  return pair;
}

static void write_both(struct text *value_text, struct text *limit_text, const struct pair *pair) {
  write_whole(value_text, pair->value_shape, pair->value, pair->dimension, pair->finer);
  write_whole(limit_text, pair->limit_shape, pair->limit, pair->dimension, pair->finer);
}

void unit_write_pair(struct text *value_text, struct text *limit_text, double value, double limit,
                     enum dimension dimension, struct write_style style) {
  struct pair pair = pair_of(value, limit, dimension, style, false);
  write_both(value_text, limit_text, &pair);
}

// ---- and what lies between them ----

static const double close_share = 0.1;  // of the limit

static enum dimension dimension_of_difference(enum dimension dimension) {
  struct powers powers = dimension_row(dimension)->powers;
  powers.point = 0;
  return dimension_of_powers(powers);
}

// Degrees between two temperatures have no dimension of their own here: the unit of the two is written behind them.
static void write_degrees(struct text *text, struct shape shape, double difference_si, int finer) {
  number_write(text, fabs(difference_si) / shape.unit->factor, shape.step + finer, true);
  text_printf(text, " %s", shape.unit->name);
}

// As fine as it takes to be exactly what it is: the difference of two printed figures is a round one.
static void write_round(struct text *text, double value_si, enum dimension dimension, struct write_style style) {
  struct shape shape = shape_for(value_si, dimension, style);
  int finer = finer_within(style.finer), most = finer + 2 * MOST_FINER;
  while (finer < most && compare(shown_si(shape, value_si, finer), value_si, 0) != STANDS_AT) finer++;
  write_whole(text, shape, value_si, dimension, finer);
}

void unit_write_apart(struct text *value_text, struct text *limit_text, struct text *apart_text, double value,
                      double limit, enum dimension dimension, struct write_style style) {
  struct pair pair = pair_of(value, limit, dimension, style, fabs(value - limit) < close_share * fabs(limit));
  write_both(value_text, limit_text, &pair);
  double value_shown = shown_si(pair.value_shape, value, finer_than_nothing(pair.value_shape, value, pair.finer));
  double limit_shown = shown_si(pair.limit_shape, limit, finer_than_nothing(pair.limit_shape, limit, pair.finer));
  double apart = fabs(value_shown - limit_shown);
  if (apart == 0) apart = fabs(value - limit);  // too little to be seen in the two
  enum dimension of_difference = dimension_of_difference(dimension);
  if (of_difference == DIMENSION_COUNT) {
    write_degrees(apart_text, pair.value_shape, apart, pair.finer);
    return;
  }
  if (of_difference != dimension) style.unit = NULL;
  write_round(apart_text, apart, of_difference, style);
}
