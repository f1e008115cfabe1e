// SPDX-License-Identifier: MIT
// J. Power.
#include "quantities/read.h"

#define FOREBAY_ROWS "catalogue/power.def"

static bool is_fed(struct evaluation *ev, struct circuit_ref circuit, int entity) {
  for (size_t i = 0; i < circuit_count_feeds(ev, circuit); i++) {
    if (link_get_to(ev, circuit_feeds_at(ev, circuit, i)).at == entity) return true;
  }
  return false;
}

static double circuit_count_of_pump(struct evaluation *ev, struct pump_ref pump) {
  const struct store *design = evaluation_design(ev);
  size_t count = 0;
  for (size_t i = 0; i < store_count(design, KIND_circuit); i++) {
    count += is_fed(ev, (struct circuit_ref){store_of_kind(design, KIND_circuit, i)}, pump.at);
  }
  return (double)count;
}

#include "quantities/export.h"
