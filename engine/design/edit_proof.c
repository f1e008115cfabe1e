// SPDX-License-Identifier: MIT
// Two designs held against each other, given by given.
#include <math.h>
#include <string.h>

#include "design/edit_inside.h"
#include "units/read.h"

static bool same_text(const char *a, const char *b) { return a && b ? strcmp(a, b) == 0 : !a && !b; }
static bool same_number(double a, double b) { return a == b || (isnan(a) && isnan(b)); }

static bool same_entity(const struct entity *a, const struct entity *b) {
  return a->kind == b->kind && same_text(a->name, b->name) && a->list == b->list && a->index == b->index;
}

static bool same_place(const struct slot *a, const struct slot *b) {
  return a->line == b->line && a->from == b->from && a->to == b->to && same_text(a->text, b->text);
}

static size_t written_entities(const struct store *store) {
  size_t count = 0;
  for (size_t e = 0; e < store->entity_count; e++)
    count += store->entities[e].owner >= 0 || store->entities[e].at.line > 0;
  return count;
}

static bool same_measurement(const struct measurement *a, const struct measurement *b) {
  return same_number(a->value, b->value) && same_number(a->tolerance, b->tolerance) && same_text(a->how, b->how);
}

static bool same_measurements(const struct store *a, const struct store *b) {
  if (a->measurement_count != b->measurement_count) return false;
  for (size_t i = 0; i < a->measurement_count; i++)
    if (!same_measurement(&a->measurements[i], &b->measurements[i])) return false;
  return true;
}

static bool same_entity_as_read(const struct store *reviewed, const struct store *read, int entity) {
  const struct entity *it = &reviewed->entities[entity];
  if ((size_t)entity >= read->entity_count || !same_entity(it, &read->entities[entity])) return false;
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->kind != it->kind || !row_is_given(row)) continue;
    const struct slot *slot = store_at(reviewed, entity, (enum row_id)r);
    if (!slot->said && !same_place(slot, store_at(read, entity, (enum row_id)r))) return false;
  }
  return true;
}

const char *edit_same_design(const struct store *reviewed, const struct store *read) {
  static const char changed[] = "has changed since it was reviewed";
  if (written_entities(reviewed) != written_entities(read) || !same_measurements(reviewed, read)) return changed;
  for (size_t e = 0; e < reviewed->entity_count; e++) {
    const struct entity *a = &reviewed->entities[e];
    bool added = a->owner < 0 && a->at.line == 0;  // not written; these stand behind all others
    if (!added && !same_entity_as_read(reviewed, read, (int)e)) return changed;
  }
  return NULL;
}

// ---- what the edits were to change, and did ----

static const struct edit *edit_of(const struct editing *e, int entity, enum row_id row) {
  for (size_t i = 0; i < e->count; i++)
    if (e->edits[i].entity == entity && e->edits[i].row == row) return &e->edits[i];
  return NULL;
}

// A part of a list that an edit writes anew, or a part of such a part.
static bool is_in_new_list(const struct editing *e, int part) {
  for (const struct entity *it = &e->base->entities[part]; it->owner >= 0; it = &e->base->entities[it->owner])
    if (edit_of(e, it->owner, it->list)) return true;
  return false;
}

static size_t past_new_lists(const struct editing *e, size_t entity) {
  while (entity < e->base->entity_count && is_in_new_list(e, (int)entity)) entity++;
  return entity;
}

// The same of the design read back, whose owners are known by what they were in the base (-1: new themselves).
static bool is_new(const struct editing *e, const struct entity *it, const int *base_of) {
  return it->owner >= 0 && (base_of[it->owner] < 0 || edit_of(e, base_of[it->owner], it->list));
}

static bool same_given(const struct slot *a, const struct slot *b, const struct row *row) {
  if (a->condition != b->condition || (a->line > 0) != (b->line > 0)) return false;
  if (row->sort == SORT_TEXT || row->sort == SORT_REFERENCE) return same_text(a->text, b->text);
  return same_number(a->value, b->value) && same_number(a->tolerance, b->tolerance);
}

// A text that q read comes back in SI units.
static bool says_number(const struct edit *edit, const struct slot *slot, struct arena *arena) {
  struct reading reading;
  struct text wrong = text_in(arena), right = text_in(arena);
  if (!unit_read(edit->text, strlen(edit->text), catalogue_row(edit->row)->dimension, &reading, &wrong, &right))
    return false;
  return fabs(reading.value - slot->value) <= 1e-12 * (fabs(reading.value) + fabs(slot->value));
}

static bool says_what_was_asked(const struct editing *e, const struct edit *edit, const struct slot *slot) {
  if (slot->condition != CONDITION_GIVEN || slot->line == 0) return false;
  if (edit->is_table) return true;  // that its bytes stand there is seen to apart
  size_t length = strlen(edit->text);
  if (slot->text && strncmp(slot->text, edit->text, length) == 0 && (!slot->text[length] || slot->text[length] == ' '))
    return true;
  return catalogue_row(edit->row)->sort == SORT_NUMBER && says_number(edit, slot, e->arena);
}

static bool same_givens(const struct editing *e, int before, const struct store *read, int after) {
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->kind != e->base->entities[before].kind || !row_is_given(row)) continue;
    const struct edit *edit = edit_of(e, before, (enum row_id)r);
    const struct slot *a = store_at(e->base, before, (enum row_id)r), *b = store_at(read, after, (enum row_id)r);
    if (edit ? !says_what_was_asked(e, edit, b) : !same_given(a, b, row)) return false;
  }
  return true;
}

// Both in the order of the file; parts of new lists have no like. base_of: entities of `read` to those of the base.
static bool same_but_for_edits(const struct editing *e, const struct store *read) {
  const struct store *base = e->base;
  int *base_of = arena_array(e->arena, read->entity_count + 1, sizeof *base_of);
  size_t before = 0;
  for (size_t after = 0; after < read->entity_count; after++) {
    const struct entity *it = &read->entities[after];
    base_of[after] = -1;
    if (is_new(e, it, base_of)) continue;
    before = past_new_lists(e, before);
    if (before >= base->entity_count || !same_entity(&base->entities[before], it)) return false;
    base_of[after] = (int)before;
    if (!same_givens(e, (int)before++, read, (int)after)) return false;
  }
  return past_new_lists(e, before) == base->entity_count && same_measurements(base, read);
}

// Lists are compared by their bytes: what was handed in stands where the list is now.
static bool tables_stand(const struct editing *e, const struct file_bytes *made, const struct store *read) {
  for (size_t i = 0; i < e->count; i++) {
    const struct edit *edit = &e->edits[i];
    if (!edit->is_table) continue;
    const struct entity *it = &e->base->entities[edit->entity];
    int entity = it->name ? store_named(read, it->name, strlen(it->name)) : edit->entity;
    const struct slot *slot = entity < 0 ? NULL : store_at(read, entity, edit->row);
    size_t length = strlen(edit->text);
    if (!slot || slot->to - slot->from != length || memcmp(made->bytes + slot->from, edit->text, length) != 0)
      return false;
  }
  return true;
}

const char *edit_proven(const struct editing *e, const struct file_bytes *made, const struct store *read) {
  bool proven = same_but_for_edits(e, read) && tables_stand(e, made, read);
  return proven ? NULL : "cannot be changed there alone: the text read back says something else too";
}
