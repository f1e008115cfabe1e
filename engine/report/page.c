// SPDX-License-Identifier: MIT
#include "report/page.h"

#include <string.h>

struct page page_in(struct arena *arena, size_t width) {
  return (struct page){.text = text_in(arena), .width = width};
}

void page_blank(struct page *page) {
  if (page->text.length) text_add_char(&page->text, '\n');
}

// Paint is kept beside the text, so that it takes no columns and a stranger's text cannot bring its own.
static void paint_from(struct page *page, size_t from, enum paint paint) {
  if (paint == PAINT_PLAIN) return;
  page->strokes =
      arena_grow(page->text.arena, page->strokes, page->stroke_count, &page->stroke_room, sizeof *page->strokes);
  page->strokes[page->stroke_count++] = (struct stroke){from, page->text.length, paint};
}

void page_labelled(struct page *page, size_t indent, size_t hang, enum paint paint, const char *label,
                   const char *words) {
  text_add_many(&page->text, ' ', indent);
  size_t from = page->text.length;
  text_add(&page->text, label);
  paint_from(page, from, paint);
  text_wrap(&page->text, words, indent + hang, page->width);
  text_add_char(&page->text, '\n');
}

void page_wrap(struct page *page, size_t indent, size_t hang, const char *words) {
  page_labelled(page, indent, hang, PAINT_PLAIN, "", words);
}

void page_heading(struct page *page, const char *words) {
  page_blank(page);
  page_labelled(page, 0, 0, PAINT_BOLD, words, "");
}

// How far the first clause reaches, its ";" or "." included; all of it when there is none.
static size_t clause_length(const char *words) {
  size_t length = 0;
  while (words[length] && !((words[length] == ';' || words[length] == '.') && words[length + 1] == ' ')) length++;
  return words[length] ? length + 1 : length;
}

static size_t columns_used(const struct text *text) {
  size_t used = 0;
  for (size_t i = text->length; i > 0 && text->at[i - 1] != '\n'; i--)
    used += ((unsigned char)text->at[i - 1] & 0xC0) != 0x80;
  return used;
}

static void add_clause(struct page *page, size_t hang, size_t gap, const char *clause) {
  size_t used = columns_used(&page->text) + gap;
  if (used > hang && used + strlen(clause) > page->width) {
    text_add_char(&page->text, '\n');
    gap = hang;
  }
  text_add_many(&page->text, ' ', gap);
  text_wrap(&page->text, clause, hang, page->width);
}

void page_clauses(struct page *page, size_t hang, enum paint paint, const char *label, const char *words) {
  size_t from = page->text.length, gap = strlen(label);
  while (gap > 0 && label[gap - 1] == ' ') gap--;
  text_wrap(&page->text, label, hang, page->width);
  paint_from(page, from, paint);
  for (gap = strlen(label) - gap; *words; gap = 1) {
    size_t length = clause_length(words);
    add_clause(page, hang, gap, arena_copy(page->text.arena, words, length));
    words += length;
    while (*words == ' ') words++;
  }
  text_add_char(&page->text, '\n');
}

static bool is_second_of_control(const char *bytes, size_t at) {
  // U+0080 to U+009F, which some terminals obey: C2 80 to C2 9F.
  unsigned char second = (unsigned char)bytes[at];
  return at > 0 && (unsigned char)bytes[at - 1] == 0xC2 && second >= 0x80 && second <= 0x9F;
}

static char visible(const char *bytes, size_t at) {
  unsigned char c = (unsigned char)bytes[at];
  if (c == '\n') return '\n';
  return c < 0x20 || c == 0x7F ? '?' : (char)c;
}

static void add_visible(struct text *to, const char *bytes, size_t from, size_t end) {
  for (size_t i = from; i < end; i++) {
    if (is_second_of_control(bytes, i)) {
      to->at[to->length - 1] = '?';
    } else {
      text_add_char(to, visible(bytes, i));
    }
  }
}

static const char *const codes[] = {
    [PAINT_PLAIN] = "",
    [PAINT_BOLD] = "\x1b[1m",
    [PAINT_HOLD] = "\x1b[1;31m",
    [PAINT_REVISE] = "\x1b[1;33m",
    [PAINT_ADVISE] = "\x1b[1;36m",
};

void page_finish(const struct page *page, bool colour, struct text *to) {
  const char *bytes = page->text.at;
  size_t at = 0;
  for (size_t i = 0; colour && i < page->stroke_count; i++) {
    const struct stroke *stroke = &page->strokes[i];
    add_visible(to, bytes, at, stroke->from);
    text_add(to, codes[stroke->paint]);
    add_visible(to, bytes, stroke->from, stroke->to);
    text_add(to, "\x1b[0m");
    at = stroke->to;
  }
  add_visible(to, bytes, at, page->text.length);
}
