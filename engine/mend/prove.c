// SPDX-License-Identifier: MIT
// From a trial that holds to a fix that is proven: written into the file, read again, reviewed like any other.
#include <math.h>

#include "design/edit.h"
#include "design/read.h"
#include "mend/mend_inside.h"

const char *mend_standing_words(enum mend_standing standing) {
  static const char *const words[MEND_STANDING_COUNT] = {
      [MEND_PROVEN] = "proven",         [MEND_RAISES] = "proven, but raises", [MEND_BY_HAND] = "works in a trial",
      [MEND_CHOICE] = "needs a choice", [MEND_NOT_ENOUGH] = "not enough",     [MEND_MEASURE] = "measure again",
      [MEND_ADVICE] = "advice",
  };
  return words[standing];
}

// ---- what got worse ----

static bool is_worse(const struct answer *before, const struct answer *now) {
  if (now->sort == OUTCOME_BROKEN) return before->sort != OUTCOME_BROKEN;
  if (now->sort == OUTCOME_FLAGGED) return before->sort != OUTCOME_FLAGGED || now->severity > before->severity;
  bool answered = before->sort == OUTCOME_CLEAR || before->sort == OUTCOME_FLAGGED;
  return now->sort == OUTCOME_UNANSWERED && (answered || (now->held && before->sort != OUTCOME_UNANSWERED));
}

size_t mend_compare(struct mending *m, const struct review *review, const struct answer *before,
                    const struct answer *now, const struct mend_raised **raised) {
  struct mend_raised *list = NULL;
  size_t count = 0, room = 0;
  for (size_t i = 0; i < review->outcome_count; i++) {
    if (!is_worse(&before[i], &now[i])) continue;
    list = arena_grow(m->arena, list, count, &room, sizeof *list);
    list[count++] = (struct mend_raised){.rule = review->outcomes[i].rule,
                                         .entity = review->outcomes[i].entity,
                                         .severity = now[i].held ? SEVERITY_HOLD : now[i].severity,
                                         .unanswered = now[i].sort == OUTCOME_UNANSWERED};
  }
  *raised = list;
  return count;
}

// ---- the edited file ----

enum { READINGS = 3 };  // of a proof: it costs as much as so many trials of the whole design

bool mend_write(struct arena *arena, const struct store *store, const struct mend_source *source,
                struct changes changes, struct file_bytes *made, struct problems *problems) {
  struct edit *edits = arena_array(arena, changes.count + 1, sizeof *edits);
  for (size_t i = 0; i < changes.count; i++) {
    const struct mend_change *change = &changes.list[i];
    edits[i] = (struct edit){change->entity, change->row, change->text, change->curve != NULL};
  }
  return edit_design(arena, &source->file, store, edits, changes.count, made, problems);
}

struct proof {
  struct mending *m;
  const struct mend_base *file;
  const struct answer *expected;
  struct changes changes;
  struct arena *arena;
  int line;
  const char *why;  // in m->arena, or a constant
  bool holds;
};

static void note_why(struct proof *proof, const struct problems *problems) {
  const struct problem *first = problems->count ? &problems->list[0] : NULL;
  proof->line = first ? first->at.line : 0;
  proof->why = first ? arena_words(proof->m->arena, first->said) : "it cannot be written there";
}

static bool is_same(double a, double b) { return a == b || (isnan(a) && isnan(b)); }

static bool says_the_same(const struct answer *a, const struct answer *b) {
  return a->sort == b->sort && a->severity == b->severity && a->held == b->held && a->judged == b->judged &&
         a->row == b->row && a->sense == b->sense && is_same(a->value, b->value) && is_same(a->limit, b->limit);
}

// Rules judge no points of a curve, so the outcomes stand in one order however many points it has.
static bool bears_out(const struct proof *proof, const struct review *review) {
  const struct review *before = proof->file->review;
  if (review->outcome_count != before->outcome_count) return false;
  for (size_t i = 0; i < review->outcome_count; i++) {
    struct answer found = answer_of(&review->outcomes[i]);
    if (review->outcomes[i].rule != before->outcomes[i].rule || !says_the_same(&proof->expected[i], &found))
      return false;
  }
  return true;
}

static void prove(void *with) {
  struct proof *proof = with;
  const struct mend_source *source = proof->m->source;
  struct problems problems = problems_in(proof->arena), found = problems_in(proof->arena);
  struct file_bytes made;
  if (!mend_write(proof->arena, proof->file->store, source, proof->changes, &made, &problems)) {
    note_why(proof, &problems);
    return;
  }
  struct store *store = design_read_with(proof->arena, &made, source->beside, source->beside_count,
                                         source->overlays.list, source->overlays.count, &problems);
  if (!store) {
    note_why(proof, &problems);
    return;
  }
  struct review review = {.arena = proof->arena, .problems = &found, .come_to = proof->file->review->come_to};
  rulebook_judge(proof->m->rulebook, evaluation_in(proof->arena, store, &found), &review, proof->m->watch);
  proof->holds = bears_out(proof, &review);
  if (!proof->holds) proof->why = "the changed file, reviewed, says something else than the trial did";
}

void mend_prove(struct mending *m, const struct mend_base *file, const struct answer *expected, struct mend *mend) {
  struct proof proof = {.m = m, .file = file, .expected = expected, .changes = {mend->changes, mend->count}};
  if (!m->source) return;
  for (int i = 0; i < READINGS; i++) mending_charge(m, file->store, file->review->outcome_count);
  mending_aside(m, prove, &proof, &proof.arena);
  if (proof.holds) return;
  mend->standing = MEND_BY_HAND;
  mend->line = proof.line;
  mend->why = proof.why;
}
