// SPDX-License-Identifier: MIT
// What the rules say differently, by rule and thing: each later design against the first.
#include <stdlib.h>
#include <string.h>

#include "report/compare_inside.h"
#include "review/arrange.h"

// Outcomes of one side, to be found by rule and thing.
struct found {
  const char *rule, *thing;
  const struct outcome *outcome;
};

struct outcomes {
  struct found *list;
  size_t count;
};

static int by_rule_and_thing(const void *a, const void *b) {
  const struct found *one = a, *other = b;
  int rules = strcmp(one->rule, other->rule);
  return rules ? rules : strcmp(one->thing, other->thing);
}

static const char *thing_of(struct comparing *c, size_t side, int entity) {
  struct text words = text_in(c->arena);
  word_entity(&words, &c->sides[side].wording, entity);
  return text_end(&words);
}

static struct found found_of(struct comparing *c, size_t side, size_t index) {
  const struct review *review = c->sides[side].review;
  const struct outcome *outcome = &review->outcomes[index];
  return (struct found){review->rules[outcome->rule].id, thing_of(c, side, outcome->entity), outcome};
}

static struct outcomes outcomes_of(struct comparing *c, size_t side) {
  const struct review *review = c->sides[side].review;
  struct outcomes all = {arena_array(c->arena, review->outcome_count + 1, sizeof *all.list), review->outcome_count};
  for (size_t i = 0; i < all.count; i++) all.list[i] = found_of(c, side, i);
  qsort(all.list, all.count, sizeof *all.list, by_rule_and_thing);
  return all;
}

static const struct outcome *like(const struct outcomes *in, const struct found *wanted) {
  const struct found *found = bsearch(wanted, in->list, in->count, sizeof *in->list, by_rule_and_thing);
  return found ? found->outcome : NULL;
}

// --- one outcome against its like

// How grave: 0 no finding, then by severity. What counts as held is as grave as a hold.
static int gravity(const struct outcome *outcome) {
  if (outcome && outcome->counting != COUNTS) return 0;
  bool held = outcome && outcome->sort == OUTCOME_UNANSWERED && outcome->counts_as_held;
  if (!held && !(outcome && outcome->sort == OUTCOME_FLAGGED)) return 0;
  return 1 + (int)finding_severity(outcome);
}

static const char *state_words(const struct outcome *outcome) {
  static const char *const words[OUTCOME_SORT_COUNT] = {
      [OUTCOME_CLEAR] = "clear",
      [OUTCOME_UNANSWERED] = "unanswered",
      [OUTCOME_NOT_APPLICABLE] = "not applicable",
      [OUTCOME_BROKEN] = "broken",
  };
  if (!outcome) return "not asked";
  if (outcome->counting == ACCEPTED) return "accepted";
  if (outcome->sort == OUTCOME_FLAGGED) return severity_name(outcome->severity);
  return outcome->counts_as_held ? "hold, not answered" : words[outcome->sort];
}

static const char *change_words(const struct outcome *before, const struct outcome *after) {
  int was = gravity(before), is = gravity(after);
  if (is == 0) return "gone";
  if (was == 0) return "new";
  return is > was ? "worse" : is < was ? "milder" : "other";
}

// Also what a finding was and is not answered now: no answer is not the same as none.
static bool is_change(const struct outcome *before, const struct outcome *after) {
  if (gravity(before) == 0 && gravity(after) == 0) return false;
  return strcmp(state_words(before), state_words(after)) != 0;
}

static void write_change(struct comparing *c, size_t side, const struct found *of, const struct outcome *before,
                         const struct outcome *after) {
  const struct review *review = c->sides[side].review;
  const char *title = review->rules[of->outcome->rule].title;
  struct text label = text_in(c->arena), words = text_in(c->arena);
  text_printf(&label, "%-6s  ", change_words(before, after));
  text_printf(&words, "%s -> %s: %s: %s", state_words(before), state_words(after), title, of->thing);
  page_labelled(&c->page, COMPARE_STEP, 8, PAINT_PLAIN, text_end(&label), text_end(&words));
}

// In the order of the later design's rules; then what only the first has.
static void compare_sides(struct comparing *c, const struct outcomes *first, size_t side) {
  struct outcomes later = outcomes_of(c, side);
  size_t written = c->page.text.length;
  for (size_t i = 0; i < later.count; i++) {
    struct found of = found_of(c, side, i);
    const struct outcome *before = like(first, &of);
    if (is_change(before, of.outcome)) write_change(c, side, &of, before, of.outcome);
  }
  for (size_t i = 0; i < first->count; i++) {
    struct found of = found_of(c, 0, i);
    if (!like(&later, &of) && is_change(of.outcome, NULL)) write_change(c, 0, &of, of.outcome, NULL);
  }
  if (c->page.text.length == written) page_wrap(&c->page, COMPARE_STEP, 0, "The same findings.");
}

void compare_findings(struct comparing *c) {
  struct outcomes first = outcomes_of(c, 0);
  for (size_t side = 1; side < c->count; side++) {
    char heading[] = "FINDINGS of B against A";
    heading[strlen("FINDINGS of ")] = compare_letter(side);
    page_heading(&c->page, heading);
    compare_sides(c, &first, side);
  }
}
