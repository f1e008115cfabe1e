// SPDX-License-Identifier: MIT
#include "rulebook/path.h"

#include <string.h>

struct reading_path {
  struct path *path;
  struct arena *arena;
  bool lists;
  uint64_t kinds;  // that the next step starts from
  const char **said, **right;
};

static bool refuse(struct reading_path *at, const char *said, const char *right) {
  *at->said = said;
  *at->right = right;
  return false;
}

static const char *quoted(struct arena *arena, const char *before, const char *name, const char *after) {
  struct text text = text_in(arena);
  text_printf(&text, "%s`%s`%s", before, name, after);
  return text_end(&text);
}

static bool no_such_row(struct reading_path *at, const char *name) {
  const char *nearest = catalogue_nearest_row(at->arena, at->kinds, name, true);
  struct text said = text_in(at->arena);
  text_add(&said, "a ");
  catalogue_write_kinds(&said, at->kinds, " or ");
  text_printf(&said, " has no `%s`", name);
  return refuse(at, text_end(&said), nearest ? quoted(at->arena, "", nearest, ", if that is meant") : NULL);
}

// The first step may name the site or the project. True: it did.
static bool to_single(struct reading_path *at, struct path_step *step) {
  enum kind kind = catalogue_kind_named(step->name, strlen(step->name));
  if (at->path->count != 1 || kind == KIND_COUNT || !catalogue_kind(kind)->single) return false;
  step->single = kind;
  at->kinds = kind_bit(kind);
  return true;
}

// Fills in the step's rows; how many kinds have the name.
static int find_rows(const struct reading_path *at, struct path_step *step) {
  int found = 0;
  for (int kind = 0; kind < KIND_COUNT; kind++) {
    bool starts = kinds_hold(at->kinds, (enum kind)kind);
    enum row_id row = starts ? catalogue_row_named((enum kind)kind, step->name, strlen(step->name)) : ROW_COUNT;
    step->rows[kind] = (unsigned short)row;
    found += row != ROW_COUNT;
  }
  return found;
}

// The kinds that a step through this row leads to; 0: none.
static uint64_t leads_to(const struct row *row, bool lists) {
  if (row->sort == SORT_REFERENCE || (lists && row->sort == SORT_REFERENCES)) return row->targets;
  return lists && (row->sort == SORT_PARTS || row->sort == SORT_BACK) ? kind_bit(row->part) : 0;
}

static bool step_over(struct reading_path *at, const struct path_step *step) {
  uint64_t next = 0;
  for (int kind = 0; kind < KIND_COUNT; kind++) {
    if (step->rows[kind] == ROW_COUNT) continue;
    const struct row *row = catalogue_row((enum row_id)step->rows[kind]);
    if (row_is_list(row) && !at->lists)
      return refuse(at, quoted(at->arena, "", step->name, " is a list, which a path does not walk"),
                    "a check = function(...) that walks it");
    if (!leads_to(row, at->lists))
      return refuse(at, quoted(at->arena, "", step->name, " refers to nothing, so nothing stands behind it"),
                    "its name alone");
    next |= leads_to(row, at->lists);
  }
  at->kinds = next;
  return true;
}

static enum row_sort plain_sort(const struct row *row) { return row_is_number(row) ? SORT_NUMBER : row->sort; }

static bool agrees(const struct path *path, const struct row *row) {
  return plain_sort(row) == path->sort && (path->sort != SORT_NUMBER || row->dimension == path->dimension);
}

static bool end_at(struct reading_path *at, const struct path_step *step) {
  struct path *path = at->path;
  path->ends = at->kinds;
  path->given = true;
  for (int kind = 0; kind < KIND_COUNT; kind++) {
    if (step->rows[kind] == ROW_COUNT) continue;
    const struct row *row = catalogue_row((enum row_id)step->rows[kind]);
    if (!path->says) {
      path->says = row->says;
      path->sort = plain_sort(row);
      path->dimension = row->dimension;
    }
    if (!agrees(path, row))
      return refuse(at, quoted(at->arena, "", step->name, " is not of one sort in all of these kinds"),
                    "a rule for each kind");
    path->last_rows_of |= kind_bit((enum kind)kind);
    path->given = path->given && row_is_given(row);
  }
  return true;
}

static bool take_step(struct reading_path *at, const char *name, bool last) {
  struct path *path = at->path;
  if (path->count == PATH_MOST) return refuse(at, "the path has more than 6 steps", "a shorter one");
  struct path_step *step = &path->steps[path->count++];
  *step = (struct path_step){.name = name, .single = KIND_COUNT};
  if (!find_rows(at, step)) return (!last && to_single(at, step)) || no_such_row(at, name);
  return last ? end_at(at, step) : step_over(at, step);
}

bool path_read(struct path *path, struct arena *arena, const char *text, uint64_t kinds, bool lists, const char **said,
               const char **right) {
  struct reading_path at = {path, arena, lists, kinds, said, right};
  *path = (struct path){.text = text};
  for (const char *from = text;;) {
    const char *dot = strchr(from, '.');
    size_t length = dot ? (size_t)(dot - from) : strlen(from);
    if (length == 0)
      return refuse(&at, "a name is missing in the path", "names with one point between them, as in `into.rim`");
    if (!take_step(&at, arena_copy(arena, from, length), !dot)) return false;
    if (!dot) return true;
    from = dot + 1;
  }
}

static enum arrival go_to_single(const struct store *store, enum kind kind, struct spot *spot) {
  if (store_count(store, kind) == 0) {
    spot->lacks = kind;
    return PATH_UNSET;
  }
  spot->entity = store_of_kind(store, kind, 0);
  return PATH_ARRIVED;
}

enum arrival path_follow(const struct path *path, struct evaluation *ev, int entity, struct spot *spot) {
  const struct store *store = evaluation_design(ev);
  *spot = (struct spot){entity, ROW_COUNT, KIND_COUNT};
  for (size_t i = 0; i < path->count; i++) {
    const struct path_step *step = &path->steps[i];
    if (step->single != KIND_COUNT) {
      if (go_to_single(store, step->single, spot) != PATH_ARRIVED) return PATH_UNSET;
      continue;
    }
    spot->row = (enum row_id)step->rows[store->entities[spot->entity].kind];
    if (spot->row == ROW_COUNT) return PATH_ABSENT;
    if (i + 1 == path->count) break;
    spot->entity = evaluation_reference(ev, spot->entity, spot->row);
    if (spot->entity < 0) return PATH_UNSET;
  }
  return PATH_ARRIVED;
}
