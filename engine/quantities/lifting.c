// SPDX-License-Identifier: MIT
// F. Lifting and the way in.
#include <math.h>

#include "physics/handling.h"
#include "physics/lifting.h"
#include "physics/zone.h"
#include "quantities/read.h"
#include "units/exact.h"

#define FOREBAY_ROWS "catalogue/lifting.def"

#define PI 3.14159265358979323846

// ---- Through the gate ----

// It may turn any way on the hook: the diagonal of its two longest sides.
static double carried_diagonal_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  double length = boulder_get_length(ev, boulder), width = boulder_get_width(ev, boulder);
  double height = boulder_get_height(ev, boulder), shortest = fmin(length, fmin(width, height));
  return sqrt(length * length + width * width + height * height - shortest * shortest);
}

// Led through with a tag line, its longest side pointing the way.
static double end_diagonal_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  double length = boulder_get_length(ev, boulder), width = boulder_get_width(ev, boulder);
  double height = boulder_get_height(ev, boulder), longest = fmax(length, fmax(width, height));
  return sqrt(length * length + width * width + height * height - longest * longest);
}

static double gate_to_spare_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return site_get_gate_width(ev, the_site(ev)) - boulder_get_end_diagonal(ev, boulder);
}

static double gate_to_spare_turning_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return site_get_gate_width(ev, the_site(ev)) - boulder_get_carried_diagonal(ev, boulder);
}

static double height_to_spare_of_machine(struct evaluation *ev, struct machine_ref machine) {
  return site_get_gate_height(ev, the_site(ev)) - machine_get_height(ev, machine);
}

static double gate_to_spare_of_machine(struct evaluation *ev, struct machine_ref machine) {
  return site_get_gate_width(ev, the_site(ev)) - machine_get_width(ev, machine);
}

// ---- Where nobody stands ----

static double fall_zone_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  bool falls_away = boulder_get_falls_away(ev, boulder) != WORD_yes_no_no;
  return zone_fall(boulder_get_height(ev, boulder), falls_away);
}

static double hook_zone_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return zone_hook_path(boulder_get_length(ev, boulder), boulder_get_width(ev, boulder),
                        boulder_get_height(ev, boulder));
}

static double widest_zone_of_crew(struct evaluation *ev, struct crew_ref crew) {
  const struct store *design = evaluation_design(ev);
  double widest = 0;
  (void)crew;
  for (size_t i = 0; i < store_count(design, KIND_boulder); i++) {
    struct boulder_ref boulder = {store_of_kind(design, KIND_boulder, i)};
    widest = fmax(widest, fmax(boulder_get_fall_zone(ev, boulder), boulder_get_hook_zone(ev, boulder)));
  }
  return widest;
}

// A design that says nothing of its crew has one all the same, to hold defaults: that one stands on no line.
static double crew_count_of_project(struct evaluation *ev, struct project_ref project) {
  const struct store *design = evaluation_design(ev);
  (void)project;
  double count = 0;
  for (size_t i = 0; i < store_count(design, KIND_crew); i++)
    count += design->entities[store_of_kind(design, KIND_crew, i)].at.line > 0;
  return count;
}

// ---- By hand ----

static double pick_count_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  return (double)boulder_count_picks(ev, boulder);
}

static double people_to_lift_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  double mass = boulder_get_mass_high(ev, boulder);
  return evaluation_marked(ev) ? (double)NAN : handling_people_for(mass);
}

static double hand_lift_left_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  double people = boulder_get_hands(ev, boulder);
  return evaluation_marked(ev) ? (double)NAN : handling_team((unsigned)people) - boulder_get_mass_high(ev, boulder);
}

// NIOSH's own estimate of how far out the hands are: 8 in and half the width of what is carried.
static double niosh_weight_of_boulder(struct evaluation *ev, struct boulder_ref boulder) {
  double across = fmin(boulder_get_length(ev, boulder), boulder_get_width(ev, boulder));
  const struct handling_lift lift = {
      .out = 8 * INCH + across / 2, .height = 0, .travel = 30 * INCH, .frequency = 1, .coupling = HANDLING_POOR};
  return handling_recommended(&lift);
}

// ---- Edges of the dig ----

// A side that is drawn flatter than the soil asks, or shored, still wants its 2 ft.
static double least_from_edge_of_dig(struct evaluation *ev, struct dig_ref dig) {
  return zone_from_edge(dig_get_depth(ev, dig), dig_get_slope_asked(ev, dig), dig_get_slope(ev, dig));
}

static double staged_to_spare_of_dig(struct evaluation *ev, struct dig_ref dig) {
  return dig_get_staged_from_edge(ev, dig) - dig_get_least_from_edge(ev, dig);
}

static double least_from_edge_of_machine(struct evaluation *ev, struct machine_ref machine) {
  const struct store *design = evaluation_design(ev);
  double least = 24 * INCH;
  (void)machine;
  for (size_t i = 0; i < store_count(design, KIND_dig); i++) {
    least = fmax(least, dig_get_least_from_edge(ev, (struct dig_ref){store_of_kind(design, KIND_dig, i)}));
  }
  return least;
}

static double edge_to_spare_of_machine(struct evaluation *ev, struct machine_ref machine) {
  return machine_get_from_edge(ev, machine) - machine_get_least_from_edge(ev, machine);
}

static double track_pressure_of_machine(struct evaluation *ev, struct machine_ref machine) {
  return lifting_track_pressure(machine_get_weight(ev, machine), machine_get_track_length(ev, machine),
                                machine_get_track_width(ev, machine));
}

// ---- Overhead line ----

static double line_clearance_of_site(struct evaluation *ev, struct site_ref site) {
  if (!site_states_line_voltage(ev, site)) return ZONE_LINE_UNKNOWN;
  double asked = zone_power_line(site_get_line_voltage(ev, site));
  if (isnan(asked)) evaluation_missing(ev, "over 1,000 kV the owner of the line says how far");
  return asked;
}

static double line_beyond_reach_of_machine(struct evaluation *ev, struct machine_ref machine) {
  return site_get_line_distance(ev, the_site(ev)) - machine_get_greatest_reach(ev, machine);
}

// ---- One lift ----

static double stone_mass_of_pick(struct evaluation *ev, struct pick_ref pick) {
  struct any_ref of = pick_get_of(ev, pick);
  if (kind_of(ev, of) == KIND_coping) return coping_get_mass_high(ev, (struct coping_ref){of.at});
  return boulder_get_mass_high(ev, (struct boulder_ref){of.at});
}

static double load_of_pick(struct evaluation *ev, struct pick_ref pick) {
  return pick_get_stone_mass(ev, pick) + pick_get_rigging(ev, pick);
}

// Both parts of a basket go up to the hook: it has two legs, however it was counted.
static double parts_of(struct evaluation *ev, struct pick_ref pick) {
  double legs = pick_get_legs(ev, pick);
  return pick_get_hitch(ev, pick) == WORD_hitch_basket ? fmax(2, legs) : legs;
}

static double leg_angle_of_pick(struct evaluation *ev, struct pick_ref pick) {
  if (parts_of(ev, pick) > 1) evaluation_missing(ev, "with two legs or more somebody has to say how flat they hang");
  return PI / 2;
}

static double leg_load_of_pick(struct evaluation *ev, struct pick_ref pick) {
  double load = pick_get_load(ev, pick), angle = pick_get_leg_angle(ev, pick), parts = parts_of(ev, pick);
  if (evaluation_marked(ev)) return (double)NAN;
  double each = lifting_leg_load(load, (unsigned)parts, angle, true);
  if (isnan(each)) evaluation_missing(ev, "its legs hang at no angle between level and upright");
  return each;
}

static double hitch_factor_of_pick(struct evaluation *ev, struct pick_ref pick) {
  if (pick_get_hitch(ev, pick) != WORD_hitch_choker) return 1;
  return lifting_hitch_factor(LIFTING_CHOKER, pick_get_choke_angle(ev, pick));
}

static double sling_share_of_pick(struct evaluation *ev, struct pick_ref pick) {
  double tag = sling_get_rated(ev, pick_get_sling(ev, pick)) * pick_get_hitch_factor(ev, pick);
  return pick_get_leg_load(ev, pick) / tag;
}

static void put_in_order(struct lifting_row *rows, size_t count) {
  for (size_t i = 1; i < count; i++) {
    struct lifting_row row = rows[i];
    size_t j = i;
    for (; j > 0 && rows[j - 1].reach > row.reach; j--) rows[j] = rows[j - 1];
    rows[j] = row;
  }
}

// The chart with all deductions made, by rising reach. A chart of tipping loads counts for 75 %.
static struct lifting_row *chart_of(struct evaluation *ev, struct machine_ref machine, size_t count) {
  double share = machine_get_chart(ev, machine) == WORD_chart_tipping ? 0.75 : 1;
  struct lifting_row *rows = arena_array(evaluation_arena(ev), count, sizeof *rows);
  for (size_t i = 0; i < count; i++) {
    struct lift_ref lift = machine_lifts_at(ev, machine, i);
    double left = lifting_left(share * lift_get_rated(ev, lift), lift_get_deducted(ev, lift));
    rows[i] = (struct lifting_row){lift_get_reach(ev, lift), left};
  }
  put_in_order(rows, count);
  return rows;
}

static double rated_of_pick(struct evaluation *ev, struct pick_ref pick) {
  struct machine_ref machine = pick_get_machine(ev, pick);
  double reach = pick_get_reach(ev, pick);
  size_t count = machine_count_lifts(ev, machine);
  if (count == 0) evaluation_missing(ev, "the machine has no lifting chart here");
  if (count == 0) return (double)NAN;
  struct lifting_row *chart = chart_of(ev, machine, count);
  if (evaluation_marked(ev)) return (double)NAN;
  double rated = lifting_rated(chart, count, reach);
  if (isnan(rated)) evaluation_missing(ev, "its reach lies beyond the machine's chart");
  return rated;
}

static double machine_share_of_pick(struct evaluation *ev, struct pick_ref pick) {
  double load = pick_get_load(ev, pick), rated = pick_get_rated(ev, pick);
  if (evaluation_marked(ev)) return (double)NAN;
  return rated > 0 ? load / rated : (double)INFINITY;
}

static double track_pressure_of_pick(struct evaluation *ev, struct pick_ref pick) {
  struct machine_ref machine = pick_get_machine(ev, pick);
  return lifting_track_pressure(machine_get_weight(ev, machine) + pick_get_load(ev, pick),
                                machine_get_track_length(ev, machine), machine_get_track_width(ev, machine));
}

static double line_to_spare_of_pick(struct evaluation *ev, struct pick_ref pick) {
  struct any_ref of = pick_get_of(ev, pick);
  struct site_ref site = the_site(ev);
  double across = kind_of(ev, of) == KIND_coping ? coping_get_length(ev, (struct coping_ref){of.at})
                                                 : boulder_get_carried_diagonal(ev, (struct boulder_ref){of.at});
  return site_get_line_distance(ev, site) - across / 2 - site_get_line_clearance(ev, site);
}

#include "quantities/export.h"
DERIVED(pick, leg_angle)
