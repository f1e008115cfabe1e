// SPDX-License-Identifier: MIT
// What must hold of any circulation, on designs drawn by chance and built through the store: what comes to a joint
// leaves it; closing an outlet gives the others more; nothing stands higher than its pumps push; and neither order,
// datum, names nor units change a flow.
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "quantities/read.h"

enum { DESIGNS = 60, THINGS = 80, FIELDS = 12, POINTS = 4, NAME = 24 };

// ---- A design drawn by chance, not yet written ----

enum sort { AS_WORD, AS_NAME, AS_INCHES, AS_HEIGHT, AS_SHARE };  // numbers: whole inches, hundredths

struct field {
  enum row_id row;
  enum sort sort;
  char text[NAME];
  int number;
};

struct thing {
  enum kind kind;
  char name[NAME];
  struct field fields[FIELDS];
  size_t count;
  int flows[POINTS], heads[POINTS];  // gal/h, in: of a pump
  size_t points;
  int across;  // in: of a basin
};

struct drawing {
  struct thing things[THINGS];
  size_t count;
  uint32_t chance;
};

// Numerical Recipes' quick generator: the same designs on every machine.
static int draw(struct drawing *of, int least, int most) {
  of->chance = of->chance * 1664525u + 1013904223u;
  return least + (int)((of->chance >> 8) % (uint32_t)(most - least + 1));
}

static struct thing *add(struct drawing *to, enum kind kind, const char *name, int number) {
  assert_in_range(to->count, 0, THINGS - 1);
  struct thing *thing = &to->things[to->count++];
  *thing = (struct thing){.kind = kind};
  snprintf(thing->name, sizeof thing->name, "%s %d", name, number);
  return thing;
}

static void say(struct thing *of, enum row_id row, enum sort sort, const char *text, int number) {
  assert_in_range(of->count, 0, FIELDS - 1);
  struct field *field = &of->fields[of->count++];
  *field = (struct field){.row = row, .sort = sort, .number = number};
  snprintf(field->text, sizeof field->text, "%s", text);
}

static void add_basin(struct drawing *to, const char *name, int number, int level) {
  struct thing *basin = add(to, KIND_basin, name, number);
  basin->across = draw(to, 40, 200);
  say(basin, ROW_basin_purpose, AS_WORD, number ? "bowl" : "display", 0);
  say(basin, ROW_basin_water_level, AS_HEIGHT, "", level);
  say(basin, ROW_basin_rim, AS_HEIGHT, "", level + 6);
  say(basin, ROW_basin_depth, AS_INCHES, "", 20);
}

static void add_lip(struct drawing *to, const char *from, int number, int crest) {
  static const char *const lips[] = {"thin edge", "broad stone", "rounded", "notch"};
  struct thing *lip = add(to, KIND_spill, "lip", number);
  say(lip, ROW_spill_from, AS_NAME, from, 0);
  say(lip, ROW_spill_into, AS_NAME, "pool 0", 0);
  say(lip, ROW_spill_crest, AS_HEIGHT, "", crest);
  say(lip, ROW_spill_lip, AS_WORD, lips[number % 4], 0);
  say(lip, ROW_spill_lip_width, AS_INCHES, "", 2 + 7 * number % 40);
}

static struct thing *add_pipe(struct drawing *to, const char *from, const char *end) {
  static const char *const sizes[] = {"1 in", "1 1/4 in", "1 1/2 in", "2 in"};
  struct thing *pipe = add(to, KIND_pipe, "pipe", (int)to->count);
  say(pipe, ROW_pipe_from, AS_NAME, from, 0);
  say(pipe, ROW_pipe_to, AS_NAME, end, 0);
  say(pipe, ROW_pipe_size, AS_WORD, sizes[draw(to, 0, 3)], 0);
  say(pipe, ROW_pipe_length, AS_INCHES, "", draw(to, 24, 600));
  return pipe;
}

static void add_pump(struct drawing *to, int number, const char *into) {
  char name[NAME];
  struct thing *pump = add(to, KIND_pump, "pump", number);
  snprintf(name, sizeof name, "%s", pump->name);
  say(pump, ROW_pump_from, AS_NAME, "pool 0", 0);
  say(pump, ROW_pump_type, AS_WORD, "submersible", 0);
  pump->points = POINTS;
  int flow = 0, head = draw(to, 120, 300);
  for (size_t i = 0; i < POINTS; i++) {
    pump->flows[i] = flow;
    pump->heads[i] = i + 1 < POINTS ? head : 0;
    flow += draw(to, 600, 2000);
    head -= draw(to, 6, head / 3);
  }
  say(add_pipe(to, name, into), ROW_pipe_check_valve, AS_WORD, "fitted", 0);
}

static void add_outlet(struct drawing *to, const char *from, int number) {
  static const char *const valves[] = {"ball", "gate", "globe"};
  char end[NAME];
  int sort = draw(to, 0, 2), level = draw(to, 6, 48);
  snprintf(end, sizeof end, "%s %d", sort == 2 ? "jet" : "bowl", number);
  if (sort == 2) {
    struct thing *jet = add(to, KIND_jet, "jet", number);
    say(jet, ROW_jet_basin, AS_NAME, "pool 0", 0);
    say(jet, ROW_jet_at, AS_HEIGHT, "", draw(to, -6, 6));
    say(jet, ROW_jet_orifice, AS_INCHES, "", 1);
  } else {
    add_basin(to, "bowl", number, level);
    if (number % 3 > 0) add_lip(to, end, number, level);
  }
  struct thing *pipe = add_pipe(to, from, end);
  say(pipe, ROW_pipe_valve, AS_WORD, valves[draw(to, 0, 2)], 0);
  say(pipe, ROW_pipe_valve_open, AS_SHARE, "", draw(to, 30, 100));
  if (sort == 2) return;
  say(pipe, ROW_pipe_outlet, AS_WORD, sort ? "drowned" : "above water", 0);
  say(pipe, ROW_pipe_outlet_at, AS_HEIGHT, "", sort ? level - 6 : level + 6);
}

// Pumps on one header; from it a line of joints, each with outlets of its own.
static struct drawing drawn(uint32_t seed) {
  struct drawing it = {.chance = seed * 2654435761u + 1};
  int pumps = draw(&it, 1, 3), joints = draw(&it, 1, 4), outlets = 0;
  add_basin(&it, "pool", 0, 0);
  for (int j = 0; j < joints; j++) {
    char name[NAME], before[NAME];
    snprintf(before, sizeof before, "joint %d", j - 1);
    struct thing *joint = add(&it, KIND_junction, "joint", j);
    say(joint, ROW_junction_at, AS_HEIGHT, "", draw(&it, -20, 10));
    snprintf(name, sizeof name, "%s", joint->name);
    if (j > 0) add_pipe(&it, before, name);
    for (int o = draw(&it, j + 1 < joints ? 1 : 2, 3); o > 0; o--) add_outlet(&it, name, ++outlets);
  }
  for (int p = 0; p < pumps; p++) add_pump(&it, p, "joint 0");
  return it;
}

// ---- Written into a store ----

struct manner {
  bool si, backward;
  const char *before;  // before each name
  int raised;          // in
};

struct built {
  struct arena *arena;
  struct problems problems;
  struct store *store;
  struct evaluation *ev;
  struct manner manner;
};

static void write(struct built *to, int entity, enum row_id row, const char *text) {
  if (!store_write(to->store, &to->problems, entity, row, (struct store_text){text, false, {1 + entity, 0, 0}}))
    fail_msg("%s", text);
}

static void write_inches(struct built *to, int entity, enum row_id row, int inches) {
  char text[64];
  if (to->manner.si) {
    snprintf(text, sizeof text, "%.1f mm", inches * 25.4);
  } else {
    snprintf(text, sizeof text, "%d in", inches);
  }
  write(to, entity, row, text);
}

static void write_field(struct built *to, int entity, const struct field *field) {
  char text[2 * NAME];
  switch (field->sort) {
    case AS_WORD:
      write(to, entity, field->row, field->text);
      break;
    case AS_INCHES:
      write_inches(to, entity, field->row, field->number);
      break;
    case AS_HEIGHT:
      write_inches(to, entity, field->row, field->number + to->manner.raised);
      break;
    case AS_NAME:
      snprintf(text, sizeof text, "%s%s", to->manner.before, field->text);
      write(to, entity, field->row, text);
      break;
    case AS_SHARE:
      snprintf(text, sizeof text, "%d %%", field->number);
      write(to, entity, field->row, text);
      break;
  }
}

static void write_curve(struct built *to, int pump, const struct thing *thing) {
  for (size_t i = 0; i < thing->points; i++) {
    char text[64];
    int point = store_add_part(to->store, pump, ROW_pump_curve, 1);
    snprintf(text, sizeof text, "%d gal/h", thing->flows[i]);
    if (to->manner.si) snprintf(text, sizeof text, "%.9f L/h", thing->flows[i] * 3.785411784);
    write(to, point, ROW_curve_point_flow, text);
    write_inches(to, point, ROW_curve_point_head, thing->heads[i]);
  }
}

static void write_thing(struct built *to, const struct thing *thing) {
  struct text name = text_in(to->arena);
  text_printf(&name, "%s%s", to->manner.before, thing->name);
  int entity = store_add(to->store, thing->kind, text_end(&name), 1);
  if (thing->across > 0) {
    write(to, entity, ROW_basin_outline, "circle");
    write_inches(to, store_add_part(to->store, entity, ROW_basin_outline, 1), ROW_point_x, thing->across);
  }
  write_curve(to, entity, thing);
  for (size_t i = 0; i < thing->count; i++) write_field(to, entity, &thing->fields[i]);
}

static struct built build(const struct drawing *of, struct manner manner) {
  struct built it = {.arena = arena_new(), .manner = manner};
  it.problems = problems_in(it.arena);
  it.store = store_in(it.arena, "drawn");
  int project = store_add(it.store, KIND_project, NULL, 1);
  write(&it, project, ROW_project_name, "drawn by chance");
  write(&it, project, ROW_project_units, manner.si ? "si" : "us");
  for (size_t i = 0; i < of->count; i++) write_thing(&it, &of->things[manner.backward ? of->count - 1 - i : i]);
  return it;
}

static void settle(struct built *it) {
  if (!store_settle_example(it->store, &it->problems)) {
    struct text said = text_in(it->arena);
    problems_write(&said, &it->problems, 9);
    fail_msg("%s", text_end(&said));
  }
  it->ev = evaluation_in(it->arena, it->store, &it->problems);
}

static double value(struct built *of, const char *name, enum row_id row) {
  char text[2 * NAME];
  snprintf(text, sizeof text, "%s%s", of->manner.before, name);
  int entity = store_named(of->store, text, strlen(text));
  if (entity < 0) fail_msg("no %s", text);
  double found = evaluation_number(of->ev, entity, row);
  if (isnan(found)) fail_msg("%s has no %s", text, catalogue_row(row)->name);
  return found;
}

static double greatest_flow(struct built *of, const struct drawing *drawing) {
  double greatest = 0;
  for (size_t i = 0; i < drawing->count; i++) {
    if (drawing->things[i].kind != KIND_pipe) continue;
    greatest = fmax(greatest, fabs(value(of, drawing->things[i].name, ROW_pipe_flow)));
  }
  return greatest;
}

static bool is_field(const struct thing *thing, enum row_id row, const char *text) {
  for (size_t i = 0; i < thing->count; i++) {
    if (thing->fields[i].row == row && strcmp(thing->fields[i].text, text) == 0) return true;
  }
  return false;
}

static bool is_outlet(const struct thing *thing) {
  for (size_t i = 0; i < thing->count; i++) {
    if (thing->fields[i].row == ROW_pipe_valve) return true;
  }
  return false;
}

// ---- Properties ----

static double in_less_out(struct built *of, const struct drawing *drawing, const char *joint) {
  double sum = 0;
  for (size_t i = 0; i < drawing->count; i++) {
    const struct thing *thing = &drawing->things[i];
    if (is_field(thing, ROW_pipe_to, joint)) sum += value(of, thing->name, ROW_pipe_flow);
    if (is_field(thing, ROW_pipe_from, joint)) sum -= value(of, thing->name, ROW_pipe_flow);
  }
  return sum;
}

static void what_comes_to_a_joint_leaves_it(void **state) {
  (void)state;
  int flowing = 0;
  for (uint32_t seed = 0; seed < DESIGNS; seed++) {
    struct drawing drawing = drawn(seed);
    struct built it = build(&drawing, (struct manner){.before = ""});
    settle(&it);
    double most = greatest_flow(&it, &drawing);
    flowing += most > 0;
    for (size_t i = 0; i < drawing.count; i++) {
      if (drawing.things[i].kind != KIND_junction) continue;
      double rest = in_less_out(&it, &drawing, drawing.things[i].name);
      if (!(fabs(rest) <= 1e-9 * most))
        fail_msg("design %u, %s: %g m3/s left of %g", seed, drawing.things[i].name, rest, most);
    }
    assert_int_equal(it.problems.count, 0);
    arena_free(it.arena);
  }
  assert_in_range(flowing, DESIGNS / 2, DESIGNS);
}

static void check_closed(const struct drawing *drawing, uint32_t seed, struct built *open, const struct thing *shut) {
  struct built closed = build(drawing, (struct manner){.before = ""});
  settle(&closed);
  int pipe = store_named(closed.store, shut->name, strlen(shut->name));
  store_at(closed.store, pipe, ROW_pipe_valve_open)->value = 0;
  assert_true(value(&closed, shut->name, ROW_pipe_flow) == 0);
  double taken = value(open, shut->name, ROW_pipe_flow), most = greatest_flow(open, drawing);
  for (size_t i = 0; i < drawing->count; i++) {
    const struct thing *other = &drawing->things[i];
    if (!is_outlet(other) || other == shut) continue;
    double before = value(open, other->name, ROW_pipe_flow), after = value(&closed, other->name, ROW_pipe_flow);
    bool more = before > 0 && taken > 1e-3 * most ? after > before : after >= before - 1e-9 * most;
    if (!more)
      fail_msg("design %u: %s has %.12g after %s is shut, %.12g before", seed, other->name, after, shut->name, before);
  }
  arena_free(closed.arena);
}

static void closing_an_outlet_gives_the_others_more(void **state) {
  (void)state;
  for (uint32_t seed = 0; seed < DESIGNS; seed++) {
    struct drawing drawing = drawn(seed);
    struct built open = build(&drawing, (struct manner){.before = ""});
    settle(&open);
    for (size_t i = 0; i < drawing.count; i++) {
      if (is_outlet(&drawing.things[i])) check_closed(&drawing, seed, &open, &drawing.things[i]);
    }
    arena_free(open.arena);
  }
}

// Heights at which pumps deliver: the pool's water stands at 0.
static double highest_push(struct built *of, const struct drawing *drawing) {
  double highest = 0;
  for (size_t i = 0; i < drawing->count; i++) {
    if (drawing->things[i].kind == KIND_pump)
      highest = fmax(highest, value(of, drawing->things[i].name, ROW_pump_head));
  }
  return highest;
}

static double height_of(const struct thing *thing, enum row_id row) {
  for (size_t i = 0; i < thing->count; i++) {
    if (thing->fields[i].row == row) return thing->fields[i].number * 0.0254;
  }
  return (double)NAN;
}

static void nothing_stands_higher_than_its_pumps_push(void **state) {
  (void)state;
  for (uint32_t seed = 0; seed < DESIGNS; seed++) {
    struct drawing drawing = drawn(seed);
    struct built it = build(&drawing, (struct manner){.before = ""});
    settle(&it);
    double push = highest_push(&it, &drawing) * (1 + 1e-9);
    for (size_t i = 0; i < drawing.count; i++) {
      const struct thing *thing = &drawing.things[i];
      double at = (double)NAN;
      if (thing->kind == KIND_jet) at = value(&it, thing->name, ROW_jet_head) + fmax(0, height_of(thing, ROW_jet_at));
      bool into_bowl = is_outlet(thing) && !isnan(height_of(thing, ROW_pipe_outlet_at));
      if (into_bowl && value(&it, thing->name, ROW_pipe_flow) > 0) {
        at = value(&it, thing->name, ROW_pipe_head_loss) + height_of(thing, ROW_pipe_outlet_at);
      }
      if (at > push) fail_msg("design %u: %s at %.9g m, the pumps push to %.9g", seed, thing->name, at, push);
    }
    arena_free(it.arena);
  }
}

static void check_alike(const struct drawing *drawing, uint32_t seed, struct built *as_drawn, struct manner manner) {
  struct built other = build(drawing, manner);
  settle(&other);
  double most = greatest_flow(as_drawn, drawing);
  for (size_t i = 0; i < drawing->count; i++) {
    if (drawing->things[i].kind != KIND_pipe) continue;
    const char *name = drawing->things[i].name;
    double flow = value(as_drawn, name, ROW_pipe_flow), again = value(&other, name, ROW_pipe_flow);
    if (!(fabs(flow - again) <= 1e-9 * most)) fail_msg("design %u: %s %.14g, %.14g before", seed, name, again, flow);
  }
  arena_free(other.arena);
}

static void only_the_water_counts(void **state) {
  (void)state;
  static const struct manner manners[] = {
      {.before = "", .backward = true}, {.before = "", .raised = 1200},
      {.before = "", .raised = -4800},  {.before = "zz "},
      {.before = "", .si = true},       {.before = "a ", .si = true, .backward = true, .raised = 36}};
  for (uint32_t seed = 0; seed < DESIGNS; seed++) {
    struct drawing drawing = drawn(seed);
    struct built it = build(&drawing, (struct manner){.before = ""});
    settle(&it);
    for (size_t m = 0; m < sizeof manners / sizeof manners[0]; m++) check_alike(&drawing, seed, &it, manners[m]);
    arena_free(it.arena);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(what_comes_to_a_joint_leaves_it),
      cmocka_unit_test(closing_an_outlet_gives_the_others_more),
      cmocka_unit_test(nothing_stands_higher_than_its_pumps_push),
      cmocka_unit_test(only_the_water_counts),
  };
  return cmocka_run_group_tests_name("designs/flow_property", tests, NULL, NULL);
}
