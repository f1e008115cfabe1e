// SPDX-License-Identifier: MIT
#include "physics/handling.h"
#include "units/exact.h"

#include <math.h>
#include <stdbool.h>

#define DEGREES_PER_RADIAN 57.29577951308232
#define LOAD_CONSTANT (51 * POUND)
#define KNUCKLES 30.0  // in: the height from which the multiplier falls both ways
#define ROUNDING 1e-9

// Multiplier by grip: hands below knuckle height, and above.
static const struct {
  double low, high;
} COUPLING[HANDLING_COUPLINGS] = {
    [HANDLING_GOOD] = {1.00, 1.00}, [HANDLING_FAIR] = {0.95, 1.00}, [HANDLING_POOR] = {0.90, 0.90}};

static double out_multiplier(double out) { return out > 25 * (1 + ROUNDING) ? 0 : 10 / fmax(10, out); }

static double height_multiplier(double height) {
  return height > 70 * (1 + ROUNDING) ? 0 : 1 - 0.0075 * fabs(height - KNUCKLES);
}

static double travel_multiplier(double travel) {
  return travel > 70 * (1 + ROUNDING) ? 0 : 0.82 + 1.8 / fmax(10, travel);
}

static double turn_multiplier(double degrees) { return degrees > 135 * (1 + ROUNDING) ? 0 : 1 - 0.0032 * degrees; }

static double coupling_multiplier(enum handling_coupling coupling, double height) {
  return height < KNUCKLES * (1 - ROUNDING) ? COUPLING[coupling].low : COUPLING[coupling].high;
}

static bool is_lift(const struct handling_lift *l) {
  return l->out >= 0 && l->height >= 0 && l->travel >= 0 && l->turn >= 0 && l->frequency >= 0 && l->frequency <= 1 &&
         (unsigned)l->coupling < HANDLING_COUPLINGS;
}

double handling_recommended(const struct handling_lift *lift) {
  if (!is_lift(lift)) return (double)NAN;
  const double height = lift->height / INCH;
  return LOAD_CONSTANT * out_multiplier(lift->out / INCH) * height_multiplier(height) *
         travel_multiplier(lift->travel / INCH) * turn_multiplier(lift->turn * DEGREES_PER_RADIAN) * lift->frequency *
         coupling_multiplier(lift->coupling, height);
}

double handling_index(const struct handling_lift *lift, double mass) {
  return mass >= 0 ? mass / handling_recommended(lift) : (double)NAN;
}

double handling_team(unsigned people) {
  const double share = people == 1 ? 1 : people == 2 ? 2. / 3 : 0.5;
  return people * HANDLING_ONE_PERSON * share;
}

// Three lift no less than two, so the first team that is strong enough is the smallest.
unsigned handling_people_for(double mass) {
  if (!(mass > 0) || mass > 1e6) return 0;
  unsigned people = 1;
  while (handling_team(people) * (1 + ROUNDING) < mass) people++;
  return people;
}
