// SPDX-License-Identifier: MIT
// Expected values are products worked by hand from the exact definitions 1 in = 25.4 mm, 1 gal = 231 in3 and
// 1 lb = 0.45359237 kg; degrees of temperature from 0 degC = 273.15 K = 32 degF.
#include "units/read.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

#define ANY DIMENSION_COUNT
#define NONE NAN

static int start(void **state) {
  *state = arena_new();
  return *state == NULL;
}

static int finish(void **state) {
  arena_free(*state);
  return 0;
}

static bool read(struct arena *arena, const char *text, size_t length, enum dimension want, struct reading *reading,
                 const char **wrong, const char **right) {
  struct text said = text_in(arena), proposed = text_in(arena);
  // A copy of just that length: reading past it is then seen by the sanitizers.
  char *bytes = malloc(length ? length : 1);
  memcpy(bytes, text, length);
  bool done = want == ANY ? unit_read_any(bytes, length, reading, &said, &proposed)
                          : unit_read(bytes, length, want, reading, &said, &proposed);
  free(bytes);
  *wrong = text_end(&said);
  *right = text_end(&proposed);
  return done;
}

static void assert_near(const char *text, const char *what, double found, double expected) {
  if (isnan(expected) ? isnan(found) : fabs(found - expected) <= 4e-16 * fabs(expected)) return;
  fail_msg("%s: %s %.17g, expected %.17g", text, what, found, expected);
}

struct right_row {
  const char *text;
  enum dimension want;
  double value, tolerance;
  enum dimension says;
};

static const struct right_row right_rows[] = {
    // lengths as they are written on site
    {"30 in", DIM_LENGTH, 0.762, NONE, DIM_LENGTH},
    {"30in", DIM_LENGTH, 0.762, NONE, DIM_LENGTH},
    {"  30 in ", DIM_LENGTH, 0.762, NONE, DIM_LENGTH},
    {"30 in.", DIM_LENGTH, 0.762, NONE, DIM_LENGTH},
    {"30\"", DIM_LENGTH, 0.762, NONE, DIM_LENGTH},
    {"30″", DIM_LENGTH, 0.762, NONE, DIM_LENGTH},
    {"4 ft 6 1/2 in", DIM_LENGTH, 1.3843, NONE, DIM_LENGTH},
    {"4ft6in", DIM_LENGTH, 1.3716, NONE, DIM_LENGTH},
    {"4 feet 6 inches", DIM_LENGTH, 1.3716, NONE, DIM_LENGTH},
    {"4'6\"", DIM_LENGTH, 1.3716, NONE, DIM_LENGTH},
    {"4' 6 1/2\"", DIM_LENGTH, 1.3843, NONE, DIM_LENGTH},
    {"4'-6\"", DIM_LENGTH, 1.3716, NONE, DIM_LENGTH},
    {"4' - 6 1/2\"", DIM_LENGTH, 1.3843, NONE, DIM_LENGTH},
    {"4ft-6in", DIM_LENGTH, 1.3716, NONE, DIM_LENGTH},
    {"6-1/2 in", DIM_LENGTH, 0.1651, NONE, DIM_LENGTH},
    {"6½ in", DIM_LENGTH, 0.1651, NONE, DIM_LENGTH},
    {"½\"", DIM_LENGTH, 0.0127, NONE, DIM_LENGTH},
    {"3/8 in", DIM_LENGTH, 0.009525, NONE, DIM_LENGTH},
    {"1 1/2 in", DIM_LENGTH, 0.0381, NONE, DIM_LENGTH},
    {".5 in", DIM_LENGTH, 0.0127, NONE, DIM_LENGTH},
    {"1,234.5 mm", DIM_LENGTH, 1.2345, NONE, DIM_LENGTH},
    {"2 yd 1 ft 3 in", DIM_LENGTH, 2.2098, NONE, DIM_LENGTH},
    {"0 in", DIM_LENGTH, 0, NONE, DIM_LENGTH},
    // heights
    {"-4 in", DIM_ELEVATION, -0.1016, NONE, DIM_ELEVATION},
    {"-1 ft 6 in", DIM_ELEVATION, -0.4572, NONE, DIM_ELEVATION},
    {"- 1 ft 6 in", DIM_ELEVATION, -0.4572, NONE, DIM_ELEVATION},
    {"−4 in", DIM_ELEVATION, -0.1016, NONE, DIM_ELEVATION},
    {"+1 ft 3 3/8 in", DIM_ELEVATION, 0.390525, NONE, DIM_ELEVATION},
    {"-4 in +/- 1/8 in", DIM_ELEVATION, -0.1016, 0.003175, DIM_ELEVATION},
    // tolerances
    {"18 in +/- 2 in", DIM_LENGTH, 0.4572, 0.0508, DIM_LENGTH},
    {"18 in ± 1/2 in", DIM_LENGTH, 0.4572, 0.0127, DIM_LENGTH},
    {"18 in +- 2 in", DIM_LENGTH, 0.4572, 0.0508, DIM_LENGTH},
    {"18in+/-2in", DIM_LENGTH, 0.4572, 0.0508, DIM_LENGTH},
    {"18in±2in", DIM_LENGTH, 0.4572, 0.0508, DIM_LENGTH},
    {"18 in +/- 10 %", DIM_LENGTH, 0.4572, 0.04572, DIM_LENGTH},
    {"-18 in +/- 10 %", DIM_LENGTH, -0.4572, 0.04572, DIM_LENGTH},
    {"18 in +/- 0 in", DIM_LENGTH, 0.4572, 0, DIM_LENGTH},
    {"6 ft +/- 1 ft 2 in", DIM_LENGTH, 1.8288, 0.3556, DIM_LENGTH},
    {"60 degF +/- 9 degF", DIM_TEMPERATURE, 288.70555555555555, 5, DIM_TEMPERATURE},
    {"40 % +/- 5 %", DIM_RATIO, 0.4, 0.05, DIM_RATIO},
    {"0.4 +/- 0.05", DIM_RATIO, 0.4, 0.05, DIM_RATIO},
    {"12 +/- 1", DIM_COUNT, 12, 1, DIM_COUNT},
    {"$120 +/- $10", DIM_MONEY, 120, 10, DIM_MONEY},
    {"2H:1V +/- 10 %", DIM_SLOPE, 2, 0.2, DIM_SLOPE},
    // other dimensions
    {"2,400 gal/h", DIM_FLOW, 0.00252360785600, NONE, DIM_FLOW},
    {"40 gpm", DIM_FLOW, 0.00252360785600, NONE, DIM_FLOW},
    {"60 gal/h/in", DIM_FLOW_PER_LENGTH, 231 * 0.0254 * 0.0254 / 60, NONE, DIM_FLOW_PER_LENGTH},
    {"500 gal", DIM_VOLUME, 1.892705892, NONE, DIM_VOLUME},
    {"60 sq ft", DIM_AREA, 5.5741824, NONE, DIM_AREA},
    {"10 cu yd", DIM_VOLUME, 7.64554857984, NONE, DIM_VOLUME},
    {"12 ton", DIM_MASS, 10886.21688, NONE, DIM_MASS},
    {"5 lb 8 oz", DIM_MASS, 2.494758035, NONE, DIM_MASS},
    {"165 lb/ft^3", DIM_DENSITY, 165 * 0.45359237 / (0.3048 * 0.3048 * 0.3048), NONE, DIM_DENSITY},
    {"15 min", DIM_TIME, 900, NONE, DIM_TIME},
    {"1 h 30 min", DIM_TIME, 5400, NONE, DIM_TIME},
    {"10 yr", DIM_TIME, 315576000, NONE, DIM_TIME},
    {"32 degF", DIM_TEMPERATURE, 273.15, NONE, DIM_TEMPERATURE},
    {"-40 °F", DIM_TEMPERATURE, 233.15, NONE, DIM_TEMPERATURE},
    {"20 °C", DIM_TEMPERATURE, 293.15, NONE, DIM_TEMPERATURE},
    {"120 V", DIM_VOLTAGE, 120, NONE, DIM_VOLTAGE},
    {"5 %", DIM_RATIO, 0.05, NONE, DIM_RATIO},
    {"0.4", DIM_RATIO, 0.4, NONE, DIM_RATIO},
    {"-0.4", DIM_RATIO, -0.4, NONE, DIM_RATIO},
    {"1/3", DIM_RATIO, 1.0 / 3, NONE, DIM_RATIO},
    {"3", DIM_COUNT, 3, NONE, DIM_COUNT},
    {"$120", DIM_MONEY, 120, NONE, DIM_MONEY},
    {"-$1,200.50", DIM_MONEY, -1200.5, NONE, DIM_MONEY},
    {"$-5", DIM_MONEY, -5, NONE, DIM_MONEY},
    {"120 dollars", DIM_MONEY, 120, NONE, DIM_MONEY},
    {"180 deg", DIM_ANGLE, 3.14159265358979323846, NONE, DIM_ANGLE},
    {"45 deg from level", DIM_ANGLE, 0.78539816339744830962, NONE, DIM_ANGLE},
    // slopes: the run over each unit of rise; the cotangent of 34 deg to 30 digits, "computed with mpmath"
    {"1.5H:1V", DIM_SLOPE, 1.5, NONE, DIM_SLOPE},
    {"1V:1.5H", DIM_SLOPE, 1.5, NONE, DIM_SLOPE},
    {"3/4H:1V", DIM_SLOPE, 0.75, NONE, DIM_SLOPE},
    {"1.5 h : 1 v", DIM_SLOPE, 1.5, NONE, DIM_SLOPE},
    {"3H:2V", DIM_SLOPE, 1.5, NONE, DIM_SLOPE},
    {"0H:1V", DIM_SLOPE, 0, NONE, DIM_SLOPE},
    {"34 deg from level", DIM_SLOPE, 1.4825609685127402548, NONE, DIM_SLOPE},
    {"90 deg from level", DIM_SLOPE, 0, NONE, DIM_SLOPE},
    {"upright", DIM_SLOPE, 0, NONE, DIM_SLOPE},
    {"2 %", DIM_SLOPE, 50, NONE, DIM_SLOPE},
    // nothing asked for
    {"30 in", ANY, 0.762, NONE, DIM_LENGTH},
    {"2,400 gal/h", ANY, 0.00252360785600, NONE, DIM_FLOW},
    {"5 %", ANY, 0.05, NONE, DIM_RATIO},
    {"$5", ANY, 5, NONE, DIM_MONEY},
    {"1.5H:1V", ANY, 1.5, NONE, DIM_SLOPE},
    {"upright", ANY, 0, NONE, DIM_SLOPE},
    {"90 deg from level", ANY, 0, NONE, DIM_SLOPE},
    {"180 deg", ANY, 3.14159265358979323846, NONE, DIM_ANGLE},
    {"6 in ± 1 in", ANY, 0.1524, 0.0254, DIM_LENGTH},
};

static void reads_what_people_write(void **state) {
  for (size_t i = 0; i < sizeof right_rows / sizeof *right_rows; i++) {
    const struct right_row *row = &right_rows[i];
    struct reading reading;
    const char *wrong, *right;
    if (!read(*state, row->text, strlen(row->text), row->want, &reading, &wrong, &right)) {
      fail_msg("%s: %s", row->text, wrong);
    }
    assert_near(row->text, "value", reading.value, row->value);
    assert_near(row->text, "tolerance", reading.tolerance, row->tolerance);
    assert_int_equal(reading.dimension, row->says);
    assert_string_equal(wrong, "");
    assert_string_equal(right, "");
  }
}

struct wrong_row {
  const char *text;
  enum dimension want;
  const char *wrong, *right;
};

static const struct wrong_row wrong_rows[] = {
    {"", DIM_LENGTH, "is empty", "2 ft 6 in"},
    {"  \t ", DIM_LENGTH, "is empty", "2 ft 6 in"},
    {"nan", DIM_LENGTH, "does not begin with a number", "2 ft 6 in"},
    {"NaN", DIM_RATIO, "does not begin with a number", "0.4 or 40 %"},
    {"inf", DIM_COUNT, "does not begin with a number", "3"},
    {"infinity in", DIM_LENGTH, "does not begin with a number", "2 ft 6 in"},
    {"-", DIM_LENGTH, "does not begin with a number", "2 ft 6 in"},
    {"--3 in", DIM_LENGTH, "does not begin with a number", "2 ft 6 in"},
    {"about 3 in", DIM_LENGTH, "does not begin with a number", "2 ft 6 in"},
    // units
    {"30", DIM_LENGTH, "has no unit", "30 in or 30 ft"},
    {"-30", DIM_ELEVATION, "has no unit", "-30 in or -30 ft"},
    {"4 ft 6", DIM_LENGTH, "has no unit", "4 ft 6 in"},
    {"2,400", DIM_FLOW, "has no unit", "2,400 gal/h or 2,400 L/s"},
    {"120", DIM_VOLTAGE, "has no unit", "120 V"},
    {"1,200", DIM_MONEY, "has no unit", "$1,200"},
    {"30", ANY, "has no unit", "a number with its unit, as in 30 in"},
    {"5 gal", DIM_LENGTH, "gal is a volume, a length is asked for", "2 ft 6 in"},
    {"30 in", DIM_FLOW, "in is a length, a flow is asked for", "2,400 gal/h"},
    {"200 lb", DIM_FORCE, "lb is a weight (mass), a force is asked for", "200 lbf"},
    {"5 %", DIM_LENGTH, "% is a ratio, a length is asked for", "2 ft 6 in"},
    {"5 in", DIM_COUNT, "in is a length, a count is asked for", "3"},
    {"4 ft 6 gal", DIM_LENGTH, "gal is a volume, a length is asked for", "2 ft 6 in"},
    {"5 inn", DIM_LENGTH, "\"inn\" is no unit that is known here", "5 in"},
    {"5 gal/hh", DIM_FLOW, "\"gal/hh\" is no unit that is known here", "5 gal/h"},
    {"-5 IN", DIM_ELEVATION, "\"IN\" is no unit that is known here", "-5 in"},
    {"5 furlongs", DIM_LENGTH, "\"furlongs\" is no unit that is known here", "2 ft 6 in"},
    {"1e5 in", DIM_LENGTH, "\"e5\" is no unit that is known here", "2 ft 6 in"},
    {"0x10 in", DIM_LENGTH, "\"x10\" is no unit that is known here", "2 ft 6 in"},
    {"5 abcdefghijklmnopqrstuvwxyzabcdefghijklmnopqrstuvwxyz", DIM_LENGTH,
     "\"abcdefghijklmnopqrstuvwxyzabcdefghijklmn...\" is no unit that is known here", "2 ft 6 in"},
    // numbers
    {"2,40 gal/h", DIM_FLOW, "has a comma that does not set off three digits", "2,400 or 2.4"},
    {"24000,000 gal/h", DIM_FLOW, "has a comma that does not set off three digits", "2,400 or 2.4"},
    {"123456789012345678 in", DIM_LENGTH, "has a number with more digits than anything can be measured to",
     "2 ft 6 in"},
    {"1/0 in", DIM_LENGTH, "has a fraction over 0", "1/2 in"},
    {"1 1/0 in", DIM_LENGTH, "has a fraction over 0", "6 1/2 in"},
    {"1 2/2 in", DIM_LENGTH, "has a fraction of 1 or more behind a whole number", "6 1/2 in"},
    {"1 3/2 in", DIM_LENGTH, "has a fraction of 1 or more behind a whole number", "6 1/2 in"},
    {"2.5", DIM_COUNT, "is a count, so it must be a whole number", "3"},
    // order and rest
    {"6 in 4 ft", DIM_LENGTH, "has ft after in; the larger unit comes first, each once", "2 ft 6 in"},
    {"6 in 4 in", DIM_LENGTH, "has in after in; the larger unit comes first, each once", "2 ft 6 in"},
    {"5 gal/h 3 gal/min", DIM_FLOW, "holds two values", "2,400 gal/h"},
    {"4 ft -6 in", DIM_LENGTH, "has a sign in the middle; one sign in front holds for all of it", "2 ft 6 in"},
    {"4 ft + 6 in", DIM_LENGTH, "has a sign in the middle; one sign in front holds for all of it", "2 ft 6 in"},
    {"4 ft apples", DIM_LENGTH, "goes on with \"apples\" behind the value", "2 ft 6 in"},
    {"4 ft, 6 in", DIM_LENGTH, "goes on with \", 6 in\" behind the value", "2 ft 6 in"},
    {"3 in +/- 1 in +/- 1 in", DIM_LENGTH, "goes on with \"+/- 1 in\" behind the value", "2 ft 6 in"},
    {"0.4 x", DIM_RATIO, "\"x\" is no unit that is known here", "0.4 or 40 %"},
    {"$5 each", DIM_MONEY, "goes on with \"each\" behind the value", "$120"},
    // tolerances
    {"18 in +/- 2", DIM_LENGTH, "has a tolerance without a unit",
     "the unit behind the tolerance too, as in 18 in +/- 2 in"},
    {"18 in +/- -2 in", DIM_LENGTH, "has a tolerance under nothing", "a tolerance of 0 or more"},
    {"18 in +/-", DIM_LENGTH, "has no number behind the +/-", "18 in +/- 2 in"},
    {"18 in +/- some", DIM_LENGTH, "has no number behind the +/-", "18 in +/- 2 in"},
    {"18 in +/- 2 gal", DIM_LENGTH, "gal is a volume, a length is asked for", "2 ft 6 in"},
    {"-4 in +/- 10 %", DIM_ELEVATION,
     "has a tolerance that is a share, which means nothing for a height over the site datum",
     "the tolerance with a unit, as in 18 in +/- 2 in"},
    {"2H:1V +/- 0.1", DIM_SLOPE, "has a tolerance that is no share of the slope", "1.5H:1V +/- 10 %"},
    // slopes
    {"1:1.5", DIM_SLOPE, "does not say which figure is the run (H) and which the rise (V)",
     "1H:1.5V (56 deg from level) or 1V:1.5H (34 deg from level)"},
    {"1:1", DIM_SLOPE, "does not say which figure is the run (H) and which the rise (V)", "1H:1V"},
    {"1:2", ANY, "does not say which figure is the run (H) and which the rise (V)",
     "1H:2V (63 deg from level) or 1V:2H (27 deg from level)"},
    {"1H:2H", DIM_SLOPE, "names the same side of the slope twice", "1.5H:1V"},
    {"1H:", DIM_SLOPE, "has no figure after the colon", "1.5H:1V"},
    {"34 deg", DIM_SLOPE, "does not say from where the angle is taken", "34 deg from level"},
    {"120 deg from level", DIM_SLOPE, "is no slope between level and upright",
     "an angle over 0 and up to 90 deg from level"},
    {"0 deg from level", DIM_SLOPE, "is level ground, which rises nowhere and so has no slope to give",
     "2 % or 1.5H:1V"},
    {"level", DIM_SLOPE, "is level ground, which rises nowhere and so has no slope to give", "2 % or 1.5H:1V"},
    {"0 %", DIM_SLOPE, "is level ground, which rises nowhere and so has no slope to give", "2 % or 1.5H:1V"},
    {"1H:0V", DIM_SLOPE, "is level ground, which rises nowhere and so has no slope to give", "2 % or 1.5H:1V"},
    {"-2 %", DIM_SLOPE, "is a slope under nothing", "1.5H:1V, 34 deg from level, upright or 2 %"},
    {"2", DIM_SLOPE, "does not say what sort of slope it is", "1.5H:1V, 34 deg from level, upright or 2 %"},
    {"3 ft", DIM_SLOPE, "ft is a length, a slope is asked for", "1.5H:1V, 34 deg from level, upright or 2 %"},
    {"uprightish", DIM_SLOPE, "does not begin with a number", "1.5H:1V, 34 deg from level, upright or 2 %"},
    // bytes
    {"3\n in", DIM_LENGTH, "holds characters that cannot be printed", "2 ft 6 in"},
    {"3 in\x7F", DIM_LENGTH, "holds characters that cannot be printed", "2 ft 6 in"},
    {"3 \xFFin", DIM_LENGTH, "holds characters that cannot be printed", "2 ft 6 in"},
};

static void says_what_is_wrong_and_what_is_right(void **state) {
  for (size_t i = 0; i < sizeof wrong_rows / sizeof *wrong_rows; i++) {
    const struct wrong_row *row = &wrong_rows[i];
    struct reading reading = {.value = 17};
    const char *wrong, *right;
    if (read(*state, row->text, strlen(row->text), row->want, &reading, &wrong, &right)) {
      fail_msg("%s was read as %g", row->text, reading.value);
    }
    if (strcmp(wrong, row->wrong) != 0) fail_msg("%s: %s", row->text, wrong);
    if (strcmp(right, row->right) != 0) fail_msg("%s: write %s", row->text, right);
    assert_true(reading.value > 16.5 && reading.value < 17.5);
  }
}

static void embedded_nul(void **state) {
  struct reading reading;
  const char *wrong, *right;
  assert_false(read(*state, "30 in\0", 6, DIM_LENGTH, &reading, &wrong, &right));
  assert_string_equal(wrong, "holds characters that cannot be printed");
  assert_false(read(*state, "3\0 in", 5, DIM_LENGTH, &reading, &wrong, &right));
  assert_string_equal(wrong, "holds characters that cannot be printed");
}

static void four_hundred_digits(void **state) {
  char text[410];
  memset(text, '7', 400);
  memcpy(text + 400, " in", 4);
  struct reading reading;
  const char *wrong, *right;
  assert_false(read(*state, text, strlen(text), DIM_LENGTH, &reading, &wrong, &right));
  assert_string_equal(wrong, "has a number with more digits than anything can be measured to");
  memset(text, '0', 399);
  assert_true(read(*state, text, strlen(text), DIM_LENGTH, &reading, &wrong, &right));
  assert_near("zeros and a 7", "value", reading.value, 0.1778);
}

// The examples that messages propose must be right themselves.
static void examples_of_dimensions_read(void **state) {
  for (int i = 0; i < DIMENSION_COUNT; i++) {
    char example[80];
    const char *from = dimension_row((enum dimension)i)->example;
    while (*from) {
      size_t length = strcspn(from, ",");
      if (strlen(from) > 3 && from[1] == ',') length = strlen(from);  // 2,400: the comma is no separator
      const char *either = strstr(from, " or ");
      if (either && (size_t)(either - from) < length) length = (size_t)(either - from);
      memcpy(example, from, length);
      struct reading reading;
      const char *wrong, *right;
      if (!read(*state, example, length, (enum dimension)i, &reading, &wrong, &right)) {
        fail_msg("%.*s: %s", (int)length, example, wrong);
      }
      from += length;
      from += strncmp(from, " or ", 4) == 0 ? 4 : strncmp(from, ", ", 2) == 0 ? 2 : 0;
    }
  }
}

static unsigned next_random(unsigned *seed) {
  *seed = *seed * 1664525u + 1013904223u;
  return *seed >> 8;
}

// Pieces thrown together at random: whatever comes, there is a reading or there are words for both texts.
static void anything_is_answered(void **state) {
  static const char *const pieces[] = {"3",     "1/2", "2,400",      ".", "-",  "+/-", "±",    "%",   "in",
                                       "ft",    "'",   "\"",         " ", "H",  ":",   "1V",   "deg", "$",
                                       "level", "gal", "from level", "½", "/h", "°F",  "\xC2", "\x01"};
  unsigned seed = 7;
  for (int round = 0; round < 20000; round++) {
    struct text text = text_in(*state);
    unsigned count = next_random(&seed) % 8;
    for (unsigned i = 0; i < count; i++) text_add(&text, pieces[next_random(&seed) % (sizeof pieces / sizeof *pieces)]);
    struct reading reading;
    const char *wrong, *right;
    enum dimension want = (enum dimension)(next_random(&seed) % (DIMENSION_COUNT + 1));
    bool done = read(*state, text_end(&text), text.length, want, &reading, &wrong, &right);
    if (done ? !isfinite(reading.value) || *wrong : !*wrong || !*right) fail_msg("\"%s\": %s", text_end(&text), wrong);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(reads_what_people_write, start, finish),
      cmocka_unit_test_setup_teardown(says_what_is_wrong_and_what_is_right, start, finish),
      cmocka_unit_test_setup_teardown(embedded_nul, start, finish),
      cmocka_unit_test_setup_teardown(four_hundred_digits, start, finish),
      cmocka_unit_test_setup_teardown(examples_of_dimensions_read, start, finish),
      cmocka_unit_test_setup_teardown(anything_is_answered, start, finish),
  };
  return cmocka_run_group_tests_name("units/read", tests, NULL, NULL);
}
