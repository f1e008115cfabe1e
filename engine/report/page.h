// SPDX-License-Identifier: MIT
// A page of plain text: wrapped lines, headings, paint. Used by the text report and by explain.
#ifndef FOREBAY_REPORT_PAGE_H
#define FOREBAY_REPORT_PAGE_H

#include "base/text.h"

enum paint { PAINT_PLAIN, PAINT_BOLD, PAINT_HOLD, PAINT_REVISE, PAINT_ADVISE };

struct stroke {  // paint from one byte of the text to another
  size_t from, to;
  enum paint paint;
};

struct page {
  struct text text;
  size_t width;
  struct stroke *strokes;
  size_t stroke_count, stroke_room;
};

struct page page_in(struct arena *arena, size_t width);

void page_blank(struct page *page);
void page_heading(struct page *page, const char *words);  // after a blank line, bold
// A paragraph: its first line begins with indent spaces, the others with indent + hang.
void page_wrap(struct page *page, size_t indent, size_t hang, const char *words);
// The same behind a painted label: "HOLD 2  words"; the others begin with indent + hang.
void page_labelled(struct page *page, size_t indent, size_t hang, enum paint paint, const char *label,
                   const char *words);

// The same, with lines broken behind a semicolon or a full stop where that keeps them within the width.
void page_clauses(struct page *page, size_t hang, enum paint paint, const char *label, const char *words);

// The finished bytes: control characters shown as "?", paint as ANSI colours when asked.
void page_finish(const struct page *page, bool colour, struct text *to);

#endif
