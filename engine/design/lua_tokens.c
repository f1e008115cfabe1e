// SPDX-License-Identifier: MIT
#include "design/lua_tokens.h"

#include <string.h>

#include "base/text.h"

struct lua_scan {
  const char *bytes;
  size_t at, length;
  int line;
};

static bool is_digit(char c) { return c >= '0' && c <= '9'; }
static bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }

static char here(const struct lua_scan *s) { return s->at < s->length ? s->bytes[s->at] : '\0'; }
static char ahead(const struct lua_scan *s, size_t by) { return s->at + by < s->length ? s->bytes[s->at + by] : '\0'; }

// One byte on; "\r\n" and "\n\r" are one line's end, as Lua counts.
static void step(struct lua_scan *s) {
  char c = s->bytes[s->at++];
  if (c != '\n' && c != '\r') return;
  char next = here(s);
  if (s->at < s->length && next != c && (next == '\n' || next == '\r')) s->at++;
  s->line++;
}

// How many "=" stand between the two brackets of a long text that opens here; -1: none opens.
static int long_level(const struct lua_scan *s) {
  if (here(s) != '[') return -1;
  size_t by = 1;
  while (ahead(s, by) == '=') by++;
  return ahead(s, by) == '[' ? (int)by - 1 : -1;
}

static bool closes_long(const struct lua_scan *s, int level) {
  if (here(s) != ']') return false;
  for (int i = 1; i <= level; i++)
    if (ahead(s, (size_t)i) != '=') return false;
  return ahead(s, (size_t)level + 1) == ']';
}

static void skip_long(struct lua_scan *s, int level) {
  s->at += (size_t)level + 2;
  while (s->at < s->length && !closes_long(s, level)) step(s);
  if (s->at < s->length) s->at += (size_t)level + 2;
}

static void skip_comment(struct lua_scan *s) {
  s->at += 2;
  int level = long_level(s);
  if (level >= 0) {
    skip_long(s, level);
    return;
  }
  while (s->at < s->length && here(s) != '\n' && here(s) != '\r') s->at++;
}

static void skip_blank(struct lua_scan *s) {
  while (s->at < s->length) {
    char c = here(s);
    if (c == '-' && ahead(s, 1) == '-') {
      skip_comment(s);
    } else if (c == ' ' || (c >= '\t' && c <= '\r')) {
      step(s);
    } else {
      return;
    }
  }
}

// An unfinished one ends with its line.
static void skip_quoted(struct lua_scan *s) {
  char quote = here(s);
  s->at++;
  while (s->at < s->length && here(s) != '\n' && here(s) != '\r') {
    char c = here(s);
    s->at++;
    if (c == quote) return;
    if (c != '\\' || s->at >= s->length) continue;
    bool gap = here(s) == 'z';
    step(s);
    while (gap && s->at < s->length && (here(s) == ' ' || (here(s) >= '\t' && here(s) <= '\r'))) step(s);
  }
}

static void skip_number(struct lua_scan *s) {
  bool hex = here(s) == '0' && (ahead(s, 1) | 0x20) == 'x';
  while (s->at < s->length) {
    char c = here(s), lower = (char)(c | 0x20);
    s->at++;
    if (lower == (hex ? 'p' : 'e') && (here(s) == '+' || here(s) == '-')) s->at++;
    if (!is_digit(here(s)) && !is_letter(here(s)) && here(s) != '.') return;
  }
}

static bool is_one_of(char c, const char *these) { return c && strchr(these, c); }

static void take_mark(struct lua_scan *s, struct token *token) {
  char c = here(s), next = ahead(s, 1);
  token->mark = c;
  s->at++;
  bool pair = (next == '=' && is_one_of(c, "=~<>")) || (next == c && is_one_of(c, "./:<>"));
  if (!pair) return;
  token->mark = '?';
  s->at++;
  if (c == '.' && here(s) == '.') s->at++;
}

static struct token next_token(struct lua_scan *s) {
  skip_blank(s);
  struct token token = {.line = s->line, .from = (uint32_t)s->at};
  char c = here(s);
  if (s->at >= s->length) {
    token.sort = TOKEN_END;
  } else if (is_letter(c)) {
    token.sort = TOKEN_NAME;
    while (is_letter(here(s)) || is_digit(here(s))) s->at++;
  } else if (is_digit(c) || (c == '.' && is_digit(ahead(s, 1)))) {
    token.sort = TOKEN_NUMBER;
    skip_number(s);
  } else if (c == '"' || c == '\'') {
    token.sort = TOKEN_TEXT;
    skip_quoted(s);
  } else if (long_level(s) >= 0) {
    token.sort = TOKEN_TEXT;
    skip_long(s, long_level(s));
  } else {
    token.sort = TOKEN_MARK;
    take_mark(s, &token);
  }
  if (s->at > s->length) s->at = s->length;
  token.to = (uint32_t)s->at;
  return token;
}

static struct lua_scan scan_of(const char *bytes, size_t length) {
  bool marked = length >= 3 && memcmp(bytes, "\xEF\xBB\xBF", 3) == 0;
  return (struct lua_scan){bytes, marked ? 3 : 0, length, 1};
}

struct tokens lua_tokens(struct arena *arena, const char *bytes, size_t length) {
  struct tokens tokens = {.bytes = bytes};
  struct lua_scan scan = scan_of(bytes, length);
  for (size_t room = 0;; tokens.count++) {
    tokens.list = arena_grow(arena, tokens.list, tokens.count, &room, sizeof *tokens.list);
    tokens.list[tokens.count] = next_token(&scan);
    if (tokens.list[tokens.count].sort == TOKEN_END) return tokens;
  }
}

// ---- what a text stands for ----

static unsigned digit_of(char c) {
  if (is_digit(c)) return (unsigned)(c - '0');
  char lower = (char)(c | 0x20);
  return lower >= 'a' && lower <= 'f' ? (unsigned)(lower - 'a' + 10) : 16;
}

static unsigned number_at(struct lua_scan *s, unsigned base, int most) {
  unsigned value = 0;
  for (int i = 0; i < most && s->at < s->length && digit_of(here(s)) < base && value < 0x8000000u / base; i++, s->at++)
    value = value * base + digit_of(here(s));
  return value;
}

static void add_escape(struct text *text, struct lua_scan *s) {
  static const char letters[] = "abfnrtv", meant[] = "\a\b\f\n\r\t\v";
  char c = here(s);
  const char *letter = c ? strchr(letters, c) : NULL;
  if (is_digit(c)) {
    text_add_char(text, (char)number_at(s, 10, 3));
    return;
  }
  step(s);
  if (letter) {
    text_add_char(text, meant[letter - letters]);
  } else if (c == 'x') {
    text_add_char(text, (char)number_at(s, 16, 2));
  } else if (c == 'u') {
    if (here(s) == '{') s->at++;
    text_add_code_point(text, number_at(s, 16, 6));
    if (here(s) == '}') s->at++;
  } else if (c == 'z') {
    while (s->at < s->length && (here(s) == ' ' || (here(s) >= '\t' && here(s) <= '\r'))) step(s);
  } else {
    text_add_char(text, c == '\r' ? '\n' : c);
  }
}

static const char *unescaped(struct arena *arena, const char *bytes, size_t length, size_t *short_length) {
  struct text text = text_in(arena);
  struct lua_scan scan = {bytes, 0, length, 1};
  while (scan.at < length) {
    char c = here(&scan);
    scan.at++;
    if (c == '\\' && scan.at < length) {
      add_escape(&text, &scan);
    } else {
      text_add_char(&text, c);
    }
  }
  *short_length = text.length;
  return text_end(&text);
}

const char *lua_token_text(struct arena *arena, const char *bytes, const struct token *token, size_t *length) {
  struct lua_scan scan = {bytes, token->from, token->to, 1};
  int level = long_level(&scan);
  size_t quotes = level >= 0 ? (size_t)level + 2 : 1;
  size_t from = token->from + quotes, to = token->to > from + quotes ? token->to - quotes : from;
  if (level >= 0) {
    scan = (struct lua_scan){bytes, from, to, 1};
    if (from < to && (bytes[from] == '\n' || bytes[from] == '\r')) step(&scan);
    from = scan.at < to ? scan.at : to;
  }
  *length = to - from;
  if (level >= 0 || !memchr(bytes + from, '\\', to - from)) return bytes + from;
  return unescaped(arena, bytes + from, to - from, length);
}
