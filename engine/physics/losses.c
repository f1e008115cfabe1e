// SPDX-License-Identifier: MIT
#include "physics/losses.h"

#include <math.h>

#define DAY 86400.0

static double amount(double value) { return value >= 0 ? value : (double)NAN; }

double losses_splash(double volume, double daily_share) {
  return daily_share <= 1 ? amount(volume) * amount(daily_share) / DAY : (double)NAN;
}

double losses_leak(double area, double level_fall, double pan_fall, double time) {
  if (isnan(level_fall) || isnan(pan_fall) || !(time > 0)) return (double)NAN;
  return amount(area) * fmax(0, level_fall - pan_fall) / time;
}

double losses_net(const struct losses *l) {
  return amount(l->evaporation) + amount(l->splash) + amount(l->leak) - amount(l->rain) - amount(l->fill);
}

double losses_level_rate(const struct losses *losses, double area) {
  return area > 0 ? losses_net(losses) / area : (double)NAN;
}

double losses_time_to(const struct losses *losses, double usable_volume) {
  const double net = losses_net(losses), volume = amount(usable_volume);
  if (isnan(net) || isnan(volume)) return (double)NAN;
  return net > 0 ? volume / net : (double)INFINITY;
}
