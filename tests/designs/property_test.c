// SPDX-License-Identifier: MIT
// What must hold for any design, whatever its numbers: tried on random ones (the same each run), and on the designs in
// projects with one given after another left out. No expected number: each property compares two designs.
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "design/read.h"
#include "quantities/evaluate.h"
#include "quantities/functions.h"

enum { DESIGNS = 60, ROLES = 10 };
enum role { PROJECT, SITE, POOL, BOWL, LIP, PUMP, PIPE, STONE, DIG, LINER };

// ---- Random designs ----

static unsigned next(uint64_t *seed) {
  *seed = *seed * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
  return (unsigned)(*seed >> 33);
}
static int between(uint64_t *seed, int low, int high) { return low + (int)(next(seed) % (unsigned)(high - low + 1)); }

struct recipe {  // whole inches, gal/h, lb/ft3
  int length, width, depth, rim, shelf, slope, crest, lip, bowl, run, size, shut_off, most, stone[3], density, raised;
  const char *shape, *form, *soil;
  bool metric, turned;
  const char *prefix;
};

static struct recipe random_recipe(uint64_t *seed) {
  static const char *const shapes[] = {"circle", "ellipse", "rectangle"},
                           *const forms[] = {"rounded", "blocky", "squared"},
                           *const soils[] = {"type A", "type B", "type C"};
  struct recipe r = {
      .length = between(seed, 96, 300), .width = between(seed, 84, 200), .rim = between(seed, 2, 9), .prefix = ""};
  r.depth = between(seed, 14, 40), r.shelf = between(seed, 6, 12), r.slope = between(seed, 0, 1),
  r.crest = between(seed, 10, 40);
  r.lip = between(seed, 6, 24), r.bowl = between(seed, 30, 60), r.run = between(seed, 60, 500),
  r.size = between(seed, 0, 2);
  r.shut_off = between(seed, 120, 240), r.most = between(seed, 1000, 4000), r.density = between(seed, 140, 180);
  for (int i = 0; i < 3; i++) r.stone[i] = between(seed, 14, 70);
  r.shape = shapes[next(seed) % 3], r.form = forms[next(seed) % 3], r.soil = soils[next(seed) % 3];
  return r;
}

struct building {
  struct arena *arena;
  struct problems problems;
  struct store *store;
  const struct recipe *recipe;
  int line, entities[ROLES];
  struct evaluation *ev;
};

static void give(struct building *b, int entity, enum row_id row, const char *words) {
  store_write(b->store, &b->problems, entity, row, (struct store_text){words, false, {b->line, 0, 0}});
}

// Inches, or the same in millimetres: 25.4 is exact.
static void inches(struct building *b, int entity, enum row_id row, int value) {
  char words[40];
  if (catalogue_row(row)->dimension == DIM_ELEVATION) value += b->recipe->raised;
  int tenths = value * 254;
  if (b->recipe->metric) {
    snprintf(words, sizeof words, "%s%d.%d mm", tenths < 0 ? "-" : "", abs(tenths) / 10, abs(tenths) % 10);
  } else {
    snprintf(words, sizeof words, "%d in", value);
  }
  give(b, entity, row, words);
}

static void unit(struct building *b, int entity, enum row_id row, int value, const char *of) {
  char words[40];
  snprintf(words, sizeof words, "%d %s", value, of);
  give(b, entity, row, words);
}

static const char *name(struct building *b, const char *words) {
  struct text text = text_in(b->arena);
  text_printf(&text, "%s%s", b->recipe->prefix, words);
  return text_end(&text);
}

static int begin(struct building *b, enum role role, enum kind kind, const char *words) {
  b->line += 10;
  return b->entities[role] = store_add(b->store, kind, words ? name(b, words) : NULL, b->line);
}

static void add_outline(struct building *b, int basin, const char *shape, int length, int width) {
  give(b, basin, ROW_basin_outline, shape);
  int point = store_add_part(b->store, basin, ROW_basin_outline, b->line);
  inches(b, point, ROW_point_x, length);
  if (strcmp(shape, "circle") != 0) inches(b, point, ROW_point_y, width);
}

static void add_project(struct building *b) {
  int it = begin(b, PROJECT, KIND_project, NULL);
  give(b, it, ROW_project_name, "Any");
  give(b, it, ROW_project_units, b->recipe->metric ? "si" : "us");
}

static void add_site(struct building *b) {
  int it = begin(b, SITE, KIND_site, NULL);
  give(b, it, ROW_site_soil, b->recipe->soil);
  inches(b, it, ROW_site_ground, 0);
  unit(b, it, ROW_site_truck_volume, 12, "yd3");
  unit(b, it, ROW_site_truck_limit, 12, "ton");
}

static void add_pool(struct building *b) {
  const struct recipe *r = b->recipe;
  int it = begin(b, POOL, KIND_basin, "pool");
  give(b, it, ROW_basin_purpose, "display");
  inches(b, it, ROW_basin_rim, 0);
  inches(b, it, ROW_basin_water_level, -r->rim);
  inches(b, it, ROW_basin_depth, r->depth);
  give(b, it, ROW_basin_side_slope, r->slope ? "1H:4V" : "upright");
  add_outline(b, it, r->shape, r->length, r->width);
  int shelf = store_add_part(b->store, it, ROW_basin_shelves, b->line);
  inches(b, shelf, ROW_shelf_depth, r->shelf);
  inches(b, shelf, ROW_shelf_width, 10);
}

static void add_bowl(struct building *b) {
  int it = begin(b, BOWL, KIND_basin, "bowl");
  give(b, it, ROW_basin_purpose, "bowl");
  inches(b, it, ROW_basin_rim, b->recipe->crest + 4);
  inches(b, it, ROW_basin_depth, 12);
  add_outline(b, it, "circle", b->recipe->bowl, 0);
}

static void add_lip(struct building *b) {
  int it = begin(b, LIP, KIND_spill, "lip");
  give(b, it, ROW_spill_from, name(b, "bowl"));
  give(b, it, ROW_spill_into, name(b, "pool"));
  give(b, it, ROW_spill_lip, "broad stone");
  give(b, it, ROW_spill_drip_edge, "undercut");
  inches(b, it, ROW_spill_crest, b->recipe->crest);
  inches(b, it, ROW_spill_lip_width, b->recipe->lip);
  inches(b, it, ROW_spill_setback, -2);
}

static void add_pump(struct building *b) {
  int it = begin(b, PUMP, KIND_pump, "pump");
  give(b, it, ROW_pump_from, name(b, "pool"));
  give(b, it, ROW_pump_type, "submersible");
  for (int i = 0; i < 3; i++) {
    int point = store_add_part(b->store, it, ROW_pump_curve, b->line);
    unit(b, point, ROW_curve_point_flow, b->recipe->most * i / 2, "gal/h");
    inches(b, point, ROW_curve_point_head, b->recipe->shut_off * (2 - i) / 2);
  }
}

static void add_pipe(struct building *b) {
  static const char *const sizes[] = {"1 1/2 in", "2 in", "3 in"};
  int it = begin(b, PIPE, KIND_pipe, "pipe");
  give(b, it, ROW_pipe_from, name(b, "pump"));
  give(b, it, ROW_pipe_to, name(b, "bowl"));
  give(b, it, ROW_pipe_size, sizes[b->recipe->size]);
  give(b, it, ROW_pipe_outlet, "above water");
  inches(b, it, ROW_pipe_length, b->recipe->run);
  inches(b, it, ROW_pipe_outlet_at, b->recipe->crest + 6);
}

static void add_stone(struct building *b) {
  const struct recipe *r = b->recipe;
  int it = begin(b, STONE, KIND_boulder, "stone");
  inches(b, it, ROW_boulder_length, r->stone[0]);
  inches(b, it, ROW_boulder_width, r->stone[1]);
  inches(b, it, ROW_boulder_height, r->stone[2]);
  inches(b, it, ROW_boulder_embedment, r->stone[2] / 5);
  unit(b, it, ROW_boulder_density, r->density, "lb/ft3");
  give(b, it, ROW_boulder_shape, r->form);
  give(b, it, ROW_boulder_beside, name(b, "pool"));
  inches(b, it, ROW_boulder_gravel_behind, 12);
  inches(b, it, ROW_boulder_gravel_height, 8);
}

static void add_dig(struct building *b) {
  int it = begin(b, DIG, KIND_dig, "dig");
  give(b, it, ROW_dig_of, name(b, "pool"));
  give(b, it, ROW_dig_slope, "1.5H:1V");
}

static void add_liner(struct building *b) {
  int it = begin(b, LINER, KIND_liner, "liner");
  give(b, it, ROW_liner_of, name(b, "pool"));
  inches(b, it, ROW_liner_edge, 1);
}

static struct building *built(const struct recipe *recipe) {
  static void (*const adders[ROLES])(struct building *) = {add_project, add_site, add_pool,  add_bowl, add_lip,
                                                           add_pump,    add_pipe, add_stone, add_dig,  add_liner};
  struct arena *arena = arena_new();
  struct building *b = arena_alloc(arena, sizeof *b);
  *b = (struct building){
      .arena = arena, .problems = problems_in(arena), .recipe = recipe, .store = store_in(arena, "any.lua")};
  for (int i = 0; i < ROLES; i++) adders[recipe->turned ? ROLES - 1 - i : i](b);
  struct text said = text_in(arena);
  bool whole = store_settle(b->store, &b->problems);
  problems_write(&said, &b->problems, 9);
  if (!whole) fail_msg("%s", text_end(&said));
  b->ev = evaluation_in(arena, b->store, &b->problems);
  return b;
}

static double value(struct building *b, enum role role, enum row_id row) {
  return evaluation_number(b->ev, b->entities[role], row);
}

// ---- Two designs that must say the same ----

static bool is_worked(const struct store *store, int entity, enum row_id row) {
  return catalogue_row(row)->kind == store->entities[entity].kind && catalogue_row(row)->sort != SORT_BUNDLE &&
         row_function(row);
}

static bool has_number(enum condition condition) {
  return condition != CONDITION_MISSING && condition != CONDITION_IMPOSSIBLE && condition != CONDITION_UNSET;
}

// Heights differ by what the datum does; all else within the band of what went into it.
static void check_alike(struct building *a, struct building *b, enum role role, enum row_id row, double raised) {
  int in_a = a->entities[role], in_b = b->entities[role];
  const struct row *facts = catalogue_row(row);
  assert_int_equal(evaluation_condition(a->ev, in_a, row), evaluation_condition(b->ev, in_b, row));
  if (!has_number(evaluation_condition(a->ev, in_a, row))) return;
  double one = evaluation_number(a->ev, in_a, row), other = evaluation_number(b->ev, in_b, row);
  if (facts->dimension == DIM_ELEVATION) one += raised;
  if (isnan(one) || isnan(other)) fail_msg("%s.%s is not a number", catalogue_kind(facts->kind)->name, facts->name);
  if (one == other || fabs(one - other) <= 1e-7 * fabs(one) + 1e-9 * fabs(raised) + 1e-12) return;
  fail_msg("%s.%s is %.15g and %.15g", catalogue_kind(facts->kind)->name, facts->name, one, other);
}

static void check_all_alike(const struct recipe *one, const struct recipe *other) {
  struct building *a = built(one), *b = built(other);
  double raised = (other->raised - one->raised) * 0.0254;
  int numbers = 0;
  for (int role = 0; role < ROLES; role++) {
    for (int r = 0; r < ROW_COUNT; r++) {
      if (!is_worked(a->store, a->entities[role], (enum row_id)r)) continue;
      check_alike(a, b, (enum role)role, (enum row_id)r, raised);
      numbers += has_number(evaluation_condition(a->ev, a->entities[role], (enum row_id)r));
    }
  }
  assert_in_range(numbers, 80, 1000);
  assert_int_equal(a->problems.count, b->problems.count);
  arena_free(a->arena);
  arena_free(b->arena);
}

static void each_random(void (*check)(const struct recipe *recipe)) {
  uint64_t seed = 20;
  for (int i = 0; i < DESIGNS; i++) {
    struct recipe recipe = random_recipe(&seed);
    check(&recipe);
  }
}

static void check_units(const struct recipe *recipe) {
  struct recipe other = *recipe;
  other.metric = true;
  check_all_alike(recipe, &other);
}
static void check_order(const struct recipe *recipe) {
  struct recipe other = *recipe;
  other.turned = true;
  check_all_alike(recipe, &other);
}
static void check_datum(const struct recipe *recipe) {
  struct recipe other = *recipe;
  other.raised = 1200;
  check_all_alike(recipe, &other);
}
static void check_names(const struct recipe *recipe) {
  struct recipe other = *recipe;
  other.prefix = "zz ";
  check_all_alike(recipe, &other);
}

static void units_change_nothing(void **state) { (void)state, each_random(check_units); }
static void order_changes_nothing(void **state) { (void)state, each_random(check_order); }
static void datum_changes_nothing(void **state) { (void)state, each_random(check_datum); }
static void names_change_nothing(void **state) { (void)state, each_random(check_names); }

// ---- More of one is more of the other ----

static void check_volume_grows(const struct recipe *recipe) {
  struct recipe deeper = *recipe;
  deeper.depth += 3;
  deeper.rim -= 1;  // the water stands an inch higher, the bed 2 in lower
  struct building *a = built(recipe), *b = built(&deeper);
  double before = value(a, POOL, ROW_basin_gross_volume), after = value(b, POOL, ROW_basin_gross_volume);
  if (!(after > before && before > 0)) fail_msg("%.9g m3, and deeper %.9g m3", before, after);
  arena_free(a->arena);
  arena_free(b->arena);
}

static void check_mass_scales(const struct recipe *recipe) {
  static const enum row_id masses[] = {ROW_boulder_mass_low, ROW_boulder_mass, ROW_boulder_mass_high};
  struct recipe light = *recipe, heavy = *recipe;
  light.density = 90, heavy.density = 180;
  struct building *a = built(&light), *b = built(&heavy);
  for (size_t i = 0; i < sizeof masses / sizeof *masses; i++) {
    double one = value(a, STONE, masses[i]), two = value(b, STONE, masses[i]);
    if (!(fabs(two - 2 * one) <= 1e-9 * two && one > 0)) fail_msg("%.9g kg, twice as dense %.9g kg", one, two);
  }
  arena_free(a->arena);
  arena_free(b->arena);
}

static void volume_grows_with_level(void **state) { (void)state, each_random(check_volume_grows); }
static void mass_scales_with_density(void **state) { (void)state, each_random(check_mass_scales); }

// ---- One given left out ----

struct result {
  double value;
  enum condition condition;
  bool reads;  // the given, at whatever distance
};

struct demo {
  struct arena *arena;
  struct store *store;
  struct result *before;  // by slot
};

static bool reads_slot(struct evaluation *ev, int slot, int given, bool *seen) {
  const int *reads;
  if (slot == given) return true;
  if (seen[slot]) return false;
  seen[slot] = true;
  size_t count = evaluation_reads(ev, slot, &reads);
  for (size_t i = 0; i < count; i++) {
    if (reads_slot(ev, reads[i], given, seen)) return true;
  }
  return false;
}

static struct result result_of(struct evaluation *ev, int entity, enum row_id row) {
  struct result result = {.condition = evaluation_condition(ev, entity, row)};
  if (has_number(result.condition)) result.value = evaluation_number(ev, entity, row);
  return result;
}

static bool blames(struct evaluation *ev, int slot, int given) {
  int *roots;
  size_t count = evaluation_roots(ev, &slot, 1, &roots);
  for (size_t i = 0; i < count; i++) {
    if (roots[i] == given) return true;
  }
  return count > 0 && evaluation_because(ev, roots[0]) != NULL;  // it says itself what to measure
}

// The same as before; or missing, and the given is to blame; or another value, and the given is among what it reads.
static void check_without(struct demo *demo, struct evaluation *ev, int entity, enum row_id row, int given) {
  int slot = store_slot(demo->store, entity, row);
  struct result now = result_of(ev, entity, row), *before = &demo->before[slot];
  bool same = now.condition == before->condition && (now.value == before->value || !has_number(now.condition));
  if (has_number(now.condition) && isnan(now.value)) fail_msg("%s is NaN", catalogue_row(row)->name);
  if (same) return;
  bool *seen = arena_array(evaluation_arena(ev), demo->store->slot_count, sizeof *seen);
  bool right = now.condition == CONDITION_MISSING ? blames(ev, slot, given) : reads_slot(ev, slot, given, seen);
  struct text said = text_in(demo->arena);
  int of;
  enum row_id left_out = store_row_of_slot(demo->store, given, &of);
  store_describe(&said, demo->store, entity, row);
  text_add(&said, " without ");
  store_describe(&said, demo->store, of, left_out);
  if (!right)
    fail_msg("%s: %.9g (%d) became %.9g (%d)", text_end(&said), before->value, (int)before->condition, now.value,
             (int)now.condition);
}

static void each_result(struct demo *demo, struct evaluation *ev, int given) {
  for (size_t e = 0; e < demo->store->entity_count; e++) {
    for (int r = 0; r < ROW_COUNT; r++) {
      if (!is_worked(demo->store, (int)e, (enum row_id)r)) continue;
      if (given >= 0) check_without(demo, ev, (int)e, (enum row_id)r, given);
      if (given < 0)
        demo->before[store_slot(demo->store, (int)e, (enum row_id)r)] = result_of(ev, (int)e, (enum row_id)r);
    }
  }
}

static struct evaluation *evaluation_of(struct demo *demo, struct arena *arena) {
  struct problems *problems = arena_alloc(arena, sizeof *problems);
  *problems = problems_in(arena);
  return evaluation_in(arena, demo->store, problems);
}

static void leave_out(struct demo *demo, int given) {
  struct slot kept = demo->store->slots[given];
  struct arena *arena = arena_new();
  demo->store->slots[given].condition = CONDITION_UNSET;
  each_result(demo, evaluation_of(demo, arena), given);
  demo->store->slots[given] = kept;
  arena_free(arena);
}

static void check_demo(const char *path, int step) {
  struct demo demo = {.arena = arena_new()};
  struct problems problems = problems_in(demo.arena);
  struct file_bytes file;
  assert_true(file_read(&problems, path, 1 << 20, &file));
  demo.store = design_read(demo.arena, &file, &problems);
  assert_non_null(demo.store);
  demo.before = arena_array(demo.arena, demo.store->slot_count, sizeof *demo.before);
  each_result(&demo, evaluation_of(&demo, demo.arena), -1);
  int left_out = 0, count = 0;
  for (size_t i = 0; i < demo.store->slot_count; i++) {
    int entity;
    enum row_sort sort = catalogue_row(store_row_of_slot(demo.store, (int)i, &entity))->sort;
    bool is_value = sort == SORT_NUMBER || sort == SORT_CHOICE;
    if (!is_value || demo.store->slots[i].condition != CONDITION_GIVEN || count++ % step != 0) continue;
    leave_out(&demo, (int)i);
    left_out++;
  }
  print_message("%s: %d givens left out in turn\n", path, left_out);
  assert_in_range(left_out, 20, 5000);
  arena_free(demo.arena);
}

static void what_is_left_out_is_blamed(void **state) {
  (void)state;
  check_demo(FOREBAY_ROOT "/projects/stone-court.lua", 1);
  check_demo(FOREBAY_ROOT "/projects/slate-rill.lua", 1);
  check_demo(FOREBAY_ROOT "/projects/crew-lesson.lua", 1);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(units_change_nothing),       cmocka_unit_test(order_changes_nothing),
      cmocka_unit_test(datum_changes_nothing),      cmocka_unit_test(names_change_nothing),
      cmocka_unit_test(volume_grows_with_level),    cmocka_unit_test(mass_scales_with_density),
      cmocka_unit_test(what_is_left_out_is_blamed),
  };
  return cmocka_run_group_tests_name("designs/property", tests, NULL, NULL);
}
