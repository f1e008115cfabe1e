// SPDX-License-Identifier: MIT
#include "quantities/ways.h"

#include <math.h>

static enum weir_lip lip_law(enum word lip) {
  static const struct {
    enum word lip;
    enum weir_lip law;
  } laws[] = {{WORD_lip_thin_edge, WEIR_THIN_EDGE},
              {WORD_lip_broad_stone, WEIR_BROAD_STONE},
              {WORD_lip_rounded, WEIR_ROUNDED},
              {WORD_lip_notch, WEIR_NOTCH},
              {WORD_lip_vee, WEIR_V}};
  for (size_t i = 0; i < sizeof laws / sizeof laws[0]; i++) {
    if (laws[i].lip == lip) return laws[i].law;
  }
  return WEIR_THIN_EDGE;
}

struct weir ways_weir(struct evaluation *ev, struct spill_ref spill) {
  enum word lip = spill_get_lip(ev, spill);
  double width = spill_get_lip_width(ev, spill) * (1 - spill_get_blocked(ev, spill));
  struct weir weir = {lip == WORD_COUNT ? WEIR_THIN_EDGE : lip_law(lip), width, 0};
  if (weir.lip == WEIR_V) weir.angle = 2 * atan2(width, 2 * spill_get_lip_depth(ev, spill));
  return weir;
}

struct channel ways_channel(struct evaluation *ev, struct channel_ref channel) {
  return (struct channel){.width = channel_get_width(ev, channel),
                          .slope = channel_get_fall(ev, channel) / channel_get_length(ev, channel),
                          .n = channel_get_roughness(ev, channel)};
}

struct ways ways_of_basin(struct evaluation *ev, struct basin_ref basin) {
  size_t spills = basin_count_spills_out(ev, basin), channels = basin_count_channels_out(ev, basin);
  struct ways ways = {.at = arena_array(evaluation_arena(ev), spills + channels + 1, sizeof *ways.at)};
  for (size_t i = 0; i < spills; i++) {
    struct spill_ref spill = basin_spills_out_at(ev, basin, i);
    struct way way = {.entity = spill.at, .crest = spill_get_crest(ev, spill), .weir = ways_weir(ev, spill)};
    if (way.weir.width > 0) ways.at[ways.count++] = way;  // not one that is blocked altogether
  }
  for (size_t i = 0; i < channels; i++) {
    struct channel_ref channel = basin_channels_out_at(ev, basin, i);
    ways.at[ways.count++] = (struct way){.entity = channel.at,
                                         .channel = true,
                                         .crest = channel_get_start(ev, channel),
                                         .reach = ways_channel(ev, channel)};
  }
  return ways;
}

double way_flow(const struct way *way, double level, bool least) {
  double head = level - way->crest;
  if (head <= 0) return 0;
  if (way->channel) return channel_capacity(&way->reach, head) / (least ? 2 : 1);  // n doubled
  struct band flow = weir_flow(&way->weir, head);
  return least ? flow.low : flow.likely;
}
