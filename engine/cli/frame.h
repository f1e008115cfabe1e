// SPDX-License-Identifier: MIT
// What the sealed child says to its parent: typed frames over a pipe. The parent believes nothing of it: every length,
// order and total is checked, and a stream that is not whole to its end counts for nothing.
//
// A frame: one byte of type, the payload's length in four bytes (low byte first), the payload (at most FRAME_MOST
// bytes). A stream: any number of RESULT and DIAGNOSTIC frames, one STATUS, one END, and nothing after it.
#ifndef FOREBAY_CLI_FRAME_H
#define FOREBAY_CLI_FRAME_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/text.h"

enum {
  FRAME_RESULT = 'R',
  FRAME_DIAGNOSTIC = 'D',
  FRAME_STATUS = 'S',  // one byte, 0 to 3
  FRAME_END = 'E',     // eight bytes: how many bytes of result and of diagnostics there were
};
enum { FRAME_MOST = 1 << 16, FRAME_HEAD = 5 };

// Writes all bytes, over partial writes and interruptions. False: errno says why. The caller has SIGPIPE ignored.
bool frame_write_all(int to, const char *bytes, size_t length);

struct frame_writer {
  int to;
  bool failed;  // sticky: nothing more is written after a failure
  size_t results, diagnostics;
};

void frame_write(struct frame_writer *writer, char type, const char *bytes,
                 size_t length);                          // in pieces where it is long
void frame_end(struct frame_writer *writer, int status);  // STATUS and END

enum frame_state { FRAME_MORE, FRAME_WHOLE, FRAME_BAD };

struct frame_reader {
  struct text result, diagnostics;
  int status;      // -1: not said yet
  size_t ceiling;  // most bytes of result and diagnostics together
  enum frame_state state;
  const char *why;  // what is wrong with the stream; NULL: nothing
  unsigned char head[FRAME_HEAD], small[8];
  size_t have, left;  // bytes of the head that are in; bytes of the payload still to come
};

struct frame_reader frame_reader_in(struct arena *arena, size_t ceiling);
// Takes the next bytes of the stream, cut anywhere.
enum frame_state frame_feed(struct frame_reader *reader, const char *bytes, size_t length);
// The stream has ended: WHOLE or BAD.
enum frame_state frame_close(struct frame_reader *reader);

#endif
