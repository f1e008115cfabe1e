// SPDX-License-Identifier: MIT
// Lifts by hand. m, kg, rad. The recommended weight of one lift is the revised NIOSH equation (DHHS (NIOSH) 94-110,
// 1994; second hand, asymmetry and limits from memory) in its US form: 51 lb x six multipliers. It is made for two
// hands, a good floor, no carrying, no wheelbarrow; a wet bank is none of that. The team rule is common practice, no
// source. Bad input: NaN; a lift out of the equation's reach: 0.
#ifndef FOREBAY_PHYSICS_HANDLING_H
#define FOREBAY_PHYSICS_HANDLING_H

enum handling_coupling { HANDLING_GOOD, HANDLING_FAIR, HANDLING_POOR, HANDLING_COUPLINGS };

struct handling_lift {
  double out;        // hands before the ankles; nearer than 10 in counts as 10 in, beyond 25 in is out of reach
  double height;     // hands over the floor at the start (or the end); 0 to 70 in
  double travel;     // up or down; less than 10 in counts as 10 in, over 70 in is out of reach
  double turn;       // of the load from straight ahead; over 135 degrees is out of reach
  double frequency;  // multiplier for how often (NIOSH Table 5); 1 for a lift every five minutes, an hour at most
  enum handling_coupling coupling;
};

double handling_recommended(const struct handling_lift *lift);         // kg
double handling_index(const struct handling_lift *lift, double mass);  // mass over it; over 1: too much for some

#define HANDLING_ONE_PERSON 22.6796185  // kg (50 lb)
// What a team should lift: one 50 lb, two two thirds of the sum of theirs, three and more half the sum.
double handling_team(unsigned people);
unsigned handling_people_for(double mass);  // 0: nothing to lift, or not a mass

#endif
