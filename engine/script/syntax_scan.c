// SPDX-License-Identifier: MIT
#include "script/syntax_scan.h"

#include <string.h>

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

static bool is_name_start(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }

static bool is_name_part(char c) { return is_name_start(c) || is_digit(c); }

static bool is_beyond_ascii(char c) { return (unsigned char)c >= 0x80; }

static bool begins(const struct token_scan *scan, const char *words) {
  size_t length = strlen(words);
  return (size_t)(scan->end - scan->at) >= length && memcmp(scan->at, words, length) == 0;
}

static void step(struct token_scan *scan) {
  if (*scan->at == '\n') scan->line++;
  scan->at++;
}

// [[ or [==[ at the place: the number of = signs, else -1.
static int long_level(const struct token_scan *scan) {
  const char *at = scan->at;
  if (at >= scan->end || *at++ != '[') return -1;
  int level = 0;
  while (at < scan->end && *at == '=') at++, level++;
  return at < scan->end && *at == '[' ? level : -1;
}

static bool closes(const struct token_scan *scan, int level) {
  const char *at = scan->at;
  if (scan->end - at < level + 2 || *at++ != ']') return false;
  for (; level; level--)
    if (*at++ != '=') return false;
  return *at == ']';
}

static void skip_long(struct token_scan *scan, int level) {
  for (int i = 0; i < level + 2; i++) scan->at++;
  while (scan->at < scan->end && !closes(scan, level)) step(scan);
  for (int i = 0; i < level + 2 && scan->at < scan->end; i++) scan->at++;
}

static void skip_remark(struct token_scan *scan) {
  scan->at += 2;
  int level = long_level(scan);
  if (level >= 0)
    skip_long(scan, level);
  else
    while (scan->at < scan->end && *scan->at != '\n') scan->at++;
}

static void skip_blank(struct token_scan *scan) {
  while (scan->at < scan->end) {
    if (begins(scan, "--"))
      skip_remark(scan);
    else if (strchr(" \t\r\n\f\v", *scan->at) && *scan->at)
      step(scan);
    else
      return;
  }
}

static void skip_quoted(struct token_scan *scan) {
  char quote = *scan->at++;
  while (scan->at < scan->end && *scan->at != '\n') {
    char c = *scan->at;
    if (c == '\\' && scan->at + 1 < scan->end)
      step(scan);
    else if (c == quote) {
      scan->at++;
      return;
    }
    step(scan);
  }
}

static void skip_symbol(struct token_scan *scan) {
  static const char *const symbols[] = {"...", "..", "==", "~=", "!=", "<=", ">=", "//",
                                        "::",  "<<", ">>", "&&", "||", "/*", "*/"};
  for (size_t i = 0; i < sizeof symbols / sizeof *symbols; i++)
    if (begins(scan, symbols[i])) {
      scan->at += strlen(symbols[i]);
      return;
    }
  scan->at++;
}

static void skip_foreign(struct token_scan *scan) {
  scan->at++;
  while (scan->at < scan->end && ((unsigned char)*scan->at & 0xC0) == 0x80) scan->at++;
}

static void skip_name(struct token_scan *scan) {
  while (scan->at < scan->end && is_name_part(*scan->at)) scan->at++;
}

static void skip_number(struct token_scan *scan) {
  while (scan->at < scan->end && (is_name_part(*scan->at) || *scan->at == '.')) scan->at++;
}

static enum token_kind skip_token(struct token_scan *scan) {
  char c = *scan->at;
  int level = long_level(scan);
  bool dotted = c == '.' && scan->at + 1 < scan->end && is_digit(scan->at[1]);
  if (level >= 0) return skip_long(scan, level), TOKEN_TEXT;
  if (c == '"' || c == '\'') return skip_quoted(scan), TOKEN_TEXT;
  if (is_name_start(c)) return skip_name(scan), TOKEN_NAME;
  if (is_digit(c) || dotted) return skip_number(scan), TOKEN_NUMBER;
  if (is_beyond_ascii(c)) return skip_foreign(scan), TOKEN_FOREIGN;
  return skip_symbol(scan), TOKEN_SYMBOL;
}

struct token_scan token_scan_of(const char *bytes, size_t length) {
  return (struct token_scan){bytes, bytes + length, 1};
}

struct syntax_token token_next(struct token_scan *scan) {
  skip_blank(scan);
  struct syntax_token token = {.at = scan->at, .line = scan->line, .end_line = scan->line};
  if (scan->at >= scan->end) return token;
  token.kind = skip_token(scan);
  token.length = (size_t)(scan->at - token.at);
  token.end_line = scan->line;
  return token;
}

bool token_is(const struct syntax_token *token, const char *words) {
  return token->length == strlen(words) && token->length && memcmp(token->at, words, token->length) == 0;
}

bool token_is_keyword(const struct syntax_token *token) {
  static const char *const keywords[] = {"and",      "break",  "do",   "else", "elseif", "end",  "false", "for",
                                         "function", "goto",   "if",   "in",   "local",  "nil",  "not",   "or",
                                         "repeat",   "return", "then", "true", "until",  "while"};
  for (size_t i = 0; i < sizeof keywords / sizeof *keywords; i++)
    if (token_is(token, keywords[i])) return true;
  return false;
}
