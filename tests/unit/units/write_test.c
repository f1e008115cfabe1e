// SPDX-License-Identifier: MIT
// Values are given from exact definitions (1 in = 0.0254 m, 1 lb = 0.45359237 kg); expected texts are worked by hand.
#include "units/write.h"

#include <math.h>
#include <string.h>

#include "units/read.h"

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

#define IN 0.0254
#define FT 0.3048
#define LB 0.45359237
#define GPH (231 * IN * IN * IN / 3600)

static int start(void **state) {
  *state = arena_new();
  return *state == NULL;
}

static int finish(void **state) {
  arena_free(*state);
  return 0;
}

struct row {
  double value;
  enum dimension dimension;
  const char *us, *si;
};

static const struct row rows[] = {
    {14.25 * IN, DIM_LENGTH, "14 1/4 in", "362 mm"},
    {14.3 * IN, DIM_LENGTH, "14 1/4 in", "363 mm"},
    {14.5 * IN, DIM_LENGTH, "14 1/2 in", "368 mm"},
    {0.75 * IN, DIM_LENGTH, "3/4 in", "19 mm"},
    {0, DIM_LENGTH, "0 in", "0 mm"},
    {12 * IN, DIM_LENGTH, "12 in", "305 mm"},
    {35.95 * IN, DIM_LENGTH, "36 in", "913 mm"},
    {3 * FT, DIM_LENGTH, "3 ft", "914 mm"},
    {36 * IN, DIM_LENGTH, "3 ft", "914 mm"},
    {4 * FT + 6.5 * IN, DIM_LENGTH, "4 ft 6 1/2 in", "1.38 m"},
    {4 * FT + 11.8 * IN, DIM_LENGTH, "5 ft", "1.52 m"},
    {19 * FT + 0.5 * IN, DIM_LENGTH, "19 ft 1/2 in", "5.80 m"},
    {25 * FT + 3.6 * IN, DIM_LENGTH, "25 ft 4 in", "7.71 m"},
    {1234 * FT, DIM_LENGTH, "1,234 ft", "376.12 m"},
    {0.01 * IN, DIM_LENGTH, "1/64 in", "0.3 mm"},
    {IN / 16, DIM_LENGTH, "1/16 in", "2 mm"},
    {1.3 * IN, DIM_LENGTH, "1 5/16 in", "33 mm"},
    {1.98 * IN, DIM_LENGTH, "2 in", "50 mm"},
    {2.3 * IN, DIM_LENGTH, "2 1/4 in", "58 mm"},
    {-2.25 * IN, DIM_LENGTH, "-2 1/4 in", "-57 mm"},
    {-4 * IN, DIM_ELEVATION, "-4 in", "-102 mm"},
    {1 * FT + 3.375 * IN, DIM_ELEVATION, "+1 ft 3 3/8 in", "+391 mm"},
    {-(1 * FT + 6 * IN), DIM_ELEVATION, "-1 ft 6 in", "-457 mm"},
    {0, DIM_ELEVATION, "0 in", "0 mm"},
    {44 * IN, DIM_ELEVATION, "+3 ft 8 in", "+1.118 m"},
    {2400 * GPH, DIM_FLOW, "2,400 gal/h", "2.5 L/s"},
    {1526 * GPH, DIM_FLOW, "1,530 gal/h", "1.6 L/s"},
    {240 * GPH, DIM_FLOW, "240 gal/h", "0.25 L/s"},
    {3 * GPH, DIM_FLOW, "3 gal/h", "0.003 L/s"},
    {109 * GPH / IN, DIM_FLOW_PER_LENGTH, "109 gal/h/in", "4.51 L/s/m"},
    {500 * 231 * IN * IN * IN, DIM_VOLUME, "500 gal", "1.89 m3"},
    {50 * 231 * IN * IN * IN, DIM_VOLUME, "50 gal", "189 L"},
    {45 * LB, DIM_MASS, "45 lb", "20 kg"},
    {1934 * LB, DIM_MASS, "1,930 lb", "877 kg"},
    {2900 * LB, DIM_MASS, "1.5 ton", "1.3 t"},
    {0.3 * LB, DIM_MASS, "0.3 lb", "0.1 kg"},
    {165 * LB / (FT * FT * FT), DIM_DENSITY, "165 lb/ft3", "2,643 kg/m3"},
    {1.5, DIM_SLOPE, "1.5H:1V", "1.5H:1V"},
    {0, DIM_SLOPE, "upright", "upright"},
    {0.001, DIM_SLOPE, "0.001H:1V", "0.001H:1V"},
    {0.59341194567807206, DIM_ANGLE, "34 deg from level", "34 deg from level"},
    {0.425, DIM_RATIO, "0.43", "0.43"},
    {-0.001, DIM_RATIO, "-0.001", "-0.001"},
    {9.987, DIM_RATIO, "9.99", "9.99"},
    {13.08, DIM_RATIO, "13.1", "13.1"},
    {821.56, DIM_RATIO, "822", "822"},
    {-821.56, DIM_RATIO, "-822", "-822"},
    {1234.5, DIM_RATIO, "1,235", "1,235"},
    {3, DIM_COUNT, "3", "3"},
    {2.5, DIM_COUNT, "2.5", "2.5"},
    {288.70555555555555, DIM_TEMPERATURE, "60 degF", "16 degC"},
    {273.15 - 40, DIM_TEMPERATURE, "-40 degF", "-40 degC"},
    {273.15, DIM_TEMPERATURE, "32 degF", "0 degC"},
    {1200.5, DIM_MONEY, "$1,200.50", "$1,200.50"},
    {-5, DIM_MONEY, "-$5.00", "-$5.00"},
    {110, DIM_POWER, "110 W", "110 W"},
    {45, DIM_TIME, "45 s", "45 s"},
    {900, DIM_TIME, "15 min", "15 min"},
    {5 * 3600, DIM_TIME, "5.0 h", "5.0 h"},
    {3 * 86400, DIM_TIME, "3.0 day", "3.0 day"},
    {315576000, DIM_TIME, "10 yr", "10 yr"},
    {1.1 * FT * FT, DIM_AREA, "1.1 ft2", "0.10 m2"},
    {60 * FT * FT, DIM_AREA, "60 ft2", "5.57 m2"},
    {2 * IN * IN, DIM_AREA, "2.0 in2", "12.9 cm2"},
    {2.5 * 231 * IN * IN * IN, DIM_VOLUME, "2.5 gal", "9 L"},
    {5 * FT, DIM_SPEED, "5.00 ft/s", "1.52 m/s"},
    {NAN, DIM_LENGTH, "not known", "not known"},
    {INFINITY, DIM_FLOW, "without end", "without end"},
    {-INFINITY, DIM_RATIO, "-without end", "-without end"},
};

static const char *written(struct arena *arena, double value, enum dimension dimension, struct write_style style) {
  struct text text = text_in(arena);
  unit_write(&text, value, dimension, style);
  return text_end(&text);
}

static void writes_for_people(void **state) {
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
    const struct row *row = &rows[i];
    assert_string_equal(written(*state, row->value, row->dimension, (struct write_style){.system = UNITS_US}), row->us);
    assert_string_equal(written(*state, row->value, row->dimension, (struct write_style){.system = UNITS_SI}), row->si);
  }
}

static void writes_in_the_unit_asked_for(void **state) {
  static const struct {
    double value;
    enum dimension dimension;
    const char *unit;
    int finer;
    const char *expected;
  } asked[] = {
      {6.9 * FT, DIM_LENGTH, "ft", 0, "6.9 ft"},
      {82.8 * IN, DIM_LENGTH, "in", 0, "82 3/4 in"},
      {2.3 * IN, DIM_LENGTH, "in", 2, "2 5/16 in"},
      {1.3 * IN, DIM_LENGTH, "in", 2, "1 19/64 in"},
      {0.42, DIM_RATIO, "%", 0, "42 %"},
      {0.42, DIM_RATIO, "%", 1, "42.0 %"},
      {3, DIM_VOLUME, "yd3", 0, "3.9 yd3"},
      {2900 * LB, DIM_MASS, "lb", 0, "2,900 lb"},
      {2904 * LB, DIM_MASS, "lb", 1, "2,904 lb"},
      {2400 * GPH, DIM_FLOW, "gal/min", 0, "40.0 gal/min"},
      {1526 * GPH, DIM_FLOW, "gal/h", 1, "1,526 gal/h"},
      {1.5, DIM_LENGTH, "mm", 0, "1,500 mm"},
      {0.01, DIM_ELEVATION, "m", 0, "+0.010 m"},
      {900, DIM_TIME, "min", 0, "15 min"},
  };
  for (size_t i = 0; i < sizeof asked / sizeof *asked; i++) {
    const struct unit *unit = unit_named(asked[i].unit, strlen(asked[i].unit));
    assert_string_equal(written(*state, asked[i].value, asked[i].dimension,
                                (struct write_style){.unit = unit, .finer = asked[i].finer}),
                        asked[i].expected);
  }
}

static void bores_in_decimals(void **state) {
  // ASTM D1785, schedule 40: 1 1/2 in is 1.610 in wide inside, 2 in is 2.067 in (as in the catalogue's table).
  const struct unit *inch = unit_named("in", 2), *millimetre = unit_named("mm", 2);
  const struct write_style us = {.unit = inch, .decimal = true};
  assert_string_equal(written(*state, 1.610 * IN, DIM_LENGTH, us), "1.61 in");
  assert_string_equal(written(*state, 2.067 * IN, DIM_LENGTH, us), "2.07 in");
  assert_string_equal(written(*state, 40 * IN, DIM_LENGTH, (struct write_style){.decimal = true}), "40.00 in");
  const struct write_style si = {.system = UNITS_SI, .unit = millimetre, .decimal = true};
  assert_string_equal(written(*state, 1.610 * IN, DIM_LENGTH, si), "41 mm");
}

static void finer_steps(void **state) {
  static const char *const inches[] = {"14 1/4 in", "14 3/8 in", "14 5/16 in", "14 11/32 in", "14 21/64 in"};
  static const char *const tons[] = {"1.5 ton", "1.45 ton", "1.452 ton"};
  for (int finer = 0; finer < 5; finer++) {
    assert_string_equal(written(*state, 14.33 * IN, DIM_LENGTH, (struct write_style){.finer = finer}), inches[finer]);
  }
  for (int finer = 0; finer < 3; finer++) {
    assert_string_equal(written(*state, 2904 * LB, DIM_MASS, (struct write_style){.finer = finer}), tons[finer]);
  }
  assert_string_equal(written(*state, 14 * IN, DIM_LENGTH, (struct write_style){.finer = 1000}), "14 in");
  assert_string_equal(written(*state, 14 * IN, DIM_LENGTH, (struct write_style){.finer = -5}), "14 in");
}

static void a_value_beside_its_limit(void **state) {
  static const struct {
    double value, limit;
    enum dimension dimension;
    enum unit_system system;
    const char *value_text, *limit_text;
  } pairs[] = {
      {14 * IN, 18 * IN, DIM_LENGTH, UNITS_US, "14 in", "18 in"},
      {11.95 * IN, 12 * IN, DIM_LENGTH, UNITS_US, "11 15/16 in", "12 in"},
      {35.99 * IN, 36 * IN, DIM_LENGTH, UNITS_US, "35 63/64 in", "3 ft"},
      {12 * IN * (1 + 1e-12), 12 * IN, DIM_LENGTH, UNITS_US, "12 in", "12 in"},
      {-4.01 * IN, -4 * IN, DIM_ELEVATION, UNITS_US, "-4 1/64 in", "-4 in"},
      {1996 * LB, 2000 * LB, DIM_MASS, UNITS_US, "1,996 lb", "2,000 lb"},
      {0.95, 1.2, DIM_LENGTH, UNITS_SI, "950 mm", "1,200 mm"},
      {0.799, 0.8, DIM_RATIO, UNITS_US, "0.799", "0.800"},
      {1.4999, 1.5, DIM_SLOPE, UNITS_US, "1.4999H:1V", "1.5H:1V"},
      {3 * GPH, 0, DIM_FLOW, UNITS_US, "3 gal/h", "0 gal/h"},
      {1504 * GPH, 1500 * GPH, DIM_FLOW, UNITS_US, "1,504 gal/h", "1,500 gal/h"},
      {821.56, 2, DIM_RATIO, UNITS_US, "822", "2.00"},
      {18.7 * 231 * IN * IN * IN, 0, DIM_VOLUME, UNITS_US, "19 gal", "0 gal"},
      {NAN, 1, DIM_RATIO, UNITS_US, "not known", "1.00"},
      {1 + 1e-8, 1, DIM_RATIO, UNITS_US, "1.00000001", "1.00000000"},
  };
  for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
    struct text value = text_in(*state), limit = text_in(*state);
    unit_write_pair(&value, &limit, pairs[i].value, pairs[i].limit, pairs[i].dimension,
                    (struct write_style){.system = pairs[i].system});
    assert_string_equal(text_end(&value), pairs[i].value_text);
    assert_string_equal(text_end(&limit), pairs[i].limit_text);
  }
}

static void how_far_two_are_apart(void **state) {
  static const struct {
    double value, limit;
    enum dimension dimension;
    const char *unit;
    const char *value_text, *limit_text, *apart_text;
  } apart_rows[] = {
      {0.1538, 1.0 / 6, DIM_RATIO, "%", "15.4 %", "16.7 %", "1.3 %"},
      {1.0 / 12, 1.0 / 6, DIM_RATIO, "%", "8 %", "17 %", "9 %"},
      {0.0667, 0.3333, DIM_RATIO, "", "0.07", "0.33", "0.26"},
      {821.56, 2, DIM_RATIO, "", "822", "2.00", "820"},
      {6 * IN, 12 * IN, DIM_LENGTH, "in", "6 in", "12 in", "6 in"},
      {0.7 * IN, 12.3 * IN, DIM_LENGTH, "in", "11/16 in", "12 1/4 in", "11 9/16 in"},
      {11.8 * IN, 12 * IN, DIM_LENGTH, "in", "11 3/4 in", "12 in", "1/4 in"},
      {40.2 * IN, 5.3 * IN, DIM_LENGTH, NULL, "3 ft 4 in", "5 1/4 in", "34 3/4 in"},
      {-4 * IN, 2 * IN, DIM_ELEVATION, NULL, "-4 in", "+2 in", "6 in"},
      {1934 * LB, 1900 * LB, DIM_MASS, NULL, "1,934 lb", "1,900 lb", "34 lb"},
      {3000 * LB, 2400 * LB, DIM_MASS, NULL, "1.5 ton", "1.2 ton", "600 lb"},
      {1.2446, 1.2192, DIM_LENGTH, "mm", "1,244.6 mm", "1,219.2 mm", "25.4 mm"},
      {273.15 + 30, 273.15 + 20, DIM_TEMPERATURE, "degC", "30.0 degC", "20.0 degC", "10.0 degC"},
  };
  for (size_t i = 0; i < sizeof apart_rows / sizeof *apart_rows; i++) {
    struct text value = text_in(*state), limit = text_in(*state), apart = text_in(*state);
    struct write_style style = {.unit = apart_rows[i].unit ? unit_named(apart_rows[i].unit, strlen(apart_rows[i].unit))
                                                           : NULL};
    unit_write_apart(&value, &limit, &apart, apart_rows[i].value, apart_rows[i].limit, apart_rows[i].dimension, style);
    assert_string_equal(text_end(&value), apart_rows[i].value_text);
    assert_string_equal(text_end(&limit), apart_rows[i].limit_text);
    assert_string_equal(text_end(&apart), apart_rows[i].apart_text);
  }
}

static double read_back(struct arena *arena, const char *text, enum dimension dimension) {
  struct text wrong = text_in(arena), right = text_in(arena);
  struct reading reading;
  if (!unit_read(text, strlen(text), dimension, &reading, &wrong, &right)) fail_msg("%s: %s", text, text_end(&wrong));
  return reading.value;
}

static uint64_t next_random(uint64_t *seed) {
  *seed ^= *seed << 13;
  *seed ^= *seed >> 7;
  *seed ^= *seed << 17;
  return *seed;
}

// Any bits in the last places, sizes from `least` up over so many powers of ten.
static double random_size(uint64_t *seed, int least, int powers) {
  double part = 1 + (double)(next_random(seed) >> 12) * 0x1p-52;
  return part * pow(10, least + (int)(next_random(seed) % (uint64_t)powers));
}

static void exact_texts_read_back(void **state) {
  uint64_t seed = 99;
  for (int i = 0; i < 10000; i++) {
    enum dimension dimension = (enum dimension)(next_random(&seed) % DIMENSION_COUNT);
    enum unit_system system = next_random(&seed) % 2 ? UNITS_US : UNITS_SI;
    double value = random_size(&seed, -8, 14);
    if (dimension == DIM_COUNT) value = floor(value);
    if (dimension == DIM_ANGLE) value = fmod(value, 1.5);
    bool signs = dimension != DIM_SLOPE && dimension != DIM_TEMPERATURE && dimension != DIM_ANGLE;
    if (signs && next_random(&seed) % 2) value = -value;
    struct text text = text_in(*state);
    unit_write_exact(&text, value, dimension, system);
    double found = read_back(*state, text_end(&text), dimension);
    if (found != value) fail_msg("%s: %.17g, was %.17g", text_end(&text), found, value);
  }
}

static void exact_texts_are_what_people_write(void **state) {
  static const struct {
    const char *text;
    enum dimension dimension;
    enum unit_system system;
  } kept[] = {
      {"30 in", DIM_LENGTH, UNITS_US},
      {"2 ft", DIM_LENGTH, UNITS_US},
      {"14.25 in", DIM_LENGTH, UNITS_US},
      {"13 ft", DIM_LENGTH, UNITS_US},
      {"-4 in", DIM_ELEVATION, UNITS_US},
      {"2400 gal/h", DIM_FLOW, UNITS_US},
      {"165 lb/ft3", DIM_DENSITY, UNITS_US},
      {"8200 lb", DIM_MASS, UNITS_US},
      {"500 mm", DIM_LENGTH, UNITS_SI},
      {"2 L/s", DIM_FLOW, UNITS_SI},
      {"55 degF", DIM_TEMPERATURE, UNITS_US},
      {"$120", DIM_MONEY, UNITS_US},
      {"0.4", DIM_RATIO, UNITS_US},
      {"3", DIM_COUNT, UNITS_US},
      {"1.5H:1V", DIM_SLOPE, UNITS_US},
      {"upright", DIM_SLOPE, UNITS_US},
      {"34 deg from level", DIM_ANGLE, UNITS_US},
      {"0 in", DIM_ELEVATION, UNITS_US},
  };
  for (size_t i = 0; i < sizeof kept / sizeof *kept; i++) {
    struct text text = text_in(*state);
    double value = read_back(*state, kept[i].text, kept[i].dimension);
    unit_write_exact(&text, value, kept[i].dimension, kept[i].system);
    assert_string_equal(text_end(&text), kept[i].text);
  }
}

// What is printed adds up: the three texts, read back, are each other's difference.
static void what_is_printed_adds_up(void **state) {
  static const enum dimension dimensions[] = {DIM_LENGTH, DIM_ELEVATION, DIM_RATIO, DIM_MASS,
                                              DIM_FLOW,   DIM_VOLUME,    DIM_AREA,  DIM_SPEED};
  static const double largest[] = {30, 5, 900, 5000, 0.02, 20, 90, 9};
  uint64_t seed = 17;
  for (int i = 0; i < 20000; i++) {
    size_t k = next_random(&seed) % (sizeof dimensions / sizeof *dimensions);
    double value = (double)(next_random(&seed) >> 11) * 0x1p-53 * largest[k];
    double limit = (double)(next_random(&seed) >> 11) * 0x1p-53 * (i % 2 ? largest[k] : 2 * value);
    struct text texts[3] = {text_in(*state), text_in(*state), text_in(*state)};
    struct write_style style = {.system = next_random(&seed) % 2 ? UNITS_US : UNITS_SI};
    unit_write_apart(&texts[0], &texts[1], &texts[2], value, limit, dimensions[k], style);
    enum dimension apart_in = dimensions[k] == DIM_ELEVATION ? DIM_LENGTH : dimensions[k];
    double shown = fabs(read_back(*state, text_end(&texts[0]), dimensions[k]) -
                        read_back(*state, text_end(&texts[1]), dimensions[k]));
    double apart = read_back(*state, text_end(&texts[2]), apart_in);
    if (fabs(shown - apart) > 1e-8 * fmax(value, limit))
      fail_msg("%s, %s: %s", text_end(&texts[0]), text_end(&texts[1]), text_end(&texts[2]));
  }
}

// The step that a text promises: read back it is within half of it.
static void texts_read_back_within_their_step(void **state) {
  static const struct {
    enum dimension dimension;
    enum unit_system system;
    double from, to, step;
  } promises[] = {
      {DIM_LENGTH, UNITS_US, 0.1 * IN, 2 * IN, IN / 16},
      {DIM_LENGTH, UNITS_US, 2 * IN, 3 * FT, IN / 4},
      {DIM_LENGTH, UNITS_US, 3 * FT, 20 * FT, IN / 2},
      {DIM_LENGTH, UNITS_US, 20 * FT, 500 * FT, IN},
      {DIM_LENGTH, UNITS_SI, 0.01, 1, 0.001},
      {DIM_LENGTH, UNITS_SI, 1, 200, 0.01},
      {DIM_ELEVATION, UNITS_US, 0.2 * IN, 30 * FT, IN / 8},
      {DIM_ELEVATION, UNITS_SI, 0.01, 10, 0.001},
      {DIM_FLOW, UNITS_US, 10 * GPH, 90000 * GPH, 10 * GPH},
      {DIM_FLOW, UNITS_SI, 1e-5, 0.999e-3, 1e-5},
      {DIM_FLOW, UNITS_SI, 1e-3, 0.1, 1e-4},
      {DIM_MASS, UNITS_US, LB, 99.4 * LB, LB},
      {DIM_MASS, UNITS_US, 100 * LB, 1990 * LB, 10 * LB},
      {DIM_MASS, UNITS_US, 2000 * LB, 90000 * LB, 200 * LB},
      {DIM_MASS, UNITS_SI, 1, 999, 1},
      {DIM_MASS, UNITS_SI, 1000, 50000, 100},
      {DIM_VOLUME, UNITS_SI, 0.001, 0.999, 0.001},
      {DIM_SLOPE, UNITS_US, 0.02, 60, 0.01},
      {DIM_RATIO, UNITS_US, 0.01, 5, 0.01},
      {DIM_MONEY, UNITS_US, 0.01, 1e6, 0.01},
      {DIM_TEMPERATURE, UNITS_SI, 240, 330, 1},
  };
  uint64_t seed = 5;
  for (int i = 0; i < 20000; i++) {
    size_t k = next_random(&seed) % (sizeof promises / sizeof *promises);
    double share = (double)(next_random(&seed) >> 11) * 0x1p-53;
    double value = promises[k].from + share * (promises[k].to - promises[k].from);
    if (promises[k].dimension == DIM_ELEVATION && next_random(&seed) % 2) value = -value;
    const char *text =
        written(*state, value, promises[k].dimension, (struct write_style){.system = promises[k].system});
    double found = read_back(*state, text, promises[k].dimension);
    // A report rounds to 10 digits before it rounds to the step.
    if (fabs(found - value) > promises[k].step * 0.5 + 1e-9 * fabs(value))
      fail_msg("%s: %.17g, was %.17g", text, found, value);
  }
}

static void powers_without_a_name(void **state) {
  static const struct {
    double value;
    struct powers powers;
    const char *expected;
  } unnamed[] = {
      {12.4444, {.length = 4, .time = -1}, "12.44 m4/s"},
      {1e6, {.length = -4, .time = -1}, "1,000,000 1/m4/s"},
      {2, {.mass = 1, .length = 2, .time = -2, .current = -1}, "2 kg m2/s2/A"},
      {0.5, {.money = 1, .length = -3}, "0.5 $/m3"},
      {9, {.temperature = 1}, "9 K"},
      {7, {.tag = 1}, "7"},
  };
  for (size_t i = 0; i < sizeof unnamed / sizeof *unnamed; i++) {
    struct text text = text_in(*state);
    unit_write_powers(&text, unnamed[i].value, unnamed[i].powers);
    assert_string_equal(text_end(&text), unnamed[i].expected);
  }
}

// Every value of every dimension gives some text, in each system and as fine as may be.
static void nothing_stops_it(void **state) {
  uint64_t seed = 11;
  for (int i = 0; i < 3000; i++) {
    double value;
    uint64_t bits = next_random(&seed);
    memcpy(&value, &bits, sizeof value);
    struct text text = text_in(*state), limit = text_in(*state);
    enum dimension dimension = (enum dimension)(next_random(&seed) % DIMENSION_COUNT);
    struct write_style style = {.system = next_random(&seed) % 2 ? UNITS_US : UNITS_SI,
                                .finer = (int)(next_random(&seed) % 9)};
    unit_write(&text, value, dimension, style);
    unit_write_pair(&text, &limit, value, nextafter(value, 0), dimension, style);
    unit_write_exact(&text, value, dimension, style.system);
    assert_true(text.length > 0 && limit.length > 0);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(writes_for_people, start, finish),
      cmocka_unit_test_setup_teardown(writes_in_the_unit_asked_for, start, finish),
      cmocka_unit_test_setup_teardown(bores_in_decimals, start, finish),
      cmocka_unit_test_setup_teardown(finer_steps, start, finish),
      cmocka_unit_test_setup_teardown(a_value_beside_its_limit, start, finish),
      cmocka_unit_test_setup_teardown(how_far_two_are_apart, start, finish),
      cmocka_unit_test_setup_teardown(exact_texts_read_back, start, finish),
      cmocka_unit_test_setup_teardown(exact_texts_are_what_people_write, start, finish),
      cmocka_unit_test_setup_teardown(what_is_printed_adds_up, start, finish),
      cmocka_unit_test_setup_teardown(texts_read_back_within_their_step, start, finish),
      cmocka_unit_test_setup_teardown(powers_without_a_name, start, finish),
      cmocka_unit_test_setup_teardown(nothing_stops_it, start, finish),
  };
  return cmocka_run_group_tests_name("units/write", tests, NULL, NULL);
}
