// SPDX-License-Identifier: MIT
// B. Circulation, second part: targets and how to set valves for them, what-ifs on the flow, intakes, filters.
#include <math.h>

#include "physics/pipe.h"
#include "physics/pump.h"
#include "physics/water.h"
#include "quantities/pipe_run.h"
#include "quantities/read.h"
#include "quantities/water_heights.h"
#include "quantities/water_network.h"
#include "units/exact.h"

#define FOREBAY_ROWS "catalogue/plumbing.def"

// ---- What outlets should get ----

// A bowl's lips want what its pipe should bring, but for what comes over lips from above.
static double wanted_in_basin(struct evaluation *ev, struct basin_ref basin) {
  double wanted = 0;
  size_t lips = basin_count_spills_out(ev, basin);
  for (size_t i = 0; i < lips; i++) wanted += spill_get_target(ev, basin_spills_out_at(ev, basin, i));
  for (size_t i = 0; i < basin_count_spills_in(ev, basin); i++) {
    wanted -= spill_get_target(ev, basin_spills_in_at(ev, basin, i));
  }
  if (lips == 0) evaluation_missing(ev, "no lip of that basin has a target: state one for this pipe");
  if (basin_count_pipes_in(ev, basin) > 1)
    evaluation_missing(ev, "several pipes share that basin: state a target for each");
  return wanted;
}

static double wanted_in_junction(struct evaluation *ev, struct junction_ref junction) {
  double wanted = 0;
  for (size_t i = 0; i < junction_count_pipes_out(ev, junction); i++) {
    wanted += pipe_get_flow_wanted(ev, junction_pipes_out_at(ev, junction, i));
  }
  if (junction_count_pipes_in(ev, junction) > 1)
    evaluation_missing(ev, "several pipes share that joint: state a target for each");
  return wanted;
}

static double wanted_in_jet(struct evaluation *ev, struct jet_ref jet) {
  double wanted = jet_get_target(ev, jet);
  if (jet_count_pipes_in(ev, jet) > 1) evaluation_missing(ev, "several pipes share that jet: state a target for each");
  return wanted;
}

static double flow_wanted_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  if (pipe_states_target(ev, pipe)) return pipe_get_target(ev, pipe);
  struct any_ref to = pipe_get_to(ev, pipe);
  if (kind_of(ev, to) == KIND_junction) return wanted_in_junction(ev, (struct junction_ref){to.at});
  if (kind_of(ev, to) == KIND_jet) return wanted_in_jet(ev, (struct jet_ref){to.at});
  return wanted_in_basin(ev, (struct basin_ref){to.at});
}

// ---- Setting the valves ----

// The last valve on the way sets the flow; one before it is left as drawn.
static bool has_valve_after(struct evaluation *ev, struct pipe_ref pipe, int depth) {
  struct any_ref to = pipe_get_to(ev, pipe);
  if (kind_of(ev, to) != KIND_junction || depth > 64) return false;
  struct junction_ref junction = {to.at};
  for (size_t i = 0; i < junction_count_pipes_out(ev, junction); i++) {
    struct pipe_ref next = junction_pipes_out_at(ev, junction, i);
    if (pipe_has_valve(ev, next) || has_valve_after(ev, next, depth + 1)) return true;
  }
  return false;
}

static size_t targets_of(struct evaluation *ev, const struct water_running *running, struct network_target *targets,
                         int *pipes) {
  size_t count = 0;
  for (size_t i = 0; i < store_count(evaluation_design(ev), KIND_pipe); i++) {
    struct pipe_ref pipe = {store_of_kind(evaluation_design(ev), KIND_pipe, i)};
    size_t valve = running->valve_of[pipe.at];
    if (valve == NETWORK_AWAY || running->network.links[valve].shut || has_valve_after(ev, pipe, 0)) continue;
    double k_open = valve_loss(pipe_get_valve(ev, pipe), 1);
    targets[count] = (struct network_target){.link = valve, .flow = pipe_get_flow_wanted(ev, pipe), .k_open = k_open};
    pipes[count++] = pipe.at;
  }
  return count;
}

static const struct water_balance *balance_all(struct evaluation *ev, const struct water_running *running) {
  struct arena *arena = evaluation_arena(ev);
  size_t entities = evaluation_design(ev)->entity_count + 1;
  struct network_target *targets = arena_array(arena, entities, sizeof *targets);
  int *pipes = arena_array(arena, entities, sizeof *pipes);
  double *k = arena_array(arena, entities, sizeof *k), *spare = arena_array(arena, entities, sizeof *spare);
  size_t count = targets_of(ev, running, targets, pipes);
  if (evaluation_marked(ev)) return NULL;
  for (size_t i = 0; i < entities; i++) k[i] = spare[i] = (double)NAN;
  const struct network_answer *answer = network_balance(running->solver, targets, count);
  if (!answer->converged) evaluation_missing(ev, "no pump gives these targets together");
  for (size_t i = 0; i < count; i++) {
    double velocity = pipe_velocity(targets[i].flow, running->network.links[targets[i].link].valve.bore);
    k[pipes[i]] = targets[i].k;
    spare[pipes[i]] = targets[i].head - pipe_minor_loss(targets[i].k_open, velocity);
  }
  struct water_balance *balance = arena_alloc(arena, sizeof *balance);
  *balance = (struct water_balance){k, spare};
  return balance;
}

static const struct water_balance *balance_of_pump(struct evaluation *ev, struct pump_ref pump) {
  struct pump_ref first = water_network_first_pump(ev, pump.at);
  if (first.at != pump.at) return pump_get_balance(ev, first);
  const struct water_running *running = pump_get_circulation(ev, pump);
  return running ? balance_all(ev, running) : NULL;
}

static const struct water_balance *balance_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  const struct water_balance *balance = pump_get_balance(ev, water_network_first_pump(ev, pipe.at));
  if (!balance || !isnan(balance->k[pipe.at])) return balance;
  evaluation_missing(ev, "it has no open valve of its own, or one nearer the outlet sets its flow");
  return NULL;
}

static double head_for_valve_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  const struct water_balance *balance = balance_of_pipe(ev, pipe);
  return balance ? balance->head_to_spare[pipe.at] : (double)NAN;
}

static double opening_for_target_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  const struct water_balance *balance = balance_of_pipe(ev, pipe);
  enum word valve = pipe_get_valve(ev, pipe);
  if (!balance) return (double)NAN;
  double open = valve_opening(valve, balance->k[pipe.at]);
  if (open < 0.25) evaluation_outside(ev);  // under the table
  return open;
}

static double k_for_target_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  const struct water_balance *balance = balance_of_pipe(ev, pipe);
  enum word valve = pipe_get_valve(ev, pipe);
  return balance ? fmax(balance->k[pipe.at], valve_loss(valve, 1)) : (double)NAN;
}

static double valve_k_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  enum word valve = pipe_get_valve(ev, pipe);
  double open = pipe_get_valve_open(ev, pipe);
  if (evaluation_marked(ev)) return (double)NAN;
  return open > 0 ? valve_loss(valve, open) : INFINITY;
}

static double bucket_time_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  bool si = project_get_units(ev, the_project(ev)) == WORD_units_si;
  return (si ? 0.020 : 5 * GALLON) / pipe_get_flow_wanted(ev, pipe);
}

// ---- What is left for jets ----

struct taken {
  struct evaluation *ev;
  unsigned char *seen;
  double flow;  // that ends in basins
};

static void take_along(struct taken *taken, struct pipe_ref pipe) {
  struct evaluation *ev = taken->ev;
  if (taken->seen[pipe.at]) return;
  taken->seen[pipe.at] = 1;
  struct any_ref to = pipe_get_to(ev, pipe);
  if (kind_of(ev, to) == KIND_basin) taken->flow += pipe_get_flow(ev, pipe);
  if (kind_of(ev, to) != KIND_junction) return;
  struct junction_ref junction = {to.at};
  for (size_t i = 0; i < junction_count_pipes_out(ev, junction); i++) {
    take_along(taken, junction_pipes_out_at(ev, junction, i));
  }
}

static void take_from_pump(struct taken *taken, struct pump_ref pump) {
  for (size_t i = 0; i < pump_count_pipes_out(taken->ev, pump); i++) {
    take_along(taken, pump_pipes_out_at(taken->ev, pump, i));
  }
}

static double flow_left_for_jets_of_basin(struct evaluation *ev, struct basin_ref basin) {
  struct taken taken = {.ev = ev, .seen = arena_alloc(evaluation_arena(ev), evaluation_design(ev)->entity_count + 1)};
  for (size_t i = 0; i < basin_count_pumps(ev, basin); i++) take_from_pump(&taken, basin_pumps_at(ev, basin, i));
  for (size_t i = 0; i < basin_count_intakes(ev, basin); i++) {
    struct intake_ref intake = basin_intakes_at(ev, basin, i);
    for (size_t j = 0; j < intake_count_pumps(ev, intake); j++) take_from_pump(&taken, intake_pumps_at(ev, intake, j));
  }
  return basin_get_flow_drawn(ev, basin) - taken.flow;
}

// ---- What-ifs ----

static const struct water_fault *keep_fault(struct evaluation *ev, const struct water_running *running,
                                            const struct network_answer *answer) {
  if (!answer->converged) evaluation_missing(ev, "no steady flow was found for this case");
  size_t count = running->network.link_count;
  double *flows = arena_array(evaluation_arena(ev), count + 1, sizeof *flows);
  for (size_t i = 0; i < count; i++) flows[i] = answer->flows[i];
  struct water_fault *fault = arena_alloc(evaluation_arena(ev), sizeof *fault);
  fault->flows = flows;
  return fault;
}

static const struct water_fault *stopped_of_pump(struct evaluation *ev, struct pump_ref pump) {
  const struct water_running *running = pump_get_circulation(ev, pump);
  if (!running) return NULL;
  if (running->link_of[pump.at] == NETWORK_AWAY) {
    evaluation_missing(ev, "its flow was measured: what is left without it is not worked out");
    return NULL;
  }
  return keep_fault(ev, running, network_pump_out(running->solver, running->link_of[pump.at]));
}

static double flow_parted_of_pump(struct evaluation *ev, struct pump_ref pump) {
  const struct water_running *running = pump_get_circulation(ev, pump);
  double bore = pump_count_pipes_out(ev, pump) ? pipe_get_bore(ev, pump_pipes_out_at(ev, pump, 0)) : (double)NAN;
  if (!running || evaluation_marked(ev)) return (double)NAN;
  size_t link = running->link_of[pump.at];
  if (link == NETWORK_AWAY) return pump_get_flow(ev, pump);
  return network_parted(running->solver, running->node_of[pump.at], bore)->flows[link];
}

// False: none is in it, or a mark was set.
static bool set_filters(struct evaluation *ev, const struct water_running *running, bool dirty) {
  bool any = false;
  for (size_t i = 0; i < store_count(evaluation_design(ev), KIND_pipe); i++) {
    struct pipe_ref pipe = {store_of_kind(evaluation_design(ev), KIND_pipe, i)};
    size_t link = running->filter_of[pipe.at];
    if (link == NETWORK_AWAY) continue;
    filter_get_dirty_loss(ev, pipe_get_filter(ev, pipe));
    any = !evaluation_marked(ev);
    running->network.links[link].filter.dirty = dirty && any;
  }
  return any;
}

static const struct water_fault *keep_base(struct evaluation *ev, const struct water_running *running) {
  struct water_fault *fault = arena_alloc(evaluation_arena(ev), sizeof *fault);
  fault->flows = running->flows;
  return fault;
}

// Solved as another network, from rest; then the base again, so that what comes after does not know of it.
static const struct water_fault *filters_dirty_of_pump(struct evaluation *ev, struct pump_ref pump) {
  struct pump_ref first = water_network_first_pump(ev, pump.at);
  if (first.at != pump.at) return pump_get_filters_dirty(ev, first);
  const struct water_running *running = pump_get_circulation(ev, pump);
  if (!running) return NULL;
  if (!set_filters(ev, running, true)) return evaluation_marked(ev) ? NULL : keep_base(ev, running);
  const struct water_fault *fault = keep_fault(ev, running, network_solve(running->solver, false));
  set_filters(ev, running, false);
  network_solve(running->solver, false);
  return fault;
}

static const struct water_running *running_of_pipe(struct evaluation *ev, struct pipe_ref pipe,
                                                   struct pump_ref *first) {
  *first = water_network_first_pump(ev, pipe.at);
  return pump_get_circulation(ev, *first);
}

// A measured flow is lowered as the network lowers its own.
static double flow_under(const struct water_running *running, const struct water_fault *fault, struct pipe_ref pipe,
                         double flow) {
  size_t link = running->link_of[pipe.at];
  if (link == NETWORK_AWAY) return flow;
  double before = running->flows[link], after = fault->flows[link];
  return before > 0 ? flow * after / before : after;
}

static double flow_filter_dirty_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  struct pump_ref first;
  double flow = pipe_get_flow(ev, pipe);
  const struct water_running *running = running_of_pipe(ev, pipe, &first);
  const struct water_fault *fault = pump_get_filters_dirty(ev, first);
  return running && fault ? flow_under(running, fault, pipe, flow) : (double)NAN;
}

static double share_filter_dirty_of_jet(struct evaluation *ev, struct jet_ref jet) {
  double flow = 0;
  for (size_t i = 0; i < jet_count_pipes_in(ev, jet); i++)
    flow += pipe_get_flow_filter_dirty(ev, jet_pipes_in_at(ev, jet, i));
  return flow / jet_get_target(ev, jet);
}

// ---- What still comes into a basin ----

// One case: this pump out, or (none) all filters dirty.
struct faulty {
  struct evaluation *ev;
  struct pump_ref out;
};

static double pipe_under(const struct faulty *of, struct pipe_ref pipe) {
  struct evaluation *ev = of->ev;
  if (of->out.at < 0) return pipe_get_flow_filter_dirty(ev, pipe);
  double flow = pipe_get_flow(ev, pipe);
  if (water_network_first_pump(ev, pipe.at).at != water_network_first_pump(ev, of->out.at).at) return flow;
  const struct water_running *running = pump_get_circulation(ev, of->out);
  const struct water_fault *fault = pump_get_stopped(ev, of->out);
  return running && fault ? fmax(0, flow_under(running, fault, pipe, flow)) : (double)NAN;
}

static double basin_under(const struct faulty *of, struct basin_ref basin);

// Lips of one basin keep their shares.
static double left_of(const struct faulty *of, struct any_ref from) {
  if (kind_of(of->ev, from) != KIND_basin) return 1;
  double before = basin_get_flow_in(of->ev, (struct basin_ref){from.at});
  return before > 0 ? basin_under(of, (struct basin_ref){from.at}) / before : 0;
}

static double channel_under(const struct faulty *of, struct channel_ref channel) {
  struct evaluation *ev = of->ev;
  double flow = channel_get_flow(ev, channel);
  if (evaluation_marked(ev)) return (double)NAN;
  if (channel_states_from(ev, channel)) {
    struct any_ref from = channel_get_from(ev, channel);
    if (kind_of(ev, from) == KIND_channel) return channel_under(of, (struct channel_ref){from.at});
    return flow * left_of(of, from);
  }
  double in = 0;
  for (size_t i = 0; i < channel_count_spills_in(ev, channel); i++) {
    struct spill_ref spill = channel_spills_in_at(ev, channel, i);
    in += spill_get_flow(ev, spill) * left_of(of, (struct any_ref){spill_get_from(ev, spill).at});
  }
  for (size_t i = 0; i < channel_count_channels_in(ev, channel); i++) {
    in += channel_under(of, channel_channels_in_at(ev, channel, i));
  }
  return in;
}

static double jets_under(const struct faulty *of, struct basin_ref basin) {
  struct evaluation *ev = of->ev;
  double in = 0;
  for (size_t i = 0; i < basin_count_jets(ev, basin); i++) {
    struct jet_ref jet = basin_jets_at(ev, basin, i);
    for (size_t j = 0; j < jet_count_pipes_in(ev, jet); j++) in += pipe_under(of, jet_pipes_in_at(ev, jet, j));
  }
  return in;
}

static double basin_under(const struct faulty *of, struct basin_ref basin) {
  struct evaluation *ev = of->ev;
  basin_get_flow_in(ev, basin);  // a circle of lips is told there
  if (evaluation_marked(ev)) return (double)NAN;
  double in = jets_under(of, basin);
  for (size_t i = 0; i < basin_count_pipes_in(ev, basin); i++) in += pipe_under(of, basin_pipes_in_at(ev, basin, i));
  for (size_t i = 0; i < basin_count_spills_in(ev, basin); i++) {
    struct spill_ref spill = basin_spills_in_at(ev, basin, i);
    in += spill_get_flow(ev, spill) * left_of(of, (struct any_ref){spill_get_from(ev, spill).at});
  }
  for (size_t i = 0; i < basin_count_channels_in(ev, basin); i++)
    in += channel_under(of, basin_channels_in_at(ev, basin, i));
  return in;
}

static double flow_in_pump_out_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double least = basin_get_flow_in(ev, basin);
  for (size_t i = 0; i < store_count(evaluation_design(ev), KIND_pump); i++) {
    struct faulty of = {ev, {store_of_kind(evaluation_design(ev), KIND_pump, i)}};
    if (evaluation_marked(ev)) return (double)NAN;
    least = fmin(least, basin_under(&of, basin));
  }
  return least;
}

static double share_filter_dirty_of_spill(struct evaluation *ev, struct spill_ref spill) {
  struct faulty of = {ev, {-1}};
  double share = spill_get_share_of_target(ev, spill);
  return share * left_of(&of, (struct any_ref){spill_get_from(ev, spill).at});
}

// ---- Filters ----

static double flow_of_filter(struct evaluation *ev, struct filter_ref filter) {
  double flow = 0;
  for (size_t i = 0; i < filter_count_pipes(ev, filter); i++) flow += pipe_get_flow(ev, filter_pipes_at(ev, filter, i));
  return flow;
}

static double loading_of_filter(struct evaluation *ev, struct filter_ref filter) {
  return filter_get_flow(ev, filter) / filter_get_rated_flow(ev, filter);
}

static double head_dirty_of_filter(struct evaluation *ev, struct filter_ref filter) {
  double loading = filter_get_loading(ev, filter);
  return filter_get_dirty_loss(ev, filter) * loading * loading;
}

// ---- Intakes ----

static double cover_asked_of_intake(struct evaluation *ev, struct intake_ref intake) {
  return pump_intake_cover(intake_get_flow(ev, intake), intake_get_bore(ev, intake));
}

static double start_cover_of_intake(struct evaluation *ev, struct intake_ref intake) {
  struct basin_ref basin = intake_get_basin(ev, intake);
  double taken = basin_get_water_level(ev, basin) - basin_get_start_level(ev, basin);
  return intake_get_cover_depth(ev, intake) - taken;
}

static double cover_to_spare_of_intake(struct evaluation *ev, struct intake_ref intake) {
  return intake_get_start_cover(ev, intake) - intake_get_cover_asked(ev, intake);
}

static double gap_speed_of_intake(struct evaluation *ev, struct intake_ref intake) {
  return intake_get_flow(ev, intake) / (intake_get_gap_width(ev, intake) * intake_get_gap_depth(ev, intake));
}

// The velocity head, and half of it again lost where the water is squeezed together (K 0.5).
static double gap_draw_down_of_intake(struct evaluation *ev, struct intake_ref intake) {
  return pipe_minor_loss(1.5, intake_get_gap_speed(ev, intake));
}

static double load_to_spare_of_intake(struct evaluation *ev, struct intake_ref intake) {
  return intake_get_load_rating(ev, intake) - intake_get_load_over(ev, intake) - 300 * POUND;
}

// ---- Pipes in the ground, and what runs back out of them ----

static double test_head_of_pump(struct evaluation *ev, struct pump_ref pump) {
  return 1.5 * pump_get_shut_off_head(ev, pump);
}

static double cover_below_frost_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  return pipe_get_cover_depth(ev, pipe) - site_get_frost_depth(ev, the_site(ev));
}

static double freeboard_left_of_pump(struct evaluation *ev, struct pump_ref pump) {
  return basin_get_freeboard_left(ev, water_drawn_from(ev, pump));
}

static double runs_back(struct evaluation *ev, struct pipe_ref pipe, int depth) {
  struct any_ref to = pipe_get_to(ev, pipe);
  double volume = pipe_get_drain_back(ev, pipe) + pipe_get_siphon_back(ev, pipe);
  if (kind_of(ev, to) != KIND_junction || depth > 64) return volume;
  struct junction_ref junction = {to.at};
  if (junction_count_pipes_in(ev, junction) > 1) return volume;  // another pump's line holds the rest up, or lets it go
  for (size_t i = 0; i < junction_count_pipes_out(ev, junction); i++) {
    volume += runs_back(ev, junction_pipes_out_at(ev, junction, i), depth + 1);
  }
  return volume;
}

static double freeboard_with_check_of_pump(struct evaluation *ev, struct pump_ref pump) {
  struct basin_ref basin = water_drawn_from(ev, pump);
  double back = 0, volume = basin_get_water_in_flight(ev, basin);
  for (size_t i = 0; i < pump_count_pipes_out(ev, pump); i++) back += runs_back(ev, pump_pipes_out_at(ev, pump, i), 0);
  const struct basin_geometry *geometry = basin_get_geometry(ev, basin);
  double freeboard = basin_get_freeboard(ev, basin);
  if (evaluation_marked(ev)) return (double)NAN;
  double level = cuts_rise_to(&geometry->cuts, geometry->water_level, fmax(0, volume - back));
  return freeboard - (level - geometry->water_level);
}

#include "quantities/export.h"
