// SPDX-License-Identifier: MIT
// From what was written to the slots of a store: which row a name means, and what that row takes.
#include <string.h>

#include "design/settle.h"
#include "design/written.h"

static void complain(const struct filling *f, int entity, enum row_id row, struct complaint complaint) {
  store_complain(f->store, f->problems, entity, row, complaint);
}

static struct text new_text(const struct filling *f) { return text_in(f->problems->arena); }

static bool is_enough(const struct filling *f) { return f->problems->count >= MOST_PROBLEMS_READ; }

// Written, and of no use: nobody is told that it is missing.
static void spoil(const struct filling *f, int entity, enum row_id row, struct value_place at) {
  struct slot *slot = store_at(f->store, entity, row);
  slot->line = at.line;
  slot->from = at.from;
  slot->to = at.to;
}

static void spoil_all(const struct filling *f, int entity, struct value_place at) {
  enum kind kind = f->store->entities[entity].kind;
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->kind == kind && row_is_given(row)) spoil(f, entity, (enum row_id)r, at);
  }
}

// ---- what would be right ----

// "{ flow = ..., head = ... }": what a part must have, or its first two.
static void add_part_form(struct text *text, enum kind part) {
  int shown = 0;
  text_add(text, "{ ");
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->kind != part || !row_is_given(row) || (!row->required && shown > 0)) continue;
    text_printf(text, "%s%s = ...", shown++ ? ", " : "", row->name);
  }
  text_add(text, " }");
}

static const char *right_form(const struct filling *f, const struct row *row) {
  struct text right = new_text(f);
  if (row->sort == SORT_NUMBER) {
    text_printf(&right, "\"%s\"", dimension_row(row->dimension)->example);
  } else if (row->sort == SORT_CHOICE) {
    return store_word_choices(f->problems->arena, row->words);
  } else if (row->sort == SORT_TEXT) {
    text_add(&right, "text in quotes");
  } else if (row->sort == SORT_REFERENCE) {
    store_write_targets(&right, row->targets);
    text_add(&right, ", in quotes");
  } else if (row->sort == SORT_REFERENCES) {
    text_add(&right, "{ \"...\", \"...\" } with ");
    store_write_targets(&right, row->targets);
    text_add(&right, " in each");
  } else if (row->sort == SORT_SHAPE) {
    text_add(&right,
             "polygon { {\"0 ft\", \"0 ft\"}, ... }, circle { \"6 ft\" }, ellipse or rectangle { \"5 ft\", \"4 ft\" }");
  } else {
    if (row->many != 1) text_add(&right, "{ ");
    add_part_form(&right, row->part);
    if (row->many != 1) text_add(&right, ", ... }");
  }
  return text_end(&right);
}

static const char *what_it_is(const struct filling *f, const struct written *value) {
  struct text words = new_text(f);
  if (value->sort == WRITTEN_SHAPE) {
    text_printf(&words, "is a shape, %s", catalogue_word(value->shape)->word);
  } else if (value->sort == WRITTEN_OTHER) {
    text_printf(&words, "is %s", value->text);
  } else {
    text_add(&words, value->sort == WRITTEN_TABLE    ? "is a list in braces"
                     : value->sort == WRITTEN_NUMBER ? "is a bare number"
                                                     : "is one text");
  }
  return text_end(&words);
}

static const char *as_read(const struct written *value) {
  return value->sort == WRITTEN_TEXT || value->sort == WRITTEN_NUMBER ? value->text : NULL;
}

static void refuse_sort(const struct filling *f, int entity, enum row_id id, const struct written *value) {
  const struct row *row = catalogue_row(id);
  struct text said = new_text(f);
  const char *wants = row->sort == SORT_PARTS || row->sort == SORT_REFERENCES ? "a list"
                      : row->sort == SORT_SHAPE                               ? "a shape"
                                                                              : "one value";
  text_printf(&said, "%s where %s is wanted", what_it_is(f, value), wants);
  spoil(f, entity, id, value->at);
  complain(f, entity, id, (struct complaint){value->at.line, text_end(&said), as_read(value), right_form(f, row)});
}

// ---- one value ----

bool written_is_clean(const char *text, size_t length) {
  for (size_t i = 0; i < length; i++) {
    if (text_control(text + i, length - i) > 0) return false;
  }
  return text_is_utf8(text, length);
}

static bool is_clean(const struct written *value) { return written_is_clean(value->text, value->length); }

static void fill_one(const struct filling *f, int entity, enum row_id id, const struct written *value) {
  if (value->sort != WRITTEN_TEXT && value->sort != WRITTEN_NUMBER) {
    refuse_sort(f, entity, id, value);
  } else if (!is_clean(value)) {
    spoil(f, entity, id, value->at);
    complain(f, entity, id,
             (struct complaint){value->at.line, "holds control characters", value->text, "plain text on one line"});
  } else {
    store_write(f->store, f->problems, entity, id,
                (struct store_text){value->text, value->sort == WRITTEN_NUMBER, value->at});
  }
}

// ---- lists ----

static void fill_field(const struct filling *f, int entity, const struct written *value);
static void fill_row(const struct filling *f, int entity, enum row_id id, const struct written *value);

static enum row_id given_at(enum kind kind, int index) {
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->kind == kind && row_is_given(row) && --index == 0) return (enum row_id)r;
  }
  return ROW_COUNT;
}

static void fill_position(const struct filling *f, int part, const struct written *value) {
  enum row_id id = given_at(f->store->entities[part].kind, value->index);
  if (id != ROW_COUNT) {
    fill_row(f, part, id, value);
    return;
  }
  struct text right = new_text(f);
  add_part_form(&right, f->store->entities[part].kind);
  complain(f, part, ROW_COUNT,
           (struct complaint){value->at.line, "holds a value too many", as_read(value), text_end(&right)});
}

static void fill_part(const struct filling *f, int owner, enum row_id list, const struct written *item) {
  int part = store_add_part(f->store, owner, list, item->at.line);
  if (item->sort == WRITTEN_TABLE) {
    for (const struct written *value = item->first; value && !is_enough(f); value = value->next) {
      if (value->key) {
        fill_field(f, part, value);
      } else {
        fill_position(f, part, value);
      }
    }
    return;
  }
  spoil_all(f, part, item->at);
  if (item->sort == WRITTEN_SPOILT) return;
  struct text said = new_text(f), right = new_text(f);
  text_printf(&said, "%s where a part in braces is wanted", what_it_is(f, item));
  add_part_form(&right, f->store->entities[part].kind);
  complain(f, part, ROW_COUNT, (struct complaint){item->at.line, text_end(&said), as_read(item), text_end(&right)});
}

static void fill_link(const struct filling *f, int owner, enum row_id list, const struct written *item) {
  int link = store_add_part(f->store, owner, list, item->at.line);
  fill_row(f, link, ROW_link_to, item);
}

typedef void filler_of_item(const struct filling *f, int owner, enum row_id list, const struct written *item);

// False, with a problem: a name among the items, or a number left out.
static bool is_in_place(const struct filling *f, int owner, enum row_id list, const struct written *item,
                        int expected) {
  if (item->key) {
    complain(f, owner, list,
             (struct complaint){item->at.line, "is a list, and a name stands in it", item->key,
                                right_form(f, catalogue_row(list))});
    return false;
  }
  if (item->index == expected) return true;
  struct text said = new_text(f);
  text_printf(&said, "has nothing at place %d (nil)", expected);
  complain(f, owner, list, (struct complaint){item->at.line, text_end(&said), NULL, "a list without gaps"});
  return false;
}

static void fill_items(const struct filling *f, int owner, enum row_id list, const struct written *value,
                       filler_of_item *fill) {
  int expected = 1;
  for (const struct written *item = value->first; item && !is_enough(f); item = item->next) {
    bool in_place = is_in_place(f, owner, list, item, expected);
    if (item->key) continue;
    expected = item->index + 1;
    fill(f, owner, list, item);
    if (!in_place) return;
  }
}

static void fill_list(const struct filling *f, int entity, enum row_id id, const struct written *value) {
  const struct row *row = catalogue_row(id);
  if (value->sort != WRITTEN_TABLE) {
    refuse_sort(f, entity, id, value);
    return;
  }
  if (!value->first) {
    if (!row->required && row->few == 0) return;
    spoil(f, entity, id, value->at);
    complain(f, entity, id, (struct complaint){value->at.line, "is an empty list", NULL, right_form(f, row)});
    return;
  }
  spoil(f, entity, id, value->at);  // the list's own line; its parts make it given
  if (row->many == 1 && row->sort == SORT_PARTS && value->first->key) {
    fill_part(f, entity, id, value);
  } else {
    fill_items(f, entity, id, value, row->sort == SORT_PARTS ? fill_part : fill_link);
  }
}

// ---- shapes ----

static void fill_widths(const struct filling *f, int entity, enum row_id id, const struct written *value) {
  static const enum row_id widths[] = {ROW_point_x, ROW_point_y};
  int wanted = value->shape == WORD_shape_circle ? 1 : 2, count = 0;
  int part = store_add_part(f->store, entity, id, value->at.line);
  for (const struct written *item = value->first; item; item = item->next) {
    bool fits = !item->key && item->index == ++count && count <= wanted;
    if (fits) fill_row(f, part, widths[count - 1], item);
    if (!fits) count = wanted + 1;
  }
  if (count == wanted) return;
  for (int i = 0; i < wanted; i++) {
    if (store_at(f->store, part, widths[i])->line == 0) spoil(f, part, widths[i], value->at);
  }
  complain(f, entity, id,
           (struct complaint){value->at.line,
                              wanted == 1 ? "is a circle, which takes one full width" : "takes two full widths", NULL,
                              wanted == 1 ? "circle { \"6 ft\" }" : "{ \"5 ft\", \"4 ft\" } after its word"});
}

static void fill_shape(const struct filling *f, int entity, enum row_id id, const struct written *value) {
  if (value->sort != WRITTEN_SHAPE) {
    refuse_sort(f, entity, id, value);
    return;
  }
  store_write(f->store, f->problems, entity, id,
              (struct store_text){catalogue_word(value->shape)->word, false, value->at});
  if (value->shape == WORD_shape_polygon) {
    fill_items(f, entity, id, value, fill_part);
  } else {
    fill_widths(f, entity, id, value);
  }
}

static void fill_row(const struct filling *f, int entity, enum row_id id, const struct written *value) {
  static void (*const by_sort[])(const struct filling *, int, enum row_id, const struct written *) = {
      [SORT_NUMBER] = fill_one,      [SORT_CHOICE] = fill_one, [SORT_TEXT] = fill_one,    [SORT_REFERENCE] = fill_one,
      [SORT_REFERENCES] = fill_list, [SORT_PARTS] = fill_list, [SORT_SHAPE] = fill_shape,
  };
  if (value->sort == WRITTEN_SPOILT) {
    spoil(f, entity, id, value->at);
  } else {
    by_sort[catalogue_row(id)->sort](f, entity, id, value);
  }
}

// ---- measured ----

static const char *const measured_form = "measured = { flow = \"810 gal/h\", with = \"bucket\" }";

static void fill_measurement(const struct filling *f, int entity, const struct written *value, const char *how) {
  if (value->sort == WRITTEN_SPOILT) return;
  if (value->key && (value->sort == WRITTEN_TEXT || value->sort == WRITTEN_NUMBER) && is_clean(value)) {
    store_measure(f->store, f->problems, entity, value->key,
                  (struct store_text){value->text, value->sort == WRITTEN_NUMBER, value->at}, how);
    return;
  }
  complain(
      f, entity, ROW_COUNT,
      (struct complaint){value->at.line, "`measured` takes names and values in quotes", as_read(value), measured_form});
}

static void fill_measured(const struct filling *f, int entity, const struct written *table) {
  const char *how = NULL;
  bool any = false;
  for (const struct written *value = table->first; value; value = value->next) {
    bool is_how = value->key && strcmp(value->key, "with") == 0;
    if (is_how && value->sort == WRITTEN_TEXT) how = value->text;
    any = any || !is_how;
  }
  if (table->sort == WRITTEN_SPOILT) return;
  if (table->sort != WRITTEN_TABLE || !any) {
    complain(f, entity, ROW_COUNT,
             (struct complaint){table->at.line, "`measured` names no value", as_read(table), measured_form});
    return;
  }
  for (const struct written *value = table->first; value && !is_enough(f); value = value->next) {
    if (!value->key || strcmp(value->key, "with") != 0 || value->sort != WRITTEN_TEXT)
      fill_measurement(f, entity, value, how);
  }
}

// ---- names ----

static void refuse_unknown(const struct filling *f, int entity, const struct written *value) {
  enum kind kind = f->store->entities[entity].kind;
  struct text said = new_text(f), right = new_text(f);
  const char *near = catalogue_nearest_row(f->problems->arena, kind_bit(kind), value->key, false);
  text_printf(&said, "`%s` is not known here", value->key);
  if (near) text_printf(&right, "`%s`, if that is meant", near);
  complain(f, entity, ROW_COUNT,
           (struct complaint){value->at.line, text_end(&said), value->key, near ? text_end(&right) : NULL});
}

static void refuse_worked_out(const struct filling *f, int entity, const struct written *value, const struct row *row) {
  struct text said = new_text(f), right = new_text(f);
  bool back = row->sort == SORT_BACK;
  text_printf(&said, back ? "`%s` follows from what the others name" : "`%s` is worked out, not given", row->name);
  if (row->sort == SORT_QUANTITY)
    text_printf(&right, "measured = { %s = \"...\", with = \"tape\" } where it was taken on site", row->name);
  complain(
      f, entity, ROW_COUNT,
      (struct complaint){value->at.line, text_end(&said), as_read(value), right.length ? text_end(&right) : "nothing"});
}

static void fill_field(const struct filling *f, int entity, const struct written *value) {
  const struct entity *it = &f->store->entities[entity];
  if (!value->key) {
    complain(f, entity, ROW_COUNT,
             (struct complaint){value->at.line, "holds a value without its name", as_read(value),
                                "a name and = before it, like depth = \"30 in\""});
    return;
  }
  if (it->owner < 0 && strcmp(value->key, "measured") == 0) {
    fill_measured(f, entity, value);
    return;
  }
  bool whole = strlen(value->key) == value->key_length;  // no NUL in it
  enum row_id id = whole ? catalogue_row_named(it->kind, value->key, value->key_length) : ROW_COUNT;
  if (id == ROW_COUNT) {
    refuse_unknown(f, entity, value);
  } else if (!row_is_given(catalogue_row(id))) {
    refuse_worked_out(f, entity, value, catalogue_row(id));
  } else {
    fill_row(f, entity, id, value);
  }
}

enum { LONGEST_NAME = 120 };  // a report's line must still be a line

static const char *fault_of_name(const struct written *entity) {
  struct written name = {.text = entity->key, .length = entity->key_length};
  if (entity->key_length == 0) return "has an empty name";
  if (!is_clean(&name)) return "has control characters in its name";
  if (entity->key_length > LONGEST_NAME) return "has a name of over 120 characters";
  return strpbrk(entity->key, ".[") ? "has . or [ in its name, which lead to givens in paths" : NULL;
}

void fill_entity(struct filling *f, enum kind kind, const struct written *entity) {
  if (is_enough(f)) return;
  int it = store_add(f->store, kind, entity->key, entity->at.line);
  const char *fault = entity->key ? fault_of_name(entity) : NULL;
  if (fault)
    complain(f, it, ROW_COUNT, (struct complaint){entity->at.line, fault, entity->key, "letters, digits and blanks"});
  if (entity->sort == WRITTEN_SPOILT) {
    spoil_all(f, it, entity->at);
    return;
  }
  for (const struct written *value = entity->first; value && !is_enough(f); value = value->next)
    fill_field(f, it, value);
}
