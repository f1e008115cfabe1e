// SPDX-License-Identifier: MIT
// Results and diagnostics to where they belong: whole, or not at all.
#ifndef FOREBAY_CLI_DELIVER_H
#define FOREBAY_CLI_DELIVER_H

#include <stdbool.h>
#include <stddef.h>

#include "base/problem.h"
#include "base/text.h"

// Writes a result to `output`, or to standard output where that is NULL. Control characters become `?` but for line
// ends and, with `colour`, the escapes of colours. False: a problem says why, and an old file is as it was.
bool deliver(struct problems *problems, const char *output, bool colour, struct text *result);

// Lines for a person, to standard error.
void deliver_words(const char *words, size_t length);
void deliver_problems(const struct problems *problems);  // those without a file begin with "forebay: "

bool deliver_in_colour(const char *output);

#endif
