// SPDX-License-Identifier: MIT
// Inside of units/read: a cursor over one value's text, and the pieces it is made of. A function that returns false has
// said what is wrong.
#ifndef FOREBAY_UNITS_READ_SCAN_H
#define FOREBAY_UNITS_READ_SCAN_H

#include <stdbool.h>

#include "base/text.h"
#include "units/unit.h"

struct scan {
  const char *at, *end;
  const char *begin;  // of the value: what a message quotes
  struct text *wrong, *right;
  enum dimension want;  // DIMENSION_COUNT: nothing is asked for
};

bool scan_fail(struct scan *scan, const char *wrong, const char *right);  // always false; right may be NULL
void scan_quote(struct text *text, const char *bytes, const char *end);   // "...", cut when long

void scan_spaces(struct scan *scan);
bool scan_is_done(const struct scan *scan);
bool scan_take(struct scan *scan, const char *words);      // true and past them when they are here
bool scan_take_letter(struct scan *scan, char upper);      // in either case
bool scan_take_word(struct scan *scan, const char *word);  // a whole word
int scan_take_sign(struct scan *scan);                     // -1, 1, or 0 when there is none
bool scan_at_number(const struct scan *scan);              // a digit, a decimal point before one, or a half sign
bool scan_number(struct scan *scan, double *value);        // "2,400", "6 1/2", "6-1/2", "3/8", "6½"; no sign
const struct unit *scan_unit(struct scan *scan);           // longest that fits; NULL: nothing said, cursor unmoved
bool scan_says_unit_fits(struct scan *scan, const struct unit *unit);
// The words that tell what is wrong where a unit should stand, behind the number that ends at number_end.
bool scan_fail_unit(struct scan *scan, const char *number_end);
bool scan_at_tolerance(const struct scan *scan);
bool scan_take_tolerance_mark(struct scan *scan);

// The three forms of a slope; value is the run over each unit of rise.
bool scan_slope(struct scan *scan, double *value);
bool scan_is_slope(const struct scan *scan);  // can be nothing else than a slope
bool scan_slope_of_angle(struct scan *scan, double radians, double *value);

#endif
