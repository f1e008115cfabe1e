// SPDX-License-Identifier: MIT
// What the files of the spread share and nobody else includes.
#ifndef FOREBAY_CHANCE_SPREAD_INSIDE_H
#define FOREBAY_CHANCE_SPREAD_INSIDE_H

#include "chance/spread.h"

struct spreading {
  struct arena *arena;
  struct spread *spread;
  const struct stock *stock;
};

struct half {
  double value;
  bool is_share;
};

// How far a value of this dimension, got this way, may be off.
struct half spread_half(struct spreading *s, enum way way, enum dimension dimension);

struct spread_value *spread_add(struct spreading *s, struct spread_value value);  // name and first are filled in
void spread_add_slot(struct spreading *s, struct spread_value *value, struct spread_slot slot);  // bounds are filled in
bool spread_follows_lip(const struct spread *spread, int entity, enum row_id row);

// spread_together.c: what moves as one
void spread_outline(struct spreading *s, int basin);
void spread_curve(struct spreading *s, int pump);
void spread_level(struct spreading *s, int basin);
void spread_measured(struct spreading *s);
double spread_lowest_lip(const struct store *store, int basin);  // infinite: none is written

#endif
