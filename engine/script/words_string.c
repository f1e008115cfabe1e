// SPDX-License-Identifier: MIT
// Texts: no patterns and no repeating, because nothing could interrupt them; a format whose result is short.
#include <stdio.h>
#include <string.h>

#include "base/number.h"
#include "script/inside.h"

enum { FORMAT_MOST = 4000, WIDTH_MOST = 99, DECIMALS_MOST = 15, DECIMALS_PLAIN = 6, BYTES_PER_CHARGE = 64 };

struct result {
  char bytes[FORMAT_MOST];
  size_t length;
};

// %[-0+][width][.precision]letter
struct directive {
  bool left, zero, plus;
  int width, precision;  // precision -1: none
  char letter;
};

static void add(lua_State *L, struct result *result, const char *bytes, size_t length) {
  if (length > sizeof result->bytes - result->length)
    script_misuse(L, NULL, "string.format makes at most %d bytes", FORMAT_MOST);
  memcpy(result->bytes + result->length, bytes, length);
  result->length += length;
}

static void add_padding(lua_State *L, struct result *result, char c, size_t count) {
  for (; count; count--) add(L, result, &c, 1);
}

static void add_padded(lua_State *L, struct result *result, const struct directive *how, const char *bytes,
                       size_t length) {
  size_t width = (size_t)how->width, padding = width > length ? width - length : 0;
  size_t sign = how->zero && length && (*bytes == '-' || *bytes == '+');
  if (how->left) {
    add(L, result, bytes, length);
    add_padding(L, result, ' ', padding);
  } else if (how->zero) {
    add(L, result, bytes, sign);
    add_padding(L, result, '0', padding);
    add(L, result, bytes + sign, length - sign);
  } else {
    add_padding(L, result, ' ', padding);
    add(L, result, bytes, length);
  }
}

static int read_count(lua_State *L, const char **at, int most, const char *what) {
  int count = 0;
  for (; **at >= '0' && **at <= '9'; (*at)++) {
    count = count * 10 + (**at - '0');
    if (count > most) script_misuse(L, NULL, "string.format has no %s above %d", what, most);
  }
  return count;
}

static struct directive read_directive(lua_State *L, const char **at) {
  struct directive how = {.precision = -1};
  for (; **at && strchr("-0+", **at); (*at)++) {
    how.left |= **at == '-';
    how.zero |= **at == '0';
    how.plus |= **at == '+';
  }
  how.width = read_count(L, at, WIDTH_MOST, "width");
  if (**at == '.') {
    (*at)++;
    how.precision = read_count(L, at, WIDTH_MOST, "precision");
  }
  how.letter = **at;
  if (how.letter) (*at)++;
  return how;
}

struct fixed {
  double value;
  int decimals;
  bool plus;
};

static void write_fixed(struct text *text, const void *with) {
  const struct fixed *fixed = with;
  if (fixed->plus && fixed->value >= 0) text_add_char(text, '+');
  number_write(text, fixed->value, fixed->decimals, false);
}

static void format_fixed(lua_State *L, struct result *result, struct directive *how, int argument) {
  char words[400];
  struct fixed fixed = {bare_number(L, argument, "shown by %f; %s shows it with its unit"),
                        how->precision < 0 ? DECIMALS_PLAIN : how->precision, how->plus};
  if (fixed.decimals > DECIMALS_MOST)
    script_misuse(L, NULL, "string.format has no precision above %d for numbers", DECIMALS_MOST);
  if (!(fixed.value > -1e300 && fixed.value < 1e300)) script_misuse(L, NULL, "the value for %%f is not a number");
  write_words(L, words, sizeof words, write_fixed, &fixed);
  add_padded(L, result, how, words, strlen(words));
}

static void format_whole(lua_State *L, struct result *result, struct directive *how, int argument) {
  char words[32];
  lua_Integer value = 0;
  double number = bare_number(L, argument, "shown by %d; %s shows it with its unit");
  if (lua_isinteger(L, argument))
    value = lua_tointeger(L, argument);
  else if (!lua_numbertointeger(number, &value) || (double)value < number || (double)value > number)
    script_misuse(L, "%.2f for decimals", "%%d shows whole numbers and was given another");
  int length = snprintf(words, sizeof words, how->plus ? "%+lld" : "%lld", (long long)value);
  add_padded(L, result, how, words, (size_t)length);
}

static void format_text(lua_State *L, struct result *result, struct directive *how, int argument) {
  char buffer[256];
  size_t length;
  luaL_checkany(L, argument);
  const char *words = words_of_value(L, argument, buffer, sizeof buffer, &length);
  if (how->precision >= 0) length = text_cut(words, length, (size_t)how->precision);
  how->zero = false;
  add_padded(L, result, how, words, length);
}

static void format_one(lua_State *L, struct result *result, const char **at, int *argument) {
  struct directive how = read_directive(L, at);
  if (how.letter == '%') {
    add(L, result, "%", 1);
    return;
  }
  (*argument)++;
  if (how.letter == 's')
    format_text(L, result, &how, *argument);
  else if (how.letter == 'd' || how.letter == 'i')
    format_whole(L, result, &how, *argument);
  else if (how.letter == 'f')
    format_fixed(L, result, &how, *argument);
  else
    script_misuse(L, "%s, %d or %.2f", "string.format does not know %%%c",
                  how.letter > ' ' && how.letter < 127 ? how.letter : '?');
}

static int word_format(lua_State *L) {
  struct result result;
  result.length = 0;
  size_t length;
  const char *at = luaL_checklstring(L, 1, &length), *end = at + length;
  int argument = 1;
  while (at < end) {
    const char *percent = memchr(at, '%', (size_t)(end - at));
    const char *stop = percent ? percent : end;
    add(L, &result, at, (size_t)(stop - at));
    at = stop;
    if (!percent) break;
    at++;
    format_one(L, &result, &at, &argument);
  }
  lua_pushlstring(L, result.bytes, result.length);
  return 1;
}

// Letters of ASCII alone, so that no locale has a say.
static int change_case(lua_State *L, char first, char last, int by) {
  size_t length;
  const char *from = luaL_checklstring(L, 1, &length);
  script_charge(L, length / BYTES_PER_CHARGE + 1);
  luaL_Buffer buffer;
  char *to = luaL_buffinitsize(L, &buffer, length);
  for (size_t i = 0; i < length; i++) to[i] = from[i] >= first && from[i] <= last ? (char)(from[i] + by) : from[i];
  luaL_pushresultsize(&buffer, length);
  return 1;
}

static int word_upper(lua_State *L) { return change_case(L, 'a', 'z', 'A' - 'a'); }

static int word_lower(lua_State *L) { return change_case(L, 'A', 'Z', 'a' - 'A'); }

const struct word string_words[] = {{"format", word_format, true}, {"upper", word_upper, false},
                                    {"lower", word_lower, false},  {"sub", NULL, false},
                                    {"len", NULL, false},          {NULL, NULL, false}};
