// SPDX-License-Identifier: MIT
#include "physics/friction.h"

#include <stddef.h>

#define NAVFAC "NAVFAC DM 7.02 (Sept 1986) ch. 3 Table 1, lower end"

static const struct friction_row ROWS[FRICTION_INTERFACES] = {
    {FRICTION_GRAVEL, 0.55, "seen", NAVFAC},
    {FRICTION_SILTY_GRAVEL, 0.45, "seen", NAVFAC},
    {FRICTION_FINE_SAND, 0.35, "seen", NAVFAC},
    {FRICTION_SILT, 0.30, "seen", NAVFAC},
    {FRICTION_SOFT_CLAY, 0.30, "seen", NAVFAC},
    {FRICTION_STIFF_CLAY, 0.40, "seen", NAVFAC},
    {FRICTION_STONE_ON_STONE, 0.55, "seen", "NAVFAC DM 7.02 (Sept 1986) ch. 3 Table 1, hard on hard rock"},
    {FRICTION_SMOOTH_MEMBRANE, 0.176, "from memory",
     "geotextile on smooth polyethylene, tan 10 degrees; Koerner, Designing with Geosynthetics"},
    {FRICTION_TEXTURED_MEMBRANE, 0.31, "seen", "questions and answers on geosynthetics: 17 degrees residual"},
    {FRICTION_RUBBER_MEMBRANE, 0.42, "from memory", "23 degrees, not confirmed; no published figure found"},
};

const struct friction_row *friction_row(enum friction_interface interface) {
  return (unsigned)interface < FRICTION_INTERFACES ? &ROWS[interface] : NULL;
}
