// SPDX-License-Identifier: MIT
// B. Circulation: pumps on their one path, and the flows that follow.
#include <math.h>

#include "physics/pipe.h"
#include "physics/pump.h"
#include "quantities/read.h"
#include "quantities/water_path.h"

#define FOREBAY_ROWS "catalogue/circulation.def"

// ---- Pumps ----

static struct pump_curve curve_of(struct evaluation *ev, struct pump_ref pump) {
  size_t count = pump_count_curve(ev, pump);
  struct pump_point *points = arena_array(evaluation_arena(ev), count + 1, sizeof *points);
  for (size_t i = 0; i < count; i++) {
    struct curve_point_ref point = pump_curve_at(ev, pump, i);
    points[i] = (struct pump_point){curve_point_get_flow(ev, point), curve_point_get_head(ev, point)};
  }
  return (struct pump_curve){points, count, pump_get_speed(ev, pump)};
}

static const struct pump_run *run_of_pump(struct evaluation *ev, struct pump_ref pump) {
  struct pump_run *run = arena_alloc(evaluation_arena(ev), sizeof *run);
  struct water_path path;
  struct pump_curve curve = curve_of(ev, pump);
  if (!water_path_of(ev, pump, &path) || evaluation_marked(ev)) return NULL;
  if (pump_curve_fault(&curve) < curve.count) {
    evaluation_impossible(ev, pump.at, ROW_pump_curve, "is not a pump's curve", "two points or more in order of flow");
    return NULL;
  }
  run->static_head = path.outlet - path.suction;
  struct pump_duty duty = {.flow = 0, .head = pump_shut_off_head(&curve)};
  if (!path.closed) duty = pump_operating_point(&curve, water_path_asks, &path);
  run->flow = duty.flow;
  run->head = duty.head;
  run->losses = path.closed ? 0 : water_path_losses(&path, duty.flow);
  return run;
}

#define OF_RUN(name, expression)                                               \
  static double name##_of_pump(struct evaluation *ev, struct pump_ref pump) {     \
    const struct pump_run *run = pump_get_run(ev, pump);                       \
    return run ? (expression) : (double)NAN;                                   \
  }
OF_RUN(flow, run->flow)
OF_RUN(head, run->head)
OF_RUN(static_head, run->static_head)
OF_RUN(friction_head, run->losses)
#undef OF_RUN

static double shut_off_head_of_pump(struct evaluation *ev, struct pump_ref pump) {
  struct pump_curve curve = curve_of(ev, pump);
  return evaluation_marked(ev) ? (double)NAN : pump_shut_off_head(&curve);
}

static double static_share_of_pump(struct evaluation *ev, struct pump_ref pump) {
  return pump_get_static_head(ev, pump) / pump_get_shut_off_head(ev, pump);
}

static double greatest_flow_of_pump(struct evaluation *ev, struct pump_ref pump) {
  struct pump_curve curve = curve_of(ev, pump);
  return evaluation_marked(ev) ? (double)NAN : pump_greatest_flow(&curve);
}

static double share_of_greatest_of_pump(struct evaluation *ev, struct pump_ref pump) {
  return pump_get_flow(ev, pump) / pump_get_greatest_flow(ev, pump);
}

static double share_of_best_of_pump(struct evaluation *ev, struct pump_ref pump) {
  return pump_get_flow(ev, pump) / pump_get_best_flow(ev, pump);
}

static double energy_per_year_of_pump(struct evaluation *ev, struct pump_ref pump) {
  return pump_get_power(ev, pump) * 365 * 24 * 3600;
}

// ---- Pipes ----

static double bore_of_pipe(struct evaluation *ev, struct pipe_ref pipe) { return pipe_bore_of(ev, pipe); }

static double share_of_pump(struct evaluation *ev, struct pump_ref pump) {
  size_t open = 0;
  for (size_t i = 0; i < pump_count_pipes_out(ev, pump); i++) open += !pipe_is_shut(ev, pump_pipes_out_at(ev, pump, i));
  if (open > 1) evaluation_missing(ev, "the pump's water branches: measure the flow of this pipe");
  return pump_get_flow(ev, pump);
}

static double share_of_junction(struct evaluation *ev, struct junction_ref junction) {
  size_t open = 0;
  for (size_t i = 0; i < junction_count_pipes_out(ev, junction); i++) {
    open += !pipe_is_shut(ev, junction_pipes_out_at(ev, junction, i));
  }
  if (open > 1) evaluation_missing(ev, "the water branches at its joint: measure the flow of this pipe");
  double flow = 0;
  for (size_t i = 0; i < junction_count_pipes_in(ev, junction) && open <= 1; i++) {
    flow += pipe_get_flow(ev, junction_pipes_in_at(ev, junction, i));
  }
  return flow;
}

static double flow_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  struct any_ref from = pipe_get_from(ev, pipe);
  if (pipe_is_shut(ev, pipe)) return 0;
  if (kind_of(ev, from) == KIND_pump) return share_of_pump(ev, (struct pump_ref){from.at});
  return share_of_junction(ev, (struct junction_ref){from.at});
}

static double velocity_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  return pipe_velocity(pipe_get_flow(ev, pipe), pipe_get_bore(ev, pipe));
}

static double head_loss_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  struct path_pipe it = path_pipe_of(ev, pipe);
  double flow = pipe_get_flow(ev, pipe);
  return evaluation_marked(ev) ? (double)NAN : path_pipe_loss(&it, flow);
}

static double volume_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  return pipe_volume(pipe_get_length(ev, pipe), pipe_get_bore(ev, pipe));
}

// ---- Jets ----

static double flow_of_jet(struct evaluation *ev, struct jet_ref jet) {
  double flow = 0;
  if (jet_count_pipes_in(ev, jet) == 0) {
    evaluation_impossible(ev, jet.at, ROW_jet_basin, "no pipe leads to it: it is not connected", "a pipe whose `to` is its name");
  }
  for (size_t i = 0; i < jet_count_pipes_in(ev, jet); i++) flow += pipe_get_flow(ev, jet_pipes_in_at(ev, jet, i));
  return flow;
}

static double share_of_target_of_jet(struct evaluation *ev, struct jet_ref jet) {
  return jet_get_flow(ev, jet) / jet_get_target(ev, jet);
}

static double head_of_jet(struct evaluation *ev, struct jet_ref jet) {
  return nozzle_head(jet_get_flow(ev, jet), nozzle_area_of(ev, jet));
}

// Weisbach's tests ran from 3 to 20 m of head.
static double height_of_jet(struct evaluation *ev, struct jet_ref jet) {
  double head = jet_get_head(ev, jet);
  if (!evaluation_marked(ev) && (head < 3 || head > 20)) evaluation_outside(ev);
  return head / (1.0216 + 0.002393 * head + 0.00032676 * head * head);
}

static double height_to_edge_of_jet(struct evaluation *ev, struct jet_ref jet) {
  return jet_get_height(ev, jet) / jet_get_to_edge(ev, jet);
}

// ---- Intakes and basins ----

static double flow_of_intake(struct evaluation *ev, struct intake_ref intake) {
  double flow = 0;
  for (size_t i = 0; i < intake_count_pumps(ev, intake); i++) flow += pump_get_flow(ev, intake_pumps_at(ev, intake, i));
  return flow;
}

static double share_of_greatest_of_intake(struct evaluation *ev, struct intake_ref intake) {
  return intake_get_flow(ev, intake) / intake_get_greatest_flow(ev, intake);
}

static double share_of_least_of_intake(struct evaluation *ev, struct intake_ref intake) {
  return intake_get_flow(ev, intake) / intake_get_least_flow(ev, intake);
}

static double face_speed_of_intake(struct evaluation *ev, struct intake_ref intake) {
  return intake_get_flow(ev, intake) / intake_get_open_area(ev, intake);
}

static double flow_drawn_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double flow = 0;
  for (size_t i = 0; i < basin_count_pumps(ev, basin); i++) flow += pump_get_flow(ev, basin_pumps_at(ev, basin, i));
  for (size_t i = 0; i < basin_count_intakes(ev, basin); i++) {
    flow += intake_get_flow(ev, basin_intakes_at(ev, basin, i));
  }
  return flow;
}

static double flow_in_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double flow = 0;
  for (size_t i = 0; i < basin_count_pipes_in(ev, basin); i++) flow += pipe_get_flow(ev, basin_pipes_in_at(ev, basin, i));
  for (size_t i = 0; i < basin_count_spills_in(ev, basin); i++) {
    flow += spill_get_flow(ev, basin_spills_in_at(ev, basin, i));
  }
  for (size_t i = 0; i < basin_count_channels_in(ev, basin); i++) {
    flow += channel_get_flow(ev, basin_channels_in_at(ev, basin, i));
  }
  for (size_t i = 0; i < basin_count_jets(ev, basin); i++) flow += jet_get_flow(ev, basin_jets_at(ev, basin, i));
  return flow;
}

static double return_share_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double drawn = basin_get_flow_drawn(ev, basin), in = basin_get_flow_in(ev, basin);
  return drawn <= 0 ? INFINITY : in / drawn;
}

static double turnover_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double drawn = basin_get_flow_drawn(ev, basin);
  double flow = drawn > 0 ? drawn : basin_get_flow_in(ev, basin);
  return basin_get_net_volume(ev, basin) / flow;
}

#include "quantities/export.h"
