// SPDX-License-Identifier: MIT
// Texts that lose nothing, and values whose powers have no name.
#include <math.h>
#include <string.h>

#include "base/number.h"
#include "units/write.h"

enum { FEW_DIGITS = 10, ALL_DIGITS = 17 };

// ---- what reads back to the same double ----

struct exact {
  const struct unit *unit;
  double number;
  int digits;  // ALL_DIGITS + 1: nothing found
};

// Sizes beyond these have no plain decimals to write, see number_write_exact.
static const double least_size = 1e-14, most_size = 1e17;

static bool reads_back(const struct unit *unit, double number, double value_si) {
  double size = fabs(number);
  return unit_to_si(unit, number) == value_si && (size == 0 || (size >= least_size && size < most_size));
}

static const struct exact nothing = {.digits = ALL_DIGITS + 1};

static struct exact shortest(const struct unit *unit, double value_si, int from, int to) {
  struct exact found = {.unit = unit, .digits = from};
  for (; found.digits <= to; found.digits++) {
    found.number = number_round(unit_from_si(unit, value_si), found.digits);
    if (reads_back(unit, found.number, value_si)) return found;
  }
  return nothing;
}

// The shortest number in this unit that is the value, if it is short; ten digits hold all that fewer hold.
static struct exact few_digits_in(const struct unit *unit, double value_si) {
  if (shortest(unit, value_si, FEW_DIGITS, FEW_DIGITS).digits > FEW_DIGITS) return nothing;
  return shortest(unit, value_si, 1, FEW_DIGITS);
}

static struct exact many_digits_in(const struct unit *unit, double value_si) {
  return shortest(unit, value_si, FEW_DIGITS + 1, ALL_DIGITS);
}

typedef struct exact search(const struct unit *unit, double value_si);

static const char *const length_units[2][2] = {[UNITS_US] = {"in", "ft"}, [UNITS_SI] = {"mm", "m"}};

static struct exact exact_in_preferred(double value_si, enum dimension dimension, enum unit_system system,
                                       search *search_in) {
  bool is_length = dimension == DIM_LENGTH || dimension == DIM_ELEVATION;
  const struct dimension_row *row = dimension_row(dimension);
  const char *first = is_length ? length_units[system][0] : system == UNITS_US ? row->us : row->si;
  struct exact found = search_in(unit_named(first, strlen(first)), value_si);
  if (!is_length) return found;
  const char *second = length_units[system][1];
  struct exact other = search_in(unit_named(second, strlen(second)), value_si);
  return other.digits < found.digits ? other : found;
}

// How hard it is to read: digits, and zeros on either side of them.
static int burden(const struct exact *exact) {
  double size = fabs(exact->number);
  return exact->digits + (size >= 1e5 || size < 1e-2 ? 5 : 0);
}

static struct exact exact_in_any(double value_si, enum dimension dimension, search *search_in) {
  struct exact best = nothing;
  enum dimension of = dimension == DIM_ELEVATION ? DIM_LENGTH : dimension;
  const struct unit *unit;
  for (size_t i = 0; (unit = unit_at(i)); i++) {
    if (unit->dimension != of) continue;
    struct exact found = search_in(unit, value_si);
    if (found.digits > ALL_DIGITS) continue;
    if (best.digits > ALL_DIGITS || burden(&found) < burden(&best)) best = found;
  }
  return best;
}

// Every dimension has a unit of factor 1, so the last search finds something unless the size is beyond all bounds.
static struct exact exact_of(double value_si, enum dimension dimension, enum unit_system system) {
  search *const searches[] = {few_digits_in, many_digits_in};
  for (size_t i = 0; i < sizeof searches / sizeof *searches; i++) {
    struct exact found = exact_in_preferred(value_si, dimension, system, searches[i]);
    if (found.digits > ALL_DIGITS) found = exact_in_any(value_si, dimension, searches[i]);
    if (found.digits <= ALL_DIGITS) return found;
  }
  const char *si = dimension_row(dimension)->si;
  const struct unit *unit = unit_named(si, strlen(si));
  return (struct exact){.unit = unit, .number = unit_from_si(unit, value_si), .digits = ALL_DIGITS};
}

void unit_write_exact(struct text *text, double value_si, enum dimension dimension, enum unit_system system) {
  if (dimension == DIM_SLOPE && value_si == 0) {
    text_add(text, "upright");
    return;
  }
  if (dimension == DIM_MONEY) text_add(text, value_si < 0 ? "-$" : "$");
  bool bare = dimension == DIM_RATIO || dimension == DIM_COUNT || dimension == DIM_MONEY || dimension == DIM_SLOPE;
  if (bare || !isfinite(value_si)) {
    number_write_exact(text, dimension == DIM_MONEY ? fabs(value_si) : value_si);
    if (dimension == DIM_SLOPE) text_add(text, "H:1V");
    return;
  }
  struct exact exact = exact_of(value_si, dimension, system);
  number_write_exact(text, exact.number);
  text_printf(text, " %s", exact.unit->name);
  if (dimension == DIM_ANGLE) text_add(text, " from level");
}

// ---- powers without a name ----

struct base_unit {
  const char *name;
  int power;
};

static void write_power(struct text *text, const char *name, int power) {
  text_add(text, name);
  if (power > 1) text_printf(text, "%d", power);
}

static void write_base_units(struct text *text, const struct base_unit *units, size_t count) {
  bool first = true;
  for (size_t i = 0; i < count; i++) {
    if (units[i].power <= 0) continue;
    text_add_char(text, ' ');
    write_power(text, units[i].name, units[i].power);
    first = false;
  }
  if (first) text_add(text, " 1");
  for (size_t i = 0; i < count; i++) {
    if (units[i].power >= 0) continue;
    text_add_char(text, '/');
    write_power(text, units[i].name, -units[i].power);
  }
}

void unit_write_powers(struct text *text, double value_si, struct powers powers) {
  const struct base_unit units[] = {{"kg", powers.mass},   {"m", powers.length},      {"s", powers.time},
                                    {"A", powers.current}, {"K", powers.temperature}, {"$", powers.money}};
  const size_t count = sizeof units / sizeof *units;
  bool plain = true;
  for (size_t i = 0; i < count; i++) plain = plain && units[i].power == 0;
  number_write_short(text, number_round(value_si, 4), 12, true);
  if (!plain) write_base_units(text, units, count);
}
