// SPDX-License-Identifier: MIT
// The tokens of a Lua text with their lines and bytes. Takes any bytes: what is no Lua ends in odd tokens, never worse.
#ifndef FOREBAY_DESIGN_LUA_TOKENS_H
#define FOREBAY_DESIGN_LUA_TOKENS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"

enum token_sort { TOKEN_END, TOKEN_NAME, TOKEN_TEXT, TOKEN_NUMBER, TOKEN_MARK };

struct token {
  enum token_sort sort;
  char mark;  // marks: its one character; '?' for those of more than one ("==", "..")
  int line;   // where it begins
  uint32_t from, to;
};

struct tokens {
  const char *bytes;
  struct token *list;  // ends with a TOKEN_END
  size_t count;        // without that
};

struct tokens lua_tokens(struct arena *arena, const char *bytes, size_t length);

// What a TOKEN_TEXT stands for: quotes off, escapes done. A view of the file's bytes where nothing had to be done.
const char *lua_token_text(struct arena *arena, const char *bytes, const struct token *token, size_t *length);

#endif
