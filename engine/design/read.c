// SPDX-License-Identifier: MIT
#include "design/read.h"

#include <string.h>

#include "design/survey.h"
#include "design/written.h"

static bool refuse(struct problems *problems, const struct file_bytes *file, const char *said, const char *right) {
  problem_add(problems, (struct problem){.at = {file->name, 0}, .said = said, .right = right});
  return false;
}

static bool is_blank(const struct file_bytes *file) {
  bool marked = file->length >= 3 && memcmp(file->bytes, "\xEF\xBB\xBF", 3) == 0;
  for (size_t i = marked ? 3 : 0; i < file->length; i++)
    if (!file->bytes[i] || !strchr(" \t\r\n", file->bytes[i])) return false;
  return true;
}

static int line_of(const struct file_bytes *file, size_t offset) {
  int line = 1;
  for (size_t i = 0; i < offset; i++) line += file->bytes[i] == '\n';
  return line;
}

// The first line that is no UTF-8: no character reaches over the end of a line.
static int line_of_stray_byte(const struct file_bytes *file) {
  size_t from = 0;
  while (from < file->length) {
    const char *end = memchr(file->bytes + from, '\n', file->length - from);
    size_t to = end ? (size_t)(end - file->bytes) + 1 : file->length;
    if (!text_is_utf8(file->bytes + from, to - from)) break;
    from = to;
  }
  return line_of(file, from);
}

bool read_is_text(const struct file_bytes *file, struct problems *problems) {
  if (is_blank(file))
    return refuse(problems, file, "the file is empty", "a design: a project, a site and what holds water");
  if (memchr(file->bytes, '\0', file->length))
    return refuse(problems, file, "is no text: it holds zero bytes", "a design as Lua or JSON text, in UTF-8");
  if (text_is_utf8(file->bytes, file->length)) return true;
  problem_add(problems, (struct problem){.at = {file->name, line_of_stray_byte(file)},
                                         .said = "holds bytes that are no UTF-8 text",
                                         .right = "the file saved as UTF-8"});
  return false;
}

const char *read_nearest_kind(struct arena *arena, const char *written) {
  const char *names[KIND_COUNT];
  size_t count = 0;
  for (int k = 0; k < KIND_COUNT; k++)
    if (!catalogue_kind((enum kind)k)->part) names[count++] = catalogue_kind((enum kind)k)->name;
  const char *near = text_nearest(written, names, count);
  return near ? arena_words(arena, near) : NULL;
}

static bool has(const struct store *store, enum kind kind) {
  for (size_t e = 0; e < store->entity_count; e++)
    if (store->entities[e].kind == kind) return true;
  return false;
}

// An absent project is told once: its givens are not asked for one by one behind it.
static void add_absent_project(struct store *store) {
  int project = store_add(store, KIND_project, NULL, 1);
  for (int r = 0; r < ROW_COUNT; r++)
    if (catalogue_row((enum row_id)r)->kind == KIND_project) store_at(store, project, (enum row_id)r)->line = 1;
}

static void check_whole(struct store *store, struct problems *problems) {
  struct file_bytes file = {.name = store->file};
  if (!has(store, KIND_project)) {
    refuse(problems, &file, "there is no project", "project { name = \"...\", units = \"us\" }");
    add_absent_project(store);
  }
  if (!has(store, KIND_basin)) refuse(problems, &file, "there is no basin, so there is nothing to review", "a basin");
}

struct store *read_finish(struct filling *filling, struct overlays overlays, size_t before) {
  struct store *store = filling->store;
  struct problems *problems = filling->problems;
  // Filling stops after so many: what is not there may have been left out by that alone.
  if (problems->count >= MOST_PROBLEMS_READ) return NULL;
  overlay_apply(store, overlays.list, overlays.count, problems);
  check_whole(store, problems);
  store_settle(store, problems);
  return problems->count == before ? store : NULL;
}

bool design_is_json(const char *name) {
  static const char ending[] = ".json";
  size_t length = strlen(name), count = sizeof ending - 1;
  if (length < count) return false;
  for (size_t i = 0; i < count; i++) {
    char c = name[length - count + i];
    if ((c >= 'A' && c <= 'Z' ? c + 32 : c) != ending[i]) return false;
  }
  return true;
}

static struct store *read_as_written(struct arena *arena, const struct file_bytes *file, struct overlays overlays,
                                     struct problems *problems) {
  return design_is_json(file->name) ? design_read_json(arena, file, overlays, problems)
                                    : design_read_lua(arena, file, overlays, problems);
}

static const struct overlay *first_trial(const struct overlay *list, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (!list[i].unless_written) return &list[i];
  return NULL;
}

// A given of the file can be at fault for what is tried beside it: the lines of the file alone would send people to
// mend what is right.
static void tell_trial(struct arena *arena, const struct file_bytes *file, struct overlays overlays,
                       struct problems *problems) {
  const struct overlay *trial = first_trial(overlays.list, overlays.count);
  struct problems unheard = problems_in(arena);
  for (size_t i = 0; trial && i < problems->count; i++) {
    const char *where = problems->list[i].at.file;
    if (!where || strcmp(where, file->name) != 0) return;  // told already
  }
  if (!trial || !read_as_written(arena, file, (struct overlays){0}, &unheard)) return;
  problem_add(problems, (struct problem){.at = trial->at,
                                         .said = "the design can be read as it is, and not with what is tried",
                                         .read = text_phrase(arena, "%s = %s", trial->where, trial->text)});
}

struct store *design_read_with(struct arena *arena, const struct file_bytes *file, const struct file_bytes *beside,
                               size_t count, const struct overlay *overlays, size_t overlay_count,
                               struct problems *problems) {
  struct overlays with = {overlays, overlay_count};
  struct store *store = read_as_written(arena, file, with, problems);
  if (!store) tell_trial(arena, file, with, problems);
  if (store && !survey_read(store, beside, count, problems)) store = NULL;
  if (!store) problems_sort(problems);
  return store;
}

struct store *design_read_beside(struct arena *arena, const struct file_bytes *file, const struct file_bytes *beside,
                                 size_t count, struct problems *problems) {
  return design_read_with(arena, file, beside, count, NULL, 0, problems);
}

struct store *design_read(struct arena *arena, const struct file_bytes *file, struct problems *problems) {
  return design_read_beside(arena, file, NULL, 0, problems);
}
