// SPDX-License-Identifier: MIT
// Circulations that cannot be: each is told at the part that is at fault, and the others are worked out all the same.
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "design/read.h"
#include "quantities/read.h"

struct fixture {
  struct arena *arena;
  struct problems problems;
  struct store *store;
  struct evaluation *ev;
};

static const char pool[] =
    "project { name = 'x', units = 'us' }\n"
    "basin 'pool' { purpose = 'display', outline = circle '8 ft', rim = '0 in', water_level = '-4 in', depth = '24 in' "
    "}\n"
    "local curve = { { '0 gal/h', '10 ft' }, { '2,000 gal/h', '3 ft' } }\n";

static struct fixture *design(const char *more) {
  struct arena *arena = arena_new();
  struct fixture *f = arena_alloc(arena, sizeof *f);
  *f = (struct fixture){.arena = arena, .problems = problems_in(arena)};
  struct text text = text_in(arena), said = text_in(arena);
  text_printf(&text, "%s%s", pool, more);
  struct file_bytes file = {.name = "x.lua", .bytes = text_end(&text), .length = strlen(text_end(&text))};
  f->store = design_read(arena, &file, &f->problems);
  problems_write(&said, &f->problems, 9);
  if (!f->store) fail_msg("%s", text_end(&said));
  f->ev = evaluation_in(arena, f->store, &f->problems);
  return f;
}

static int entity(struct fixture *f, const char *name) {
  int found = store_named(f->store, name, strlen(name));
  assert_int_not_equal(found, -1);
  return found;
}

static enum condition condition(struct fixture *f, const char *name, enum row_id row) {
  return evaluation_condition(f->ev, entity(f, name), row);
}

static void told(struct fixture *f, const char *where, int line, const char *said) {
  for (size_t i = 0; i < f->problems.count; i++) {
    const struct problem *it = &f->problems.list[i];
    if (it->where && strcmp(it->where, where) == 0 && strstr(it->said, said) && it->at.line == line) return;
  }
  struct text all = text_in(f->arena);
  problems_write(&all, &f->problems, 9);
  fail_msg("%s, line %d: \"%s\" is not among\n%s", where, line, said, text_end(&all));
}

#define PUMP(name) "pump '" name "' { from = 'pool', type = 'submersible', curve = curve }\n"
#define PIPE(name, from, to) \
  "pipe '" name "' { from = '" from "', to = '" to "', size = '1 1/2 in', length = '15 ft' }\n"

static void a_dead_end_is_told_at_its_joint(void **state) {
  (void)state;
  struct fixture *f = design(PUMP("pump") PIPE("line", "pump", "end") "junction 'end' { at = '0 in' }\n");
  assert_int_equal(condition(f, "pump", ROW_pump_flow), CONDITION_IMPOSSIBLE);
  assert_int_equal(condition(f, "line", ROW_pipe_flow), CONDITION_IMPOSSIBLE);
  told(f, "junction \"end\".at", 6, "not connected");
  arena_free(f->arena);
}

static void a_pump_without_a_pipe_is_told(void **state) {
  (void)state;
  struct fixture *f = design(PUMP("pump"));
  assert_int_equal(condition(f, "pump", ROW_pump_flow), CONDITION_IMPOSSIBLE);
  told(f, "pump \"pump\".from", 4, "not connected");
  arena_free(f->arena);
}

static void a_circle_without_an_outlet_is_told_at_its_pump(void **state) {
  (void)state;
  struct fixture *f = design(PUMP("pump") PIPE("a", "pump", "one") PIPE("b", "one", "two") PIPE(
      "c", "two", "one") "junction 'one' { at = '0 in' }\njunction 'two' { at = '0 in' }\n");
  assert_int_equal(condition(f, "pump", ROW_pump_flow), CONDITION_IMPOSSIBLE);
  told(f, "pump \"pump\".from", 4, "circle");
  arena_free(f->arena);
}

static void a_joint_that_nothing_feeds_is_told(void **state) {
  (void)state;
  struct fixture *f = design(
      "junction 'dry' { at = '0 in' }\n"
      "pipe 'a' { from = 'dry', to = 'pool', size = '2 in', length = '9 ft', outlet = 'above water',\n"
      "  outlet_at = '0 in' }\n");
  assert_int_equal(condition(f, "a", ROW_pipe_flow), CONDITION_IMPOSSIBLE);
  told(f, "junction \"dry\".at", 4, "not connected");
  arena_free(f->arena);
}

// What is wrong with one circulation leaves another alone; a dry pump asks for its suction line.
static void others_are_worked_out_all_the_same(void **state) {
  (void)state;
  struct fixture *f = design(PUMP("bare") PUMP(
      "good") "pump 'beside' { from = 'pool', type = 'dry', curve = curve }\n"
              "pipe 'a' { from = 'good', to = 'pool', size = '2 in', length = '9 ft', outlet = 'above water',\n"
              "  outlet_at = '12 in' }\n"
              "pipe 'b' { from = 'beside', to = 'pool', size = '2 in', length = '9 ft', outlet = 'above water',\n"
              "  outlet_at = '12 in' }\n");
  int *roots;
  struct reader reader;
  evaluation_begin(f->ev, &reader);
  evaluation_number(f->ev, entity(f, "beside"), ROW_pump_flow);
  evaluation_end(f->ev);
  assert_int_equal(condition(f, "bare", ROW_pump_flow), CONDITION_IMPOSSIBLE);
  assert_int_equal(condition(f, "good", ROW_pump_flow), CONDITION_COMPUTED);
  assert_int_equal(condition(f, "beside", ROW_pump_flow), CONDITION_MISSING);
  assert_int_equal(evaluation_roots(f->ev, reader.reads, reader.count, &roots), 2);
  assert_int_equal(roots[0], store_slot(f->store, entity(f, "beside"), ROW_pump_suction_length));
  assert_int_equal(roots[1], store_slot(f->store, entity(f, "beside"), ROW_pump_suction_size));
  arena_free(f->arena);
}

static double flow(struct fixture *f, const char *name) {
  int it = entity(f, name);
  bool pump = f->store->entities[it].kind == KIND_pump;
  return evaluation_number(f->ev, it, pump ? ROW_pump_flow : ROW_pipe_flow);
}

// 10 ft at no flow against 20 ft: no error, no flow, and no backflow either; the strong pump beside it runs on.
static void a_weak_pump_moves_nothing(void **state) {
  (void)state;
  struct fixture *f = design(PUMP(
      "weak") "pump 'strong' { from = 'pool', type = 'submersible',\n"
              "  curve = { { '0 gal/h', '40 ft' }, { '2,000 gal/h', '9 ft' } } }\n"
              "pipe 'a' { from = 'weak', to = 'tee', size = '2 in', length = '9 ft', check_valve = 'fitted' }\n"
              "pipe 'b' { from = 'strong', to = 'tee', size = '2 in', length = '9 ft', check_valve = 'fitted' }\n"
              "junction 'tee' { at = '0 in' }\n"
              "pipe 'up' { from = 'tee', to = 'pool', size = '2 in', length = '9 ft',\n"
              "  outlet = 'above water', outlet_at = '236 in' }\n");
  assert_int_equal(f->problems.count, 0);
  if (flow(f, "weak") != 0) fail_msg("the weak pump moves %g", flow(f, "weak"));
  double strong = flow(f, "strong"), up = flow(f, "up");
  if (!(strong > 1e-4 && fabs(strong - up) <= 1e-9 * up)) fail_msg("%g of the strong pump, %g on top", strong, up);
  arena_free(f->arena);
}

// Without check valves its water comes back down through the pump that cannot hold against it.
static void water_runs_back_through_a_weak_pump(void **state) {
  (void)state;
  struct fixture *f = design(PUMP(
      "weak") "pump 'strong' { from = 'pool', type = 'submersible',\n"
              "  curve = { { '0 gal/h', '40 ft' }, { '2,000 gal/h', '9 ft' } } }\n"
              "pipe 'a' { from = 'weak', to = 'tee', size = '2 in', length = '9 ft' }\n"
              "pipe 'b' { from = 'strong', to = 'tee', size = '2 in', length = '9 ft' }\n"
              "junction 'tee' { at = '0 in' }\n"
              "pipe 'up' { from = 'tee', to = 'pool', size = '2 in', length = '9 ft',\n"
              "  outlet = 'above water', outlet_at = '236 in' }\n");
  double weak = flow(f, "weak"), strong = flow(f, "strong"), up = flow(f, "up");
  if (!(weak < 0)) fail_msg("the weak pump moves %g", weak);
  if (!(fabs(weak + strong - up) <= 1e-9 * strong)) fail_msg("%g and %g in, %g out", weak, strong, up);
  arena_free(f->arena);
}

#define BOWL "basin 'bowl' { purpose = 'bowl', outline = circle '3 ft', rim = '60 in', depth = '20 in' }\n"
#define LIP(more) \
  "spill 'lip' { from = 'bowl', into = 'pool', crest = '48 in', lip = 'thin edge', lip_width = '2 in'" more " }\n"
#define DROWNED(name, from)         \
  "pipe '" name "' { from = '" from \
  "', to = 'bowl', size = '2 in', length = '9 ft', outlet = 'drowned', outlet_at = '44 in' }\n"

static void gives(const char *more, double expected) {
  struct fixture *f = design(more);
  double found = flow(f, "pump") / (231 * 0.0254 * 0.0254 * 0.0254 / 3600);
  if (!(fabs(found - expected) <= 1e-3 * expected))
    fail_msg("%.9g gal/h, %.9g expected, of\n%s", found, expected, more);
  arena_free(f->arena);
}

// Computed with scipy brentq and fluids Colebrook: the curve against 52 in, 9 ft of 2.067 in with K 1.5, and in the
// first case (q / (3.33 ft^0.5/s x 2 in))^(2/3) over the lip. Where not all of a bowl's water can be followed, or none
// can leave it, it stands still.
static void a_drowned_end_is_under_what_the_lip_asks(void **state) {
  (void)state;
  gives(BOWL LIP("") PUMP("pump") DROWNED("line", "pump"), 1490.01);
  gives(BOWL LIP("") PUMP("pump") PUMP("other") DROWNED("line", "pump") DROWNED("other line", "other"), 1546.49);
  gives(BOWL LIP(", blocked = '100 %'") PUMP("pump") DROWNED("line", "pump"), 1546.49);
  gives(BOWL LIP("") "spill 'round' { from = 'bowl', into = 'bowl', crest = '48 in', lip = 'notch', lip_width = '9 in' }\n"
        PUMP("pump") DROWNED("line", "pump"), 1546.49);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_dead_end_is_told_at_its_joint),
      cmocka_unit_test(a_pump_without_a_pipe_is_told),
      cmocka_unit_test(a_circle_without_an_outlet_is_told_at_its_pump),
      cmocka_unit_test(a_joint_that_nothing_feeds_is_told),
      cmocka_unit_test(others_are_worked_out_all_the_same),
      cmocka_unit_test(a_weak_pump_moves_nothing),
      cmocka_unit_test(water_runs_back_through_a_weak_pump),
      cmocka_unit_test(a_drowned_end_is_under_what_the_lip_asks),
  };
  return cmocka_run_group_tests_name("quantities/water_network", tests, NULL, NULL);
}
