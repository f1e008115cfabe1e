// SPDX-License-Identifier: MIT
// One page shared by parent and child, in which the child notes what it is at before each rule, rule file or design
// file. Plain stores, no system call: it costs nothing and works in the sealed child. The parent reads it with
// distrust.
#ifndef FOREBAY_CLI_WHEREABOUTS_H
#define FOREBAY_CLI_WHEREABOUTS_H

#include <stdbool.h>

enum whereabouts_kind { AT_START, AT_DESIGN, AT_RULE_FILE, AT_RULE, AT_REST, AT_KINDS };  // rest: working out, writing

struct whereabouts;

enum { WHEREABOUTS_NAME = 4096, WHEREABOUTS_ENTITY = 512 };

struct whereabouts_note {
  enum whereabouts_kind kind;
  char name[WHEREABOUTS_NAME];      // the rule or file, cut where it is longer
  char entity[WHEREABOUTS_ENTITY];  // what a rule runs on; "": nothing in particular
};

struct whereabouts *whereabouts_new(void);  // NULL: no memory
void whereabouts_free(struct whereabouts *page);

void whereabouts_set(struct whereabouts *page, enum whereabouts_kind kind, const char *name, const char *entity);

unsigned whereabouts_count(const struct whereabouts *page);  // changes with each note
// A copy: names NUL-ended and free of control characters, kind in range, whatever the page holds.
void whereabouts_read(const struct whereabouts *page, struct whereabouts_note *note);

#endif
