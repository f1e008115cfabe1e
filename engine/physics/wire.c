// SPDX-License-Identifier: MIT
#include "physics/wire.h"
#include "units/exact.h"

#include <math.h>

#define CIRCULAR_MIL 5.067074790974977e-10  // m2: pi/4 of a square with sides of a thousandth of an inch
#define PER_M(ohm_per_1000_ft) ((ohm_per_1000_ft) / (1000 * FOOT))
#define YEAR (365 * 86400.0)

const struct wire_size wire_sizes[] = {
    // 18 and 16 from memory, the others seen.
    {18, PER_M(7.95), PER_M(7.77), 1620 * CIRCULAR_MIL},  {16, PER_M(4.99), PER_M(4.89), 2580 * CIRCULAR_MIL},
    {14, PER_M(3.14), PER_M(3.07), 4110 * CIRCULAR_MIL},  {12, PER_M(1.98), PER_M(1.93), 6530 * CIRCULAR_MIL},
    {10, PER_M(1.24), PER_M(1.21), 10380 * CIRCULAR_MIL}, {8, PER_M(0.778), PER_M(0.764), 16510 * CIRCULAR_MIL},
    {6, PER_M(0.491), (double)NAN, 26240 * CIRCULAR_MIL},
};
const size_t wire_size_count = sizeof wire_sizes / sizeof *wire_sizes;

const struct wire_size *wire_size(unsigned gauge) {
  for (size_t i = 0; i < wire_size_count; i++) {
    if (wire_sizes[i].gauge == gauge) return &wire_sizes[i];
  }
  return NULL;
}

#define PER_KM(ohm_at_20) ((ohm_at_20) / 1000 * (234.5 + 75) / (234.5 + 20))
const struct wire_metric wire_metrics[] = {{0.75, PER_KM(24.5)}, {1.0, PER_KM(18.1)}, {1.5, PER_KM(12.1)},
                                           {2.5, PER_KM(7.41)},  {4.0, PER_KM(4.61)}, {6.0, PER_KM(3.08)},
                                           {10.0, PER_KM(1.83)}, {16.0, PER_KM(1.15)}};
const size_t wire_metric_count = sizeof wire_metrics / sizeof *wire_metrics;

const struct wire_metric *wire_metric(double square_mm) {
  for (size_t i = 0; i < wire_metric_count; i++) {
    if (fabs(wire_metrics[i].square_mm - square_mm) < 1e-9) return &wire_metrics[i];
  }
  return NULL;
}

static double amount(double value) { return value >= 0 ? value : (double)NAN; }

double wire_resistance_at(double at_75, double temperature) {
  return amount(at_75) * amount(1 + 0.00323 * (temperature - WIRE_TABLE_TEMPERATURE));
}

double wire_resistance(double resistivity, double area) { return area > 0 ? amount(resistivity) / area : (double)NAN; }

double wire_current(double power, double volts, double power_factor) {
  if (!(volts > 0) || !(power_factor > 0 && power_factor <= 1)) return (double)NAN;
  return amount(power) / (volts * power_factor);
}

static double there_and_back(double per_length, double one_way) { return 2 * amount(per_length) * amount(one_way); }

double wire_drop(double per_length, double one_way, double current) {
  return there_and_back(per_length, one_way) * amount(current);
}

// u (volts - u) = P R for the drop u: the smaller root, in the form that loses no digits when the drop is small.
double wire_drop_at_power(double per_length, double one_way, double volts, double power) {
  const double asked = there_and_back(per_length, one_way) * amount(power);
  const double under_root = volts * volts - 4 * asked;
  if (!(volts > 0) || !(under_root >= 0)) return (double)NAN;
  return 2 * asked / (volts + sqrt(under_root));
}

// The motor at rest is an impedance V / (times x I) behind the wire.
double wire_left_at_start(double per_length, double one_way, double volts, double running, double times) {
  if (!(volts > 0) || !(running > 0) || !(times >= 1)) return (double)NAN;
  const double motor = volts / (times * running);
  return motor / (motor + there_and_back(per_length, one_way));
}

double wire_continuous_load(double current) { return 1.25 * amount(current); }

double wire_motor_load(const double *currents, size_t count) {
  double sum = 0, largest = 0;
  for (size_t i = 0; i < count; i++) {
    sum += amount(currents[i]);
    largest = fmax(largest, currents[i]);
  }
  return sum + 0.25 * largest;
}

double wire_yearly_energy(double power, double share_of_time) {
  return share_of_time <= 1 ? amount(power) * amount(share_of_time) * YEAR : (double)NAN;
}
