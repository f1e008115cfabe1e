// SPDX-License-Identifier: MIT
// Copper wire, two conductors, alternating or direct current at unity power factor, small sizes (no reactance). V, A,
// W, m, m2, ohm, K. Sizes: NEC (NFPA 70) ch. 9 Table 8, direct current at 75 C, uncoated copper (seen). One way is the
// length of the run; the current goes there and back. The limits of 3 and 5 % are informational notes of the NEC, not
// rules. Planning figures: a licensed electrician lays the circuit out under the code in force. Bad input: NaN.
#ifndef FOREBAY_PHYSICS_WIRE_H
#define FOREBAY_PHYSICS_WIRE_H

#include <stddef.h>

struct wire_size {
  unsigned gauge;          // AWG
  double stranded, solid;  // ohm per m at 75 C; solid NaN where the table shows none here
  double area;             // m2
};
extern const struct wire_size wire_sizes[];  // thinnest first
extern const size_t wire_size_count;
const struct wire_size *wire_size(unsigned gauge);  // NULL: not in the table

// Metric sizes: greatest resistance of class 2 copper at 20 C by IEC 60228 (from memory), taken to 75 C by the ratio
// (234.5 + 75) / (234.5 + 20). It is 7 % over resistivity through area: the strands are thinner than their name.
struct wire_metric {
  double square_mm;
  double stranded;  // ohm per m at 75 C
};
extern const struct wire_metric wire_metrics[];  // thinnest first
extern const size_t wire_metric_count;
const struct wire_metric *wire_metric(double square_mm);  // NULL: not in the table

#define WIRE_TABLE_TEMPERATURE 348.15                         // K (75 C)
double wire_resistance_at(double at_75, double temperature);  // NEC ch. 9 Table 8 note 2
double wire_resistance(double resistivity, double area);      // ohm per m

double wire_current(double power, double volts, double power_factor);
double wire_drop(double per_length, double one_way, double current);  // V
// Drop to a load that draws the same power at any voltage, as LED drivers do; NaN when the wire cannot carry it.
double wire_drop_at_power(double per_length, double one_way, double volts, double power);
// Share of the voltage that is left while a motor starts, the motor drawing `times` its running current (5 to 7 is
// usual; common practice, no source) as though its impedance were fixed.
double wire_left_at_start(double per_length, double one_way, double volts, double running, double times);

// What a circuit must be rated for: continuous loads count 125 % (the 80 % rule; NEC 210.20), or the largest motor
// counts 125 % and the others whole (430.22, 430.24): either, not both.
double wire_continuous_load(double current);
double wire_motor_load(const double *currents, size_t count);

double wire_yearly_energy(double power, double share_of_time);  // J in 365 days

#endif
