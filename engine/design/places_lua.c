// SPDX-License-Identifier: MIT
// Walks the tokens once: constructors wherever they stand, and in their tables each value to its end.
#include <string.h>

#include "catalogue/catalogue.h"
#include "design/lua_tokens.h"
#include "design/places_tree.h"

enum { DEEPEST = 200, LONGEST_NAME_EXPRESSION = 64, MOST_PROBLEMS = 1000 };

struct lua_walk {
  struct places *places;
  struct problems *problems;
  const char *file;
  struct tokens tokens;
  size_t at;
  int blocks;  // of `function`, `do`, `if`, `repeat` that are open here
  int depth;   // of tables
  const char *where;
  bool rules;  // a rule file
};

static const struct token *token_at(const struct lua_walk *w, size_t index) {
  return &w->tokens.list[index < w->tokens.count ? index : w->tokens.count];
}
static const struct token *here(const struct lua_walk *w) { return token_at(w, w->at); }
static bool is_end(const struct lua_walk *w) { return here(w)->sort == TOKEN_END; }

static bool is_mark(const struct lua_walk *w, size_t index, char mark) {
  const struct token *token = token_at(w, index);
  return token->sort == TOKEN_MARK && token->mark == mark;
}

static bool is_word(const struct lua_walk *w, size_t index, const char *word) {
  const struct token *token = token_at(w, index);
  size_t length = token->to - token->from;
  return token->sort == TOKEN_NAME && strlen(word) == length &&
         memcmp(w->tokens.bytes + token->from, word, length) == 0;
}

// 1 where a block opens, -1 where one closes. `for` and `while` open theirs by their `do`.
static int block_step(const struct lua_walk *w) {
  static const char *const opens[] = {"function", "do", "if", "repeat"}, *const closes[] = {"end", "until"};
  if (here(w)->sort != TOKEN_NAME) return 0;
  for (size_t i = 0; i < sizeof opens / sizeof *opens; i++)
    if (is_word(w, w->at, opens[i])) return 1;
  return is_word(w, w->at, closes[0]) || is_word(w, w->at, closes[1]) ? -1 : 0;
}

static int bracket_step(const struct token *token) {
  if (token->sort != TOKEN_MARK) return 0;
  if (token->mark == '(' || token->mark == '{' || token->mark == '[') return 1;
  return token->mark == ')' || token->mark == '}' || token->mark == ']' ? -1 : 0;
}

static bool separates(const struct token *token) {
  return token->sort == TOKEN_MARK && (token->mark == ',' || token->mark == ';');
}

// To the "," ";" or closing bracket behind the value.
static void skip_expression(struct lua_walk *w) {
  int brackets = 0, blocks = 0;
  for (; !is_end(w); w->at++) {
    int bracket = bracket_step(here(w));
    if (brackets == 0 && blocks == 0 && (separates(here(w)) || bracket < 0)) return;
    brackets += bracket;
    blocks += block_step(w);
  }
}

// ---- tables ----

struct key {
  bool known;
  const char *name;
  size_t length;
  int index, line;
};

static void tell_twice(struct lua_walk *w, const struct key *key, int node) {
  const struct places *places = w->places;
  int first = places->nodes[node].twin;
  if (first == PLACES_NONE || !key->name || w->problems->count >= MOST_PROBLEMS) return;
  struct text said = text_in(places->arena);
  text_add(&said, "`");
  text_add_bytes(&said, key->name, key->length);
  text_printf(&said, "` is given twice; first at line %d", places->nodes[first].at.line);
  problem_add(
      w->problems,
      (struct problem){.at = {w->file, key->line}, .where = w->where, .said = text_end(&said), .right = "it once"});
}

static int add_value(struct lua_walk *w, int parent, const struct key *key) {
  if (!key->known) return PLACES_NONE;
  const struct token *token = here(w);
  int node = places_add(w->places, (struct place_node){.parent = parent,
                                                       .name = key->name,
                                                       .length = key->length,
                                                       .index = key->name ? 0 : key->index,
                                                       .hidden = w->blocks > 0,
                                                       .at = {token->line, token->from, token->to}});
  tell_twice(w, key, node);
  return node;
}

static void read_table(struct lua_walk *w, int node);

static bool at_shape(const struct lua_walk *w) {
  const struct token *token = here(w);
  size_t brace = w->at + (is_mark(w, w->at + 1, '(') ? 2 : 1);
  return token->sort == TOKEN_NAME && is_mark(w, brace, '{') &&
         places_shape(w->tokens.bytes + token->from, token->to - token->from) != WORD_COUNT;
}

static void tell_too_deep(struct lua_walk *w) {
  if (w->problems->count >= MOST_PROBLEMS) return;
  problem_add(w->problems, (struct problem){.at = {w->file, here(w)->line},
                                            .where = w->where,
                                            .said = "tables stand in each other more than 200 deep"});
}

static void read_value(struct lua_walk *w, int parent, const struct key *key) {
  int node = add_value(w, parent, key);
  if (at_shape(w)) w->at += is_mark(w, w->at + 1, '(') ? 2 : 1;
  if (is_mark(w, w->at, '{') && node != PLACES_NONE) {
    if (w->depth >= DEEPEST) tell_too_deep(w);
    if (w->depth < DEEPEST) read_table(w, node);
    if (is_mark(w, w->at, ')')) w->at++;  // polygon({ ... })
  }
  skip_expression(w);
  if (node != PLACES_NONE && w->at > 0) w->places->nodes[node].at.to = token_at(w, w->at - 1)->to;
}

static int whole_number(const struct lua_walk *w, const struct token *token) {
  int value = 0;
  for (uint32_t i = token->from; i < token->to; i++) {
    char c = w->tokens.bytes[i];
    if (c < '0' || c > '9' || value > 100000000) return 0;
    value = value * 10 + (c - '0');
  }
  return value;
}

// `["depth"] =`, `[2] =`, or an expression that nobody can follow.
static struct key bracket_key(struct lua_walk *w) {
  const struct token *token = token_at(w, w->at + 1);
  struct key key = {.line = here(w)->line};
  bool plain = is_mark(w, w->at + 2, ']');
  if (plain && token->sort == TOKEN_TEXT) {
    key.known = true;
    key.name = lua_token_text(w->places->arena, w->tokens.bytes, token, &key.length);
  } else if (plain && token->sort == TOKEN_NUMBER) {
    key.index = whole_number(w, token);
    key.known = key.index > 0;
  }
  w->at++;
  skip_expression(w);
  if (is_mark(w, w->at, ']')) w->at++;
  if (is_mark(w, w->at, '=')) w->at++;
  return key;
}

static void read_field(struct lua_walk *w, int node, int *index) {
  const struct token *token = here(w);
  struct key key = {.known = true, .line = token->line};
  if (token->sort == TOKEN_NAME && is_mark(w, w->at + 1, '=')) {
    key.name = w->tokens.bytes + token->from;
    key.length = token->to - token->from;
    w->at += 2;
  } else if (is_mark(w, w->at, '[')) {
    key = bracket_key(w);
  } else {
    key.index = ++*index;
  }
  read_value(w, node, &key);
}

static void read_table(struct lua_walk *w, int node) {
  int index = 0;
  w->depth++;
  w->at++;  // {
  while (!is_end(w) && !is_mark(w, w->at, '}')) {
    size_t before = w->at;
    read_field(w, node, &index);
    if (separates(here(w)) || (w->at == before && !is_end(w))) w->at++;
    if (is_mark(w, w->at, ')') || is_mark(w, w->at, ']')) w->at++;  // no Lua: but go on
  }
  if (!is_end(w)) w->at++;  // }
  w->depth--;
}

// ---- constructors ----

struct constructor {
  int constructed;
  const char *name;
  size_t length;
  int index;     // see struct place_node
  size_t table;  // the token that opens it
};

// Past "( ... )"; 0 when it is longer than a name's expression ever is.
static size_t past_brackets(const struct lua_walk *w, size_t index) {
  int brackets = 0;
  for (size_t i = index; i < index + LONGEST_NAME_EXPRESSION && i < w->tokens.count; i++) {
    brackets += bracket_step(token_at(w, i));
    if (brackets == 0) return i + 1;
  }
  return 0;
}

static bool find_table(const struct lua_walk *w, struct constructor *c, size_t index) {
  if (index == 0) return false;
  if (is_mark(w, index, '(') && is_mark(w, index + 1, '{')) index++;
  c->table = index;
  return is_mark(w, index, '{');
}

static bool find_name(const struct lua_walk *w, struct constructor *c) {
  size_t next = w->at + 1;
  bool brackets = is_mark(w, next, '(');
  const struct token *text = token_at(w, brackets ? next + 1 : next);
  if (text->sort == TOKEN_TEXT && (!brackets || is_mark(w, next + 2, ')'))) {
    c->name = lua_token_text(w->places->arena, w->tokens.bytes, text, &c->length);
    return find_table(w, c, next + (brackets ? 3 : 1));
  }
  c->index = 1;
  return brackets && find_table(w, c, past_brackets(w, next));
}

static bool at_constructor(const struct lua_walk *w, struct constructor *c) {
  const struct token *token = here(w);
  if (token->sort != TOKEN_NAME) return false;
  if (w->at > 0 && (is_mark(w, w->at - 1, '.') || is_mark(w, w->at - 1, ':'))) return false;
  *c = (struct constructor){.constructed = places_constructed(w->tokens.bytes + token->from, token->to - token->from)};
  if (c->constructed < 0 || (c->constructed >= KIND_COUNT) != w->rules) return false;
  if (w->rules) return places_is_named(c->constructed) ? find_name(w, c) : find_table(w, c, w->at + 1);
  const struct kind_row *kind = catalogue_kind((enum kind)c->constructed);
  return !kind->part && (!kind_is_named(kind) ? find_table(w, c, w->at + 1) : find_name(w, c));
}

static const char *describe(struct lua_walk *w, const struct constructor *c) {
  struct text where = text_in(w->places->arena);
  text_add(&where, places_word(c->constructed));
  if (!c->name) return text_end(&where);
  text_add(&where, " \"");
  text_add_bytes(&where, c->name, c->length);
  text_add(&where, "\"");
  return text_end(&where);
}

static void read_constructor(struct lua_walk *w, const struct constructor *c) {
  const struct token *first = here(w), *brace = token_at(w, c->table);
  int node = places_add(w->places, (struct place_node){.parent = places_parent_of((enum kind)c->constructed),
                                                       .name = c->name,
                                                       .length = c->length,
                                                       .index = c->index,
                                                       .line_to = brace->line,
                                                       .hidden = w->blocks > 0,
                                                       .at = {first->line, first->from, 0}});
  w->where = describe(w, c);
  w->at = c->table;
  read_table(w, node);
  w->places->nodes[node].at.to = token_at(w, w->at - 1)->to;
}

static struct places *scan(struct arena *arena, const char *file, const char *bytes, size_t length,
                           struct problems *problems, bool rules) {
  struct lua_walk w = {.places = places_in(arena),
                       .problems = problems,
                       .file = file,
                       .tokens = lua_tokens(arena, bytes, length),
                       .rules = rules};
  while (!is_end(&w)) {
    struct constructor constructor;
    if (at_constructor(&w, &constructor)) {
      read_constructor(&w, &constructor);
      continue;
    }
    w.blocks += block_step(&w);
    if (w.blocks < 0) w.blocks = 0;
    w.at++;
  }
  return w.places;
}

struct places *places_of_lua(struct arena *arena, const char *file, const char *bytes, size_t length,
                             struct problems *problems) {
  return scan(arena, file, bytes, length, problems, false);
}

struct places *places_of_rules(struct arena *arena, const char *file, const char *bytes, size_t length,
                               struct problems *problems) {
  return scan(arena, file, bytes, length, problems, true);
}
