// SPDX-License-Identifier: MIT
// Data of the trade by word, SI. Rows stand in trade.def with their sources.
#ifndef FOREBAY_CATALOGUE_TRADE_H
#define FOREBAY_CATALOGUE_TRADE_H

#include <stddef.h>

#include "catalogue/ids.h"

struct trade_pipe {
  const char *nominal;
  double bore;  // m
};
extern const struct trade_pipe trade_pipes[];
extern const size_t trade_pipe_count;

struct trade_roughness {
  double roughness;  // m
  double times;      // by which the friction of a smooth bore is multiplied
};
struct trade_roughness trade_roughness(enum word material);

double trade_fitting_loss(enum word fitting);  // K
extern const double trade_check_valve_loss, trade_entrance_loss, trade_leaving_loss;

struct trade_valve {
  enum word valve;
  double open, k;
};
extern const struct trade_valve trade_valves[];  // by valve, openings rising
extern const size_t trade_valve_count;

struct trade_range {
  double low, likely, high;
};
struct trade_range trade_density(enum word stone);  // kg/m3
struct trade_range trade_fills(enum word shape);    // share of the box

double trade_soil_slope(enum word soil);      // run over rise
double trade_soil_density(enum word soil);    // kg/m3 in the ground
double trade_soil_compacted(enum word soil);  // kg/m3 in compacted fill

// Ground behind and under a wall: rad, Pa, tangent of friction under a base on it.
struct trade_retained {
  double friction_angle, bearing, base_friction;
};
struct trade_retained trade_retained(enum word soil);

struct trade_bending {
  double strength;  // Pa, the least a standard accepts; 0: nobody knows
  double divided;   // number of safety
};
struct trade_bending trade_bending(enum word stone);
double trade_cover(enum word cable);  // m of soil asked over it

#endif
