// SPDX-License-Identifier: MIT
#include "review/takeoff_inside.h"

#include <math.h>

#include "base/arena.h"

struct takeoff_line *takeoff_add(struct taking *taking, struct takeoff_group *group) {
  group->lines = arena_grow(taking->arena, group->lines, group->count, &group->room, sizeof *group->lines);
  struct takeoff_line *line = &group->lines[group->count++];
  *line = (struct takeoff_line){.entity = -1, .row = ROW_COUNT};
  return line;
}

void takeoff_note_missing(struct taking *taking, struct takeoff_line *line, int entity, enum row_id row) {
  enum condition condition = evaluation_condition(taking->ev, entity, row);
  if (line->root_count || (condition != CONDITION_MISSING && condition != CONDITION_UNSET)) return;
  int slot = store_slot(taking->design, entity, row);
  int *roots = NULL;
  line->root_count = evaluation_roots(taking->ev, &slot, 1, &roots);
  line->roots = roots;
}

// --- lines that stand in one row each

enum group { STONE, GRAVEL, SOIL, LINER, PIPE, WALL, PAVING, PLANT, POWER, FILLING, DAYS, PRICE, HAND_OVER, GROUPS };

static const struct {
  const char *title;
  void (*gather)(struct taking *taking, struct takeoff_group *group);
} groups[GROUPS] = {
    [STONE] = {"STONE", takeoff_gather_stone},
    [GRAVEL] = {"GRAVEL", NULL},
    [SOIL] = {"SOIL", NULL},
    [LINER] = {"LINER AND UNDERLAY", takeoff_gather_liner},
    [PIPE] = {"PIPE, FITTINGS, VALVES", takeoff_gather_pipe},
    [WALL] = {"WALLS, CAPS, BASE", NULL},
    [PAVING] = {"PAVING", NULL},
    [PLANT] = {"PLANTS", NULL},
    [POWER] = {"POWER", takeoff_gather_wire},
    [FILLING] = {"THE FIRST FILLING", NULL},
    [DAYS] = {"DAYS, at the firm's rates", NULL},
    [PRICE] = {"PRICE, at what the firm pays", NULL},
    [HAND_OVER] = {"FOR THE OWNER'S SHEET", NULL},
};

#define BOULDERS KIND_BIT(boulder)
#define GRAVELLED (KIND_BIT(boulder) | KIND_BIT(basin))
#define BASED (KIND_BIT(wall) | KIND_BIT(paving))

static const struct {
  enum group group;
  enum row_id row;              // of the project: one line; of another kind: one for each
  const char *what;             // NULL: what the row says
  uint64_t brought_by;          // of the project: kinds without which there is no such line
  enum row_id where, or_where;  // of another kind: only where one of these was written; ROW_COUNT, ROW_COUNT: always
} rows[] = {
    {GRAVEL, ROW_project_gravel_volume, "to order", GRAVELLED, ROW_COUNT, ROW_COUNT},
    {GRAVEL, ROW_project_gravel_mass, "weight", GRAVELLED, ROW_COUNT, ROW_COUNT},
    {GRAVEL, ROW_project_gravel_bags, "bulk bags, 1,000 kg in each", GRAVELLED, ROW_COUNT, ROW_COUNT},
    {GRAVEL, ROW_project_gravel_buckets, "or level five-gallon buckets", GRAVELLED, ROW_COUNT, ROW_COUNT},
    {SOIL, ROW_project_bank_volume, "in the ground", KIND_BIT(dig), ROW_COUNT, ROW_COUNT},
    {SOIL, ROW_project_loose_volume, "loose, to haul", KIND_BIT(dig), ROW_COUNT, ROW_COUNT},
    {SOIL, ROW_project_compacted_volume, "compacted again", KIND_BIT(dig), ROW_COUNT, ROW_COUNT},
    {SOIL, ROW_project_soil_mass, "weight", KIND_BIT(dig), ROW_COUNT, ROW_COUNT},
    {SOIL, ROW_project_loads, "truckloads", KIND_BIT(dig), ROW_COUNT, ROW_COUNT},
    {LINER, ROW_project_liner_area, "all liner", KIND_BIT(liner), ROW_COUNT, ROW_COUNT},
    {LINER, ROW_project_underlay_area, "all underlay", KIND_BIT(liner), ROW_COUNT, ROW_COUNT},
    {PIPE, ROW_project_pipe_length, "all pipe", KIND_BIT(pipe), ROW_COUNT, ROW_COUNT},
    {WALL, ROW_wall_face_area, "face, foot to top", 0, ROW_COUNT, ROW_COUNT},
    {WALL, ROW_wall_block_volume, "solid", 0, ROW_COUNT, ROW_COUNT},
    {WALL, ROW_coping_pieces, "pieces", 0, ROW_COUNT, ROW_COUNT},
    {WALL, ROW_project_base_volume, "base, compacted, paving too", BASED, ROW_COUNT, ROW_COUNT},
    {WALL, ROW_project_base_loose, "base stone to order, loose", BASED, ROW_COUNT, ROW_COUNT},
    {WALL, ROW_project_base_mass, "weight of that base stone", BASED, ROW_COUNT, ROW_COUNT},
    {PAVING, ROW_project_paving_area, "area", KIND_BIT(paving), ROW_COUNT, ROW_COUNT},
    {PAVING, ROW_project_paving_mass, "weight of the stone", KIND_BIT(paving), ROW_COUNT, ROW_COUNT},
    {PLANT, ROW_planting_plants, "plants", 0, ROW_COUNT, ROW_COUNT},
    {PLANT, ROW_planting_soil_volume, "soil", 0, ROW_COUNT, ROW_COUNT},
    {POWER, ROW_project_circuits, "circuits", KIND_BIT(circuit), ROW_COUNT, ROW_COUNT},
    {POWER, ROW_project_wire_length, "all cable", (KIND_BIT(circuit) | KIND_BIT(light)), ROW_COUNT, ROW_COUNT},
    {FILLING, ROW_basin_net_volume, "water", 0, ROW_COUNT, ROW_COUNT},
    {FILLING, ROW_basin_thiosulfate, "thiosulfate", 0, ROW_basin_disinfectant, ROW_COUNT},
    {DAYS, ROW_project_stone_days, "to set the stones", BOULDERS, ROW_COUNT, ROW_COUNT},
    {DAYS, ROW_project_soil_days, "to dig", KIND_BIT(dig), ROW_COUNT, ROW_COUNT},
    {DAYS, ROW_project_wall_days, "to lay the walls", KIND_BIT(wall), ROW_COUNT, ROW_COUNT},
    {DAYS, ROW_project_paving_days, "to lay the paving", KIND_BIT(paving), ROW_COUNT, ROW_COUNT},
    {DAYS, ROW_project_work_days, "all of it, one crew", (BOULDERS | KIND_BIT(dig) | BASED), ROW_COUNT, ROW_COUNT},
    {DAYS, ROW_project_haul_days, "one truck, to haul the soil", KIND_BIT(dig), ROW_COUNT, ROW_COUNT},
    {PRICE, ROW_project_stone_price, NULL, BOULDERS, ROW_COUNT, ROW_COUNT},
    {PRICE, ROW_project_gravel_price, NULL, GRAVELLED, ROW_COUNT, ROW_COUNT},
    {PRICE, ROW_project_haul_price, NULL, KIND_BIT(dig), ROW_COUNT, ROW_COUNT},
    {PRICE, ROW_project_liner_price, NULL, KIND_BIT(liner), ROW_COUNT, ROW_COUNT},
    {PRICE, ROW_project_underlay_price, NULL, KIND_BIT(liner), ROW_COUNT, ROW_COUNT},
    {PRICE, ROW_project_wall_price, NULL, KIND_BIT(wall), ROW_COUNT, ROW_COUNT},
    {PRICE, ROW_project_coping_price, NULL, KIND_BIT(coping), ROW_COUNT, ROW_COUNT},
    {PRICE, ROW_project_base_price, NULL, BASED, ROW_COUNT, ROW_COUNT},
    {PRICE, ROW_project_paving_price, NULL, KIND_BIT(paving), ROW_COUNT, ROW_COUNT},
    {PRICE, ROW_project_plants_price, NULL, KIND_BIT(planting), ROW_COUNT, ROW_COUNT},
    {PRICE, ROW_project_crew_price, NULL, (BOULDERS | KIND_BIT(dig) | BASED), ROW_COUNT, ROW_COUNT},
    {HAND_OVER, ROW_basin_water_level, "still water", 0, ROW_basin_intakes, ROW_basin_pumps},
    {HAND_OVER, ROW_basin_rise_at_power_loss, "rises when the power fails", 0, ROW_basin_intakes, ROW_basin_pumps},
    {HAND_OVER, ROW_basin_normal_loss, "goes down on a dry day", 0, ROW_basin_intakes, ROW_basin_pumps},
    {HAND_OVER, ROW_spill_flow, "flow over the lip", 0, ROW_COUNT, ROW_COUNT},
    {HAND_OVER, ROW_pipe_valve_open, "valve open", 0, ROW_pipe_valve, ROW_COUNT},
};

static bool has_any(const struct store *design, uint64_t kinds) {
  for (size_t i = 0; i < design->entity_count; i++) {
    if (kinds >> design->entities[i].kind & 1) return true;
  }
  return false;
}

static bool is_there(struct taking *taking, int entity, enum row_id row) {
  if (row == ROW_COUNT) return false;
  if (catalogue_row(row)->sort == SORT_BACK) return store_members(taking->design, entity, row) > 0;
  return evaluation_stated(taking->ev, entity, row);
}

// What comes to nothing is not ordered. On the owner's sheet a height of 0 says something.
static bool is_nothing(struct taking *taking, enum group which, int entity, enum row_id row) {
  return which != HAND_OVER && evaluation_number(taking->ev, entity, row) == 0;
}

static void add_value(struct taking *taking, struct takeoff_group *group, const char *what, int entity,
                      enum row_id row) {
  struct takeoff_line *line = takeoff_add(taking, group);
  line->what = what;
  line->entity = entity;
  line->row = row;
  takeoff_note_missing(taking, line, entity, row);
}

static void add_values(struct taking *taking, struct takeoff_group *group, size_t at) {
  enum kind kind = catalogue_row(rows[at].row)->kind;
  if (kind == KIND_project && !has_any(taking->design, rows[at].brought_by)) return;
  for (size_t i = 0; i < store_count(taking->design, kind); i++) {
    int entity = store_of_kind(taking->design, kind, i);
    bool wanted = rows[at].where == ROW_COUNT || is_there(taking, entity, rows[at].where) ||
                  is_there(taking, entity, rows[at].or_where);
    if (!wanted || is_nothing(taking, rows[at].group, entity, rows[at].row)) continue;
    add_value(taking, group, rows[at].what, entity, rows[at].row);
  }
}

static struct takeoff_group take_group(struct taking *taking, enum group which) {
  struct takeoff_group group = {.title = groups[which].title};
  if (groups[which].gather) groups[which].gather(taking, &group);
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
    if (rows[i].group == which) add_values(taking, &group, i);
  }
  return group;
}

static void add_up(struct taking *taking, struct takeoff *takeoff, struct takeoff_group *prices) {
  for (size_t i = 0; i < prices->count; i++) {
    struct takeoff_line *line = &prices->lines[i];
    double price = evaluation_number(taking->ev, line->entity, line->row);
    line->is_price = true;
    if (isnan(price)) {
      takeoff->unpriced++;
    } else {
      takeoff->priced++;
      takeoff->price += price;
    }
  }
}

struct takeoff takeoff_of(struct arena *arena, struct evaluation *ev) {
  struct taking taking = {arena, ev, evaluation_design(ev)};
  struct takeoff takeoff = {.groups = arena_array(arena, GROUPS, sizeof *takeoff.groups)};
  for (int g = 0; g < GROUPS; g++) {
    struct takeoff_group group = take_group(&taking, (enum group)g);
    if (g == PRICE) add_up(&taking, &takeoff, &group);
    if (group.count) takeoff.groups[takeoff.count++] = group;
  }
  return takeoff;
}
