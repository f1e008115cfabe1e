// SPDX-License-Identifier: MIT
#include "cli/deliver.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/file.h"
#include "cli/frame.h"

// Bytes of a colour escape (ESC [ digits and semicolons m) that starts here; 0: none does.
static size_t colour_escape(const char *at, size_t left) {
  if (left < 3 || at[0] != '\033' || at[1] != '[') return 0;
  size_t length = 2;
  while (length < left && (at[length] == ';' || (at[length] >= '0' && at[length] <= '9'))) length++;
  return length < left && at[length] == 'm' ? length + 1 : 0;
}

static void tame(char *bytes, size_t length, bool colour) {
  for (size_t i = 0; i < length;) {
    size_t escape = colour ? colour_escape(bytes + i, length - i) : 0;
    size_t control = escape > 0 ? 0 : text_control(bytes + i, length - i);
    if (control > 0 && bytes[i] != '\n' && bytes[i] != '\t') memset(bytes + i, '?', control);
    i += escape > 0 ? escape : control > 0 ? control : 1;
  }
}

static bool to_standard_output(struct problems *problems, const struct text *result) {
  if (frame_write_all(STDOUT_FILENO, result->at, result->length)) return true;
  problem_add(problems, (struct problem){.said = "standard output cannot be written", .cause = strerror(errno)});
  return false;
}

bool deliver(struct problems *problems, const char *output, bool colour, struct text *result) {
  if (result->length == 0) return true;
  tame(result->at, result->length, colour);
  return output ? file_write(problems, output, result->at, result->length) : to_standard_output(problems, result);
}

void deliver_words(const char *words, size_t length) {
  while (length > 0) {
    const char *end = memchr(words, '\n', length);
    size_t line = end ? (size_t)(end - words) : length;
    char piece[512];
    // Pieces end between characters: half of a control character is none, and two halves are one again.
    for (size_t at = 0, some; at < line; at += some) {
      some = text_cut(words + at, line - at, sizeof piece);
      memcpy(piece, words + at, some);
      tame(piece, some, false);
      frame_write_all(STDERR_FILENO, piece, some);
    }
    frame_write_all(STDERR_FILENO, "\n", 1);
    length -= line + (end != NULL);
    words += line + (end != NULL);
  }
}

void deliver_problems(const struct problems *problems) {
  for (size_t i = 0; i < problems->count; i++) {
    struct text line = text_in(problems->arena);
    if (!problems->list[i].at.file) text_add(&line, "forebay: ");
    problem_write(&line, &problems->list[i]);
    deliver_words(line.at, line.length);
  }
}

bool deliver_in_colour(const char *output) {
  const char *no_colour = getenv("NO_COLOR"), *terminal = getenv("TERM");
  if (output || (no_colour && *no_colour)) return false;
  return isatty(STDOUT_FILENO) == 1 && terminal && strcmp(terminal, "dumb") != 0;
}
