// SPDX-License-Identifier: MIT
// The changes that --try asks for: ENTITY.GIVEN=VALUE, each read apart at its first equals sign outside of quotes.
#ifndef FOREBAY_CLI_TRIALS_H
#define FOREBAY_CLI_TRIALS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/problem.h"
#include "cli/options.h"
#include "forebay/forebay.h"

struct trials {
  struct fb_trial *list;
  size_t count;
};

// False: a problem says how a change is written.
bool trials_read(struct trials *trials, struct problems *problems, const struct words *words);

#endif
