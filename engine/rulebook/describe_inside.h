// SPDX-License-Identifier: MIT
// What the files that describe rules share.
#ifndef FOREBAY_RULEBOOK_DESCRIBE_INSIDE_H
#define FOREBAY_RULEBOOK_DESCRIBE_INSIDE_H

#include "rulebook/rule.h"

enum { WIDTH = 80, LABEL_WIDTH = 12 };

void describe_pad(struct text *text, size_t from, size_t width);
void describe_end_line(struct text *text);
void describe_labelled(struct text *text, const char *label, const char *words);  // nothing where there are no words

// describe_firm.c: what layers retired, changed and disagree on, and the stock; each only where there is some.
void list_firm(const struct rulebook *book, struct text *text);
void describe_decisions(const struct rulebook *book, struct text *text, const char *id);

#endif
