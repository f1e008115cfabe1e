// SPDX-License-Identifier: MIT
// Where in the bytes of a file a change goes, and what is put there.
#include <string.h>

#include "design/edit_inside.h"
#include "design/overlay.h"

static bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

// ---- texts ----

const char *edit_quoted(struct arena *arena, const char *text, char quote) {
  struct text quoted = text_in(arena);
  text_add_char(&quoted, quote);
  for (; *text; text++) {
    if (*text == '\\' || *text == quote) text_add_char(&quoted, '\\');
    text_add_char(&quoted, *text);
  }
  text_add_char(&quoted, quote);
  return text_end(&quoted);
}

// A number as both languages write it.
static bool is_number(const char *text) {
  text += *text == '-';
  size_t whole = strspn(text, "0123456789");
  if (whole == 0 || (whole > 1 && text[0] == '0')) return false;
  text += whole;
  if (*text != '.') return !*text;
  size_t decimals = strspn(text + 1, "0123456789");
  return decimals > 0 && !text[1 + decimals];
}

// ---- tables ----

static int node_of(const struct editing *e, int entity) {
  const struct entity *it = &e->base->entities[entity];
  if (it->owner < 0) {
    size_t length = it->name ? strlen(it->name) : 0;
    return places_entity(e->places, it->kind, it->name, length, e->json ? 0 : it->at.line);
  }
  const char *list = catalogue_row(it->list)->name;
  int of = places_field(e->places, node_of(e, it->owner), list, strlen(list));
  int item = places_item(e->places, of, it->index);
  return item == PLACES_NONE && catalogue_row(it->list)->many == 1 ? of : item;
}

// In a loop or function the places of values are not used, but their line is worth telling.
static int line_in_loop(const struct editing *e, const struct edit *edit, int line) {
  const char *name = catalogue_row(edit->row)->name;
  int node = places_field(e->places, node_of(e, edit->entity), name, strlen(name));
  return node == PLACES_NONE ? line : e->places->nodes[node].at.line;
}

// ---- one value in the place of another ----

// The token that begins at this byte, or the first behind it.
static size_t token_from(const struct tokens *tokens, size_t from) {
  size_t low = 0, high = tokens->count;
  while (low < high) {
    size_t middle = low + (high - low) / 2;
    if (tokens->list[middle].from < from) {
      low = middle + 1;
    } else {
      high = middle;
    }
  }
  return low;
}

static bool is_mark(const struct token *token, char mark) { return token->sort == TOKEN_MARK && token->mark == mark; }

// What a value in Lua is made of: one text, one number, or a text read by q. NULL: anything else.
static const struct token *lua_value(const struct editing *e, size_t from, size_t to, bool *bare) {
  const struct token *token = &e->tokens.list[token_from(&e->tokens, from)];
  const struct token *last = token;
  while (last[1].sort != TOKEN_END && last[1].to <= to) last++;
  size_t count = (size_t)(last - token) + 1;
  bool minus = is_mark(token, '-') && count == 2 && token[1].sort == TOKEN_NUMBER;
  *bare = minus || (count == 1 && token->sort == TOKEN_NUMBER);
  if (*bare || (count == 1 && token->sort == TOKEN_TEXT)) return token;
  bool by_q = token->sort == TOKEN_NAME && token->to - token->from == 1 && e->file->bytes[token->from] == 'q';
  if (by_q && count == 2 && token[1].sort == TOKEN_TEXT) return token + 1;
  bool in_brackets = by_q && count == 4 && is_mark(&token[1], '(') && is_mark(&token[3], ')');
  return in_brackets && token[2].sort == TOKEN_TEXT ? token + 2 : NULL;
}

static bool refuse_computed(const struct editing *e, const struct edit *edit, const struct slot *slot) {
  return edit_refuse(e, edit, slot->line, "is worked out in the file, and not written there as one text",
                     "it there by hand");
}

static const char *kept_tolerance(const struct editing *e, const struct edit *edit, const char *before, size_t length) {
  return overlay_keep_tolerance(e->arena, edit->row, arena_copy(e->arena, before, length), edit->text);
}

static bool replace_in_lua(struct editing *e, const struct edit *edit, const struct slot *slot, struct splice *splice) {
  bool bare;
  const struct token *token = lua_value(e, slot->from, slot->to, &bare);
  if (!token) return refuse_computed(e, edit, slot);
  *splice = (struct splice){token->from, bare ? slot->to : token->to, edit->text};
  if (bare && is_number(edit->text)) return true;
  size_t length = 0;
  const char *before = bare ? "" : lua_token_text(e->arena, e->file->bytes, token, &length);
  char quote = e->file->bytes[token->from] == '\'' ? '\'' : '"';
  splice->text = edit_quoted(e->arena, kept_tolerance(e, edit, before, length), quote);
  return true;
}

static bool replace_in_json(struct editing *e, const struct edit *edit, const struct slot *slot,
                            struct splice *splice) {
  bool bare = e->file->bytes[slot->from] != '"';
  *splice = (struct splice){slot->from, slot->to, edit->text};
  if (bare && is_number(edit->text)) return true;
  const char *before = bare ? "" : slot->text;
  splice->text = edit_quoted(e->arena, kept_tolerance(e, edit, before, strlen(before)), '"');
  return true;
}

static bool replace_table(struct editing *e, const struct edit *edit, const struct slot *slot, struct splice *splice) {
  const char *value = e->file->bytes + slot->from;
  size_t word = 0;
  while (value[word] >= 'a' && value[word] <= 'z') word++;
  bool shape = word > 0 && places_shape(value, word) != WORD_COUNT;
  char last = e->file->bytes[slot->to - 1];
  bool literal = e->json || ((shape || value[0] == '{') && (last == '}' || (shape && last != ')')));
  if (!literal) return refuse_computed(e, edit, slot);
  *splice = (struct splice){slot->from, slot->to, edit->text};
  return true;
}

bool edit_replace(struct editing *e, const struct edit *edit, struct splice *splice) {
  const struct slot *slot = store_at(e->base, edit->entity, edit->row);
  if (slot->to == 0 && e->json)
    return edit_refuse(e, edit, slot->line, "stands in a short form that has no place of its own", "it there by hand");
  if (slot->to == 0)
    return edit_refuse(e, edit, line_in_loop(e, edit, slot->line),
                       "is written in a loop, a function or a table that stands elsewhere", "it there by hand");
  if (edit->is_table) return replace_table(e, edit, slot, splice);
  return e->json ? replace_in_json(e, edit, slot, splice) : replace_in_lua(e, edit, slot, splice);
}

// ---- a given that was not written ----

// A table: the byte behind the brace that opens it, and its first own byte (or the closing brace).
struct table {
  size_t open, first;
  bool empty, same_line;
};

static size_t brace_from(const struct editing *e, size_t from) {
  size_t token = e->json ? 0 : token_from(&e->tokens, from);
  if (e->json) return from;
  while (token < e->tokens.count && !is_mark(&e->tokens.list[token], '{')) token++;
  return token < e->tokens.count ? e->tokens.list[token].from : e->file->length;
}

static bool find_table(const struct editing *e, size_t from, struct table *table) {
  const char *bytes = e->file->bytes;
  size_t brace = brace_from(e, from);
  if (brace >= e->file->length || bytes[brace] != '{') return false;
  table->open = table->first = brace + 1;
  if (e->json) {
    while (is_blank(bytes[table->first])) table->first++;
  } else {
    table->first = e->tokens.list[token_from(&e->tokens, brace + 1)].from;
  }
  table->empty = bytes[table->first] == '}';
  table->same_line = !memchr(bytes + table->open, '\n', table->first - table->open);
  return true;
}

// The file's own way: what stands around the sign behind a name, and which quotes.
struct style {
  bool before, after;
  char quote;
};

static struct style style_of(const struct editing *e, const struct table *table) {
  const char *bytes = e->file->bytes;
  struct style style = {!e->json, true, '"'};
  const char *sign = memchr(bytes + table->first, e->json ? ':' : '=', e->file->length - table->first);
  if (sign && !table->empty) {
    style.before = is_blank(sign[-1]);
    style.after = is_blank(sign[1]);
  }
  for (size_t t = 0; !e->json && t < e->tokens.count; t++) {
    const struct token *token = &e->tokens.list[t];
    if (token->sort != TOKEN_TEXT || (!table->empty && token->from < table->first)) continue;
    style.quote = bytes[token->from] == '\'' ? '\'' : '"';
    break;
  }
  return style;
}

static void add_given(struct text *text, const struct editing *e, const struct edit *edit, struct style style) {
  const char *name = catalogue_row(edit->row)->name;
  text_add(text, e->json ? edit_quoted(e->arena, name, '"') : name);
  if (style.before) text_add_char(text, ' ');
  text_add_char(text, e->json ? ':' : '=');
  if (style.after) text_add_char(text, ' ');
  const struct row *row = catalogue_row(edit->row);
  bool bare = row->sort == SORT_NUMBER && dimension_may_be_bare(row->dimension) && is_number(edit->text);
  text_add(text, edit->is_table || bare ? edit->text : edit_quoted(e->arena, edit->text, style.quote));
}

// Another given that goes behind the same brace stands there already.
static bool is_second(const struct editing *e, size_t at) {
  for (size_t i = 0; &e->splices[i] < e->splices + e->count; i++)
    if (e->splices[i].text && e->splices[i].from == at && e->splices[i].to == at) return true;
  return false;
}

// On a line of its own behind the line of the brace, where the table's own values begin further down.
static const char *on_own_line(const struct editing *e, const struct edit *edit, const struct table *table,
                               struct style style, size_t *at) {
  const char *bytes = e->file->bytes;
  const char *end = memchr(bytes + table->open, '\n', table->first - table->open);
  size_t line = table->first;
  while (bytes[line - 1] != '\n') line--;
  struct text text = text_in(e->arena);
  *at = (size_t)(end - bytes) + 1;
  text_add_bytes(&text, bytes + line, table->first - line);
  if (table->empty) text_add(&text, "  ");
  add_given(&text, e, edit, style);
  if (!table->empty || !e->json || is_second(e, *at)) text_add_char(&text, ',');
  text_add(&text, end > bytes && end[-1] == '\r' ? "\r\n" : "\n");
  return text_end(&text);
}

static const char *in_line(const struct editing *e, const struct edit *edit, const struct table *table,
                           struct style style, size_t *at) {
  struct text text = text_in(e->arena);
  *at = table->empty ? table->open : table->first;
  bool second = table->empty && is_second(e, *at);
  if (table->empty) text_add(&text, second ? ", " : " ");
  add_given(&text, e, edit, style);
  if (!table->empty) text_add(&text, ", ");
  if (table->empty && table->first == table->open) text_add_char(&text, ' ');
  return text_end(&text);
}

bool edit_insert(struct editing *e, const struct edit *edit, struct splice *splice) {
  const struct entity *it = &e->base->entities[edit->entity];
  if (it->owner < 0 && it->at.line == 0) {
    const char *kind = catalogue_kind(it->kind)->name;
    return edit_refuse(
        e, edit, 0, "has nothing to be written into",
        text_phrase(e->arena, e->json ? "\"%s\": { } into the design first" : "%s { } into the design first", kind));
  }
  struct value_place place;
  struct table table;
  if (!places_at(e->places, node_of(e, edit->entity), &place) || !find_table(e, place.from, &table))
    return edit_refuse(e, edit, it->at.line, "belongs into a loop, a function or a table that stands elsewhere",
                       "it there by hand");
  struct style style = style_of(e, &table);
  // A comment of several lines may begin behind the brace.
  bool comment = !e->json && memchr(e->file->bytes + table.open, '[', table.first - table.open);
  const char *text = table.same_line || comment ? in_line(e, edit, &table, style, &splice->from)
                                                : on_own_line(e, edit, &table, style, &splice->from);
  splice->to = splice->from;
  splice->text = text;
  return true;
}
