// SPDX-License-Identifier: MIT
// One rule on one entity, outside of a review.
#include "rulebook/run.h"

void rulebook_judge_one(struct rulebook *book, struct evaluation *ev, size_t rule_number, int entity,
                        struct outcome *outcome) {
  const struct rule *rule = book->in_force[rule_number];
  struct run *run = arena_alloc(evaluation_arena(ev), sizeof *run);
  book->generation++;
  *run = (struct run){.book = book,
                      .rule = rule,
                      .limits = &rule->now,
                      .limit_table = rule->limit_now,
                      .ev = ev,
                      .arena = evaluation_arena(ev),
                      .entity = entity};
  *outcome = (struct outcome){.rule = rule_number, .entity = entity};
  run_judge(run, outcome);
}

uint64_t rulebook_spent(const struct rulebook *rulebook) { return script_spent(rulebook->script); }
