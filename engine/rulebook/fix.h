// SPDX-License-Identifier: MIT
// A rule's fix as data, beside its words: which given to change, how, and how far. What it says is a proposal; whether
// it helps is found by trying (mend/).
#ifndef FOREBAY_RULEBOOK_FIX_H
#define FOREBAY_RULEBOOK_FIX_H

#include "rulebook/path.h"

enum fix_verb { FIX_RAISE, FIX_LOWER, FIX_SET, FIX_CHOOSE };

// One change. `path` ends at a given; where it goes over a list, each that it leads to is meant.
struct rule_fix {
  enum fix_verb verb;
  struct path path;
  double by, to, most, least;  // SI; NaN: not said. most, least: to no more than, to no less than
  bool amount;                 // a function worked `by` out: it is the whole change and not a step to try with
  const char *text;            // FIX_SET, FIX_CHOOSE: what `to` says, as it stands between quotes; NULL: nothing
};

// What a rule, or its fix function, proposes: changes that go together, or nothing but words.
struct rule_fixes {
  const char *words;
  const struct rule_fix *list;
  size_t count;
};

#endif
