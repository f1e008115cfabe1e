// SPDX-License-Identifier: MIT
#include <string.h>

#include "report/explain.h"

struct walk {
  struct evaluation *ev;
  const struct store *design;
  const char *path, *at;  // all of it; what is still to read
  struct problems *problems;
};

static bool fail(struct walk *walk, const char *said, const char *right) {
  problem_add(walk->problems, (struct problem){.said = said, .read = walk->path, .right = right});
  return false;
}

// --- the entity in front

static bool take_quoted(const char **at, const char **name, size_t *length) {
  if (**at != '"') return false;
  const char *end = strchr(*at + 1, '"');
  if (!end) return false;
  *name = *at + 1;
  *length = (size_t)(end - *name);
  *at = end + 1;
  return true;
}

static int entity_of_kind_named(const struct walk *walk, enum kind kind, const char *name, size_t length) {
  int entity = store_named(walk->design, name, length);
  if (entity < 0 || (kind != KIND_COUNT && walk->design->entities[entity].kind != kind)) return -1;
  return entity;
}

static int only_of_kind(const struct walk *walk, enum kind kind) {
  bool has_one = kind != KIND_COUNT && catalogue_kind(kind)->single && store_count(walk->design, kind) > 0;
  return has_one ? store_of_kind(walk->design, kind, 0) : -1;
}

// The name without quotes runs to the first dot or bracket, which no name holds: "left lip", "spill left lip", "site".
static int find_bare(struct walk *walk) {
  size_t length = strcspn(walk->at, ".["), word = strcspn(walk->at, " .[");
  const char *name = walk->at;
  walk->at += length;
  int entity = store_named(walk->design, name, length);
  if (entity >= 0) return entity;
  enum kind kind = catalogue_kind_named(name, word);
  if (word == length) return only_of_kind(walk, kind);
  return kind == KIND_COUNT ? -1 : entity_of_kind_named(walk, kind, name + word + 1, length - word - 1);
}

static int find_front(struct walk *walk) {
  const char *at = walk->at, *name;
  size_t length;
  if (take_quoted(&at, &name, &length)) {
    walk->at = at;
    return entity_of_kind_named(walk, KIND_COUNT, name, length);
  }
  size_t word = strcspn(at, " \"");
  enum kind kind = catalogue_kind_named(at, word);
  at += word;
  while (*at == ' ') at++;
  if (kind == KIND_COUNT || !take_quoted(&at, &name, &length)) return find_bare(walk);
  walk->at = at;
  return entity_of_kind_named(walk, kind, name, length);
}

// The name that was meant: without its kind and quotes.
static const char *written_name(struct walk *walk) {
  const char *from = walk->path, *name;
  size_t length = strcspn(from, ".[");
  const char *quote = memchr(from, '"', length);
  if (quote && take_quoted(&quote, &name, &length)) return arena_copy(walk->problems->arena, name, length);
  size_t word = strcspn(from, " .[");
  if (word < length && catalogue_kind_named(from, word) != KIND_COUNT) {
    from += word + 1;
    length -= word + 1;
  }
  return arena_copy(walk->problems->arena, from, length);
}

// The nearest name, or the first that begins as what was written does.
static const char *meant(const char *written, const char *const *names, size_t count) {
  const char *nearest = text_nearest(written, names, count);
  for (size_t i = 0; !nearest && *written && i < count; i++) {
    if (strncmp(names[i], written, strlen(written)) == 0) nearest = names[i];
  }
  return nearest;
}

static bool fail_front(struct walk *walk) {
  const struct store *design = walk->design;
  const char **names = arena_array(walk->problems->arena, design->entity_count, sizeof *names);
  size_t count = 0;
  for (size_t i = 0; i < design->entity_count; i++) {
    const struct kind_row *kind = catalogue_kind(design->entities[i].kind);
    if (!kind->part) names[count++] = design->entities[i].name ? design->entities[i].name : kind->name;
  }
  return fail(walk, "the design has nothing of this name", meant(written_name(walk), names, count));
}

// --- the steps behind it

// The path before the value's name, quoted for a shell: "tall stone", or 'boulder "tall stone"'.
static void add_front(struct walk *walk, struct text *said, const char *name) {
  const char *front = arena_copy(walk->problems->arena, walk->path, (size_t)(name - walk->path) - 1);
  char quote = strchr(front, '"') ? '\'' : '"';
  text_printf(said, "%c%s%c", quote, front, quote);
}

static bool fail_row(struct walk *walk, enum kind kind, const char *written, size_t length) {
  struct arena *arena = walk->problems->arena;
  const char **names = arena_array(arena, ROW_COUNT, sizeof *names);
  size_t count = 0;
  for (int r = 0; r < ROW_COUNT; r++) {
    if (catalogue_row((enum row_id)r)->kind == kind) names[count++] = catalogue_row((enum row_id)r)->name;
  }
  struct text said = text_in(arena);
  text_printf(&said, "a %s has no value of this name; forebay explain DESIGN ", catalogue_kind(kind)->name);
  add_front(walk, &said, written);
  text_add(&said, " lists them");
  return fail(walk, text_end(&said), meant(arena_copy(arena, written, length), names, count));
}

static bool is_list(enum row_sort sort) {
  return sort == SORT_PARTS || sort == SORT_SHAPE || sort == SORT_REFERENCES || sort == SORT_BACK;
}

// "[2]": the second member of a list, counted from 1.
static bool take_member(struct walk *walk, struct explained *found) {
  if (!is_list(catalogue_row(found->row)->sort)) return fail(walk, "only a list has numbered members", NULL);
  size_t number = 0, digits = 0, count = store_members(walk->design, found->entity, found->row);
  for (walk->at++; *walk->at >= '0' && *walk->at <= '9' && digits < 9; walk->at++, digits++) {
    number = number * 10 + (size_t)(*walk->at - '0');
  }
  if (digits == 0 || *walk->at != ']') return fail(walk, "a member of a list is written as [2]", NULL);
  walk->at++;
  if (number < 1 || number > count) {
    struct text said = text_in(walk->problems->arena);
    text_printf(&said, "this list has %zu %s", count, count == 1 ? "member" : "members");
    return fail(walk, text_end(&said), NULL);
  }
  int member = store_member(walk->design, found->entity, found->row, number - 1);
  bool linked = catalogue_row(found->row)->sort == SORT_REFERENCES;
  *found = (struct explained){linked ? evaluation_reference(walk->ev, member, ROW_link_to) : member, ROW_COUNT};
  return found->entity >= 0 || fail(walk, "it refers to nothing in this design", NULL);
}

// A dot after a value: what it refers to.
static bool follow(struct walk *walk, struct explained *found) {
  if (found->row == ROW_COUNT) return true;
  enum row_sort sort = catalogue_row(found->row)->sort;
  if (is_list(sort)) return fail(walk, "this is a list: say which of its members, as in [1]", NULL);
  if (sort != SORT_REFERENCE) return fail(walk, "nothing stands behind this value that a dot could lead to", NULL);
  int to = evaluation_reference(walk->ev, found->entity, found->row);
  if (to < 0) return fail(walk, "it refers to nothing in this design", NULL);
  *found = (struct explained){to, ROW_COUNT};
  return true;
}

static bool take_row(struct walk *walk, struct explained *found) {
  if (!follow(walk, found)) return false;
  const char *name = ++walk->at;
  size_t length = strcspn(name, ".[");
  enum kind kind = walk->design->entities[found->entity].kind;
  found->row = catalogue_row_named(kind, name, length);
  if (found->row == ROW_COUNT) return fail_row(walk, kind, name, length);
  walk->at += length;
  return *walk->at != '[' || take_member(walk, found);
}

bool explain_find(struct evaluation *ev, const char *path, struct explained *found, struct problems *problems) {
  struct walk walk = {ev, evaluation_design(ev), path, path, problems};
  *found = (struct explained){find_front(&walk), ROW_COUNT};
  if (found->entity < 0) return fail_front(&walk);
  while (*walk.at) {
    if (*walk.at != '.') return fail(&walk, "a dot stands between a name and its value", NULL);
    if (!take_row(&walk, found)) return false;
  }
  return true;
}
