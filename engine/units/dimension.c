// SPDX-License-Identifier: MIT
#include "units/dimension.h"

#include <stddef.h>

static const struct dimension_row rows[DIMENSION_COUNT] = {
// The powers in braces hold commas, so they pass as part of the rest; the rest is in the order of the struct.
#define D(enum_name, word, article, ...) [DIM_##enum_name] = {word, article, __VA_ARGS__},
#include "units/dimension.def"
#undef D
};

const struct dimension_row *dimension_row(enum dimension dimension) { return &rows[dimension]; }

bool powers_equal(struct powers a, struct powers b) {
  return a.length == b.length && a.mass == b.mass && a.time == b.time && a.current == b.current &&
         a.temperature == b.temperature && a.money == b.money && a.tag == b.tag && a.point == b.point;
}

enum dimension dimension_of_powers(struct powers powers) {
  for (int i = 0; i < DIMENSION_COUNT; i++) {
    if (powers_equal(rows[i].powers, powers)) return (enum dimension)i;
  }
  return DIMENSION_COUNT;
}

bool dimension_may_be_bare(enum dimension dimension) { return dimension == DIM_RATIO || dimension == DIM_COUNT; }

static struct powers as_difference(struct powers powers) {
  powers.point = 0;
  return powers;
}

bool powers_add(struct powers a, struct powers b, struct powers *sum) {
  if (a.point && b.point) return false;
  if (!powers_equal(as_difference(a), as_difference(b))) return false;
  *sum = a;
  sum->point = a.point || b.point;
  return true;
}

bool powers_subtract(struct powers a, struct powers b, struct powers *difference) {
  if (b.point && !a.point) return false;
  if (!powers_equal(as_difference(a), as_difference(b))) return false;
  *difference = a;
  difference->point = a.point && !b.point;
  return true;
}

static bool combine(int8_t a, int8_t b, int sign, int8_t *power) {
  int whole = a + sign * b;
  *power = (int8_t)whole;
  return whole >= INT8_MIN && whole <= INT8_MAX;
}

// Everything but tag and point.
static bool combine_powers(struct powers a, struct powers b, int sign, struct powers *out) {
  *out = (struct powers){0};
  return combine(a.length, b.length, sign, &out->length) && combine(a.mass, b.mass, sign, &out->mass) &&
         combine(a.time, b.time, sign, &out->time) && combine(a.current, b.current, sign, &out->current) &&
         combine(a.temperature, b.temperature, sign, &out->temperature) && combine(a.money, b.money, sign, &out->money);
}

static bool is_plain(struct powers powers) { return powers_equal(powers, (struct powers){0}); }

static bool is_count(struct powers powers) { return powers_equal(powers, rows[DIM_COUNT].powers); }

// A tag lives on when the other factor is a plain ratio or a count: half an angle, three slopes. With anything else it
// is used up as the pure number that it is: a slope times a rise is a length, three lengths are a length.
bool powers_multiply(struct powers a, struct powers b, struct powers *product) {
  if (a.point || b.point) return false;
  if (a.tag && b.tag && !is_count(a) && !is_count(b)) return false;
  if (!combine_powers(a, b, 1, product)) return false;
  if (is_plain(a) || (is_count(a) && b.tag)) product->tag = b.tag;
  if (is_plain(b) || (is_count(b) && a.tag && !is_count(a))) product->tag = a.tag;
  return true;
}

bool powers_divide(struct powers a, struct powers b, struct powers *quotient) {
  if (a.point || b.point) return false;
  if (a.tag && b.tag && a.tag != b.tag && !is_count(b)) return false;
  if (!combine_powers(a, b, -1, quotient)) return false;
  if (is_plain(b) || (is_count(b) && !is_count(a))) quotient->tag = a.tag;
  return true;
}
