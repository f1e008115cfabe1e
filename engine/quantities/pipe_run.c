// SPDX-License-Identifier: MIT
#include "quantities/pipe_run.h"

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

static void tell_size(struct evaluation *ev, int entity, enum row_id given) {
  struct text right = text_in(evaluation_arena(ev));
  for (size_t i = 0; i < trade_pipe_count; i++) text_printf(&right, "%s%s", i ? ", " : "", trade_pipes[i].nominal);
  evaluation_impossible(ev, entity, given, "is no size of this pipe", text_end(&right));
}

static double bore_of_size(struct evaluation *ev, const char *size, enum word material, int entity, enum row_id given) {
  double nominal = evaluation_marked(ev) ? (double)NAN : size_as_length(ev, size);
  if (evaluation_marked(ev)) return (double)NAN;
  if (material != WORD_pipe_material_pvc && nominal > 0) return nominal;
  for (size_t i = 0; i < trade_pipe_count && nominal > 0; i++) {
    if (fabs(size_as_length(ev, trade_pipes[i].nominal) - nominal) < 1e-6) return trade_pipes[i].bore;
  }
  tell_size(ev, entity, given);
  return (double)NAN;
}

double pipe_run_bore(struct evaluation *ev, struct pipe_ref pipe) {
  const char *size = pipe_get_size(ev, pipe);
  return bore_of_size(ev, size, pipe_get_material(ev, pipe), pipe.at, ROW_pipe_size);
}

static double fitting_loss(struct evaluation *ev, struct fitting_ref fitting) {
  enum word type = fitting_get_type(ev, fitting);
  double count = fitting_get_count(ev, fitting);
  return evaluation_marked(ev) ? (double)NAN : count * trade_fitting_loss(type);
}

// ---- Valves ----

// The two rows of a valve's table between which an opening lies; outside of the table the nearest two.
static bool valve_rows(enum word valve, double open, const struct trade_valve **low, const struct trade_valve **high) {
  *low = *high = NULL;
  for (size_t i = 0; i < trade_valve_count && !(*high && (*high)->open >= open); i++) {
    if (trade_valves[i].valve != valve) continue;
    if (*high || !*low) *low = *high ? *high : &trade_valves[i];
    if (*low != &trade_valves[i]) *high = &trade_valves[i];
  }
  return *low && *high;
}

// Between two openings of the table ln K runs straight. Under its first row the hole shrinks with the opening, and K
// goes with the square of that: common practice, no source.
double valve_loss(enum word valve, double open) {
  const struct trade_valve *low, *high;
  if (!valve_rows(valve, open, &low, &high)) return 0;
  if (open < low->open) return low->k * (low->open / open) * (low->open / open);
  double share = (open - low->open) / (high->open - low->open);
  return exp(log(low->k) + share * log(high->k / low->k));
}

double valve_opening(enum word valve, double k) {
  if (!(k > valve_loss(valve, 1))) return 1;
  double low = 0, high = 1;
  for (int i = 0; i < 60; i++) {
    double middle = (low + high) / 2;
    *(valve_loss(valve, middle) > k ? &low : &high) = middle;
  }
  return high;
}

bool pipe_is_shut(struct evaluation *ev, struct pipe_ref pipe) {
  enum word valve = pipe_get_valve(ev, pipe);
  return valve != WORD_valve_none && pipe_get_valve_open(ev, pipe) <= 0;
}

bool pipe_has_valve(struct evaluation *ev, struct pipe_ref pipe) {
  enum word valve = pipe_get_valve(ev, pipe);
  return valve != WORD_valve_none && valve != WORD_COUNT;
}

// ---- A run ----

static void take_material(struct evaluation *ev, struct pipe_run *run, enum word material) {
  if (evaluation_marked(ev)) return;
  if (material == WORD_pipe_material_corrugated_hose) evaluation_outside(ev);
  run->pipe.roughness = trade_roughness(material).roughness;
  run->times = trade_roughness(material).times;
}

struct pipe_run pipe_run_of(struct evaluation *ev, struct pipe_ref pipe) {
  struct pipe_run run = {.pipe = {.length = pipe_get_length(ev, pipe), .bore = pipe_get_bore(ev, pipe)}};
  for (size_t i = 0; i < pipe_count_fittings(ev, pipe); i++) {
    run.pipe.minor += fitting_loss(ev, pipe_fittings_at(ev, pipe, i));
  }
  run.check = pipe_get_check_valve(ev, pipe) == WORD_fitted_fitted;
  if (run.check) run.pipe.minor += trade_check_valve_loss;
  enum word valve = pipe_get_valve(ev, pipe);
  run.open = pipe_get_valve_open(ev, pipe);
  run.valve = !evaluation_marked(ev) && valve != WORD_valve_none;
  if (run.valve && run.open > 0) run.valve_k = valve_loss(valve, run.open);
  take_material(ev, &run, pipe_get_material(ev, pipe));
  return run;
}

struct pipe_run pipe_run_suction(struct evaluation *ev, struct pump_ref pump) {
  struct pipe_run run = {.pipe = {.length = pump_get_suction_length(ev, pump)}};
  const char *size = pump_get_suction_size(ev, pump);
  run.pipe.bore = bore_of_size(ev, size, WORD_pipe_material_pvc, pump.at, ROW_pump_suction_size);
  run.pipe.minor = trade_entrance_loss;
  for (size_t i = 0; i < pump_count_suction_fittings(ev, pump); i++) {
    run.pipe.minor += fitting_loss(ev, pump_suction_fittings_at(ev, pump, i));
  }
  take_material(ev, &run, WORD_pipe_material_pvc);
  return run;
}

// With the flow squared: housings and valves of a filter lose more of it than the medium does.
static double filter_k2(double rated, double loss) { return loss / (rated * rated); }

bool pipe_run_filter(struct evaluation *ev, struct pipe_ref pipe, struct pipe_filter *it) {
  if (!pipe_states_filter(ev, pipe)) return false;
  struct filter_ref filter = pipe_get_filter(ev, pipe);
  double rated = filter_get_rated_flow(ev, filter);
  it->clean_k2 = filter_k2(rated, filter_get_clean_loss(ev, filter));
  it->dirty_k2 = it->clean_k2;
  if (filter_states_dirty_loss(ev, filter)) it->dirty_k2 = filter_k2(rated, filter_get_dirty_loss(ev, filter));
  return true;
}

double pipe_run_loss(const struct pipe_run *run, double flow) {
  struct pipe straight = {run->pipe.length, run->pipe.bore, run->pipe.roughness, 0};
  double friction = pipe_friction_loss(&straight, flow, water_kinematic_viscosity(WATER_USUAL_TEMPERATURE));
  return run->times * friction + pipe_minor_loss(run->pipe.minor + run->valve_k, pipe_velocity(flow, run->pipe.bore));
}
