// SPDX-License-Identifier: MIT
// Lines put together from several entities. Each is found by its words: what reads alike is one line.
#include <math.h>
#include <string.h>

#include "quantities/read.h"
#include "review/takeoff_inside.h"

static struct takeoff_line *line_for(struct taking *taking, struct takeoff_group *group, const char *what,
                                     const char *formula) {
  for (size_t i = 0; i < group->count; i++) {
    if (strcmp(group->lines[i].what, what) == 0) return &group->lines[i];
  }
  struct takeoff_line *line = takeoff_add(taking, group);
  line->what = what;
  line->formula = formula;
  return line;
}

static void set_amount(struct takeoff_line *line, size_t at, const char *before, enum row_id row, double value) {
  line->amounts[at] = (struct takeoff_amount){before, row, value};
  if (line->amount_count <= at) line->amount_count = at + 1;
}

// Adds a value of an entity to an amount of a line; where it is missing the line says so.
static void add_amount(struct taking *taking, struct takeoff_line *line, size_t at, const char *before, int entity,
                       enum row_id row) {
  double sum = at < line->amount_count ? line->amounts[at].value : 0;
  set_amount(line, at, before, row, sum + evaluation_number(taking->ev, entity, row));
  takeoff_note_missing(taking, line, entity, row);
}

// --- stone

static size_t stones_of(struct taking *taking, enum word sort) {
  size_t count = 0;
  for (size_t i = 0; i < store_count(taking->design, KIND_boulder); i++) {
    struct boulder_ref boulder = {store_of_kind(taking->design, KIND_boulder, i)};
    count += boulder_get_stone(taking->ev, boulder) == sort;
  }
  return count;
}

static const char *stone_words(struct taking *taking, enum word sort) {
  struct text words = text_in(taking->arena);
  size_t count = stones_of(taking, sort);
  bool known = sort != WORD_stone_unknown;
  text_printf(&words, "%s, %zu %s", known ? catalogue_word(sort)->word : "sort not known", count,
              count == 1 ? "stone" : "stones");
  return text_end(&words);
}

static void add_stone(struct taking *taking, struct takeoff_line *line, int boulder) {
  add_amount(taking, line, 0, "low", boulder, ROW_boulder_mass_low);
  add_amount(taking, line, 1, "likely", boulder, ROW_boulder_mass);
  add_amount(taking, line, 2, "high", boulder, ROW_boulder_mass_high);
}

void takeoff_gather_stone(struct taking *taking, struct takeoff_group *group) {
  size_t count = store_count(taking->design, KIND_boulder);
  for (size_t i = 0; i < count; i++) {
    struct boulder_ref boulder = {store_of_kind(taking->design, KIND_boulder, i)};
    const char *words = stone_words(taking, boulder_get_stone(taking->ev, boulder));
    add_stone(taking, line_for(taking, group, words, "mass_low, mass, mass_high of these stones, each summed"),
              boulder.at);
  }
  if (group->count < 2) return;
  struct takeoff_line *all =
      line_for(taking, group, "all stones", "mass_low, mass, mass_high of all stones, each summed");
  for (size_t i = 0; i < count; i++) add_stone(taking, all, store_of_kind(taking->design, KIND_boulder, i));
}

// --- liner

void takeoff_gather_liner(struct taking *taking, struct takeoff_group *group) {
  for (size_t i = 0; i < store_count(taking->design, KIND_liner); i++) {
    int liner = store_of_kind(taking->design, KIND_liner, i);
    struct text words = text_in(taking->arena);
    store_describe_entity(&words, taking->design, liner);
    struct takeoff_line *line = line_for(taking, group, text_end(&words), "length and width of the piece");
    add_amount(taking, line, 0, "", liner, ROW_liner_length);
    add_amount(taking, line, 1, "by", liner, ROW_liner_width);
  }
}

// --- pipe

static const char *words_of(struct taking *taking, const char *thing, const char *size) {
  struct text words = text_in(taking->arena);
  text_printf(&words, "%s, %s", thing, size);
  return text_end(&words);
}

static void count_one(struct taking *taking, struct takeoff_group *group, const char *thing, const char *size,
                      double count) {
  struct takeoff_line *line =
      line_for(taking, group, words_of(taking, thing, size), "counted over all pipes of this size");
  set_amount(line, 0, "", ROW_fitting_count, (line->amount_count ? line->amounts[0].value : 0) + count);
}

static void count_fittings(struct taking *taking, struct takeoff_group *group, struct pipe_ref pipe) {
  for (size_t i = 0; i < pipe_count_fittings(taking->ev, pipe); i++) {
    struct fitting_ref fitting = pipe_fittings_at(taking->ev, pipe, i);
    const char *type = catalogue_word(fitting_get_type(taking->ev, fitting))->word;
    count_one(taking, group, type, pipe_get_size(taking->ev, pipe), fitting_get_count(taking->ev, fitting));
  }
}

static void count_valves(struct taking *taking, struct takeoff_group *group, struct pipe_ref pipe) {
  const char *size = pipe_get_size(taking->ev, pipe);
  enum word valve = pipe_get_valve(taking->ev, pipe);
  struct text words = text_in(taking->arena);
  if (valve != WORD_COUNT && valve != WORD_valve_none) {
    text_printf(&words, "%s valve", catalogue_word(valve)->word);
    count_one(taking, group, text_end(&words), size, 1);
  }
  if (pipe_get_check_valve(taking->ev, pipe) == WORD_fitted_fitted) count_one(taking, group, "check valve", size, 1);
}

void takeoff_gather_pipe(struct taking *taking, struct takeoff_group *group) {
  size_t count = store_count(taking->design, KIND_pipe);
  for (size_t i = 0; i < count; i++) {
    struct pipe_ref pipe = {store_of_kind(taking->design, KIND_pipe, i)};
    const char *material = catalogue_word(pipe_get_material(taking->ev, pipe))->word;
    const char *words = words_of(taking, material, pipe_get_size(taking->ev, pipe));
    add_amount(taking, line_for(taking, group, words, "length of these pipes, summed; nothing for waste"), 0, "",
               pipe.at, ROW_pipe_length);
  }
  for (size_t i = 0; i < count; i++) {
    count_fittings(taking, group, (struct pipe_ref){store_of_kind(taking->design, KIND_pipe, i)});
  }
  for (size_t i = 0; i < count; i++) {
    count_valves(taking, group, (struct pipe_ref){store_of_kind(taking->design, KIND_pipe, i)});
  }
}

// --- cable

static void add_cable(struct taking *taking, struct takeoff_group *group, enum kind kind, enum row_id wire,
                      enum row_id run) {
  for (size_t i = 0; i < store_count(taking->design, kind); i++) {
    int entity = store_of_kind(taking->design, kind, i);
    const char *sort = evaluation_text(taking->ev, entity, wire);
    const char *words = words_of(taking, "cable", *sort ? sort : "sort not given");
    add_amount(taking, line_for(taking, group, words, "run of these circuits and lights, one way, summed"), 0, "",
               entity, run);
  }
}

void takeoff_gather_wire(struct taking *taking, struct takeoff_group *group) {
  add_cable(taking, group, KIND_circuit, ROW_circuit_wire, ROW_circuit_run);
  add_cable(taking, group, KIND_light, ROW_light_wire, ROW_light_run);
}
