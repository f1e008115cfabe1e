// SPDX-License-Identifier: MIT
// B. Circulation: the flows that pumps drive through their pipes, and what they come to.
#include <math.h>

#include "physics/pipe.h"
#include "physics/pump.h"
#include "physics/water.h"
#include "quantities/pipe_run.h"
#include "quantities/read.h"
#include "quantities/water_network.h"

#define FOREBAY_ROWS "catalogue/circulation.def"

// ---- Pumps ----

// One solve for all that is joined, kept at its first pump.
static const struct water_running *circulation_of_pump(struct evaluation *ev, struct pump_ref pump) {
  struct pump_ref first = water_network_first_pump(ev, pump.at);
  return first.at == pump.at ? water_network_run(ev, first) : pump_get_circulation(ev, first);
}

static double head_lifted(const struct water_running *running, size_t link) {
  const struct network_link *it = &running->network.links[link];
  return running->heads[it->to] - running->heads[it->from];
}

// A measured pump is no link: what it gives is known, its head is not.
static size_t link_of_pump(struct evaluation *ev, const struct water_running *running, struct pump_ref pump) {
  size_t link = running ? running->link_of[pump.at] : NETWORK_AWAY;
  if (running && link == NETWORK_AWAY) evaluation_missing(ev, "its flow was measured, its head was not");
  return link;
}

static double flow_of_pump(struct evaluation *ev, struct pump_ref pump) {
  const struct water_running *running = pump_get_circulation(ev, pump);
  size_t link = link_of_pump(ev, running, pump);
  if (link == NETWORK_AWAY) return (double)NAN;
  bool still = running->states[link] == NETWORK_LIFTS_NOTHING || running->states[link] == NETWORK_BLOCKED;
  return still ? 0 : running->flows[link];
}

static double head_of_pump(struct evaluation *ev, struct pump_ref pump) {
  const struct water_running *running = pump_get_circulation(ev, pump);
  size_t link = link_of_pump(ev, running, pump);
  if (link == NETWORK_AWAY) return (double)NAN;
  double flow = pump_get_flow(ev, pump), shut_off = pump_get_shut_off_head(ev, pump);
  return flow == 0 ? shut_off : head_lifted(running, link);
}

static double static_head_of_pump(struct evaluation *ev, struct pump_ref pump) {
  const struct water_running *running = pump_get_circulation(ev, pump);
  return running ? running->lift[pump.at] : (double)NAN;
}

// Where it cannot lift, nothing flows and nothing is lost.
static double friction_head_of_pump(struct evaluation *ev, struct pump_ref pump) {
  double flow = pump_get_flow(ev, pump), head = pump_get_head(ev, pump), lift = pump_get_static_head(ev, pump);
  return flow > 0 ? fmax(0, head - lift) : flow * 0;
}

static double suction_velocity_of_pump(struct evaluation *ev, struct pump_ref pump) {
  double flow = pump_get_flow(ev, pump);
  struct pipe_run run = pipe_run_suction(ev, pump);
  return evaluation_marked(ev) ? (double)NAN : pipe_velocity(flow, run.pipe.bore);
}

static struct pump_curve curve_of(struct evaluation *ev, struct pump_ref pump) {
  size_t count = pump_count_curve(ev, pump);
  struct pump_point *points = arena_array(evaluation_arena(ev), count + 1, sizeof *points);
  for (size_t i = 0; i < count; i++) {
    struct curve_point_ref point = pump_curve_at(ev, pump, i);
    points[i] = (struct pump_point){curve_point_get_flow(ev, point), curve_point_get_head(ev, point)};
  }
  return (struct pump_curve){points, count, pump_get_speed(ev, pump)};
}

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

static const struct system_curve *system_curve_of_pump(struct evaluation *ev, struct pump_ref pump) {
  const struct water_running *running = pump_get_circulation(ev, pump);
  double greatest = pump_get_greatest_flow(ev, pump);
  size_t link = link_of_pump(ev, running, pump);
  if (link == NETWORK_AWAY || evaluation_marked(ev)) return NULL;
  struct system_curve *curve = arena_alloc(evaluation_arena(ev), sizeof *curve);
  for (int i = 0; i < SYSTEM_CURVE_POINTS; i++) curve->flows[i] = greatest * i / (SYSTEM_CURVE_POINTS - 1);
  if (network_system_curve(running->solver, link, curve->flows, curve->heads, SYSTEM_CURVE_POINTS)) return curve;
  evaluation_missing(ev, "what its pipes ask was not found for every flow: no way through is open for it");
  return NULL;
}

static double asked_at_none_of_pump(struct evaluation *ev, struct pump_ref pump) {
  const struct system_curve *curve = pump_get_system_curve(ev, pump);
  return curve ? curve->heads[0] : (double)NAN;
}

static double asked_at_half_of_pump(struct evaluation *ev, struct pump_ref pump) {
  const struct system_curve *curve = pump_get_system_curve(ev, pump);
  return curve ? curve->heads[SYSTEM_CURVE_POINTS / 2] : (double)NAN;
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

static double bore_of_pipe(struct evaluation *ev, struct pipe_ref pipe) { return pipe_run_bore(ev, pipe); }

static double solved_flow(struct evaluation *ev, struct pipe_ref pipe) {
  struct pump_ref first = water_network_first_pump(ev, pipe.at);
  if (first.at < 0) return 0;
  const struct water_running *running = pump_get_circulation(ev, first);
  return running ? running->flows[running->link_of[pipe.at]] : (double)NAN;
}

// All of a pump's water where one pipe takes it, measured or not.
static double flow_from_pump(struct evaluation *ev, struct pipe_ref pipe, struct pump_ref pump) {
  size_t open = 0;
  for (size_t i = 0; i < pump_count_pipes_out(ev, pump); i++) open += !pipe_is_shut(ev, pump_pipes_out_at(ev, pump, i));
  return open > 1 ? solved_flow(ev, pipe) : pump_get_flow(ev, pump);
}

// A flow measured before a joint says nothing of how its branches share it.
static double flow_from_junction(struct evaluation *ev, struct pipe_ref pipe, struct junction_ref junction) {
  size_t open = 0, in = junction_count_pipes_in(ev, junction);
  double flow = 0;
  for (size_t i = 0; i < junction_count_pipes_out(ev, junction); i++) {
    open += !pipe_is_shut(ev, junction_pipes_out_at(ev, junction, i));
  }
  if (in == 0) {
    evaluation_impossible(ev, junction.at, ROW_junction_at, "no pipe leads to it: it is not connected",
                          "a pipe whose `to` is its name");
  }
  for (size_t i = 0; i < in; i++) {
    struct pipe_ref before = junction_pipes_in_at(ev, junction, i);
    bool measured = evaluation_stated(ev, before.at, ROW_pipe_flow);
    if (open > 1 && measured) evaluation_missing(ev, "the water branches after a measured pipe: measure this pipe too");
    if (open <= 1) flow += pipe_get_flow(ev, before);
  }
  return open > 1 ? solved_flow(ev, pipe) : flow;
}

static double flow_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  struct any_ref from = pipe_get_from(ev, pipe);
  if (pipe_is_shut(ev, pipe)) return 0;
  if (kind_of(ev, from) == KIND_pump) return flow_from_pump(ev, pipe, (struct pump_ref){from.at});
  return flow_from_junction(ev, pipe, (struct junction_ref){from.at});
}

static double velocity_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  return pipe_velocity(pipe_get_flow(ev, pipe), pipe_get_bore(ev, pipe));
}

static double head_loss_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  struct pipe_run run = pipe_run_of(ev, pipe);
  struct pipe_filter filter = {0};
  pipe_run_filter(ev, pipe, &filter);
  double flow = pipe_get_flow(ev, pipe);
  return evaluation_marked(ev) ? (double)NAN : pipe_run_loss(&run, flow) + filter.clean_k2 * flow * fabs(flow);
}

static double volume_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  return pipe_volume(pipe_get_length(ev, pipe), pipe_get_bore(ev, pipe));
}

// ---- Jets ----

static double flow_of_jet(struct evaluation *ev, struct jet_ref jet) {
  double flow = 0;
  if (jet_count_pipes_in(ev, jet) == 0) {
    evaluation_impossible(ev, jet.at, ROW_jet_basin, "no pipe leads to it: it is not connected",
                          "a pipe whose `to` is its name");
  }
  for (size_t i = 0; i < jet_count_pipes_in(ev, jet); i++) flow += pipe_get_flow(ev, jet_pipes_in_at(ev, jet, i));
  return flow;
}

static double share_of_target_of_jet(struct evaluation *ev, struct jet_ref jet) {
  return jet_get_flow(ev, jet) / jet_get_target(ev, jet);
}

static double head_of_jet(struct evaluation *ev, struct jet_ref jet) {
  double area = jet_get_count(ev, jet) * pipe_area(jet_get_orifice(ev, jet));
  double speed = jet_get_flow(ev, jet) / (jet_get_orifice_coefficient(ev, jet) * area);
  return speed * speed / (2 * GRAVITY);
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

// One opening covered: the others take it all. With a single one nothing is left to take it.
static double face_speed_blocked_of_intake(struct evaluation *ev, struct intake_ref intake) {
  double openings = intake_get_openings(ev, intake), speed = intake_get_face_speed(ev, intake);
  return speed * openings / (openings - 1);
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
  for (size_t i = 0; i < basin_count_pipes_in(ev, basin); i++)
    flow += pipe_get_flow(ev, basin_pipes_in_at(ev, basin, i));
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
