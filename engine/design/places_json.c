// SPDX-License-Identifier: MIT
// Walks the text of a JSON design. Takes a little more than JSON does: what is JSON is for jansson to say, and what is
// not gets the words of someone who writes a design.
#include <string.h>

#include "base/text.h"
#include "catalogue/catalogue.h"
#include "design/places_tree.h"

enum { DEEPEST = 200, MOST_PROBLEMS = 1000, LONGEST_WORD = 24 };

struct json_walk {
  struct places *places;
  struct problems *problems;
  struct json_fault *fault;
  const char *file, *bytes;
  size_t at, length;
  int line, depth;
};

// What stands at this depth.
enum level { LEVEL_KINDS, LEVEL_NAMES, LEVEL_GIVENS };

static char here(const struct json_walk *w) { return w->at < w->length ? w->bytes[w->at] : '\0'; }

static void skip_blank(struct json_walk *w) {
  for (; w->at < w->length; w->at++) {
    char c = here(w);
    if (c != ' ' && c != '\t' && c != '\n' && c != '\r') return;
    if (c == '\n') w->line++;
  }
}

static bool fail(struct json_walk *w, int line, const char *said, const char *right) {
  if (w->fault->said) return false;
  *w->fault = (struct json_fault){line, said, NULL, right};
  return false;
}

// A NUL within a name would end it early.
static enum kind kind_named(const char *name, size_t length) {
  return memchr(name, '\0', length) ? KIND_COUNT : catalogue_kind_named(name, length);
}

static bool is_shape(const char *name, size_t length) {
  return !memchr(name, '\0', length) && places_shape(name, length) != WORD_COUNT;
}

// ---- texts ----

static unsigned hex_at(const char *at, const char *end) {
  unsigned value = 0;
  for (int i = 0; i < 4; i++, at++) {
    if (at >= end) return 0;
    char c = *at, lower = (char)(c | 0x20);
    value = value * 16 + (unsigned)(c >= '0' && c <= '9'           ? c - '0'
                                    : lower >= 'a' && lower <= 'f' ? lower - 'a' + 10
                                                                   : 0);
  }
  return value;
}

// at: behind "\u"; returns behind it all.
static const char *add_unicode(struct text *text, const char *at, const char *end) {
  unsigned code = hex_at(at, end);
  at = end - at < 4 ? end : at + 4;
  bool pair = code >= 0xD800 && code < 0xDC00 && end - at >= 6 && at[0] == '\\' && at[1] == 'u';
  if (pair) {
    code = 0x10000 + ((code - 0xD800) << 10) + ((hex_at(at + 2, end) - 0xDC00) & 0x3FF);
    at += 6;
  }
  text_add_code_point(text, code);
  return at;
}

static const char *unescaped(struct arena *arena, const char *at, const char *end, size_t *length) {
  static const char letters[] = "bfnrt", meant[] = "\b\f\n\r\t";
  struct text text = text_in(arena);
  while (at < end) {
    char c = *at++;
    if (c != '\\' || at == end) {
      text_add_char(&text, c);
      continue;
    }
    c = *at++;
    const char *letter = c ? strchr(letters, c) : NULL;
    if (c == 'u') {
      at = add_unicode(&text, at, end);
    } else {
      text_add_char(&text, letter ? meant[letter - letters] : c);
    }
  }
  *length = text.length;
  return text_end(&text);
}

static bool skip_text(struct json_walk *w) {
  int line = w->line;
  for (w->at++; w->at < w->length; w->at++) {
    char c = here(w);
    if (c == '"') {
      w->at++;
      return true;
    }
    if (c == '\n') break;
    if (c == '\\' && w->at + 1 < w->length) w->at++;
  }
  return fail(w, line, "a text has no closing quotes on its line", "\" at its end");
}

static bool read_key(struct json_walk *w, const char **name, size_t *length) {
  size_t from = w->at + 1;
  if (!skip_text(w)) return false;
  size_t to = w->at - 1;
  *name = w->bytes + from;
  *length = to - from;
  if (memchr(*name, '\\', *length)) *name = unescaped(w->places->arena, w->bytes + from, w->bytes + to, length);
  return true;
}

// ---- what is no JSON ----

static bool is_word_byte(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '.' ||
         c == '+' || c == '-';
}

static bool fail_at(struct json_walk *w) {
  char c = here(w), next = w->at + 1 < w->length ? w->bytes[w->at + 1] : '\0';
  if (w->at >= w->length)
    return fail(w, w->line, "the file ends before its lists and objects are closed", "the missing ] or }");
  if (c == '\'') return fail(w, w->line, "text stands in single quotes", "double quotes around it");
  if ((c == '-' && next == '-') || (c == '/' && next == '/') || c == '#')
    return fail(w, w->line, "JSON has no comments", "the design as Lua where it needs them");
  if (c == '=') return fail(w, w->line, "= stands where JSON has a colon", "\"name\": value");
  if (c == '}' || c == ']')
    return fail(w, w->line, "a value is missing here, or a comma stands before the closing bracket", NULL);
  return fail(w, w->line, "text stands without quotes", "double quotes around it");
}

static bool fail_comma(struct json_walk *w, char closing, int line) {
  skip_blank(w);
  char c = here(w);
  if (c == '}' || c == ']')
    return fail(w, w->line,
                closing == ']' ? "a list that [ opens is closed by }" : "an object that { opens is closed by ]",
                closing == ']' ? "]" : "}");
  if (w->at >= w->length) return fail_at(w);
  return fail(w, line, "a comma is missing after this value", ", behind it");
}

// ---- values ----

static void tell_twice(struct json_walk *w, int node, int line) {
  const struct place_node *it = &w->places->nodes[node];
  if (it->twin == PLACES_NONE || !it->name || w->problems->count >= MOST_PROBLEMS) return;
  struct text said = text_in(w->places->arena);
  text_add(&said, "`");
  text_add_bytes(&said, it->name, it->length);
  text_printf(&said, "` is given twice; first at line %d", w->places->nodes[it->twin].at.line);
  problem_add(w->problems, (struct problem){.at = {w->file, line}, .said = text_end(&said), .right = "it once"});
}

static bool walk_value(struct json_walk *w, int node, enum level level);

// Behind a value: true where another follows, with *more false at the closing bracket.
static bool walk_comma(struct json_walk *w, char closing, bool *more) {
  int line = w->line;
  skip_blank(w);
  *more = here(w) == ',';
  if (*more || here(w) == closing) {
    w->at++;
    return true;
  }
  return fail_comma(w, closing, line);
}

static int add_child(struct json_walk *w, int parent, const char *name, size_t length, int index) {
  return places_add(w->places, (struct place_node){.parent = parent,
                                                   .name = name,
                                                   .length = length,
                                                   .index = index,
                                                   .line_to = w->line,
                                                   .at = {w->line, (uint32_t)w->at, 0}});
}

static bool walk_child(struct json_walk *w, int node, enum level level) {
  if (!walk_value(w, node, level)) return false;
  w->places->nodes[node].at.to = (uint32_t)w->at;
  return true;
}

static bool walk_array(struct json_walk *w, int node) {
  bool more = true;
  w->at++;
  skip_blank(w);
  if (here(w) == ']') {
    w->at++;
    return true;
  }
  for (int index = 1; more; index++) {
    skip_blank(w);
    if (!walk_child(w, add_child(w, node, NULL, 0, index), LEVEL_GIVENS) || !walk_comma(w, ']', &more)) return false;
  }
  return true;
}

// Which node a member hangs on, and what stands in it. Kinds are nodes too, so that one given twice is seen.
static int member_node(struct json_walk *w, int parent, enum level *level, const char *name, size_t length) {
  if (*level == LEVEL_GIVENS) return add_child(w, parent, name, length, 0);
  if (*level == LEVEL_NAMES) {
    const struct place_node *of = &w->places->nodes[parent];
    enum kind kind = kind_named(of->name, of->length);
    *level = LEVEL_GIVENS;
    return add_child(w, kind == KIND_COUNT ? parent : places_parent_of(kind), name, length, 0);
  }
  enum kind kind = kind_named(name, length);
  int node = add_child(w, PLACES_TOP, name, length, 0);
  *level = LEVEL_NAMES;
  if (kind != KIND_COUNT && catalogue_kind(kind)->unnamed) *level = LEVEL_GIVENS;  // a list of them
  if (kind == KIND_COUNT || !catalogue_kind(kind)->single) return node;
  *level = LEVEL_GIVENS;
  tell_twice(w, node, w->line);
  return add_child(w, places_parent_of(kind), NULL, 0, 0);
}

static bool walk_member(struct json_walk *w, int parent, enum level level) {
  const char *name;
  size_t length;
  int line = w->line;
  if (here(w) != '"') return fail_at(w);
  if (!read_key(w, &name, &length)) return false;
  skip_blank(w);
  if (here(w) != ':')
    return here(w) == '=' ? fail_at(w) : fail(w, w->line, "a colon is missing after this name", ": behind it");
  w->at++;
  skip_blank(w);
  if (level == LEVEL_GIVENS && is_shape(name, length)) return walk_value(w, parent, level);
  int node = member_node(w, parent, &level, name, length);
  tell_twice(w, node, line);
  return walk_child(w, node, level);
}

static bool walk_object(struct json_walk *w, int node, enum level level) {
  bool more = true;
  w->at++;
  skip_blank(w);
  if (here(w) == '}') {
    w->at++;
    return true;
  }
  while (more) {
    skip_blank(w);
    if (!walk_member(w, node, level) || !walk_comma(w, '}', &more)) return false;
  }
  return true;
}

static bool walk_word(struct json_walk *w) {
  static const char *const words[] = {"true", "false", "null"};
  size_t from = w->at;
  while (is_word_byte(here(w))) w->at++;
  char first = w->at > from ? w->bytes[from] : '\0';
  if (first == '-' || (first >= '0' && first <= '9')) return true;
  for (size_t i = 0; i < sizeof words / sizeof *words; i++)
    if (strlen(words[i]) == w->at - from && memcmp(words[i], w->bytes + from, w->at - from) == 0) return true;
  w->at = from;
  return fail_at(w);
}

static bool walk_nested(struct json_walk *w, int node, enum level level) {
  if (w->depth >= DEEPEST) return fail(w, w->line, "lists and objects stand in each other more than 200 deep", NULL);
  w->depth++;
  bool whole = here(w) == '[' ? walk_array(w, node) : walk_object(w, node, level);
  w->depth--;
  return whole;
}

static bool walk_value(struct json_walk *w, int node, enum level level) {
  char c = here(w);
  if (c == '{' || c == '[') return walk_nested(w, node, level);
  return c == '"' ? skip_text(w) : walk_word(w);
}

struct places *places_scan_json(struct arena *arena, const char *file, const char *bytes, size_t length,
                                struct problems *problems, struct json_fault *fault) {
  bool marked = length >= 3 && memcmp(bytes, "\xEF\xBB\xBF", 3) == 0;
  struct json_walk w = {places_in(arena), problems, fault, file, bytes, marked ? 3 : 0, length, 1, 0};
  skip_blank(&w);
  if (walk_value(&w, PLACES_TOP, LEVEL_KINDS)) {
    skip_blank(&w);
    if (w.at < w.length) fail(&w, w.line, "something stands behind the end of the design", "one { } around all of it");
  }
  return w.places;
}

struct places *places_of_json(struct arena *arena, const char *file, const char *bytes, size_t length,
                              struct problems *problems) {
  struct json_fault fault = {0};
  return places_scan_json(arena, file, bytes, length, problems, &fault);
}
