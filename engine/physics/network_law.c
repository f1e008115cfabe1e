// SPDX-License-Identifier: MIT
// Head lost by each kind of link at a flow, and how fast it grows.
#include <math.h>

#include "physics/network_inside.h"
#include "physics/root.h"
#include "physics/water.h"

// Below this flow (a millionth of a litre a second) a loss runs straight to nothing: the slope of q|q| and of
// Hazen-Williams would be 0 at rest, and a solver would divide by it.
#define LEAST_FLOW 1e-9
// A link that loses less than 1e-11 m at a litre a second gets a straight loss of 1e-8 m/(m3/s): too little to notice.
#define SLIGHT 1e-8
#define PUMP_SLIGHT 1e-6  // the same for pumps, whose curves may be level
#define ORDINARY_FLOW 1e-3

struct law {
  double (*loss)(const struct network_link *link, double flow, double viscosity);
  double (*slope)(const struct network_link *link, double flow, double viscosity);
  double (*usual_flow)(const struct network_link *link);
};

static double pipe_loss(const struct network_link *link, double flow, double viscosity) {
  const struct pipe *pipe = &link->pipe.pipe;
  return link->pipe.times * pipe_friction_loss(pipe, flow, viscosity) +
         pipe_minor_loss(pipe->minor, pipe_velocity(flow, pipe->bore));
}

static double pipe_slope(const struct network_link *link, double flow, double viscosity) {
  struct pipe plain = link->pipe.pipe;
  const double minor = plain.minor;
  plain.length *= link->pipe.times;  // friction goes with the length
  plain.minor = minor;
  return pipe_head_slope(&plain, flow, viscosity);
}

static double pipe_usual(const struct network_link *link) { return pipe_area(link->pipe.pipe.bore); }

static double bore_loss(double k, double bore, double flow) { return pipe_minor_loss(k, pipe_velocity(flow, bore)); }

static double bore_slope(double k, double bore, double flow) {
  const double area = pipe_area(bore);
  return k * fabs(flow) / (GRAVITY * area * area);
}

static double valve_loss(const struct network_link *link, double flow, double viscosity) {
  (void)viscosity;
  return bore_loss(link->valve.k, link->valve.bore, flow);
}

static double valve_slope(const struct network_link *link, double flow, double viscosity) {
  (void)viscosity;
  return bore_slope(link->valve.k, link->valve.bore, flow);
}

static double valve_usual(const struct network_link *link) { return pipe_area(link->valve.bore); }

static double power_loss(const struct network_link *link, double flow, double viscosity) {
  (void)viscosity;
  return link->power.r * flow * pow(fabs(flow), link->power.n - 1);
}

static double power_slope(const struct network_link *link, double flow, double viscosity) {
  (void)viscosity;
  return link->power.n * link->power.r * pow(fabs(flow), link->power.n - 1);
}

static double power_usual(const struct network_link *link) {
  return link->power.r > 0 ? fmin(1, pow(1 / link->power.r, 1 / link->power.n)) : ORDINARY_FLOW;
}

static double filter_k1(const struct network_link *link) {
  return link->filter.dirty ? link->filter.dirty_k1 : link->filter.clean_k1;
}

static double filter_k2(const struct network_link *link) {
  return link->filter.dirty ? link->filter.dirty_k2 : link->filter.clean_k2;
}

static double filter_loss(const struct network_link *link, double flow, double viscosity) {
  (void)viscosity;
  return filter_k1(link) * flow + filter_k2(link) * flow * fabs(flow);
}

static double filter_slope(const struct network_link *link, double flow, double viscosity) {
  (void)viscosity;
  return filter_k1(link) + 2 * filter_k2(link) * fabs(flow);
}

static double filter_usual(const struct network_link *link) {
  (void)link;
  return ORDINARY_FLOW;
}

bool network_lifts(const struct network_link *link) {
  return link->law == NETWORK_PUMP && !link->pump.idle && link->pump.curve.speed > 0;
}

static double pump_loss(const struct network_link *link, double flow, double viscosity) {
  (void)viscosity;
  const double through = bore_loss(link->pump.k, link->pump.bore, flow);
  if (!network_lifts(link)) return through;
  const double back = flow < 0 ? through : 0;
  return back + PUMP_SLIGHT * flow - pump_head(&link->pump.curve, flow);
}

static double pump_slope(const struct network_link *link, double flow, double viscosity) {
  (void)viscosity;
  const double through = bore_slope(link->pump.k, link->pump.bore, flow);
  if (!network_lifts(link)) return through;
  const double back = flow < 0 ? through : 0;
  return back + PUMP_SLIGHT - pump_head_slope(&link->pump.curve, flow);
}

static double pump_usual(const struct network_link *link) {
  return network_lifts(link) ? pump_greatest_flow(&link->pump.curve) / 2 : ORDINARY_FLOW;
}

// (q / C A n)^2 / 2g
static double nozzle_k(const struct network_link *link) {
  const double area = link->nozzle.area * link->nozzle.coefficient * link->nozzle.count;
  return 1 / (2 * GRAVITY * area * area);
}

static double nozzle_loss(const struct network_link *link, double flow, double viscosity) {
  (void)viscosity;
  return nozzle_k(link) * flow * fabs(flow);
}

static double nozzle_slope(const struct network_link *link, double flow, double viscosity) {
  (void)viscosity;
  return 2 * nozzle_k(link) * fabs(flow);
}

static double nozzle_usual(const struct network_link *link) { return sqrt(0.5 / nozzle_k(link)); }

struct wanted {
  const struct network_link *link;
  double flow;
};

static double surplus_over_lip(double head, void *with) {
  const struct wanted *wanted = with;
  const double flow = wanted->link->lip.flow(wanted->link->at + head, wanted->link->lip.with);
  return (flow > 0 ? flow : 0) - wanted->flow;
}

// Head over the crest that gives a flow, by the caller's law. 1000 m and still too little: that, so that all stays
// finite.
static double head_by_callback(const struct network_link *link, double flow) {
  struct wanted wanted = {.link = link, .flow = flow};
  double high = 1. / 1024;
  while (high < 1000 && surplus_over_lip(high, &wanted) < 0) high *= 2;
  return root_rising(surplus_over_lip, &wanted, 0, high);
}

static double lip_loss(const struct network_link *link, double flow, double viscosity) {
  (void)viscosity;
  if (link->lip.flow) return flow > 0 ? head_by_callback(link, flow) : 0;
  return flow > 0 ? weir_head(&link->lip.weir, flow).likely : 0;
}

static double lip_slope(const struct network_link *link, double flow, double viscosity) {
  const double part = 1e-5;  // of the flow, to both sides
  if (flow <= 0) return 0;
  return (lip_loss(link, flow * (1 + part), viscosity) - lip_loss(link, flow * (1 - part), viscosity)) /
         (2 * part * flow);
}

static double lip_usual(const struct network_link *link) {
  (void)link;
  return ORDINARY_FLOW;
}

static const struct law LAWS[NETWORK_LAWS] = {
    [NETWORK_PIPE] = {pipe_loss, pipe_slope, pipe_usual},
    [NETWORK_VALVE] = {valve_loss, valve_slope, valve_usual},
    [NETWORK_POWER] = {power_loss, power_slope, power_usual},
    [NETWORK_FILTER] = {filter_loss, filter_slope, filter_usual},
    [NETWORK_PUMP] = {pump_loss, pump_slope, pump_usual},
    [NETWORK_NOZZLE] = {nozzle_loss, nozzle_slope, nozzle_usual},
    [NETWORK_LIP] = {lip_loss, lip_slope, lip_usual},
};

bool network_falls(const struct network_link *link) {
  return link->falls || link->law == NETWORK_NOZZLE || link->law == NETWORK_LIP;
}

bool network_one_way(const struct network_link *link) { return link->check || network_falls(link); }

double network_usual_flow(const struct network_link *link) { return LAWS[link->law].usual_flow(link); }

bool network_is_slight(const struct network_link *link, double viscosity) {
  return !network_lifts(link) && fabs(LAWS[link->law].loss(link, ORDINARY_FLOW, viscosity)) < SLIGHT * ORDINARY_FLOW;
}

// Without the walls: the law itself, straight near rest.
static double plain_loss(const struct network_link *link, double flow, const struct network_view *view) {
  const struct law *law = &LAWS[link->law];
  if (network_lifts(link)) return law->loss(link, flow, view->viscosity);
  if (view->slight) return SLIGHT * flow;
  if (fabs(flow) >= LEAST_FLOW) return law->loss(link, flow, view->viscosity);
  return law->loss(link, LEAST_FLOW, view->viscosity) * (flow / LEAST_FLOW);
}

static double plain_slope(const struct network_link *link, double flow, const struct network_view *view) {
  const struct law *law = &LAWS[link->law];
  if (network_lifts(link)) return law->slope(link, flow, view->viscosity);
  if (view->slight) return SLIGHT;
  if (fabs(flow) >= LEAST_FLOW) return law->slope(link, flow, view->viscosity);
  return law->loss(link, LEAST_FLOW, view->viscosity) / LEAST_FLOW;
}

// A hair before the last point: behind it a curve has no head, and rounding must not step over.
static double past_end(const struct network_link *link, double flow) {
  return network_lifts(link) ? fmax(0, flow - pump_greatest_flow(&link->pump.curve) * (1 - 1e-12)) : 0;
}

// The way out through air is the harder wall: what stands behind a shut one then takes the head of its pump.
static double wall_back(const struct network_link *link, const struct network_view *view) {
  return network_falls(link) ? 1e3 * view->back : view->back;
}

double network_loss(const struct network_link *link, double flow, const struct network_view *view) {
  if (flow < 0 && network_one_way(link)) {
    return plain_loss(link, 0, view) + wall_back(link, view) * flow;
  }
  const double past = past_end(link, flow);
  return plain_loss(link, flow - past, view) + view->end * past;
}

double network_slope(const struct network_link *link, double flow, const struct network_view *view) {
  if (flow < 0 && network_one_way(link)) return wall_back(link, view);
  if (past_end(link, flow) > 0) return view->end;
  return fmax(fabs(plain_slope(link, flow, view)), SLIGHT);
}
