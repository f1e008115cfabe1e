// SPDX-License-Identifier: MIT
#include "api/handles.h"
#include "base/digest.h"
#include "design/read.h"
#include "quantities/evaluate.h"
#include "report/explain.h"
#include "report/takeoff.h"
#include "rulebook/stock.h"

struct reading_order {
  const struct fb_file *file;
  const struct fb_reading *with;
  fb_problems *problems;
  fb_design *made;
};

static const struct file_bytes *kept_beside(struct arena *arena, const struct reading_order *order) {
  size_t count = order->with->beside_count;
  struct file_bytes *kept = arena_array(arena, count + 1, sizeof *kept);
  for (size_t i = 0; i < count; i++) kept[i] = file_kept(arena, &order->with->beside[i]);
  return kept;
}

// A firm's figure stands in where the design says none.
static struct overlay figure_overlay(struct arena *arena, const struct stock_figure *figure) {
  const struct row *row = catalogue_row(figure->row);
  return (struct overlay){.where = text_phrase(arena, "%s.%s", catalogue_kind(row->kind)->name, row->name),
                          .text = figure->text,
                          .unless_written = true,
                          .at = figure->from.at,
                          .by = figure->from.layer};
}

// Copied: the design is read with it again when fixes are proven.
static struct overlay trial_overlay(struct arena *arena, const struct fb_trial *trial) {
  return (struct overlay){.where = arena_words(arena, trial->where),
                          .text = arena_words(arena, trial->text),
                          .at = {trial->from ? arena_words(arena, trial->from) : "trial", 0},
                          .by = "trial"};
}

// Figures first: a trial changes them too.
static struct overlays overlays_of(struct arena *arena, const struct fb_reading *with) {
  static const struct stock none;
  const struct stock *stock = with->stock_of ? rulebook_stock(with->stock_of->rulebook) : &none;
  struct overlay *list = arena_array(arena, stock->figure_count + with->trial_count + 1, sizeof *list);
  struct overlays overlays = {list, stock->figure_count + with->trial_count};
  for (size_t i = 0; i < stock->figure_count; i++) *list++ = figure_overlay(arena, &stock->figures[i]);
  for (size_t i = 0; i < with->trial_count; i++) *list++ = trial_overlay(arena, &with->trials[i]);
  return overlays;
}

static const char *digest_of(struct arena *arena, const struct file_bytes *file, const struct store *store) {
  uint64_t digest = digest_add(digest_begin(), file->bytes, file->length);
  const struct file_bytes *survey = store ? store->survey_file : NULL;
  if (survey) digest = digest_add(digest, survey->bytes, survey->length);
  return digest_words(arena, digest);
}

static void read_design(struct arena *arena, void *with) {
  struct reading_order *order = with;
  struct file_bytes file = file_kept(arena, order->file);
  struct problems found = problems_in(arena);
  struct overlays overlays = overlays_of(arena, order->with);
  const struct file_bytes *beside = kept_beside(arena, order);
  size_t beside_count = order->with->beside_count;
  struct store *store = design_read_with(arena, &file, beside, beside_count, overlays.list, overlays.count, &found);
  order->made = arena_alloc(arena, sizeof *order->made);
  *order->made = (fb_design){.arena = arena,
                             .store = store,
                             .digest = digest_of(arena, &file, store),
                             .source = {file, beside, beside_count, overlays}};
  problems_sort(&found);
  problems_hand_over(order->problems, &found);
}

fb_design *fb_design_with_new(const struct fb_file *file, const struct fb_reading *with, fb_problems *problems) {
  struct reading_order order = {.file = file, .with = with, .problems = problems};
  struct arena *arena = arena_filled(NULL, read_design, &order, problems);
  if (arena && order.made->store) return order.made;
  arena_free(arena);
  return NULL;
}

fb_design *fb_design_new(const struct fb_file *file, const struct fb_file *beside, size_t count,
                         fb_problems *problems) {
  struct fb_reading with = {.beside = beside, .beside_count = count};
  return fb_design_with_new(file, &with, problems);
}

void fb_fix_hash_seed(void) { design_fix_hash_seed(); }

void fb_design_free(fb_design *design) {
  if (design) arena_free(design->arena);
}

enum unit_system units_for(const struct fb_design *design, enum fb_units units) {
  if (units != FB_UNITS_AS_DESIGNED) return units == FB_UNITS_US ? UNITS_US : UNITS_SI;
  const struct store *store = design->store;
  if (store_count(store, KIND_project) == 0) return UNITS_US;
  const struct slot *slot = store_at(store, store_of_kind(store, KIND_project, 0), ROW_project_units);
  bool si = slot->condition != CONDITION_UNSET && slot->value == (double)WORD_units_si;
  return si ? UNITS_SI : UNITS_US;
}

struct explaining {
  const fb_design *design;
  const char *what;
  enum unit_system units;
  bool full;
  fb_problems *problems;
};

static bool explain(struct text *text, void *with) {
  const struct explaining *order = with;
  struct problems found = problems_in(text->arena);
  struct evaluation *ev = evaluation_in(text->arena, order->design->store, &found);
  struct explained what;
  bool is_there = explain_find(ev, order->what, &what, &found);
  if (is_there) explain_write(text, ev, what, order->units, order->full);
  problems_sort(&found);
  problems_hand_over(order->problems, &found);
  return is_there;
}

fb_text *fb_explain_new(fb_design *design, const char *what, enum fb_units units, bool full, fb_problems *problems) {
  struct explaining order = {design, what, units_for(design, units), full, problems};
  return text_filled(NULL, explain, &order, problems);
}

struct taking_off {
  const fb_design *design;
  enum unit_system units;
  bool working;
  fb_problems *problems;
};

static bool take_off(struct text *text, void *with) {
  const struct taking_off *order = with;
  struct problems found = problems_in(text->arena);
  struct evaluation *ev = evaluation_in(text->arena, order->design->store, &found);
  takeoff_write(text, ev, order->units, order->working);
  problems_hand_over(order->problems, &found);
  return true;
}

fb_text *fb_takeoff_new(fb_design *design, enum fb_units units, bool working, fb_problems *problems) {
  struct taking_off order = {design, units_for(design, units), working, problems};
  return text_filled(NULL, take_off, &order, problems);
}
