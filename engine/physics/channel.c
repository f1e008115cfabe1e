// SPDX-License-Identifier: MIT
#include "physics/channel.h"

#include "physics/root.h"
#include "physics/water.h"

#define VOLUME_SPREAD 0.5  // n at inch depths is unknown; common practice, no source

static bool is_section(const struct channel *c) {
  return c->width > 0 && c->side >= 0 && isfinite(c->width) && isfinite(c->side);
}

static bool is_reach(const struct channel *c) { return is_section(c) && c->slope > 0 && c->n > 0 && isfinite(c->n); }

static double if_depth(const struct channel *c, double depth, double value) {
  return is_section(c) && depth >= 0 ? value : (double)NAN;
}

double channel_area(const struct channel *channel, double depth) {
  return if_depth(channel, depth, (channel->width + channel->side * depth) * depth);
}

double channel_top_width(const struct channel *channel, double depth) {
  return if_depth(channel, depth, channel->width + 2 * channel->side * depth);
}

double channel_wetted_perimeter(const struct channel *channel, double depth) {
  return if_depth(channel, depth, channel->width + 2 * depth * sqrt(1 + channel->side * channel->side));
}

double channel_capacity(const struct channel *channel, double depth) {
  if (!is_reach(channel)) return (double)NAN;
  const double area = channel_area(channel, depth);
  const double radius = cbrt(area / channel_wetted_perimeter(channel, depth));
  return area * radius * radius * sqrt(channel->slope) / channel->n;
}

struct wanted {
  const struct channel *channel;
  double flow;
};

static double capacity_surplus(double depth, void *with) {
  const struct wanted *wanted = with;
  return channel_capacity(wanted->channel, depth) - wanted->flow;
}

// Froude number less 1, as A^3 g - Q^2 T, which rises all the way
static double critical_surplus(double depth, void *with) {
  const struct wanted *wanted = with;
  const double area = channel_area(wanted->channel, depth);
  return area * area * area * GRAVITY - wanted->flow * wanted->flow * channel_top_width(wanted->channel, depth);
}

static double depth_where(root_function surplus, const struct channel *channel, double flow) {
  if (!(flow >= 0) || isinf(flow)) return (double)NAN;
  if (flow <= 0) return 0;
  struct wanted wanted = {.channel = channel, .flow = flow};
  double high = channel->width;
  for (int i = 0; i < 1000 && surplus(high, &wanted) <= 0; i++) high *= 2;
  return root_rising(surplus, &wanted, 0, high);
}

double channel_normal_depth(const struct channel *channel, double flow) {
  return is_reach(channel) ? depth_where(capacity_surplus, channel, flow) : (double)NAN;
}

double channel_critical_depth(const struct channel *channel, double flow) {
  return is_section(channel) ? depth_where(critical_surplus, channel, flow) : (double)NAN;
}

double channel_velocity(const struct channel *channel, double flow) {
  const double area = channel_area(channel, channel_normal_depth(channel, flow));
  return area <= 0 ? 0 : flow / area;
}

struct band channel_depth(const struct channel *channel, double flow) {
  struct channel smooth = *channel, rough = *channel;
  smooth.n /= 2;
  rough.n *= 2;
  struct band depth = {.low = channel_normal_depth(&smooth, flow),
                       .likely = channel_normal_depth(channel, flow),
                       .high = channel_normal_depth(&rough, flow)};
  if (isnan(depth.likely)) return band_none();
  depth.outside = flow > 0 && depth.likely < CHANNEL_LEAST_DEPTH;
  return depth;
}

struct band channel_live_volume(const struct channel *channel, double flow, double length) {
  const struct band depth = channel_depth(channel, flow);
  if (isnan(depth.likely) || !(length >= 0)) return band_none();
  const double volume = channel_area(channel, depth.likely) * length;
  return (struct band){.low = (1 - VOLUME_SPREAD) * volume,
                       .likely = volume,
                       .high = (1 + VOLUME_SPREAD) * volume,
                       .outside = depth.outside};
}
