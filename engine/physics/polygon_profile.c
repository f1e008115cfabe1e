// SPDX-License-Identifier: MIT
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "physics/polygon_convex.h"

struct polygon_profile {
  struct polygon *outline;  // of a convex one NULL until it is asked for
  bool is_convex;
  struct polygon_convex convex;
  struct polygon_inset kept[POLYGON_PROFILE_KEEPS];
  size_t count, next;  // how many are kept; which place is filled next
  size_t point_count;
  struct polygon_point points[];  // of a convex one
};

void polygon_profile_free(struct polygon_profile *profile) {
  if (!profile) return;
  polygon_free(profile->outline);
  free(profile);
}

static struct polygon_profile *bare_profile(const struct polygon_point *points, size_t count,
                                            struct polygon_problem *problem) {
  struct polygon_convex convex;
  const bool is_convex = count < 1000000 && polygon_convex_of(points, count, &convex);
  const size_t kept = is_convex ? count : 0;
  struct polygon_profile *profile = calloc(1, sizeof *profile + kept * sizeof *points);
  if (!profile) {
    if (problem) *problem = (struct polygon_problem){.text = "no memory for an outline"};
    return NULL;
  }
  profile->is_convex = is_convex;
  profile->point_count = kept;
  if (is_convex) profile->convex = convex;
  if (is_convex) memcpy(profile->points, points, count * sizeof *points);
  return profile;
}

struct polygon_profile *polygon_profile_new(const struct polygon_point *points, size_t count, const double *distances,
                                            size_t distance_count, struct polygon_problem *problem) {
  struct polygon_profile *profile = bare_profile(points, count, problem);
  if (!profile) return NULL;
  if (!profile->is_convex) profile->outline = polygon_new(points, count, problem);
  bool whole = profile->is_convex || profile->outline;
  for (size_t i = 0; whole && i < distance_count; i++) {
    struct polygon_inset inset;
    whole = polygon_profile_at(profile, distances[i], &inset, problem);
  }
  if (whole) return profile;
  polygon_profile_free(profile);
  return NULL;
}

const struct polygon *polygon_profile_outline(struct polygon_profile *profile) {
  if (!profile->outline) profile->outline = polygon_new(profile->points, profile->point_count, NULL);
  return profile->outline;
}

double polygon_profile_area(const struct polygon_profile *profile) {
  return profile->is_convex ? profile->convex.area : polygon_area(profile->outline);
}

double polygon_profile_perimeter(const struct polygon_profile *profile) {
  return profile->is_convex ? profile->convex.perimeter : polygon_perimeter(profile->outline);
}

static const struct polygon_inset *find(const struct polygon_profile *profile, double distance) {
  for (size_t i = 0; i < profile->count; i++) {
    const struct polygon_inset *kept = &profile->kept[i];
    if (kept->distance >= distance && kept->distance <= distance) return kept;
  }
  return NULL;
}

static void keep(struct polygon_profile *profile, const struct polygon_inset *inset) {
  profile->kept[profile->next] = *inset;
  profile->next = (profile->next + 1) % POLYGON_PROFILE_KEEPS;
  if (profile->count < POLYGON_PROFILE_KEEPS) profile->count++;
}

bool polygon_profile_at(struct polygon_profile *profile, double distance, struct polygon_inset *inset,
                        struct polygon_problem *problem) {
  if (profile->is_convex && polygon_convex_inset(&profile->convex, distance, inset)) return true;
  const struct polygon_inset *kept = find(profile, distance);
  if (kept) {
    *inset = *kept;
    return true;
  }
  const struct polygon *outline = polygon_profile_outline(profile);
  if (!outline) {
    if (problem) *problem = (struct polygon_problem){.text = "no memory for an outline"};
    return false;
  }
  if (!polygon_inset(outline, distance, inset, problem)) return false;
  keep(profile, inset);
  return true;
}

// ---- The widest circle inside ----

// Something is left at `some`, nothing at `none`; at `some` the rest has `reach`, its area over its perimeter. A circle
// of that radius goes into any rest; into a convex one none of twice that, which a three-cornered one just holds.
struct narrowing {
  struct polygon_profile *profile;
  double some, none, reach;
  bool no_memory;
};

static void look_at(struct narrowing *at, double inset) {
  struct polygon_inset left;
  if (!(inset > at->some && inset < at->none)) return;
  if (!polygon_profile_at(at->profile, inset, &left, NULL)) {
    at->no_memory = true;
  } else if (left.area > 0) {
    at->some = inset;
    at->reach = left.area / left.perimeter;
  } else {
    at->none = inset;
  }
}

double polygon_profile_inradius(struct polygon_profile *profile, double most) {
  const double enough = 1e-8 * most;
  struct narrowing at = {profile, 0, most, polygon_profile_area(profile) / polygon_profile_perimeter(profile), false};
  for (int i = 0; i < 40 && at.none - at.some > enough && !at.no_memory; i++) {
    const double twice = at.some + 2 * at.reach;
    look_at(&at, twice + enough / 4);
    look_at(&at, twice - enough / 4);
    look_at(&at, at.some + at.reach);
    look_at(&at, (at.some + at.none) / 2);
  }
  return at.no_memory ? (double)NAN : at.some;
}
