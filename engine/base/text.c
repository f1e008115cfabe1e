// SPDX-License-Identifier: MIT
#include "base/text.h"

#include <stdint.h>
#include <stdio.h>
#include <string.h>

struct text text_in(struct arena *arena) {
  return (struct text){.arena = arena};
}

const char *text_end(struct text *text) { return text->at ? text->at : ""; }

// Room for `more` bytes and the closing NUL; returns where they go.
static char *reserve(struct text *text, size_t more) {
  if (more >= SIZE_MAX / 4 - text->length) arena_give_up(text->arena);
  size_t needed = text->length + more + 1;
  if (needed > text->room) {
    size_t room = text->room ? text->room : 64;
    while (room < needed) room *= 2;
    char *grown = arena_alloc(text->arena, room);
    if (text->length) memcpy(grown, text->at, text->length);
    text->at = grown;
    text->room = room;
  }
  return text->at + text->length;
}

static void take(struct text *text, size_t added) {
  text->length += added;
  text->at[text->length] = '\0';
}

void text_add_bytes(struct text *text, const char *bytes, size_t length) {
  char *to = reserve(text, length);
  if (length) memmove(to, bytes, length);
  take(text, length);
}

void text_add(struct text *text, const char *words) { text_add_bytes(text, words, strlen(words)); }

void text_add_char(struct text *text, char c) { text_add_bytes(text, &c, 1); }

void text_add_many(struct text *text, char c, size_t count) {
  memset(reserve(text, count), c, count);
  take(text, count);
}

void text_add_code_point(struct text *text, unsigned code) {
  static const unsigned lead[] = {0, 0xC0, 0xE0, 0xF0};
  int more = code < 0x80 ? 0 : code < 0x800 ? 1 : code < 0x10000 ? 2 : 3;
  text_add_char(text, (char)(lead[more] | code >> (6 * more)));
  while (more-- > 0) text_add_char(text, (char)(0x80 | (code >> (6 * more) & 0x3F)));
}

void text_vprintf(struct text *text, const char *format, va_list parts) {
  va_list again;
  va_copy(again, parts);
  int length = vsnprintf(NULL, 0, format, again);
  va_end(again);
  if (length <= 0) return;
  vsnprintf(reserve(text, (size_t)length), (size_t)length + 1, format, parts);
  take(text, (size_t)length);
}

void text_printf(struct text *text, const char *format, ...) {
  va_list parts;
  va_start(parts, format);
  text_vprintf(text, format, parts);
  va_end(parts);
}

const char *text_phrase(struct arena *arena, const char *format, ...) {
  struct text text = text_in(arena);
  va_list parts;
  va_start(parts, format);
  text_vprintf(&text, format, parts);
  va_end(parts);
  return text_end(&text);
}

static bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

// In UTF-8 no character begins with such a byte.
static bool is_inside_character(char c) { return ((unsigned char)c & 0xC0) == 0x80; }

size_t text_columns(const char *bytes, size_t length) {
  size_t count = 0;
  for (size_t i = 0; i < length; i++) count += !is_inside_character(bytes[i]);
  return count;
}

static size_t columns_of_last_line(const struct text *text) {
  size_t start = text->length;
  while (start > 0 && text->at[start - 1] != '\n') start--;
  return text->at ? text_columns(text->at + start, text->length - start) : 0;
}

void text_wrap(struct text *text, const char *words, size_t indent, size_t width) {
  size_t column = columns_of_last_line(text);
  bool first_on_line = true;
  while (true) {
    while (is_space(*words)) words++;
    if (!*words) return;
    size_t length = 0;
    while (words[length] && !is_space(words[length])) length++;
    size_t wide = text_columns(words, length);
    if (!first_on_line && column + 1 + wide > width) {
      text_add_char(text, '\n');
      text_add_many(text, ' ', indent);
      column = indent;
      first_on_line = true;
    }
    if (!first_on_line) text_add_char(text, ' ');
    text_add_bytes(text, words, length);
    column += wide + !first_on_line;
    first_on_line = false;
    words += length;
  }
}

enum { LONGEST_WORD = 63 };

static char lower(char c) { return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c; }

static unsigned least(unsigned a, unsigned b) { return a < b ? a : b; }

// Optimal string alignment: letters put in, left out, changed or swapped with their neighbour; case does not count.
static unsigned distance(const char *a, size_t a_length, const char *b, size_t b_length) {
  unsigned rows[3][LONGEST_WORD + 1];
  unsigned *before = rows[0], *last = rows[1], *now = rows[2];
  for (unsigned j = 0; j <= b_length; j++) last[j] = before[j] = j;
  for (size_t i = 1; i <= a_length; i++) {
    now[0] = (unsigned)i;
    for (size_t j = 1; j <= b_length; j++) {
      unsigned changed = last[j - 1] + (lower(a[i - 1]) != lower(b[j - 1]));
      now[j] = least(changed, least(last[j], now[j - 1]) + 1);
      bool swapped = i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2]) && lower(a[i - 2]) == lower(b[j - 1]);
      if (swapped) now[j] = least(now[j], before[j - 2] + 1);
    }
    unsigned *free_row = before;
    before = last;
    last = now;
    now = free_row;
  }
  return last[b_length];
}

// "shelf" for "shelves": the shortest word that shares its first letters, all but one of what was written.
static const char *begins_alike(const char *written, size_t length, const char *const *words, size_t count) {
  const char *found = NULL;
  for (size_t i = 0; length >= 4 && i < count; i++) {
    if (strncmp(written, words[i], length - 1) != 0) continue;
    if (!found || strlen(words[i]) < strlen(found)) found = words[i];
  }
  return found;
}

const char *text_nearest(const char *written, const char *const *words, size_t count) {
  size_t length = strlen(written);
  if (length > LONGEST_WORD) return NULL;
  // One slip in three letters is a slip; more is another word.
  unsigned nearest = (unsigned)(length + 1) / 3 + 1;
  const char *found = NULL;
  for (size_t i = 0; i < count; i++) {
    size_t word_length = strlen(words[i]);
    if (word_length > LONGEST_WORD) continue;
    unsigned far = distance(written, length, words[i], word_length);
    if (far >= nearest || (far > 0 && far >= least((unsigned)length, (unsigned)word_length))) continue;
    nearest = far;
    found = words[i];
  }
  return found ? found : begins_alike(written, length, words, count);
}

// Length of the character that starts here, 0 when it is not well-formed (Unicode 15, table 3-7).
static size_t utf8_step(const unsigned char *at, size_t left) {
  static const struct {
    unsigned char first, last, second_least, second_most, length;
  } forms[] = {
      {0x00, 0x7F, 0x00, 0x00, 1}, {0xC2, 0xDF, 0x80, 0xBF, 2}, {0xE0, 0xE0, 0xA0, 0xBF, 3},
      {0xE1, 0xEC, 0x80, 0xBF, 3}, {0xED, 0xED, 0x80, 0x9F, 3}, {0xEE, 0xEF, 0x80, 0xBF, 3},
      {0xF0, 0xF0, 0x90, 0xBF, 4}, {0xF1, 0xF3, 0x80, 0xBF, 4}, {0xF4, 0xF4, 0x80, 0x8F, 4},
  };
  for (size_t i = 0; i < sizeof forms / sizeof *forms; i++) {
    if (at[0] < forms[i].first || at[0] > forms[i].last) continue;
    if (forms[i].length > left) return 0;
    if (forms[i].length > 1 && (at[1] < forms[i].second_least || at[1] > forms[i].second_most)) return 0;
    for (size_t k = 2; k < forms[i].length; k++) {
      if (!is_inside_character((char)at[k])) return 0;
    }
    return forms[i].length;
  }
  return 0;
}

bool text_is_utf8(const char *bytes, size_t length) {
  size_t at = 0;
  while (at < length) {
    if ((unsigned char)bytes[at] < 0x80) {  // most files are nothing else
      at++;
      continue;
    }
    size_t step = utf8_step((const unsigned char *)bytes + at, length - at);
    if (step == 0) return false;
    at += step;
  }
  return true;
}

// A character has three bytes behind its first at most; where more follow one another, this is no UTF-8.
size_t text_cut(const char *bytes, size_t length, size_t most) {
  if (length <= most) return length;
  size_t cut = most;
  while (cut > 0 && most - cut < 3 && is_inside_character(bytes[cut])) cut--;
  return is_inside_character(bytes[cut]) ? most : cut;
}

size_t text_control(const char *bytes, size_t length) {
  if (length == 0) return 0;
  unsigned char first = (unsigned char)bytes[0], second = length > 1 ? (unsigned char)bytes[1] : 0;
  if (first == 0xC2 && second >= 0x80 && second < 0xA0) return 2;
  return first < 0x20 || first == 0x7F;
}
