// SPDX-License-Identifier: MIT
// A small design and a review of it, put together by hand: three stones, a wall and the site.
#ifndef FOREBAY_TESTS_UNIT_REVIEW_SAMPLE_H
#define FOREBAY_TESTS_UNIT_REVIEW_SAMPLE_H

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/arena.h"
#include "design/store.h"
#include "review/arrange.h"

enum { PROJECT, SITE, TALL, LOW, SCREEN, WALL };  // entities, as added

struct sample {
  struct arena *arena;
  struct store *store;
  struct problems found, unusable;
  struct review review;
};

static inline void sample_write(struct sample *sample, int entity, enum row_id row, const char *text, int line) {
  if (store_write(sample->store, &sample->found, entity, row, (struct store_text){text, false, {.line = line}})) return;
  fprintf(stderr, "sample: cannot write \"%s\"\n", text);
  abort();
}

static inline void sample_boulder(struct sample *sample, const char *name, const char *height, const char *embedment,
                                  int line) {
  int stone = store_add(sample->store, KIND_boulder, name, line);
  sample_write(sample, stone, ROW_boulder_length, "30 in", line);
  sample_write(sample, stone, ROW_boulder_width, "20 in", line);
  sample_write(sample, stone, ROW_boulder_height, height, line);
  if (embedment) sample_write(sample, stone, ROW_boulder_embedment, embedment, line);
}

static inline void sample_design(struct sample *sample) {
  sample->store = store_in(sample->arena, "garden.lua");
  store_add(sample->store, KIND_project, NULL, 1);
  sample_write(sample, PROJECT, ROW_project_name, "Test garden", 1);
  sample_write(sample, PROJECT, ROW_project_units, "us", 1);
  store_add(sample->store, KIND_site, NULL, 2);
  sample_boulder(sample, "tall stone", "6 ft", "6 in", 3);
  sample_boulder(sample, "low stone", "2 ft", NULL, 4);
  sample_boulder(sample, "screen", "20 in", "1 in", 5);
  store_add(sample->store, KIND_wall, "back wall", 6);
  sample_write(sample, WALL, ROW_wall_length, "12 ft", 6);
  sample_write(sample, WALL, ROW_wall_footing_to_top, "38 in", 6);
  sample_write(sample, WALL, ROW_wall_thickness, "12 in", 6);
  store_settle(sample->store, &sample->found);
}

enum { UTILITIES, SHALLOW, GATE, WALL_HEIGHT, BAD, RULES };

static const struct rule_limit sample_limits[] = {
    {"at_least", "12 in", SEVERITY_ADVISE, "house", {"house.lua", 4}},
    {"at_most", "4 ft", SEVERITY_HOLD, "trade", {"wall.lua", 9}},
};

static const struct rule_facts sample_rules[RULES] = {
    [UTILITIES] = {.id = "utilities-not-located",
                   .title = "Lines under the ground are located before digging",
                   .why = "A bucket in a gas or power line kills.",
                   .source = "common practice, no source",
                   .caution = "No digging, not by hand either, before the marks are on the ground.",
                   .discipline = "earthwork",
                   .stage = STAGE_LAYOUT,
                   .severity = SEVERITY_REVISE,
                   .life_safety = true,
                   .for_each = KIND_BIT(site),
                   .layer = "trade",
                   .at = {"earthwork.lua", 10}},
    [SHALLOW] = {.id = "stone-shallow-set",
                 .title = "A set stone has its foot in the ground",
                 .why = "A stone that sits on the ground looks dropped, and frost and gravel move it.",
                 .source = "common practice, no source",
                 .discipline = "stone",
                 .stage = STAGE_STONE,
                 .severity = SEVERITY_ADVISE,
                 .for_each = KIND_BIT(boulder),
                 .layer = "trade",
                 .adjusted_by = "house",
                 .because = "our frost line",
                 .try_words = "set it deeper, or choose a taller stone",
                 .at = {"stone.lua", 20},
                 .limits = &sample_limits[0],
                 .limit_count = 1},
    [GATE] = {.id = "gate-too-narrow",
              .title = "The way in is wide enough",
              .why = "What does not pass the gate stays outside.",
              .source = "geometry",
              .discipline = "access",
              .stage = STAGE_LAYOUT,
              .severity = SEVERITY_REVISE,
              .for_each = KIND_BIT(site),
              .layer = "trade",
              .at = {"access.lua", 5}},
    [WALL_HEIGHT] = {.id = "wall-needs-engineer",
                     .title = "A wall this tall is an engineer's",
                     .why = "Tall walls fall on people.",
                     .source = "common practice, no source",
                     .discipline = "structure",
                     .stage = STAGE_STONE,
                     .severity = SEVERITY_HOLD,
                     .for_each = KIND_BIT(wall),
                     .layer = "trade",
                     .at = {"wall.lua", 7},
                     .limits = &sample_limits[1],
                     .limit_count = 1},
    [BAD] = {.id = "odd-rule",
             .title = "An odd rule",
             .discipline = "house",
             .stage = STAGE_FINISH,
             .severity = SEVERITY_ADVISE,
             .for_each = KIND_BIT(boulder),
             .layer = "house",
             .broken = "the limit has no unit",
             .at = {"house.lua", 30}},
};

enum { INCH_UM = 25400 };  // exact, in micrometres
static inline double sample_inches(double inches) { return inches * INCH_UM / 1e6; }

static inline const struct comparison *sample_shallow(struct sample *sample, int entity, double inches) {
  struct comparison *one = arena_alloc(sample->arena, sizeof *one);
  *one = (struct comparison){.sense = SENSE_AT_LEAST,
                             .entity = entity,
                             .row = ROW_boulder_embedment,
                             .dimension = DIM_LENGTH,
                             .value = sample_inches(inches),
                             .limit = sample_inches(12),
                             .margin = sample_inches(inches - 12),
                             .severity = SEVERITY_ADVISE};
  return one;
}

static inline const int *sample_slot(struct sample *sample, int entity, enum row_id row) {
  int *slot = arena_alloc(sample->arena, sizeof *slot);
  *slot = store_slot(sample->store, entity, row);
  return slot;
}

static inline struct outcome sample_flag(int entity, size_t rule, enum severity severity,
                                         const struct comparison *one) {
  return (struct outcome){.rule = rule,
                          .entity = entity,
                          .sort = OUTCOME_FLAGGED,
                          .severity = severity,
                          .judged = 0,
                          .comparisons = one,
                          .comparison_count = 1};
}

static inline struct outcome sample_unanswered(size_t rule, int entity, const int *roots, bool held) {
  return (struct outcome){.rule = rule,
                          .entity = entity,
                          .sort = OUTCOME_UNANSWERED,
                          .severity = sample_rules[rule].severity,
                          .counts_as_held = held,
                          .judged = -1,
                          .reads = roots,
                          .read_count = 1,
                          .roots = roots,
                          .root_count = 1};
}

// Unanswered and held: the site's utilities. Flagged: two stones (advise), the wall (hold, in doubt). Unanswered: the
// low stone. Clear: the gate. One rule is broken.
static inline void sample_outcomes(struct sample *sample) {
  struct outcome *outcomes = arena_array(sample->arena, 6, sizeof *outcomes);
  struct comparison *wall = arena_alloc(sample->arena, sizeof *wall);
  *wall = (struct comparison){.sense = SENSE_AT_MOST,
                              .entity = WALL,
                              .row = ROW_wall_footing_to_top,
                              .dimension = DIM_LENGTH,
                              .value = sample_inches(49),
                              .limit = sample_inches(48),
                              .margin = sample_inches(-1),
                              .severity = SEVERITY_HOLD};
  const int *soil = sample_slot(sample, SITE, ROW_site_soil);
  outcomes[0] = sample_unanswered(UTILITIES, SITE, sample_slot(sample, SITE, ROW_site_utilities), true);
  outcomes[1] = sample_flag(TALL, SHALLOW, SEVERITY_ADVISE, sample_shallow(sample, TALL, 6));
  outcomes[2] = sample_unanswered(SHALLOW, LOW, sample_slot(sample, LOW, ROW_boulder_embedment), false);
  outcomes[3] = sample_flag(SCREEN, SHALLOW, SEVERITY_ADVISE, sample_shallow(sample, SCREEN, 1));
  outcomes[4] = (struct outcome){
      .rule = GATE, .entity = SITE, .sort = OUTCOME_CLEAR, .judged = -1, .reads = soil, .read_count = 1};
  outcomes[5] = sample_flag(WALL, WALL_HEIGHT, SEVERITY_HOLD, wall);
  outcomes[5].in_doubt = true;
  sample->review.outcomes = outcomes;
  sample->review.outcome_count = 6;
}

static inline struct sample *sample_new(void) {
  struct arena *arena = arena_new();
  struct sample *sample = arena_alloc(arena, sizeof *sample);
  sample->arena = arena;
  sample->found = sample->unusable = problems_in(arena);
  sample_design(sample);
  sample->review = (struct review){.arena = arena,
                                   .design = sample->store,
                                   .rules = sample_rules,
                                   .rule_count = RULES,
                                   .problems = &sample->found,
                                   .unusable = &sample->unusable};
  sample->review.evaluation = evaluation_in(arena, sample->store, &sample->found);
  sample_outcomes(sample);
  return sample;
}

static inline int sample_setup(void **state) {
  *state = sample_new();
  return 0;
}

static inline int sample_teardown(void **state) {
  arena_free(((struct sample *)*state)->arena);
  return 0;
}

#endif
