// SPDX-License-Identifier: MIT
#include "design/edit.h"

#include <stdlib.h>
#include <string.h>

#include "design/edit_inside.h"
#include "design/read.h"
#include "design/settle.h"
#include "design/written.h"

bool edit_refuse(const struct editing *e, const struct edit *edit, int line, const char *said, const char *right) {
  store_complain(e->base, e->problems, edit->entity, edit->row,
                 (struct complaint){.line = line, .said = said, .read = edit->text, .right = right});
  return false;
}

static bool refuse_file(const struct editing *e, const char *said, const char *right) {
  problem_add(e->problems, (struct problem){.at = {e->file->name, 0}, .said = said, .right = right});
  return false;
}

// ---- before anything is made ----

static bool fits_row(const struct editing *e, const struct edit *edit) {
  const struct row *row = catalogue_row(edit->row);
  if (!row_is_given(row)) return edit_refuse(e, edit, 0, "is worked out, not given", NULL);
  if (row_is_list(row) != edit->is_table)
    return edit_refuse(e, edit, 0, edit->is_table ? "takes one text, not a table" : "is a list, and takes a table",
                       NULL);
  if (!edit->is_table && !written_is_clean(edit->text, strlen(edit->text)))
    return edit_refuse(e, edit, 0, "holds control characters", "plain text on one line");
  return true;
}

// An added single (prices of a firm) may stand elsewhere among those that the file does not have.
static bool is_in_base(const struct editing *e, const struct store *store, const struct edit *edit) {
  const struct entity *it = &store->entities[edit->entity];
  if ((size_t)edit->entity < e->base->entity_count && e->base->entities[edit->entity].kind == it->kind) return true;
  return refuse_file(
      e, text_phrase(e->arena, "has no `%s` that it could be written into", catalogue_kind(it->kind)->name), NULL);
}

static bool is_written(const struct slot *slot) { return slot->line > 0 && slot->condition == CONDITION_GIVEN; }

static bool find_places(struct editing *e, const struct store *store) {
  for (size_t i = 0; i < e->count; i++) {
    const struct edit *edit = &e->edits[i];
    struct splice splice = {0};
    if (!is_in_base(e, store, edit) || !fits_row(e, edit)) return false;
    bool written = is_written(store_at(e->base, edit->entity, edit->row));
    if (!(written ? edit_replace(e, edit, &splice) : edit_insert(e, edit, &splice))) return false;
    e->splices[i] = splice;
  }
  return true;
}

// ---- the new bytes ----

struct placed {
  struct splice splice;
  size_t given;  // place in the order asked
};

static int compare_placed(const void *a, const void *b) {
  const struct placed *one = a, *other = b;
  if (one->splice.from != other->splice.from) return one->splice.from < other->splice.from ? -1 : 1;
  return one->given < other->given ? -1 : 1;
}

static const struct placed *in_order(const struct editing *e) {
  struct placed *list = arena_array(e->arena, e->count + 1, sizeof *list);
  for (size_t i = 0; i < e->count; i++) list[i] = (struct placed){e->splices[i], i};
  qsort(list, e->count, sizeof *list, compare_placed);
  return list;
}

static bool put_together(const struct editing *e, struct file_bytes *made) {
  const struct placed *list = in_order(e);
  struct text text = text_in(e->arena);
  size_t at = 0;
  for (size_t i = 0; i < e->count; i++) {
    const struct splice *splice = &list[i].splice;
    if (splice->from < at)
      return edit_refuse(e, &e->edits[list[i].given], 0, "is changed twice at once, or within a list that is", NULL);
    text_add_bytes(&text, e->file->bytes + at, splice->from - at);
    text_add(&text, splice->text);
    at = splice->to;
  }
  text_add_bytes(&text, e->file->bytes + at, e->file->length - at);
  *made = (struct file_bytes){.name = e->file->name, .bytes = text_end(&text), .length = text.length};
  return true;
}

// ---- all of it ----

static struct store *read_alone(const struct editing *e, const struct file_bytes *file, const struct store *like) {
  const struct file_bytes *survey = like->survey_file;
  return design_read_beside(e->arena, file, survey, survey ? 1 : 0, e->problems);
}

static void read_places(struct editing *e) {
  const struct file_bytes *file = e->file;
  struct problems unheard = problems_in(e->arena);
  e->json = design_is_json(file->name);
  e->places = e->json ? places_of_json(e->arena, file->name, file->bytes, file->length, &unheard)
                      : places_of_lua(e->arena, file->name, file->bytes, file->length, &unheard);
  if (!e->json) e->tokens = lua_tokens(e->arena, file->bytes, file->length);
}

static bool is_proven(const struct editing *e, const struct store *store, const struct file_bytes *made) {
  const struct store *read = read_alone(e, made, store);
  const char *fault = read ? edit_proven(e, made, read) : NULL;
  if (fault) return edit_refuse(e, &e->edits[0], 0, fault, "it there by hand");
  return read != NULL;
}

bool edit_design(struct arena *arena, const struct file_bytes *file, const struct store *store,
                 const struct edit *edits, size_t count, struct file_bytes *made, struct problems *problems) {
  struct editing e = {.arena = arena, .file = file, .edits = edits, .count = count, .problems = problems};
  e.splices = arena_array(arena, count + 1, sizeof *e.splices);
  e.base = read_alone(&e, file, store);
  if (!e.base) return false;
  const char *changed = edit_same_design(store, e.base);
  if (changed) return refuse_file(&e, changed, "it once more through a review");
  struct file_bytes bytes;
  read_places(&e);
  if (!find_places(&e, store) || !put_together(&e, &bytes)) return false;
  if (count > 0 && !is_proven(&e, store, &bytes)) return false;
  *made = bytes;
  return true;
}
