// SPDX-License-Identifier: MIT
#include "physics/weir.h"

#include "physics/root.h"
#include "physics/water.h"
#include "units/exact.h"

#define LEAST_HEAD (0.2 * FOOT)        // WMM ch. 7: below it the sheet may cling and the reading is doubtful
#define NOTCH_GREATEST_SHARE (1. / 3)  // Francis: contractions hold for h <= L/3
#define ROUNDING 1e-9                  // a value at its limit is inside
#define V_SPREAD 0.1                   // what published V laws and low heads differ by
#define DEGREES_PER_RADIAN 57.29577951308232

// Discharge coefficients of straight lips in the unit they are published in, ft^0.5/s.
// Lowest: a broad stone that a thin edge may behave like, and the least entry of Brater & King's table (head 0.2 ft
// over a crest 3 ft long) for stones that are broad.
static const double LOWEST[WEIR_LIPS] = {
    [WEIR_THIN_EDGE] = 2.6, [WEIR_BROAD_STONE] = 2.44, [WEIR_ROUNDED] = 2.44, [WEIR_NOTCH] = 2.6};
static const double HIGHEST = 3.33;  // thin crest, Francis
static const double LIKELY[WEIR_LIPS] = {
    [WEIR_THIN_EDGE] = 3.33, [WEIR_BROAD_STONE] = 2.6, [WEIR_ROUNDED] = 3.087, [WEIR_NOTCH] = 3.33};

static double per_metre(double per_foot) { return per_foot * sqrt(FOOT); }

static bool is_straight(enum weir_lip lip) { return (unsigned)lip < WEIR_LIPS && lip != WEIR_V; }

static bool is_usable(const struct weir *weir, double amount) {
  if (!(amount >= 0) || isinf(amount)) return false;
  if (weir->lip == WEIR_V) return weir->angle > 0 && weir->angle < 180 / DEGREES_PER_RADIAN;
  return is_straight(weir->lip) && weir->width > 0 && isfinite(weir->width);
}

struct band weir_coefficient(enum weir_lip lip) {
  if (!is_straight(lip)) return band_none();
  return (struct band){.low = per_metre(LOWEST[lip]), .likely = per_metre(LIKELY[lip]), .high = per_metre(HIGHEST)};
}

bool weir_outside(const struct weir *weir, double head) {
  if (!is_usable(weir, head)) return true;
  if (head < LEAST_HEAD * (1 - ROUNDING) && head > 0) return true;
  const double degrees = weir->angle * DEGREES_PER_RADIAN;
  if (weir->lip == WEIR_V) return degrees < 25 * (1 - ROUNDING) || degrees > 100 * (1 + ROUNDING);
  return weir->lip == WEIR_NOTCH && head > NOTCH_GREATEST_SHARE * weir->width * (1 + ROUNDING);
}

// Francis: each of two end contractions takes 0.1 h of the width.
static double effective_width(const struct weir *weir, double head) {
  if (weir->lip != WEIR_NOTCH) return weir->width;
  return weir->width - 2 * 0.1 * fmin(head, weir->width);
}

static double straight_flow(const struct weir *weir, double c, double head) {
  return c * effective_width(weir, head) * head * sqrt(head);
}

// Kindsvater-Shen coefficient and head correction: the fit of Shen's curves in common use (from memory; it gives the
// published 0.578 and 0.0029 ft at 90 degrees).
struct shen {
  double factor;      // 8/15 Ce tan(angle/2) sqrt(2 g)
  double correction;  // k_h, m
};

static struct shen shen_at(double angle) {
  const double d = angle * DEGREES_PER_RADIAN;
  const double c = 0.607165052 + d * (-8.74466963e-4 + d * 6.10393334e-6);
  const double k = 0.0144902648 + d * (-3.3955535e-4 + d * (3.29819003e-6 + d * -1.06215442e-8));
  return (struct shen){.factor = 8. / 15 * c * tan(angle / 2) * sqrt(2 * GRAVITY), .correction = k * FOOT};
}

static double v_flow(const struct weir *weir, double head) {
  if (head <= 0) return 0;
  const struct shen shen = shen_at(weir->angle);
  return shen.factor * pow(head + shen.correction, 2.5);
}

static double v_head(const struct weir *weir, double flow) {
  const struct shen shen = shen_at(weir->angle);
  return fmax(0, pow(flow / shen.factor, 0.4) - shen.correction);
}

struct band weir_flow(const struct weir *weir, double head) {
  if (!is_usable(weir, head)) return band_none();
  struct band flow = {.outside = weir_outside(weir, head)};
  if (weir->lip == WEIR_V) {
    flow.likely = v_flow(weir, head);
    flow.low = flow.likely * (1 - V_SPREAD);
    flow.high = flow.likely * (1 + V_SPREAD);
    return flow;
  }
  const struct band c = weir_coefficient(weir->lip);
  flow.low = straight_flow(weir, c.low, head);
  flow.likely = straight_flow(weir, c.likely, head);
  flow.high = straight_flow(weir, c.high, head);
  return flow;
}

struct notch {
  const struct weir *weir;
  double c, flow;
};

static double notch_surplus(double head, void *with) {
  const struct notch *notch = with;
  return straight_flow(notch->weir, notch->c, head) - notch->flow;
}

static double straight_head(const struct weir *weir, double c, double flow) {
  const double uncontracted = cbrt(flow / (c * weir->width));
  if (weir->lip != WEIR_NOTCH || flow <= 0) return uncontracted * uncontracted;
  struct notch notch = {.weir = weir, .c = c, .flow = flow};
  const double contracted = cbrt(flow / (c * 0.8 * weir->width));  // width left at most contraction
  return root_rising(notch_surplus, &notch, 0, 1.001 * contracted * contracted);
}

struct band weir_head(const struct weir *weir, double flow) {
  if (!is_usable(weir, flow)) return band_none();
  struct band head;
  if (weir->lip == WEIR_V) {
    head = (struct band){.low = v_head(weir, flow / (1 + V_SPREAD)),
                         .likely = v_head(weir, flow),
                         .high = v_head(weir, flow / (1 - V_SPREAD))};
  } else {
    const struct band c = weir_coefficient(weir->lip);
    head = (struct band){.low = straight_head(weir, c.high, flow),
                         .likely = straight_head(weir, c.likely, flow),
                         .high = straight_head(weir, c.low, flow)};
  }
  head.outside = weir_outside(weir, head.likely);
  return head;
}

double weir_submerged_share(enum weir_lip lip, double head, double tailwater) {
  if (isnan(head) || isnan(tailwater) || (unsigned)lip >= WEIR_LIPS) return (double)NAN;
  if (tailwater <= 0) return 1;
  if (tailwater >= head) return 0;
  return pow(1 - pow(tailwater / head, lip == WEIR_V ? 2.5 : 1.5), 0.385);
}
