// SPDX-License-Identifier: MIT
// Loose material by the piece, and days of work. Plain arithmetic. m3, kg, s. Counts are whole, rounded up; a piece
// that is full to a billionth more than whole is whole. Bad input: NaN.
#ifndef FOREBAY_PHYSICS_HAUL_H
#define FOREBAY_PHYSICS_HAUL_H

#define HAUL_BUCKET 0.018927058919999997  // m3, 5 US gal (1,155 in3)
#define HAUL_BULK_BAG 0.729               // m3, a cube of 0.9 m; its tag says what it may hold
#define HAUL_BULK_BAG_LIMIT 1000.0        // kg, usual; read the tag

struct haul_vessel {
  double volume;  // full
  double limit;   // kg it may hold; NaN or INFINITY: no limit
};

double haul_fill(const struct haul_vessel *vessel, double density);                   // m3 that may go in
double haul_fill_mass(const struct haul_vessel *vessel, double density);              // kg of that
double haul_pieces(const struct haul_vessel *vessel, double volume, double density);  // bags, buckets, barrows
double haul_pallets(double mass, double each);
double haul_pieces_of(double amount, double each);  // of anything

double haul_days(double amount, double rate_per_day, double crews);  // crew days; not rounded
double haul_time(double loads, double cycle, double trucks);         // s that this many trucks need

#endif
