// SPDX-License-Identifier: MIT
// The tokens of a Lua text, right or not: enough to tell which slip stands at a place.
#ifndef FOREBAY_SCRIPT_SYNTAX_SCAN_H
#define FOREBAY_SCRIPT_SYNTAX_SCAN_H

#include <stdbool.h>
#include <stddef.h>

enum token_kind {
  TOKEN_END,      // no bytes
  TOKEN_NAME,     // keywords too
  TOKEN_NUMBER,   // with letters that stick to it: 30in
  TOKEN_TEXT,     // with its quotes or brackets, closed or not
  TOKEN_FOREIGN,  // one character beyond ASCII
  TOKEN_SYMBOL    // != && || too, which Lua does not know
};

struct syntax_token {
  enum token_kind kind;
  const char *at;
  size_t length;
  int line, end_line;
};

struct token_scan {
  const char *at, *end;
  int line;
};

struct token_scan token_scan_of(const char *bytes, size_t length);
struct syntax_token token_next(struct token_scan *scan);
bool token_is(const struct syntax_token *token, const char *words);
bool token_is_keyword(const struct syntax_token *token);

#endif
