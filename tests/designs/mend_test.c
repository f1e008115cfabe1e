// SPDX-License-Identifier: MIT
// Every fix that is called proven, of every demonstration design and the teaching design, is written into the file,
// which is read and reviewed from the start, and held against the review of the file as it was: the finding is gone,
// and what got worse is just what the fix says it raises. Nothing here asks the search what it thinks.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

#include "mend/mend.h"
#include "designs/judged.h"
#include "review/arrange.h"

enum { MOST_ROUNDS = 10 };

struct mended {
  struct judged judged;
  struct rulebook *rulebook;
  struct mend_source source;
  const struct mends *mends;
};

static void add_layer(struct judged *judged, struct rulebook *rulebook, const char *layer, const char *folder) {
  const char **names;
  size_t count;
  assert_true(file_list(&judged->problems, judged_path(judged->arena, folder), ".lua", &names, &count, NULL));
  for (size_t i = 0; i < count; i++) {
    struct file_bytes file = judged_file(judged, names[i]);
    rulebook_read_file(rulebook, layer, &file, &judged->problems);
  }
}

static struct rulebook *read_rules(struct judged *judged, bool house) {
  struct rulebook *rulebook = rulebook_in(judged->arena, (struct rulebook_budget){0});
  add_layer(judged, rulebook, "trade", "rules/trade");
  if (house) add_layer(judged, rulebook, "house", "rules/house");
  rulebook_finish(rulebook, &judged->problems);
  judged_fail_on_problems(judged, "rules");
  return rulebook;
}

static void judge(struct mended *mended) {
  struct judged *judged = &mended->judged;
  judged->review = (struct review){.arena = judged->arena, .problems = &judged->problems};
  rulebook_judge(mended->rulebook, evaluation_in(judged->arena, judged->store, &judged->problems), &judged->review,
                 (struct rulebook_watch){0});
}

// Both rulebooks, read once for a whole test.
struct books {
  struct judged judged;
  struct rulebook *trade, *house;
};

static struct books books_new(void) {
  struct books books = {.judged = {.arena = arena_new()}};
  books.judged.problems = problems_in(books.judged.arena);
  books.trade = read_rules(&books.judged, false);
  books.house = read_rules(&books.judged, true);
  return books;
}

static void books_free(struct books *books) { judged_free(&books->judged); }

// A file's bytes reviewed from the start, in an arena of its own.
static struct mended reviewed(struct file_bytes file, struct rulebook *rules) {
  struct mended mended = {.judged = {.arena = arena_new()}};
  struct judged *judged = &mended.judged;
  judged->problems = problems_in(judged->arena);
  mended.rulebook = rules;
  mended.source.file = (struct file_bytes){arena_words(judged->arena, file.name),
                                           arena_copy(judged->arena, file.bytes, file.length), file.length};
  judged->store = design_read(judged->arena, &mended.source.file, &judged->problems);
  judged_fail_on_problems(judged, file.name);
  judge(&mended);
  return mended;
}

static struct mended mended_of(struct file_bytes file, struct rulebook *rules) {
  struct mended mended = reviewed(file, rules);
  mended.mends = mends_of(mended.rulebook, &mended.judged.review, &mended.source, (struct rulebook_watch){0});
  return mended;
}

static struct mended mended_named(const char *name, struct rulebook *rules) {
  struct judged judged = {.arena = arena_new()};
  judged.problems = problems_in(judged.arena);
  struct mended mended = mended_of(judged_file(&judged, judged_path(judged.arena, name)), rules);
  judged_free(&judged);
  return mended;
}

static void mended_free(struct mended *mended) { arena_free(mended->judged.arena); }

// ---- what two reviews say of one thing ----

static const char *key(struct mended *mended, const struct outcome *outcome) {
  struct text text = text_in(mended->judged.arena);
  text_printf(&text, "%s on ", mended->judged.review.rules[outcome->rule].id);
  store_describe_entity(&text, mended->judged.store, outcome->entity);
  return text_end(&text);
}

// guess: where it stood in the other review, which is nearly always where it stands in this one.
static const struct outcome *outcome_of(struct mended *mended, const char *wanted, size_t guess) {
  const struct review *review = &mended->judged.review;
  if (guess < review->outcome_count && strcmp(key(mended, &review->outcomes[guess]), wanted) == 0)
    return &review->outcomes[guess];
  for (size_t i = 0; i < mended->judged.review.outcome_count; i++) {
    const struct outcome *outcome = &mended->judged.review.outcomes[i];
    if (strcmp(key(mended, outcome), wanted) == 0) return outcome;
  }
  return NULL;
}

// Newly flagged, graver, broken, or without the answer that it had.
static bool got_worse(const struct outcome *before, const struct outcome *now) {
  bool was_flagged = before->sort == OUTCOME_FLAGGED, was_clear = before->sort == OUTCOME_CLEAR;
  if (now->sort == OUTCOME_FLAGGED) return !was_flagged || now->severity > before->severity;
  if (now->sort == OUTCOME_BROKEN) return before->sort != OUTCOME_BROKEN;
  if (now->sort != OUTCOME_UNANSWERED) return false;
  return was_flagged || was_clear || (before->sort == OUTCOME_NOT_APPLICABLE && now->counts_as_held);
}

static bool is_told(struct mended *before, const struct mend *mend, const struct outcome *outcome) {
  for (size_t i = 0; i < mend->raised_count; i++) {
    struct outcome raised = {.rule = mend->raised[i].rule, .entity = mend->raised[i].entity};
    if (strcmp(key(before, &raised), key(before, outcome)) == 0) return true;
  }
  return false;
}

static void check_raised(struct mended *before, struct mended *after, const struct mend *mend, const char *of) {
  size_t worse = 0;
  for (size_t i = 0; i < before->judged.review.outcome_count; i++) {
    const struct outcome *was = &before->judged.review.outcomes[i];
    const char *what = key(before, was);
    const struct outcome *now = outcome_of(after, what, i);
    if (!now) fail_msg("%s: %s is judged no more", of, what);
    if (!got_worse(was, now)) continue;
    worse++;
    if (!is_told(before, mend, was)) fail_msg("fix of %s: %s got worse, and nothing says so", of, what);
  }
  assert_int_equal(worse, mend->raised_count);
}

static bool can_be_written(const struct mend *mend) {
  return mend->count &&
         (mend->standing == MEND_PROVEN || mend->standing == MEND_RAISES || mend->standing == MEND_CHOICE);
}

// Edits are handed to the design's editor just as they are told.
static struct file_bytes written(struct mended *before, const struct mends *mends, size_t number, bool joint) {
  struct judged *judged = &before->judged;
  struct problems problems = problems_in(judged->arena);
  struct file_bytes made = {0};
  const struct mend_order order = {&judged->review, mends, &before->source, &number, joint ? 0 : 1, joint};
  bool done = mend_apply(judged->arena, &order, &made, &problems);
  struct text said = text_in(judged->arena);
  problems_write(&said, &problems, 5);
  if (!done) fail_msg("fix %zu: %s", number, text_end(&said));
  return made;
}

static void check_fix(struct mended *before, const struct mend_finding *found, const struct mend *mend,
                      struct rulebook *rules) {
  if (!can_be_written(mend)) return;
  const char *of = key(before, found->finding);
  struct mend_finding alone = {.finding = found->finding, .best = *mend};
  struct mends one = {.list = &alone, .count = 1};
  struct mended after = reviewed(written(before, &one, 1, false), rules);
  const struct outcome *now = outcome_of(&after, of, 0);
  if (!now || (now->sort != OUTCOME_CLEAR && now->sort != OUTCOME_NOT_APPLICABLE)) fail_msg("%s is not gone", of);
  check_raised(before, &after, mend, of);
  if (mend->standing == MEND_PROVEN && mend->raised_count) fail_msg("%s is called proven and raises something", of);
  mended_free(&after);
}

static void check_joint(struct mended *before, struct rulebook *rules) {
  const struct mend_joint *joint = &before->mends->joint;
  if (!can_be_written(&joint->mend)) return;
  struct mended after = reviewed(written(before, before->mends, 0, true), rules);
  struct review_counts was = review_count(&before->judged.review), now = review_count(&after.judged.review);
  assert_int_equal(joint->held_before, was.severities[SEVERITY_HOLD]);
  assert_int_equal(joint->held_after, now.severities[SEVERITY_HOLD]);
  assert_int_equal(joint->revise_after, now.severities[SEVERITY_REVISE]);
  if (joint->held_after + joint->revise_after >= joint->held_before + joint->revise_before)
    fail_msg("the joint set mends nothing");
  check_raised(before, &after, &joint->mend, "all together");
  mended_free(&after);
}

static const struct {
  const char *name;
  bool house;
} designs[] = {
    {"projects/crew-lesson.lua", false},       {"projects/stone-court.lua", false}, {"projects/slate-rill.lua", false},
    {"tests/designs/porch.lua", false},        {"projects/stone-court.lua", true},  {"projects/crew-lesson.lua", true},
    {"tests/designs/stone-court.json", false},
};
enum { DESIGNS = sizeof designs / sizeof *designs };

static struct rulebook *rules_for(const struct books *books, size_t design) {
  return designs[design].house ? books->house : books->trade;
}

static void fixes_hold_what_they_say(void **state) {
  (void)state;
  struct books books = books_new();
  for (size_t d = 0; d < DESIGNS; d++) {
    struct mended before = mended_named(designs[d].name, rules_for(&books, d));
    for (size_t i = 0; i < before.mends->count; i++) {
      const struct mend_finding *found = &before.mends->list[i];
      check_fix(&before, found, &found->best, rules_for(&books, d));
      for (size_t k = 0; k < found->other_count; k++)
        check_fix(&before, found, &found->others[k], rules_for(&books, d));
    }
    check_joint(&before, rules_for(&books, d));
    mended_free(&before);
  }
  books_free(&books);
}

// ---- how many ----

// Flagged, and not a matter of advice: where a change of givens can help at all.
static void nine_in_ten_have_a_fix(void **state) {
  (void)state;
  struct books books = books_new();
  size_t mendable = 0, proven = 0;
  for (size_t d = 0; d < DESIGNS; d++) {
    struct mended mended = mended_named(designs[d].name, rules_for(&books, d));
    size_t of_this = 0, proven_of_this = 0;
    for (size_t i = 0; i < mended.mends->count; i++) {
      const struct mend_finding *found = &mended.mends->list[i];
      if (found->finding->sort != OUTCOME_FLAGGED || found->best.standing >= MEND_MEASURE) continue;
      of_this++;
      // Holds in the trial as well; the file writes it in a loop.
      proven_of_this += found->best.standing <= MEND_CHOICE && found->best.raised_count == 0;
    }
    print_message("%s%s: %zu of %zu findings that a change can mend have one that is proven\n", designs[d].name,
                  designs[d].house ? " with the house's rules" : "", proven_of_this, of_this);
    mendable += of_this;
    proven += proven_of_this;
    mended_free(&mended);
  }
  assert_true(mendable > 0);
  if (proven * 10 < mendable * 9) fail_msg("%zu of %zu are proven", proven, mendable);
  books_free(&books);
}

static void the_same_design_gets_the_same_fixes(void **state) {
  (void)state;
  struct books books = books_new();
  struct mended one = mended_named("projects/stone-court.lua", books.house);
  struct mended other = mended_named("projects/stone-court.lua", books.house);
  assert_int_equal(one.mends->count, other.mends->count);
  for (size_t i = 0; i < one.mends->count; i++) {
    const struct mend_finding *a = &one.mends->list[i], *b = &other.mends->list[i];
    assert_int_equal(a->trials, b->trials);
    assert_int_equal(a->best.standing, b->best.standing);
    assert_int_equal(a->best.count, b->best.count);
    for (size_t k = 0; k < a->best.count; k++) assert_string_equal(a->best.changes[k].text, b->best.changes[k].text);
  }
  mended_free(&one);
  mended_free(&other);
  books_free(&books);
}

// ---- applied again and again ----

// All that are proven and want nothing different of one given.
static struct file_bytes all_proven(struct mended *mended, size_t *taken) {
  struct judged *judged = &mended->judged;
  size_t *numbers = arena_array(judged->arena, mended->mends->count + 1, sizeof *numbers);
  struct file_bytes made = mended->source.file;
  *taken = 0;
  for (size_t i = 0; i < mended->mends->count; i++) {
    struct problems problems = problems_in(judged->arena);
    struct file_bytes more;
    if (mended->mends->list[i].best.standing != MEND_PROVEN) continue;
    numbers[*taken] = i + 1;
    const struct mend_order order = {&judged->review, mended->mends, &mended->source, numbers, *taken + 1, false};
    if (!mend_apply(judged->arena, &order, &more, &problems)) continue;
    made = more;
    (*taken)++;
  }
  return made;
}

static bool is_same_text(const struct file_bytes *a, const struct file_bytes *b) {
  return a->length == b->length && memcmp(a->bytes, b->bytes, a->length) == 0;
}

static void repeat(const char *name, struct rulebook *rules) {
  struct mended rounds[MOST_ROUNDS + 1];
  size_t count = 1, taken;
  rounds[0] = mended_named(name, rules);
  for (;;) {
    struct file_bytes next = all_proven(&rounds[count - 1], &taken);
    if (taken == 0) break;
    for (size_t i = 0; i < count; i++) {
      if (is_same_text(&rounds[i].source.file, &next)) fail_msg("%s: round %zu is round %zu again", name, count, i);
    }
    if (count > MOST_ROUNDS) fail_msg("%s: still something to mend after %d rounds", name, MOST_ROUNDS);
    rounds[count] = mended_of(next, rules);
    count++;
  }
  struct review_counts first = review_count(&rounds[0].judged.review);
  struct review_counts last = review_count(&rounds[count - 1].judged.review);
  print_message("%s: %zu rounds, %zu flagged, then %zu\n", name, count - 1, first.sorts[OUTCOME_FLAGGED],
                last.sorts[OUTCOME_FLAGGED]);
  if (count > 1 && last.sorts[OUTCOME_FLAGGED] >= first.sorts[OUTCOME_FLAGGED]) fail_msg("%s got no better", name);
  for (size_t i = 0; i < count; i++) mended_free(&rounds[i]);
}

static void applied_until_nothing_is_left(void **state) {
  (void)state;
  struct books books = books_new();
  for (size_t d = 0; d < DESIGNS; d++) repeat(designs[d].name, rules_for(&books, d));
  books_free(&books);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(fixes_hold_what_they_say),
      cmocka_unit_test(nine_in_ten_have_a_fix),
      cmocka_unit_test(the_same_design_gets_the_same_fixes),
      cmocka_unit_test(applied_until_nothing_is_left),
  };
  return cmocka_run_group_tests_name("designs/mend", tests, NULL, NULL);
}
