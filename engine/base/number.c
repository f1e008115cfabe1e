// SPDX-License-Identifier: MIT
#include "base/number.h"

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

__extension__ typedef unsigned __int128 wide;

enum { MOST_DIGITS = 17, MOST_DECIMALS = 31, REPORT_DIGITS = 10 };

// ---- decimal to double ----

static uint64_t power_of_five_low(int n) {
  uint64_t power = 1;
  while (n-- > 0) power *= 5;
  return power;
}

static wide power_of_five(int n) {
  return n <= 27 ? power_of_five_low(n) : (wide)power_of_five_low(27) * power_of_five_low(n - 27);
}

// The double nearest to number * 2^exponent, where `more` says that something under the last bit was left out. number
// has at least 54 bits then, so the bit that stands for the rest lies under the half.
static double nearest_double(wide number, bool more, int exponent) {
  for (int step = 64; step > 0; step /= 2) {
    if (!(number >> (60 + step))) continue;
    more = more || number << (128 - step);
    number >>= step;
    exponent += step;
  }
  uint64_t with_rest = (uint64_t)number << 2 | (more ? 1 : 0);
  return ldexp((double)with_rest, exponent - 2);
}

// digits * 10^exponent, correctly rounded: digits under 2^57, exponent -31 to 30. Of a power of ten only the power of
// five needs arithmetic: 5^31 is under 2^72, so a number filled up to 128 bits leaves a quotient of 54 bits at least.
static double scale_exactly(uint64_t digits, int exponent) {
  if (digits == 0) return 0;
  if (exponent >= 0) return nearest_double(digits * power_of_five(exponent), false, exponent);
  wide number = digits, divisor = power_of_five(-exponent);
  int shift = 0;
  for (int step = 64; step > 0; step /= 2) {
    if (number >> (128 - step)) continue;
    number <<= step;
    shift += step;
  }
  return nearest_double(number / divisor, number % divisor != 0, exponent - shift);
}

// Beyond the exact range the last bit may be off; no length, flow or price comes near it.
static double scale(uint64_t digits, int exponent) {
  int within = exponent < -MOST_DECIMALS ? -MOST_DECIMALS : exponent > 30 ? 30 : exponent;
  double value = scale_exactly(digits, within);
  for (; within > exponent; within--) value /= 10;
  for (; within < exponent; within++) value *= 10;
  return value;
}

// ---- reading ----

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

struct digits_read {
  uint64_t digits;
  int significant;  // counted from the first that is not 0
  int decimals;
};

static void take_digit(struct digits_read *read, char c) {
  if (read->significant > 0 || c != '0') read->significant++;
  if (read->significant <= MOST_DIGITS) read->digits = read->digits * 10 + (uint64_t)(c - '0');
}

static size_t digit_run(const char *from, size_t length) {
  size_t run = 0;
  while (run < length && is_digit(from[run])) run++;
  return run;
}

// Whole part with its commas; SIZE_MAX when a comma does not set off three digits.
static size_t read_whole(const char *from, size_t length, struct digits_read *read) {
  size_t at = digit_run(from, length);
  for (size_t i = 0; i < at; i++) take_digit(read, from[i]);
  bool comma = at > 0 && at + 1 < length && from[at] == ',' && is_digit(from[at + 1]);
  if (comma && at > 3) return SIZE_MAX;
  while (at > 0 && at + 1 < length && from[at] == ',' && is_digit(from[at + 1])) {
    if (digit_run(from + at + 1, length - at - 1) != 3) return SIZE_MAX;
    for (size_t i = 1; i <= 3; i++) take_digit(read, from[at + i]);
    at += 4;
  }
  return at;
}

static size_t read_decimals(const char *from, size_t length, struct digits_read *read) {
  if (length < 2 || from[0] != '.') return 0;
  size_t run = digit_run(from + 1, length - 1);
  for (size_t i = 0; i < run; i++) take_digit(read, from[1 + i]);
  read->decimals = run > MOST_DECIMALS ? MOST_DECIMALS + 1 : (int)run;
  return run ? run + 1 : 0;
}

size_t number_read(const char *from, size_t length, double *value) {
  size_t sign = length > 0 && (from[0] == '+' || from[0] == '-');
  struct digits_read read = {0};
  size_t whole = read_whole(from + sign, length - sign, &read);
  if (whole == SIZE_MAX) return 0;
  size_t rest = read_decimals(from + sign + whole, length - sign - whole, &read);
  if (whole + rest == 0 || read.significant > MOST_DIGITS || read.decimals > MOST_DECIMALS) return 0;
  double size = scale_exactly(read.digits, -read.decimals);
  *value = sign && from[0] == '-' ? -size : size;
  return sign + whole + rest;
}

// ---- double to decimal ----

enum { LIMB = 1000000000, LIMBS = 90, MOST_EXACT = LIMBS * 9 };

// value = 0.d1 d2 d3 ... * 10^point, every digit of it (a double never has more than 767).
struct decimal {
  char digits[MOST_EXACT + 1];
  int count;
  int point;
};

static int multiply(uint32_t *limbs, int used, uint32_t by) {
  uint64_t carry = 0;
  for (int i = 0; i < used; i++) {
    carry += (uint64_t)limbs[i] * by;
    limbs[i] = (uint32_t)(carry % LIMB);
    carry /= LIMB;
  }
  if (carry) limbs[used++] = (uint32_t)carry;
  return used;
}

static int multiply_often(uint32_t *limbs, int used, uint32_t base, int times) {
  while (times > 0) {
    uint32_t by = 1;
    for (int i = 0; i < 12 && times > 0; i++, times--) by *= base;
    used = multiply(limbs, used, by);
  }
  return used;
}

static void limbs_to_digits(const uint32_t *limbs, int used, struct decimal *decimal) {
  int count = 0;
  for (int i = used - 1; i >= 0; i--) {
    for (uint32_t unit = LIMB / 10; unit > 0; unit /= 10) {
      char digit = (char)(limbs[i] / unit % 10);
      if (count > 0 || digit > 0) decimal->digits[count++] = digit;
    }
  }
  decimal->count = count;
}

static void drop_zeros(struct decimal *decimal) {
  while (decimal->count > 0 && decimal->digits[decimal->count - 1] == 0) decimal->count--;
}

// size: finite, not negative. A double is m * 2^e; for e under 0 that is m * 5^-e / 10^-e.
static void decimal_of(double size, struct decimal *decimal) {
  *decimal = (struct decimal){.count = 0};
  if (!(size > 0)) return;
  int exponent;
  uint64_t mantissa = (uint64_t)ldexp(frexp(size, &exponent), 53);
  exponent -= 53;
  uint32_t limbs[LIMBS] = {(uint32_t)(mantissa % LIMB), (uint32_t)(mantissa / LIMB)};
  int used = multiply_often(limbs, 2, exponent < 0 ? 5 : 2, exponent < 0 ? -exponent : exponent);
  limbs_to_digits(limbs, used, decimal);
  decimal->point = decimal->count + (exponent < 0 ? exponent : 0);
  drop_zeros(decimal);
}

// Keeps the first `keep` digits, halves away from zero. keep may be 0 or less: then only a carry can be left.
static void round_to(struct decimal *decimal, int keep) {
  if (keep >= decimal->count) return;
  bool up = keep >= 0 && decimal->digits[keep] >= 5;
  decimal->count = keep > 0 ? keep : 0;
  int at = decimal->count - 1;
  while (up && at >= 0 && decimal->digits[at] == 9) decimal->digits[at--] = 0;
  if (up && at >= 0) decimal->digits[at]++;
  if (up && at < 0) {
    decimal->digits[0] = 1;
    decimal->count = 1;
    decimal->point++;
  }
  drop_zeros(decimal);
}

static double decimal_value(const struct decimal *decimal) {
  uint64_t digits = 0;
  for (int i = 0; i < decimal->count; i++) digits = digits * 10 + (uint64_t)decimal->digits[i];
  return scale(digits, decimal->point - decimal->count);
}

static int within(int value, int least, int most) { return value < least ? least : value > most ? most : value; }

double number_round(double value, int significant) {
  if (!isfinite(value)) return value;
  struct decimal decimal;
  decimal_of(fabs(value), &decimal);
  round_to(&decimal, within(significant, 1, MOST_DIGITS));
  return copysign(decimal_value(&decimal), value);
}

// ---- writing ----

// The digit that stands for 10^place.
static char digit_at(const struct decimal *decimal, int place) {
  int index = decimal->point - 1 - place;
  return (char)('0' + (index >= 0 && index < decimal->count ? decimal->digits[index] : 0));
}

static void write_plain(struct text *text, const struct decimal *decimal, int decimals, bool grouped) {
  for (int place = decimal->point > 1 ? decimal->point - 1 : 0; place >= 0; place--) {
    text_add_char(text, digit_at(decimal, place));
    if (grouped && place > 0 && place % 3 == 0) text_add_char(text, ',');
  }
  if (decimals > 0) text_add_char(text, '.');
  for (int place = -1; place >= -decimals; place--) text_add_char(text, digit_at(decimal, place));
}

static bool write_not_finite(struct text *text, double value) {
  if (isfinite(value)) return false;
  text_add(text, isnan(value) ? "not a number" : value > 0 ? "infinite" : "-infinite");
  return true;
}

static void decimal_to_show(double value, int decimals, struct decimal *decimal) {
  decimal_of(fabs(value), decimal);
  round_to(decimal, REPORT_DIGITS);
  round_to(decimal, decimal->point + decimals);
}

void number_write(struct text *text, double value, int decimals, bool grouped) {
  if (write_not_finite(text, value)) return;
  struct decimal decimal;
  int shown = within(decimals, 0, 15);
  decimal_to_show(value, shown, &decimal);
  if (value < 0 && decimal.count > 0) text_add_char(text, '-');
  write_plain(text, &decimal, shown, grouped);
}

static int decimals_needed(const struct decimal *decimal) {
  return decimal->count > decimal->point ? decimal->count - decimal->point : 0;
}

void number_write_short(struct text *text, double value, int max_decimals, bool grouped) {
  if (write_not_finite(text, value)) return;
  struct decimal decimal;
  decimal_to_show(value, within(max_decimals, 0, 15), &decimal);
  if (value < 0 && decimal.count > 0) text_add_char(text, '-');
  write_plain(text, &decimal, decimal.count ? decimals_needed(&decimal) : 0, grouped);
}

static void write_scientific(struct text *text, const struct decimal *decimal) {
  for (int i = 0; i < decimal->count; i++) {
    if (i == 1) text_add_char(text, '.');
    text_add_char(text, (char)('0' + decimal->digits[i]));
  }
  text_printf(text, "e%d", decimal->point - 1);
}

void number_write_exact(struct text *text, double value) {
  if (write_not_finite(text, value)) return;
  struct decimal whole, shortest;
  decimal_of(fabs(value), &whole);
  // Where scale() is exact the first length that reads back is the shortest one; elsewhere all 17 digits are written.
  bool exact = whole.point >= MOST_DIGITS - MOST_DECIMALS && whole.point <= MOST_DIGITS;
  for (int digits = exact ? 1 : MOST_DIGITS; digits <= MOST_DIGITS; digits++) {
    shortest = whole;
    round_to(&shortest, digits);
    if (decimal_value(&shortest) == fabs(value)) break;
  }
  if (value < 0) text_add_char(text, '-');
  if (exact) {
    write_plain(text, &shortest, shortest.count ? decimals_needed(&shortest) : 0, false);
  } else {
    write_scientific(text, &shortest);
  }
}
