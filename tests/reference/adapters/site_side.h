// SPDX-License-Identifier: MIT
// Adapters: wire, evaporation, losses, rain, overflow, aquatic, haul, levels, liner, dewater, rim, polygon_surface.
// Included once, by reference_test.c.
#ifndef FOREBAY_REFERENCE_SITE_SIDE_H
#define FOREBAY_REFERENCE_SITE_SIDE_H

#include "physics/aquatic.h"
#include "physics/dewater.h"
#include "physics/evaporation.h"
#include "physics/haul.h"
#include "physics/levels.h"
#include "physics/liner.h"
#include "physics/losses.h"
#include "physics/overflow.h"
#include "physics/polygon_surface.h"
#include "physics/rain.h"
#include "physics/rim.h"
#include "physics/wire.h"
#include "row.h"

static const struct wire_size *size_in(struct row *r) {
  const struct wire_size *size = wire_size((unsigned)in(r, "awg"));
  if (!size) spoil(r, "no such wire", text_in(r, "awg"));
  return size ? size : &wire_sizes[0];
}
static double stranded(struct row *r) { return size_in(r)->stranded; }
static double metric_wire(struct row *r) {
  const struct wire_metric *size = wire_metric(in(r, "mm2"));
  if (!size) spoil(r, "no such wire", text_in(r, "mm2"));
  return size ? size->stranded : (double)NAN;
}
static double solid_wire(struct row *r) { return size_in(r)->solid; }
static double wire_area(struct row *r) { return size_in(r)->area; }
static double resistivity(struct row *r) {
  const struct wire_size *size = size_in(r);
  return size->stranded * size->area;
}
static double drop_by_area(struct row *r) {
  return wire_drop(wire_resistance(in(r, "k"), size_in(r)->area), in(r, "length"), in(r, "current"));
}
static double drop_by_table(struct row *r) {
  return wire_drop(size_in(r)->stranded, in(r, "length"), in(r, "current"));
}
static double drop_share(struct row *r) { return drop_by_area(r) / in(r, "volts"); }
static double drop_at_power(struct row *r) {
  return wire_drop_at_power(size_in(r)->stranded, in(r, "length"), in(r, "volts"), in(r, "power"));
}
static double left_at_start(struct row *r) {
  return wire_left_at_start(size_in(r)->stranded, in(r, "length"), in(r, "volts"), in(r, "current"), in(r, "times"));
}
static double resistance_at(struct row *r) { return wire_resistance_at(1, in(r, "temperature")); }
static double current_of(struct row *r) { return wire_current(in(r, "power"), in(r, "volts"), in(r, "factor")); }
static double continuous_load(struct row *r) { return wire_continuous_load(in(r, "current")); }
static double motor_load(struct row *r) {
  const double currents[] = {in(r, "first"), in(r, "second"), in(r, "third")};
  return wire_motor_load(currents, 3);
}
static double yearly_energy(struct row *r) { return wire_yearly_energy(in(r, "power"), in(r, "on")); }

static double saturated(struct row *r) { return evaporation_vapour_pressure(in(r, "temperature")); }
static double latent_heat(struct row *r) { return evaporation_latent_heat(in(r, "temperature")); }
static double wind_at(struct row *r) { return evaporation_wind_at(in(r, "wind"), in(r, "at"), in(r, "wanted")); }
static double meyer(struct row *r) {
  return evaporation_meyer(in(r, "k"), in(r, "water"), in(r, "air"), in(r, "wind"));
}
static double meyer_weather(struct row *r) {
  const double saturation = saturated(r);
  return evaporation_meyer(in(r, "k"), saturation, saturation * in(r, "humidity"), wind_at(r));
}
static double ashrae(struct row *r) {
  return evaporation_ashrae(in(r, "water"), in(r, "air"), in(r, "latent"), in(r, "wind"));
}
static double ashrae_depth(struct row *r) { return evaporation_depth(ashrae(r)); }
static double ashrae_calm(struct row *r) { return EVAPORATION_UNDISTURBED * ashrae(r); }
static double pan_depth(struct row *r) { return EVAPORATION_PAN_TO_LAKE * in(r, "pan"); }

static struct losses losses_in(struct row *r) {
  const double area = in(r, "area");
  return (struct losses){.evaporation = area * in(r, "evaporation"),
                         .splash = losses_splash(in(r, "volume"), in(r, "splash")),
                         .leak = in(r, "leak"),
                         .rain = area * in(r, "rain"),
                         .fill = in(r, "fill")};
}
static double net_loss(struct row *r) {
  const struct losses losses = losses_in(r);
  return losses_net(&losses);
}
static double level_rate(struct row *r) {
  const struct losses losses = losses_in(r);
  return losses_level_rate(&losses, in(r, "area"));
}
static double time_to(struct row *r) {
  const struct losses losses = losses_in(r);
  return losses_time_to(&losses, in(r, "usable"));
}
static double leak_found(struct row *r) {
  return losses_leak(in(r, "area"), in(r, "fell"), in(r, "pan"), in(r, "time"));
}

static double rain_falls(struct row *r) { return rain_volume(in(r, "depth"), in(r, "area")); }
static double intensity(struct row *r) { return rain_intensity(in(r, "depth"), in(r, "duration")); }
static double runoff(struct row *r) { return rain_runoff(in(r, "c"), in(r, "intensity"), in(r, "area")); }
static struct rain_catch catch_in(struct row *r) {
  return (struct rain_catch){in(r, "basin"), in(r, "runoff"), in(r, "c")};
}
static double catch_flow(struct row *r) {
  const struct rain_catch caught = catch_in(r);
  return rain_catch_flow(&caught, in(r, "intensity"));
}
static double catch_kept(struct row *r) {
  const struct rain_catch caught = catch_in(r);
  return rain_catch_kept(&caught, in(r, "depth"), in(r, "duration"), in(r, "overflow"));
}
static double standpipe_flow(struct row *r) {
  const struct overflow overflow = {in(r, "bore"), 1};
  return overflow_flow(&overflow, in(r, "head"));
}
static double standpipe_head(struct row *r) {
  const struct overflow overflow = {in(r, "bore"), 1};
  return overflow_head(&overflow, in(r, "flow"));
}

static double oxygen(struct row *r) { return aquatic_oxygen_saturation(in(r, "temperature"), in(r, "pressure")); }
static double chlorine(struct row *r) { return aquatic_chlorine(in(r, "volume"), in(r, "concentration")); }
static const char *const NEUTRALISERS[AQUATIC_NEUTRALISERS] = {
    "thiosulfate", "bisulfite", "metabisulfite", "sulfite", "calcium_thiosulfate", "ascorbic", "ascorbate"};
static double neutraliser(struct row *r) {
  const size_t which = word_in(r, "with", NEUTRALISERS, AQUATIC_NEUTRALISERS);
  return aquatic_neutraliser_dose((enum aquatic_neutraliser)which, chlorine(r));
}
static double ice(struct row *r) { return aquatic_ice_thickness(in(r, "cold"), in(r, "share")); }

static struct haul_vessel vessel_in(struct row *r) { return (struct haul_vessel){in(r, "holds"), in(r, "limit")}; }
static double vessel_fill(struct row *r) {
  const struct haul_vessel vessel = vessel_in(r);
  return haul_fill(&vessel, in(r, "density"));
}
static double vessel_mass(struct row *r) {
  const struct haul_vessel vessel = vessel_in(r);
  return haul_fill_mass(&vessel, in(r, "density"));
}
static double vessels(struct row *r) {
  const struct haul_vessel vessel = vessel_in(r);
  return haul_pieces(&vessel, in(r, "volume"), in(r, "density"));
}
static double bucket_volume(struct row *r) { return HAUL_BUCKET * in(r, "full"); }
static double crew_days(struct row *r) { return haul_days(in(r, "amount"), in(r, "rate"), in(r, "crews")); }
static double haul_takes(struct row *r) { return haul_time(in(r, "loads"), in(r, "cycle"), in(r, "trucks")); }

static double stacked(struct row *r) {
  const double errors[] = {in(r, "first"), in(r, "second"), in(r, "third")};
  return levels_stacked(errors, 3, in(r, "settlement"));
}

static double run(struct row *r) { return liner_run(in(r, "top"), in(r, "depth"), in(r, "side"), in(r, "overlap")); }
static double thumb(struct row *r) { return liner_rule_of_thumb(in(r, "top"), in(r, "depth"), in(r, "overlap")); }
static double run_along(struct row *r) {
  struct pair pairs[PAIRS];
  struct liner_point section[PAIRS];
  const size_t count = pairs_in(r, "section", pairs);
  for (size_t i = 0; i < count; i++) section[i] = (struct liner_point){pairs[i].x, pairs[i].y};
  return liner_along(section, count, in(r, "overlap"));
}
static double membrane_mass(struct row *r) {
  return liner_mass(in(r, "length"), in(r, "width"), in(r, "mass_per_area"));
}
static double ballast(struct row *r) { return liner_ballast_depth(in(r, "water"), in(r, "factor"), in(r, "density")); }
static double uplift_factor(struct row *r) {
  const struct liner_uplift uplift = {in(r, "structure"), in(r, "contained"), in(r, "surcharge"), in(r, "uplift"),
                                      in(r, "above")};
  return liner_uplift_factor(&uplift);
}

static struct dewater_pit pit_in(struct row *r) {
  return (struct dewater_pit){in(r, "area"), in(r, "k"), in(r, "thickness"), in(r, "lowering")};
}
static double reach_of(struct row *r) {
  const struct dewater_pit pit = pit_in(r);
  return dewater_reach(&pit);
}
static double pit_inflow(struct row *r) {
  const struct dewater_pit pit = pit_in(r);
  return dewater_inflow(&pit);
}

// A round rim that leans: level = tilt x cos of the angle, in this many points.
enum { RIM_POINTS = 720 };
static double of_round_rim(struct row *r, double (*answer)(const struct rim *rim, double level)) {
  static struct rim_point points[RIM_POINTS];
  const double around = in(r, "around"), tilt = in(r, "tilt");
  for (size_t i = 0; i < RIM_POINTS; i++) {
    const double share = (double)i / RIM_POINTS;
    points[i] = (struct rim_point){around * share, tilt * cos(share * 360 * DEG)};
  }
  const struct rim rim = {points, RIM_POINTS, around, true};
  return answer(&rim, rim_level(&rim, in(r, "c"), in(r, "flow")));
}
static double level_itself(const struct rim *rim, double level) {
  (void)rim;
  return level;
}
static double lowest_quarter(const struct rim *rim, double level) { return rim_flow_share_of_lowest(rim, level, 0.25); }
static double round_rim_level(struct row *r) { return of_round_rim(r, level_itself); }
static double round_rim_wet(struct row *r) { return of_round_rim(r, rim_wet_share); }
static double round_rim_quarter(struct row *r) { return of_round_rim(r, lowest_quarter); }

static struct rim_tilt tilt_in(struct row *r) {
  return rim_tilt(in(r, "width"), in(r, "fall"), in(r, "c"), in(r, "flow"));
}
static double tilt_level(struct row *r) { return tilt_in(r).head_low; }
static double tilt_dry(struct row *r) { return tilt_in(r).dry_share; }
static double tilt_shifted(struct row *r) { return tilt_in(r).shifted; }
static double tilt_local(struct row *r) { return tilt_in(r).local; }

// "ft|1,2,3": as many as there are points
static void heights_in(struct row *row, const char *name, struct polygon_surface_point *points, size_t count) {
  char text[400], *next = NULL;
  snprintf(text, sizeof text, "%s", text_in(row, name));
  char *list = strchr(text, '|');
  if (list) *list++ = '\0';
  const struct unit *unit = unit_named(text);
  for (size_t i = 0; i < count && list && unit; i++, list = next + (*next == ',')) {
    points[i].z = strtod(list, &next) * unit->factor;
    if (next == list) spoil(row, "too few heights in", name);
  }
  if (!list || !unit || *list) spoil(row, "no list of heights in", name);
}
static struct polygon_surface *survey_in(struct row *r) {
  struct pair pairs[PAIRS];
  struct polygon_surface_point points[PAIRS];
  struct polygon_problem problem;
  const size_t count = pairs_in(r, "survey", pairs);
  for (size_t i = 0; i < count; i++) points[i] = (struct polygon_surface_point){pairs[i].x, pairs[i].y, 0};
  heights_in(r, "heights", points, count);
  struct polygon_surface *surface = polygon_surface_new(points, count, &problem);
  if (!surface) spoil(r, "the survey cannot be used:", problem.text);
  return surface;
}
static double ground_height(struct row *r) {
  struct polygon_surface *surface = survey_in(r);
  const struct polygon_point at = {in(r, "x"), in(r, "y")};
  const double height = surface ? polygon_surface_height(surface, at) : NAN;
  polygon_surface_free(surface);
  return height;
}
static double ground_cut(struct row *r) {
  struct polygon_problem problem = {.text = ""};
  struct polygon_surface *surface = survey_in(r);
  struct polygon *bottom = outline_in(r);
  const struct polygon_pit pit = {bottom, in(r, "level"), in(r, "side")};
  const double volume = surface && bottom ? polygon_surface_cut(surface, &pit, &problem) : NAN;
  if (isnan(volume)) spoil(r, "no cut:", problem.text);
  polygon_free(bottom);
  polygon_surface_free(surface);
  return volume;
}

#define SITE_SIDE                                                                                                   \
  {"wire_metrics.stranded", metric_wire}, {"wire_sizes.stranded", stranded}, {"wire_sizes.solid", solid_wire},      \
      {"wire_sizes.area", wire_area}, {"wire_sizes.resistivity", resistivity}, {"wire_drop.by_area", drop_by_area}, \
      {"wire_drop", drop_by_table}, {"wire_drop.share", drop_share}, {"wire_drop_at_power", drop_at_power},         \
      {"wire_left_at_start", left_at_start}, {"wire_resistance_at", resistance_at}, {"wire_current", current_of},   \
      {"wire_continuous_load", continuous_load}, {"wire_motor_load", motor_load},                                   \
      {"wire_yearly_energy", yearly_energy}, {"evaporation_vapour_pressure", saturated},                            \
      {"evaporation_latent_heat", latent_heat}, {"evaporation_wind_at", wind_at}, {"evaporation_meyer", meyer},     \
      {"evaporation_meyer.weather", meyer_weather}, {"evaporation_ashrae", ashrae},                                 \
      {"evaporation_ashrae.depth", ashrae_depth}, {"evaporation_ashrae.calm", ashrae_calm},                         \
      {"evaporation_pan", pan_depth}, {"losses_net", net_loss}, {"losses_level_rate", level_rate},                  \
      {"losses_time_to", time_to}, {"losses_leak", leak_found}, {"rain_volume", rain_falls},                        \
      {"rain_intensity", intensity}, {"rain_runoff", runoff}, {"rain_catch_flow", catch_flow},                      \
      {"rain_catch_kept", catch_kept}, {"overflow_flow", standpipe_flow}, {"overflow_head", standpipe_head},        \
      {"aquatic_oxygen_saturation", oxygen}, {"aquatic_chlorine", chlorine},                                        \
      {"aquatic_neutraliser_dose", neutraliser}, {"aquatic_ice_thickness", ice}, {"haul_fill", vessel_fill},        \
      {"haul_fill_mass", vessel_mass}, {"haul_pieces", vessels}, {"haul_bucket", bucket_volume},                    \
      {"haul_days", crew_days}, {"haul_time", haul_takes}, {"levels_stacked", stacked}, {"liner_run", run},         \
      {"liner_rule_of_thumb", thumb}, {"liner_along", run_along}, {"liner_mass", membrane_mass},                    \
      {"liner_ballast_depth", ballast}, {"liner_uplift_factor", uplift_factor}, {"dewater_reach", reach_of},        \
      {"dewater_inflow", pit_inflow}, {"rim_level.round", round_rim_level}, {"rim_wet_share.round", round_rim_wet}, \
      {"rim_flow_share_of_lowest.round", round_rim_quarter}, {"rim_tilt.head_low", tilt_level},                     \
      {"rim_tilt.dry_share", tilt_dry}, {"rim_tilt.shifted", tilt_shifted}, {"rim_tilt.local", tilt_local},         \
      {"polygon_surface_height", ground_height}, {                                                                  \
    "polygon_surface_cut", ground_cut                                                                               \
  }

#endif
