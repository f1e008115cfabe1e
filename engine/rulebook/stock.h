// SPDX-License-Identifier: MIT
// What a firm can buy and what it reckons with, as its rule files state it: `stock { pumps = { ... }, ... }`. Plain
// data, checked as a design's givens are. A later layer's entry takes the place of an earlier one's of the same name.
#ifndef FOREBAY_RULEBOOK_STOCK_H
#define FOREBAY_RULEBOOK_STOCK_H

#include "base/problem.h"
#include "catalogue/catalogue.h"

struct stock_origin {
  const char *layer;  // "house"
  struct place at;
};

// One given of a pump, as a design would write it.
struct stock_given {
  enum row_id row;
  const char *text;        // as between quotes; NULL: a list
  const char *lua, *json;  // lists: the ready table
};

struct stock_point {
  double flow, head;
};

struct stock_pump {
  const char *model;
  const struct stock_given *givens;  // all that is stated but model and price, in the order of the rows
  size_t given_count;
  const struct stock_point *curve;  // falling; two points or more
  size_t point_count;
  double price;  // NaN: not stated
  struct stock_origin from;
};

struct stock_pipe {
  const char *size;  // nominal, as the trade's table has it
  enum word material;
  double price;  // a foot of it; NaN: not stated
  struct stock_origin from;
};

// A price or a rate: a given of `prices` or `crew` that stands in where a design says nothing.
struct stock_figure {
  enum row_id row;
  const char *text;
  double value;
  struct stock_origin from;
};

struct stock_tolerance {
  const char *way;  // "tape", "laser level", "eye", "maker's curve", and the words of `measured`
  const char *text;
  double value;  // half of the width: m, or a share of the value
  bool is_share;
  struct stock_origin from;
};

// An entry that a later layer's took the place of.
struct stock_change {
  const char *what;      // `pump "mid 1900"`, `prices.gravel`
  const char *was, *by;  // texts of figures and tolerances; NULL: of pumps and pipes
  struct stock_origin had, has;
  bool dropped;  // an empty list took it away
};

struct stock {
  bool states_pumps, states_pipes;  // some layer did, be it with an empty list
  struct stock_pump *pumps;
  struct stock_pipe *pipes;
  struct stock_figure *figures;
  struct stock_tolerance *tolerances;
  struct stock_change *changes;
  size_t pump_count, pump_room, pipe_count, pipe_room, figure_count, figure_room, tolerance_count, tolerance_room,
      change_count, change_room;
};

struct rulebook;
const struct stock *rulebook_stock(const struct rulebook *rulebook);
const struct stock_tolerance *stock_tolerance(const struct stock *stock, const char *way);  // NULL: not stated

#endif
