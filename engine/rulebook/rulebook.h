// SPDX-License-Identifier: MIT
// All rules in force: read from Lua files layer by layer, checked, then judged on a design, tried on their own
// examples, and described. One handle, one thread; everything handed out belongs to the arena given to rulebook_in.
#ifndef FOREBAY_RULEBOOK_RULEBOOK_H
#define FOREBAY_RULEBOOK_RULEBOOK_H

#include "base/file.h"
#include "review/review.h"
#include "units/unit.h"

struct rulebook;

struct rulebook_budget {
  uint64_t file_instructions, rule_instructions;  // to load a file; one rule on one entity. 0: 10 million, 1 million
  size_t memory;                                  // of the script state; 0: 64 MiB
};

struct rulebook *rulebook_in(struct arena *arena, struct rulebook_budget budget);

// Reads one file of a layer. Layers come in order, the trade's first. False: the file cannot be used (a syntax or
// runtime error); what is wrong with single rules is in `problems` too, and those rules are listed as broken.
bool rulebook_read_file(struct rulebook *rulebook, const char *layer, const struct file_bytes *file,
                        struct problems *problems);
// After the last file, once: applies what layers adjust and retire. Nothing below may be called before.
void rulebook_finish(struct rulebook *rulebook, struct problems *problems);
bool rulebook_whole(const struct rulebook *rulebook);                       // no problem was found in any of it
const struct problems *rulebook_problems(const struct rulebook *rulebook);  // all of them, for review.unusable

bool rulebook_is_name(const char *id);  // a rule can have it

// Marks a rule as broken: it is listed with these words and never run. False: there is no such rule.
bool rulebook_break(struct rulebook *rulebook, const char *id, const char *because);

// In the order read; retired ones left out, broken ones included.
const struct rule_facts *rulebook_rules(const struct rulebook *rulebook, size_t *count);
const struct rule_facts *rulebook_find(const struct rulebook *rulebook, const char *id);  // NULL: none
const char *rulebook_nearest(const struct rulebook *rulebook, const char *id);            // for "did you mean"; NULL
struct retired_rule {
  const char *id, *title, *layer, *because;
};
const struct retired_rule *rulebook_retired(const struct rulebook *rulebook, size_t *count);

// Told before each rule runs on each entity: entity is as in `basin "lower"`, "" in rule tests. tell may be NULL.
struct rulebook_watch {
  void (*tell)(void *with, const char *rule, const char *entity);
  void *with;
};

// Fills in design, evaluation, rules, outcomes, unusable, retired_count, what was accepted and firm; the caller sets
// arena, problems and come_to. Memory comes from review->arena, which must also be that of the evaluation and of its
// problems: rules run inside of Lua, and only one arena can be guarded there. A rule whose kinds the design lacks, and
// one that cannot run at all, gives no outcome.
void rulebook_judge(struct rulebook *rulebook, struct evaluation *evaluation, struct review *review,
                    struct rulebook_watch watch);

// One rule, by its number in review.rules, on one entity. All memory comes from the evaluation's arena, which is also
// that of its problems.
void rulebook_judge_one(struct rulebook *book, struct evaluation *ev, size_t rule_number, int entity,
                        struct outcome *outcome);

uint64_t rulebook_spent(const struct rulebook *rulebook);  // instructions of all its functions so far

// Runs the examples of every rule against the limits of the layer that wrote them, and for each data rule a value just
// inside and one just outside of the limit in force. Writes what failed, notes, and a closing count; or all of it in
// the Test Anything Protocol, version 14.
struct rule_test_style {
  bool tap;
  bool files_lost;  // a rule file never came here: the protocol's words for a run that is not whole
};
struct rule_test_counts {
  size_t passed, failed, notes;
};
struct rule_test_counts rulebook_test(struct rulebook *rulebook, struct text *text, struct rule_test_style style,
                                      struct rulebook_watch watch);

// Checks how the rules and changes of some files are written: names that nothing has, examples that are lacking or come
// out otherwise, limits and lines that none of them reaches, rules that cannot come out both ways. What is wrong goes
// to `wrong`, what was merely not seen to `notes`. The bytes of all files read must still be there.
struct rulebook_files {
  const char *const *names;  // as they were read
  size_t count;
};
struct rulebook_check_counts {
  size_t rules, changes, wrong, notes;
};
struct rulebook_check_counts rulebook_check(struct rulebook *rulebook, struct rulebook_files files,
                                            struct problems *wrong, struct text *notes, struct rulebook_watch watch);

// Plain text in 80 columns: all rules by stage, or one in full. False: there is no such rule.
void rulebook_list(const struct rulebook *rulebook, struct text *text);
bool rulebook_describe(const struct rulebook *rulebook, const char *id, struct text *text);

#endif
