// SPDX-License-Identifier: MIT
// What the child gives up before it looks at a stranger's file: every descriptor but its two pipes, new privileges,
// and every system call but those for memory, writing to its pipes, and ending. The only user of libseccomp.
//
// In sanitizer builds the seal is empty (the sanitizers open files and threads of their own); so it is where
// FOREBAY_UNSEALED is defined, for coverage builds that write their counts at the end.
#ifndef FOREBAY_CLI_SEAL_H
#define FOREBAY_CLI_SEAL_H

#include <stdbool.h>

#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__) || defined(FOREBAY_UNSEALED)
#define SEAL_EMPTY 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer) || __has_feature(memory_sanitizer)
#define SEAL_EMPTY 1
#endif
#endif
#ifndef SEAL_EMPTY
#define SEAL_EMPTY 0
#endif

enum { SEAL_WORDS_FD = 2, SEAL_FRAMES_FD = 3 };  // the only descriptors of the child

struct seal {
  bool descriptors, limits, privileges, filter;  // what held
};

// Moves the pipes to their places and closes every other descriptor. False: it could not.
bool seal_descriptors(int frames, int words);

// Sets the limits and the filter; what cannot be had is left out and not claimed.
void seal_close(struct seal *seal, unsigned cpu_seconds);

bool seal_whole(const struct seal *seal);
const char *seal_words(const struct seal *seal);  // for --version and the report's foot

#endif
