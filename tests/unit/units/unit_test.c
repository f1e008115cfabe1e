// SPDX-License-Identifier: MIT
// Every row of unit.def against UDUNITS 2 (the unit library of Unidata), "computed with libudunits2".
#include "units/unit.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <udunits2.h>

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

static const struct {
  enum dimension dimension;
  const char *si;
} si_units[] = {
    {DIM_RATIO, "1"},
    {DIM_ANGLE, "radian"},
    {DIM_LENGTH, "m"},
    {DIM_AREA, "m2"},
    {DIM_VOLUME, "m3"},
    {DIM_TIME, "s"},
    {DIM_SPEED, "m/s"},
    {DIM_ACCELERATION, "m/s2"},
    {DIM_FLOW, "m3/s"},
    {DIM_MASS, "kg"},
    {DIM_FLOW_PER_LENGTH, "m2/s"},
    {DIM_DENSITY, "kg/m3"},
    {DIM_FORCE, "newton"},
    {DIM_MASS_PER_AREA, "kg/m2"},
    {DIM_FORCE_PER_LENGTH, "newton/m"},
    {DIM_PRESSURE, "pascal"},
    {DIM_ENERGY, "joule"},
    {DIM_POWER, "watt"},
    {DIM_VOLTAGE, "volt"},
    {DIM_CURRENT, "ampere"},
    {DIM_TEMPERATURE, "kelvin"},
};

// Exact where UDUNITS is: its own gallon is 3.785412 L (7 digits), so the gallon stands as its legal definition of 231
// cubic inches (NIST Handbook 44, appendix C, "from memory") and once more as the library's own within those digits.
// Its acre is ten square chains of US survey feet, 4 parts in a million larger than 43,560 square feet; its ounce has 7
// digits.
static const struct {
  const char *name, *udunits;
  double share;  // allowed difference
} same[] = {
    {"%", "percent", 1e-15},
    {"deg", "arc_degree", 1e-15},
    {"rad", "radian", 1e-15},
    {"in", "inch", 1e-15},
    {"ft", "international_foot", 1e-15},
    {"yd", "international_yard", 1e-15},
    {"mi", "international_mile", 1e-15},
    {"mm", "millimeter", 1e-15},
    {"cm", "centimeter", 1e-15},
    {"m", "meter", 1e-15},
    {"km", "kilometer", 1e-15},
    {"in2", "inch2", 1e-14},
    {"ft2", "international_foot2", 1e-14},
    {"yd2", "international_yard2", 1e-14},
    {"acre", "43560 international_foot2", 1e-14},
    {"acre", "acre", 1e-5},
    {"mm2", "millimeter2", 1e-14},
    {"cm2", "centimeter2", 1e-14},
    {"m2", "meter2", 1e-15},
    {"gal", "231 inch3", 1e-14},
    {"gal", "US_liquid_gallon", 1e-7},
    {"qt", "57.75 inch3", 1e-14},
    {"qt", "US_liquid_quart", 1e-7},
    {"pt", "28.875 inch3", 1e-14},
    {"pt", "US_liquid_pint", 1e-7},
    {"fl oz", "1.8046875 inch3", 1e-14},
    {"fl oz", "US_fluid_ounce", 1e-7},
    {"in3", "inch3", 1e-14},
    {"ft3", "international_foot3", 1e-14},
    {"yd3", "international_yard3", 1e-14},
    {"mL", "milliliter", 1e-14},
    {"L", "liter", 1e-14},
    {"m3", "meter3", 1e-15},
    {"s", "second", 1e-15},
    {"min", "minute", 1e-15},
    {"h", "hour", 1e-15},
    {"day", "day", 1e-15},
    {"week", "week", 1e-15},
    {"yr", "Julian_year", 1e-15},
    {"ft/s", "international_foot/second", 1e-14},
    {"ft/min", "international_foot/minute", 1e-14},
    {"ft/h", "international_foot/hour", 1e-14},
    {"ft/day", "international_foot/day", 1e-14},
    {"in/s", "inch/second", 1e-14},
    {"in/min", "inch/minute", 1e-14},
    {"in/h", "inch/hour", 1e-14},
    {"in/day", "inch/day", 1e-14},
    {"mph", "international_mile/hour", 1e-14},
    {"m/s", "meter/second", 1e-15},
    {"cm/s", "centimeter/second", 1e-14},
    {"mm/s", "millimeter/second", 1e-14},
    {"mm/h", "millimeter/hour", 1e-14},
    {"mm/day", "millimeter/day", 1e-14},
    {"m/day", "meter/day", 1e-14},
    {"km/h", "kilometer/hour", 1e-14},
    {"ft/s2", "international_foot/second2", 1e-14},
    {"m/s2", "meter/second2", 1e-15},
    {"gal/h", "231 inch3/hour", 1e-14},
    {"gal/min", "231 inch3/minute", 1e-14},
    {"gal/min", "US_liquid_gallon/minute", 1e-7},
    {"gal/s", "231 inch3/second", 1e-14},
    {"gal/day", "231 inch3/day", 1e-14},
    {"ft3/s", "international_foot3/second", 1e-14},
    {"ft3/min", "international_foot3/minute", 1e-14},
    {"L/s", "liter/second", 1e-14},
    {"L/min", "liter/minute", 1e-14},
    {"L/h", "liter/hour", 1e-14},
    {"m3/h", "meter3/hour", 1e-14},
    {"m3/s", "meter3/second", 1e-15},
    {"gal/h/in", "231 inch2/hour", 1e-14},
    {"gal/h/ft", "231 inch3/hour/international_foot", 1e-14},
    {"gal/min/ft", "231 inch3/minute/international_foot", 1e-14},
    {"gal/min/in", "231 inch2/minute", 1e-14},
    {"L/s/m", "liter/second/meter", 1e-14},
    {"L/min/m", "liter/minute/meter", 1e-14},
    {"m3/h/m", "meter2/hour", 1e-14},
    {"m2/s", "meter2/second", 1e-15},
    {"lb", "pound", 1e-15},
    {"oz", "pound/16", 1e-14},
    {"oz", "avoirdupois_ounce", 1e-6},
    {"ton", "short_ton", 1e-14},
    {"g", "gram", 1e-15},
    {"kg", "kilogram", 1e-15},
    {"t", "metric_ton", 1e-15},
    {"lb/ft3", "pound/international_foot3", 1e-14},
    {"lb/yd3", "pound/international_yard3", 1e-14},
    {"ton/yd3", "short_ton/international_yard3", 1e-14},
    {"lb/gal", "pound/(231 inch3)", 1e-14},
    {"kg/m3", "kilogram/meter3", 1e-15},
    {"g/cm3", "gram/centimeter3", 1e-14},
    {"mg/L", "milligram/liter", 1e-14},
    {"t/m3", "metric_ton/meter3", 1e-14},
    {"lb/ft2", "pound/international_foot2", 1e-14},
    {"oz/yd2", "pound/16/international_yard2", 1e-14},
    {"kg/m2", "kilogram/meter2", 1e-15},
    {"g/m2", "gram/meter2", 1e-14},
    {"lbf", "pound_force", 1e-14},
    {"kip", "1000 pound_force", 1e-14},
    {"N", "newton", 1e-15},
    {"kN", "kilonewton", 1e-15},
    {"lbf/ft", "pound_force/international_foot", 1e-14},
    {"lbf/in", "pound_force/inch", 1e-14},
    {"N/m", "newton/meter", 1e-15},
    {"kN/m", "kilonewton/meter", 1e-15},
    {"psi", "psi", 1e-14},
    {"psf", "pound_force/international_foot2", 1e-14},
    {"ft H2O", "international_foot H2O", 1e-14},
    {"in H2O", "inch H2O", 1e-14},
    {"Pa", "pascal", 1e-15},
    {"kPa", "kilopascal", 1e-15},
    {"MPa", "megapascal", 1e-15},
    {"bar", "bar", 1e-15},
    {"J", "joule", 1e-15},
    {"kJ", "kilojoule", 1e-15},
    {"MJ", "megajoule", 1e-15},
    {"Wh", "watt hour", 1e-14},
    {"kWh", "kilowatt hour", 1e-14},
    {"W", "watt", 1e-15},
    {"kW", "kilowatt", 1e-15},
    {"hp", "550 international_foot pound_force/second", 1e-14},
    {"V", "volt", 1e-15},
    {"mV", "millivolt", 1e-15},
    {"kV", "kilovolt", 1e-15},
    {"A", "ampere", 1e-15},
    {"mA", "milliampere", 1e-15},
    {"degF", "degF", 1e-14},
    {"degC", "degC", 1e-15},
    {"K", "kelvin", 1e-15},
};

// Money, slopes and counts are no physical units, so the library has none of them.
static bool has_no_counterpart(enum dimension dimension) {
  return dimension == DIM_MONEY || dimension == DIM_SLOPE || dimension == DIM_COUNT;
}

static const char *si_of(enum dimension dimension) {
  for (size_t i = 0; i < sizeof si_units / sizeof *si_units; i++) {
    if (si_units[i].dimension == dimension) return si_units[i].si;
  }
  return NULL;
}

// 1e-14 stands for the few roundings of a product of factors; one rounding more than the bare number has.
static void assert_near(const char *what, double found, double expected, double share) {
  double band = fmax(share, 4e-16) * fmax(fabs(expected), 1e-300);
  if (fabs(found - expected) > band) fail_msg("%s: %.17g, expected %.17g", what, found, expected);
}

static void check_against(ut_system *library, const struct unit *unit, const char *udunits, double share) {
  ut_unit *theirs = ut_parse(library, udunits, UT_ASCII), *si = ut_parse(library, si_of(unit->dimension), UT_ASCII);
  if (!theirs || !si)
    fail_msg("%s: udunits does not read \"%s\"", unit->name, theirs ? si_of(unit->dimension) : udunits);
  cv_converter *to_si = ut_get_converter(theirs, si);
  if (!to_si) fail_msg("%s: \"%s\" is no %s", unit->name, udunits, dimension_row(unit->dimension)->name);
  for (double value = -40; value <= 1000; value = value * -3 + 1) {
    assert_near(unit->name, unit_to_si(unit, value), cv_convert_double(to_si, value), share);
  }
  cv_free(to_si);
  ut_free(theirs);
  ut_free(si);
}

static void agrees_with_udunits(void **state) {
  (void)state;
  ut_set_error_message_handler(ut_ignore);
  ut_system *library = ut_read_xml(NULL);
  assert_non_null(library);
  for (size_t i = 0; i < sizeof same / sizeof *same; i++) {
    const struct unit *unit = unit_named(same[i].name, strlen(same[i].name));
    if (!unit) fail_msg("no unit %s", same[i].name);
    check_against(library, unit, same[i].udunits, same[i].share);
  }
  ut_free_system(library);
}

static void every_row_is_checked(void **state) {
  (void)state;
  const struct unit *unit;
  size_t count = 0;
  for (size_t i = 0; (unit = unit_at(i)); i++) {
    bool found = has_no_counterpart(unit->dimension);
    for (size_t k = 0; k < sizeof same / sizeof *same; k++) {
      found = found || (strcmp(same[k].name, unit->name) == 0 && same[k].share < 1e-12);
    }
    if (!found) fail_msg("the row %s is compared with nothing", unit->name);
    count++;
  }
  assert_in_range(count, 100, 1000);
}

static void next_spelling(const char **also, char *spelling, size_t room) {
  size_t length = strcspn(*also, " ");
  assert_in_range(length, 1, room - 1);
  for (size_t i = 0; i < length; i++) spelling[i] = (*also)[i];
  spelling[length] = '\0';
  for (char *at = spelling; *at; at++) *at = *at == '_' ? ' ' : *at;
  *also += length;
  *also += **also == ' ';
}

static void every_spelling_leads_to_its_row(void **state) {
  (void)state;
  const struct unit *unit;
  for (size_t i = 0; (unit = unit_at(i)); i++) {
    char spelling[64];
    assert_ptr_equal(unit_named(unit->name, strlen(unit->name)), unit);
    for (const char *also = unit->also; *also;) {
      next_spelling(&also, spelling, sizeof spelling);
      const struct unit *found = unit_named(spelling, strlen(spelling));
      if (found != unit) fail_msg("%s leads to %s, not to %s", spelling, found ? found->name : "nothing", unit->name);
    }
  }
}

static void assert_named(const char *spelling, const char *name) {
  const struct unit *unit = unit_named(spelling, strlen(spelling));
  if (!unit) fail_msg("%s leads nowhere", spelling);
  assert_string_equal(unit->name, name);
}

static void powers_may_be_written_three_ways(void **state) {
  (void)state;
  assert_named("ft^2", "ft2");
  assert_named("ft²", "ft2");
  assert_named("m³/h", "m3/h");
  assert_named("kg/m^3", "kg/m3");
  assert_named("sq   ft", "ft2");
}

static void near_misses_are_no_units(void **state) {
  (void)state;
  static const char *const words[] = {"",     "i",  "inn",   "FT",    "ft22", "ft^", "^2",
                                      "gal/", "/h", "sq_ft", "sqft ", " ft",  "²"};
  for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
    if (unit_named(words[i], strlen(words[i]))) fail_msg("\"%s\" is taken for a unit", words[i]);
  }
}

// What dimension.def asks to be shown in must be a unit of that dimension.
static void dimensions_name_units_that_exist(void **state) {
  (void)state;
  for (int i = 0; i < DIMENSION_COUNT; i++) {
    const struct dimension_row *row = dimension_row((enum dimension)i);
    const char *const names[] = {row->us, row->si};
    for (size_t k = 0; k < 2; k++) {
      if (*names[k] == '\0') continue;
      const struct unit *unit = unit_named(names[k], strlen(names[k]));
      if (!unit) fail_msg("%s: no unit %s", row->name, names[k]);
      assert_int_equal(unit->dimension, i == DIM_ELEVATION ? DIM_LENGTH : i);
    }
  }
}

// The exact texts of unit_write_exact rest on it.
static void every_dimension_has_a_unit_of_factor_one(void **state) {
  (void)state;
  for (size_t i = 0; i < sizeof si_units / sizeof *si_units; i++) {
    if (si_units[i].dimension == DIM_RATIO) continue;
    int found = 0;
    const struct unit *unit;
    for (size_t k = 0; (unit = unit_at(k)); k++) {
      found += unit->dimension == si_units[i].dimension && unit->factor == 1 && unit->before == 0;
    }
    if (found != 1) fail_msg("%s has %d of them", si_units[i].si, found);
  }
}

static void to_si_and_back(void **state) {
  (void)state;
  const struct unit *unit;
  for (size_t i = 0; (unit = unit_at(i)); i++) {
    for (double value = -7.3; fabs(value) < 1e6; value *= -11) {
      assert_near(unit->name, unit_from_si(unit, unit_to_si(unit, value)), value, unit->before > 0 ? 1e-13 : 1e-15);
    }
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(agrees_with_udunits),
      cmocka_unit_test(every_row_is_checked),
      cmocka_unit_test(every_spelling_leads_to_its_row),
      cmocka_unit_test(powers_may_be_written_three_ways),
      cmocka_unit_test(near_misses_are_no_units),
      cmocka_unit_test(dimensions_name_units_that_exist),
      cmocka_unit_test(every_dimension_has_a_unit_of_factor_one),
      cmocka_unit_test(to_si_and_back),
  };
  return cmocka_run_group_tests_name("units/unit", tests, NULL, NULL);
}
