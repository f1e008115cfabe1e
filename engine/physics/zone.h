// SPDX-License-Identifier: MIT
// Distances to keep: from a stone that may fall, from a hook, from an edge, from a power line. m, V. They are least
// distances of rules of practice, for planning; a competent person on site sets the real ones, and where the law or the
// owner of a line asks more, more it is. No number here says that a place is safe. Bad input: NaN.
#ifndef FOREBAY_PHYSICS_ZONE_H
#define FOREBAY_PHYSICS_ZONE_H

#include <stdbool.h>

// Nobody stands nearer to a stone that may tip: its height + 2 ft; on ground that falls away 1.5 x its height where
// that is more (common practice, no source).
double zone_fall(double height, bool falls_away);

// Nobody stands nearer to the path of a hanging stone: its longest side + 3 ft (common practice, no source).
double zone_hook_path(double length, double width, double height);

// Machine, stockpile or staged stone from the edge of a pit: depth x (slope the soil asks - slope dug) + 2 ft, never
// under 2 ft. Slopes are run over rise (common practice on 29 CFR 1926 Subpart P, App. B (c)(3)).
double zone_from_edge(double depth, double slope_asked, double slope_dug);

// Any part of a machine or its load from a live overhead line: the larger of 29 CFR 1926.600(a)(6) (10 ft to 50 kV,
// then 0.4 in a kV; from memory) and 1926.1408 Table A (seen). Over 1,000 kV the owner says: NaN.
#define ZONE_LINE_UNKNOWN 6.096  // m (20 ft), where nobody has told the voltage
double zone_power_line(double volts);
double zone_power_line_equipment(double volts);  // 1926.600(a)(6) alone
double zone_power_line_table_a(double volts);    // Table A alone

#endif
