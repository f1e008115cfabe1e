// SPDX-License-Identifier: MIT
// A text that grows in an arena. Always NUL-ended once something was added.
#ifndef FOREBAY_BASE_TEXT_H
#define FOREBAY_BASE_TEXT_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"

struct text {
  struct arena *arena;
  char *at;
  size_t length, room;
};

struct text text_in(struct arena *arena);
const char *text_end(struct text *text);  // the NUL-ended bytes; "" when nothing was added

void text_add(struct text *text, const char *words);
void text_add_bytes(struct text *text, const char *bytes, size_t length);
void text_add_char(struct text *text, char c);
void text_add_many(struct text *text, char c, size_t count);
void text_add_code_point(struct text *text, unsigned code);  // in UTF-8; beyond 0x10FFFF bytes that are none
// printf without floating point: %f, %g and %e follow the locale, so numbers go through base/number.
void text_printf(struct text *text, const char *format, ...) __attribute__((format(printf, 2, 3)));
void text_vprintf(struct text *text, const char *format, va_list parts) __attribute__((format(printf, 2, 0)));

const char *text_phrase(struct arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));

size_t text_columns(const char *bytes, size_t length);  // UTF-8 counted by code point

// Lines of at most width columns (UTF-8 counted by code point), each after the first begun with indent spaces.
void text_wrap(struct text *text, const char *words, size_t indent, size_t width);

// The nearest of words[0..count-1] to what was written, for "did you mean"; NULL when none is near.
const char *text_nearest(const char *written, const char *const *words, size_t count);

bool text_is_utf8(const char *bytes, size_t length);
// Where to cut so that at most `most` bytes are kept and no character is parted; length when all of it fits.
size_t text_cut(const char *bytes, size_t length, size_t most);
// How many bytes the control character takes that begins here: 1, or 2 for U+0080 to U+009F, which drive a terminal as
// well; 0: none does.
size_t text_control(const char *bytes, size_t length);

#endif
