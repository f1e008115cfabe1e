// SPDX-License-Identifier: MIT
// Reading and writing against strtod and printf of the C library, "computed with glibc".
#include "base/number.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
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

enum { ROUNDS = 200000 };

static int start(void **state) {
  *state = arena_new();
  return *state == NULL;
}

static int finish(void **state) {
  arena_free(*state);
  return 0;
}

static uint64_t next_random(uint64_t *seed) {
  *seed ^= *seed << 13;
  *seed ^= *seed >> 7;
  *seed ^= *seed << 17;
  return *seed;
}

static double random_double(uint64_t *seed) {
  double value;
  do {
    uint64_t bits = next_random(seed);
    memcpy(&value, &bits, sizeof value);
  } while (!isfinite(value));
  return value;
}

static void assert_same(const char *what, double found, double expected) {
  if (memcmp(&found, &expected, sizeof found) != 0) fail_msg("%s: %.17g, expected %.17g", what, found, expected);
}

// A number as text: sign, up to 17 significant digits, up to 31 decimals.
static void random_decimal(uint64_t *seed, char *text) {
  int digits = 1 + (int)(next_random(seed) % 17), decimals = (int)(next_random(seed) % 32), at = 0;
  if (next_random(seed) % 2) text[at++] = '-';
  char run[64];
  int length = digits > decimals ? digits : decimals + 1;
  for (int i = 0; i < length; i++) {
    run[i] = (char)(i < length - digits ? '0' : '0' + (int)(next_random(seed) % 10));
  }
  for (int i = 0; i < length; i++) {
    if (i == length - decimals) text[at++] = '.';
    text[at++] = run[i];
  }
  text[at] = '\0';
}

static void reads_as_strtod_does(void **state) {
  (void)state;
  uint64_t seed = 88172645463325252u;
  for (int i = 0; i < ROUNDS; i++) {
    char text[80];
    double value;
    random_decimal(&seed, text);
    assert_int_equal(number_read(text, strlen(text), &value), strlen(text));
    assert_same(text, value, strtod(text, NULL));
  }
}

// Half way between two doubles, and a hair beside it: where a careless reader errs.
static void reads_hard_cases(void **state) {
  (void)state;
  static const char *const texts[] = {"9007199254740993",
                                      "9007199254740992.5",
                                      "9007199254740995",
                                      "90071992547409925",
                                      "90071992547409935",
                                      "0.1",
                                      "0.30000000000000004",
                                      "1.0000000000000002",
                                      "0.0000000000000000000000000000001",
                                      "99999999999999999",
                                      "4503599627370497.5",
                                      "4503599627370496.5",
                                      "0"};
  for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
    double value;
    assert_int_equal(number_read(texts[i], strlen(texts[i]), &value), strlen(texts[i]));
    assert_same(texts[i], value, strtod(texts[i], NULL));
  }
}

static void reads_as_much_as_is_a_number(void **state) {
  (void)state;
  static const struct {
    const char *text;
    size_t length;
    double value;
  } rows[] = {
      {"2,400 gal/h", 5, 2400},
      {"1,234,567.25", 12, 1234567.25},
      {"12,345", 6, 12345},
      {"-3", 2, -3},
      {"+3", 2, 3},
      {".5 in", 2, 0.5},
      {"5.", 1, 5},
      {"5.x", 1, 5},
      {"5, 6", 1, 5},
      {"5,x", 1, 5},
      {"1.234,5", 5, 1.234},
      {"1e5", 1, 1},
      {"0x10", 1, 0},
      {"007", 3, 7},
      {"00000000000000000000000000001", 29, 1},
      {"3/8", 1, 3},
      {"0.000", 5, 0},
      {"1.5.5", 3, 1.5},
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
    double value = -99;
    size_t read = number_read(rows[i].text, strlen(rows[i].text), &value);
    if (read != rows[i].length) fail_msg("%s: read %zu", rows[i].text, read);
    assert_same(rows[i].text, value, rows[i].value);
  }
}

static void refuses_what_is_no_number(void **state) {
  (void)state;
  static const char *const texts[] = {"",
                                      "-",
                                      "+",
                                      ".",
                                      "-.",
                                      "x",
                                      ",5",
                                      "nan",
                                      "inf",
                                      "2,40",
                                      "2,4000",
                                      "2400,000",
                                      "1,23,456",
                                      "--1",
                                      "123456789012345678",
                                      "1.00000000000000000000000000000000000001",
                                      "0.00000000000000000000000000000001"};
  for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
    double value;
    size_t read = number_read(texts[i], strlen(texts[i]), &value);
    if (read != 0) fail_msg("\"%s\": read %zu", texts[i], read);
  }
}

static void reads_no_further_than_told(void **state) {
  (void)state;
  double value;
  assert_int_equal(number_read("12345", 2, &value), 2);
  assert_same("12|345", value, 12);
  assert_int_equal(number_read("2,400", 4, &value), 0);
  assert_int_equal(number_read("2,400", 2, &value), 1);
  assert_int_equal(number_read("1.5", 2, &value), 1);
}

static void assert_writes(struct arena *arena, double value, int decimals, bool grouped, const char *expected) {
  struct text text = text_in(arena);
  number_write(&text, value, decimals, grouped);
  if (strcmp(text_end(&text), expected) != 0) fail_msg("%.17g: %s, expected %s", value, text_end(&text), expected);
}

// Up to 10 digits, so that rounding to 10 first changes nothing; a last digit that is never 5, so that no value lies
// half way, where printf goes to the even side.
static void writes_as_printf_does(void **state) {
  uint64_t seed = 1234567;
  static const char ends[] = "12346789";
  for (int i = 0; i < ROUNDS; i++) {
    char decimal[64], expected[400];
    snprintf(decimal, sizeof decimal, "%s%d.%c", next_random(&seed) % 2 ? "-" : "",
             (int)(next_random(&seed) % 100000000), ends[next_random(&seed) % 8]);
    // No more than 15 digits in all: behind those printf shows the binary rest.
    int shift = (int)(next_random(&seed) % 9), decimals = (int)(next_random(&seed) % (uint64_t)(shift + 8));
    double value = strtod(decimal, NULL) / pow(10, shift);
    snprintf(expected, sizeof expected, "%.*f", decimals, value);
    if (strspn(expected, "-0.") == strlen(expected) && *expected == '-')
      memmove(expected, expected + 1, strlen(expected));
    assert_writes(*state, value, decimals, false, expected);
  }
}

static void halves_go_away_from_zero(void **state) {
  struct arena *arena = *state;
  assert_writes(arena, 0.5, 0, false, "1");
  assert_writes(arena, 1.5, 0, false, "2");
  assert_writes(arena, 2.5, 0, false, "3");
  assert_writes(arena, -2.5, 0, false, "-3");
  assert_writes(arena, 0.125, 2, false, "0.13");
  // These doubles lie a hair under the half that was meant; rounding to 10 digits first takes them for the half.
  assert_writes(arena, 0.285, 2, false, "0.29");
  assert_writes(arena, 1.005, 2, false, "1.01");
  assert_writes(arena, -1.005, 2, false, "-1.01");
  assert_writes(arena, 0.1 + 0.2, 15, false, "0.300000000000000");
  assert_writes(arena, 9.9999999999, 3, false, "10.000");
  assert_writes(arena, 0.49999999999, 0, false, "1");
  assert_writes(arena, 0.4999999999, 0, false, "0");
}

static void no_minus_before_nothing(void **state) {
  assert_writes(*state, -0.0, 0, false, "0");
  assert_writes(*state, -0.4, 0, false, "0");
  assert_writes(*state, -0.004, 2, false, "0.00");
  assert_writes(*state, -0.005, 2, false, "-0.01");
}

static void groups_thousands(void **state) {
  assert_writes(*state, 999, 0, true, "999");
  assert_writes(*state, 1000, 0, true, "1,000");
  assert_writes(*state, -1234567.891, 2, true, "-1,234,567.89");
  assert_writes(*state, 999999.9, 0, true, "1,000,000");
  assert_writes(*state, 100000, 0, false, "100000");
  assert_writes(*state, 1e21, 0, true, "1,000,000,000,000,000,000,000");
}

static void not_finite(void **state) {
  assert_writes(*state, NAN, 2, false, "not a number");
  assert_writes(*state, INFINITY, 2, false, "infinite");
  assert_writes(*state, -INFINITY, 2, false, "-infinite");
}

static void short_form_drops_zeros(void **state) {
  static const struct {
    double value;
    int most;
    const char *expected;
  } rows[] = {
      {1.5, 6, "1.5"},   {1.0, 6, "1"}, {0.1 + 0.2, 12, "0.3"}, {1.0 / 3, 3, "0.333"}, {1200, 2, "1,200"},
      {-0.0001, 2, "0"}, {0, 3, "0"},   {0.05, 2, "0.05"},      {99.995, 2, "100"},    {1e-9, 9, "0.000000001"}};
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
    struct text text = text_in(*state);
    number_write_short(&text, rows[i].value, rows[i].most, true);
    assert_string_equal(text_end(&text), rows[i].expected);
  }
}

static size_t significant_digits(const char *text) {
  size_t digits = 0, zeros = 0;
  for (; *text && *text != 'e'; text++) {
    if (*text < '0' || *text > '9' || (*text == '0' && digits == 0)) continue;
    digits++;
    zeros = *text == '0' ? zeros + 1 : 0;
  }
  return digits - zeros;
}

static size_t fewest_digits(double value) {
  char text[64];
  for (int digits = 1; digits < 17; digits++) {
    snprintf(text, sizeof text, "%.*e", digits - 1, value);
    if (strtod(text, NULL) == value) return significant_digits(text);
  }
  return 17;
}

static void exact_form_reads_back(void **state) {
  uint64_t seed = 42;
  for (int i = 0; i < 20000; i++) {
    double value = random_double(&seed);
    struct text text = text_in(*state);
    number_write_exact(&text, value);
    assert_same(text_end(&text), strtod(text_end(&text), NULL), value);
    if (significant_digits(text_end(&text)) > 17) fail_msg("%s has too many digits", text_end(&text));
  }
}

// In the range that designs know: the shortest digits, and number_read reads them too.
static void exact_form_is_short_and_plain(void **state) {
  uint64_t seed = 43;
  for (int i = 0; i < 20000; i++) {
    double value = (double)(next_random(&seed) % 2000000) * pow(10, (int)(next_random(&seed) % 20) - 13);
    if (next_random(&seed) % 4 == 0) value *= 1 + 0x1p-52 * (double)(next_random(&seed) % 1000);
    struct text text = text_in(*state);
    number_write_exact(&text, value);
    double read;
    assert_int_equal(number_read(text_end(&text), text.length, &read), text.length);
    assert_same(text_end(&text), read, value);
    if (value > 0) assert_int_equal(significant_digits(text_end(&text)), fewest_digits(value));
  }
}

static void exact_forms(void **state) {
  static const struct {
    double value;
    const char *expected;
  } rows[] = {{0, "0"},
              {-0.0, "0"},
              {0.1, "0.1"},
              {-2400, "-2400"},
              {1e-14, "0.00000000000001"},
              {1e16, "10000000000000000"},
              {0.1 + 0.2, "0.30000000000000004"},
              {1.5e-20, "1.5000000000000001e-20"},
              {5e-324, "4.9406564584124654e-324"}};
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
    struct text text = text_in(*state);
    number_write_exact(&text, rows[i].value);
    assert_string_equal(text_end(&text), rows[i].expected);
  }
}

// Half way between two numbers of so many digits; printf goes to the even one there.
static bool is_half(double value, int digits) {
  char text[64];
  snprintf(text, sizeof text, "%.*e", digits, value);
  return *(strchr(text, 'e') - 1) == '5' && strtod(text, NULL) == value;
}

static void rounds_as_printf_does(void **state) {
  (void)state;
  uint64_t seed = 44;
  for (int i = 0; i < ROUNDS; i++) {
    double value = ldexp((double)(next_random(&seed) >> 11), (int)(next_random(&seed) % 100) - 100);
    int digits = 1 + (int)(next_random(&seed) % 17);
    char text[64];
    snprintf(text, sizeof text, "%.*e", digits - 1, value);
    if (value < 1e-13 || is_half(value, digits)) continue;  // under the range that is exact
    assert_same(text, number_round(value, digits), strtod(text, NULL));
  }
}

static void rounds_everything_closely(void **state) {
  (void)state;
  uint64_t seed = 45;
  for (int i = 0; i < 20000; i++) {
    double value = random_double(&seed);
    char text[64];
    snprintf(text, sizeof text, "%.9e", value);
    double expected = strtod(text, NULL), found = number_round(value, 10);
    if (!isfinite(expected) || fabs(value) < 1e-290) continue;
    if (fabs(found - expected) > 1e-13 * fabs(expected)) fail_msg("%s: %.17g", text, found);
  }
  assert_same("0", number_round(-0.0, 3), -0.0);
  assert_same("inf", number_round(INFINITY, 3), INFINITY);
  assert_same("half", number_round(2.5, 1), 3);
  assert_same("-half", number_round(-0.125, 2), -0.13);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(reads_as_strtod_does),
      cmocka_unit_test(reads_hard_cases),
      cmocka_unit_test(reads_as_much_as_is_a_number),
      cmocka_unit_test(refuses_what_is_no_number),
      cmocka_unit_test(reads_no_further_than_told),
      cmocka_unit_test_setup_teardown(writes_as_printf_does, start, finish),
      cmocka_unit_test_setup_teardown(halves_go_away_from_zero, start, finish),
      cmocka_unit_test_setup_teardown(no_minus_before_nothing, start, finish),
      cmocka_unit_test_setup_teardown(groups_thousands, start, finish),
      cmocka_unit_test_setup_teardown(not_finite, start, finish),
      cmocka_unit_test_setup_teardown(short_form_drops_zeros, start, finish),
      cmocka_unit_test_setup_teardown(exact_form_reads_back, start, finish),
      cmocka_unit_test_setup_teardown(exact_form_is_short_and_plain, start, finish),
      cmocka_unit_test_setup_teardown(exact_forms, start, finish),
      cmocka_unit_test(rounds_as_printf_does),
      cmocka_unit_test(rounds_everything_closely),
  };
  return cmocka_run_group_tests_name("base/number", tests, NULL, NULL);
}
