// SPDX-License-Identifier: MIT
// What the files of wording share and nobody else includes.
#ifndef FOREBAY_REPORT_WORDING_INSIDE_H
#define FOREBAY_REPORT_WORDING_INSIDE_H

#include "report/wording.h"
#include "units/write.h"

struct write_style word_style(const struct wording *wording, enum row_id row);
// A number of any dimension, DIMENSION_COUNT too, shown as values of the row are; without bound it reads as its word.
void word_size(struct text *text, const struct wording *wording, enum row_id row, enum dimension dimension,
               double value);
void word_measured(struct text *text, const struct wording *wording, int entity, enum row_id row);

#endif
