// SPDX-License-Identifier: MIT
#include "quantities/water_network.h"

#include <math.h>

#include "catalogue/trade.h"
#include "physics/pipe.h"
#include "physics/water.h"
#include "quantities/pipe_run.h"
#include "quantities/trial.h"
#include "quantities/water_heights.h"
#include "quantities/ways.h"

// Loss of a pump that stands still, on the bore of its delivery: common practice, no source.
#define IDLE_PUMP_LOSS 10.0

// ---- What is joined ----

struct joined {
  struct evaluation *ev;
  unsigned char *seen;  // by entity
  int *waiting;
  size_t count;
};

static void meet(struct joined *joined, int entity) {
  if (entity < 0 || joined->seen[entity]) return;
  joined->seen[entity] = 1;
  joined->waiting[joined->count++] = entity;
}

static void meet_round_junction(struct joined *joined, struct junction_ref at) {
  struct evaluation *ev = joined->ev;
  for (size_t i = 0; i < junction_count_pipes_in(ev, at); i++) meet(joined, junction_pipes_in_at(ev, at, i).at);
  for (size_t i = 0; i < junction_count_pipes_out(ev, at); i++) meet(joined, junction_pipes_out_at(ev, at, i).at);
}

static void meet_round_pipe(struct joined *joined, struct pipe_ref pipe) {
  struct any_ref to = pipe_get_to(joined->ev, pipe);
  meet(joined, pipe_get_from(joined->ev, pipe).at);
  if (kind_of(joined->ev, to) != KIND_basin) meet(joined, to.at);
}

static void meet_round(struct joined *joined, int entity) {
  struct evaluation *ev = joined->ev;
  struct pump_ref pump = {entity};
  struct jet_ref jet = {entity};
  switch ((int)evaluation_design(ev)->entities[entity].kind) {
    case KIND_pump:
      for (size_t i = 0; i < pump_count_pipes_out(ev, pump); i++) meet(joined, pump_pipes_out_at(ev, pump, i).at);
      break;
    case KIND_jet:
      for (size_t i = 0; i < jet_count_pipes_in(ev, jet); i++) meet(joined, jet_pipes_in_at(ev, jet, i).at);
      break;
    case KIND_junction:
      meet_round_junction(joined, (struct junction_ref){entity});
      break;
    case KIND_pipe:
      meet_round_pipe(joined, (struct pipe_ref){entity});
      break;
    default:
      break;
  }
}

// Afterwards `seen` marks them all; or `until` and those met before it, where it is one of them (-1: go through all).
static struct joined joined_to(struct evaluation *ev, int entity, int until) {
  size_t count = evaluation_design(ev)->entity_count;
  struct joined joined = {.ev = ev,
                          .seen = arena_alloc(evaluation_arena(ev), count + 1),
                          .waiting = arena_array(evaluation_arena(ev), count + 1, sizeof(int))};
  meet(&joined, entity);
  for (size_t next = 0; next < joined.count && !(until >= 0 && joined.seen[until]); next++) {
    meet_round(&joined, joined.waiting[next]);
  }
  return joined;
}

// None comes before the first of the design: where that is met, no need to go on.
struct pump_ref water_network_first_pump(struct evaluation *ev, int entity) {
  const struct store *design = evaluation_design(ev);
  int first = store_count(design, KIND_pump) ? store_of_kind(design, KIND_pump, 0) : -1;
  struct joined joined = joined_to(ev, entity, first);
  for (size_t i = 0; i < design->entity_count; i++) {
    if (joined.seen[i] && design->entities[i].kind == KIND_pump) return (struct pump_ref){(int)i};
  }
  return (struct pump_ref){-1};
}

// ---- Building ----

enum level { LEVEL_UNASKED, LEVEL_ASKED, LEVEL_STILL, LEVEL_RISES };

struct builder {
  struct evaluation *ev;
  struct water_running *it;
  const unsigned char *joined;  // by entity
  enum level *level_of;         // by basin (entity)
  int *entity_of;               // by link
};

static size_t add_node(struct builder *to, double elevation) {
  struct network *network = &to->it->network;
  network->nodes[network->node_count] = (struct network_node){.elevation = elevation};
  return network->node_count++;
}

static size_t add_level(struct builder *to, double level) {
  size_t node = add_node(to, level);
  to->it->network.nodes[node].fixed = true;
  to->it->network.nodes[node].head = level;
  return node;
}

static size_t add_link(struct builder *to, int entity, struct network_link link) {
  struct network *network = &to->it->network;
  to->entity_of[network->link_count] = entity;
  network->links[network->link_count] = link;
  return network->link_count++;
}

static struct network_link pipe_link(size_t from, size_t to, const struct pipe_run *run) {
  return (struct network_link){
      .from = from, .to = to, .law = NETWORK_PIPE, .check = run->check, .pipe = {run->pipe, run->times}};
}

static struct pump_curve curve_of(struct evaluation *ev, struct pump_ref pump) {
  size_t count = pump_count_curve(ev, pump);
  struct pump_point *points = arena_array(evaluation_arena(ev), count + 1, sizeof *points);
  for (size_t i = 0; i < count; i++) {
    struct curve_point_ref point = pump_curve_at(ev, pump, i);
    points[i] = (struct pump_point){curve_point_get_flow(ev, point), curve_point_get_head(ev, point)};
  }
  struct pump_curve curve = {points, count, pump_get_speed(ev, pump)};
  if (!evaluation_marked(ev) && pump_curve_fault(&curve) < count) {
    evaluation_impossible(ev, pump.at, ROW_pump_curve, "is not a pump's curve", "two points or more in order of flow");
  }
  return curve;
}

static bool is_dry(struct evaluation *ev, struct pump_ref pump) {
  return pump_get_type(ev, pump) == WORD_pump_type_dry;
}

// A pump whose flow was measured gives that flow, whatever stands against it.
static void add_pump(struct builder *to, struct pump_ref pump, size_t delivery) {
  struct evaluation *ev = to->ev;
  if (evaluation_stated(ev, pump.at, ROW_pump_flow)) {
    to->it->network.nodes[delivery].inflow = pump_get_flow(ev, pump);
    return;
  }
  double level = water_suction_level(ev, pump), bore = pipe_get_bore(ev, pump_pipes_out_at(ev, pump, 0));
  struct pump_curve curve = curve_of(ev, pump);
  size_t from = add_level(to, level);
  if (is_dry(ev, pump)) {
    struct pipe_run run = pipe_run_suction(ev, pump);
    size_t mouth = add_node(to, level);
    add_link(to, pump.at, pipe_link(from, mouth, &run));
    from = mouth;
  }
  to->it->link_of[pump.at] =
      add_link(to, pump.at,
               (struct network_link){.from = from,
                                     .to = delivery,
                                     .law = NETWORK_PUMP,
                                     .pump = {.curve = curve, .k = IDLE_PUMP_LOSS, .bore = bore}});
}

static size_t add_valve(struct builder *to, struct pipe_ref pipe, const struct pipe_run *run, size_t from) {
  if (!run->valve) return from;
  size_t after = add_node(to, to->it->network.nodes[from].elevation);
  struct network_link link = {.from = from, .to = after, .law = NETWORK_VALVE, .shut = run->open <= 0};
  link.valve.k = run->valve_k;
  link.valve.bore = run->pipe.bore;
  to->it->valve_of[pipe.at] = add_link(to, pipe.at, link);
  return after;
}

static size_t add_filter(struct builder *to, struct pipe_ref pipe, size_t from) {
  struct pipe_filter filter;
  if (!pipe_run_filter(to->ev, pipe, &filter)) return from;
  size_t after = add_node(to, to->it->network.nodes[from].elevation);
  struct network_link link = {.from = from, .to = after, .law = NETWORK_FILTER};
  link.filter.clean_k2 = filter.clean_k2;
  link.filter.dirty_k2 = filter.dirty_k2;
  to->it->filter_of[pipe.at] = add_link(to, pipe.at, link);
  return after;
}

// ---- Bowls whose level the flow decides ----

static bool ends_under(struct evaluation *ev, struct pipe_ref pipe, double crest) {
  return pipe_get_outlet(ev, pipe) != WORD_outlet_drowned || pipe_get_outlet_at(ev, pipe) <= crest;
}

static bool vees_are_whole(struct evaluation *ev, struct basin_ref bowl) {
  for (size_t i = 0; i < basin_count_spills_out(ev, bowl); i++) {
    struct spill_ref spill = basin_spills_out_at(ev, bowl, i);
    if (spill_get_lip(ev, spill) == WORD_lip_vee && !spill_states_lip_depth(ev, spill)) return false;
  }
  return true;
}

static bool rises_with_flow(struct builder *to, struct basin_ref bowl);

static bool is_of_this_water(struct builder *to, struct basin_ref bowl) {
  struct evaluation *ev = to->ev;
  double still = basin_get_water_level(ev, bowl);
  for (size_t i = 0; i < basin_count_pipes_in(ev, bowl); i++) {
    struct pipe_ref pipe = basin_pipes_in_at(ev, bowl, i);
    if (!to->joined[pipe.at] || !ends_under(ev, pipe, still)) return false;
  }
  for (size_t i = 0; i < basin_count_spills_in(ev, bowl); i++) {
    if (!rises_with_flow(to, spill_get_from(ev, basin_spills_in_at(ev, bowl, i)))) return false;
  }
  return true;
}

// All its water comes from this circulation and leaves over lips and through channels. Another bowl keeps its still
// level, and so does one in a circle of lips.
static bool rises_with_flow(struct builder *to, struct basin_ref bowl) {
  struct evaluation *ev = to->ev;
  enum level *level = &to->level_of[bowl.at];
  if (*level != LEVEL_UNASKED) return *level == LEVEL_RISES;
  *level = LEVEL_ASKED;
  size_t drawn = basin_count_pumps(ev, bowl) + basin_count_intakes(ev, bowl);
  size_t others = drawn + basin_count_jets(ev, bowl) + basin_count_channels_in(ev, bowl);
  bool rises = others == 0 && is_of_this_water(to, bowl) && vees_are_whole(ev, bowl);
  rises = rises && ways_of_basin(ev, bowl).count > 0 && !evaluation_marked(ev);
  *level = rises ? LEVEL_RISES : LEVEL_STILL;
  return rises;
}

static double flow_in_channel(double level, void *with) { return way_flow(with, level, false); }

static void add_way(struct builder *to, int pipe, size_t bowl, struct way *way) {
  struct network_link link = {.from = bowl, .to = NETWORK_AWAY, .law = NETWORK_LIP, .falls = true, .at = way->crest};
  link.lip.weir = way->weir;
  if (way->channel) link.lip.flow = flow_in_channel;
  link.lip.with = way;
  to->it->link_of[way->entity] = add_link(to, pipe, link);
}

// With the bowls over it that spill into it.
static size_t add_bowl(struct builder *to, int pipe, struct basin_ref bowl) {
  struct evaluation *ev = to->ev;
  size_t *node = &to->it->node_of[bowl.at];
  if (*node != NETWORK_AWAY) return *node;
  struct ways ways = ways_of_basin(ev, bowl);
  *node = add_node(to, basin_get_water_level(ev, bowl));
  for (size_t i = 0; i < ways.count; i++) add_way(to, pipe, *node, &ways.at[i]);
  for (size_t i = 0; i < basin_count_spills_in(ev, bowl); i++) {
    struct spill_ref spill = basin_spills_in_at(ev, bowl, i);
    add_bowl(to, pipe, spill_get_from(ev, spill));
    size_t link = to->it->link_of[spill.at];
    if (link != NETWORK_AWAY) to->it->network.links[link].to = *node;
  }
  return *node;
}

// What falls into such a bowl from above its water.
static void lead_into_bowl(struct builder *to, struct pipe_ref pipe) {
  struct any_ref end = pipe_get_to(to->ev, pipe);
  if (kind_of(to->ev, end) != KIND_basin || to->it->node_of[end.at] == NETWORK_AWAY) return;
  to->it->network.links[to->it->link_of[pipe.at]].to = to->it->node_of[end.at];
}

// ---- Pipes and jets ----

// What runs back from a basin through a drowned end stops when that basin is down to it: not a steady flow.
static void end_in_basin(struct builder *to, struct pipe_ref pipe, struct basin_ref basin, struct network_link *link) {
  double height = water_pipe_end(to->ev, pipe, basin);
  link->pipe.pipe.minor += trade_leaving_loss;
  link->falls = pipe_get_outlet(to->ev, pipe) == WORD_outlet_above_water;
  link->at = height;
  link->check = true;
  link->to = NETWORK_AWAY;
  if (link->falls) return;
  bool rises = rises_with_flow(to, basin);
  link->to = rises ? add_bowl(to, pipe.at, basin) : add_level(to, height);
}

static void add_pipe(struct builder *to, struct pipe_ref pipe) {
  struct evaluation *ev = to->ev;
  struct any_ref from = pipe_get_from(ev, pipe), end = pipe_get_to(ev, pipe);
  struct pipe_run run = pipe_run_of(ev, pipe);
  if (evaluation_marked(ev)) return;
  bool first = kind_of(ev, from) == KIND_pump;
  if (first && !is_dry(ev, (struct pump_ref){from.at})) run.pipe.minor += trade_entrance_loss;
  size_t at = add_filter(to, pipe, add_valve(to, pipe, &run, to->it->node_of[from.at]));
  struct network_link link = pipe_link(at, to->it->node_of[end.at], &run);
  if (kind_of(ev, end) == KIND_basin) end_in_basin(to, pipe, (struct basin_ref){end.at}, &link);
  to->it->link_of[pipe.at] = add_link(to, pipe.at, link);
}

static void add_jet(struct builder *to, struct jet_ref jet) {
  struct evaluation *ev = to->ev;
  struct network_link link = {.from = to->it->node_of[jet.at],
                              .to = NETWORK_AWAY,
                              .law = NETWORK_NOZZLE,
                              .falls = true,
                              .at = water_jet_end(ev, jet)};
  link.nozzle.area = pipe_area(jet_get_orifice(ev, jet));
  link.nozzle.coefficient = jet_get_orifice_coefficient(ev, jet);
  link.nozzle.count = jet_get_count(ev, jet);
  to->it->link_of[jet.at] = add_link(to, jet.at, link);
}

static bool leads_on(struct evaluation *ev, int entity) {
  bool pump = evaluation_design(ev)->entities[entity].kind == KIND_pump;
  size_t count = pump ? pump_count_pipes_out(ev, (struct pump_ref){entity})
                      : junction_count_pipes_out(ev, (struct junction_ref){entity});
  if (count > 0) return true;
  evaluation_impossible(ev, entity, pump ? ROW_pump_from : ROW_junction_at, "no pipe leaves it: it is not connected",
                        "a pipe whose `from` is its name");
  return false;
}

static void add_node_of(struct builder *to, int entity) {
  struct evaluation *ev = to->ev;
  double height = 0;
  switch ((int)evaluation_design(ev)->entities[entity].kind) {
    case KIND_pump:
      if (!leads_on(ev, entity)) return;
      height = water_suction_level(ev, (struct pump_ref){entity});
      to->it->lift[entity] = water_lift(ev, (struct pump_ref){entity});
      break;
    case KIND_junction:
      if (!leads_on(ev, entity)) return;
      height = junction_get_at(ev, (struct junction_ref){entity});
      break;
    case KIND_jet:
      height = jet_get_at(ev, (struct jet_ref){entity});
      break;
    default:
      return;
  }
  to->it->node_of[entity] = add_node(to, height);
}

static void add_links_of(struct builder *to, int entity) {
  switch ((int)evaluation_design(to->ev)->entities[entity].kind) {
    case KIND_pump:
      add_pump(to, (struct pump_ref){entity}, to->it->node_of[entity]);
      break;
    case KIND_pipe:
      add_pipe(to, (struct pipe_ref){entity});
      break;
    case KIND_jet:
      add_jet(to, (struct jet_ref){entity});
      break;
    default:
      break;
  }
}

static size_t *nowhere(struct evaluation *ev) {
  size_t count = evaluation_design(ev)->entity_count;
  size_t *of = arena_array(evaluation_arena(ev), count + 1, sizeof *of);
  for (size_t i = 0; i < count; i++) of[i] = NETWORK_AWAY;
  return of;
}

// No member makes more than 3 nodes or 3 links, no other entity more than one.
static struct builder builder_for(struct evaluation *ev, size_t members) {
  struct arena *arena = evaluation_arena(ev);
  size_t most = 3 * members + evaluation_design(ev)->entity_count + 1;
  struct water_running *it = arena_alloc(arena, sizeof *it);
  *it = (struct water_running){
      .link_of = nowhere(ev), .valve_of = nowhere(ev), .filter_of = nowhere(ev), .node_of = nowhere(ev)};
  it->lift = arena_array(arena, evaluation_design(ev)->entity_count + 1, sizeof *it->lift);
  it->network.nodes = arena_array(arena, most, sizeof *it->network.nodes);
  it->network.links = arena_array(arena, most, sizeof *it->network.links);
  it->network.viscosity = water_kinematic_viscosity(WATER_USUAL_TEMPERATURE);
  return (struct builder){.ev = ev, .it = it, .entity_of = arena_array(arena, most, sizeof(int))};
}

// ---- Solving ----

static void release(void *solver) { network_solver_free(solver); }

static void keep(struct evaluation *ev, struct water_running *it, const struct network_answer *answer) {
  struct arena *arena = evaluation_arena(ev);
  const struct network *network = &it->network;
  it->flows = arena_array(arena, network->link_count + 1, sizeof *it->flows);
  it->heads = arena_array(arena, network->node_count + 1, sizeof *it->heads);
  it->states = arena_array(arena, network->link_count + 1, sizeof *it->states);
  for (size_t n = 0; n < network->node_count; n++) it->heads[n] = answer->heads[n];
  for (size_t i = 0; i < network->link_count; i++) {
    it->flows[i] = answer->flows[i];
    it->states[i] = answer->states[i];
    if (it->states[i] == NETWORK_BEYOND_END) evaluation_outside(ev);
  }
}

// In a trial it starts from what the base came to.
static struct network_solver *solver_of(struct evaluation *ev, const struct water_running *it, bool *warm) {
  const struct water_running *base = trial_base_bundle(ev);
  struct network_solver *like = base ? network_solver_like(base->solver, &it->network) : NULL;
  *warm = like != NULL;
  return like ? like : network_solver_new(&it->network);
}

static const struct water_running *solve(struct builder *of, struct pump_ref first) {
  struct water_running *it = of->it;
  bool warm = false;
  it->solver = solver_of(of->ev, it, &warm);
  if (!it->solver) arena_give_up(evaluation_arena(of->ev));
  arena_at_free(evaluation_arena(of->ev), release, it->solver);
  const struct network_answer *answer = network_solve(it->solver, warm);
  if (answer->status == NETWORK_BAD_LINK) {
    int entity = of->entity_of[answer->where];
    bool pump = evaluation_design(of->ev)->entities[entity].kind == KIND_pump;
    evaluation_impossible(of->ev, entity, pump ? ROW_pump_curve : ROW_pipe_length, "no flow can be worked out with it",
                          "lengths, bores and heads of a garden");
  } else if (!answer->converged) {
    evaluation_missing(of->ev, "no steady flow was found for these pipes: measure it");
  }
  (void)first;
  if (evaluation_marked(of->ev)) return NULL;
  keep(of->ev, it, answer);
  return it;
}

const struct water_running *water_network_run(struct evaluation *ev, struct pump_ref first) {
  struct joined joined = joined_to(ev, first.at, -1);
  struct builder builder = builder_for(ev, joined.count);
  builder.joined = joined.seen;
  builder.level_of = arena_alloc(evaluation_arena(ev), (evaluation_design(ev)->entity_count + 1) * sizeof(enum level));
  size_t count = evaluation_design(ev)->entity_count;
  for (size_t i = 0; i < count; i++) {
    if (joined.seen[i]) add_node_of(&builder, (int)i);
  }
  for (size_t i = 0; i < count && !evaluation_marked(ev); i++) {
    if (joined.seen[i]) add_links_of(&builder, (int)i);
  }
  for (size_t i = 0; i < store_count(evaluation_design(ev), KIND_pipe) && !evaluation_marked(ev); i++) {
    struct pipe_ref pipe = {store_of_kind(evaluation_design(ev), KIND_pipe, i)};
    if (joined.seen[pipe.at]) lead_into_bowl(&builder, pipe);
  }
  return evaluation_marked(ev) ? NULL : solve(&builder, first);
}
