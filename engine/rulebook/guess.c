// SPDX-License-Identifier: MIT
#include "rulebook/guess.h"

#include <math.h>
#include <string.h>

static bool is_by_guess(const struct measurement *measured) {
  return !measured->how || strcmp(measured->how, catalogue_word(WORD_taken_with_eye)->word) == 0;
}

// What an example states counts as measured, and is as it says.
static bool heeds_guesses(const struct run *run) {
  return run->rule->facts.life_safety && !evaluation_design(run->ev)->example;
}

bool guess_is(const struct run *run, int entity, enum row_id row) {
  if (!heeds_guesses(run) || entity < 0) return false;
  const struct store *design = evaluation_design(run->ev);
  const struct measurement *measured = store_measured(design, store_slot(design, entity, row));
  return measured && is_by_guess(measured);
}

double guess_replaced(struct run *run, int entity, enum row_id row) {
  double value = evaluation_worked_out(run->ev, entity, row);
  if (!isnan(value)) return value;
  run->because = "it was taken by eye, or nobody says with what, and lives depend on it";
  evaluation_missing(run->ev, NULL);
  return (double)NAN;
}

// ---- further down ----

struct searching {
  struct run *run;
  bool *seen;  // by slot
  int found;   // -1: none
};

static void search(struct searching *s, const int *slots, size_t count, bool own) {
  const struct store *design = evaluation_design(s->run->ev);
  for (size_t i = 0; i < count && s->found < 0; i++) {
    if (s->seen[slots[i]]) continue;
    s->seen[slots[i]] = true;
    const struct measurement *measured = store_measured(design, slots[i]);
    if (measured && !own && is_by_guess(measured)) s->found = slots[i];
    const int *reads = NULL;
    size_t read_count = measured ? 0 : evaluation_reads(s->run->ev, slots[i], &reads);
    search(s, reads, read_count, false);
  }
}

static bool any_guess(const struct store *design) {
  for (size_t m = 0; m < design->measurement_count; m++) {
    if (is_by_guess(&design->measurements[m])) return true;
  }
  return false;
}

// What the rule itself read of such values was replaced; what they went into was not.
bool guess_underlies(struct run *run) {
  const struct store *design = evaluation_design(run->ev);
  if (!heeds_guesses(run) || !any_guess(design)) return false;
  struct searching s = {run, arena_array(run->arena, design->slot_count + 1, sizeof(bool)), -1};
  search(&s, run->reader.reads, run->reader.count, true);
  if (s.found < 0) return false;
  struct text words = text_in(run->arena);
  int entity;
  enum row_id row = store_row_of_slot(design, s.found, &entity);
  text_add(&words, "it rests on ");
  store_describe(&words, design, entity, row);
  text_add(&words, ", taken by eye or nobody says with what, and lives depend on it: measure that, or leave it out");
  run->because = text_end(&words);
  return true;
}
