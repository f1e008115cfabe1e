// SPDX-License-Identifier: MIT
// D. What if: where the water goes when the power fails, and how high it then stands.
#include <math.h>

#include "quantities/read.h"

#define FOREBAY_ROWS "catalogue/faults.def"

// ---- What each thing lets go of when the flow stops ----

static double lip_storage_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double head = 0;
  for (size_t i = 0; i < basin_count_spills_out(ev, basin); i++) {
    head = fmax(head, spill_get_head_high(ev, basin_spills_out_at(ev, basin, i)));
  }
  for (size_t i = 0; i < basin_count_channels_out(ev, basin); i++) {
    head = fmax(head, channel_get_depth_high(ev, basin_channels_out_at(ev, basin, i)));
  }
  return basin_get_water_area(ev, basin) * head;
}

static bool has_check(struct evaluation *ev, struct pipe_ref pipe) {
  return pipe_get_check_valve(ev, pipe) == WORD_fitted_fitted;
}

static double drain_back_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  double volume = pipe_get_volume(ev, pipe);
  return has_check(ev, pipe) ? 0 : volume;
}

static double siphon_back_of_pipe(struct evaluation *ev, struct pipe_ref pipe) {
  struct any_ref to = pipe_get_to(ev, pipe);
  if (kind_of(ev, to) != KIND_basin || has_check(ev, pipe)) return 0;
  if (pipe_get_outlet(ev, pipe) != WORD_outlet_drowned || pipe_get_vent_hole(ev, pipe) == WORD_fitted_fitted) return 0;
  const struct basin_geometry *geometry = basin_get_geometry(ev, (struct basin_ref){to.at});
  double end = pipe_get_outlet_at(ev, pipe);
  return evaluation_marked(ev) ? (double)NAN : cuts_volume(&geometry->cuts, geometry->water_level, end);
}

// ---- What comes down to a basin ----

// Each entity once: water may lead to a basin by several ways.
struct coming_down {
  struct evaluation *ev;
  unsigned char *seen;
  int target;     // the basin it comes down to
  double volume;  // water in flight
  double area;    // on which rain falls that comes down too
  bool rain;      // the areas are wanted, not the volumes
};

static bool first_time(struct coming_down *down, int entity) {
  if (entity < 0 || down->seen[entity]) return false;
  down->seen[entity] = 1;
  return true;
}

static bool is_drawn_from(struct evaluation *ev, struct basin_ref basin) {
  return basin_count_pumps(ev, basin) + basin_count_intakes(ev, basin) > 0;
}

static double ring_area(struct evaluation *ev, struct basin_ref basin) {
  double area = 0;
  for (size_t i = 0; i < basin_count_ring(ev, basin); i++) {
    struct ring_stretch_ref it = basin_ring_at(ev, basin, i);
    area += ring_stretch_get_width(ev, it) * (ring_stretch_get_ends(ev, it) - ring_stretch_get_starts(ev, it));
  }
  return area;
}

static void come_from_basin(struct coming_down *down, struct basin_ref basin);

static void come_over_spill(struct coming_down *down, struct spill_ref spill) {
  if (!first_time(down, spill.at)) return;
  if (!down->rain) down->volume += spill_get_in_air(down->ev, spill);
  come_from_basin(down, spill_get_from(down->ev, spill));
}

static void come_from_channel(struct coming_down *down, struct channel_ref channel) {
  struct evaluation *ev = down->ev;
  if (!first_time(down, channel.at)) return;
  if (down->rain) {
    down->area += channel_get_length(ev, channel) * channel_get_width(ev, channel);
  } else {
    down->volume += channel_get_live_volume_high(ev, channel);
  }
  for (size_t i = 0; i < channel_count_spills_in(ev, channel); i++) {
    come_over_spill(down, channel_spills_in_at(ev, channel, i));
  }
  for (size_t i = 0; i < channel_count_channels_in(ev, channel); i++) {
    come_from_channel(down, channel_channels_in_at(ev, channel, i));
  }
  if (!channel_states_from(ev, channel)) return;
  struct any_ref from = channel_get_from(ev, channel);
  if (kind_of(ev, from) == KIND_basin) come_from_basin(down, (struct basin_ref){from.at});
  if (kind_of(ev, from) == KIND_channel) come_from_channel(down, (struct channel_ref){from.at});
}

static void come_over_lips(struct coming_down *down, struct basin_ref basin) {
  struct evaluation *ev = down->ev;
  for (size_t i = 0; i < basin_count_spills_in(ev, basin); i++) {
    come_over_spill(down, basin_spills_in_at(ev, basin, i));
  }
  for (size_t i = 0; i < basin_count_channels_in(ev, basin); i++) {
    come_from_channel(down, basin_channels_in_at(ev, basin, i));
  }
}

// A basin that pumps draw from keeps what comes down to it.
static void come_from_basin(struct coming_down *down, struct basin_ref basin) {
  if (basin.at == down->target || !first_time(down, basin.at) || is_drawn_from(down->ev, basin)) return;
  if (down->rain) {
    down->area += basin_get_rim_area(down->ev, basin) + ring_area(down->ev, basin);
  } else {
    down->volume += basin_get_lip_storage(down->ev, basin);
  }
  come_over_lips(down, basin);
}

// A check valve holds what stands beyond it, unless another way leads there without one.
static void come_through_pipe(struct coming_down *down, struct pipe_ref pipe) {
  struct evaluation *ev = down->ev;
  if (has_check(ev, pipe) || !first_time(down, pipe.at)) return;
  down->volume += pipe_get_drain_back(ev, pipe);
  struct any_ref to = pipe_get_to(ev, pipe);
  if (kind_of(ev, to) == KIND_basin && to.at != down->target) down->volume += pipe_get_siphon_back(ev, pipe);
  if (kind_of(ev, to) != KIND_junction) return;
  struct junction_ref junction = {to.at};
  for (size_t i = 0; i < junction_count_pipes_out(ev, junction); i++) {
    come_through_pipe(down, junction_pipes_out_at(ev, junction, i));
  }
}

static void come_through_pump(struct coming_down *down, struct pump_ref pump) {
  for (size_t i = 0; i < pump_count_pipes_out(down->ev, pump); i++) {
    come_through_pipe(down, pump_pipes_out_at(down->ev, pump, i));
  }
}

static void come_back_through_pumps(struct coming_down *down, struct basin_ref basin) {
  struct evaluation *ev = down->ev;
  for (size_t i = 0; i < basin_count_pumps(ev, basin); i++) come_through_pump(down, basin_pumps_at(ev, basin, i));
  for (size_t i = 0; i < basin_count_intakes(ev, basin); i++) {
    struct intake_ref intake = basin_intakes_at(ev, basin, i);
    for (size_t j = 0; j < intake_count_pumps(ev, intake); j++) {
      come_through_pump(down, intake_pumps_at(ev, intake, j));
    }
  }
}

// A bowl without pumps passes on over its lip what comes down to it, and rises no further.
static bool passes_on(struct evaluation *ev, struct basin_ref basin) {
  return !is_drawn_from(ev, basin) && basin_count_spills_out(ev, basin) + basin_count_channels_out(ev, basin) > 0;
}

static struct coming_down come_down_to(struct evaluation *ev, struct basin_ref basin) {
  unsigned char *seen = arena_alloc(evaluation_arena(ev), evaluation_design(ev)->entity_count);
  return (struct coming_down){.ev = ev, .seen = seen, .target = basin.at};
}

static double water_in_flight_of_basin(struct evaluation *ev, struct basin_ref basin) {
  if (passes_on(ev, basin)) return 0;
  struct coming_down down = come_down_to(ev, basin);
  come_over_lips(&down, basin);
  come_back_through_pumps(&down, basin);
  return down.volume;
}

static double rise_at_power_loss_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double volume = basin_get_water_in_flight(ev, basin);
  const struct basin_geometry *geometry = basin_get_geometry(ev, basin);
  if (evaluation_marked(ev)) return (double)NAN;
  return cuts_rise_to(&geometry->cuts, geometry->water_level, volume) - geometry->water_level;
}

static double freeboard_left_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_freeboard(ev, basin) - basin_get_rise_at_power_loss(ev, basin);
}

// ---- At the start, and where rain comes down from ----

// What the lips and pipes take up comes out of the basin: the same volume as at a power loss, downward.
static double start_level_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double volume = basin_get_water_in_flight(ev, basin);
  const struct basin_geometry *geometry = basin_get_geometry(ev, basin);
  if (evaluation_marked(ev)) return (double)NAN;
  double bed = geometry->bed, held = cuts_volume(&geometry->cuts, geometry->water_level, bed);
  return volume >= held ? bed : cuts_rise_to(&geometry->cuts, bed, held - volume);
}

static double start_to_spare_of_intake(struct evaluation *ev, struct intake_ref intake) {
  return basin_get_start_level(ev, intake_get_basin(ev, intake)) - intake_get_lowest_level(ev, intake);
}

static double rain_area_of_basin(struct evaluation *ev, struct basin_ref basin) {
  struct coming_down down = come_down_to(ev, basin);
  down.rain = true;
  if (!passes_on(ev, basin)) come_over_lips(&down, basin);
  return down.area + basin_get_rim_area(ev, basin) + ring_area(ev, basin) + site_get_runoff_area(ev, the_site(ev));
}

// ---- Levels ----

static double running_level_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double still = basin_get_water_level(ev, basin);
  const struct basin_overflow *overflow = basin_get_overflow(ev, basin);
  double level = evaluation_marked(ev) ? (double)NAN : fmax(still, overflow->level_high);
  for (size_t i = 0; i < basin_count_spills_out(ev, basin); i++) {
    struct spill_ref spill = basin_spills_out_at(ev, basin, i);  // its flow may have been measured
    double head = spill_get_head_high(ev, spill);
    if (head > 0) level = fmax(level, spill_get_crest(ev, spill) + head);
  }
  return level;
}

static double running_freeboard_of_basin(struct evaluation *ev, struct basin_ref basin) {
  return basin_get_rim(ev, basin) - basin_get_running_level(ev, basin);
}

static double highest_water_of_basin(struct evaluation *ev, struct basin_ref basin) {
  double after = basin_get_water_level(ev, basin) + basin_get_rise_at_power_loss(ev, basin);
  return fmax(basin_get_running_level(ev, basin), after);
}

#include "quantities/export.h"
