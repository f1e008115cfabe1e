// SPDX-License-Identifier: MIT
#include "units/dimension.h"

#include <string.h>

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

static struct powers of(enum dimension dimension) { return dimension_row(dimension)->powers; }

static const char *name_of(bool done, struct powers powers) {
  if (!done) return "error";
  enum dimension dimension = dimension_of_powers(powers);
  return dimension == DIMENSION_COUNT ? "unnamed" : dimension_row(dimension)->name;
}

static void every_row_is_whole(void **state) {
  (void)state;
  for (int i = 0; i < DIMENSION_COUNT; i++) {
    const struct dimension_row *row = dimension_row((enum dimension)i);
    assert_true(row->name && *row->name && row->says && *row->says && row->example && *row->example);
    assert_non_null(row->us);
    assert_non_null(row->si);
  }
  assert_string_equal(dimension_row(DIM_FLOW_PER_LENGTH)->name, "flow per length");
  assert_string_equal(dimension_row(DIM_MONEY)->example, "$120");
}

// Two dimensions of the same powers would be one to every check of arithmetic. Powers that differ in name alone are
// none here: energy stands for itself, there is no torque.
static void every_row_has_its_own_powers(void **state) {
  (void)state;
  for (int i = 0; i < DIMENSION_COUNT; i++) {
    enum dimension found = dimension_of_powers(of((enum dimension)i));
    assert_string_equal(dimension_row(found)->name, dimension_row((enum dimension)i)->name);
  }
  assert_int_equal(dimension_of_powers((struct powers){.length = 7}), DIMENSION_COUNT);
}

struct row {
  enum dimension a, b;
  const char *result;
};

static void check(const struct row *rows, size_t count,
                  bool (*combine)(struct powers, struct powers, struct powers *)) {
  for (size_t i = 0; i < count; i++) {
    struct powers powers = {0};
    bool done = combine(of(rows[i].a), of(rows[i].b), &powers);
    const char *found = name_of(done, powers);
    if (strcmp(found, rows[i].result) != 0) {
      fail_msg("%s with %s: %s, expected %s", dimension_row(rows[i].a)->name, dimension_row(rows[i].b)->name, found,
               rows[i].result);
    }
  }
}

static void adds(void **state) {
  (void)state;
  static const struct row rows[] = {
      {DIM_LENGTH, DIM_LENGTH, "length"},       {DIM_LENGTH, DIM_AREA, "error"},
      {DIM_ELEVATION, DIM_LENGTH, "elevation"}, {DIM_LENGTH, DIM_ELEVATION, "elevation"},
      {DIM_ELEVATION, DIM_ELEVATION, "error"},  {DIM_TEMPERATURE, DIM_TEMPERATURE, "error"},
      {DIM_COUNT, DIM_COUNT, "count"},          {DIM_COUNT, DIM_RATIO, "error"},
      {DIM_ANGLE, DIM_SLOPE, "error"},          {DIM_MONEY, DIM_MONEY, "money"},
      {DIM_MASS, DIM_FORCE, "error"},           {DIM_RATIO, DIM_RATIO, "ratio"},
  };
  check(rows, sizeof rows / sizeof *rows, powers_add);
}

static void subtracts(void **state) {
  (void)state;
  static const struct row rows[] = {
      {DIM_ELEVATION, DIM_ELEVATION, "length"},
      {DIM_ELEVATION, DIM_LENGTH, "elevation"},
      {DIM_LENGTH, DIM_ELEVATION, "error"},
      {DIM_LENGTH, DIM_LENGTH, "length"},
      {DIM_TEMPERATURE, DIM_TEMPERATURE, "unnamed"},  // a difference of temperatures is no temperature
      {DIM_FLOW, DIM_VOLUME, "error"},
  };
  check(rows, sizeof rows / sizeof *rows, powers_subtract);
}

static void multiplies(void **state) {
  (void)state;
  static const struct row rows[] = {
      {DIM_LENGTH, DIM_LENGTH, "area"},    {DIM_AREA, DIM_LENGTH, "volume"},      {DIM_FLOW, DIM_TIME, "volume"},
      {DIM_DENSITY, DIM_VOLUME, "mass"},   {DIM_MASS, DIM_ACCELERATION, "force"}, {DIM_PRESSURE, DIM_AREA, "force"},
      {DIM_VOLTAGE, DIM_CURRENT, "power"}, {DIM_POWER, DIM_TIME, "energy"},       {DIM_RATIO, DIM_LENGTH, "length"},
      {DIM_LENGTH, DIM_RATIO, "length"},   {DIM_COUNT, DIM_LENGTH, "length"},     {DIM_FLOW, DIM_COUNT, "flow"},
      {DIM_COUNT, DIM_COUNT, "count"},     {DIM_COUNT, DIM_RATIO, "count"},       {DIM_RATIO, DIM_ANGLE, "angle"},
      {DIM_COUNT, DIM_ANGLE, "angle"},     {DIM_SLOPE, DIM_RATIO, "slope"},       {DIM_SLOPE, DIM_LENGTH, "length"},
      {DIM_ANGLE, DIM_LENGTH, "length"},   {DIM_SLOPE, DIM_SLOPE, "error"},       {DIM_ANGLE, DIM_SLOPE, "error"},
      {DIM_ELEVATION, DIM_RATIO, "error"}, {DIM_ELEVATION, DIM_LENGTH, "error"},  {DIM_TEMPERATURE, DIM_COUNT, "error"},
      {DIM_MONEY, DIM_VOLUME, "unnamed"},
  };
  check(rows, sizeof rows / sizeof *rows, powers_multiply);
}

static void divides(void **state) {
  (void)state;
  static const struct row rows[] = {
      {DIM_LENGTH, DIM_LENGTH, "ratio"},         {DIM_VOLUME, DIM_TIME, "flow"},
      {DIM_FLOW, DIM_LENGTH, "flow per length"}, {DIM_FLOW, DIM_AREA, "speed"},
      {DIM_FORCE, DIM_AREA, "pressure"},         {DIM_MASS, DIM_AREA, "mass per area"},
      {DIM_COUNT, DIM_COUNT, "ratio"},           {DIM_SLOPE, DIM_SLOPE, "ratio"},
      {DIM_LENGTH, DIM_COUNT, "length"},         {DIM_ANGLE, DIM_COUNT, "angle"},
      {DIM_COUNT, DIM_RATIO, "count"},           {DIM_LENGTH, DIM_SLOPE, "length"},
      {DIM_ANGLE, DIM_SLOPE, "error"},           {DIM_ELEVATION, DIM_LENGTH, "error"},
      {DIM_LENGTH, DIM_ELEVATION, "error"},      {DIM_COUNT, DIM_LENGTH, "unnamed"},
      {DIM_RATIO, DIM_RATIO, "ratio"},
  };
  check(rows, sizeof rows / sizeof *rows, powers_divide);
}

static void powers_may_not_overflow(void **state) {
  (void)state;
  struct powers powers = {.length = 100}, result;
  assert_false(powers_multiply(powers, powers, &result));
  struct powers under = {.length = -100};
  assert_false(powers_divide(powers, under, &result));
  assert_true(powers_multiply(powers, under, &result));
  assert_int_equal(dimension_of_powers(result), DIM_RATIO);
}

static void shares_and_counts_alone_may_be_bare(void **state) {
  (void)state;
  for (int i = 0; i < DIMENSION_COUNT; i++) {
    bool bare = i == DIM_RATIO || i == DIM_COUNT;
    if (dimension_may_be_bare((enum dimension)i) != bare) fail_msg("%s", dimension_row((enum dimension)i)->name);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_row_is_whole),
      cmocka_unit_test(every_row_has_its_own_powers),
      cmocka_unit_test(adds),
      cmocka_unit_test(subtracts),
      cmocka_unit_test(multiplies),
      cmocka_unit_test(divides),
      cmocka_unit_test(powers_may_not_overflow),
      cmocka_unit_test(shares_and_counts_alone_may_be_bare),
  };
  return cmocka_run_group_tests_name("units/dimension", tests, NULL, NULL);
}
