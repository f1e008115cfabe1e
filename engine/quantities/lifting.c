// SPDX-License-Identifier: MIT
// F. Lifting and the way in.
#include <math.h>

#include "quantities/read.h"

#define FOREBAY_ROWS "catalogue/lifting.def"

// ---- Through the gate ----

// It may turn any way on the hook: the diagonal of its two longest sides.
static double carried_diagonal_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  double length = boulder_get_length(ev, boulder), width = boulder_get_width(ev, boulder);
  double height = boulder_get_height(ev, boulder), shortest = fmin(length, fmin(width, height));
  return sqrt(length * length + width * width + height * height - shortest * shortest);
}

static double gate_to_spare_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return site_get_gate_width(ev, the_site(ev)) - boulder_get_carried_diagonal(ev, boulder);
}

static double height_to_spare_of_machine(struct evaluation *ev, struct machine_ref machine) {
  return site_get_gate_height(ev, the_site(ev)) - machine_get_height(ev, machine);
}

static double gate_to_spare_of_machine(struct evaluation *ev, struct machine_ref machine) {
  return site_get_gate_width(ev, the_site(ev)) - machine_get_width(ev, machine);
}

#include "quantities/export.h"
