// SPDX-License-Identifier: MIT
#include "units/read_scan.h"

#include <string.h>

#include "base/number.h"

enum { LONGEST_QUOTE = 40, LONGEST_UNIT = 40, LONGEST_FRACTION = 6, MOST_WORDS = 1024 };

// ---- saying what is wrong ----

bool scan_fail(struct scan *scan, const char *wrong, const char *right) {
  text_add(scan->wrong, wrong);
  if (right) text_add(scan->right, right);
  return false;
}

void scan_quote(struct text *text, const char *bytes, const char *end) {
  size_t length = (size_t)(end - bytes), shown = text_cut(bytes, length, LONGEST_QUOTE);
  text_add_char(text, '"');
  text_add_bytes(text, bytes, shown);
  text_add(text, shown < length ? "...\"" : "\"");
}

// ---- small steps ----

static bool is_digit(char c) { return c >= '0' && c <= '9'; }
static bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
static bool is_space(char c) { return c == ' ' || c == '\t'; }

static size_t left(const struct scan *scan) { return (size_t)(scan->end - scan->at); }

bool scan_is_done(const struct scan *scan) { return scan->at == scan->end; }

void scan_spaces(struct scan *scan) {
  while (!scan_is_done(scan) && is_space(*scan->at)) scan->at++;
}

static bool stands_at(const struct scan *scan, const char *words) {
  size_t length = strlen(words);
  return length <= left(scan) && memcmp(scan->at, words, length) == 0;
}

bool scan_take(struct scan *scan, const char *words) {
  if (!stands_at(scan, words)) return false;
  scan->at += strlen(words);
  return true;
}

bool scan_take_letter(struct scan *scan, char upper) {
  bool here = !scan_is_done(scan) && (*scan->at == upper || *scan->at == upper - 'A' + 'a');
  if (here) scan->at++;
  return here;
}

bool scan_take_word(struct scan *scan, const char *word) {
  struct scan after = *scan;
  if (!scan_take(&after, word) || (!scan_is_done(&after) && is_letter(*after.at))) return false;
  scan->at = after.at;
  return true;
}

int scan_take_sign(struct scan *scan) {
  if (scan_take(scan, "+")) return 1;
  return scan_take(scan, "-") || scan_take(scan, "−") ? -1 : 0;
}

static const char *const tolerance_marks[] = {"+/-", "±", "+-", "+/−"};

bool scan_take_tolerance_mark(struct scan *scan) {
  for (size_t i = 0; i < sizeof tolerance_marks / sizeof *tolerance_marks; i++) {
    if (scan_take(scan, tolerance_marks[i])) return true;
  }
  return false;
}

bool scan_at_tolerance(const struct scan *scan) {
  struct scan ahead = *scan;
  return scan_take_tolerance_mark(&ahead);
}

// ---- numbers ----

static const struct {
  const char *sign;
  double value;
} fraction_signs[] = {{"½", 0.5},   {"¼", 0.25},  {"¾", 0.75},    {"⅛", 0.125},  {"⅜", 0.375},
                      {"⅝", 0.625}, {"⅞", 0.875}, {"⅓", 1 / 3.0}, {"⅔", 2 / 3.0}};

static bool take_fraction_sign(struct scan *scan, double *value) {
  for (size_t i = 0; i < sizeof fraction_signs / sizeof *fraction_signs; i++) {
    if (!scan_take(scan, fraction_signs[i].sign)) continue;
    *value = fraction_signs[i].value;
    return true;
  }
  return false;
}

bool scan_at_number(const struct scan *scan) {
  double ignored;
  struct scan ahead = *scan;
  if (scan_is_done(scan)) return false;
  if (is_digit(scan->at[0]) || (left(scan) > 1 && scan->at[0] == '.' && is_digit(scan->at[1]))) return true;
  return take_fraction_sign(&ahead, &ignored);
}

// A few digits that end where no digit follows; 0 of them: not one.
static size_t take_few_digits(struct scan *scan, double *value) {
  size_t count = 0;
  *value = 0;
  for (; !scan_is_done(scan) && is_digit(*scan->at); scan->at++, count++) *value = *value * 10 + (*scan->at - '0');
  return count <= LONGEST_FRACTION ? count : 0;
}

// "3/8" with nothing but digits in it; a fraction sign too.
static bool take_fraction(struct scan *scan, double *over, double *under) {
  struct scan ahead = *scan;
  *under = 1;
  bool taken = take_fraction_sign(&ahead, over);
  if (!taken) taken = take_few_digits(&ahead, over) && scan_take(&ahead, "/") && take_few_digits(&ahead, under);
  if (taken) scan->at = ahead.at;
  return taken;
}

static bool fail_figure(struct scan *scan) {
  const char *at = scan->at;
  bool commas = false;
  size_t digits = 0;
  for (; at < scan->end && (is_digit(*at) || *at == ',' || *at == '.'); at++) {
    commas = commas || *at == ',';
    digits += is_digit(*at);
  }
  if (digits > 17) return scan_fail(scan, "has a number with more digits than anything can be measured to", NULL);
  if (commas) return scan_fail(scan, "has a comma that does not set off three digits", "2,400 or 2.4");
  return scan_fail(scan, "has a number that cannot be read", NULL);
}

static bool take_whole_and_fraction(struct scan *scan, double *value) {
  size_t read = number_read(scan->at, left(scan), value);
  if (read == 0) return fail_figure(scan);
  scan->at += read;
  struct scan ahead = *scan;
  double over, under;
  if (!scan_take(&ahead, "-")) scan_spaces(&ahead);
  if (!take_fraction(&ahead, &over, &under)) return true;
  if (under == 0) return scan_fail(scan, "has a fraction over 0", "6 1/2 in");
  if (over >= under) return scan_fail(scan, "has a fraction of 1 or more behind a whole number", "6 1/2 in");
  *value += over / under;
  scan->at = ahead.at;
  return true;
}

bool scan_number(struct scan *scan, double *value) {
  double over, under;
  if (!scan_at_number(scan)) return scan_fail(scan, "does not begin with a number", NULL);
  if (!take_fraction(scan, &over, &under)) return take_whole_and_fraction(scan, value);
  if (under == 0) return scan_fail(scan, "has a fraction over 0", "1/2 in");
  *value = over / under;
  return true;
}

// ---- units ----

// "4ft6in": the digits after a unit's letters begin the next part when letters or a mark follow them.
static bool begins_next_part(struct scan ahead) {
  double ignored;
  if (scan_is_done(&ahead) || !is_digit(*ahead.at) || number_read(ahead.at, left(&ahead), &ignored) == 0) return false;
  while (!scan_is_done(&ahead) && (is_digit(*ahead.at) || strchr("./, ", *ahead.at))) ahead.at++;
  return !scan_is_done(&ahead) && (is_letter(*ahead.at) || strchr("'\"", *ahead.at));
}

static bool ends_here(const struct scan *after) {
  char last = after->at[-1];
  if (scan_is_done(after) || !(is_letter(last) || is_digit(last))) return true;
  if (is_digit(*after->at)) return begins_next_part(*after);
  if (is_letter(*after->at) || strchr("/^_*", *after->at)) return false;
  return (unsigned char)*after->at < 0x80 || scan_at_tolerance(after);
}

// "6 in.": the point belongs to the short form.
static void skip_point(struct scan *scan) {
  struct scan ahead = *scan;
  if (is_letter(scan->at[-1]) && scan_take(&ahead, ".") && !scan_at_number(&ahead) &&
      (scan_is_done(&ahead) || is_space(*ahead.at))) {
    scan->at = ahead.at;
  }
}

const struct unit *scan_unit(struct scan *scan) {
  size_t longest = left(scan) < LONGEST_UNIT ? left(scan) : LONGEST_UNIT;
  for (size_t length = longest; length > 0; length--) {
    struct scan after = *scan;
    after.at += length;
    const struct unit *unit = ends_here(&after) ? unit_named(scan->at, length) : NULL;
    if (!unit) continue;
    scan->at = after.at;
    skip_point(scan);
    return unit;
  }
  return NULL;
}

static bool fits(enum dimension want, enum dimension dimension) {
  return want == DIMENSION_COUNT || want == dimension || (want == DIM_ELEVATION && dimension == DIM_LENGTH);
}

bool scan_says_unit_fits(struct scan *scan, const struct unit *unit) {
  if (fits(scan->want, unit->dimension)) return true;
  text_printf(scan->wrong, "%s is %s, %s is asked for", unit->name, dimension_row(unit->dimension)->says,
              dimension_row(scan->want)->says);
  return false;
}

static size_t collect_names(const char **words, enum dimension want) {
  size_t count = 0;
  const struct unit *unit;
  for (size_t i = 0; (unit = unit_at(i)) && count < MOST_WORDS; i++) {
    if (fits(want, unit->dimension)) words[count++] = unit->name;
  }
  return count;
}

// The unit that was likely meant: of what is asked for, else of anything.
static const char *nearest_unit(enum dimension want, const char *written) {
  const char *words[MOST_WORDS];
  const char *near = text_nearest(written, words, collect_names(words, want));
  return near ? near : text_nearest(written, words, collect_names(words, DIMENSION_COUNT));
}

static void suggest(struct scan *scan, const char *number_end, const char *unit) {
  if (scan->right->length > 0) text_add(scan->right, " or ");
  text_add_bytes(scan->right, scan->begin, (size_t)(number_end - scan->begin));
  text_printf(scan->right, " %s", unit);
}

static bool suggest_money(struct scan *scan, const char *number_end) {
  text_add_char(scan->right, '$');
  text_add_bytes(scan->right, scan->begin, (size_t)(number_end - scan->begin));
  return false;
}

static bool fail_no_unit(struct scan *scan, const char *number_end) {
  text_add(scan->wrong, "has no unit");
  if (scan->want == DIMENSION_COUNT || *dimension_row(scan->want)->us == '\0') return false;
  if (scan->want == DIM_MONEY) return suggest_money(scan, number_end);
  const struct dimension_row *row = dimension_row(scan->want);
  bool is_length = scan->want == DIM_LENGTH || scan->want == DIM_ELEVATION;
  const char *us = is_length ? "in" : row->us, *other = is_length ? "ft" : row->si;
  bool has_feet = number_end - scan->begin > 3 && memchr(scan->begin, 'f', (size_t)(number_end - scan->begin));
  suggest(scan, number_end, us);
  if (strcmp(us, other) != 0 && !has_feet) suggest(scan, number_end, other);
  return false;
}

bool scan_fail_unit(struct scan *scan, const char *number_end) {
  if (scan_is_done(scan) || scan_at_tolerance(scan)) return fail_no_unit(scan, number_end);
  struct scan token = *scan;
  while (!scan_is_done(&token) && !is_space(*token.at) && !scan_at_tolerance(&token)) token.at++;
  scan_quote(scan->wrong, scan->at, token.at);
  text_add(scan->wrong, " is no unit that is known here");
  struct text written = text_in(scan->wrong->arena);
  text_add_bytes(&written, scan->at, (size_t)(token.at - scan->at));
  const char *near = nearest_unit(scan->want, text_end(&written));
  if (near) suggest(scan, number_end, near);
  return false;
}
