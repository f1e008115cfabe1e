// SPDX-License-Identifier: MIT
// All rules in force: the trade's, then each layer of the firm's on top.
#ifndef FOREBAY_RULEBOOK_H
#define FOREBAY_RULEBOOK_H

#include <stdbool.h>
#include <stddef.h>

#include "forebay/problems.h"
#include "forebay/text.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef struct fb_rulebook fb_rulebook;

struct fb_layer {
  const char *name;             // "trade", "house": shown as who set a limit
  const struct fb_file *files;  // in the order to read them
  size_t count;
};

// Limits on what a rule or rule file may use; 0 takes the stated default.
struct fb_budget {
  unsigned long long file_instructions;  // to load one file: 10,000,000
  unsigned long long rule_instructions;  // one rule on one entity: 1,000,000
  size_t memory;                         // bytes of one script state: 64 MiB
};

// Reads the layers. Files or rules that cannot be used are in `problems` and the rest is in force; fb_rulebook_whole
// then says false. NULL only when memory ran out. budget may be NULL.
// watch (may be NULL) is told which file is being read before each is begun.
fb_rulebook *fb_rulebook_new(const struct fb_layer *layers, size_t count, const struct fb_budget *budget,
                             void (*watch)(void *with, const char *file), void *with, fb_problems *problems);
void fb_rulebook_free(fb_rulebook *rulebook);
bool fb_rulebook_whole(const fb_rulebook *rulebook);
size_t fb_rulebook_count(const fb_rulebook *rulebook);

// Marks a rule as broken beforehand: reviews report it with these words and never run it.
void fb_rulebook_break(fb_rulebook *rulebook, const char *rule_id, const char *because);

// All rules as a list, or one in full (id not NULL). NULL: no such rule (a problem names the nearest), or no memory.
fb_text *fb_rulebook_text_new(fb_rulebook *rulebook, const char *id, fb_problems *problems);

// Runs the examples of all rules, and for each data rule a value just inside and just outside its limit. *failed
// counts.
fb_text *fb_rule_test_new(fb_rulebook *rulebook, void (*watch)(void *with, const char *rule), void *with,
                          size_t *passed, size_t *failed, fb_problems *problems);
// The same in the Test Anything Protocol, version 14. files_lost: a rule file could not be read, so the run is not
// whole.
fb_text *fb_rule_test_tap_new(fb_rulebook *rulebook, bool files_lost, void (*watch)(void *with, const char *rule),
                              void *with, size_t *passed, size_t *failed, fb_problems *problems);

// Checks how the rules and changes in some of the files that the rulebook was read from are written: what is wrong is
// in `problems`, each at its line, and *wrong counts; the text holds notes and a closing line. files: by name, as they
// were read; their bytes need not be there any more.
fb_text *fb_rulebook_check_new(fb_rulebook *rulebook, const char *const *files, size_t count,
                               void (*watch)(void *with, const char *rule), void *with, size_t *wrong,
                               fb_problems *problems);

// A commented rule file to start from: a rule that is plain data, called name, and one with a check, called name-check.
// name NULL: names of its own. NULL: a rule cannot have this name (a problem says what would be right), or no memory.
fb_text *fb_starter_rules_new(const char *name, fb_problems *problems);

#ifdef __cplusplus
}
#endif
#endif
