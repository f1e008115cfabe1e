// SPDX-License-Identifier: MIT
#include "design/overlay.h"

#include <string.h>

#include "design/written.h"

struct laying {
  struct store *store;
  struct problems *problems;
  const struct overlay *overlay;
  int entity;
  enum row_id row;
};

static bool refuse(const struct laying *l, const char *said, const char *right) {
  struct text where = text_in(l->problems->arena);
  store_describe(&where, l->store, l->entity, l->row);
  problem_add(
      l->problems,
      (struct problem){
          .at = l->overlay->at, .where = text_end(&where), .said = said, .read = l->overlay->text, .right = right});
  return false;
}

static bool is_held_already(const struct laying *l, const struct slot *slot) {
  return l->overlay->unless_written && (slot->line > 0 || slot->condition != CONDITION_UNSET);
}

static const char *tolerance_in(const char *text) {
  const char *ascii = strstr(text, "+/-"), *sign = strstr(text, "\xC2\xB1");
  return ascii ? ascii : sign;
}

const char *overlay_keep_tolerance(struct arena *arena, enum row_id id, const char *before, const char *text) {
  const struct row *row = catalogue_row(id);
  const char *kept = before && row->sort == SORT_NUMBER ? tolerance_in(before) : NULL;
  if (!kept || tolerance_in(text) || (row->unbounded && strcmp(text, row->unbounded) == 0)) return text;
  return text_phrase(arena, "%s %s", text, kept);
}

// The store complains at a line of the file; the fault is the overlay's.
static bool write(const struct laying *l, const struct slot *before) {
  struct problems found = problems_in(l->problems->arena);
  struct arena *arena = l->problems->arena;
  struct store_text written = {.text = overlay_keep_tolerance(arena, l->row, before->text, l->overlay->text)};
  bool good = store_write(l->store, &found, l->entity, l->row, written);
  for (size_t i = 0; i < found.count; i++) {
    found.list[i].at = l->overlay->at;
    found.list[i].read = l->overlay->text;  // without the tolerance of the file
    problem_add(l->problems, found.list[i]);
  }
  return good;
}

static const struct overlay *keep(struct arena *arena, const struct overlay *overlay) {
  struct overlay *kept = arena_alloc(arena, sizeof *kept);
  *kept = *overlay;
  kept->where = arena_words(arena, overlay->where);
  kept->text = arena_words(arena, overlay->text);
  kept->at.file = overlay->at.file ? arena_words(arena, overlay->at.file) : NULL;
  kept->by = overlay->by ? arena_words(arena, overlay->by) : "";
  return kept;
}

static void note(const struct laying *l, int slot, struct slot before) {
  struct store *store = l->store;
  store->overlaid =
      arena_grow(store->arena, store->overlaid, store->overlaid_count, &store->overlaid_room, sizeof *store->overlaid);
  store->overlaid[store->overlaid_count++] =
      (struct overlaid){.by = store->slots[slot].said, .slot = slot, .before = before};
}

static bool lay(const struct laying *l) {
  int index = store_slot(l->store, l->entity, l->row);
  struct slot *slot = &l->store->slots[index], before = *slot;
  if (is_held_already(l, slot)) return true;
  if (before.said && !before.said->unless_written) return refuse(l, "is tried twice", "one value");
  if (!written_is_clean(l->overlay->text, strlen(l->overlay->text)))
    return refuse(l, "holds control characters", "plain text on one line");
  if (!write(l, &before)) {
    *slot = before;
    return false;
  }
  if (l->overlay->unless_written) slot->condition = CONDITION_DEFAULT;
  slot->first = before.first;
  slot->said = keep(l->store->arena, l->overlay);
  note(l, index, before);
  return true;
}

bool overlay_apply(struct store *store, const struct overlay *overlays, size_t count, struct problems *problems) {
  size_t before = problems->count;
  for (size_t i = 0; i < count; i++) {
    struct laying l = {store, problems, &overlays[i], -1, ROW_COUNT};
    if (overlay_find(store, overlays[i].where, overlays[i].at, &l.entity, &l.row, problems)) lay(&l);
  }
  return problems->count == before;
}
