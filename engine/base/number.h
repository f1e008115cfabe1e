// SPDX-License-Identifier: MIT
// Reading and writing numbers, the same in every locale.
#ifndef FOREBAY_BASE_NUMBER_H
#define FOREBAY_BASE_NUMBER_H

#include <stddef.h>

#include "base/text.h"

// Reads an optional sign, digits with optional thousands commas ("2,400"), an optional decimal part. Correctly rounded.
// Returns how many bytes were read; 0 when no number starts here, or it has more than 17 significant digits or 31
// decimals (what number_write_exact needs), or a comma that does not separate three digits ("2,40").
size_t number_read(const char *from, size_t length, double *value);

// value rounded to a number of significant digits (1..17), halves away from zero. Reports round to 10 first, so that
// machines whose last bits differ still print alike.
double number_round(double value, int significant);

// Fixed decimals (0..15), after number_round(.., 10); thousands commas when grouped. Never prints "-0".
void number_write(struct text *text, double value, int decimals, bool grouped);
// As many decimals as needed (at most max_decimals), no trailing zeros.
void number_write_short(struct text *text, double value, int max_decimals, bool grouped);
// 17 significant digits at most, reads back to the same double; for JSON and canonical forms. Plain decimals, which
// number_read reads too, from 1e-14 to 1e17; all 17 digits and an exponent beyond.
void number_write_exact(struct text *text, double value);

#endif
