// SPDX-License-Identifier: MIT
#include "quantities/water_path.h"

#include <math.h>
#include <string.h>

#include "catalogue/trade.h"
#include "physics/pipe.h"
#include "physics/water.h"
#include "units/read.h"

// ---- One pipe ----

// "1 1/2 in" and "1-1/2\"" are one size: sizes are compared as lengths. NaN: not a length.
static double size_as_length(struct evaluation *ev, const char *size) {
  struct text wrong = text_in(evaluation_arena(ev)), right = text_in(evaluation_arena(ev));
  struct reading reading;
  return unit_read(size, strlen(size), DIM_LENGTH, &reading, &wrong, &right) ? reading.value : (double)NAN;
}

static void tell_size(struct evaluation *ev, struct pipe_ref pipe) {
  struct text right = text_in(evaluation_arena(ev));
  for (size_t i = 0; i < trade_pipe_count; i++) text_printf(&right, "%s%s", i ? ", " : "", trade_pipes[i].nominal);
  evaluation_impossible(ev, pipe.at, ROW_pipe_size, "is no size of this pipe", text_end(&right));
}

double pipe_bore_of(struct evaluation *ev, struct pipe_ref pipe) {
  double nominal = size_as_length(ev, pipe_get_size(ev, pipe));
  enum word material = pipe_get_material(ev, pipe);
  if (evaluation_marked(ev)) return (double)NAN;
  if (material != WORD_pipe_material_pvc && nominal > 0) return nominal;
  for (size_t i = 0; i < trade_pipe_count && nominal > 0; i++) {
    if (fabs(size_as_length(ev, trade_pipes[i].nominal) - nominal) < 1e-6) return trade_pipes[i].bore;
  }
  tell_size(ev, pipe);
  return (double)NAN;
}

static double fittings_loss(struct evaluation *ev, struct pipe_ref pipe) {
  double k = 0;
  for (size_t i = 0; i < pipe_count_fittings(ev, pipe); i++) {
    struct fitting_ref fitting = pipe_fittings_at(ev, pipe, i);
    enum word type = fitting_get_type(ev, fitting);
    double count = fitting_get_count(ev, fitting);
    if (!evaluation_marked(ev)) k += count * trade_fitting_loss(type);
  }
  return k;
}

// Between two openings of the table ln K runs straight; below the first two it goes on as between them.
static double valve_loss(enum word valve, double open) {
  const struct trade_valve *low = NULL, *high = NULL;
  for (size_t i = 0; i < trade_valve_count && !(high && high->open >= open); i++) {
    if (trade_valves[i].valve != valve) continue;
    if (high || !low) low = high ? high : &trade_valves[i];
    if (low != &trade_valves[i]) high = &trade_valves[i];
  }
  if (!low) return 0;
  if (!high) return low->k;
  double share = (open - low->open) / (high->open - low->open);
  return exp(log(low->k) + share * log(high->k / low->k));
}

bool pipe_is_shut(struct evaluation *ev, struct pipe_ref pipe) {
  enum word valve = pipe_get_valve(ev, pipe);
  return valve != WORD_valve_none && pipe_get_valve_open(ev, pipe) <= 0;
}

struct path_pipe path_pipe_of(struct evaluation *ev, struct pipe_ref pipe) {
  struct path_pipe it = {.length = pipe_get_length(ev, pipe), .bore = pipe_get_bore(ev, pipe)};
  enum word material = pipe_get_material(ev, pipe), valve = pipe_get_valve(ev, pipe);
  double open = pipe_get_valve_open(ev, pipe);
  it.minor = fittings_loss(ev, pipe);
  if (pipe_get_check_valve(ev, pipe) == WORD_fitted_fitted) it.minor += trade_check_valve_loss;
  if (evaluation_marked(ev)) return it;
  if (material == WORD_pipe_material_corrugated_hose) evaluation_outside(ev);
  it.roughness = trade_roughness(material).roughness;
  it.times = trade_roughness(material).times;
  if (valve != WORD_valve_none && open > 0) it.minor += valve_loss(valve, open);
  return it;
}

// ---- Along the path ----

double nozzle_area_of(struct evaluation *ev, struct jet_ref jet) {
  return jet_get_count(ev, jet) * pipe_area(jet_get_orifice(ev, jet));
}

// A smooth nozzle lets through 0.97 of what the head would drive.
double nozzle_head(double flow, double area) {
  double speed = flow / (0.97 * area);
  return speed * speed / (2 * GRAVITY);
}

static bool branched(struct evaluation *ev) {
  evaluation_missing(ev, "the water branches on its way; its shares are not worked out: measure the flow");
  return false;
}

static size_t open_pipes_out(struct evaluation *ev, struct any_ref from, struct pipe_ref *only) {
  bool joint = kind_of(ev, from) == KIND_junction;
  size_t count = joint ? junction_count_pipes_out(ev, (struct junction_ref){from.at})
                       : pump_count_pipes_out(ev, (struct pump_ref){from.at});
  size_t open = 0;
  for (size_t i = 0; i < count; i++) {
    struct pipe_ref pipe = joint ? junction_pipes_out_at(ev, (struct junction_ref){from.at}, i)
                                 : pump_pipes_out_at(ev, (struct pump_ref){from.at}, i);
    if (count > 1 && pipe_is_shut(ev, pipe)) continue;
    *only = pipe;
    open++;
  }
  return open;
}

static size_t open_pipes_in(struct evaluation *ev, struct any_ref to) {
  bool joint = kind_of(ev, to) == KIND_junction;
  size_t count = joint ? junction_count_pipes_in(ev, (struct junction_ref){to.at})
                       : jet_count_pipes_in(ev, (struct jet_ref){to.at});
  size_t open = 0;
  for (size_t i = 0; i < count; i++) {
    struct pipe_ref pipe = joint ? junction_pipes_in_at(ev, (struct junction_ref){to.at}, i)
                                 : jet_pipes_in_at(ev, (struct jet_ref){to.at}, i);
    open += count == 1 || !pipe_is_shut(ev, pipe);
  }
  return open;
}

static double suction_level(struct evaluation *ev, struct pump_ref pump) {
  struct any_ref from = pump_get_from(ev, pump);
  struct basin_ref basin = {from.at};
  if (kind_of(ev, from) == KIND_intake) basin = intake_get_basin(ev, (struct intake_ref){from.at});
  return basin_get_water_level(ev, basin);
}

static double end_in_basin(struct evaluation *ev, struct pipe_ref pipe, struct basin_ref basin) {
  double end = pipe_get_outlet_at(ev, pipe);
  if (pipe_get_outlet(ev, pipe) == WORD_outlet_above_water) return end;
  return fmax(end, basin_get_water_level(ev, basin));
}

static double end_in_jet(struct evaluation *ev, struct water_path *path, struct jet_ref jet) {
  path->nozzle_area = nozzle_area_of(ev, jet);
  return fmax(jet_get_at(ev, jet), basin_get_water_level(ev, jet_get_basin(ev, jet)));
}

static bool dead_end(struct evaluation *ev, struct any_ref at) {
  bool pump = kind_of(ev, at) == KIND_pump;
  evaluation_impossible(ev, at.at, pump ? ROW_pump_from : ROW_junction_at, "no pipe leaves it: it is not connected",
                        "a pipe whose `from` is its name");
  return false;
}

static bool ends_here(struct evaluation *ev, struct water_path *path, struct pipe_ref pipe, struct any_ref to) {
  if (kind_of(ev, to) == KIND_basin) {
    path->outlet = end_in_basin(ev, pipe, (struct basin_ref){to.at});
    return true;
  }
  if (kind_of(ev, to) != KIND_jet) return false;
  if (open_pipes_in(ev, to) > 1) branched(ev);
  path->outlet = end_in_jet(ev, path, (struct jet_ref){to.at});
  return true;
}

static bool walk(struct evaluation *ev, struct pump_ref pump, struct water_path *path) {
  struct any_ref at = {pump.at};
  struct pipe_ref pipe = {-1};
  while (path->count < PATH_PIPES) {
    size_t open = open_pipes_out(ev, at, &pipe);
    if (open == 0) return dead_end(ev, at);
    if (open > 1) return branched(ev);
    path->closed = path->closed || pipe_is_shut(ev, pipe);
    path->pipes[path->count++] = path_pipe_of(ev, pipe);
    struct any_ref to = pipe_get_to(ev, pipe);
    if (ends_here(ev, path, pipe, to)) return !evaluation_marked(ev);
    if (kind_of(ev, to) != KIND_junction) return false;
    if (open_pipes_in(ev, to) > 1) return branched(ev);
    at = to;
  }
  evaluation_impossible(ev, pump.at, ROW_pump_from, "its pipes lead round in a circle, or on past 64 without an outlet",
                        "pipes that end in a basin or a jet");
  return false;
}

bool water_path_of(struct evaluation *ev, struct pump_ref pump, struct water_path *path) {
  *path = (struct water_path){.suction = (double)NAN};
  path->suction = suction_level(ev, pump);
  return walk(ev, pump, path) && !evaluation_marked(ev);
}

// ---- What it asks ----

double path_pipe_loss(const struct path_pipe *pipe, double flow) {
  struct pipe straight = {pipe->length, pipe->bore, pipe->roughness, 0};
  double friction = pipe_friction_loss(&straight, flow, water_kinematic_viscosity(WATER_USUAL_TEMPERATURE));
  return pipe->times * friction + pipe_minor_loss(pipe->minor, pipe_velocity(flow, pipe->bore));
}

// Into the first pipe, and out of the last: its speed is lost in the basin, or spent in the nozzle.
static double end_losses(const struct water_path *path, double flow) {
  double first = pipe_velocity(flow, path->pipes[0].bore), last = pipe_velocity(flow, path->pipes[path->count - 1].bore);
  double in = pipe_minor_loss(trade_entrance_loss, first);
  double out = path->nozzle_area > 0 ? nozzle_head(flow, path->nozzle_area) : pipe_minor_loss(trade_leaving_loss, last);
  return in + out;
}

double water_path_losses(const struct water_path *path, double flow) {
  double losses = end_losses(path, flow);
  for (size_t i = 0; i < path->count; i++) losses += path_pipe_loss(&path->pipes[i], flow);
  return losses;
}

double water_path_asks(double flow, void *with) {
  const struct water_path *path = with;
  return path->outlet - path->suction + water_path_losses(path, flow);
}
