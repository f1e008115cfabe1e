// SPDX-License-Identifier: MIT
#include "api/handles.h"

struct order {
  struct rulebook *rulebook;
  struct rulebook_files files;
  void (*watch)(void *with, const char *rule);
  void *with;
  fb_problems *problems;
  struct rulebook_check_counts counts;
};

static void tell_rule(void *with, const char *rule, const char *entity) {
  const struct order *order = with;
  (void)entity;
  if (order->watch) order->watch(order->with, rule);
}

static void add_count(struct text *text, size_t count, const char *one, const char *many) {
  text_printf(text, "%zu %s", count, count == 1 ? one : many);
}

// "12 rules and 1 change checked: nothing is wrong, 2 notes."
static void close(struct text *text, const struct rulebook_check_counts *counts, bool whole) {
  add_count(text, counts->rules, "rule", "rules");
  if (counts->changes) {
    text_add(text, " and ");
    add_count(text, counts->changes, "change", "changes");
  }
  text_add(text, " checked: ");
  if (counts->wrong)
    add_count(text, counts->wrong, "thing is wrong", "things are wrong");
  else if (whole)
    text_add(text, "nothing is wrong");
  if (!whole) text_add(text, counts->wrong ? ", and not all of it can be used" : "NOT ALL OF IT CAN BE USED, as told");
  if (counts->notes) text_add(text, ", ");
  if (counts->notes) add_count(text, counts->notes, "note", "notes");
  text_add(text, ".\n");
}

static bool check(struct text *text, void *with) {
  struct order *order = with;
  struct problems found = problems_in(text->arena);
  order->counts =
      rulebook_check(order->rulebook, order->files, &found, text, (struct rulebook_watch){tell_rule, order});
  problems_sort(&found);
  problems_hand_over(order->problems, &found);
  close(text, &order->counts, rulebook_whole(order->rulebook));
  return true;
}

fb_text *fb_rulebook_check_new(fb_rulebook *rulebook, const char *const *files, size_t count,
                               void (*watch)(void *with, const char *rule), void *with, size_t *wrong,
                               fb_problems *problems) {
  struct beside beside = {.arena = rulebook->arena};
  struct order order = {
      .rulebook = rulebook->rulebook, .files = {files, count}, .watch = watch, .with = with, .problems = problems};
  fb_text *text = text_filled(&beside, check, &order, problems);
  *wrong = order.counts.wrong;
  return text;
}
