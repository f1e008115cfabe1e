// SPDX-License-Identifier: MIT
// D. What if: a rim runs over. What the ring catches and passes, how soon a pump runs dry, rims that shall run over.
#include <math.h>

#include "physics/gravel.h"
#include "physics/rim.h"
#include "physics/water.h"
#include "physics/weir.h"
#include "quantities/read.h"

#define FOREBAY_ROWS "catalogue/rims.def"

// ---- A rim that runs over ----

struct stretch {
  double from, to;
};

// Length that a set of stretches covers, overlaps once: each adds what no earlier one covers, piece by piece.
static double covered(const struct stretch *stretches, size_t count, double perimeter) {
  double length = 0, reached = 0;
  for (size_t done = 0; done < count; done++) {
    const struct stretch *next = NULL;  // the first that reaches past what is covered
    for (size_t i = 0; i < count; i++) {
      bool further = stretches[i].to > reached;
      if (further && (!next || stretches[i].from < next->from)) next = &stretches[i];
    }
    if (!next) break;
    double from = fmax(reached, next->from), to = fmin(perimeter, next->to);
    length += fmax(0, to - from);
    reached = fmax(reached, next->to);
  }
  return length;
}

static double caught_length_of_basin(struct evaluation *ev, struct basin_ref basin) {
  size_t count = basin_count_ring(ev, basin), caught = 0;
  struct stretch *stretches = arena_array(evaluation_arena(ev), count + 1, sizeof *stretches);
  for (size_t i = 0; i < count; i++) {
    struct ring_stretch_ref it = basin_ring_at(ev, basin, i);
    if (ring_stretch_get_lined(ev, it) != WORD_yes_no_yes || ring_stretch_get_returns_to(ev, it).at < 0) continue;
    stretches[caught++] = (struct stretch){ring_stretch_get_starts(ev, it), ring_stretch_get_ends(ev, it)};
  }
  double perimeter = basin_get_perimeter(ev, basin);
  return evaluation_marked(ev) ? (double)NAN : covered(stretches, caught, perimeter);
}

static double caught_share_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_caught_length(ev, basin) / basin_get_perimeter(ev, basin);
}

static double ring_void_volume_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double volume = 0;
  for (size_t i = 0; i < basin_count_ring(ev, basin); i++) {
    struct ring_stretch_ref it = basin_ring_at(ev, basin, i);
    volume += ring_stretch_get_width(ev, it) * ring_stretch_get_depth(ev, it) *
              (ring_stretch_get_ends(ev, it) - ring_stretch_get_starts(ev, it));
  }
  return volume * basin_get_voids(ev, basin);
}

// ---- What the ring's gravel passes ----

static double path_of_ring_stretch(struct evaluation *ev, struct ring_stretch_ref it) {
  return ring_stretch_get_ends(ev, it) - ring_stretch_get_starts(ev, it);
}

// What the gravel of one stretch passes to where it drains. Full and level to the drain (no water there), or full and
// running with the fall of its bed, whichever is more; from two sides at most, where the way is half the stretch.
static double stretch_flow(struct evaluation *ev, struct ring_stretch_ref it, const struct gravel *law) {
  double length = ring_stretch_get_ends(ev, it) - ring_stretch_get_starts(ev, it), path = ring_stretch_get_path(ev, it);
  double width = ring_stretch_get_width(ev, it), depth = ring_stretch_get_depth(ev, it);
  double fall = ring_stretch_get_fall(ev, it);
  if (evaluation_marked(ev)) return (double)NAN;
  if (!(path > 0) || !(length > 0)) return 0;
  double level = gravel_unconfined_flow(law, width, depth, 0, path);
  double sides = length >= 2 * path * (1 - 1e-9) ? 2 : 1;  // feet are not exact in metres
  return fmax(level, gravel_flow(law, fall / path, width * depth)) * sides;
}

// All of it may go over at one place, so the stretch that passes least counts.
static double ring_flow_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double viscosity = water_kinematic_viscosity(WATER_USUAL_TEMPERATURE), least = INFINITY;
  struct gravel law = gravel_law(site_get_gravel_size(ev, the_site(ev)), basin_get_voids(ev, basin), viscosity);
  for (size_t i = 0; i < basin_count_ring(ev, basin); i++) {
    struct ring_stretch_ref it = basin_ring_at(ev, basin, i);
    if (ring_stretch_get_lined(ev, it) == WORD_yes_no_yes) least = fmin(least, stretch_flow(ev, it, &law));
  }
  return isinf(least) ? 0 : least;
}

static double ring_flow_to_spare_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_ring_flow(ev, basin) - basin_get_flow_in(ev, basin);
}

// ---- How long until a pump sucks air ----

static double uncaught_loss_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double open = 1 - basin_get_caught_share(ev, basin);
  if (basin_get_blocked_freeboard(ev, basin) >= 0) return 0;
  return basin_get_flow_in(ev, basin) * open;
}

// The basin whose pump feeds this one: up the pipes, then up the lips. A design holds no circle of places, but pipes
// may run in one, so each entity is asked once.
struct asked {
  struct evaluation *ev;
  unsigned char *seen;
};

static bool first_time(struct asked *up, int entity) {
  if (entity < 0 || up->seen[entity]) return false;
  up->seen[entity] = 1;
  return true;
}

static int fed_from_pipe(struct asked *up, struct pipe_ref pipe) {
  struct evaluation *ev = up->ev;
  if (!first_time(up, pipe.at)) return -1;
  struct any_ref from = pipe_get_from(ev, pipe);
  if (kind_of(ev, from) == KIND_pump) {
    struct any_ref source = pump_get_from(ev, (struct pump_ref){from.at});
    return kind_of(ev, source) == KIND_intake ? intake_get_basin(ev, (struct intake_ref){source.at}).at : source.at;
  }
  struct junction_ref junction = {from.at};
  for (size_t i = 0; i < junction_count_pipes_in(ev, junction); i++) {
    int found = fed_from_pipe(up, junction_pipes_in_at(ev, junction, i));
    if (found >= 0) return found;
  }
  return -1;
}

static int fed_from_basin(struct asked *up, struct basin_ref basin) {
  if (!first_time(up, basin.at)) return -1;
  int found = -1;
  for (size_t i = 0; found < 0 && i < basin_count_pipes_in(up->ev, basin); i++) {
    found = fed_from_pipe(up, basin_pipes_in_at(up->ev, basin, i));
  }
  for (size_t i = 0; found < 0 && i < basin_count_spills_in(up->ev, basin); i++) {
    found = fed_from_basin(up, spill_get_from(up->ev, basin_spills_in_at(up->ev, basin, i)));
  }
  return found;
}

// From the low water at the start, for lips and pipes are full, down to where the first intake sucks air.
static double usable_volume_of_basin(struct evaluation *ev, struct basin_ref basin) {
  const struct basin_geometry *geometry = basin_get_geometry(ev, basin);
  double top = basin_get_start_level(ev, basin), lowest = -INFINITY;
  for (size_t i = 0; i < basin_count_intakes(ev, basin); i++) {
    lowest = fmax(lowest, intake_get_lowest_level(ev, basin_intakes_at(ev, basin, i)));
  }
  if (isinf(lowest)) evaluation_missing(ev, "no intake of it says down to which level it works");
  return evaluation_marked(ev) ? (double)NAN : cuts_volume(&geometry->cuts, top, lowest);
}

#define LONGEST 31557600.0  // s (a year): nothing that takes longer is worth a figure

static double time_to_dry_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double loss = basin_get_uncaught_loss(ev, basin);
  struct asked up = {ev, arena_alloc(evaluation_arena(ev), evaluation_design(ev)->entity_count)};
  int source = fed_from_basin(&up, basin);
  if (source < 0) evaluation_missing(ev, "no pump that feeds it was found");
  if (evaluation_marked(ev)) return (double)NAN;
  return loss > 0 ? fmin(LONGEST, basin_get_usable_volume(ev, (struct basin_ref){source}) / loss) : LONGEST;
}

// ---- A measured rim that all of it runs over ----

static struct rim rim_as_measured(struct evaluation *ev, struct basin_ref basin) {
  size_t count = basin_count_rim_profile(ev, basin);
  struct rim_point *points = arena_array(evaluation_arena(ev), count + 1, sizeof *points);
  for (size_t i = 0; i < count; i++) {
    struct rim_level_ref it = basin_rim_profile_at(ev, basin, i);
    points[i] = (struct rim_point){rim_level_get_at(ev, it), rim_level_get_level(ev, it)};
  }
  return (struct rim){.points = points, .count = count, .length = basin_get_perimeter(ev, basin), .closed = true};
}

// The least water over a rounded edge: the highest coefficient.
static double rim_coefficient(void) { return weir_coefficient(WEIR_ROUNDED).high; }

static double rim_runs_level_of_basin(struct evaluation *ev, struct basin_ref basin) {
  if (basin_count_spills_out(ev, basin) + basin_count_channels_out(ev, basin) > 0 ||
      basin_count_rim_profile(ev, basin) == 0) {
    evaluation_missing(ev, "it runs over a lip, or no levels were taken along its rim");
  }
  struct rim rim = rim_as_measured(ev, basin);
  double flow = basin_get_flow_in(ev, basin) - basin_get_flow_drawn(ev, basin);
  if (evaluation_marked(ev)) return (double)NAN;
  evaluation_outside(ev);
  double level = rim_level(&rim, rim_coefficient(), fmax(0, flow));
  if (isnan(level)) evaluation_missing(ev, "levels along a rim stand in order and within its length");
  return level;
}

static double rim_wet_share_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double level = basin_get_rim_runs_level(ev, basin);
  struct rim rim = rim_as_measured(ev, basin);
  return evaluation_marked(ev) ? (double)NAN : rim_wet_share(&rim, level);
}

static double rim_lowest_quarter_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double level = basin_get_rim_runs_level(ev, basin);
  struct rim rim = rim_as_measured(ev, basin);
  double share = evaluation_marked(ev) ? (double)NAN : rim_flow_share_of_lowest(&rim, level, 0.25);
  if (isnan(share)) evaluation_missing(ev, "nothing runs over the rim");
  return share;
}

static double wet_to_spare_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_rim_wet_share(ev, basin) - basin_get_wet_wanted(ev, basin);
}

#include "quantities/export.h"
DERIVED(ring_stretch, path)
