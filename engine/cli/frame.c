// SPDX-License-Identifier: MIT
#include "cli/frame.h"

#include <errno.h>
#include <stdint.h>
#include <string.h>
#include <unistd.h>

bool frame_write_all(int to, const char *bytes, size_t length) {
  while (length > 0) {
    ssize_t wrote = write(to, bytes, length);
    if (wrote < 0 && errno == EINTR) continue;
    if (wrote <= 0) return false;
    bytes += wrote;
    length -= (size_t)wrote;
  }
  return true;
}

static void put_u32(unsigned char *to, size_t value) {
  for (size_t i = 0; i < 4; i++) to[i] = (unsigned char)((value >> (8 * i)) & 0xff);
}

static size_t get_u32(const unsigned char *from) {
  size_t value = 0;
  for (size_t i = 0; i < 4; i++) value |= (size_t)from[i] << (8 * i);
  return value;
}

static void write_one(struct frame_writer *writer, char type, const char *bytes, size_t length) {
  unsigned char head[FRAME_HEAD] = {(unsigned char)type};
  put_u32(head + 1, length);
  if (writer->failed) return;
  writer->failed =
      !frame_write_all(writer->to, (const char *)head, sizeof head) || !frame_write_all(writer->to, bytes, length);
}

void frame_write(struct frame_writer *writer, char type, const char *bytes, size_t length) {
  *(type == FRAME_RESULT ? &writer->results : &writer->diagnostics) += length;
  while (length > 0) {
    size_t piece = length < FRAME_MOST ? length : FRAME_MOST;
    write_one(writer, type, bytes, piece);
    bytes += piece;
    length -= piece;
  }
}

void frame_end(struct frame_writer *writer, int status) {
  unsigned char totals[8];
  put_u32(totals, writer->results);
  put_u32(totals + 4, writer->diagnostics);
  write_one(writer, FRAME_STATUS, &(char){(char)status}, 1);
  write_one(writer, FRAME_END, (const char *)totals, sizeof totals);
}

struct frame_reader frame_reader_in(struct arena *arena, size_t ceiling) {
  return (struct frame_reader){
      .result = text_in(arena), .diagnostics = text_in(arena), .status = -1, .ceiling = ceiling, .state = FRAME_MORE};
}

static void bad(struct frame_reader *reader, const char *why) {
  reader->state = FRAME_BAD;
  reader->why = why;
}

static bool is_text(unsigned char type) { return type == FRAME_RESULT || type == FRAME_DIAGNOSTIC; }

static const char *text_head_fault(const struct frame_reader *reader, size_t length) {
  size_t room = reader->ceiling - reader->result.length - reader->diagnostics.length;
  if (length == 0 || length > FRAME_MOST) return "a frame of a length that is never written";
  if (reader->status >= 0) return "a text after the status";
  return length > room ? "more bytes than are accepted" : NULL;
}

// What is wrong with a frame of which the head is in; NULL: nothing.
static const char *head_fault(const struct frame_reader *reader) {
  size_t length = get_u32(reader->head + 1);
  unsigned char type = reader->head[0];
  if (is_text(type)) return text_head_fault(reader, length);
  if (type == FRAME_STATUS) {
    if (reader->status >= 0) return "a second status";
    return length == 1 ? NULL : "a status of a wrong length";
  }
  if (type != FRAME_END) return "a frame of an unknown type";
  if (reader->status < 0) return "an end without a status";
  return length == sizeof reader->small ? NULL : "an end of a wrong length";
}

static void take_status(struct frame_reader *reader) {
  if (reader->small[0] > 3) {
    bad(reader, "a status that does not exist");
    return;
  }
  reader->status = reader->small[0];
}

static void take_end(struct frame_reader *reader) {
  bool same =
      get_u32(reader->small) == reader->result.length && get_u32(reader->small + 4) == reader->diagnostics.length;
  if (!same) {
    bad(reader, "totals that do not add up");
    return;
  }
  reader->state = FRAME_WHOLE;
}

static void frame_done(struct frame_reader *reader) {
  if (reader->head[0] == FRAME_STATUS) take_status(reader);
  if (reader->head[0] == FRAME_END) take_end(reader);
  reader->have = 0;
}

static size_t take_head(struct frame_reader *reader, const char *bytes, size_t length) {
  size_t take = FRAME_HEAD - reader->have;
  if (take > length) take = length;
  memcpy(reader->head + reader->have, bytes, take);
  reader->have += take;
  if (reader->have < FRAME_HEAD) return take;
  const char *fault = head_fault(reader);
  if (fault) bad(reader, fault);
  reader->left = get_u32(reader->head + 1);
  return take;
}

static size_t take_payload(struct frame_reader *reader, const char *bytes, size_t length) {
  size_t take = reader->left < length ? reader->left : length;
  if (is_text(reader->head[0])) {
    text_add_bytes(reader->head[0] == FRAME_RESULT ? &reader->result : &reader->diagnostics, bytes, take);
  } else {
    memcpy(reader->small + get_u32(reader->head + 1) - reader->left, bytes, take);
  }
  reader->left -= take;
  if (reader->left == 0) frame_done(reader);
  return take;
}

enum frame_state frame_feed(struct frame_reader *reader, const char *bytes, size_t length) {
  while (length > 0 && reader->state == FRAME_MORE) {
    size_t took = reader->have < FRAME_HEAD ? take_head(reader, bytes, length) : take_payload(reader, bytes, length);
    bytes += took;
    length -= took;
  }
  if (length > 0 && reader->state == FRAME_WHOLE) bad(reader, "bytes after the end");
  return reader->state;
}

enum frame_state frame_close(struct frame_reader *reader) {
  if (reader->state == FRAME_MORE) bad(reader, "an early end");
  return reader->state;
}
