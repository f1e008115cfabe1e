// SPDX-License-Identifier: MIT
#include <stdlib.h>

#include "physics/polygon.h"

struct polygon_profile {
  struct polygon *outline;
  struct polygon_inset kept[POLYGON_PROFILE_KEEPS];
  size_t count, next;  // how many are kept; which place is filled next
};

void polygon_profile_free(struct polygon_profile *profile) {
  if (!profile) return;
  polygon_free(profile->outline);
  free(profile);
}

struct polygon_profile *polygon_profile_new(const struct polygon_point *points, size_t count, const double *distances,
                                            size_t distance_count, struct polygon_problem *problem) {
  struct polygon *outline = polygon_new(points, count, problem);
  if (!outline) return NULL;
  struct polygon_profile *profile = calloc(1, sizeof *profile);
  if (!profile) {
    if (problem) *problem = (struct polygon_problem){.text = "no memory for an outline"};
    polygon_free(outline);
    return NULL;
  }
  profile->outline = outline;
  for (size_t i = 0; i < distance_count; i++) {
    struct polygon_inset inset;
    if (polygon_profile_at(profile, distances[i], &inset, problem)) continue;
    polygon_profile_free(profile);
    return NULL;
  }
  return profile;
}

const struct polygon *polygon_profile_outline(const struct polygon_profile *profile) { return profile->outline; }

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
  const struct polygon_inset *kept = find(profile, distance);
  if (kept) {
    *inset = *kept;
    return true;
  }
  if (!polygon_inset(profile->outline, distance, inset, problem)) return false;
  keep(profile, inset);
  return true;
}
