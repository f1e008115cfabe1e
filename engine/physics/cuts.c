// SPDX-License-Identifier: MIT
#include "physics/cuts.h"

#include <math.h>

// Area at share t (0 at the bottom, 1 at the top) is bottom + linear t + square t^2.
struct parabola {
  double bottom, linear, square;
};

static struct parabola parabola_of(const struct cut *cut) {
  double square = 2 * (cut->area_top - 2 * cut->area_middle + cut->area_bottom);
  return (struct parabola){cut->area_bottom, cut->area_top - cut->area_bottom - square, square};
}

// Integral of the area from the bottom up to share t, for a cut of height 1.
static double filled(struct parabola p, double t) { return t * (p.bottom + t * (p.linear / 2 + t * p.square / 3)); }

static double share(const struct cut *cut, double height) {
  return fmin(1, fmax(0, (height - cut->bottom) / (cut->top - cut->bottom)));
}

double cuts_area(const struct cuts *cuts, double height) {
  if (cuts->count == 0) return 0;
  if (height >= cuts->layers[0].top) return cuts->layers[0].area_top;
  for (size_t i = 0; i < cuts->count; i++) {
    const struct cut *cut = &cuts->layers[i];
    if (height <= cut->bottom && i + 1 < cuts->count) continue;
    if (height < cut->bottom) return 0;
    struct parabola p = parabola_of(cut);
    double t = share(cut, height);
    return p.bottom + t * (p.linear + t * p.square);
  }
  return 0;
}

double cuts_volume(const struct cuts *cuts, double top, double bottom) {
  if (isnan(top) || isnan(bottom)) return (double)NAN;
  if (cuts->count == 0 || top <= bottom) return 0;
  double uppermost = cuts->layers[0].top;
  double volume = top > uppermost ? (top - fmax(bottom, uppermost)) * cuts->layers[0].area_top : 0;
  for (size_t i = 0; i < cuts->count; i++) {
    const struct cut *cut = &cuts->layers[i];
    struct parabola p = parabola_of(cut);
    volume += (cut->top - cut->bottom) * (filled(p, share(cut, top)) - filled(p, share(cut, bottom)));
  }
  return volume;
}

// Bisection inside the one cut where the volume ends: it grows with height, and a closed form would need a cubic's
// roots.
static double rise_within(const struct cut *cut, double from, double volume) {
  struct parabola p = parabola_of(cut);
  double height = cut->top - cut->bottom, start = filled(p, share(cut, from)), low = share(cut, from), high = 1;
  for (int i = 0; i < 100; i++) {
    double middle = low + (high - low) / 2;
    if (middle <= low || middle >= high) break;
    if (height * (filled(p, middle) - start) < volume) {
      low = middle;
    } else {
      high = middle;
    }
  }
  return cut->bottom + high * height;
}

double cuts_rise_to(const struct cuts *cuts, double from, double volume) {
  if (cuts->count == 0 || isnan(volume) || isnan(from)) return (double)NAN;
  if (volume <= 0) return from;
  double uppermost = fmax(from, cuts->layers[0].top);
  double to_top = cuts_volume(cuts, uppermost, from);
  if (volume >= to_top) return uppermost + (volume - to_top) / cuts->layers[0].area_top;
  for (size_t i = cuts->count; i-- > 0;) {
    const struct cut *cut = &cuts->layers[i];
    double low = fmax(from, cut->bottom);
    if (cut->top <= low) continue;
    double held = cuts_volume(cuts, cut->top, low);
    if (volume <= held || i == 0) return rise_within(cut, low, volume);
    volume -= held;
  }
  return uppermost;
}
