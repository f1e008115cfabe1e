// SPDX-License-Identifier: MIT
#include "units/read.h"

#include <math.h>
#include <string.h>

#include "units/read_scan.h"

// ---- parts with a unit: 4 ft 6 1/2 in ----

struct sum {
  bool difference;  // a tolerance: degrees between temperatures, not on the scale
  int sign;
  double value;
  const struct unit *last;
};

// What people write in more than one unit.
static bool adds_up(enum dimension dimension) {
  return dimension == DIM_LENGTH || dimension == DIM_MASS || dimension == DIM_TIME || dimension == DIM_VOLUME;
}

static bool add_part(struct scan *scan, struct sum *sum, double number, const struct unit *unit) {
  if (!scan_says_unit_fits(scan, unit)) return false;
  if (sum->last && (unit->dimension != sum->last->dimension || !adds_up(unit->dimension))) {
    return scan_fail(scan, "holds two values", NULL);
  }
  if (sum->last && unit->factor >= sum->last->factor) {
    text_printf(scan->wrong, "has %s after %s; the larger unit comes first, each once", unit->name, sum->last->name);
    return false;
  }
  if (sum->difference || unit->before == 0) {
    sum->value += sum->sign * number * unit->factor;
  } else {
    sum->value = unit_to_si(unit, sum->sign * number);
  }
  sum->last = unit;
  return true;
}

// The hyphen of 4'-6" (and 4' - 6", 4ft-6in) joins; anywhere else it could be a minus, which nobody should guess at.
static bool take_joint(struct scan *scan) {
  bool mark = scan->at[-1] == '\'' || (unsigned char)scan->at[-1] >= 0x80;
  struct scan ahead = *scan;
  if (mark) scan_spaces(&ahead);
  bool joint = scan_take(&ahead, "-");
  if (mark) scan_spaces(&ahead);
  if (joint && scan_at_number(&ahead)) scan->at = ahead.at;
  scan_spaces(scan);
  ahead = *scan;
  if (scan_at_tolerance(scan) || scan_take_sign(&ahead) == 0) return true;
  scan_spaces(&ahead);
  if (!scan_at_number(&ahead)) return true;
  return scan_fail(scan, "has a sign in the middle; one sign in front holds for all of it", NULL);
}

// The unit of the last part; NULL when something is wrong.
static const struct unit *add_parts(struct scan *scan, struct sum *sum) {
  const struct unit *unit;
  do {
    double number;
    if (!scan_number(scan, &number)) return NULL;
    const char *number_end = scan->at;
    scan_spaces(scan);
    unit = scan_unit(scan);
    if (!unit) scan_fail_unit(scan, number_end);
    if (!unit || !add_part(scan, sum, number, unit) || !take_joint(scan)) return NULL;
  } while (scan_at_number(scan));
  return unit;
}

// ---- the sorts of values ----

// A bare number where one is right; `bare` says whether it was one. Leaves the cursor alone when it was not.
static bool read_bare(struct scan *scan, double *value, bool *bare) {
  struct scan ahead = *scan;
  *bare = false;
  if (!dimension_may_be_bare(scan->want)) return true;
  if (!scan_number(&ahead, value)) return false;
  scan_spaces(&ahead);
  *bare = scan_is_done(&ahead) || scan_at_tolerance(&ahead);
  if (!*bare) return true;
  scan->at = ahead.at;
  if (scan->want != DIM_COUNT || floor(*value) == *value) return true;
  return scan_fail(scan, "is a count, so it must be a whole number", "3");
}

static bool read_money(struct scan *scan, int sign, double *value) {
  scan_spaces(scan);
  if (sign == 0) sign = scan_take_sign(scan);
  if (!scan_number(scan, value)) return false;
  if (sign < 0) *value = -*value;
  return true;
}

static bool takes_money(struct scan *scan) {
  return (scan->want == DIM_MONEY || scan->want == DIMENSION_COUNT) && scan_take(scan, "$");
}

// Where a slope is not asked for "from level" may stand behind an angle; where nothing is asked for it makes a slope.
static bool finish_angle(struct scan *scan, struct reading *reading) {
  scan_spaces(scan);
  if (!scan_take(scan, "from level") || scan->want == DIM_ANGLE) return true;
  reading->dimension = DIM_SLOPE;
  return scan_slope_of_angle(scan, reading->value, &reading->value);
}

static bool read_with_sign(struct scan *scan, struct reading *reading, int sign) {
  bool bare;
  double number;
  if (takes_money(scan)) {
    reading->dimension = DIM_MONEY;
    return read_money(scan, sign, &reading->value);
  }
  if (!read_bare(scan, &number, &bare)) return false;
  if (bare) {
    reading->value = sign < 0 ? -number : number;
    return true;
  }
  struct sum sum = {.sign = sign < 0 ? -1 : 1};
  const struct unit *unit = add_parts(scan, &sum);
  if (!unit) return false;
  reading->value = sum.value;
  if (scan->want == DIMENSION_COUNT) reading->dimension = unit->dimension;
  return unit->dimension != DIM_ANGLE || finish_angle(scan, reading);
}

static bool read_value(struct scan *scan, struct reading *reading) {
  if (scan->want == DIM_SLOPE || (scan->want == DIMENSION_COUNT && scan_is_slope(scan))) {
    reading->dimension = DIM_SLOPE;
    return scan_slope(scan, &reading->value);
  }
  int sign = scan_take_sign(scan);
  scan_spaces(scan);
  return read_with_sign(scan, reading, sign);
}

// ---- the tolerance ----

// "+/- 10 %" of the value; false with nothing said and the cursor unmoved when it is no share.
static bool take_share(struct scan *scan, double *share) {
  struct scan ahead = *scan;
  struct text unsaid = text_in(scan->wrong->arena);
  ahead.wrong = ahead.right = &unsaid;
  if (!scan_number(&ahead, share)) return false;
  scan_spaces(&ahead);
  const struct unit *unit = scan_unit(&ahead);
  if (!unit || unit->dimension != DIM_RATIO) return false;
  *share *= unit->factor;
  scan->at = ahead.at;
  return true;
}

static bool read_share(struct scan *scan, struct reading *reading, double share) {
  if (dimension_row(reading->dimension)->powers.point) {
    text_printf(scan->wrong, "has a tolerance that is a share, which means nothing for %s",
                dimension_row(reading->dimension)->says);
    text_add(scan->right, "the tolerance with a unit, as in 18 in +/- 2 in");
    return false;
  }
  reading->tolerance = fabs(reading->value) * share;
  return true;
}

static bool fail_tolerance_unit(struct scan *scan) {
  return scan_fail(scan, "has a tolerance without a unit", "the unit behind the tolerance too, as in 18 in +/- 2 in");
}

static bool read_difference(struct scan *scan, struct reading *reading) {
  bool bare;
  double number;
  if (takes_money(scan)) return read_money(scan, 1, &reading->tolerance);
  if (!read_bare(scan, &reading->tolerance, &bare)) return false;
  if (bare) return true;
  struct scan ahead = *scan;
  if (!scan_number(&ahead, &number)) return false;
  scan_spaces(&ahead);
  if (scan_is_done(&ahead)) return fail_tolerance_unit(scan);
  struct sum sum = {.difference = true, .sign = 1};
  if (!add_parts(scan, &sum)) return false;
  reading->tolerance = sum.value;
  return true;
}

static bool read_tolerance(struct scan *scan, struct reading *reading) {
  double share;
  scan_spaces(scan);
  scan->want = reading->dimension;
  scan->begin = scan->at;
  int sign = scan_take_sign(scan);
  if (sign < 0) return scan_fail(scan, "has a tolerance under nothing", "a tolerance of 0 or more");
  if (sign > 0 || (!scan_at_number(scan) && scan->at < scan->end && *scan->at != '$') || scan_is_done(scan)) {
    return scan_fail(scan, "has no number behind the +/-", "18 in +/- 2 in");
  }
  if (reading->dimension != DIM_RATIO && take_share(scan, &share)) return read_share(scan, reading, share);
  if (reading->dimension == DIM_SLOPE) {
    return scan_fail(scan, "has a tolerance that is no share of the slope", "1.5H:1V +/- 10 %");
  }
  return read_difference(scan, reading);
}

// ---- the whole ----

static bool check_bytes(struct scan *scan) {
  scan_spaces(scan);
  while (scan->end > scan->at && (scan->end[-1] == ' ' || scan->end[-1] == '\t')) scan->end--;
  scan->begin = scan->at;
  if (scan_is_done(scan)) return scan_fail(scan, "is empty", NULL);
  bool printable = text_is_utf8(scan->at, (size_t)(scan->end - scan->at));
  for (const char *at = scan->at; at < scan->end && printable; at++) {
    printable = (unsigned char)*at >= 0x20 ? *at != 0x7F : *at == '\t';
  }
  return printable || scan_fail(scan, "holds characters that cannot be printed", NULL);
}

static bool read_all(struct scan *scan, struct reading *reading) {
  if (!check_bytes(scan) || !read_value(scan, reading)) return false;
  scan_spaces(scan);
  if (scan_take_tolerance_mark(scan) && !read_tolerance(scan, reading)) return false;
  scan_spaces(scan);
  if (scan_is_done(scan)) return true;
  text_add(scan->wrong, "goes on with ");
  scan_quote(scan->wrong, scan->at, scan->end);
  text_add(scan->wrong, " behind the value");
  return false;
}

bool unit_read(const char *text, size_t length, enum dimension want, struct reading *reading, struct text *wrong,
               struct text *right) {
  struct scan scan = {.at = text, .end = text + length, .wrong = wrong, .right = right, .want = want};
  struct reading read = {.value = NAN, .tolerance = NAN, .dimension = want};
  if (read_all(&scan, &read)) {
    *reading = read;
    return true;
  }
  if (right->length > 0) return false;
  text_add(right, want == DIMENSION_COUNT ? "a number with its unit, as in 30 in" : dimension_row(want)->example);
  return false;
}

bool unit_read_any(const char *text, size_t length, struct reading *reading, struct text *wrong, struct text *right) {
  return unit_read(text, length, DIMENSION_COUNT, reading, wrong, right);
}
