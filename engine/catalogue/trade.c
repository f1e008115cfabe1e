// SPDX-License-Identifier: MIT
#include "catalogue/trade.h"

#include "units/exact.h"

#define DEGREE (3.14159265358979323846 / 180)

// Each table below takes its own rows and passes over the others.
#define PIPE(...)
#define ROUGHNESS(...)
#define VALVE(...)
#define LOSS(...)
#define SINGLE_LOSS(...)
#define DENSITY(...)
#define COMPACTED(...)
#define FILLS(...)
#define SOIL(...)
#define RETAINED(...)
#define BENDING(...)
#define COVER(...)

const struct trade_pipe trade_pipes[] = {
#undef PIPE
#define PIPE(nominal, inches) {nominal, (inches)*INCH},
#include "catalogue/trade.def"
#undef PIPE
#define PIPE(...)
};
const size_t trade_pipe_count = sizeof trade_pipes / sizeof trade_pipes[0];

static const struct trade_roughness roughness[WORD_COUNT] = {
#undef ROUGHNESS
#define ROUGHNESS(word, millimetres, times) [WORD_pipe_material_##word] = {(millimetres)*1e-3, times},
#include "catalogue/trade.def"
#undef ROUGHNESS
#define ROUGHNESS(...)
};

const struct trade_valve trade_valves[] = {
#undef VALVE
#define VALVE(word, open, k) {WORD_valve_##word, open, k},
#include "catalogue/trade.def"
#undef VALVE
#define VALVE(...)
};
const size_t trade_valve_count = sizeof trade_valves / sizeof trade_valves[0];

static const double losses[WORD_COUNT] = {
#undef LOSS
#define LOSS(word, k) [WORD_fitting_type_##word] = k,
#include "catalogue/trade.def"
#undef LOSS
#define LOSS(...)
};

#undef SINGLE_LOSS
#define SINGLE_LOSS(name, k) const double trade_##name##_loss = k;
#include "catalogue/trade.def"
#undef SINGLE_LOSS
#define SINGLE_LOSS(...)

static const struct trade_range densities[WORD_COUNT] = {
#undef DENSITY
#define DENSITY(word, low, likely, high) \
  [WORD_stone_##word] = {(low)*POUND / CUBIC_FOOT, (likely)*POUND / CUBIC_FOOT, (high)*POUND / CUBIC_FOOT},
#include "catalogue/trade.def"
#undef DENSITY
#define DENSITY(...)
};

static const double compacted[WORD_COUNT] = {
#undef COMPACTED
#define COMPACTED(word, pounds) [WORD_soil_##word] = (pounds)*POUND / (27 * CUBIC_FOOT),
#include "catalogue/trade.def"
#undef COMPACTED
#define COMPACTED(...)
};

static const struct trade_range fills[WORD_COUNT] = {
#undef FILLS
#define FILLS(word, low, likely, high) [WORD_boulder_shape_##word] = {low, likely, high},
#include "catalogue/trade.def"
#undef FILLS
#define FILLS(...)
};

static const struct {
  double slope, density;
} soils[WORD_COUNT] = {
#undef SOIL
#define SOIL(word, slope, pounds) [WORD_soil_##word] = {slope, (pounds)*POUND / (27 * CUBIC_FOOT)},
#include "catalogue/trade.def"
#undef SOIL
#define SOIL(...)
};

static const struct trade_retained retained[WORD_COUNT] = {
#undef RETAINED
#define RETAINED(word, degrees, psf, friction) \
  [WORD_soil_##word] = {(degrees)*DEGREE, (psf)*POUND * GRAVITY / (FOOT * FOOT), friction},
#include "catalogue/trade.def"
#undef RETAINED
#define RETAINED(...)
};

static const struct trade_bending bending[WORD_COUNT] = {
#undef BENDING
#define BENDING(word, psi, divided) [WORD_stone_##word] = {(psi)*POUND * GRAVITY / (INCH * INCH), divided},
#include "catalogue/trade.def"
#undef BENDING
#define BENDING(...)
};

static const double covers[WORD_COUNT] = {
#undef COVER
#define COVER(word, inches) [WORD_cable_##word] = (inches)*INCH,
#include "catalogue/trade.def"
};

struct trade_roughness trade_roughness(enum word material) {
  return roughness[material];
}
double trade_fitting_loss(enum word fitting) { return losses[fitting]; }
struct trade_range trade_density(enum word stone) {
  return densities[stone];
}
double trade_soil_compacted(enum word soil) { return compacted[soil]; }
struct trade_range trade_fills(enum word shape) {
  return fills[shape];
}
double trade_soil_slope(enum word soil) { return soils[soil].slope; }
double trade_soil_density(enum word soil) { return soils[soil].density; }
struct trade_retained trade_retained(enum word soil) {
  return retained[soil];
}
struct trade_bending trade_bending(enum word stone) {
  return bending[stone];
}
double trade_cover(enum word cable) { return covers[cable]; }
