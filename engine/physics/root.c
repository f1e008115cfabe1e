// SPDX-License-Identifier: MIT
#include "physics/root.h"

#include <math.h>
#include <stdbool.h>

// Doubles between 0 and 1e308 are parted in at most 2100 halvings; a bracket of one magnitude needs about 55. Every
// third step at the latest halves.
enum { STEPS = 3 * 2200 };

// f is not above 0 at `low` and above it at `high`; NaN: not known there.
struct bracket {
  double low, high, at_low, at_high;
  int same;     // how often in turn the same end has moved, minus: the low one
  double near;  // how far from an end the next guess stays, in its last digits
};

// Regula falsi in the manner of the Illinois rule, its weights halved when one end stays; away from the ends by a few
// last digits, so that the other end is drawn in as well once one of them has arrived.
static double guess(const struct bracket *b, double middle) {
  double part = b->at_low / (b->at_low - b->at_high), digit = b->near * 1.1e-16;
  if (!(part >= 0 && part <= 1)) return middle;
  double at = b->low + (b->high - b->low) * part;
  double least = b->low + fmax(digit * fabs(b->low), 5e-324), most = b->high - fmax(digit * fabs(b->high), 5e-324);
  return least < most ? fmin(fmax(at, least), most) : middle;
}

static void move_low(struct bracket *b, double to, double value) {
  b->low = to;
  b->at_low = value;
  b->same = b->same < 0 ? b->same - 1 : -1;
  if (b->same < -1) b->at_high /= 2;
}

static void move_high(struct bracket *b, double to, double value) {
  b->high = to;
  b->at_high = value;
  b->same = b->same > 0 ? b->same + 1 : 1;
  if (b->same > 1) b->at_low /= 2;
}

double root_rising(root_function f, void *with, double low, double high) {
  if (isnan(low) || isnan(high)) return (double)NAN;
  struct bracket b = {low, high, f(low, with), f(high, with), 0, 1};
  if (b.at_low > 0) return low;
  if (b.at_high <= 0) return high;
  for (int i = 0; i < STEPS; i++) {
    double width = b.high - b.low, middle = b.low + width / 2;
    if (!(middle > b.low && middle < b.high)) break;
    double at = i % 3 == 2 && i > 20 ? middle : guess(&b, middle), value = f(at, with);
    if (isnan(value)) return value;
    if (value > 0) {
      move_high(&b, at, value);
    } else {
      move_low(&b, at, value);
    }
    b.near = b.high - b.low > width / 2 ? 2 * b.near : 1;
  }
  return b.low;
}
