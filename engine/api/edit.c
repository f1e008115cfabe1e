// SPDX-License-Identifier: MIT
#include "design/edit.h"

#include "api/handles.h"
#include "design/overlay.h"

struct editing_order {
  const fb_design *design;
  const struct fb_file *file;
  const struct fb_trial *changes;
  size_t count;
  fb_problems *problems;
};

// Among all kinds that stand alone every design has one once it is settled: nothing is added by finding.
static bool find_all(const struct editing_order *order, struct edit *edits, struct problems *problems) {
  size_t before = problems->count;
  for (size_t i = 0; i < order->count; i++) {
    const struct fb_trial *change = &order->changes[i];
    struct place at = {change->from ? change->from : "change", 0};
    edits[i].text = change->text;
    overlay_find(order->design->store, change->where, at, &edits[i].entity, &edits[i].row, problems);
  }
  return problems->count == before;
}

static bool edit(struct text *text, void *with) {
  const struct editing_order *order = with;
  struct arena *arena = text->arena;
  struct problems found = problems_in(arena);
  struct edit *edits = arena_array(arena, order->count + 1, sizeof *edits);
  struct file_bytes file = file_kept(arena, order->file), made;
  bool done = find_all(order, edits, &found) &&
              edit_design(arena, &file, order->design->store, edits, order->count, &made, &found);
  if (done) text_add_bytes(text, made.bytes, made.length);
  problems_sort(&found);
  problems_hand_over(order->problems, &found);
  return done;
}

fb_text *fb_design_edit_new(const fb_design *design, const struct fb_file *file, const struct fb_trial *changes,
                            size_t count, fb_problems *problems) {
  struct editing_order order = {design, file, changes, count, problems};
  return text_filled(NULL, edit, &order, problems);
}
