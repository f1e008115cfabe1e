// SPDX-License-Identifier: MIT
#include "physics/cuts.h"

#include <math.h>

#include "physics/root.h"

// Area at share t (0 at the bottom, 1 at the top) is bottom + linear t + square t^2.
struct parabola {
  double bottom, linear, square;
};

static struct parabola parabola_of(const struct cut *cut) {
  double square = 2 * (cut->area_top - 2 * cut->area_middle + cut->area_bottom);
  return (struct parabola){cut->area_bottom, cut->area_top - cut->area_bottom - square, square};
}

static double area_at(struct parabola p, double t) { return p.bottom + t * (p.linear + t * p.square); }

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
    return area_at(p, t);
  }
  return 0;
}

static double held_between(const struct cut *cut, double top, double bottom) {
  struct parabola p = parabola_of(cut);
  return (cut->top - cut->bottom) * (filled(p, share(cut, top)) - filled(p, share(cut, bottom)));
}

double cuts_volume(const struct cuts *cuts, double top, double bottom) {
  if (isnan(top) || isnan(bottom)) return (double)NAN;
  if (cuts->count == 0 || top <= bottom) return 0;
  double uppermost = cuts->layers[0].top;
  double volume = top > uppermost ? (top - fmax(bottom, uppermost)) * cuts->layers[0].area_top : 0;
  for (size_t i = 0; i < cuts->count; i++) volume += held_between(&cuts->layers[i], top, bottom);
  return volume;
}

struct rising {
  struct parabola area;
  double height, start, volume;
};

static double filled_too_much(double to, void *with) {
  const struct rising *rising = with;
  return rising->height * (filled(rising->area, to) - rising->start) - rising->volume;
}

// The volume grows with height, and a closed form would need a cubic's roots. Newton first, with the area as its slope:
// a step so small leaves but its square. Where the area is next to none it does not arrive.
static double rise_within(const struct cut *cut, double from, double volume) {
  struct rising rising = {parabola_of(cut), cut->top - cut->bottom, 0, volume};
  const double least = share(cut, from);
  rising.start = filled(rising.area, least);
  double to = least;
  for (int i = 0; i < 8; i++) {
    const double step = filled_too_much(to, &rising) / (rising.height * area_at(rising.area, to));
    if (!(fabs(step) <= 1)) break;
    to = fmin(1, fmax(least, to - step));
    if (fabs(step) < 1e-9) return cut->bottom + to * rising.height;
  }
  return cut->bottom + root_rising(filled_too_much, &rising, least, 1) * rising.height;
}

double cuts_rise_to(const struct cuts *cuts, double from, double volume) {
  if (cuts->count == 0 || isnan(volume) || isnan(from)) return (double)NAN;
  if (volume <= 0) return from;
  for (size_t i = cuts->count; i-- > 0;) {
    const struct cut *cut = &cuts->layers[i];
    double low = fmax(from, cut->bottom);
    if (cut->top <= low) continue;
    double held = held_between(cut, cut->top, low);
    if (volume < held) return rise_within(cut, low, volume);
    volume -= held;
  }
  return fmax(from, cuts->layers[0].top) + volume / cuts->layers[0].area_top;
}
