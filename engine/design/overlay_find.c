// SPDX-License-Identifier: MIT
// Which slot a path means, in a store that is not settled yet: names and parts are there, references are still texts.
#include <string.h>

#include "design/overlay.h"
#include "design/settle.h"

struct walk {
  struct store *store;
  struct problems *problems;
  struct place place;
  const char *path, *at;  // all of it; what is still to read
};

static bool fail(const struct walk *w, const char *said, const char *right) {
  problem_add(w->problems, (struct problem){.at = w->place, .said = said, .read = w->path, .right = right});
  return false;
}

static struct text new_text(const struct walk *w) { return text_in(w->problems->arena); }

// ---- the entity in front ----

struct front {
  enum kind kind;  // KIND_COUNT: not said
  bool quoted;
  const char *name;  // NULL: a kind alone
  size_t length;
};

static const char *skip_blanks(const char *at) {
  while (*at == ' ') at++;
  return at;
}

static bool take_quoted(const char **at, struct front *front) {
  const char *end = **at == '"' ? strchr(*at + 1, '"') : NULL;
  if (!end) return false;
  front->quoted = true;
  front->name = *at + 1;
  front->length = (size_t)(end - front->name);
  *at = end + 1;
  return true;
}

// No name holds a dot or a bracket, so what stands without quotes runs up to the first of them.
static struct front read_bare(const struct walk *w, const char *from) {
  size_t length = strcspn(from, ".["), word = strcspn(from, " .[");
  while (length > 0 && from[length - 1] == ' ') length--;
  struct front front = {KIND_COUNT, false, from, length};
  enum kind kind = catalogue_kind_named(from, word < length ? word : length);
  bool whole = word >= length;
  if (kind == KIND_COUNT) return front;
  if (whole && catalogue_kind(kind)->single) return (struct front){kind, false, NULL, 0};
  if (store_named(w->store, from, length) >= 0) return front;
  if (whole) return (struct front){kind, false, NULL, 0};
  const char *name = skip_blanks(from + word);
  return (struct front){kind, false, name, length - (size_t)(name - from)};
}

static struct front read_front(struct walk *w) {
  struct front front = {.kind = KIND_COUNT};
  const char *at = skip_blanks(w->at);
  size_t word = strcspn(at, " \".[");
  const char *behind = skip_blanks(at + word);
  bool quoted = take_quoted(&at, &front);
  if (!quoted && *behind == '"') {
    front.kind = catalogue_kind_named(at, word);
    quoted = front.kind != KIND_COUNT && take_quoted(&behind, &front);
    at = behind;
  }
  if (!quoted) {
    at = skip_blanks(w->at);
    front = read_bare(w, at);
    at += strcspn(at, ".[");
  }
  w->at = skip_blanks(at);
  return front;
}

static int only_of_kind(const struct walk *w, enum kind kind) {
  for (size_t e = 0; e < w->store->entity_count; e++)
    if (w->store->entities[e].kind == kind) return (int)e;
  // A design without a project cannot be used at all, which is told by itself.
  return kind == KIND_project ? -1 : store_add(w->store, kind, NULL, 0);
}

static bool fail_kind_alone(const struct walk *w, enum kind kind) {
  struct text said = new_text(w), right = new_text(w);
  int shown = 0;
  text_printf(&said, "does not say which %s", catalogue_kind(kind)->name);
  for (size_t e = 0; e < w->store->entity_count && shown < 5; e++) {
    const struct entity *it = &w->store->entities[e];
    if (it->kind == kind && it->name)
      text_printf(&right, "%s%s \"%s\"", shown++ ? " or " : "", catalogue_kind(kind)->name, it->name);
  }
  return fail(w, text_end(&said), shown ? text_end(&right) : NULL);
}

// Kinds that stand alone are called by their kind's name.
static const char *nearest_front(const struct walk *w, const char *written, enum kind kind) {
  const struct store *store = w->store;
  const char **names = arena_array(w->problems->arena, store->entity_count + KIND_COUNT, sizeof *names);
  size_t count = 0;
  for (size_t e = 0; e < store->entity_count; e++) {
    const struct entity *it = &store->entities[e];
    if (it->name && (kind == KIND_COUNT || it->kind == kind)) names[count++] = it->name;
  }
  for (int k = 0; k < KIND_COUNT && kind == KIND_COUNT; k++)
    if (catalogue_kind((enum kind)k)->single) names[count++] = catalogue_kind((enum kind)k)->name;
  return text_nearest(written, names, count);
}

static bool fail_name(const struct walk *w, const struct front *front) {
  struct text said = new_text(w), right = new_text(w);
  bool of_kind = front->kind != KIND_COUNT;
  const char *written = arena_copy(w->problems->arena, front->name, front->length);
  text_printf(&said, "the design has %s%s of this name", of_kind ? "no " : "nothing",
              of_kind ? catalogue_kind(front->kind)->name : "");
  const char *near = nearest_front(w, written, front->kind);
  if (near) text_printf(&right, "\"%s\", if that is meant", near);
  return fail(w, text_end(&said), near ? text_end(&right) : NULL);
}

static bool find_front(struct walk *w, int *entity) {
  struct front front = read_front(w);
  if (!front.name && catalogue_kind(front.kind)->single) {
    *entity = only_of_kind(w, front.kind);
    return *entity >= 0 || fail(w, "the design has no project", NULL);
  }
  if (!front.name) return fail_kind_alone(w, front.kind);
  *entity = store_named(w->store, front.name, front.length);
  if (*entity >= 0 && (front.kind == KIND_COUNT || w->store->entities[*entity].kind == front.kind)) return true;
  return fail_name(w, &front);
}

// ---- the steps behind it ----

static bool fail_row(const struct walk *w, enum kind kind, const char *written) {
  struct text said = new_text(w), right = new_text(w);
  if (strcmp(written, "measured") == 0) return fail(w, "what was measured on site stands: it cannot be set so", NULL);
  const char *near = catalogue_nearest_row(w->problems->arena, kind_bit(kind), written, false);
  text_printf(&said, "a %s has no given of this name", catalogue_kind(kind)->name);
  if (near) text_printf(&right, "`%s`, if that is meant", near);
  return fail(w, text_end(&said), near ? text_end(&right) : NULL);
}

static bool fail_worked_out(const struct walk *w, enum row_id id) {
  const struct row *row = catalogue_row(id);
  struct text said = new_text(w), origins = new_text(w), right = new_text(w);
  bool back = row->sort == SORT_BACK;
  text_printf(&said, back ? "`%s` follows from what the others name" : "`%s` is worked out, not given", row->name);
  overlay_write_origins(&origins, id);
  if (origins.length > 0) text_printf(&right, "one of the givens it comes from, such as %s", text_end(&origins));
  return fail(w, text_end(&said), origins.length > 0 ? text_end(&right) : NULL);
}

static bool take_row(struct walk *w, int entity, enum row_id *row) {
  if (*w->at != '.') return fail(w, "a dot and a given stand behind the name", "like `pump \"main\".speed`");
  const char *name = ++w->at;
  size_t length = strcspn(name, ".[ ");
  enum kind kind = w->store->entities[entity].kind;
  w->at = skip_blanks(name + length);
  *row = catalogue_row_named(kind, name, length);
  if (*row == ROW_COUNT) return fail_row(w, kind, arena_copy(w->problems->arena, name, length));
  return row_is_given(catalogue_row(*row)) || fail_worked_out(w, *row);
}

// "[2]"; where a list has one member at most, nothing as well. False: none is named (number 0), or written wrongly.
static bool read_number(struct walk *w, const struct row *row, size_t *number) {
  *number = 0;
  if (*w->at != '[') {
    *number = row->many == 1 && *w->at == '.' ? 1 : 0;
    return *number > 0;
  }
  int digits = 0;
  for (w->at++; *w->at >= '0' && *w->at <= '9' && digits < 6; w->at++, digits++)
    *number = *number * 10 + (size_t)(*w->at - '0');
  if (digits == 0 || *w->at != ']') return fail(w, "a member of a list is written as [2]", NULL);
  w->at = skip_blanks(w->at + 1);
  return true;
}

static bool fail_list(const struct walk *w, const struct row *row) {
  struct text said = new_text(w), right = new_text(w);
  bool links = row->sort == SORT_REFERENCES;
  text_printf(&said, "is %s: one of its values is set at a time", row->sort == SORT_SHAPE ? "a shape" : "a list");
  text_printf(&right, links ? "`%s[1]`" : "`%s[1].%s`", row->name, row->sort == SORT_SHAPE ? "x" : "its given");
  return fail(w, text_end(&said), text_end(&right));
}

static bool take_member(struct walk *w, int *entity, enum row_id *id) {
  const struct row *row = catalogue_row(*id);
  size_t before = w->problems->count, number, count = store_members(w->store, *entity, *id);
  if (!read_number(w, row, &number)) return w->problems->count == before ? fail_list(w, row) : false;
  if (number < 1 || number > count) {
    struct text said = new_text(w);
    text_printf(&said, "this list has %zu %s", count, count == 1 ? "member" : "members");
    return fail(w, text_end(&said), NULL);
  }
  *entity = store_member(w->store, *entity, *id, number - 1);
  *id = ROW_link_to;
  if (row->sort == SORT_REFERENCES) return true;
  return *w->at ? take_row(w, *entity, id) : fail_list(w, row);
}

bool overlay_find(struct store *store, const char *where, struct place at, int *entity, enum row_id *row,
                  struct problems *problems) {
  struct walk w = {store, problems, at, where, where};
  if (!find_front(&w, entity) || !take_row(&w, *entity, row)) return false;
  while (row_is_list(catalogue_row(*row)))
    if (!take_member(&w, entity, row)) return false;
  return !*w.at || fail(&w, "nothing can stand behind this given", NULL);
}
