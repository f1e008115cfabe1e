// SPDX-License-Identifier: MIT
// What a feature loses a day and what comes back: volumes m3, rates m3/s, depths m, times s. Water balance; the share
// that wind and splash take is common practice, no source (1 to 3 % of the volume a day): a leak test on site puts the
// real number in its place. Bad input: NaN.
#ifndef FOREBAY_PHYSICS_LOSSES_H
#define FOREBAY_PHYSICS_LOSSES_H

#define LOSSES_SPLASH_LEAST 0.01  // of the volume, a day
#define LOSSES_SPLASH_MOST 0.03

struct losses {
  double evaporation, splash, leak;  // m3/s, all of them losses
  double rain, fill;                 // m3/s that come in
};

double losses_splash(double volume, double daily_share);
// Leak out of a test with the pumps off: the level fell, and the pan beside it fell by evaporation alone; rain in
// neither. A level that fell less than the pan: 0.
double losses_leak(double area, double level_fall, double pan_fall, double time);
double losses_net(const struct losses *losses);                            // m3/s, below 0 when more comes in
double losses_level_rate(const struct losses *losses, double area);        // m/s of falling level
double losses_time_to(const struct losses *losses, double usable_volume);  // INFINITY when nothing is lost

#endif
