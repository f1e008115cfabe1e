// SPDX-License-Identifier: MIT
// What was tried without being written in the design, for the heads of reports.
#ifndef FOREBAY_REPORT_TRIED_H
#define FOREBAY_REPORT_TRIED_H

#include "report/page.h"
#include "report/wording.h"

// `TRIED: pump "main".speed = 80 % (is 100 %, a default)`, a line for each; nothing where nothing was tried.
void tried_write(struct page *page, const struct wording *wording);

// The i-th of store.overlaid as words: `pump "main".speed = 80 % (is 100 %, a default)`.
void tried_words(struct text *text, const struct wording *wording, size_t i);
// Whether the i-th of store.overlaid is a trial, and not a firm's figure.
bool tried_is(const struct store *design, size_t overlaid);

#endif
