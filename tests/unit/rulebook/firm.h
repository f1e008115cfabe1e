// SPDX-License-Identifier: MIT
// A rulebook read from texts, a design read from a text, and what the one says of the other.
#ifndef FOREBAY_TESTS_RULEBOOK_FIRM_H
#define FOREBAY_TESTS_RULEBOOK_FIRM_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
// clang-format off: it needs those above
#include <cmocka.h>
// clang-format on

#include "design/read.h"
#include "rulebook/rulebook.h"

struct firm {
  struct arena *arena;
  struct rulebook *rulebook;
  struct problems problems;
  struct review review;
};

static inline struct firm *firm_with(struct rulebook_budget budget) {
  struct arena *arena = arena_new();
  struct firm *firm = arena_alloc(arena, sizeof *firm);
  *firm = (struct firm){.arena = arena, .problems = problems_in(arena)};
  firm->rulebook = rulebook_in(arena, budget);
  return firm;
}

static inline struct firm *firm_new(void) { return firm_with((struct rulebook_budget){0}); }

static inline void firm_free(struct firm *firm) { arena_free(firm->arena); }

static inline bool firm_read(struct firm *firm, const char *layer, const char *name, const char *text) {
  struct file_bytes file = {name, text, strlen(text)};
  return rulebook_read_file(firm->rulebook, layer, &file, &firm->problems);
}

// All problems, one a line.
static inline const char *firm_problems(struct firm *firm) {
  struct text text = text_in(firm->arena);
  for (size_t i = 0; i < firm->problems.count; i++) {
    problem_write(&text, &firm->problems.list[i]);
    text_add_char(&text, '\n');
  }
  return text_end(&text);
}

// One trade file, and nothing after it.
static inline struct firm *firm_of(const char *text) {
  struct firm *firm = firm_new();
  firm_read(firm, "trade", "rules/trade/spills.lua", text);
  rulebook_finish(firm->rulebook, &firm->problems);
  return firm;
}

// Judges a design written as text; every rule on everything.
static inline const struct review *firm_judge(struct firm *firm, const char *design) {
  struct file_bytes file = {"garden.lua", design, strlen(design)};
  struct problems *problems = arena_alloc(firm->arena, sizeof *problems);
  *problems = problems_in(firm->arena);
  struct store *store = design_read(firm->arena, &file, problems);
  struct text text = text_in(firm->arena);
  problems_write(&text, problems, 10);
  assert_string_equal(text_end(&text), "");
  firm->review = (struct review){.arena = firm->arena, .problems = problems};
  rulebook_judge(firm->rulebook, evaluation_in(firm->arena, store, problems), &firm->review,
                 (struct rulebook_watch){0});
  return &firm->review;
}

// The outcome of one rule on an entity by name, or on the only one of its kind (name NULL: the first).
static inline const struct outcome *firm_outcome(const struct firm *firm, const char *rule, const char *name) {
  for (size_t i = 0; i < firm->review.outcome_count; i++) {
    const struct outcome *outcome = &firm->review.outcomes[i];
    const char *called = firm->review.design->entities[outcome->entity].name;
    if (strcmp(firm->review.rules[outcome->rule].id, rule) != 0) continue;
    if (!name || (called && strcmp(called, name) == 0)) return outcome;
  }
  fail_msg("no outcome of rule %s on %s", rule, name ? name : "anything");
  return NULL;
}

static inline const char *firm_test_text(struct firm *firm, struct rule_test_counts *counts) {
  struct text text = text_in(firm->arena);
  *counts = rulebook_test(firm->rulebook, &text, (struct rule_test_style){0}, (struct rulebook_watch){0});
  return text_end(&text);
}

// A number within a part in 1e12; prints both otherwise.
static inline void assert_near(double got, double wanted) {
  double room = (wanted < 0 ? -wanted : wanted) * 1e-12 + 1e-15;
  if (got < wanted - room || got > wanted + room || got != got) fail_msg("got %.17g, wanted %.17g", got, wanted);
}

#endif
