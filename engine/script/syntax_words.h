// SPDX-License-Identifier: MIT
// Lua's own syntax errors in the words of someone who writes a design, for the usual slips.
#ifndef FOREBAY_SCRIPT_SYNTAX_WORDS_H
#define FOREBAY_SCRIPT_SYNTAX_WORDS_H

#include <stddef.h>

struct syntax_words {
  int line;          // where to mend it: for a missing comma the line before the one that Lua names
  const char *said;  // plain words; NULL: not one of the usual slips
  const char *right;
  char read[96];  // what stands there; "" for none
};

// bytes: the whole text; line and says: what Lua said, without its "file:line: ".
void syntax_words_find(struct syntax_words *words, const char *bytes, size_t length, int line, const char *says);

#endif
