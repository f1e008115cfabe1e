// SPDX-License-Identifier: MIT
// Water for what lives in it. K, Pa, kg, m3, kg/m3. Dissolved oxygen: APHA / Benson and Krause (form seen), fresh
// water, scaled by pressure. Doses: AWWA Disinfection of Pipelines and Storage Facilities Field Guide, Table 7-2
// (seen): field doses, far above the stoichiometric ones. They free the ammonia of chloramine: that wants a binder
// besides. Ice: Stefan's formula (from memory); real ice is half to four fifths of it and never to be walked on by a
// number. Bad input: NaN. Stocking figures are rules, not physics, and are not here.
#ifndef FOREBAY_PHYSICS_AQUATIC_H
#define FOREBAY_PHYSICS_AQUATIC_H

#define AQUATIC_ATMOSPHERE 101325.0  // Pa

// Pressure of the air at a height over the sea, m: the standard atmosphere (ISO 2533), 11,000 m at most.
double aquatic_pressure(double altitude);

double aquatic_oxygen_saturation(double temperature, double pressure);  // kg/m3 (1e-3 of it: mg/L), 0 to 40 C

enum aquatic_neutraliser {
  AQUATIC_THIOSULFATE,
  AQUATIC_BISULFITE,
  AQUATIC_METABISULFITE,
  AQUATIC_SULFITE,
  AQUATIC_CALCIUM_THIOSULFATE,
  AQUATIC_ASCORBIC_ACID,
  AQUATIC_SODIUM_ASCORBATE,
  AQUATIC_NEUTRALISERS
};
double aquatic_chlorine(double volume, double concentration);                            // kg in that water
double aquatic_neutraliser_dose(enum aquatic_neutraliser neutraliser, double chlorine);  // kg of it

// Thickness of clear ice on still water after `cold` = sum of degrees below freezing x time (K s); share 1 is Stefan's.
double aquatic_ice_thickness(double cold, double share);
#define AQUATIC_ICE_GROWTH 0.09  // of its volume that water gains as it freezes

#endif
