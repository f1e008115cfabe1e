// SPDX-License-Identifier: MIT
// A command's work on strangers' files from end to end: read all, work in a sealed child, set aside the rule or file
// that holds it up and try again, deliver.
#ifndef FOREBAY_CLI_ERRAND_H
#define FOREBAY_CLI_ERRAND_H

#include <stdbool.h>
#include <stddef.h>

#include "base/problem.h"
#include "cli/command.h"
#include "cli/inputs.h"
#include "cli/options.h"
#include "cli/trials.h"
#include "cli/worker.h"
#include "forebay/forebay.h"

enum { RETRIES = 20 };  // rules and rule files set aside in one errand, at most

struct broken_rule {
  const char *id, *because;
};

struct errand;
// Runs in the child: writes its result frames, returns the exit status.
typedef int errand_work(struct child *child, const struct errand *errand, fb_problems *problems);
typedef int errand_run(struct errand *errand, struct text *result, struct text *diagnostics);

struct errand {
  struct arena *arena;
  const struct settings *settings;
  struct problems problems;  // the parent's
  struct worker_clock clock;
  errand_work *work;
  errand_run *attempts;  // errand_attempts; a command that asks for more than one answer has its own
  struct inputs inputs;
  struct trials trials;     // of --try
  struct fb_layer *layers;  // inputs' layers, as the API takes them
  struct broken_rule *broken;
  size_t broken_count, broken_room;
  bool colour;
  bool verbatim;  // the result is a file of its own and not for a terminal: every byte of it is written
};

struct errand errand_new(struct arena *arena, const struct settings *settings,
                         errand_work *work);  // lives in the arena
// Works until there is an answer, or none can be had. The status; result and diagnostics are the child's.
errand_run errand_attempts;
// The same, the work parted among `of` children (child->share, child->of): a result of each. Diagnostics are the
// first's.
int errand_attempts_parted(struct errand *errand, unsigned of, struct text *results, struct text *diagnostics);
// The attempts, then deliver. To be called when the inputs are read (`read` says whether that went well).
int errand_finish(struct errand *errand, bool read);

// For the work, in the child:
fb_rulebook *errand_rulebook(struct child *child, const struct errand *errand,
                             fb_problems *problems);  // NULL: no memory
// The rulebook comes first: a firm's figures stand in where the design says none. It may be NULL. NULL: in problems.
fb_design *errand_design(struct child *child, const struct errand *errand, const fb_rulebook *rulebook,
                         fb_problems *problems);
// For commands that judge nothing: the design and, where a layer of the firm's is named, what the rules are read for.
bool errand_read_priced(struct errand *errand);
fb_design *errand_priced(struct child *child, const struct errand *errand, bool *whole, fb_problems *problems);
enum fb_stage errand_stage(const struct errand *errand);  // of --stage; FB_LAYOUT: not given
// Reads the rules, then the design, hands both to `then` and frees them. The status: then's, or why it came to nothing.
typedef int errand_then(struct child *child, const struct errand *errand, fb_design *design, fb_rulebook *rulebook,
                        fb_problems *problems);
int errand_on_design(struct child *child, const struct errand *errand, fb_problems *problems, errand_then *then);
int errand_answer(struct child *child, fb_text *text, int status);  // writes and frees the text; NULL text: no memory
int errand_worse(int a, int b);

#endif
