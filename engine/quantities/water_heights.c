// SPDX-License-Identifier: MIT
#include "quantities/water_heights.h"

#include <math.h>

#include "quantities/pipe_run.h"

struct basin_ref water_drawn_from(struct evaluation *ev, struct pump_ref pump) {
  struct any_ref from = pump_get_from(ev, pump);
  if (kind_of(ev, from) != KIND_intake) return (struct basin_ref){from.at};
  return intake_get_basin(ev, (struct intake_ref){from.at});
}

double water_suction_level(struct evaluation *ev, struct pump_ref pump) {
  return basin_get_water_level(ev, water_drawn_from(ev, pump));
}

double water_pipe_end(struct evaluation *ev, struct pipe_ref pipe, struct basin_ref basin) {
  double end = pipe_get_outlet_at(ev, pipe);
  if (pipe_get_outlet(ev, pipe) == WORD_outlet_above_water) return end;
  return fmax(end, basin_get_water_level(ev, basin));
}

double water_jet_end(struct evaluation *ev, struct jet_ref jet) {
  return fmax(jet_get_at(ev, jet), basin_get_water_level(ev, jet_get_basin(ev, jet)));
}

// ---- The lift of a pump ----

struct ends {
  struct evaluation *ev;
  unsigned char *seen;
  double open, any;  // the highest of those that are not shut off, and of all
};

static void note_end(struct ends *ends, double height, bool open) {
  ends->any = fmax(ends->any, height);
  if (open) ends->open = fmax(ends->open, height);
}

static void follow(struct ends *ends, struct pipe_ref pipe, bool open) {
  struct evaluation *ev = ends->ev;
  unsigned char been = open ? 2 : 1;
  if (ends->seen[pipe.at] >= been) return;
  ends->seen[pipe.at] = been;
  open = open && !pipe_is_shut(ev, pipe);
  struct any_ref to = pipe_get_to(ev, pipe);
  if (kind_of(ev, to) == KIND_basin) note_end(ends, water_pipe_end(ev, pipe, (struct basin_ref){to.at}), open);
  if (kind_of(ev, to) == KIND_jet) note_end(ends, water_jet_end(ev, (struct jet_ref){to.at}), open);
  if (kind_of(ev, to) != KIND_junction) return;
  struct junction_ref joint = {to.at};
  for (size_t i = 0; i < junction_count_pipes_out(ev, joint); i++) {
    follow(ends, junction_pipes_out_at(ev, joint, i), open);
  }
}

double water_lift(struct evaluation *ev, struct pump_ref pump) {
  struct ends ends = {.ev = ev,
                      .seen = arena_alloc(evaluation_arena(ev), evaluation_design(ev)->entity_count + 1),
                      .open = -INFINITY,
                      .any = -INFINITY};
  for (size_t i = 0; i < pump_count_pipes_out(ev, pump); i++) follow(&ends, pump_pipes_out_at(ev, pump, i), true);
  double suction = water_suction_level(ev, pump);
  if (!evaluation_marked(ev) && isinf(ends.any)) {
    evaluation_impossible(ev, pump.at, ROW_pump_from, "its pipes lead round in a circle, or end nowhere",
                          "pipes that end in a basin or a jet");
  }
  return (isinf(ends.open) ? ends.any : ends.open) - suction;
}
