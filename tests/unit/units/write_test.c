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
    assert_string_equal(written(*state, row->value, row->dimension, (struct write_style){UNITS_US, NULL, 0}), row->us);
    assert_string_equal(written(*state, row->value, row->dimension, (struct write_style){UNITS_SI, NULL, 0}), row->si);
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
      {1.3 * IN, DIM_LENGTH, "in", 2, "1 5/16 in"},
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
    assert_string_equal(
        written(*state, asked[i].value, asked[i].dimension, (struct write_style){UNITS_US, unit, asked[i].finer}),
        asked[i].expected);
  }
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
      {NAN, 1, DIM_RATIO, UNITS_US, "not known", "1.00"},
      {1 + 1e-8, 1, DIM_RATIO, UNITS_US, "1.00000001", "1.00000000"},
  };
  for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
    struct text value = text_in(*state), limit = text_in(*state);
    unit_write_pair(&value, &limit, pairs[i].value, pairs[i].limit, pairs[i].dimension,
                    (struct write_style){pairs[i].system, NULL, 0});
    assert_string_equal(text_end(&value), pairs[i].value_text);
    assert_string_equal(text_end(&limit), pairs[i].limit_text);
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

// The step that a text promises: read back it is within half of it.
static void texts_read_back_within_their_step(void **state) {
  static const struct {
    enum dimension dimension;
    enum unit_system system;
    double from, to, step;
  } promises[] = {
      {DIM_LENGTH, UNITS_US, 1 * IN, 3 * FT, IN / 4},
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
    const char *text = written(*state, value, promises[k].dimension, (struct write_style){promises[k].system, NULL, 0});
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
    struct write_style style = {next_random(&seed) % 2 ? UNITS_US : UNITS_SI, NULL, (int)(next_random(&seed) % 9)};
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
      cmocka_unit_test_setup_teardown(finer_steps, start, finish),
      cmocka_unit_test_setup_teardown(a_value_beside_its_limit, start, finish),
      cmocka_unit_test_setup_teardown(exact_texts_read_back, start, finish),
      cmocka_unit_test_setup_teardown(exact_texts_are_what_people_write, start, finish),
      cmocka_unit_test_setup_teardown(texts_read_back_within_their_step, start, finish),
      cmocka_unit_test_setup_teardown(powers_without_a_name, start, finish),
      cmocka_unit_test_setup_teardown(nothing_stops_it, start, finish),
  };
  return cmocka_run_group_tests_name("units/write", tests, NULL, NULL);
}
