// SPDX-License-Identifier: MIT
// A design read and judged by the shipped trade rules, for tests that look at single outcomes. All in one arena.
#ifndef TESTS_DESIGNS_JUDGED_H
#define TESTS_DESIGNS_JUDGED_H

#include <stdio.h>
#include <string.h>

#include "design/read.h"
#include "rulebook/rulebook.h"

struct judged {
  struct arena *arena;
  struct problems problems;  // of reading, and found while working
  struct store *store;
  struct review review;
};

static inline const char *judged_path(struct arena *arena, const char *name) {
  struct text path = text_in(arena);
  text_printf(&path, "%s/%s", FOREBAY_ROOT, name);
  return text_end(&path);
}

static inline struct file_bytes judged_file(struct judged *judged, const char *path) {
  struct file_bytes file = {.name = path};
  if (!file_read(&judged->problems, path, 1 << 20, &file)) fail_msg("%s cannot be read", path);
  return file;
}

static inline void judged_fail_on_problems(struct judged *judged, const char *of) {
  struct text said = text_in(judged->arena);
  if (judged->problems.count == 0) return;
  problems_write(&said, &judged->problems, 20);
  fail_msg("%s:\n%s", of, text_end(&said));
}

static inline struct rulebook *judged_rules(struct judged *judged) {
  struct rulebook *rulebook = rulebook_in(judged->arena, (struct rulebook_budget){0});
  const char **names;
  size_t count;
  assert_true(file_list(&judged->problems, judged_path(judged->arena, "rules/trade"), ".lua", &names, &count, NULL));
  assert_int_not_equal(count, 0);
  for (size_t i = 0; i < count; i++) {
    struct file_bytes file = judged_file(judged, names[i]);
    rulebook_read_file(rulebook, "trade", &file, &judged->problems);
  }
  rulebook_finish(rulebook, &judged->problems);
  judged_fail_on_problems(judged, "rules/trade");
  return rulebook;
}

// name: under the root of the source tree. Ends with judged_free.
static inline struct judged judged_read(const char *name) {
  struct judged judged = {.arena = arena_new()};
  judged.problems = problems_in(judged.arena);
  struct file_bytes file = judged_file(&judged, judged_path(judged.arena, name));
  judged.store = design_read(judged.arena, &file, &judged.problems);
  judged_fail_on_problems(&judged, name);
  assert_non_null(judged.store);
  return judged;
}

static inline void judged_judge(struct judged *judged) {
  struct rulebook *rulebook = judged_rules(judged);
  judged->review = (struct review){.arena = judged->arena, .problems = &judged->problems};
  struct evaluation *evaluation = evaluation_in(judged->arena, judged->store, &judged->problems);
  rulebook_judge(rulebook, evaluation, &judged->review, (struct rulebook_watch){0});
}

static inline void judged_free(struct judged *judged) { arena_free(judged->arena); }

// As the expect files write it: the name, or the kind of what has none.
static inline const char *judged_name(const struct judged *judged, int entity) {
  if (entity < 0) return "design";
  const struct entity *it = &judged->store->entities[entity];
  return it->name ? it->name : catalogue_kind(it->kind)->name;
}

static inline const char *outcome_word(enum outcome_sort sort) {
  static const char *const words[] = {[OUTCOME_CLEAR] = "clear",
                                      [OUTCOME_FLAGGED] = "flagged",
                                      [OUTCOME_UNANSWERED] = "unanswered",
                                      [OUTCOME_NOT_APPLICABLE] = "not applicable",
                                      [OUTCOME_BROKEN] = "broken"};
  return words[sort];
}

static inline const struct outcome *judged_outcome(const struct judged *judged, const char *rule, const char *entity) {
  for (size_t i = 0; i < judged->review.outcome_count; i++) {
    const struct outcome *it = &judged->review.outcomes[i];
    if (strcmp(judged->review.rules[it->rule].id, rule) == 0 && strcmp(judged_name(judged, it->entity), entity) == 0) {
      return it;
    }
  }
  return NULL;
}

#endif
