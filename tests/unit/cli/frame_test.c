// SPDX-License-Identifier: MIT
#define _GNU_SOURCE
#include "cli/frame.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/time.h>
#include <sys/wait.h>
#include <unistd.h>

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

enum { CEILING = 1 << 20 };

static int start(void **state) {
  *state = arena_new();
  return *state ? 0 : -1;
}

static int end(void **state) {
  arena_free(*state);
  return 0;
}

// What a writer with these texts and status writes, as bytes.
static struct text written(struct arena *arena, const char *result, const char *diagnostics, int status) {
  FILE *file = tmpfile();
  assert_non_null(file);
  struct frame_writer writer = {.to = fileno(file)};
  frame_write(&writer, FRAME_RESULT, result, strlen(result));
  frame_write(&writer, FRAME_DIAGNOSTIC, diagnostics, strlen(diagnostics));
  frame_end(&writer, status);
  assert_int_equal(writer.failed, 0);
  struct text bytes = text_in(arena);
  char piece[4096];
  assert_int_equal(lseek(fileno(file), 0, SEEK_SET), 0);
  for (ssize_t got; (got = read(fileno(file), piece, sizeof piece)) > 0;) text_add_bytes(&bytes, piece, (size_t)got);
  fclose(file);
  return bytes;
}

static void a_stream_is_read_back_wherever_it_is_cut(void **state) {
  struct text bytes = written(*state, "the report\n", "pond.lua:3: no\n", 2);
  for (size_t cut = 0; cut <= bytes.length; cut++) {
    struct frame_reader reader = frame_reader_in(*state, CEILING);
    frame_feed(&reader, bytes.at, cut);
    frame_feed(&reader, bytes.at + cut, bytes.length - cut);
    assert_int_equal(frame_close(&reader), FRAME_WHOLE);
    assert_string_equal(text_end(&reader.result), "the report\n");
    assert_string_equal(text_end(&reader.diagnostics), "pond.lua:3: no\n");
    assert_int_equal(reader.status, 2);
  }
}

static void a_stream_is_read_back_byte_by_byte(void **state) {
  struct text bytes = written(*state, "abc", "", 1);
  struct frame_reader reader = frame_reader_in(*state, CEILING);
  for (size_t i = 0; i < bytes.length; i++) frame_feed(&reader, bytes.at + i, 1);
  assert_int_equal(frame_close(&reader), FRAME_WHOLE);
  assert_string_equal(text_end(&reader.result), "abc");
  assert_int_equal(reader.status, 1);
}

static void a_long_text_goes_in_pieces(void **state) {
  size_t length = 3 * FRAME_MOST + 17;
  char *long_text = arena_alloc(*state, length + 1);
  for (size_t i = 0; i < length; i++) long_text[i] = (char)('a' + i % 23);
  struct text bytes = written(*state, long_text, "", 0);
  assert_int_equal(bytes.length, length + 4 * FRAME_HEAD + (FRAME_HEAD + 1) + (FRAME_HEAD + 8));
  struct frame_reader reader = frame_reader_in(*state, CEILING);
  assert_int_equal(frame_feed(&reader, bytes.at, bytes.length), FRAME_WHOLE);
  assert_string_equal(text_end(&reader.result), long_text);
}

static void a_stream_cut_short_counts_for_nothing(void **state) {
  struct text bytes = written(*state, "the report\n", "no\n", 0);
  for (size_t length = 0; length < bytes.length; length++) {
    struct frame_reader reader = frame_reader_in(*state, CEILING);
    frame_feed(&reader, bytes.at, length);
    assert_int_equal(frame_close(&reader), FRAME_BAD);
    assert_string_equal(reader.why, "an early end");
  }
}

#define S "S\1\0\0\0"
#define E "E\10\0\0\0"
#define STREAM(words, reason) \
  { words, sizeof words - 1, reason }

static void a_lying_stream_is_refused(void **state) {
  static const struct {
    const char *bytes;
    size_t length;
    const char *why;
  } rows[] = {
      STREAM("X\1\0\0\0a", "a frame of an unknown type"),
      STREAM("\0\0\0\0\0", "a frame of an unknown type"),
      STREAM("R\0\0\0\0", "a frame of a length that is never written"),
      STREAM("R\1\0\1\0", "a frame of a length that is never written"),
      STREAM("R\377\377\377\377", "a frame of a length that is never written"),
      STREAM("D\0\0\0\200", "a frame of a length that is never written"),
      STREAM("S\2\0\0\0\0\0", "a status of a wrong length"),
      STREAM(S "\4", "a status that does not exist"),
      STREAM(S "\377", "a status that does not exist"),
      STREAM(S "\0" S "\0", "a second status"),
      STREAM(S "\0R\1\0\0\0a", "a text after the status"),
      STREAM(E "\0\0\0\0\0\0\0\0", "an end without a status"),
      STREAM(S "\0E\4\0\0\0\0\0\0\0", "an end of a wrong length"),
      STREAM(S "\0" E "\1\0\0\0\0\0\0\0", "totals that do not add up"),
      STREAM("R\2\0\0\0ab" S "\0" E "\0\0\0\0\2\0\0\0", "totals that do not add up"),
      STREAM(S "\0" E "\0\0\0\0\0\0\0\0S", "bytes after the end"),
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
    struct frame_reader reader = frame_reader_in(*state, CEILING);
    assert_int_equal(frame_feed(&reader, rows[i].bytes, rows[i].length), FRAME_BAD);
    assert_string_equal(reader.why, rows[i].why);
    assert_int_equal(frame_close(&reader), FRAME_BAD);
  }
}

static void more_than_the_ceiling_is_refused_before_it_is_taken(void **state) {
  struct text bytes = written(*state, "0123456789", "0123456789", 0);
  struct frame_reader fits = frame_reader_in(*state, 20), short_by_one = frame_reader_in(*state, 19);
  assert_int_equal(frame_feed(&fits, bytes.at, bytes.length), FRAME_WHOLE);
  assert_int_equal(frame_feed(&short_by_one, bytes.at, bytes.length), FRAME_BAD);
  assert_string_equal(short_by_one.why, "more bytes than are accepted");
  assert_int_equal(short_by_one.diagnostics.length, 0);
}

// Numerical Recipes' quick generator (Press et al., 2nd edition, section 7.1; from memory): any fixed one would do.
static uint32_t next_random(uint32_t *seed) { return (*seed = *seed * 1664525u + 1013904223u) >> 8; }

static void damaged_streams_never_pass_the_ceiling(void **state) {
  struct text good = written(*state, "the report, a few words long\n", "pond.lua:3: a word\n", 1);
  uint32_t seed = 20;
  size_t refused = 0;
  for (int round = 0; round < 20000; round++) {
    char *bytes = arena_copy(*state, good.at, good.length);
    for (uint32_t k = 1 + next_random(&seed) % 3; k > 0; k--) {
      bytes[next_random(&seed) % good.length] = (char)next_random(&seed);
    }
    struct frame_reader reader = frame_reader_in(*state, 64);
    frame_feed(&reader, bytes, good.length);
    refused += frame_close(&reader) == FRAME_BAD;
    assert_in_range(reader.result.length + reader.diagnostics.length, 0, 64);
    assert_in_range(reader.status + 1, 0, 4);
  }
  // Damage inside a text cannot be seen, and those are 48 of 81 bytes; damage to a head or a total must be.
  assert_in_range(refused, 8000, 19999);
}

static void noise_is_refused(void **state) {
  uint32_t seed = 7;
  for (int round = 0; round < 5000; round++) {
    char bytes[64];
    for (size_t i = 0; i < sizeof bytes; i++) bytes[i] = (char)next_random(&seed);
    struct frame_reader reader = frame_reader_in(*state, CEILING);
    frame_feed(&reader, bytes, sizeof bytes);
    assert_int_equal(frame_close(&reader), FRAME_BAD);
  }
}

static void wake(int number) { (void)number; }

// A slow reader and a timer that interrupts: the writer sees short writes and EINTR.
static void a_write_goes_on_over_interruptions(void **state) {
  enum { LENGTH = 1 << 20 };
  int ends[2];
  char *bytes = arena_alloc(*state, LENGTH);
  for (size_t i = 0; i < LENGTH; i++) bytes[i] = (char)(i % 251);
  assert_int_equal(pipe(ends), 0);
  pid_t reader = fork();
  if (reader == 0) {
    close(ends[1]);
    char piece[3001];
    size_t total = 0, wrong = 0;
    for (ssize_t got; (got = read(ends[0], piece, sizeof piece)) > 0; usleep(20)) {
      for (ssize_t i = 0; i < got; i++) wrong += piece[i] != (char)(total++ % 251);
    }
    _exit(total == LENGTH && wrong == 0 ? 0 : 1);
  }
  struct sigaction action = {.sa_handler = wake}, before;
  sigaction(SIGALRM, &action, &before);
  setitimer(ITIMER_REAL, &(struct itimerval){{0, 500}, {0, 500}}, NULL);
  bool wrote = frame_write_all(ends[1], bytes, LENGTH);
  setitimer(ITIMER_REAL, &(struct itimerval){0}, NULL);
  sigaction(SIGALRM, &before, NULL);
  close(ends[0]);
  close(ends[1]);
  int how = -1;
  assert_int_equal(waitpid(reader, &how, 0), reader);
  assert_int_equal(wrote, 1);
  assert_int_equal(how, 0);
}

static void a_writer_without_a_reader_fails_and_stays_so(void **state) {
  (void)state;
  int ends[2];
  void (*before)(int) = signal(SIGPIPE, SIG_IGN);
  assert_int_equal(pipe(ends), 0);
  close(ends[0]);
  struct frame_writer writer = {.to = ends[1]};
  frame_write(&writer, FRAME_RESULT, "a", 1);
  int cause = errno;
  frame_end(&writer, 0);
  close(ends[1]);
  signal(SIGPIPE, before);
  assert_int_equal(writer.failed, 1);
  assert_int_equal(cause, EPIPE);
}

static void a_full_device_is_a_failure(void **state) {
  (void)state;
  int full = open("/dev/full", O_WRONLY);
  if (full < 0) skip();
  bool wrote = frame_write_all(full, "a", 1);
  int cause = errno;
  close(full);
  assert_int_equal(wrote, 0);
  assert_int_equal(cause, ENOSPC);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(a_stream_is_read_back_wherever_it_is_cut, start, end),
      cmocka_unit_test_setup_teardown(a_stream_is_read_back_byte_by_byte, start, end),
      cmocka_unit_test_setup_teardown(a_long_text_goes_in_pieces, start, end),
      cmocka_unit_test_setup_teardown(a_stream_cut_short_counts_for_nothing, start, end),
      cmocka_unit_test_setup_teardown(a_lying_stream_is_refused, start, end),
      cmocka_unit_test_setup_teardown(more_than_the_ceiling_is_refused_before_it_is_taken, start, end),
      cmocka_unit_test_setup_teardown(damaged_streams_never_pass_the_ceiling, start, end),
      cmocka_unit_test_setup_teardown(noise_is_refused, start, end),
      cmocka_unit_test_setup_teardown(a_write_goes_on_over_interruptions, start, end),
      cmocka_unit_test(a_writer_without_a_reader_fails_and_stays_so),
      cmocka_unit_test(a_full_device_is_a_failure),
  };
  return cmocka_run_group_tests_name("cli/frame", tests, NULL, NULL);
}
