// SPDX-License-Identifier: MIT
// Written values into slots, by the row's sort.
#include <math.h>
#include <string.h>

#include "design/settle.h"
#include "units/compare.h"
#include "units/read.h"

struct writing {
  struct store *store;
  struct problems *problems;
  int entity;
  enum row_id id;
  const struct row *row;
  struct slot *slot;
  const char *text;
  bool bare;
};

static bool refuse(const struct writing *w, const char *said, const char *right) {
  store_complain(w->store, w->problems, w->entity, w->id,
                 (struct complaint){.line = w->slot->line, .said = said, .read = w->text, .right = right});
  return false;
}

static bool refuse_bare(const struct writing *w) {
  const struct dimension_row *dimension = dimension_row(w->row->dimension);
  struct text said = text_in(w->problems->arena), right = text_in(w->problems->arena);
  text_printf(&said, "is a bare number; %s is written as text with its unit", dimension->says);
  text_printf(&right, "\"%s\" in quotes, like \"%s\"", "a number and its unit", dimension->example);
  if (w->row->dimension == DIM_LENGTH || w->row->dimension == DIM_ELEVATION) {
    right.length = 0;
    text_printf(&right, "\"%s in\", \"%s ft\" or \"%s cm\"", w->text, w->text, w->text);
  } else if (dimension->us[0] != '\0' && strcmp(dimension->us, "H:1V") != 0) {
    right.length = 0;
    text_printf(&right, "\"%s %s\" or \"%s %s\"", w->text, dimension->us, w->text, dimension->si);
  }
  return refuse(w, text_end(&said), text_end(&right));
}

static double bound(const char *text, enum dimension dimension, struct arena *arena) {
  struct reading reading;
  struct text wrong = text_in(arena), right = text_in(arena);
  return unit_read(text, strlen(text), dimension, &reading, &wrong, &right) ? reading.value : NAN;
}

// No garden holds more than this: a value beyond is a slip of the pen or of the unit.
static const struct {
  enum dimension dimension;
  const char *most;
} absurd[] = {
    {DIM_LENGTH, "9,000 m"},     {DIM_ELEVATION, "9,000 m"}, {DIM_AREA, "100,000 m2"},  {DIM_VOLUME, "100,000 m3"},
    {DIM_FLOW, "10 m3/s"},       {DIM_MASS, "1,000 t"},      {DIM_VOLTAGE, "1,000 kV"}, {DIM_CURRENT, "10,000 A"},
    {DIM_POWER, "1,000 kW"},     {DIM_PRESSURE, "100 MPa"},  {DIM_TIME, "1,000 yr"},    {DIM_COUNT, "100000"},
    {DIM_MONEY, "$100,000,000"},
};

static bool is_sensible(const struct writing *w, double value) {
  for (size_t i = 0; i < sizeof absurd / sizeof absurd[0]; i++) {
    if (absurd[i].dimension != w->row->dimension) continue;
    double most = bound(absurd[i].most, w->row->dimension, w->problems->arena);
    if (!(fabs(value) > most)) continue;
    return refuse(w, "is beyond anything built in a garden",
                  text_phrase(w->problems->arena, "at most %s", absurd[i].most));
  }
  bool point = dimension_row(w->row->dimension)->powers.point;
  if (point || isnan(w->slot->tolerance) || w->slot->tolerance < fabs(value)) return true;
  return refuse(w, "has a tolerance as large as the value itself", "a smaller tolerance");
}

static bool within_bounds(const struct writing *w, double value) {
  struct arena *arena = w->problems->arena;
  enum dimension dimension = w->row->dimension == DIM_ELEVATION ? DIM_LENGTH : w->row->dimension;
  struct text right = text_in(arena);
  if (w->row->above && compare(value, bound(w->row->above, dimension, arena), 0) != STANDS_ABOVE) {
    text_printf(&right, "more than %s", w->row->above);
    return refuse(w, "is too small", text_end(&right));
  }
  if (w->row->least && compare(value, bound(w->row->least, dimension, arena), 0) == STANDS_BELOW) {
    text_printf(&right, "at least %s", w->row->least);
    return refuse(w, "is too small", text_end(&right));
  }
  if (w->row->most && compare(value, bound(w->row->most, dimension, arena), 0) == STANDS_ABOVE) {
    text_printf(&right, "at most %s", w->row->most);
    return refuse(w, "is too large", text_end(&right));
  }
  if (w->row->whole && value != floor(value)) return refuse(w, "is not a whole number", "a whole number");
  return true;
}

static bool write_number(const struct writing *w) {
  struct arena *arena = w->problems->arena;
  if (w->row->unbounded && !w->bare && strcmp(w->text, w->row->unbounded) == 0) {
    w->slot->value = INFINITY;
    return true;
  }
  if (w->bare && !dimension_may_be_bare(w->row->dimension)) return refuse_bare(w);
  struct reading reading;
  struct text wrong = text_in(arena), right = text_in(arena);
  if (!unit_read(w->text, strlen(w->text), w->row->dimension, &reading, &wrong, &right)) {
    return refuse(w, text_end(&wrong), right.length > 0 ? text_end(&right) : NULL);
  }
  w->slot->value = reading.value;
  w->slot->tolerance = reading.tolerance;
  return within_bounds(w, reading.value) && is_sensible(w, reading.value);
}

static bool write_word(const struct writing *w) {
  enum word word = catalogue_word_named(w->row->words, w->text, strlen(w->text));
  if (word == WORD_COUNT || w->bare) {
    return refuse(w, "is not one of the words known here", store_word_choices(w->problems->arena, w->row->words));
  }
  w->slot->value = (double)word;
  return true;
}

static bool write_text(const struct writing *w) {
  if (w->text[0] == '\0') return refuse(w, "is empty", "some words, or leave it out");
  if (w->bare) return refuse(w, "is a number where text is wanted", "the same in quotes");
  return true;
}

static bool write_by_sort(const struct writing *w) {
  static bool (*const by_sort[])(const struct writing *) = {
      [SORT_NUMBER] = write_number,  [SORT_CHOICE] = write_word, [SORT_TEXT] = write_text,
      [SORT_REFERENCE] = write_text, [SORT_SHAPE] = write_word,
  };
  if (w->row->sort >= sizeof by_sort / sizeof by_sort[0] || !by_sort[w->row->sort]) {
    return refuse(w, "is a list where one value was written", "a list in braces");
  }
  return by_sort[w->row->sort](w);
}

bool store_write(struct store *store, struct problems *problems, int entity, enum row_id row,
                 struct store_text written) {
  struct slot *slot = store_at(store, entity, row);
  slot->text = arena_words(store->arena, written.text);
  slot->line = written.at.line;
  slot->from = written.at.from;
  slot->to = written.at.to;
  slot->condition = CONDITION_GIVEN;
  struct writing writing = {store, problems, entity, row, catalogue_row(row), slot, slot->text, written.bare};
  if (write_by_sort(&writing)) return true;
  slot->condition = CONDITION_UNSET;  // with its line: written and of no use, which is not missing
  return false;
}

static bool refuse_measure(struct store *store, struct problems *problems, int entity, struct complaint complaint) {
  store_complain(store, problems, entity, ROW_COUNT, complaint);
  return false;
}

bool store_measure(struct store *store, struct problems *problems, int entity, const char *quantity,
                   struct store_text written, const char *how) {
  int line = written.at.line;
  enum kind kind = store->entities[entity].kind;
  enum row_id id = catalogue_row_named(kind, quantity, strlen(quantity));
  const struct row *row = id == ROW_COUNT ? NULL : catalogue_row(id);
  if (!row || !(row->sort == SORT_QUANTITY || (row->sort == SORT_NUMBER && row->derived))) {
    struct text given = text_in(problems->arena);
    bool is_given = row && row_is_given(row);
    if (is_given) text_printf(&given, "%s = \"%s\" beside `measured`", quantity, written.text);
    const char *right =
        is_given ? text_end(&given) : catalogue_nearest_row(problems->arena, kind_bit(kind), quantity, true);
    return refuse_measure(store, problems, entity,
                          (struct complaint){line,
                                             is_given ? "`measured` names a given, which nobody works out"
                                                      : "`measured` names nothing that is worked out here",
                                             quantity, right});
  }
  if (how && catalogue_word_named(WORDS_taken_with, how, strlen(how)) == WORD_COUNT) {
    return refuse_measure(store, problems, entity,
                          (struct complaint){line, "`with` does not say how it was taken", how,
                                             store_word_choices(problems->arena, WORDS_taken_with)});
  }
  struct slot scratch = {.line = line, .tolerance = NAN};
  struct writing writing = {store,       problems, entity, id, row, &scratch, arena_words(store->arena, written.text),
                            written.bare};
  if (!write_number(&writing)) return false;
  store->measurements = arena_grow(store->arena, store->measurements, store->measurement_count,
                                   &store->measurement_room, sizeof *store->measurements);
  store->measurements[store->measurement_count++] =
      (struct measurement){.slot = store_slot(store, entity, id),
                           .value = scratch.value,
                           .tolerance = scratch.tolerance,
                           .how = how ? arena_words(store->arena, how) : NULL,
                           .line = line};
  return true;
}
