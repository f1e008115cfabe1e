// SPDX-License-Identifier: MIT
// I. Walls, coping, paving.
#include <math.h>

#include "catalogue/trade.h"
#include "physics/coping.h"
#include "physics/water.h"
#include "quantities/read.h"

#define FOREBAY_ROWS "catalogue/walls.def"

#define POUND 0.45359237

static struct trade_range cap_density(struct evaluation *ev, struct coping_ref coping) {
  enum word stone = coping_get_stone(ev, coping);
  return evaluation_marked(ev) ? (struct trade_range){0, 0, 0} : trade_density(stone);
}

static double cap_volume(struct evaluation *ev, struct coping_ref coping) {
  return coping_get_length(ev, coping) * coping_get_depth(ev, coping) * coping_get_thickness(ev, coping);
}

static double mass_low_of_coping(struct evaluation *ev, struct coping_ref coping) {
  return cap_volume(ev, coping) * cap_density(ev, coping).low;
}

static double mass_high_of_coping(struct evaluation *ev, struct coping_ref coping) {
  return cap_volume(ev, coping) * cap_density(ev, coping).high;
}

// 300 lb at the very edge, on one piece, held by the stone's own weight alone.
static double tip_factor_of_coping(struct evaluation *ev, struct coping_ref coping) {
  struct coping cap = {.length = coping_get_length(ev, coping),
                       .depth = coping_get_depth(ev, coping),
                       .thickness = coping_get_thickness(ev, coping),
                       .overhang = coping_get_overhang(ev, coping)};
  double mass = coping_get_mass_low(ev, coping);
  if (evaluation_marked(ev)) return (double)NAN;
  cap.density = mass / (cap.length * cap.depth * cap.thickness);
  return coping_tipping_factor(&cap, 300 * POUND * GRAVITY);
}

#include "quantities/export.h"
