// SPDX-License-Identifier: MIT
// Draws of a whole design: against cold evaluations of the same values, against shares and parts in closed form, and
// that what is added to a design moves nothing else.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

#include "chance/tolerance.h"
#include "designs/judged.h"
#include "unit/physics/near.h"

#if defined(__SANITIZE_ADDRESS__)
enum { COLD_DRAWS = 6, DRAWS = 400 };
#else
enum { COLD_DRAWS = 40, DRAWS = 2000 };
#endif

#define COURT "projects/stone-court.lua"

struct drawn {
  struct judged judged;
  struct rulebook *book;
  struct tolerance *tolerance;
};

static struct file_bytes with_more(struct judged *judged, const char *name, const char *more) {
  struct file_bytes file = judged_file(judged, judged_path(judged->arena, name));
  struct text bytes = text_in(judged->arena);
  text_add_bytes(&bytes, file.bytes, file.length);
  text_add(&bytes, more);
  return (struct file_bytes){.name = file.name, .bytes = text_end(&bytes), .length = bytes.length};
}

static struct drawn *begin(const char *name, const char *more, uint64_t seed) {
  struct arena *arena = arena_new();
  struct drawn *d = arena_alloc(arena, sizeof *d);
  d->judged.arena = arena;
  struct judged *judged = &d->judged;
  judged->problems = problems_in(judged->arena);
  struct file_bytes file = with_more(judged, name, more);
  judged->store = design_read(judged->arena, &file, &judged->problems);
  judged_fail_on_problems(judged, name);
  d->book = judged_rules(judged);
  judged->review = (struct review){.arena = judged->arena};
  struct problems *found = arena_alloc(judged->arena, sizeof *found);
  *found = problems_in(judged->arena);
  rulebook_judge(d->book, evaluation_in(judged->arena, judged->store, found), &judged->review,
                 (struct rulebook_watch){0});
  d->tolerance = tolerance_in(d->book, &judged->review, DRAWS, seed);
  return d;
}

static size_t outcome_at(const struct drawn *d, const char *rule, const char *entity) {
  const struct outcome *found = judged_outcome(&d->judged, rule, entity);
  if (!found) fail_msg("no outcome of %s on %s", rule, entity);
  return (size_t)(found - d->judged.review.outcomes);
}

static const struct spread_value *value_of(const struct drawn *d, const char *name) {
  const struct spread *spread = d->tolerance->sampling->spread;
  for (size_t v = 0; v < spread->count; v++) {
    if (strcmp(spread->values[v].name, name) == 0) return &spread->values[v];
  }
  return NULL;
}

// ---- how far values may be off ----

static double off_by(const struct drawn *d, const char *name) {
  const struct spread_value *value = value_of(d, name);
  if (!value) fail_msg("%s does not vary", name);
  return d->tolerance->sampling->spread->slots[value->first].by;
}

static void values_vary_as_stated_or_as_usual(void **state) {
  (void)state;
  struct drawn *d = begin(COURT, "", 1);
  const double inch = 0.0254;
  assert_near(off_by(d, "basin \"pool\".depth"), 1 * inch, 1e-12);             // stated: +/- 1 in
  assert_near(off_by(d, "basin \"upper bowl\".depth"), 0.5 * inch, 1e-12);     // tape
  assert_near(off_by(d, "coping \"wall cap\".thickness"), 0.2 * inch, 1e-12);  // a tenth of 2 in
  assert_near(off_by(d, "spill \"upper lip\".crest"), 0.125 * inch, 1e-12);    // laser level
  assert_near(off_by(d, "boulder \"cup stone\".length"), 4.8 * inch, 1e-12);   // eye: 10 % of 4 ft
  static const char *const steady[] = {
      "jet \"three jets\".orifice", "site.storm[1].depth", "pump \"bowl pump\".power", "prices.gravel", "crew.people",
      "spill \"upper lip\".target"};
  for (size_t i = 0; i < sizeof steady / sizeof *steady; i++) {
    if (value_of(d, steady[i])) fail_msg("%s varies", steady[i]);
  }
  judged_free(&d->judged);
}

static double set_all(struct spread *spread, const struct spread_value *which, double u) {
  double *all = arena_array(spread->store->arena, spread->count + 1, sizeof *all);
  all[which - spread->values] = u;
  spread_draw(spread, all);
  return u;
}

// Twice the area, by the shoelace formula, and the length round of what was drawn.
static double area_of(const struct store *store, int basin, double *round) {
  double twice = 0;
  size_t count = store_members(store, basin, ROW_basin_outline);
  *round = 0;
  for (size_t i = 0; i < count; i++) {
    int a = store_member(store, basin, ROW_basin_outline, i),
        b = store_member(store, basin, ROW_basin_outline, (i + 1) % count);
    double x = store_at(store, a, ROW_point_x)->value, y = store_at(store, a, ROW_point_y)->value;
    double x2 = store_at(store, b, ROW_point_x)->value, y2 = store_at(store, b, ROW_point_y)->value;
    twice += x * y2 - x2 * y;
    *round += hypot(x2 - x, y2 - y);
  }
  return fabs(twice) / 2;
}

// Pushed out by t all round, a closed line takes in t times its length more, to first order.
static void an_outline_grows_by_its_edges(void **state) {
  (void)state;
  struct drawn *d = begin(COURT, "", 1);
  struct spread *spread = d->tolerance->sampling->spread;
  const struct spread_value *outline = value_of(d, "basin \"pool\".outline");
  assert_non_null(outline);
  int basin = store_named(d->judged.store, "pool", 4);
  double round, other, was = area_of(d->judged.store, basin, &round);
  set_all(spread, outline, 1);
  assert_near((area_of(spread->drawn, basin, &other) - was) / (round * 0.0127), 1, 0.01);
  set_all(spread, outline, -1);
  assert_near((was - area_of(spread->drawn, basin, &other)) / (round * 0.0127), 1, 0.01);
  judged_free(&d->judged);
}

static void one_weighing_is_off_by_one_share(void **state) {
  (void)state;
  struct drawn *d = begin(COURT, "", 1);
  const struct spread *spread = d->tolerance->sampling->spread;
  const struct spread_value *mass = value_of(d, "boulder \"standing stone\".mass_low");
  assert_non_null(mass);
  assert_int_equal(mass->count, 2);
  assert_int_equal(mass->way, WAY_SCALE);
  for (size_t i = 0; i < 2; i++) {
    const struct spread_slot *slot = &spread->slots[mass->first + i];
    assert_near(slot->by / slot->nominal, 0.02, 1e-12);
  }
  judged_free(&d->judged);
}

// ---- against cold evaluations ----

// The design that the last draw stands for: a store with those values written and measured.
static struct store *cold_store(struct arena *arena, const struct spread *spread) {
  struct store *copy = arena_alloc(arena, sizeof *copy);
  *copy = *spread->store;
  copy->slots = arena_array(arena, copy->slot_count + 1, sizeof *copy->slots);
  memcpy(copy->slots, spread->store->slots, copy->slot_count * sizeof *copy->slots);
  copy->measurements = arena_array(arena, copy->measurement_count + 1, sizeof *copy->measurements);
  memcpy(copy->measurements, spread->store->measurements, copy->measurement_count * sizeof *copy->measurements);
  for (size_t i = 0; i < spread->change_count; i++)
    copy->slots[spread->changes[i].slot].value = spread->changes[i].value;
  for (size_t i = 0; i < spread->reading_count; i++) {
    for (size_t m = 0; m < copy->measurement_count; m++) {
      if (copy->measurements[m].slot == spread->readings[i].slot)
        copy->measurements[m].value = spread->readings[i].value;
    }
  }
  return copy;
}

// Another rulebook: a review under chance goes on with its own.
static void assert_as_cold(struct drawn *d, const struct tally *before, uint64_t n) {
  struct judged cold = {.arena = arena_new()};
  cold.problems = problems_in(cold.arena);
  struct rulebook *book = judged_rules(&cold);
  cold.store = cold_store(cold.arena, d->tolerance->sampling->spread);
  cold.review = (struct review){.arena = cold.arena};
  rulebook_judge(book, evaluation_in(cold.arena, cold.store, &cold.problems), &cold.review, (struct rulebook_watch){0});
  assert_int_equal(cold.review.outcome_count, d->judged.review.outcome_count);
  for (size_t o = 0; o < cold.review.outcome_count; o++) {
    const struct outcome *right = &cold.review.outcomes[o];
    const struct tally *now = &d->tolerance->tallies[o];
    bool same = now->clear - before[o].clear == (right->sort == OUTCOME_CLEAR) &&
                now->flagged - before[o].flagged == (right->sort == OUTCOME_FLAGGED) &&
                now->held - before[o].held == (right->sort == OUTCOME_FLAGGED && right->severity == SEVERITY_HOLD);
    if (!same)
      fail_msg("draw %d: %s on %s is %s when it is worked out cold", (int)n, cold.review.rules[right->rule].id,
               judged_name(&cold, right->entity), outcome_word(right->sort));
  }
  judged_free(&cold);
}

static void draws_are_what_a_cold_evaluation_says(void **state) {
  (void)state;
  static const char *const designs[] = {COURT, "projects/slate-rill.lua"};
  for (size_t i = 0; i < 2; i++) {
    struct drawn *d = begin(designs[i], "", 5);
    size_t count = d->judged.review.outcome_count;
    struct tally *before = arena_array(d->judged.arena, count + 1, sizeof *before);
    for (uint64_t n = 0; n < COLD_DRAWS; n++) {
      memcpy(before, d->tolerance->tallies, count * sizeof *before);
      if (sampling_count(d->tolerance->sampling, n, d->tolerance->tallies)) assert_as_cold(d, before, n);
    }
    judged_free(&d->judged);
  }
}

// ---- against closed form ----

static void draw_all(struct drawn *d) { tolerance_work(d->tolerance, TOLERANCE_DRAWS, 0, 1); }

static double share_of(const struct drawn *d, const char *rule, const char *entity) {
  const struct tolerance *t = d->tolerance;
  return (double)t->tallies[outcome_at(d, rule, entity)].flagged / (t->drawn - t->contradicting);
}

// A share p of n draws lies within four of its standard deviations.
static void assert_share(double got, double p) { assert_near(got, p, 4 * sqrt(p * (1 - p) / DRAWS)); }

// Soil over the cable is drawn at its limit: too little half of the time. What stays in the upper bowl is its depth,
// 15 in +/- 1/2, less the crest over the drain, 44 in +/- 1/8 less 29 1/2: 1/2 in + u/2 + v/8, u and v even from -1
// to 1. It is over 1 in where u > 1 - v/4: in (1/2) E[max(v, 0)]/4 = 1/32 of the draws.
static void shares_are_as_in_closed_form(void **state) {
  (void)state;
  struct drawn *d = begin(COURT, "", 11);
  draw_all(d);
  assert_int_equal(d->tolerance->drawn, DRAWS);
  assert_share(share_of(d, "burial-depth", "pump circuit"), 0.5);
  assert_share(share_of(d, "bowl-holds-ice", "upper bowl"), 1.0 / 32);
  assert_equal(share_of(d, "gate-too-narrow", "hired excavator"), 1);
  assert_int_equal(tolerance_sureness(d->tolerance, outcome_at(d, "bowl-holds-ice", "upper bowl")), SURE_FRAGILE);
  assert_int_equal(tolerance_settled(d->tolerance, outcome_at(d, "gate-too-narrow", "hired excavator")), 1);
  judged_free(&d->judged);
}

// The same margin's variance: u/2 has 16 parts of 17, v/8 the seventeenth. With the depth known exactly, or to half,
// it is never over: 1/2 + 1/4 + 1/8 in.
static void drivers_are_as_in_closed_form(void **state) {
  (void)state;
  struct drawn *d = begin(COURT, "", 12);
  struct drive found;
  drive_find(d->tolerance->sampling, outcome_at(d, "bowl-holds-ice", "upper bowl"), DRAWS, &found);
  const struct spread_value *values = d->tolerance->sampling->spread->values;
  assert_int_equal(found.by_margin, 1);
  assert_string_equal(values[found.drivers[0].value].name, "basin \"upper bowl\".depth");
  assert_string_equal(values[found.drivers[1].value].name, "spill \"upper lip\".crest");
  assert_near(found.drivers[0].share.total, 16.0 / 17, 0.2);
  assert_near(found.drivers[0].share.first, 16.0 / 17, 0.2);
  assert_near(found.drivers[1].share.total, 1.0 / 17, 0.02);
  for (uint32_t i = 2; i < found.driver_count; i++) assert_equal(found.drivers[i].share.total, 0);
  assert_int_equal(found.better[0].half.flagged, 0);
  assert_int_equal(found.better[0].exact.flagged, 0);
  assert_int_equal(found.better[0].exact_of, (int)DRAWS < (int)DRIVE_DRAWS ? (int)DRAWS : (int)DRIVE_DRAWS);
  judged_free(&d->judged);
}

// ---- the same draws ----

static void nothing_moves_by_what_is_added(void **state) {
  (void)state;
  struct drawn *one = begin(COURT, "", 3);
  struct drawn *other = begin(COURT, "\ntree \"oak\" { trunk = \"14 in\", distance = \"20 ft\" }\n", 3);
  draw_all(one);
  draw_all(other);
  assert_int_equal(value_of(one, "tree \"oak\".distance") == NULL, 1);
  assert_int_equal(value_of(other, "tree \"oak\".distance") == NULL, 0);
  for (size_t o = 0; o < one->judged.review.outcome_count; o++) {
    const struct outcome *outcome = &one->judged.review.outcomes[o];
    if (outcome->entity < 0) continue;
    size_t there =
        outcome_at(other, one->judged.review.rules[outcome->rule].id, judged_name(&one->judged, outcome->entity));
    assert_int_equal(one->tolerance->tallies[o].flagged, other->tolerance->tallies[there].flagged);
    assert_int_equal(one->tolerance->tallies[o].clear, other->tolerance->tallies[there].clear);
  }
  judged_free(&one->judged);
  judged_free(&other->judged);
}

static void parts_put_together_are_the_whole(void **state) {
  (void)state;
  struct drawn *whole = begin(COURT, "", 4), *sum = begin(COURT, "", 4);
  draw_all(whole);
  for (unsigned share = 0; share < 3; share++) {
    struct drawn *part = begin(COURT, "", 4);
    struct text bytes = text_in(part->judged.arena);
    tolerance_work(part->tolerance, TOLERANCE_DRAWS, share, 3);
    tolerance_pack(part->tolerance, TOLERANCE_DRAWS, &bytes);
    assert_int_equal(tolerance_add(sum->tolerance, TOLERANCE_DRAWS, bytes.at, bytes.length), 1);
    assert_int_equal(tolerance_add(sum->tolerance, TOLERANCE_DRAWS, bytes.at, bytes.length - 1), 0);
    assert_int_equal(tolerance_add(sum->tolerance, TOLERANCE_DRIVES, bytes.at, bytes.length), 0);
    assert_int_equal(tolerance_add(sum->tolerance, TOLERANCE_DRAWS, bytes.at, 3), 0);
    judged_free(&part->judged);
  }
  assert_int_equal(sum->tolerance->drawn, whole->tolerance->drawn);
  assert_memory_equal(sum->tolerance->tallies, whole->tolerance->tallies,
                      whole->judged.review.outcome_count * sizeof *whole->tolerance->tallies);
  judged_free(&whole->judged);
  judged_free(&sum->judged);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(values_vary_as_stated_or_as_usual), cmocka_unit_test(an_outline_grows_by_its_edges),
      cmocka_unit_test(one_weighing_is_off_by_one_share),  cmocka_unit_test(draws_are_what_a_cold_evaluation_says),
      cmocka_unit_test(shares_are_as_in_closed_form),      cmocka_unit_test(drivers_are_as_in_closed_form),
      cmocka_unit_test(nothing_moves_by_what_is_added),    cmocka_unit_test(parts_put_together_are_the_whole),
  };
  return cmocka_run_group_tests_name("designs/tolerance", tests, NULL, NULL);
}
