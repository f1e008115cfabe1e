// SPDX-License-Identifier: MIT
// Everything that a command reads, read whole by the parent before the child starts.
#ifndef FOREBAY_CLI_INPUTS_H
#define FOREBAY_CLI_INPUTS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/file.h"
#include "base/problem.h"
#include "cli/options.h"

enum {
  INPUT_MOST = 1 << 20,  // bytes of one design, rule file or file beside a design
  INPUT_MOST_BESIDE = 32,
  INPUT_MOST_OTHERS = 2,  // designs that the first is compared with
};

struct input_layer {
  const char *name;
  struct file_bytes *files;
  size_t count;
};

struct input_other {
  struct file_bytes design, *beside;
  size_t beside_count;
};

struct inputs {
  struct file_bytes design;   // name NULL: none is read
  struct file_bytes *beside;  // the CSV files in the design's folder, sorted; it may name one of them
  size_t beside_count;
  struct input_other others[INPUT_MOST_OTHERS];
  size_t other_count;
  struct input_layer *layers;
  size_t layer_count;
  struct words checked;  // names of the rule files to check, as they stand in the layers
  bool whole;            // false: a rule file was left out
};

// False: a problem says why nothing can be worked on.
bool inputs_read_design(struct inputs *inputs, struct problems *problems, const char *path);
// One more design, to compare the first with; at most INPUT_MOST_OTHERS.
bool inputs_read_other(struct inputs *inputs, struct problems *problems, const char *path);
// The trade rules and each layer of --rules. Files of a folder that cannot be read are left out, with a problem.
bool inputs_read_rules(struct inputs *inputs, struct problems *problems, const struct settings *settings);
// Then each operand as a layer of its own. What is part of a layer already is checked there, under the name given here.
bool inputs_read_checked(struct inputs *inputs, struct problems *problems, const struct settings *settings);

// Leaves out a rule file, wherever it is. False: there is none of that name.
bool inputs_leave_out(struct inputs *inputs, const char *name);

// Whether writing to this path would write over something that was read.
bool inputs_hold(const struct inputs *inputs, const char *path);

#endif
