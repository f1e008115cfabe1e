// SPDX-License-Identifier: MIT
// One piece of work on strangers' files, done in one sealed child under the parent's clock. The child inherits the
// bytes that were read, and can do nothing but work out and answer.
#ifndef FOREBAY_CLI_WORKER_H
#define FOREBAY_CLI_WORKER_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/text.h"
#include "cli/frame.h"
#include "cli/seal.h"
#include "cli/whereabouts.h"

struct worker_clock {
  unsigned rule_ms, file_ms, run_ms;  // for one rule on one entity; to read one file; for all
};
struct worker_clock worker_clock_usual(void);  // 2 s, 2 s, 20 s; more in sanitizer builds, which run slower

struct child {  // what the work is given, in the child
  struct frame_writer out;
  struct whereabouts *page;
  struct seal seal;
  unsigned share, of;  // which of how many children that do the same work, from 0
};

// The work: runs in the child, writes its frames, returns the exit status that it asks for. It must not use an arena
// of the parent: running out of memory there would lead back into the parent's code.
typedef int worker_work(struct child *child, void *with);

enum worker_end {
  WORKER_DONE,         // a whole answer, and the child ended well
  WORKER_RULE_SLOW,    // the child stayed at one rule or file for too long, and was ended
  WORKER_RUN_SLOW,     // all together took too long
  WORKER_DIED,         // by a signal
  WORKER_FAULT,        // ended with an answer that is not whole, or with an exit status of its own
  WORKER_NOT_STARTED,  // no pipe, no memory or no process to be had
};

struct worker_outcome {
  enum worker_end end;
  int signal;                       // what it died of; 0: none
  int error;                        // errno where it was not started
  const char *why;                  // of a fault
  int status;                       // what the work asked for; when DONE
  struct text result, diagnostics;  // when DONE
  struct text last_words;           // what it wrote to its standard error, at most 64 KiB
  struct whereabouts_note note;     // where it was
  unsigned spent_ms;
};

void worker_run(struct arena *arena, worker_work *work, void *with, const struct worker_clock *clock,
                struct worker_outcome *outcome);
// Several children at once, each with its share of the work; `outcomes` in their order. One clock holds for each.
void worker_run_all(struct arena *arena, worker_work *work, void *with, const struct worker_clock *clock,
                    struct worker_outcome *outcomes, unsigned count);

#endif
