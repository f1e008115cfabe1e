// SPDX-License-Identifier: MIT
// Sizes that are exact by definition, SI: inch and pound by the international agreement of 1959, the US gallon as 231
// cubic inches, standard gravity by the third CGPM of 1901.
#ifndef FOREBAY_UNITS_EXACT_H
#define FOREBAY_UNITS_EXACT_H

#define INCH 0.0254
#define FOOT 0.3048
#define YARD 0.9144
#define MILE 1609.344
#define CUBIC_FOOT (FOOT * FOOT * FOOT)
#define GALLON (231 * INCH * INCH * INCH)
#define POUND 0.45359237
#define GRAVITY 9.80665

#endif
