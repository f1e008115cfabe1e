// SPDX-License-Identifier: MIT
// Adapters: water, weir, nappe, pipe, pump, channel, gravel. Included once, by reference_test.c.
#ifndef FOREBAY_REFERENCE_WATER_SIDE_H
#define FOREBAY_REFERENCE_WATER_SIDE_H

#include "physics/channel.h"
#include "physics/gravel.h"
#include "physics/nappe.h"
#include "physics/pipe.h"
#include "physics/pump.h"
#include "physics/water.h"
#include "physics/weir.h"
#include "row.h"

static double density(struct row *r) { return water_density(in(r, "temperature")); }
static double dynamic_viscosity(struct row *r) { return water_dynamic_viscosity(in(r, "temperature")); }
static double kinematic_viscosity(struct row *r) { return water_kinematic_viscosity(in(r, "temperature")); }

static const char *const LIPS[WEIR_LIPS] = {"thin_edge", "broad_stone", "rounded", "notch", "V"};

static enum weir_lip lip_in(struct row *r) { return (enum weir_lip)word_in(r, "lip", LIPS, WEIR_LIPS); }

static struct weir weir_in(struct row *r) {
  struct weir weir = {.lip = lip_in(r)};
  if (weir.lip == WEIR_V) {
    weir.angle = in(r, "angle");
  } else {
    weir.width = in(r, "width");
  }
  return weir;
}

static struct band flow_in(struct row *r) {
  const struct weir weir = weir_in(r);
  return weir_flow(&weir, in(r, "head"));
}

static struct band head_in(struct row *r) {
  const struct weir weir = weir_in(r);
  return weir_head(&weir, in(r, "flow"));
}

static double flow_low(struct row *r) { return flow_in(r).low; }
static double flow_likely(struct row *r) { return flow_in(r).likely; }
static double flow_high(struct row *r) { return flow_in(r).high; }
static double head_low(struct row *r) { return head_in(r).low; }
static double head_likely(struct row *r) { return head_in(r).likely; }
static double head_high(struct row *r) { return head_in(r).high; }
static double lip_coefficient(struct row *r) { return weir_coefficient(lip_in(r)).likely; }
static double is_outside(struct row *r) {
  const struct weir weir = weir_in(r);
  return weir_outside(&weir, in(r, "head"));
}
static double submerged_share(struct row *r) {
  return weir_submerged_share(lip_in(r), in(r, "head"), in(r, "tailwater"));
}

static double nappe_depth(struct row *r) { return nappe_critical_depth(in(r, "q")); }
static double brink_depth(struct row *r) { return nappe_brink_depth(in(r, "q")); }
static double brink_speed(struct row *r) { return nappe_brink_speed(in(r, "q")); }
static double fall_time(struct row *r) { return nappe_fall_time(in(r, "drop")); }
static double reach(struct row *r) { return nappe_reach(in(r, "speed"), in(r, "drop")); }
static double landing_speed(struct row *r) { return nappe_landing_speed(in(r, "q"), in(r, "drop")); }
static double throw_low(struct row *r) { return nappe_throw(in(r, "q"), in(r, "drop"), true).low; }
static double throw_high(struct row *r) { return nappe_throw(in(r, "q"), in(r, "drop"), true).high; }
static double sheet_length(struct row *r) { return nappe_sheet_length(in(r, "q")); }
static double sheet_flow(struct row *r) { return nappe_sheet_flow(in(r, "drop")); }
static double weber(struct row *r) { return nappe_weber(in(r, "q")); }

static struct pipe pipe_in(struct row *r) {
  return (struct pipe){
      .length = in(r, "length"), .bore = in(r, "bore"), .roughness = in(r, "roughness"), .minor = in(r, "minor")};
}

static double velocity(struct row *r) { return pipe_velocity(in(r, "flow"), in(r, "bore")); }
static double pipe_holds(struct row *r) { return pipe_volume(in(r, "length"), in(r, "bore")); }
static double friction_factor(struct row *r) {
  return pipe_friction_factor(in(r, "reynolds"), in(r, "relative_roughness"));
}
static double minor_loss(struct row *r) { return pipe_minor_loss(in(r, "k"), in(r, "velocity")); }
static double reynolds(struct row *r) {
  return pipe_reynolds(pipe_velocity(in(r, "flow"), in(r, "bore")), in(r, "bore"), in(r, "viscosity"));
}
static double head_loss(struct row *r) {
  const struct pipe pipe = pipe_in(r);
  return pipe_head_loss(&pipe, in(r, "flow"), in(r, "viscosity"));
}
static double head_loss_water(struct row *r) {
  const struct pipe pipe = pipe_in(r);
  return pipe_head_loss(&pipe, in(r, "flow"), water_kinematic_viscosity(in(r, "temperature")));
}

struct curve_in {
  struct pump_point points[PAIRS];
  struct pump_curve curve;
};

static void curve_in(struct row *r, struct curve_in *c) {
  struct pair pairs[PAIRS];
  c->curve = (struct pump_curve){.points = c->points, .count = pairs_in(r, "points", pairs), .speed = in(r, "speed")};
  for (size_t i = 0; i < c->curve.count; i++) c->points[i] = (struct pump_point){pairs[i].x, pairs[i].y};
}

static double curve_head(struct row *r) {
  struct curve_in c;
  curve_in(r, &c);
  return pump_head(&c.curve, in(r, "flow"));
}

static double curve_slope(struct row *r) {
  struct curve_in c;
  curve_in(r, &c);
  return pump_head_slope(&c.curve, in(r, "flow"));
}

// static + k (flow in gal/min)^2
struct square_law {
  double lift, k;
};

static double square_law(double flow, void *with) {
  const struct square_law *law = with;
  const double gpm = flow / (GAL / 60);
  return law->lift + law->k * gpm * gpm;
}

static struct pump_duty duty_in(struct row *r) {
  struct curve_in c;
  curve_in(r, &c);
  struct square_law law = {in(r, "static"), in(r, "per_gpm2")};
  return pump_operating_point(&c.curve, square_law, &law);
}

static double operating_flow(struct row *r) { return duty_in(r).flow; }
static double operating_head(struct row *r) { return duty_in(r).head; }
static double shaft_power(struct row *r) { return pump_shaft_power(in(r, "flow"), in(r, "head"), in(r, "efficiency")); }
static double power_at_speed(struct row *r) { return pump_power_at_speed(in(r, "power"), in(r, "speed")); }
static double intake_cover(struct row *r) { return pump_intake_cover(in(r, "flow"), in(r, "bore")); }

static struct channel section_in(struct row *r) {
  return (struct channel){.width = in(r, "width"), .side = in(r, "side")};
}

static struct channel channel_in(struct row *r) {
  struct channel channel = section_in(r);
  channel.slope = in(r, "slope");
  channel.n = in(r, "n");
  return channel;
}

static double normal_depth(struct row *r) {
  const struct channel channel = channel_in(r);
  return channel_normal_depth(&channel, in(r, "flow"));
}

static double critical_depth(struct row *r) {
  const struct channel section = section_in(r);
  return channel_critical_depth(&section, in(r, "flow"));
}

static double channel_speed(struct row *r) {
  const struct channel channel = channel_in(r);
  return channel_velocity(&channel, in(r, "flow"));
}

static double capacity(struct row *r) {
  const struct channel channel = channel_in(r);
  return channel_capacity(&channel, in(r, "depth"));
}

static struct gravel gravel_in(struct row *r) {
  return gravel_law(in(r, "stone_size"), in(r, "porosity"), in(r, "viscosity"));
}

static double gravel_a(struct row *r) { return gravel_in(r).a; }
static double gravel_b(struct row *r) { return gravel_in(r).b; }
static double gradient(struct row *r) {
  const struct gravel law = gravel_in(r);
  return gravel_gradient(&law, in(r, "speed"));
}
static double confined_flow(struct row *r) {
  const struct gravel law = gravel_in(r);
  return gravel_flow(&law, in(r, "gradient"), in(r, "width") * in(r, "depth"));
}
static double unconfined_flow(struct row *r) {
  const struct gravel law = gravel_in(r);
  return gravel_unconfined_flow(&law, in(r, "width"), in(r, "upstream"), in(r, "downstream"), in(r, "length"));
}
static double voids(struct row *r) { return gravel_void_volume(in(r, "bulk"), in(r, "porosity")); }

#define WATER_SIDE                                                                                                     \
  {"water_density", density}, {"water_dynamic_viscosity", dynamic_viscosity},                                          \
      {"water_kinematic_viscosity", kinematic_viscosity}, {"weir_flow.low", flow_low},                                 \
      {"weir_flow.likely", flow_likely}, {"weir_flow.high", flow_high}, {"weir_head.low", head_low},                   \
      {"weir_head.likely", head_likely}, {"weir_head.high", head_high}, {"weir_coefficient", lip_coefficient},         \
      {"weir_outside", is_outside}, {"weir_submerged_share", submerged_share}, {"nappe_critical_depth", nappe_depth},  \
      {"nappe_brink_depth", brink_depth}, {"nappe_brink_speed", brink_speed}, {"nappe_fall_time", fall_time},          \
      {"nappe_reach", reach}, {"nappe_landing_speed", landing_speed}, {"nappe_throw.low", throw_low},                  \
      {"nappe_throw.high", throw_high}, {"nappe_sheet_length", sheet_length}, {"nappe_sheet_flow", sheet_flow},        \
      {"nappe_weber", weber}, {"pipe_velocity", velocity}, {"pipe_volume", pipe_holds}, {"pipe_reynolds", reynolds},   \
      {"pipe_friction_factor", friction_factor}, {"pipe_minor_loss", minor_loss}, {"pipe_head_loss", head_loss},       \
      {"pipe_head_loss.water", head_loss_water}, {"pump_head", curve_head}, {"pump_head_slope", curve_slope},          \
      {"pump_operating_point.flow", operating_flow}, {"pump_operating_point.head", operating_head},                    \
      {"pump_shaft_power", shaft_power}, {"pump_power_at_speed", power_at_speed}, {"pump_intake_cover", intake_cover}, \
      {"channel_normal_depth", normal_depth}, {"channel_critical_depth", critical_depth},                              \
      {"channel_velocity", channel_speed}, {"channel_capacity", capacity}, {"gravel_law.a", gravel_a},                 \
      {"gravel_law.b", gravel_b}, {"gravel_gradient", gradient}, {"gravel_flow", confined_flow},                       \
      {"gravel_unconfined_flow", unconfined_flow}, {                                                                   \
    "gravel_void_volume", voids                                                                                        \
  }

#endif
