// SPDX-License-Identifier: MIT
#include <string.h>

#include "cli/command.h"
#include "cli/deliver.h"
#include "cli/worker.h"
#include "forebay/forebay.h"

// What the seal holds is found by closing one.
static int tell_seal(struct child *child, void *with) {
  (void)with;
  const char *words = seal_words(&child->seal);
  frame_write(&child->out, FRAME_RESULT, words, strlen(words));
  return STATUS_CLEAR;
}

int command_version(struct arena *arena, const struct settings *settings) {
  (void)settings;
  struct problems problems = problems_in(arena);
  struct text text = text_in(arena);
  struct worker_outcome *outcome = arena_alloc(arena, sizeof *outcome);
  const struct worker_clock clock = worker_clock_usual();
  worker_run(arena, tell_seal, NULL, &clock, outcome);
  bool done = outcome->end == WORKER_DONE;
  text_printf(&text, "forebay %s\nseal: %s\n", fb_version(),
              done ? text_end(&outcome->result) : "none: the work could not be started");
  bool delivered = deliver(&problems, NULL, false, &text);
  deliver_problems(&problems);
  return done ? delivered ? STATUS_CLEAR : STATUS_UNUSABLE : STATUS_FAULT;
}
