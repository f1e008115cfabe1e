// SPDX-License-Identifier: MIT
// What the files of mending share and nobody else includes.
#ifndef FOREBAY_MEND_MEND_INSIDE_H
#define FOREBAY_MEND_MEND_INSIDE_H

#include "mend/mend.h"
#include "mend/rows.h"
#include "units/unit.h"

struct changes {
  const struct mend_change *list;
  size_t count;
};

// A design with the review that it got: as it stands, or as some changes would have it.
struct mend_base {
  const struct store *store;
  const struct review *review;
  const struct answer *answers;  // by outcome
  struct changes with;           // by which it differs from the file's
};

enum { MOST_ASIDE = 4 };

struct mending {
  struct arena *arena;
  struct scratch_arenas *aside;  // arenas in use beside that one
  struct rulebook *rulebook;
  const struct mend_source *source;
  struct rulebook_watch watch;
  enum unit_system units;
  size_t trials;       // so far, of this finding
  size_t work;         // so far, in slots copied and outcomes judged
  const char *entity;  // that it is of, for the watch
};

// Runs work(with) with memory from an arena of its own, *arena, that ends with it; what work allocates from m->arena
// stays. Where memory runs out in either, m->arena gives up.
void mending_aside(struct mending *m, void (*work)(void *with), void *with, struct arena **arena);

// ---- a trial: the design with other values in its slots, worked out and judged from the start (try.c) ----

struct answer {  // an outcome as plain data that outlives its trial
  enum outcome_sort sort;
  enum severity severity;
  bool held;   // counts as held though unanswered
  int judged;  // which comparison; -1: none
  int entity;  // of the judged value
  enum row_id row;
  enum sense sense;
  double value, limit, margin;
};
struct answer answer_of(const struct outcome *outcome);

// False: the changed design contradicts itself.
bool mend_try_outcome(struct mending *m, const struct mend_base *base, struct changes changes,
                      const struct outcome *outcome, struct answer *answer);
// All outcomes, by their number in base->review. price: what the takeoff comes to; may be NULL.
bool mend_try_all(struct mending *m, const struct mend_base *base, struct changes changes, struct answer *answers,
                  double *price);
// The design with changes, reviewed, to go on from; in `arena`. False: it contradicts itself.
bool mend_go_on_from(struct mending *m, const struct mend_base *base, struct changes changes, struct arena *arena,
                     struct mend_base *kept);

// ---- what could be changed (candidates.c, ladder.c) ----

enum { MOST_MOVES = 4 };

struct move {  // of one given
  int entity;
  enum row_id row;
  int way;                         // 1: up, -1: down
  double from, step, least, most;  // numbers
  const char *const *options;      // else the texts to try in this order
  const struct changes *sets;      // or more than one text each: what comes with a pump
  size_t option_count;
};

struct candidate {  // givens that move together; each step goes on from the one before
  struct move moves[MOST_MOVES];
  size_t count;
  enum mend_rank rank;
  double price;  // of a pump of the firm's stock; NaN
  bool own;      // of the rule
};

// The rule's own first, then what the judged value hangs on in the order in which a builder would think of it.
size_t candidates_of(struct mending *m, const struct mend_base *base, const struct outcome *finding,
                     const struct candidate **list);
// The nearest slot behind what is judged that was taken on site; -1: none.
int candidate_measured_slot(struct mending *m, const struct mend_base *base, const struct outcome *finding);

enum { MOST_CHANGES = 16 };
// The changes at a step, from 1. 0: there is no such step.
size_t candidate_at(struct mending *m, const struct mend_base *base, const struct candidate *candidate, long step,
                    struct mend_change changes[MOST_CHANGES]);
long candidate_steps(const struct candidate *candidate);
bool candidate_is_ladder(const struct candidate *candidate);  // sizes, where a longer step goes farther
bool answer_is_at_limit(const struct answer *answer);
bool answer_clears(const struct answer *answer, const struct candidate *candidate);  // search.c

// A value as it would be written in the place of `was` (NULL: nothing): the text, and what it reads back as.
const char *mend_value_text(struct mending *m, enum row_id row, double value, const char *was, double *reads_as);
struct mend_change mend_change_to(struct mending *m, const struct mend_base *base, int entity, enum row_id row,
                                  const char *text);

// ---- searching and proving ----

// MOST_WORK is some ten times what a design with forty findings asks for.
enum {
  MOST_TRIALS = 40,
  MOST_TRIALS_OF_FINDING = 400,
  MOST_WORK = 80000000,
  WORK_OF_OUTCOME = 40,
  INSTRUCTIONS_OF_WORK = 10
};
static inline void mending_charge(struct mending *m, const struct store *store, size_t outcomes) {
  m->work += store->slot_count + outcomes * WORK_OF_OUTCOME;
}
static inline bool mending_is_spent(const struct mending *m) {
  return m->trials >= MOST_TRIALS_OF_FINDING || m->work >= MOST_WORK;
}

// The least step at which the outcome is neither flagged nor unanswered; 0: none was found. best: the farthest that
// came nearer to the limit, with how it stands there; 0: none did.
struct search {
  long cleared, best;
  struct answer at_best;
};
struct search mend_search(struct mending *m, const struct mend_base *base, const struct candidate *candidate,
                          const struct outcome *finding);

// What is worse in `now` than in `before`.
size_t mend_compare(struct mending *m, const struct review *review, const struct answer *before,
                    const struct answer *now, const struct mend_raised **raised);
struct changes changes_joined(struct arena *arena, struct changes first, struct changes then);  // later ones hold
// Settles the standing: the edited file, read and reviewed, must say what the trial said.
void mend_prove(struct mending *m, const struct mend_base *file, const struct answer *expected, struct mend *mend);
bool mend_write(struct arena *arena, const struct store *store, const struct mend_source *source,
                struct changes changes, struct file_bytes *made, struct problems *problems);

void mend_find(struct mending *m, const struct mend_base *base, struct mend_finding *found);
void mend_find_joint(struct mending *m, const struct mend_base *base, const struct mends *mends,
                     struct mend_joint *joint);

#endif
