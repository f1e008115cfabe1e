// SPDX-License-Identifier: MIT
// What holds a block from sliding: tangent of the friction angle between it and what it stands on. Ultimate values: a
// factor of safety comes on top (never on allowable values such as IBC Table 1806.2). Wet is taken as dry. A liner
// nobody named counts as a smooth membrane.
#ifndef FOREBAY_PHYSICS_FRICTION_H
#define FOREBAY_PHYSICS_FRICTION_H

enum friction_interface {
  FRICTION_GRAVEL,
  FRICTION_SILTY_GRAVEL,
  FRICTION_FINE_SAND,
  FRICTION_SILT,
  FRICTION_SOFT_CLAY,
  FRICTION_STIFF_CLAY,
  FRICTION_STONE_ON_STONE,
  FRICTION_SMOOTH_MEMBRANE,
  FRICTION_TEXTURED_MEMBRANE,
  FRICTION_RUBBER_MEMBRANE,
  FRICTION_INTERFACES
};

struct friction_row {
  enum friction_interface interface;
  double coefficient;
  const char *mark, *source;
};
// NULL when there is no such interface.
const struct friction_row *friction_row(enum friction_interface interface);

#endif
